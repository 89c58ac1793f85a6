// The locks of an open notebook stay until SQLite gives them back, whatever else the process opens and closes, and
// count towards other processes as locks of any kind do.
#include "core/store/lock_ranges.h"
#include "tests/support/child_process.h"
#include "tests/support/kernel_locks.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <csignal>
#include <gmock/gmock.h>
#include <sys/wait.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::Connection;
using store::LockRanges;

namespace {

/// A process with the notebook open: it adds a print, looks into the files, waits, adds another and waits to be killed.
class Beside {
public:
    explicit Beside(const ScratchNotebook& scratch)
    {
        int from[2], to[2];
        if (pipe2(from, O_CLOEXEC) != 0 || pipe2(to, O_CLOEXEC) != 0)
            throw std::runtime_error("no pipe");
        child_ = fork();
        if (child_ == 0) {
            const auto file = scratch.open();
            char word = 'd';
            for (const char* code : { "before", "after" }) {
                addPrint(*file, code);
                lookIntoAll(scratch.path());
                (void)!::write(from[1], &word, 1);
                (void)!::read(to[0], &word, 1);
            }
            _exit(0);
        }
        close(from[1]);
        close(to[0]);
        from_ = from[0];
        to_ = to[1];
    }
    ~Beside()
    {
        if (child_ > 0)
            kill();
        close(from_);
        close(to_);
    }
    Beside(const Beside&) = delete;
    Beside& operator=(const Beside&) = delete;

    /// Until it has added the next print.
    void wait() const
    {
        char word = 0;
        if (::read(from_, &word, 1) != 1)
            throw std::runtime_error("the process beside has ended");
    }
    void goOn() const { (void)!::write(to_, "g", 1); }
    void kill()
    {
        ::kill(child_, SIGKILL);
        int status = 0;
        waitpid(child_, &status, 0);
        child_ = 0;
    }

private:
    pid_t child_ = 0;
    int from_ = -1, to_ = -1;
};

QStringList codes(const ScratchNotebook& scratch)
{
    return Outside(scratch.path()).rows("SELECT print_code FROM print ORDER BY id");
}

const QString table = QStringLiteral("print_code,coat_passes\nfrom the table,3\n");

} // namespace

TEST(FileLocks, StayWhenTheFilesAreLookedInto)
{
    const ScratchNotebook scratch;
    const auto file = scratch.open();
    addPrint(*file, "P1");
    const auto index = scratch.path() + text("-shm");
    const int of_file = locksOn(scratch.path());
    const int of_index = locksOn(index);
    ASSERT_GT(of_file, 0);
    ASSERT_GT(of_index, 0);
    lookIntoAll(scratch.path());
    EXPECT_EQ(locksOn(scratch.path()), of_file);
    EXPECT_EQ(locksOn(index), of_index);
}

TEST(FileLocks, AnotherProgramLeavesTheLogToUs)
{
    const ScratchNotebook scratch;
    const auto file = scratch.open();
    addPrint(*file, "P1");
    lookIntoAll(scratch.path());
    const auto log = store::fileIdOf(scratch.path() + text("-wal"));
    ASSERT_TRUE(log);
    EXPECT_EQ(runWashfast({ text("check"), scratch.path() }), "done");
    EXPECT_EQ(sqlite3Command(scratch.path(), "SELECT count(*) FROM print"), QStringList { text("1") });
    EXPECT_EQ(store::fileIdOf(scratch.path() + text("-wal")), log);
    addPrint(*file, "P2");
    EXPECT_EQ(sqlite3Command(scratch.path(), "SELECT count(*) FROM print"), QStringList { text("2") });
}

TEST(FileLocks, NothingAcknowledgedIsLostWhenItIsKilledAfterACheckBesideIt)
{
    const ScratchNotebook scratch;
    Beside beside(scratch);
    beside.wait();
    EXPECT_EQ(runWashfast({ text("check"), scratch.path() }), "done");
    beside.goOn();
    beside.wait();
    beside.kill();
    EXPECT_EQ(codes(scratch), (QStringList { text("before"), text("after") }));
    EXPECT_EQ(must(scratch.open()->integrity()), text("ok"));
}

