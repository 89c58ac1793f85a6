// Bringing together notebooks of which one is damaged: refused in words before anything is written. And where a merge
// has begun all the same, a row that an index names and that is not there is an error, never memory that is not there.
#include "core/store/merge.h"
#include "core/store/merge_rows.h"
#include "tests/support/child_process.h"
#include "tests/support/damaged_notebook.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::NotebookFile;
using store::Writer;

namespace {

constexpr unsigned seeds = 168; // twenty-four of each kind

/// Two notebooks that were one and have parted: fields changed, rows added, removed, renamed and brought back on both
/// sides, so that a merge has all kinds of work to do.
struct Parted {
    QByteArray ours, theirs;
};

void change(NotebookFile& file, int first, const char* note)
{
    const auto perform = [&](const std::function<Outcome(Writer&)>& work) { must(file.perform(text(note), work)); };
    for (int n = first; n < 12; n += 3)
        perform([&](Writer& writer) {
            return writer.set(Ref(Entity::Print, n), text("print_notes"), Known { text(note) });
        });
    perform([&](Writer& writer) { return writer.remove(Ref(Entity::Print, first)); });
    perform([&](Writer& writer) {
        return writer.set(Ref(Entity::Print, first + 6), text("print_code"), Known { text(note) });
    });
    perform([&](Writer& writer) {
        return writer.set(Ref(Entity::Bath, 9 + first), text("bath_minutes"), Known { 3.0 + first });
    });
    perform([&](Writer& writer) { return writer.remove(Ref(Entity::Mix, 1)); });
    must(file.undo());
    addWholePrint(file, qPrintable(text("new of ") + text(note)), first, { 0, 1, 1, 1 });
}

const Parted& parted()
{
    static const Parted both = [] {
        const ScratchNotebook scratch;
        const auto other = scratch.inFolder("other.washfast");
        {
            const auto file = scratch.open();
            must(file->perform(text("Shelf"), [](Writer& writer) -> Outcome {
                must(writer.add(Entity::Mix, 0, { { text("mix_code"), Known { text("M1") } } }));
                must(writer.add(Entity::Paper, 0, { { text("paper_name"), Known { text("Rag") } } }));
                must(writer.add(Entity::Cover, 0, { { text("cover_name"), Known { text("Glass") } } }));
                return Done {};
            }));
            for (int n = 1; n <= 12; ++n)
                addWholePrint(*file, qPrintable(QStringLiteral("P%1").arg(n)), n, { 0, 1, 1, 1 });
            must(file->copyTo(other));
            change(*file, 1, "ours");
        }
        change(*must(NotebookFile::open(other, scratch.catalogue())), 2, "theirs");
        return Parted { bytesOf(scratch.path()), bytesOf(other) };
    }();
    return both;
}

class MergeDamage : public testing::Test {
protected:
    [[nodiscard]] QString ours() const { return scratch_.path(); }
    [[nodiscard]] QString theirs() const { return scratch_.inFolder("other.washfast"); }
    [[nodiscard]] bool isDamaged(const QByteArray& bytes) const
    {
        return sqliteSays(bytes, scratch_.inFolder("judge")) != QLatin1String("ok");
    }
    ScratchNotebook scratch_;
};

} // namespace

TEST_F(MergeDamage, TheSoundOnesComeTogether)
{
    ASSERT_FALSE(isDamaged(parted().ours));
    ASSERT_FALSE(isDamaged(parted().theirs));
    putBytes(ours(), parted().ours);
    putBytes(theirs(), parted().theirs);
    const auto file = scratch_.open();
    const auto report = must(store::merge(*file, theirs()));
    EXPECT_GT(report.addedInAll(), childrenOfWholePrint);
    EXPECT_GT(report.changed, 2);
    EXPECT_EQ(report.removed[size_t(Entity::Print)], 1);
    EXPECT_EQ(must(file->integrity()), text("ok"));
}

