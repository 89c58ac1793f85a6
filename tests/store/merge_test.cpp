// Bringing another notebook in: what is told about it, names that are taken, photos, older and newer files, and what
// goes wrong. merge_random_test.cpp looks at the rules for fields and rows over many random edits. Invented data.
#include "core/store/merge.h"
#include "tests/support/child_process.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <csignal>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::MergeReport;
using store::NotebookFile;
using store::Writer;
using testing::ElementsAre;
using testing::IsEmpty;

namespace {

class Merge : public testing::Test {
protected:
    [[nodiscard]] QString otherPath() const { return scratch_.inFolder("other.washfast"); }
    /// The other one becomes a copy of ours.
    void part()
    {
        other_.reset();
        QFile::remove(otherPath());
        must(ours().copyTo(otherPath()));
    }
    [[nodiscard]] NotebookFile& ours()
    {
        if (!ours_)
            ours_ = scratch_.open();
        return *ours_;
    }
    [[nodiscard]] NotebookFile& other()
    {
        if (!other_)
            other_ = must(NotebookFile::open(otherPath(), scratch_.catalogue()));
        return *other_;
    }
    void closeOther() { other_.reset(); }
    MergeReport takeIn() { return must(merge(ours(), otherPath())); }

    static qint64 addNamed(NotebookFile& file, Entity entity, const char* column, const char* name,
        std::vector<store::FieldValue> more = {})
    {
        more.emplace_back(text(column), Known { text(name) });
        qint64 id = 0;
        must(file.perform(text("Add"), [&](Writer& writer) -> Outcome {
            id = must(writer.add(entity, 0, more));
            return Done {};
        }));
        return id;
    }
    static void remove(NotebookFile& file, Ref row)
    {
        must(file.perform(text("Remove"), [&](Writer& writer) { return writer.remove(row); }));
    }
    /// Names of an entity's rows that are seen, in the order of their ids.
    static QStringList names(NotebookFile& file, Entity entity)
    {
        const auto notebook = must(file.read());
        QStringList all;
        for (int row = 0; row < notebook.table(entity).rows(); ++row)
            all << notebook.nameOf({ entity, notebook.table(entity).id(row) });
        return all;
    }
    static QStringList sentences(const MergeReport& report)
    {
        QStringList all;
        for (const auto& difference : report.differences)
            all << difference.sentence();
        return all;
    }

    ScratchNotebook scratch_;

private:
    std::unique_ptr<NotebookFile> ours_, other_;
};

} // namespace

TEST_F(Merge, StrangersComeWithAllThatTheyPointAt)
{
    Shared shared;
    shared.session = addNamed(other(), Entity::Session, "session_code", "S1");
    shared.mix = addNamed(other(), Entity::Mix, "mix_code", "M1");
    shared.cover = addNamed(other(), Entity::Cover, "cover_name", "G4");
    addNamed(ours(), Entity::Mix, "mix_code", "M9"); // so that ids are not the same
    const auto print = addWholePrint(other(), "P1", 3, shared);
    const QByteArray bytes("\x00\x01 photo \xff", 10);
    must(other().perform(text("Photo"), [&](Writer& writer) -> Outcome {
        const auto photo = must(writer.addPhoto(print.value, bytes, {}));
        return writer.set(
            { Entity::Reading, 1 }, text("reading_photo"), Known { Link { photo } }); // a reading points at it
    }));

    const auto report = takeIn();
    EXPECT_EQ(report.added[size_t(Entity::Print)], 1);
    EXPECT_EQ(report.added[size_t(Entity::Reading)], 4);
    EXPECT_EQ(report.addedInAll(), 3 + 1 + childrenOfWholePrint + 1);
    EXPECT_EQ(report.changed, 0);
    EXPECT_THAT(report.differences, IsEmpty());
    const auto notebook = must(ours().read());
    const auto here = notebook.byName(Entity::Print, text("P1"));
    ASSERT_TRUE(here);
    const auto mix = notebook.get({ Entity::Print, *here }, u"print_mix").link();
    ASSERT_TRUE(mix);
    EXPECT_NE(*mix, shared.mix);
    EXPECT_EQ(notebook.nameOf({ Entity::Mix, *mix }), text("M1"));
    ASSERT_EQ(notebook.table(Entity::Photo).rows(), 1);
    const auto photo = notebook.table(Entity::Photo).id(0);
    EXPECT_EQ(must(ours().photo({ photo })), bytes);
    EXPECT_EQ(notebook.get({ Entity::Reading, notebook.table(Entity::Reading).id(0) }, u"reading_photo").link(), photo);
    EXPECT_EQ(must(ours().nextUndo())->label, text("Bring in other.washfast"));
}