TEST(FileLocks, NothingIsLostOrDamagedWhenATableIsImportedBesideIt)
{
    const ScratchNotebook scratch;
    putBytes(scratch.inFolder("table.csv"), table.toUtf8());
    Beside beside(scratch);
    beside.wait();
    EXPECT_EQ(runWashfast({ text("import"), scratch.path(), scratch.inFolder("table.csv") }), "done");
    beside.goOn();
    beside.wait();
    beside.kill();
    EXPECT_EQ(codes(scratch), (QStringList { text("before"), text("from the table"), text("after") }));
    EXPECT_EQ(must(scratch.open()->integrity()), text("ok"));
}

TEST(FileLocks, AreGivenBackWithTheLastConnection)
{
    const ScratchNotebook scratch;
    {
        const auto one = scratch.open();
        addPrint(*one, "P1");
        {
            const auto other = scratch.open();
            lookIntoAll(scratch.path());
            EXPECT_EQ(must(other->read()).prints().rows(), 1);
        }
        EXPECT_GT(locksOn(scratch.path()), 0);
        EXPECT_TRUE(store::file_locks::isOpen(*store::fileIdOf(scratch.path())));
    }
    EXPECT_EQ(locksOn(scratch.path()), 0);
    EXPECT_FALSE(store::file_locks::isOpen(*store::fileIdOf(scratch.path())));
    EXPECT_EQ(scratch.names(), QStringList { text("term.washfast") }) << "the last one tidies up";
}

TEST(FileLocks, MoveToADescriptorThatCanBeWrittenTo)
{
    const ScratchNotebook scratch;
    addPrint(*scratch.open(), "P1");
    Outside(scratch.path()).run("PRAGMA journal_mode = DELETE"); // here SQLite's writing locks are on the file itself
    const auto reading = must(Connection::open(scratch.path(), Connection::Mode::ReadOnly));
    must(reading->script("BEGIN; SELECT count(*) FROM print;"));
    ASSERT_GT(locksOn(scratch.path()), 0);
    {
        const auto writing = must(Connection::open(scratch.path(), Connection::Mode::ReadWrite, 50));
        must(writing->script("BEGIN IMMEDIATE; INSERT INTO setting VALUES ('a', 'b');"));
        lookInto(scratch.path());
        EXPECT_EQ(store::file_locks::held(*store::fileIdOf(scratch.path())), store::file_locks::Held::All);
        EXPECT_ANY_THROW((void)sqlite3Command(scratch.path(), "INSERT INTO setting VALUES ('c', 'd')"));
        EXPECT_EQ(fails(writing->script("COMMIT")).code, Trouble::Busy) << "somebody is reading";
        must(reading->script("COMMIT"));
        must(writing->script("COMMIT"));
    }
    EXPECT_EQ(sqlite3Command(scratch.path(), "INSERT INTO setting VALUES ('c', 'd') RETURNING key"),
        QStringList { text("c") });
    EXPECT_EQ(must(reading->integer("SELECT count(*) FROM setting")), 2);
}

TEST(FileLocks, CountTowardsTheSqlite3CommandAndItsTowardsOurs)
{
    const ScratchNotebook scratch;
    const auto file = scratch.open();
    must(file->connection().script("PRAGMA busy_timeout = 50"));
    {
        const auto ours = must(store::Transaction::begin(file->connection()));
        lookIntoAll(scratch.path());
        EXPECT_ANY_THROW((void)sqlite3Command(scratch.path(), "INSERT INTO setting VALUES ('a', 'b')"));
    }
    QProcess other;
    other.start(QStringLiteral("sqlite3"), { QStringLiteral("-batch"), scratch.path() });
    other.write("BEGIN IMMEDIATE; SELECT 'begun';\n");
    while (!other.readAllStandardOutput().contains("begun"))
        ASSERT_TRUE(other.waitForReadyRead());
    EXPECT_EQ(fails(setField(*file, Ref(Entity::Print, 1), "coat_passes", Known { 2.0 })).code, Trouble::Busy);
    other.closeWriteChannel();
    ASSERT_TRUE(other.waitForFinished());
    addPrint(*file, "P1");
}

