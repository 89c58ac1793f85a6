// Two windows in processes of their own work on one notebook while file boxes are opened, files are looked into, the
// command line runs beside them and they are killed at random: nothing that was acknowledged is lost, nothing is
// damaged.
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <QSet>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

class WindowBeside {
public:
    explicit WindowBeside(QString notebook)
        : notebook_(std::move(notebook))
    {
        start();
    }
    ~WindowBeside() { kill(); }
    WindowBeside(const WindowBeside&) = delete;
    WindowBeside& operator=(const WindowBeside&) = delete;

    void tell(const QString& line) { process_.write(line.toUtf8() + '\n'); }
    std::string answer()
    {
        while (!process_.canReadLine())
            if (!process_.waitForReadyRead(20'000))
                throw std::runtime_error("the window does not answer");
        return process_.readLine().trimmed().toStdString();
    }
    void must(const QString& line)
    {
        tell(line);
        if (const auto said = answer(); said != "ok")
            throw std::runtime_error(line.toStdString() + ": " + said);
    }
    void kill()
    {
        if (process_.state() == QProcess::NotRunning)
            return; // there is no process to kill; number 0 would mean all of this group
        process_.kill();
        process_.waitForFinished();
    }
    void start()
    {
        process_.start(QStringLiteral(WASHFAST_WINDOW_CHILD), { notebook_ });
        if (!process_.waitForStarted())
            throw std::runtime_error("the window does not start");
        must(QStringLiteral("open"));
    }

private:
    QString notebook_;
    QProcess process_;
};

/// The prints that are there when everybody has gone, and that the file is sound.
QSet<QString> left(const ScratchNotebook& scratch)
{
    const auto file = scratch.open();
    EXPECT_EQ(must(file->integrity()), text("ok"));
    Outside outside(scratch.path());
    EXPECT_EQ(outside.rows("PRAGMA foreign_key_check"), QStringList());
    const auto codes = outside.rows("SELECT print_code FROM print");
    EXPECT_EQ(outside.row("SELECT count(*) FROM step WHERE closed = 1").toInt(), codes.size());
    return { codes.begin(), codes.end() };
}

} // namespace

TEST(TwoProcesses, ABoxDoesNotLetACheckBesideItRemoveTheLog)
{
    const ScratchNotebook scratch;
    WindowBeside window(scratch.path());
    window.must(text("add before"));
    window.must(text("box"));
    EXPECT_EQ(runWashfast({ text("check"), scratch.path() }), "done");
    window.must(text("add after"));
    window.kill();
    EXPECT_EQ(left(scratch), (QSet<QString> { text("before"), text("after") }));
}

TEST(TwoProcesses, LoseAndDamageNothingInAThousandSteps)
{
    constexpr int rounds = 500; // a step of each window, at the same time
    const ScratchNotebook scratch;
    WindowBeside windows[] { WindowBeside(scratch.path()), WindowBeside(scratch.path()) };
    std::mt19937 random(10);
    QSet<QString> acknowledged, perhaps;
    int codes = 0, kills = 0, boxes = 0;
    for (int round = 0; round < rounds; ++round) {
        QString adding[2];
        bool killed[2] {};
        for (int of = 0; of < 2; ++of) {
            const int what = int(random() % 100);
            if (what < 55) {
                adding[of] = QStringLiteral("N%1").arg(++codes);
                windows[of].tell(text("add ") + adding[of]);
                killed[of] = what < 3;
            } else {
                windows[of].tell(what < 75 ? text("look") : what < 78 ? text("box") : text("turn"));
                boxes += what >= 75 && what < 78 ? 1 : 0;
            }
        }
        for (int of = 0; of < 2; ++of) {
            if (killed[of]) { // while it may be writing
                windows[of].kill();
                perhaps << adding[of];
                ++kills;
                continue;
            }
            ASSERT_EQ(windows[of].answer(), "ok") << "round " << round;
            if (!adding[of].isEmpty())
                acknowledged << adding[of];
        }
        for (int of = 0; of < 2; ++of)
            if (killed[of])
                windows[of].start();
        if (const int of = int(random() % 16); of < 2) {
            windows[of].must(text("close"));
            windows[of].must(text("open"));
        }
        if (random() % 25 == 0)
            ASSERT_EQ(runWashfast({ text("check"), scratch.path() }), "done") << "round " << round;
    }
    for (auto& window : windows)
        window.kill();
    const auto found = left(scratch);
    const auto lost = acknowledged - found;
    EXPECT_TRUE(lost.isEmpty()) << lost.size() << " of " << acknowledged.size() << " entries lost";
    EXPECT_TRUE((found - acknowledged - perhaps).isEmpty());
    EXPECT_GT(acknowledged.size(), rounds / 4);
    std::cout << acknowledged.size() << " entries acknowledged, all there; " << kills << " kills, " << boxes
              << " boxes\n";
}

} // namespace WASHFAST_FILE
