// Dialogs, the clock and the empty view: the parts that tests lean on.
#include "ui/common/dialogs.h"

#include "tests/support/scripted_dialogs.h"
#include "tests/support/settable_clock.h"
#include "ui/common/empty_state.h"

#include <QApplication>
#include <QMessageBox>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>
#include <QTimer>
#include <functional>
#include <gtest/gtest-spi.h>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;

TEST(Dialogs, AnEndingIsAddedOnlyWhenThereIsNone)
{
    const QString filter = QStringLiteral("SVG picture (*.svg *.svgz)");
    EXPECT_EQ(ui::withEnding(QStringLiteral("curve"), filter), QStringLiteral("curve.svg"));
    EXPECT_EQ(ui::withEnding(QStringLiteral("a.b/curve"), filter), QStringLiteral("a.b/curve.svg"));
    EXPECT_EQ(ui::withEnding(QStringLiteral("curve.png"), filter), QStringLiteral("curve.png"));
    EXPECT_EQ(ui::withEnding(QStringLiteral("curve"), QStringLiteral("All files (*)")), QStringLiteral("curve"));
    EXPECT_EQ(ui::withEnding(QString(), filter), QString());
}

TEST(Dialogs, QuestionsGiveTheAnswerThatWasPressed)
{
    ui::QtDialogs dialogs;
    const auto ask = [&](const std::function<void(QMessageBox&)>& act) {
        QTimer::singleShot(0, [&act] {
            auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
            if (box)
                act(*box);
        });
        return dialogs.question(nullptr, QStringLiteral("Print A-12"), QStringLiteral("Remove it?"),
            { QStringLiteral("Remove"), QStringLiteral("Keep") });
    };
    const auto press = [](QMessageBox& box, const QString& text) {
        const auto buttons = box.buttons();
        for (QAbstractButton* button : buttons)
            if (button->text() == text)
                button->click();
    };
    EXPECT_EQ(ask([&](QMessageBox& box) { press(box, QStringLiteral("Keep")); }), 1);
    EXPECT_EQ(ask([&](QMessageBox& box) { press(box, QStringLiteral("Remove")); }), 0);
    EXPECT_EQ(ask([](QMessageBox& box) { QTest::keyClick(&box, Qt::Key_Escape); }), std::nullopt);
    EXPECT_EQ(ask([](QMessageBox& box) { box.close(); }), std::nullopt);
}

TEST(ScriptedDialogs, AnswersInOrderAndRemembers)
{
    test::ScriptedDialogs dialogs;
    dialogs.willSave(QStringLiteral("curve.svg"));
    dialogs.willTurnBackFromSave();
    dialogs.willAnswer(1);
    dialogs.willOpen(QStringList { QStringLiteral("a.jpg"), QStringLiteral("b.jpg") });
    EXPECT_EQ(dialogs.saveFile(nullptr, QStringLiteral("Save"), {}, {}), QStringLiteral("curve.svg"));
    EXPECT_EQ(dialogs.saveFile(nullptr, QStringLiteral("Save again"), {}, {}), std::nullopt);
    EXPECT_EQ(dialogs.question(nullptr, QStringLiteral("Ask"), {}, { QStringLiteral("Yes"), QStringLiteral("No") }), 1);
    EXPECT_FALSE(dialogs.allUsed());
    EXPECT_EQ(dialogs.openFiles(nullptr, QStringLiteral("Open"), {}, {}).size(), 2);
    EXPECT_TRUE(dialogs.allUsed());
    dialogs.error(nullptr, QStringLiteral("Oh"), QStringLiteral("It did not work."), {});
    EXPECT_EQ(dialogs.texts(QStringLiteral("error")), QStringList { QStringLiteral("It did not work.") });
    EXPECT_EQ(dialogs.titles().size(), 5);
}

TEST(ScriptedDialogs, AnUnexpectedQuestionFailsTheTest)
{
    EXPECT_NONFATAL_FAILURE(
        {
            test::ScriptedDialogs dialogs;
            const auto answer = dialogs.question(nullptr, QStringLiteral("Ask"), {}, {});
            EXPECT_FALSE(answer);
        },
        "nothing was scripted");
}

TEST(SettableClock, StandsStillUntilMoved)
{
    test::SettableClock clock;
    const QDateTime start = clock.now();
    EXPECT_EQ(clock.now(), start);
    clock.advanceMinutes(15);
    EXPECT_EQ(start.secsTo(clock.now()), 900);
    EXPECT_EQ(clock.now().timeSpec(), Qt::UTC);
    EXPECT_EQ(ui::SystemClock().now().timeSpec(), Qt::UTC);
}

TEST(EmptyState, OffersOneActionByMouseAndKeyboard)
{
    ui::EmptyState view(ui::lightTheme());
    view.setContent(QStringLiteral("No prints yet"), QStringLiteral("Prints stand here."), QStringLiteral("Start"));
    view.resize(500, 300);
    view.show();
    QSignalSpy triggered(&view, &ui::EmptyState::actionTriggered);
    EXPECT_EQ(view.accessibleName(), QStringLiteral("No prints yet"));
    EXPECT_EQ(view.button()->accessibleName(), QStringLiteral("Start"));
    QTest::mouseClick(view.button(), Qt::LeftButton);
    QTest::keyClick(view.button(), Qt::Key_Space);
    EXPECT_EQ(triggered.count(), 2);
    EXPECT_EQ(view.focusProxy(), view.button());
    view.setContent(QStringLiteral("No prints"), QStringLiteral("The filter finds none."), {});
    EXPECT_FALSE(view.button()->isVisible());
    // It fits into a narrow pane.
    EXPECT_LT(view.minimumSizeHint().width(), 260);
}

} // namespace WASHFAST_FILE
