// The program is killed at random moments while it logs; every step that it has acknowledged is in the file afterwards,
// whole, and the file is sound. Killing shows that nothing is kept back in the program; that it also outlives a power
// cut rests on synchronous=FULL, which opening_test checks, and on SQLite.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <chrono>
#include <csignal>
#include <fcntl.h>
#include <map>
#include <poll.h>
#include <random>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using std::chrono::microseconds;
using std::chrono::steady_clock;

namespace {

/// The logging program, with the reading end of its standard output.
class Logger {
public:
    Logger(const QString& notebook, const QString& name)
    {
        int ends[2];
        if (pipe(ends) != 0)
            throw std::runtime_error("no pipe");
        const QByteArray path = QFile::encodeName(notebook);
        const QByteArray code = name.toUtf8();
        child_ = fork();
        if (child_ == 0) {
            dup2(ends[1], STDOUT_FILENO);
            close(ends[0]);
            close(ends[1]);
            execl(WASHFAST_LOGGER_CHILD, WASHFAST_LOGGER_CHILD, path.constData(), code.constData(), nullptr);
            _exit(127);
        }
        close(ends[1]);
        from_ = ends[0];
    }
    ~Logger()
    {
        if (child_ > 0)
            (void)kill();
        close(from_);
    }
    Logger(const Logger&) = delete;
    Logger& operator=(const Logger&) = delete;

