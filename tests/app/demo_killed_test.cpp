// `demo` writes the example aside and moves it into place. Killed at moments spread over all of its run it leaves
// nothing that the next `demo` refuses, and nothing of a half example stays. What is counted is what was left, not how
// often a kill came in time.
#include "app/cli/whole_catalogue.h"
#include "tests/support/run_program.h"
#include "tests/support/scratch_notebook.h"

#include <gmock/gmock.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

QStringList namesIn(const QString& folder)
{
    return QDir(folder).entryList(QDir::AllEntries | QDir::Hidden | QDir::System | QDir::NoDotAndDotDot);
}

/// Starts `demo` and kills it after so many microseconds, if it is still there.
void killDemo(const QString& folder, unsigned after_us)
{
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) {
        if (::chdir(QFile::encodeName(folder).constData()) != 0)
            ::_exit(126);
        ::close(STDOUT_FILENO);
        ::close(STDERR_FILENO);
        ::execl(WASHFAST_PROGRAM, WASHFAST_PROGRAM, "demo", "d.washfast", nullptr);
        ::_exit(127);
    }
    ::usleep(after_us);
    ::kill(child, SIGKILL);
    int status = 0;
    ::waitpid(child, &status, 0);
}

class DemoInPlace : public testing::Test {
protected:
    [[nodiscard]] Ran demo() const
    {
        How how;
        how.folder = folder_.path();
        return runProgram({ "demo", "d.washfast", "--json" }, how);
    }
    [[nodiscard]] Ran check() const
    {
        How how;
        how.folder = folder_.path();
        return runProgram({ "check", "d.washfast", "--json" }, how);
    }
    [[nodiscard]] QString path() const { return folder_.filePath(text("d.washfast")); }
    [[nodiscard]] std::unique_ptr<store::NotebookFile> open(const Catalogue& catalogue) const
    {
        return must(store::NotebookFile::open(path(), catalogue));
    }

    QTemporaryDir folder_;
};

} // namespace

TEST(DemoKilled, LeavesNothingThatDemoRefuses)
{
    QTemporaryDir whole;
    How how;
    how.folder = whole.path();
    const double before = run_program::now();
    const auto reference = runProgram({ "demo", "d.washfast", "--json" }, how);
    ASSERT_EQ(reference.status, 0) << reference.err;
    const double whole_us = (run_program::now() - before) * 1e6;

    constexpr int times = 24;
    std::mt19937 random(7);
    int refused = 0, not_whole = 0, litter = 0;
    for (int time = 0; time < times; ++time) {
        QTemporaryDir folder;
        how.folder = folder.path();
        // One in each part of the run, somewhere in it.
        killDemo(folder.path(), unsigned(whole_us * (time + double(random() % 1000) / 1000) / times));
        const bool there = QFile::exists(folder.filePath(text("d.washfast")));
        const auto again = runProgram({ "demo", "d.washfast", "--json" }, how);
        refused += !there && again.status != 0;
        not_whole += !there && again.out != reference.out;
        const auto check = runProgram({ "check", "d.washfast" }, how);
        not_whole += check.status != 0 || check.out.find(" 0 prints") != std::string::npos;
        litter += namesIn(folder.path()) != QStringList { text("d.washfast") };
    }
    EXPECT_EQ(refused, 0);
    EXPECT_EQ(not_whole, 0);
    EXPECT_EQ(litter, 0);
}

TEST_F(DemoInPlace, TakesThePlaceOfAnEmptyFileAndOfANotebookThatWasNeverUsed)
{
    putBytes(path(), {});
    EXPECT_EQ(demo().status, 0);
    EXPECT_EQ(check().status, 0);
    ASSERT_TRUE(QFile::remove(path()));
    const auto catalogue = wholeCatalogue();
    open(catalogue).reset();
    const auto ran = demo();
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(namesIn(folder_.path()), QStringList { text("d.washfast") });
    EXPECT_THAT(check().out, HasSubstr("\"integrity\": \"ok\""));
}

TEST_F(DemoInPlace, ButNotOfOneThatIsOpenOrHasAHistory)
{
    const auto catalogue = wholeCatalogue();
    {
        const auto file = open(catalogue);
        const auto ran = demo();
        EXPECT_EQ(ran.status, 1);
        EXPECT_THAT(ran.err, HasSubstr("is open in another window or program"));
        addPrint(*file, "A1");
        must(file->undo());
    }
    const auto before = bytesOf(path());
    const auto ran = demo();
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr("has records already"));
    EXPECT_EQ(must(open(catalogue)->read()).prints().rows(), 0);
    EXPECT_EQ(before.size(), bytesOf(path()).size());
}

} // namespace WASHFAST_FILE
