// Opening a notebook: a fresh one, one that is there, and everything that is not one.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <QDir>
#include <gmock/gmock.h>
#include <random>
#include <sys/stat.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Access;
using store::OpenOptions;

namespace {

OpenOptions onlyExisting()
{
    OpenOptions options;
    options.create = false;
    return options;
}

QByteArray randomBytes(size_t count)
{
    std::mt19937 random(20260504);
    QByteArray bytes;
    for (size_t i = 0; i < count; ++i)
        bytes.append(char(random() & 0xff));
    return bytes;
}

} // namespace

TEST(Opening, AFreshNotebookIsMade)
{
    const ScratchNotebook scratch;
    const auto file = scratch.open();
    EXPECT_EQ(file->access(), Access::ReadWrite);
    EXPECT_EQ(file->schema(), store::shippedMigrations().back().to);
    EXPECT_TRUE(file->copyBeforeMigration().isEmpty()) << "there was nothing to copy";
    const auto notebook = must(file->read());
    EXPECT_TRUE(notebook.complete);
    EXPECT_EQ(notebook.prints().rows(), 0);
    EXPECT_EQ(must(file->integrity()), QStringLiteral("ok"));
    EXPECT_FALSE(must(file->latestSession()).has_value());
}

TEST(Opening, EveryConnectionKeepsTheRules)
{
    const ScratchNotebook scratch;
    for (int time = 0; time < 2; ++time) { // made, and opened again
        const auto file = scratch.open();
        auto& connection = file->connection();
        EXPECT_EQ(must(connection.text("PRAGMA journal_mode")), QStringLiteral("wal"));
        EXPECT_EQ(must(connection.integer("PRAGMA synchronous")), 2) << "2 is FULL";
        EXPECT_EQ(must(connection.integer("PRAGMA foreign_keys")), 1);
        EXPECT_EQ(must(connection.integer("PRAGMA application_id")), store::applicationId);
        EXPECT_EQ(must(connection.integer("PRAGMA user_version")), file->schema());
    }
}

// The file's own header, read as bytes: "The Database Header", sqlite.org/fileformat2.html, section 1.3: the text
// "SQLite format 3" and a zero at 0, the application id at 68 and the user version at 60, both big-endian.
TEST(Opening, TheMarkStandsInTheHeaderFromTheFirstMoment)
{
    const ScratchNotebook scratch;
    const auto file = scratch.open(); // still open: what SQLite keeps in its log is not in the file yet
    const auto bytes = bytesOf(scratch.path());
    ASSERT_GE(bytes.size(), 100);
    EXPECT_EQ(bytes.left(16), QByteArray("SQLite format 3\0", 16));
    EXPECT_EQ(bytes.mid(68, 4), QByteArray("WFnb"));
    EXPECT_EQ(scratch.open()->access(), Access::ReadWrite) << "a second window, before anything reached the file";
}

TEST(Opening, AnEmptyFileBecomesANotebook)
{
    const ScratchNotebook scratch;
    putBytes(scratch.path(), {});
    const auto file = scratch.open();
    addPrint(*file, "P1");
    EXPECT_EQ(must(file->read()).prints().rows(), 1);
}

TEST(Opening, ANotebookThatWasOnlyMarkedIsFinished)
{
    const ScratchNotebook scratch;
    Outside(scratch.path()).run("PRAGMA application_id = 1464233570"); // as when the program dies while making it
    const auto file = scratch.open();
    addPrint(*file, "P1");
    EXPECT_FALSE(scratch.names().contains(QStringLiteral("term.washfast.copies")));
}

TEST(Opening, WhatIsNotThereIsNotMadeUnlessWanted)
{
    const ScratchNotebook scratch;
    EXPECT_EQ(fails(scratch.tryOpen(onlyExisting())).code, Trouble::NotFound);
    EXPECT_TRUE(scratch.names().isEmpty());
}

TEST(Opening, AFolderThatIsNotThereIsNotMade)
{
    const ScratchNotebook scratch;
    const auto there = store::NotebookFile::open(scratch.inFolder("no/such/term.washfast"), scratch.catalogue());
    EXPECT_EQ(fails(there).code, Trouble::ReadOnly);
    EXPECT_TRUE(scratch.names().isEmpty());
}

TEST(Opening, ANameWithSignsThatMeanSomethingElsewhereIsTaken)
{
    const ScratchNotebook scratch;
    for (const char* name : { "a b.washfast", "50% [1]?.washfast", "x;y.washfast", "Blätter #3.washfast" }) {
        const auto path = scratch.inFolder(name);
        {
            const auto file = must(store::NotebookFile::open(path, scratch.catalogue()));
            addPrint(*file, "P1");
        }
        const auto again = must(store::NotebookFile::open(path, scratch.catalogue()));
        EXPECT_EQ(must(again->read()).prints().rows(), 1) << name;
        EXPECT_TRUE(scratch.names().contains(text(name))) << name;
    }
}

struct Stranger {
    const char* what;
    QByteArray bytes;
};

void PrintTo(const Stranger& stranger, std::ostream* out)
{
    *out << stranger.what;
}

class NotANotebook : public testing::TestWithParam<Stranger> { };

TEST_P(NotANotebook, IsRefusedAndLeftAsItIs)
{
    const ScratchNotebook scratch;
    putBytes(scratch.path(), GetParam().bytes);
    const auto error = fails(scratch.tryOpen());
    EXPECT_EQ(error.code, Trouble::NotANotebook);
    EXPECT_EQ(error.where, scratch.path());
    EXPECT_EQ(bytesOf(scratch.path()), GetParam().bytes);
    EXPECT_EQ(scratch.names(), QStringList { QStringLiteral("term.washfast") }) << "nothing was put beside it";
}