TEST_F(MergeDamage, EitherSideIsRefusedInWordsAndNothingIsWritten)
{
    int refused = 0;
    for (unsigned seed = 0; seed < seeds; ++seed) {
        const bool our_side = seed % 2 == 0;
        const auto& whole = our_side ? parted().ours : parted().theirs;
        const auto broken = damagedNotebook(whole, seed / 2);
        if (!isDamaged(broken))
            continue;
        SCOPED_TRACE("seed " + std::to_string(seed));
        putBytes(ours(), our_side ? broken : parted().ours);
        putBytes(theirs(), our_side ? parted().theirs : broken);
        {
            const auto file = scratch_.tryOpen();
            const auto report = file ? store::merge(**file, theirs()) : Result<store::MergeReport>(file.error());
            const auto error = fails(report);
            EXPECT_EQ(error.code, Trouble::Damaged) << error.sentence().toStdString();
            ++refused;
        }
        EXPECT_EQ(bytesOf(ours()), our_side ? broken : parted().ours);
        EXPECT_EQ(bytesOf(theirs()), our_side ? parted().theirs : broken);
    }
    EXPECT_GE(refused, 100);
}

// The checks that come first are left out here.
TEST_F(MergeDamage, WhatIsNotThereIsNeverTakenAsIfItWere)
{
    int failed = 0;
    for (unsigned seed = 0; seed < seeds; ++seed) {
        const bool our_side = seed % 2 == 0;
        putBytes(ours(), our_side ? damagedNotebook(parted().ours, seed / 2) : parted().ours);
        putBytes(theirs(), our_side ? parted().theirs : damagedNotebook(parted().theirs, seed / 2));
        const auto said = inChild([&]() -> std::string {
            store::OpenOptions options;
            options.look = store::LookFirst::None;
            const auto file = NotebookFile::open(ours(), scratch_.catalogue(), options);
            options.only_read = true;
            const auto other = NotebookFile::open(theirs(), scratch_.catalogue(), options);
            if (!file || !other)
                return "not opened";
            auto& here = (*file)->connection();
            auto& there = (*other)->connection();
            const auto step = (*file)->perform(text("Bring in"), [&](Writer& writer) -> Outcome {
                auto sides = store::newsOfBoth(here, there);
                if (!sides)
                    return sides.error();
                store::RowMerger rows(here, there, writer, std::move(sides->first), std::move(sides->second));
                return rows.run({});
            });
            return step ? "brought in" : "refused: " + step.error().says.toStdString();
        });
        EXPECT_TRUE(said == "not opened" || said == "brought in" || said.starts_with("refused: "))
            << "seed " << seed << ": " << said;
        failed += said.starts_with("refused: ") ? 1 : 0;
    }
    EXPECT_GE(failed, 20) << "damage in the middle of a merge";
}

// Each way to an optional that may be empty: the row is in the index by which it is looked for, and not in its table.
TEST_F(MergeDamage, ARowThatOnlyItsIndexKnowsIsAnError)
{
    for (const bool our_side : { true, false })
        for (const char* table : { "print", "bath", "mix", "exposure", "reading" }) {
            putBytes(ours(), parted().ours);
            putBytes(theirs(), parted().theirs);
            // The rows of the table are taken out, those of its indexes stay.
            const auto path = our_side ? ours() : theirs();
            const auto page = Outside(path)
                                  .row(qPrintable(QStringLiteral("SELECT rootpage FROM sqlite_schema WHERE name = '%1'")
                                                      .arg(QLatin1String(table))))
                                  .toLongLong();
            auto bytes = bytesOf(path);
            const auto at = (page - 1) * pageSizeOf(bytes);
            // An empty leaf of a table: sqlite.org/fileformat2.html, section 1.6.
            bytes.replace(at, 8, QByteArray("\x0d\x00\x00\x00\x00\x00\x00\x00", 8));
            putBytes(path, bytes);
            const auto file = scratch_.tryOpen();
            ASSERT_TRUE(file) << table;
            EXPECT_EQ(fails(store::merge(**file, theirs())).code, Trouble::Damaged) << table;
        }
}

} // namespace WASHFAST_FILE
