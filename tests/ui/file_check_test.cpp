// The look through the whole file beside the window, and what becomes of the window when the file is damaged.
#include "app/window/file_check.h"
#include "app/window/main_window.h"
#include "app/window/wiring.h"
#include "tests/support/damaged_notebook.h"
#include "tests/support/prints_fixture.h"

#include <QDir>
#include <QLabel>
#include <QSignalSpy>
#include <QStatusBar>
#include <QTest>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

class Check : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        for (int n = 1; n <= 20; ++n)
            room.print(qPrintable(QStringLiteral("A1-%1").arg(n)));
    }
    void TearDown() override { window.reset(); }
    FileCheck& open()
    {
        window = std::make_unique<MainWindow>(room.services(), allViews());
        window->show();
        return *new FileCheck(room.services(), *window->statusBar(), window.get());
    }
    /// What the lines above the views say.
    [[nodiscard]] std::string banner() const
    {
        QString all;
        for (const auto* label : window->findChildren<QLabel*>())
            if (label->isVisible())
                all += label->text() + QLatin1Char('\n');
        return all.toStdString();
    }
    /// Takes an entry out of an index behind the back of everything: only the whole look can tell.
    void damage() const
    {
        Outside outside(room.path());
        outside.run("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = sql || ' WHERE id < 0' WHERE name = "
                    "'print_of_session'; PRAGMA writable_schema = RESET;");
        outside.run("REINDEX print_of_session");
        outside.run("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, ' WHERE id < 0', '') "
                    "WHERE name = 'print_of_session'; PRAGMA writable_schema = RESET;");
    }

    PrintsFixture room;
    std::unique_ptr<MainWindow> window;
};

} // namespace

TEST_F(Check, SaysInWordsThatTheFileIsSound)
{
    auto& check = open();
    QSignalSpy passed(&check, &FileCheck::passed);
    check.start();
    ASSERT_TRUE(!passed.empty() || passed.wait(20'000));
    EXPECT_EQ(window->statusBar()->currentMessage(), text("The notebook was checked: it is sound."));
    EXPECT_TRUE(room.desk().writable());
}

TEST_F(Check, WhatItFindsStopsTheWritingAndIsTold)
{
    auto& check = open();
    damage();
    QSignalSpy found(&check, &FileCheck::foundDamaged);
    check.start();
    ASSERT_TRUE(!found.empty() || found.wait(20'000));
    EXPECT_FALSE(room.desk().writable());
    EXPECT_THAT(banner(), HasSubstr("Nothing is written into this notebook"));
    EXPECT_THAT(banner(), HasSubstr("There is no copy of it in the folder"));
    ASSERT_EQ(room.dialogs.texts(text("error")).size(), 1);
    EXPECT_THAT(room.dialogs.texts(text("error"))[0].toStdString(), HasSubstr("print_of_session"));
    room.expectTrouble();
    EXPECT_FALSE(room.desk().perform(text("Add"), [](store::Writer&) -> Outcome { return Done {}; }));
}

TEST_F(Check, IsStoppedAndSaysSo)
{
    auto& check = open();
    QSignalSpy passed(&check, &FileCheck::passed);
    check.start();
    check.stop();
    ASSERT_TRUE(!passed.empty() || passed.wait(20'000));
    // Whoever is quick enough may have finished before.
    EXPECT_THAT(window->statusBar()->currentMessage().toStdString(),
        testing::AnyOf(HasSubstr("was stopped before its end"), HasSubstr("it is sound")));
    EXPECT_TRUE(room.desk().writable());
}

TEST_F(Check, AWindowOnADamagedNotebookShowsItAndNamesACopyLater)
{
    ASSERT_TRUE(room.desk().file().copyTo(room.path() + text(".sound")));
    damage();
    store::OpenOptions options;
    options.look = store::LookFirst::Whole;
    options.name_copy = false;
    auto file = store::NotebookFile::open(room.path(), room.catalogue(), options);
    ASSERT_TRUE(file);
    ui::Desk desk(std::move(*file), room.clock);
    const ui::Services services { desk, room.dialogs, room.look };
    window = std::make_unique<MainWindow>(services, allViews());
    window->show();
    EXPECT_THAT(banner(), HasSubstr("Nothing is written into this notebook, and prints may be missing"));
    ASSERT_TRUE(QDir().mkpath(room.path() + text(".copies")));
    ASSERT_TRUE(
        QFile::rename(room.path() + text(".sound"), room.path() + text(".copies/notebook-2026-05-04.washfast")));
    auto* check = new FileCheck(services, *window->statusBar(), window.get());
    QSignalSpy found(check, &FileCheck::foundDamaged);
    check->start();
    ASSERT_TRUE(!found.empty() || found.wait(20'000));
    EXPECT_THAT(banner(), HasSubstr("notebook-2026-05-04.washfast"));
    EXPECT_TRUE(room.dialogs.texts(text("error")).isEmpty()) << "it was known already";
    window.reset(); // before its desk
}

} // namespace WASHFAST_FILE
