// A Bench in a window of its own, with the focus, driven by real keys that go to whatever has the focus.
#pragma once

#include "tests/support/desk_fixture.h"
#include "ui/bench/bench_model.h"
#include "ui/bench/bench_view.h"
#include "ui/bench/entry_strip.h"
#include "ui/bench/form_panel.h"
#include "ui/bench/key_line.h"
#include "ui/bench/new_prints.h"
#include "ui/bench/session_strip.h"
#include "ui/common/empty_state.h"
#include "ui/common/field_editor.h"
#include "ui/common/record_dialog.h"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QShortcut>
#include <QSignalSpy>
#include <QSpinBox>
#include <QTest>
#include <QTimer>
#include <functional>
#include <gmock/gmock.h>

namespace washfast::test {

class BenchFixture : public testing::Test {
protected:
    void open()
    {
        view = std::make_unique<ui::BenchView>(room.services());
        view->resize(1180, 760);
        // The window's keys, which the Bench leaves to it.
        auto* undo = new QShortcut(QKeySequence(QKeySequence::Undo), view.get());
        QObject::connect(undo, &QShortcut::activated, &room.desk(), [this] { room.desk().undo(); });
        QObject::connect(view.get(), &ui::View::say, view.get(), [this](const QString& sentence) { said << sentence; });
        view->show();
        view->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(view.get()));
        view->arrive();
    }
    void TearDown() override { view.reset(); }

    qint64 addSession(const char* code = "A1")
    {
        const auto id = room.add(Entity::Session, { { "session_code", code }, { "session_start", room.desk().now() } });
        room.sit(id);
        return id;
    }
    QVector<qint64> addPrints(int n)
    {
        QVector<qint64> prints;
        for (int i = 1; i <= n; ++i)
            prints << room.print(QStringLiteral("A1-%1").arg(i, 2, 10, QLatin1Char('0')).toUtf8().constData());
        return prints;
    }

    /// After a dialog the window comes back to the front when the window system says so: waits for it.
    static void settle()
    {
        QWidget* front = QApplication::activeModalWidget();
        for (auto* window : QApplication::topLevelWidgets())
            if (!front && qobject_cast<ui::BenchView*>(window) && window->isVisible())
                front = window;
        if (!front || front->isAncestorOf(QApplication::focusWidget()))
            return;
        front->activateWindow();
        ASSERT_TRUE(QTest::qWaitFor([front] { return front->isAncestorOf(QApplication::focusWidget()); }))
            << "nothing has the focus";
    }
    static void key(Qt::Key code, Qt::KeyboardModifiers modifiers = Qt::NoModifier, int times = 1)
    {
        for (int i = 0; i < times; ++i) {
            settle();
            ASSERT_NE(QApplication::focusWidget(), nullptr);
            QTest::keyClick(QApplication::focusWidget(), code, modifiers);
        }
    }
    static void type(const char* text)
    {
        for (const char* letter = text; *letter != '\0'; ++letter) {
            settle();
            ASSERT_NE(QApplication::focusWidget(), nullptr);
            QTest::keyClick(QApplication::focusWidget(), *letter);
        }
    }
    /// What is done in the next dialog, once it is there and has the focus.
    static void inDialog(std::function<void(QDialog&)> work, int tries = 500)
    {
        QTimer::singleShot(10, qApp, [work = std::move(work), tries] {
            auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
            if (!dialog || !dialog->isAncestorOf(QApplication::focusWidget())) {
                ASSERT_GT(tries, 0) << "there is no dialog";
                inDialog(work, tries - 1);
                return;
            }
            work(*dialog);
            if (dialog->isVisible()) {
                ADD_FAILURE() << "the dialog is still open";
                dialog->reject();
            }
        });
    }
    /// Walks with Tab to the button that Enter would take, and presses it.
    static void accept(QDialog& dialog)
    {
        for (int i = 0; i < 60; ++i) {
            auto* button = qobject_cast<QPushButton*>(QApplication::focusWidget());
            if (button && button->isDefault() && !button->isCheckable()) {
                key(Qt::Key_Space);
                return;
            }
            QTest::keyClick(QApplication::focusWidget() ? QApplication::focusWidget() : &dialog, Qt::Key_Tab);
        }
        ADD_FAILURE() << "Tab never came to the button";
    }
    void goTo(int row, int column)
    {
        view->table()->setFocus();
        view->table()->goTo(view->model()->index(row, column));
    }
    [[nodiscard]] ui::Stage stage(int row, Station station) const
    {
        return ui::stateAt(view->model()->states(row), station).stage;
    }
    [[nodiscard]] bool tableHasFocus() const
    {
        settle();
        return QApplication::focusWidget() == view->table();
    }
    [[nodiscard]] bool lineHasFocus() const
    {
        settle();
        return QApplication::focusWidget() == view->entry()->line();
    }

    DeskFixture room;
    std::unique_ptr<ui::BenchView> view;
    QStringList said;
};

} // namespace washfast::test