    /// False when the line does not come within ten seconds.
    [[nodiscard]] bool waitForFirstLine()
    {
        pollfd wait { from_, POLLIN, 0 };
        return poll(&wait, 1, 10'000) == 1 && (wait.revents & POLLIN);
    }
    /// Kills it and gives all the lines that it wrote whole.
    [[nodiscard]] QStringList kill()
    {
        ::kill(child_, SIGKILL);
        int status = 0;
        waitpid(child_, &status, 0);
        child_ = 0;
        killed_ = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
        QByteArray said;
        char buffer[4096];
        for (ssize_t got = 0; (got = read(from_, buffer, sizeof buffer)) > 0;)
            said.append(buffer, got);
        said.truncate(said.lastIndexOf('\n') + 1);
        return QString::fromUtf8(said).split(QLatin1Char('\n'), Qt::SkipEmptyParts);
    }
    [[nodiscard]] bool wasKilled() const { return killed_; }

private:
    pid_t child_ = 0;
    int from_ = -1;
    bool killed_ = false;
};

/// The notes of the prints that are there, by their codes.
using Prints = std::map<QString, QString>;

/// What logger_child.cpp has logged after so many acknowledged steps.
Prints loggedAfter(const QString& name, qsizetype steps)
{
    Prints prints;
    for (int n = 1; steps > 0; ++n) {
        const auto code = QStringLiteral("%1-%2").arg(name).arg(n);
        prints[code] = QString();
        if (--steps == 0)
            break;
        if (n % 3 == 0) {
            prints[code] = QString::number(n);
            if (--steps == 0)
                break;
        }
        if (n % 7 == 0) {
            if (n % 3 == 0)
                prints[code].clear();
            else
                prints.erase(code);
            --steps;
        }
    }
    return prints;
}

Prints together(Prints a, const Prints& b)
{
    a.insert(b.begin(), b.end());
    return a;
}

/// The prints of a notebook, each of which must be whole.
Prints wholePrints(const Notebook& notebook)
{
    Prints prints;
    for (int row = 0; row < notebook.prints().rows(); ++row) {
        const Ref print(Entity::Print, notebook.prints().id(row));
        int children = 0;
        for (const auto entity : { Entity::Exposure, Entity::Bath, Entity::Weighing, Entity::Reading, Entity::Meter })
            children += int(notebook.children(entity, print.id).size());
        EXPECT_EQ(children, childrenOfWholePrint) << "half a print: " << print.id;
        prints[notebook.nameOf(print)] = notebook.get(print, u"print_notes").text().value_or(QString());
    }
    return prints;
}

struct Tally {
    int while_logging = 0; // kills that came after the first acknowledged step
    int further = 0; // times that the step being written was in the file too, as a whole
    qsizetype steps = 0; // acknowledged
};

/// Kills the logger again and again on the same notebook, at moments up to `within` after it says that it is open; one
/// time in five at any moment from its start, when it may be opening the file and mending what the last one left.
void killAgainAndAgain(const ScratchNotebook& scratch, int times, microseconds within, Tally& tally)
{
    std::mt19937 random(4);
    Prints settled; // by the runs before
    for (int time = 0; time < times; ++time) {
        const auto name = QStringLiteral("R%1").arg(time);
        Logger logger(scratch.path(), name);
        const bool any_moment = time % 5 == 0;
        if (!any_moment) {
            ASSERT_TRUE(logger.waitForFirstLine());
        }
        std::this_thread::sleep_for(microseconds(random() % (any_moment ? 150'000 : within.count())));
        const auto lines = logger.kill();
        ASSERT_TRUE(logger.wasKilled()) << "it ended by itself";
        const auto acknowledged = std::max<qsizetype>(0, lines.size() - 1); // the first says that it is open
        tally.steps += acknowledged;
        tally.while_logging += acknowledged > 0 ? 1 : 0;

        const auto file = scratch.open();
        ASSERT_EQ(must(file->integrity()), text("ok")) << "after kill " << time;
        ASSERT_EQ(Outside(scratch.path()).rows("PRAGMA foreign_key_check"), QStringList());
        const auto notebook = must(file->read());
        ASSERT_TRUE(notebook.problems.isEmpty());
        // All that was acknowledged, and at most the step that was being written, which then is there as a whole.
        const auto found = wholePrints(notebook);
        const auto expected = together(settled, loggedAfter(name, acknowledged));
        const auto further = together(settled, loggedAfter(name, acknowledged + 1));
        ASSERT_TRUE(found == expected || found == further) << "after kill " << time;
        tally.further += found == expected ? 0 : 1;
        settled = found;
    }
    std::cout << "killed " << times << " times, " << tally.while_logging << " of them while logging; " << tally.steps
              << " steps acknowledged, all there; " << tally.further << " times the step being written was there too\n";
}

} // namespace

TEST(Killed, WhileLoggingLosesNothingAcknowledged)
{
    constexpr int times = 200;
    const ScratchNotebook scratch;
    Tally tally;
    killAgainAndAgain(scratch, times, microseconds(110'000), tally);
    EXPECT_GT(tally.while_logging, times / 2) << "the kills came too early to show anything";
    EXPECT_GT(tally.steps, times / 2) << "hardly anything was logged";
}

// On a disk nearly all kills come while the program waits for it. In memory they come while a step is being put
// together.
TEST(Killed, InTheMiddleOfAStepLeavesNothingOfIt)
{
    const QString memory = QStringLiteral("/dev/shm");
    if (!QFileInfo(memory).isWritable())
        GTEST_SKIP() << "no file system in memory here";
    constexpr int times = 100;
    const ScratchNotebook scratch(standardCatalogue(), memory);
    Tally tally;
    killAgainAndAgain(scratch, times, microseconds(12'000), tally);
    EXPECT_GT(tally.while_logging, times / 2);
    EXPECT_LT(tally.further, tally.while_logging) << "no kill came in the middle of a step";
}

TEST(Killed, WhileTheNotebookIsMadeItCanStillBeOpened)
{
    std::mt19937 random(5);
    int made = 0;
    int half_made = 0;
    for (int time = 0; time < 40; ++time) {
        const ScratchNotebook scratch;
        const auto until = steady_clock::now() + std::chrono::seconds(10);
        QStringList lines;
        {
            Logger logger(scratch.path(), QStringLiteral("R"));
            while (!QFile::exists(scratch.path()) && steady_clock::now() < until)
                std::this_thread::sleep_for(microseconds(50));
            std::this_thread::sleep_for(microseconds(random() % 250'000));
            lines = logger.kill();
        }
        made += lines.isEmpty() ? 0 : 1;
        half_made += lines.isEmpty() ? 1 : 0;
        const auto file = scratch.open();
        EXPECT_EQ(file->access(), store::Access::ReadWrite);
        EXPECT_EQ(must(file->integrity()), text("ok"));
        const auto acknowledged = std::max<qsizetype>(0, lines.size() - 1);
        const auto found = wholePrints(must(file->read()));
        EXPECT_TRUE(found == loggedAfter(QStringLiteral("R"), acknowledged)
            || found == loggedAfter(QStringLiteral("R"), acknowledged + 1));
        addWholePrint(*file, "after");
        EXPECT_EQ(wholePrints(must(file->read())).size(), found.size() + 1);
    }
    EXPECT_GT(half_made, 0) << "no kill came while it was being made";
    std::cout << "killed " << half_made << " times while making it, " << made << " times just after\n";
}

} // namespace WASHFAST_FILE
