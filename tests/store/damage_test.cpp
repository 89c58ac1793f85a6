// A damaged file: never a crash, never a changed byte, and a sentence that points at the copies.
#include "tests/support/child_process.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

/// A closed notebook with twenty whole prints, made once.
const QByteArray& soundBytes()
{
    static const QByteArray bytes = [] {
        const ScratchNotebook scratch;
        auto file = scratch.open();
        must(file->perform(QStringLiteral("Log"), [](store::Writer& writer) -> Outcome {
            for (int n = 0; n < 20; ++n)
                if (const auto print = addRows(writer, wholePrint(QStringLiteral("P%1").arg(n), n)); !print)
                    return print.error();
            return Done {};
        }));
        file.reset();
        return bytesOf(scratch.path());
    }();
    return bytes;
}

/// SQLite's page size (bytes 16 and 17 of the header, sqlite.org/fileformat2.html).
qsizetype pageSize()
{
    const auto& bytes = soundBytes();
    return (qsizetype(quint8(bytes[16])) << 8) | quint8(bytes[17]);
}

struct Found {
    std::optional<Error> error; // of opening, reading or checking
    bool noticed = false; // by one of them, or by the check's findings
};

Found lookInto(const ScratchNotebook& scratch)
{
    const auto file = scratch.tryOpen();
    if (!file)
        return { file.error(), true };
    const auto notebook = (*file)->read();
    if (!notebook)
        return { notebook.error(), true };
    const auto integrity = (*file)->integrity();
    if (!integrity)
        return { integrity.error(), true };
    return { std::nullopt, *integrity != QLatin1String("ok") };
}

} // namespace

TEST(Damaged, TheSoundFileIsSound)
{
    const ScratchNotebook scratch;
    putBytes(scratch.path(), soundBytes());
    EXPECT_FALSE(lookInto(scratch).noticed);
}

TEST(Damaged, ATruncatedFileIsRefusedAndLeftAsItIs)
{
    const auto& sound = soundBytes();
    for (const qsizetype left : { qsizetype(100), qsizetype(512), pageSize(), pageSize() + 1, sound.size() / 2,
             sound.size() - pageSize(), sound.size() - 1 }) {
        const ScratchNotebook scratch;
        putBytes(scratch.path(), sound.left(left));
        const auto error = fails(scratch.tryOpen());
        EXPECT_EQ(error.code, Trouble::Damaged) << left << ": " << error.says.toStdString();
        EXPECT_TRUE(error.says.contains(QStringLiteral("copy"))) << error.says.toStdString();
        EXPECT_EQ(bytesOf(scratch.path()), sound.left(left)) << left;
    }
}

TEST(Damaged, APageOfRubbishIsNoticedWhereverItIs)
{
    const auto& sound = soundBytes();
    std::mt19937 random(11);
    const auto pages = sound.size() / pageSize();
    ASSERT_GT(pages, 60);
    int refused = 0;
    for (qsizetype page = 0; page < pages; ++page) {
        QByteArray bytes = sound;
        // The first page keeps its header, or the file would be no notebook at all.
        for (qsizetype at = page * pageSize() + (page == 0 ? 100 : 0); at < (page + 1) * pageSize(); ++at)
            bytes[at] = char(random() & 0xff);
        const ScratchNotebook scratch;
        putBytes(scratch.path(), bytes);
        const auto found = lookInto(scratch);
        EXPECT_TRUE(found.noticed) << "page " << page + 1;
        if (found.error) {
            ++refused;
            EXPECT_EQ(found.error->code, Trouble::Damaged) << page + 1 << ": " << found.error->says.toStdString();
            EXPECT_EQ(bytesOf(scratch.path()), bytes) << "page " << page + 1;
        }
    }
    EXPECT_GT(refused, 10);
}

// SQLite keeps no checksums: a flipped byte inside a value may pass. It must never end the program.
TEST(Damaged, FlippedBytesNeverEndTheProgram)
{
    const auto& sound = soundBytes();
    int noticed = 0;
    for (unsigned seed = 0; seed < 60; ++seed) {
        std::mt19937 random(seed);
        QByteArray bytes = sound;
        for (int flips = 0; flips < 24; ++flips) {
            const auto at = qsizetype(100 + random() % quint64(bytes.size() - 100));
            bytes[at] = char(bytes[at] ^ char(1 << random() % 8));
        }
        const ScratchNotebook scratch;
        putBytes(scratch.path(), bytes);
        const auto said = inChild([&]() -> std::string {
            const auto found = lookInto(scratch);
            return found.noticed ? "noticed" : "passed";
        });
        EXPECT_TRUE(said == "noticed" || said == "passed") << "seed " << seed << ": " << said;
        noticed += said == "noticed" ? 1 : 0;
    }
    EXPECT_GT(noticed, 0);
}

TEST(Damaged, ALogOfRubbishTakesNothingFromTheFile)
{
    const ScratchNotebook scratch;
    putBytes(scratch.path(), soundBytes());
    const auto logged = inChild([&] {
        const auto file = scratch.open();
        addWholePrint(*file, "in the log");
        _exit(0); // without closing: the print stays in the log
        return std::string();
    });
    ASSERT_EQ(logged, "");
    const auto log = scratch.path() + QStringLiteral("-wal");
    auto bytes = bytesOf(log);
    ASSERT_GT(bytes.size(), 5000);
    // The end of the log is lost: SQLite's checksums (sqlite.org/fileformat2.html, section 4.2) tell where it stops
    // being sound.
    for (auto at = bytes.size() - 2000; at < bytes.size(); ++at)
        bytes[at] = '\x55';
    putBytes(log, bytes);
    QFile::remove(scratch.path() + QStringLiteral("-shm"));
    const auto file = scratch.open();
    EXPECT_EQ(must(file->read()).prints().rows(), 20);
    EXPECT_EQ(must(file->integrity()), text("ok"));
    addWholePrint(*file, "after");
    EXPECT_EQ(must(file->read()).prints().rows(), 21);
}

} // namespace WASHFAST_FILE