TEST_F(Merge, NamesThatAreTakenGetANumber)
{
    addNamed(ours(), Entity::Session, "session_code", "S1");
    addNamed(ours(), Entity::Session, "session_code", "S1 (2)");
    addPrint(ours(), "P1");
    addNamed(other(), Entity::Session, "session_code", "s1");
    addPrint(other(), "P1");
    addPrint(other(), "P2");
    const auto report = takeIn();
    EXPECT_EQ(names(ours(), Entity::Session), QStringList({ text("S1"), text("S1 (2)"), text("s1 (3)") }));
    EXPECT_EQ(names(ours(), Entity::Print), QStringList({ text("P1"), text("P1 (2)"), text("P2") }));
    ASSERT_EQ(report.renamed.size(), 2U);
    EXPECT_EQ(report.renamed[0].from, text("s1"));
    EXPECT_EQ(report.renamed[0].to, text("s1 (3)"));
    const auto again = takeIn();
    EXPECT_EQ(again.step, 0);
    EXPECT_THAT(again.renamed, IsEmpty());
    EXPECT_THAT(again.differences, IsEmpty());
    // A name that is given there later is taken.
    must(setField(other(), { Entity::Print, 1 }, "print_code", Known { text("Q1") }));
    EXPECT_EQ(takeIn().changed, 1);
    EXPECT_EQ(names(ours(), Entity::Print), QStringList({ text("P1"), text("Q1"), text("P2") }));
}

TEST_F(Merge, NamesCanBeExchangedAndGivenOn)
{
    for (const char* code : { "A", "B", "C", "D" })
        addPrint(ours(), code);
    part();
    must(other().perform(text("Exchange"), [](Writer& writer) -> Outcome {
        for (const auto& [id, name] : { std::pair(1, "x"), std::pair(2, "A"), std::pair(1, "B"), std::pair(4, "D2") })
            must(writer.set({ Entity::Print, id }, text("print_code"), Known { text(name) }));
        return writer.remove({ Entity::Print, 3 });
    }));
    addPrint(other(), "C"); // the name of the one that was removed
    addPrint(other(), "D"); // and of the one that was renamed
    const auto report = takeIn();
    EXPECT_THAT(report.renamed, IsEmpty());
    EXPECT_EQ(report.changed, 3);
    EXPECT_EQ(report.removed[size_t(Entity::Print)], 1);
    EXPECT_EQ(names(ours(), Entity::Print), QStringList({ text("B"), text("A"), text("D2"), text("C"), text("D") }));
    must(ours().undo());
    EXPECT_EQ(names(ours(), Entity::Print), QStringList({ text("A"), text("B"), text("C"), text("D") }));
}

TEST_F(Merge, DifferencesNameTheRecordTheFieldAndBothValues)
{
    const auto mix = addNamed(ours(), Entity::Mix, "mix_code", "M1");
    const auto next = addNamed(ours(), Entity::Mix, "mix_code", "M2");
    const auto print = addWholePrint(ours(), "P1");
    part();
    must(setField(ours(), print, "coat_volume_ml", Known { 0.75 }));
    must(setField(other(), print, "coat_volume_ml", Known { 0.5, Evidence::Estimated }));
    must(setField(ours(), print, "print_mix", Known { Link { mix } }));
    must(setField(other(), print, "print_mix", Known { Link { next } }));
    must(setField(ours(), { Entity::Bath, 2 }, "bath_ph", Known { 7.0 }));
    must(setField(other(), { Entity::Bath, 2 }, "bath_ph", Known { 6.5 }));
    must(setField(other(), { Entity::Bath, 2 }, "bath_litres", Known {})); // there only
    must(setField(ours(), { Entity::Bath, 2 }, "bath_minutes", Known { 9.0 })); // here only
    must(setField(ours(), print, "print_notes", Known { text("same") }));
    must(setField(other(), print, "print_notes", Known { text("same") }));
    const auto report = takeIn();
    EXPECT_EQ(report.changed, 1);
    EXPECT_THAT(sentences(report),
        ElementsAre(text("print P1, Mix: here M1, in the other notebook M2. What stands here stays."),
            text("print P1, Mix on the sheet [mL]: here 0.75, in the other notebook 0.5 (estimated). What stands here "
                 "stays."),
            text("bath 2 of print P1, pH: here 7, in the other notebook 6.5. What stands here stays.")));
    EXPECT_EQ(report.differences[1].print, text("P1"));
    EXPECT_EQ(report.differences[1].column, text("coat_volume_ml"));
    EXPECT_EQ(report.differences[1].theirs, Value(0.5));
    EXPECT_FALSE(fieldOf(ours(), { Entity::Bath, 2 }, "bath_litres").has());
    EXPECT_EQ(fieldOf(ours(), { Entity::Bath, 2 }, "bath_minutes"), Known { 9.0 });
    EXPECT_EQ(takeIn().differences.size(), 3U) << "told again until it is settled";
    must(setField(ours(), { Entity::Bath, 2 }, "bath_ph", Known { 6.5 }));
    EXPECT_EQ(takeIn().differences.size(), 2U);
}

