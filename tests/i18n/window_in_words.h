// The window and its dialogs on the example notebook, in the made-up language; all that is read is gathered.
//
//     TEST_F(WindowInWords, TheShelf)
//     {
//         auto& shelf = view<ui::ShelfView>();
//         shelf.choose(Entity::Lamp);
//         readPages(shelf);
//     }                                        // what was left in English fails the test
#pragma once

#include "app/demo/demo_notebook.h"
#include "app/window/main_window.h"
#include "app/window/wiring.h"
#include "tests/i18n/made_up_language.h"
#include "tests/i18n/seen_text.h"
#include "tests/support/desk_fixture.h"

#include <QFileInfo>
#include <QSettings>
#include <QStatusBar>
#include <QTabWidget>
#include <QTest>

namespace washfast::i18n {

class WindowInWords : public testing::Test {
protected:
    WindowInWords()
    {
        QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, files.path());
        QCoreApplication::setOrganizationName(QStringLiteral("washfast-test"));
        QCoreApplication::setApplicationName(QStringLiteral("washfast-test"));
    }
    void SetUp() override
    {
        room.clock.set(QDateTime(QDate(2026, 6, 16), QTime(8, 5), Qt::UTC));
        const auto written = demo::writeDemo(room.desk().file());
        ASSERT_TRUE(written) << written.error().sentence().toStdString();
        room.reopen();
        room.desk().waitUntilComplete();
        window = std::make_unique<MainWindow>(room.services(), allViews());
        window->resize(1280, 820);
        window->show();
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
    }
    void TearDown() override
    {
        for (const auto& one : room.dialogs.shown()) {
            seen.add(QStringLiteral("dialog title"), one.title);
            if (one.kind == QLatin1String("save"))
                seen.add(QStringLiteral("name of a file"), QFileInfo(one.text).completeBaseName());
            else if (one.kind != QLatin1String("open"))
                seen.add(QStringLiteral("dialog text"), one.text);
            for (const auto& choice : one.choices)
                seen.add(QStringLiteral("dialog choice"), choice);
        }
        DataWords data(room.desk().notebook(), room.catalogue());
        // The file, names of zones, keys as they stand on every keyboard, and the program itself.
        data.add(QStringLiteral("notebook washfast Washfast Europe/Lisbon Europe/Vienna CIEDE2000"));
        for (const auto& words : also_data)
            data.add(words);
        const auto left = seen.leftIn(data);
        EXPECT_TRUE(left.empty()) << left;
        window.reset();
        const auto missing = language.takeMissing();
        EXPECT_TRUE(missing.empty()) << "asked for and in no translation:\n" << missing;
    }

    /// The view of this class, in front.
    template <typename V> V& view()
    {
        for (int i = 0; i < window->count(); ++i)
            if (auto* found = qobject_cast<V*>(window->go(i))) {
                pause();
                return *found;
            }
        throw std::runtime_error("no such view");
    }
    /// The widget with every page of its tabs brought to the front in turn.
    void readPages(QWidget& shown)
    {
        seen.read(shown);
        for (auto* tabs : shown.findChildren<QTabWidget*>()) {
            const int first = tabs->currentIndex();
            for (int i = 0; i < tabs->count(); ++i) {
                tabs->setCurrentIndex(i);
                pause();
                seen.read(shown);
            }
            tabs->setCurrentIndex(first);
        }
        seen.add(QStringLiteral("foot"), window->statusBar()->currentMessage());
    }
    template <typename W> static void waitFor(const W& busy)
    {
        pause();
        ASSERT_TRUE(QTest::qWaitFor([&] { return !busy.working(); }, 60'000));
        pause();
    }
    /// What is due in the event loop is done: layouts, repaints, posted work.
    static void pause()
    {
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents();
        QCoreApplication::processEvents();
    }
    [[nodiscard]] qint64 lastOf(Entity entity)
    {
        const auto& table = room.desk().notebook().table(entity);
        return table.rows() > 0 ? table.id(table.rows() - 1) : 0;
    }
    [[nodiscard]] QString path(const char* name) const { return files.filePath(QString::fromUtf8(name)); }

    MadeUpLanguage& language = MadeUpLanguage::spoken(); // before the catalogue
    QTemporaryDir files;
    test::DeskFixture room;
    std::unique_ptr<MainWindow> window;
    SeenText seen;
    QStringList also_data;
};

} // namespace washfast::i18n