TEST(FileLocks, AForkedProcessNeitherTakesNorKeepsThem)
{
    const ScratchNotebook scratch;
    auto file = scratch.open();
    addPrint(*file, "P1");
    const int before = locksOn(scratch.path());
    int ends[2];
    ASSERT_EQ(pipe(ends), 0);
    const auto child = fork();
    if (child == 0) {
        close(ends[1]);
        char word = 0;
        (void)!::read(ends[0], &word, 1); // until the other end is closed
        _exit(0);
    }
    close(ends[0]);
    EXPECT_EQ(locksOn(scratch.path()), before);
    file.reset();
    EXPECT_EQ(locksOn(scratch.path()), 0) << "the child has kept them";
    file = scratch.open();
    close(ends[1]);
    int status = 0;
    waitpid(child, &status, 0);
    EXPECT_EQ(locksOn(scratch.path()), before) << "the child has taken them along";
    addPrint(*file, "P2");
}

TEST(FileLocks, WhereTheSystemHasNoneTheLossIsNoticedAndMended)
{
    const ScratchNotebook scratch;
    QProcess child;
    child.start(QStringLiteral(WASHFAST_OLD_LOCKS_CHILD), { scratch.path() });
    ASSERT_TRUE(child.waitForFinished());
    EXPECT_EQ(child.readAllStandardOutput().toStdString(), "held\nlooked into: gone\nlooked after: held, no loss\n")
        << child.readAllStandardError().toStdString();
    EXPECT_EQ(must(scratch.open()->read()).prints().rows(), 2);
}

TEST(FileLocks, AreReadThroughWithoutOpeningTheFile)
{
    const ScratchNotebook scratch;
    auto file = scratch.open();
    const auto id = *store::fileIdOf(scratch.path());
    EXPECT_TRUE(store::file_locks::peek(id, 0, 15)->startsWith("SQLite format 3"));
    EXPECT_EQ(store::file_locks::peek(id, *store::file_locks::sizeOf(id) - 1, 10)->size(), 1);
    file.reset();
    EXPECT_FALSE(store::file_locks::peek(id, 0, 15));
}

namespace {

std::string shown(const LockRanges& ranges)
{
    std::string all;
    for (const auto& range : ranges)
        all += std::to_string(range.first) + '-' + std::to_string(range.last) + (range.writing ? "w " : "r ");
    return all;
}

} // namespace

TEST(LockRanges, AreSplitAndJoinedAsTheSystemDoes)
{
    LockRanges ranges;
    ranges.set({ 10, 19, false });
    ranges.set({ 13, 14, true });
    EXPECT_EQ(shown(ranges), "10-12r 13-14w 15-19r ");
    ranges.clear(12, 13);
    EXPECT_EQ(shown(ranges), "10-11r 14-14w 15-19r ");
    ranges.set({ 12, 14, false });
    EXPECT_EQ(shown(ranges), "10-19r ");
    ranges.clear(0, LockRanges::toTheEnd);
    EXPECT_TRUE(ranges.empty());
}

TEST(LockRanges, AreReadFromWhatTheSystemSays)
{
    LockRanges found;
    found.addFrom("pos:\t0\nflags:\t0100002\nlock:\t1: OFDLCK  ADVISORY  READ -1 08:02:131 10 19\n"
                  "lock:\t2: POSIX  ADVISORY  WRITE 17 08:02:131 30 EOF\nlock:\tbroken\n");
    EXPECT_EQ(shown(found), "10-19r 30-" + std::to_string(LockRanges::toTheEnd) + "w ");
    LockRanges wanted;
    EXPECT_TRUE(found.haveAll(wanted));
    wanted.set({ 12, 19, false });
    EXPECT_TRUE(found.haveAll(wanted));
    wanted.set({ 12, 12, true });
    EXPECT_FALSE(found.haveAll(wanted));
}

} // namespace WASHFAST_FILE