TEST_F(Merge, WhatWasRemovedGoesUnlessItWasTouched)
{
    const auto untouched = addWholePrint(ours(), "P1");
    const auto touched = addWholePrint(ours(), "P2");
    part();
    remove(other(), untouched);
    remove(other(), touched);
    must(setField(ours(), { Entity::Bath, 4 }, "bath_ph", Known { 7.0 })); // of P2
    const auto report = takeIn();
    EXPECT_EQ(names(ours(), Entity::Print), QStringList(text("P2")));
    EXPECT_EQ(report.removedInAll(), 1 + childrenOfWholePrint);
    EXPECT_THAT(sentences(report),
        ElementsAre(text("print P2: was removed in the other notebook and changed here since; it stays.")));
    EXPECT_EQ(must(ours().read()).children(Entity::Bath, touched.value).size(), 2U);
    // What was removed here stays away.
    remove(ours(), touched);
    const auto again = takeIn();
    EXPECT_EQ(names(ours(), Entity::Print), QStringList());
    EXPECT_EQ(again.step, 0);
}

TEST_F(Merge, UndoneStepsAreNoNews)
{
    const auto print = addPrint(ours(), "P1");
    part();
    must(setField(ours(), print, "coat_volume_ml", Known { 0.75 }));
    must(ours().undo());
    must(setField(other(), print, "coat_volume_ml", Known { 0.5 }));
    must(setField(other(), print, "coat_passes", Known { 2.0 }));
    must(other().undo());
    const auto report = takeIn();
    EXPECT_THAT(report.differences, IsEmpty());
    EXPECT_EQ(report.changed, 1);
    EXPECT_EQ(fieldOf(ours(), print, "coat_volume_ml"), Known { 0.5 });
    // Undoing the merge takes it back, and it can be done again.
    must(ours().undo());
    EXPECT_FALSE(fieldOf(ours(), print, "coat_volume_ml").has());
    EXPECT_EQ(takeIn().changed, 1);
    // What each changes after a merge comes over without complaint.
    must(setField(other(), print, "coat_volume_ml", Known { 0.55 }));
    EXPECT_EQ(takeIn().changed, 1);
    EXPECT_EQ(fieldOf(ours(), print, "coat_volume_ml"), Known { 0.55 });
}

TEST_F(Merge, TheOtherIsNeverChanged)
{
    addPrint(ours(), "P0");
    addWholePrint(other(), "P1");
    closeOther();
    const auto before = bytesOf(otherPath());
    const auto files = scratch_.names().filter(text("other"));
    EXPECT_GT(takeIn().step, 0);
    EXPECT_EQ(bytesOf(otherPath()), before);
    EXPECT_EQ(scratch_.names().filter(text("other")), files);
    // Also while it is open somewhere else, with what it has not yet moved from its log.
    addPrint(other(), "P2");
    EXPECT_EQ(takeIn().added[size_t(Entity::Print)], 1);
    addPrint(other(), "P3");
    EXPECT_EQ(names(other(), Entity::Print), QStringList({ text("P1"), text("P2"), text("P3") }));
}

TEST_F(Merge, ItselfAndTheSameAgainBringNothing)
{
    addPrint(ours(), "P1");
    EXPECT_EQ(fails(merge(ours(), scratch_.path())).code, Trouble::BadInput);
    QFile::link(scratch_.path(), scratch_.inFolder("alias.washfast"));
    EXPECT_EQ(fails(merge(ours(), scratch_.inFolder("alias.washfast"))).code, Trouble::BadInput);
    part();
    const auto report = takeIn();
    EXPECT_EQ(report.step, 0);
    EXPECT_EQ(report.copy, QString());
    EXPECT_FALSE(must(ours().nextUndo())->label.startsWith(text("Bring in")));
}

TEST_F(Merge, AnOlderNotebookIsReadThroughACopy)
{
    for (const char* name : { "schema-1.washfast", "schema-2.washfast" }) {
        const auto bytes = bytesOf(QStringLiteral(WASHFAST_TEST_DATA "/notebooks/") + text(name));
        putBytes(scratch_.inFolder(name), bytes);
        const auto report = must(merge(ours(), scratch_.inFolder(name)));
        EXPECT_GT(report.addedInAll(), 20) << name;
        EXPECT_EQ(bytesOf(scratch_.inFolder(name)), bytes) << name;
        EXPECT_FALSE(QFile::exists(scratch_.inFolder(name) + QStringLiteral(".copies"))) << name;
    }
    const auto notebook = must(ours().read());
    EXPECT_THAT(notebook.problems, IsEmpty());
    const auto photo = notebook.table(Entity::Photo).id(0);
    EXPECT_EQ(must(ours().photo({ photo })), "these bytes stand for a photo");
}

