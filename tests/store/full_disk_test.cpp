// The disk is full: a sentence says so, what was committed is safe, and when there is room again the work goes on.
#include "tests/support/child_process.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include "core/store/copies.h"

#include <csignal>
#include <gmock/gmock.h>
#include <sys/resource.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

Result<qint64> tryToLog(store::NotebookFile& file, int n)
{
    return file.perform(QStringLiteral("Log"), [n](store::Writer& writer) -> Outcome {
        const auto print = addRows(writer, wholePrint(QStringLiteral("P%1").arg(n), n));
        if (!print)
            return print.error();
        const auto photo = writer.addPhoto(*print, QByteArray(30'000, char('a' + n % 26)), {});
        return photo.ok() ? Outcome(Done {}) : Outcome(photo.error());
    });
}

struct Filled {
    int logged = 0;
    Error error;
};

/// Logs until it fails, which must happen.
Filled logUntilFull(store::NotebookFile& file, int from = 1)
{
    for (int n = from; n < from + 2000; ++n)
        if (const auto step = tryToLog(file, n); !step)
            return { n - from, step.error() };
    throw std::runtime_error("the disk was never full");
}

/// "sound" when these prints are there, whole, and nothing else.
std::string soundWith(store::NotebookFile& file, int prints)
{
    const auto notebook = must(file.read());
    if (notebook.prints().rows() != prints || notebook.table(Entity::Photo).rows() != prints
        || notebook.table(Entity::Weighing).rows() != 4 * prints)
        return "other prints: " + std::to_string(notebook.prints().rows()) + " of " + std::to_string(prints);
    for (int n = 1; n <= prints; ++n)
        if (must(file.photo({ n })) != QByteArray(30'000, char('a' + n % 26)))
            return "another photo";
    const auto found = must(file.integrity());
    return found == QLatin1String("ok") ? "sound" : found.toStdString();
}

std::string sentence(const Error& error)
{
    return testing::PrintToString(error.code) + ": " + error.says.toStdString();
}

const char* const fullSentence
    = "NoSpace: The disk is full. What was written before is safe; this last entry was not saved.";

} // namespace

// SQLite's own limit gives the same error as a full disk (SQLITE_FULL, sqlite.org/rescode.html).
TEST(FullDisk, SaysSoAndKeepsWhatWasCommitted)
{
    const ScratchNotebook scratch;
    const auto file = scratch.open();
    must(tryToLog(*file, 1));
    const auto pages = must(file->connection().integer("PRAGMA page_count"));
    must(file->connection().script("PRAGMA max_page_count = " + QByteArray::number(pages + 60)));
    const auto filled = logUntilFull(*file, 2);
    EXPECT_EQ(sentence(filled.error), fullSentence);
    EXPECT_GT(filled.logged, 2);
    EXPECT_EQ(soundWith(*file, 1 + filled.logged), "sound");
    EXPECT_FALSE(must(file->nextRedo()).has_value());

    must(file->connection().script("PRAGMA max_page_count = 1000000")); // room again
    must(tryToLog(*file, 2 + filled.logged));
    EXPECT_EQ(soundWith(*file, 2 + filled.logged), "sound");
    must(file->undo());
    EXPECT_EQ(must(file->read()).prints().rows(), 1 + filled.logged);
}

// After some errors SQLite takes the whole transaction back by itself ("Response To Errors Within A Transaction",
// sqlite.org/lang_transaction.html). What a caller goes on writing must not slip in behind it, outside of any step.
TEST(FullDisk, AStepThatDoesNotListenWritesNothing)
{
    const ScratchNotebook scratch;
    const auto file = scratch.open();
    addPrint(*file, "P1");
    const auto step = file->perform(QStringLiteral("Import"), [&](store::Writer& writer) -> Outcome {
        must(writer.add(Entity::Print, 0, {}));
        must(file->connection().script("ROLLBACK")); // as SQLite does
        EXPECT_FALSE(writer.add(Entity::Print, 0, {}).ok());
        EXPECT_FALSE(writer.addPhoto(1, "bytes", {}).ok());
        EXPECT_FALSE(writer.set(Ref(Entity::Print, 1), text("coat_passes"), Known { 2.0 }).ok());
        EXPECT_FALSE(writer.remove(Ref(Entity::Print, 1)).ok());
        return Done {};
    });
    EXPECT_TRUE(fails(step).says.contains(text("nothing of it was saved"))) << fails(step).says.toStdString();
    EXPECT_EQ(must(file->read()).prints().rows(), 1);
    EXPECT_FALSE(fieldOf(*file, Ref(Entity::Print, 1), "coat_passes").has());
    EXPECT_EQ(must(file->connection().integer("SELECT count(*) FROM history")), 1);
}

class SmallDisk : public testing::Test {
protected:
    /// Runs `work` with an empty disk of two megabytes in the place of the notebook's folder.
    [[nodiscard]] std::string onSmallDisk(const std::function<std::string()>& work) const
    {
        const auto folder = QFile::encodeName(QFileInfo(scratch_.path()).absolutePath()).toStdString();
        return inChild([&]() -> std::string {
            if (!mountSmallDisk(folder, 2 << 20))
                return "not allowed";
            return work();
        });
    }
    /// Takes all the room that is left.
    void fillTheRest() const
    {
        QFile filler(scratch_.inFolder("filler"));
        if (!filler.open(QIODevice::WriteOnly | QIODevice::Unbuffered))
            throw std::runtime_error("no filler");
        for (qint64 block = 65'536; block > 0; block /= 2)
            while (filler.write(QByteArray(int(block), 'x')) == block) { }
    }

    ScratchNotebook scratch_;
};

#define SKIP_UNLESS_MOUNTED(said)                                                                                      \
    if ((said) == "not allowed")                                                                                       \
    GTEST_SKIP() << "mounting is not allowed here"

TEST_F(SmallDisk, FillsUpWhileLogging)
{
    const auto said = onSmallDisk([&]() -> std::string {
        auto file = scratch_.open();
        const auto filled = logUntilFull(*file);
        const auto now = soundWith(*file, filled.logged);
        file.reset();
        file = scratch_.open();
        return sentence(filled.error) + "; " + now + "; reopened " + soundWith(*file, filled.logged)
            + (filled.logged > 5 ? "; several" : "; too few");
    });
    SKIP_UNLESS_MOUNTED(said);
    EXPECT_EQ(said, fullSentence + std::string("; sound; reopened sound; several"));
}

TEST_F(SmallDisk, FullFromAnotherCauseAndRoomAgain)
{
    const auto said = onSmallDisk([&]() -> std::string {
        const auto file = scratch_.open();
        must(tryToLog(*file, 1));
        fillTheRest();
        const auto full = logUntilFull(*file, 2); // what SQLite's log already holds of the disk may take one more
        std::string told = sentence(full.error) + "; " + soundWith(*file, 1 + full.logged);
        QFile::remove(scratch_.inFolder("filler"));
        must(tryToLog(*file, 2 + full.logged));
        return told + "; " + soundWith(*file, 2 + full.logged);
    });
    SKIP_UNLESS_MOUNTED(said);
    EXPECT_EQ(said, fullSentence + std::string("; sound; sound"));
}

TEST_F(SmallDisk, OpeningAndCopyingOnAFullOneLoseNothing)
{
    const auto said = onSmallDisk([&]() -> std::string {
        must(tryToLog(*scratch_.open(), 1));
        fillTheRest();
        const auto before = bytesOf(scratch_.path());
        std::string told;
        if (const auto opened = scratch_.tryOpen(); !opened)
            told += testing::PrintToString(opened.error().code);
        else
            told += (*opened)->writable() ? "opened" : "read only";
        const auto copy = store::makeDailyCopy(scratch_.path(), QDate(2026, 5, 4));
        told += copy.ok() ? ", copied" : ", no copy";
        const QDir copies(store::copiesFolder(scratch_.path()));
        told += copies.exists() && !copies.isEmpty() ? ", a piece of a copy" : "";
        store::OpenOptions grown;
        grown.migrations.push_back({ grown.migrations.back().to + 1, "ALTER TABLE print ADD COLUMN x REAL" });
        told += scratch_.tryOpen(grown).ok() ? ", migrated" : ", not migrated";
        told += bytesOf(scratch_.path()) == before ? ", same" : ", changed";
        QFile::remove(scratch_.inFolder("filler"));
        return told + ", " + soundWith(*scratch_.open(), 1);
    });
    SKIP_UNLESS_MOUNTED(said);
    EXPECT_EQ(said, "NoSpace, no copy, not migrated, same, sound");
}

TEST_F(SmallDisk, ANewNotebookThatDoesNotFitLeavesNoHalfOne)
{
    const auto said = onSmallDisk([&]() -> std::string {
        fillTheRest();
        const auto opened = scratch_.tryOpen();
        std::string told = opened.ok() ? "opened" : testing::PrintToString(opened.error().code);
        QFile::remove(scratch_.inFolder("filler"));
        const auto file = scratch_.open();
        must(tryToLog(*file, 1));
        return told + ", then " + soundWith(*file, 1);
    });
    SKIP_UNLESS_MOUNTED(said);
    EXPECT_EQ(said, "NoSpace, then sound");
}

// A limit on the size of files (setrlimit(2)) stands for a quota; it needs no rights. The signal SIGXFSZ is set aside,
// so that writing fails with EFBIG instead.
TEST(Quota, SaysSoAndKeepsWhatWasCommitted)
{
    const ScratchNotebook scratch;
    must(tryToLog(*scratch.open(), 1));
    const auto said = inChild([&]() -> std::string {
        std::signal(SIGXFSZ, SIG_IGN);
        const rlimit limit { 1'000'000, 1'000'000 };
        if (setrlimit(RLIMIT_FSIZE, &limit) != 0)
            return "no limit";
        const auto file = scratch.open();
        const auto filled = logUntilFull(*file, 2);
        return sentence(filled.error) + "; " + soundWith(*file, 1 + filled.logged)
            + (filled.logged > 2 ? "; several" : "; too few");
    });
    EXPECT_EQ(said, fullSentence + std::string("; sound; several"));
    EXPECT_EQ(must(scratch.open()->integrity()), text("ok"));
}

} // namespace WASHFAST_FILE