INSTANTIATE_TEST_SUITE_P(Files, NotANotebook,
    testing::Values(Stranger { "one letter", "x" },
        Stranger { "text", QByteArray("rinse 5 min; blue ran off\n").repeated(50) },
        Stranger { "random bytes", randomBytes(8192) }, Stranger { "zeros", QByteArray(4096, '\0') },
        Stranger { "the beginning of SQLite's header", QByteArray("SQLite format 3\0", 16) },
        Stranger { "our mark without the rest", QByteArray(68, ' ') + "WFnb" + QByteArray(200, ' ') }));

TEST(Opening, AnotherProgramsDatabaseIsRefusedAndLeftAsItIs)
{
    for (const char* mode : { "delete", "wal" }) {
        const ScratchNotebook scratch;
        {
            Outside other(scratch.path());
            other.run(qPrintable(QStringLiteral("PRAGMA journal_mode = %1").arg(text(mode))));
            other.run("CREATE TABLE print(id INTEGER PRIMARY KEY); INSERT INTO print VALUES (1)");
        }
        const auto before = bytesOf(scratch.path());
        EXPECT_EQ(fails(scratch.tryOpen()).code, Trouble::NotANotebook) << mode;
        EXPECT_EQ(bytesOf(scratch.path()), before) << mode;
        EXPECT_EQ(scratch.names(), QStringList { QStringLiteral("term.washfast") }) << mode;
    }
}

TEST(Opening, AFolderAndAPipeAreRefused)
{
    const ScratchNotebook scratch;
    ASSERT_TRUE(QDir().mkdir(scratch.path()));
    EXPECT_EQ(fails(scratch.tryOpen()).code, Trouble::NotANotebook);
    ASSERT_TRUE(QDir().rmdir(scratch.path()));
    ASSERT_EQ(mkfifo(QFile::encodeName(scratch.path()).constData(), 0600), 0);
    EXPECT_EQ(fails(scratch.tryOpen()).code, Trouble::NotANotebook) << "reading it would wait for ever";
}

class NewerSchema : public testing::Test {
protected:
    void SetUp() override
    {
        addWholePrint(*scratch_.open(), "P1");
        Outside newer(scratch_.path());
        newer.run("ALTER TABLE print ADD COLUMN print_curl_mm REAL; "
                  "CREATE TABLE frame (id INTEGER PRIMARY KEY, width REAL) STRICT; "
                  "INSERT INTO history(at, entity, row, field, new) VALUES ('2026-05-04T10:00:00Z', 'frame', 1, "
                  "'width', 5.0); "
                  "UPDATE print SET print_curl_mm = 2.5; PRAGMA user_version = 7");
        before_ = newer.rows("SELECT sql FROM sqlite_schema ORDER BY name");
        file_ = scratch_.open();
    }

    ScratchNotebook scratch_;
    QStringList before_;
    std::unique_ptr<store::NotebookFile> file_;
};

TEST_F(NewerSchema, OpensReadOnlyAndIsRead)
{
    EXPECT_EQ(file_->access(), Access::ReadOnlyTooNew);
    EXPECT_EQ(file_->schema(), 7);
    EXPECT_FALSE(file_->writable());
    auto notebook = must(file_->read());
    EXPECT_EQ(notebook.nameOf(PrintId { 1 }), QStringLiteral("P1"));
    EXPECT_EQ(notebook.table(Entity::Weighing).rows(), 4);
    EXPECT_TRUE(notebook.problems.isEmpty()) << "a column of a newer program is no problem";
    notebook.last_change = 0; // kinds of record that are not known here are passed over
    for (const auto& change : must(file_->refresh(notebook)))
        EXPECT_NE(change.field, QStringLiteral("width")) << "a frame was taken for a print";
    EXPECT_EQ(notebook.prints().rows(), 1);
    EXPECT_FALSE(must(file_->historyOf(PrintId { 1 })).empty());
}

TEST_F(NewerSchema, SaysSoWhenWrittenTo)
{
    const auto error = fails(file_->perform(QStringLiteral("Add"), [](store::Writer& writer) -> Outcome {
        const auto added = writer.add(Entity::Print, 0, {});
        return added.ok() ? Outcome(Done {}) : Outcome(added.error());
    }));
    EXPECT_EQ(error.code, Trouble::ReadOnly);
    EXPECT_TRUE(error.says.contains(QStringLiteral("newer version"))) << error.says.toStdString();
    EXPECT_EQ(fails(file_->undo()).code, Trouble::ReadOnly);
    EXPECT_EQ(fails(file_->setSetting(QStringLiteral("k"), QStringLiteral("v"))).code, Trouble::ReadOnly);
}

TEST_F(NewerSchema, IsLeftAsItIs)
{
    (void)file_->undo().ok();
    file_.reset();
    Outside after(scratch_.path());
    EXPECT_EQ(after.rows("SELECT sql FROM sqlite_schema ORDER BY name"), before_);
    EXPECT_EQ(after.row("PRAGMA user_version"), QStringLiteral("7"));
    EXPECT_EQ(after.row("SELECT print_curl_mm FROM print"), QStringLiteral("2.5"));
    EXPECT_EQ(after.row("SELECT count(*) FROM step"), QStringLiteral("1"));
}

} // namespace WASHFAST_FILE
