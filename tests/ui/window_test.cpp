// The window as a whole, with the example notebook: every control can be named by a screen reader and reached by Tab,
// number keys go to the views, no word is cut off, and a notebook that cannot be changed says so.
#include "app/demo/demo_notebook.h"
#include "app/window/main_window.h"
#include "app/window/wiring.h"
#include "tests/support/desk_fixture.h"

#include <QAbstractButton>
#include <QAbstractSpinBox>
#include <QAccessible>
#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMenuBar>
#include <QScrollBar>
#include <QSet>
#include <QStyle>
#include <QStyleOptionComboBox>
#include <QTest>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

class WindowTest : public testing::Test {
protected:
    void open(const QSize& size = { 1280, 820 })
    {
        window = std::make_unique<MainWindow>(room.services(), allViews());
        window->resize(size);
        window->show();
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
        room.desk().waitUntilComplete();
    }
    void openExample(const QSize& size = { 1280, 820 })
    {
        const auto written = demo::writeDemo(room.desk().file());
        ASSERT_TRUE(written) << written.error().sentence().toStdString();
        room.reopen();
        open(size);
    }
    void TearDown() override { window.reset(); }

    [[nodiscard]] QWidget* view(int index)
    {
        auto* shown = window->go(index);
        QTest::qWait(60);
        return shown;
    }
    /// Widgets that take part now: visible, not scaffolding of other controls.
    static QList<QWidget*> controls(QWidget* within)
    {
        QList<QWidget*> found;
        for (auto* widget : within->findChildren<QWidget*>())
            if (widget->isVisibleTo(within->window()) && widget->isEnabled() && (widget->focusPolicy() & Qt::TabFocus)
                && !widget->focusProxy() && widget->isVisible())
                found << widget;
        return found;
    }
    static std::string told(const QWidget* widget)
    {
        return std::string(widget->metaObject()->className()) + " in "
            + (widget->parentWidget() ? widget->parentWidget()->metaObject()->className() : "nothing");
    }

    DeskFixture room;
    std::unique_ptr<MainWindow> window;
};

} // namespace

TEST_F(WindowTest, EveryControlHasANameForAScreenReader)
{
    openExample();
    for (int i = 0; i < window->count(); ++i) {
        auto* shown = view(i);
        int seen = 0;
        for (auto* widget : controls(shown)) {
            if (qobject_cast<QScrollBar*>(widget))
                continue;
            // A line inside a box or a spin box speaks for it.
            if (qobject_cast<QComboBox*>(widget->parentWidget())
                || qobject_cast<QAbstractSpinBox*>(widget->parentWidget()))
                continue;
            auto* spoken = QAccessible::queryAccessibleInterface(widget);
            ASSERT_NE(spoken, nullptr) << told(widget);
            EXPECT_FALSE(spoken->text(QAccessible::Name).isEmpty()) << "view " << i << ": " << told(widget);
            ++seen;
        }
        EXPECT_GT(seen, 1) << "view " << i;
    }
}

TEST_F(WindowTest, TabReachesEveryControlOfAView)
{
    openExample();
    for (int i = 0; i < window->count(); ++i) {
        auto* shown = view(i);
        QSet<QWidget*> reached;
        QWidget* first = QApplication::focusWidget();
        ASSERT_NE(first, nullptr) << "view " << i << " takes the focus when one comes to it";
        for (int step = 0; step < 400; ++step) {
            reached << QApplication::focusWidget();
            QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
            ASSERT_NE(QApplication::focusWidget(), nullptr);
            if (QApplication::focusWidget() == first)
                break;
        }
        EXPECT_EQ(QApplication::focusWidget(), first) << "view " << i << ": Tab goes round";
        for (auto* widget : controls(shown)) {
            const bool scaffolding = qobject_cast<QScrollBar*>(widget)
                || qobject_cast<QComboBox*>(widget->parentWidget())
                || qobject_cast<QAbstractSpinBox*>(widget->parentWidget());
            if (!scaffolding)
                EXPECT_TRUE(reached.contains(widget)) << "view " << i << ": " << told(widget);
        }
    }
}

TEST_F(WindowTest, NumberKeysGoToTheViews)
{
    open();
    for (int i = window->count() - 1; i >= 0; --i) {
        ASSERT_NE(QApplication::focusWidget(), nullptr);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key(Qt::Key_1 + i), Qt::ControlModifier);
        EXPECT_EQ(window->current(), i);
        EXPECT_TRUE(window->isAncestorOf(QApplication::focusWidget())) << i;
    }
    EXPECT_EQ(window->indexOf(QStringLiteral("Bench")), 0);
    EXPECT_EQ(window->indexOf(QStringLiteral("Nowhere")), -1);
}

TEST_F(WindowTest, NoWordIsCutOffInASmallWindow)
{
    openExample({ 1100, 720 });
    for (int i = 0; i < window->count(); ++i) {
        auto* shown = view(i);
        for (auto* label : shown->findChildren<QLabel*>()) {
            if (!label->isVisible() || label->text().isEmpty() || label->wordWrap())
                continue;
            EXPECT_GE(label->width(), label->sizeHint().width() - 1)
                << "view " << i << ": " << label->text().toStdString();
        }
        for (auto* button : shown->findChildren<QAbstractButton*>()) {
            if (!button->isVisible() || button->text().isEmpty())
                continue;
            EXPECT_GE(button->width(), button->minimumSizeHint().width() - 1)
                << "view " << i << ": " << button->text().toStdString();
        }
        for (auto* box : shown->findChildren<QComboBox*>()) {
            if (!box->isVisible() || box->isEditable())
                continue;
            const int words = box->fontMetrics().horizontalAdvance(box->currentText());
            QStyleOptionComboBox option;
            option.initFrom(box);
            const auto room_for
                = box->style()->subControlRect(QStyle::CC_ComboBox, &option, QStyle::SC_ComboBoxEditField, box).width();
            EXPECT_GE(room_for, words) << "view " << i << ": " << box->currentText().toStdString();
        }
        EXPECT_LE(shown->minimumSizeHint().width(), 1100) << "view " << i;
    }
    EXPECT_LE(window->width(), 1100) << "nothing has pushed the window wider";
    EXPECT_LE(window->height(), 720) << "nothing has pushed the window higher";
}

TEST_F(WindowTest, ANotebookThatCannotBeChangedSaysSo)
{
    room.print("A1");
    room.reopen(true);
    open();
    ASSERT_FALSE(room.desk().writable());
    const auto sentence = readOnlySentence(room.desk().file());
    EXPECT_FALSE(sentence.isEmpty());
    bool seen = false;
    for (auto* label : window->findChildren<QLabel*>())
        seen = seen || (label->isVisible() && label->text() == sentence);
    EXPECT_TRUE(seen) << sentence.toStdString();
    for (auto* action : window->findChildren<QAction*>())
        if (action->shortcuts().contains(QKeySequence(QKeySequence::Undo)))
            EXPECT_FALSE(action->isEnabled());
    // Keys on the Bench change nothing.
    const auto print = room.desk().notebook().prints().id(0);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Space);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_3);
    EXPECT_FALSE(room.get(print, "coat_start").has());
    EXPECT_EQ(room.childrenOf(print, Entity::Touch), 0);
}

} // namespace WASHFAST_FILE
