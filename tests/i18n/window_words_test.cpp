// The window in a made-up language, with the example notebook: nothing that can be read in its views is left in
// English.
#include "app/demo/demo_notebook.h"
#include "app/window/main_window.h"
#include "app/window/wiring.h"
#include "tests/i18n/made_up_language.h"
#include "tests/i18n/seen_text.h"
#include "tests/support/desk_fixture.h"

#include <QMenuBar>
#include <QStackedWidget>
#include <QStatusBar>
#include <QTabWidget>
#include <QTest>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::i18n;
using testing::IsEmpty;

namespace {

class WindowInWords : public testing::Test {
protected:
    void SetUp() override
    {
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
        window.reset();
        EXPECT_EQ(language.takeMissing(), "") << "asked for and in no translation";
    }

    [[nodiscard]] DataWords data() { return { room.desk().notebook(), room.catalogue() }; }
    /// The widget with every page of its tabs brought to the front in turn.
    void readPages(QWidget& shown)
    {
        seen.read(shown);
        for (auto* tabs : shown.findChildren<QTabWidget*>()) {
            const int first = tabs->currentIndex();
            for (int i = 0; i < tabs->count(); ++i) {
                tabs->setCurrentIndex(i);
                QTest::qWait(20);
                seen.read(shown);
            }
            tabs->setCurrentIndex(first);
        }
    }

    MadeUpLanguage& language = MadeUpLanguage::spoken(); // before the catalogue
    DeskFixture room;
    std::unique_ptr<MainWindow> window;
    SeenText seen;
};

} // namespace

TEST_F(WindowInWords, EveryView)
{
    for (int i = 0; i < window->count(); ++i) {
        auto* view = window->go(i);
        QTest::qWait(100);
        readPages(*view);
        seen.add(QStringLiteral("foot"), window->statusBar()->currentMessage());
    }
    seen.read(*window);
    EXPECT_GT(seen.count(), 2000);
    EXPECT_TRUE(seen.leftIn(data()).empty()) << seen.leftIn(data());
}

} // namespace WASHFAST_FILE