TEST_F(Merge, ANewerNotebookIsRefused)
{
    addPrint(other(), "P1");
    closeOther();
    Outside(otherPath()).run("PRAGMA user_version = 99");
    const auto error = fails(merge(ours(), otherPath()));
    EXPECT_EQ(error.code, Trouble::TooNew);
    EXPECT_TRUE(error.says.contains(text("99")));
    EXPECT_EQ(names(ours(), Entity::Print), QStringList());
}

TEST_F(Merge, WhatIsNoNotebookIsRefused)
{
    addPrint(ours(), "P1");
    putBytes(
        scratch_.inFolder("text.txt"), "not a notebook, though it is long enough to look at: " + QByteArray(99, '.'));
    EXPECT_EQ(fails(merge(ours(), scratch_.inFolder("text.txt"))).code, Trouble::NotANotebook);
    EXPECT_EQ(fails(merge(ours(), scratch_.inFolder("none.washfast"))).code, Trouble::NotFound);
    EXPECT_FALSE(QFile::exists(scratch_.inFolder("none.washfast")));
    for (int n = 0; n < 40; ++n)
        addWholePrint(other(), QStringLiteral("X%1").arg(n).toUtf8().constData(), n);
    closeOther();
    auto bytes = bytesOf(otherPath());
    putBytes(otherPath(), bytes.left(bytes.size() - 100));
    EXPECT_EQ(fails(merge(ours(), otherPath())).code, Trouble::Damaged);
    for (qsizetype at = bytes.size() / 2; at < bytes.size() / 2 + 20'000; ++at)
        bytes[at] = char(at * 7);
    putBytes(otherPath(), bytes);
    EXPECT_EQ(fails(merge(ours(), otherPath())).code, Trouble::Damaged);
    EXPECT_EQ(names(ours(), Entity::Print), QStringList(text("P1")));
}

TEST_F(Merge, StoppedHalfWayNothingIsWritten)
{
    addPrint(ours(), "P0");
    for (int n = 1; n < 30; ++n)
        addWholePrint(other(), QStringLiteral("P%1").arg(n).toUtf8().constData(), n);
    store::MergeOptions options;
    int asked = 0;
    options.keep_going = [&](double share) {
        EXPECT_TRUE(share >= 0 && share <= 1);
        return ++asked < 2;
    };
    EXPECT_EQ(fails(merge(ours(), otherPath(), options)).says, text("Stopped; nothing was brought in."));
    EXPECT_EQ(asked, 2);
    EXPECT_EQ(names(ours(), Entity::Print), QStringList(text("P0")));
    EXPECT_FALSE(QFile::exists(scratch_.path() + QStringLiteral(".copies")));
    EXPECT_EQ(takeIn().added[size_t(Entity::Print)], 29);
}

TEST_F(Merge, KilledHalfWayTheFileIsAsItWas)
{
    addPrint(ours(), "P0");
    for (int n = 1; n < 30; ++n)
        addWholePrint(other(), QStringLiteral("P%1").arg(n).toUtf8().constData(), n);
    closeOther();
    const auto said = inChild([&]() -> std::string {
        const auto file = scratch_.open();
        store::MergeOptions options;
        int asked = 0;
        options.keep_going = [&](double) {
            if (++asked == 2)
                std::raise(SIGKILL);
            return true;
        };
        must(merge(*file, otherPath(), options));
        return "merged";
    });
    EXPECT_EQ(said, " [ended by signal 9]");
    EXPECT_EQ(must(ours().integrity()), text("ok"));
    EXPECT_EQ(names(ours(), Entity::Print), QStringList(text("P0")));
    EXPECT_EQ(must(ours().read()).table(Entity::Bath).rows(), 0);
    EXPECT_EQ(takeIn().added[size_t(Entity::Print)], 29);
}

TEST_F(Merge, AThirdNotebookThatHasTheSameRowsAddsNoneTwice)
{
    addWholePrint(other(), "P1");
    closeOther();
    const auto third = scratch_.inFolder("third.washfast");
    QFile::copy(otherPath(), third);
    EXPECT_EQ(takeIn().added[size_t(Entity::Print)], 1);
    const auto report = must(merge(ours(), third));
    EXPECT_EQ(report.step, 0);
    EXPECT_THAT(report.differences, IsEmpty());
    {
        const auto file = must(NotebookFile::open(third, scratch_.catalogue()));
        must(setField(*file, { Entity::Print, 1 }, "coat_passes", Known { 5.0 }));
    }
    EXPECT_EQ(must(merge(ours(), third)).changed, 1);
}

} // namespace WASHFAST_FILE
