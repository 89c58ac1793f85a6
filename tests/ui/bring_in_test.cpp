// Bringing another notebook in from the window, and a term's report from the Term view.
#include "app/demo/demo_notebook.h"
#include "app/window/main_window.h"
#include "app/window/wiring.h"
#include "tests/support/desk_fixture.h"
#include "ui/term/bring_in_dialog.h"
#include "ui/term/report_job.h"
#include "ui/term/term_view.h"

#include <QMenu>
#include <QMenuBar>
#include <QSignalSpy>
#include <QTest>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

class AnotherNotebook : public testing::Test {
protected:
    QString other(const char* code)
    {
        const auto path = files.filePath(QStringLiteral("other.washfast"));
        auto file = store::NotebookFile::open(path, room.catalogue());
        EXPECT_TRUE(file);
        EXPECT_TRUE((*file)->perform(QStringLiteral("Add"), [&](store::Writer& writer) -> Outcome {
            const auto added
                = writer.add(Entity::Print, 0, { { QStringLiteral("print_code"), Known { QString::fromUtf8(code) } } });
            return added ? Outcome(Done {}) : Outcome(added.error());
        }));
        return path;
    }
    static std::string finished(ui::BringInDialog& dialog)
    {
        EXPECT_TRUE(QTest::qWaitFor([&] { return !dialog.working(); }, 20'000));
        QTest::qWait(20);
        return dialog.told().toStdString();
    }

    DeskFixture room;
    QTemporaryDir files;
};

} // namespace

TEST_F(AnotherNotebook, WhatComesIsTakenInAndCanBeUndone)
{
    room.print("P1");
    room.dialogs.willOpen(other("P1"));
    ui::BringInDialog dialog(room.services());
    ASSERT_TRUE(dialog.choose());
    const auto told = finished(dialog);
    EXPECT_THAT(told, HasSubstr("other.washfast was brought in"));
    EXPECT_THAT(told, HasSubstr("print: 1 added"));
    EXPECT_THAT(told, HasSubstr("print P1 is P1 (2) here"));
    EXPECT_TRUE(room.desk().notebook().byName(Entity::Print, QStringLiteral("P1 (2)")));
    room.desk().undo();
    EXPECT_FALSE(room.desk().notebook().byName(Entity::Print, QStringLiteral("P1 (2)")));
}

TEST_F(AnotherNotebook, WhatCannotBeBroughtInIsSaid)
{
    ui::BringInDialog dialog(room.services());
    dialog.begin(files.filePath(QStringLiteral("none.washfast")));
    EXPECT_THAT(finished(dialog), HasSubstr("There is no notebook here"));
    ui::BringInDialog itself(room.services());
    itself.begin(room.path());
    EXPECT_THAT(finished(itself), HasSubstr("the notebook itself"));
    room.dialogs.willTurnBackFromOpen();
    ui::BringInDialog turned(room.services());
    EXPECT_FALSE(turned.choose());
}

TEST_F(AnotherNotebook, TheFileMenuAsksForIt)
{
    MainWindow window(room.services(), allViews());
    QSignalSpy asked(&window, &MainWindow::bringInRequested);
    QAction* action = nullptr;
    for (auto* found : window.findChildren<QAction*>())
        if (found->text().contains(QStringLiteral("Bring in another notebook")))
            action = found;
    ASSERT_NE(action, nullptr);
    EXPECT_TRUE(action->isEnabled());
    action->trigger();
    EXPECT_EQ(asked.size(), 1);
}

TEST_F(AnotherNotebook, TheTermViewWritesReports)
{
    ASSERT_TRUE(demo::writeDemo(room.desk().file()));
    room.reopen();
    ui::TermView view(room.services());
    view.resize(1100, 700);
    view.show();
    view.arrive();
    for (const char* name : { "report.html", "report.pdf" }) {
        const auto path = files.filePath(QString::fromUtf8(name));
        room.dialogs.willSave(path);
        QSignalSpy exported(&view, &ui::TermView::exported);
        view.exportTerm();
        ASSERT_TRUE(exported.size() == 1 || exported.wait(60'000)) << name;
        EXPECT_TRUE(exported[0][0].toBool()) << name;
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << name;
        EXPECT_GT(file.size(), 20'000) << name;
    }
    EXPECT_TRUE(room.dialogs.shown().back().choices.join(QLatin1Char(' ')).contains(QStringLiteral("*.pdf")));
    // A place that is not there.
    QSignalSpy exported(&view, &ui::TermView::exported);
    EXPECT_TRUE(view.exportTo(files.filePath(QStringLiteral("no/such/report.html"))));
    ASSERT_TRUE(exported.wait(60'000));
    EXPECT_FALSE(exported[0][0].toBool());
    EXPECT_EQ(room.dialogs.shown().back().kind, QStringLiteral("error"));
}

TEST_F(AnotherNotebook, AStoppedReportLeavesNoFileOrTheOldOne)
{
    ASSERT_TRUE(demo::writeDemo(room.desk().file()));
    const auto none = files.filePath(QStringLiteral("none.pdf"));
    const auto old = files.filePath(QStringLiteral("old.pdf"));
    {
        QFile file(old);
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        ASSERT_EQ(file.write("old"), 3);
    }
    // While the causes are searched, while it is laid out, while it is painted, and just before it is written.
    for (const double until : { 0.3, 0.7, 0.9, 1.0 })
        for (const auto& path : { none, old }) {
            double last = 0;
            const auto done = ui::makeTermReport(room.catalogue(), { room.path(), {}, path, {} }, [&](double share) {
                EXPECT_GE(share, last);
                last = share;
                return share < until;
            });
            EXPECT_FALSE(done.ok()) << until;
            EXPECT_GE(last, until);
        }
    EXPECT_FALSE(QFile::exists(none));
    QFile file(old);
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    EXPECT_EQ(file.readAll(), QByteArray("old"));
    EXPECT_EQ(QDir(files.path()).entryList(QDir::Files).size(), 1);
}

} // namespace WASHFAST_FILE
