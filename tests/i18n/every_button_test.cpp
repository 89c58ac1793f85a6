// Every button and every entry of a menu in a made-up language: pressed in every view, and what opens, is asked or is
// said is read. Once the person turns back from every question, once they say yes to the first answer and save.
#include "core/chemistry/substance.h"
#include "tests/i18n/window_in_words.h"
#include "ui/bench/bench_model.h"
#include "ui/bench/bench_view.h"
#include "ui/causes/causes_view.h"
#include "ui/curves/curves_view.h"
#include "ui/prints/print_table_model.h"
#include "ui/prints/prints_view.h"
#include "ui/shelf/shelf_view.h"

#include <QDialog>
#include <QMenuBar>
#include <QPointer>
#include <QScrollBar>
#include <QTimer>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::i18n;

namespace {

/// Answers at once, always in the same way, and lets what was shown be read.
class OneAnswer final : public ui::Dialogs {
public:
    OneAnswer(SeenText& seen, QString folder, bool yes)
        : seen_(seen)
        , folder_(std::move(folder))
        , yes_(yes)
    {
    }
    std::optional<QString> openFile(QWidget*, const QString& title, const QString&, const QStringList& filters) override
    {
        read(title, {}, filters);
        return std::nullopt;
    }
    QStringList openFiles(QWidget*, const QString& title, const QString&, const QStringList& filters) override
    {
        read(title, {}, filters);
        return {};
    }
    std::optional<QString> saveFile(
        QWidget*, const QString& title, const QString& path, const QStringList& filters) override
    {
        read(title, QFileInfo(path).completeBaseName(), filters);
        if (!yes_)
            return std::nullopt;
        // Names are told in the messages; this one has no letters.
        return QStringLiteral("%1/%2.%3").arg(folder_).arg(++files_).arg(QFileInfo(path).suffix());
    }
    std::optional<int> question(
        QWidget*, const QString& title, const QString& text, const QStringList& answers) override
    {
        read(title, text, answers);
        return yes_ ? std::optional(0) : std::nullopt;
    }
    std::optional<QString> askText(QWidget*, const QString& title, const QString& label, const QString& first) override
    {
        read(title, label, { first });
        return yes_ ? std::optional(QStringLiteral("7")) : std::nullopt;
    }
    void message(QWidget*, const QString& title, const QString& text) override { read(title, text, {}); }
    void error(QWidget*, const QString& title, const QString& text, const QString& detail) override
    {
        read(title, text, { detail });
    }
    [[nodiscard]] int shown() const { return shown_; }

private:
    void read(const QString& title, const QString& text, const QStringList& others)
    {
        ++shown_;
        seen_.add(QStringLiteral("dialog title"), title);
        seen_.add(QStringLiteral("dialog text"), text);
        for (const auto& other : others)
            seen_.add(QStringLiteral("dialog answer"), other);
    }

    SeenText& seen_;
    QString folder_;
    bool yes_;
    int files_ = 0, shown_ = 0;
};

class EveryButton : public WindowInWords, public testing::WithParamInterface<bool> {
protected:
    void SetUp() override
    {
        WindowInWords::SetUp();
        room.expectTrouble();
        answers = std::make_unique<OneAnswer>(seen, files.path(), GetParam());
        window.reset();
        window = std::make_unique<MainWindow>(ui::Services { room.desk(), *answers, room.look }, allViews());
        window->resize(1280, 820);
        window->show();
        window->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(window.get()));
        // What opens by itself is read and left again.
        QObject::connect(&watch, &QTimer::timeout, &watch, [this] {
            if (auto* menu = QApplication::activePopupWidget()) {
                seen.read(*menu);
                menu->close();
            } else if (auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget())) {
                ++opened;
                readPages(*dialog);
                if (GetParam() && pressed.insert(dialog->metaObject()->className()).second) {
                    press(*dialog);
                    seen.read(*dialog);
                }
                dialog->reject();
            }
        });
        watch.start(5);
    }
    void TearDown() override
    {
        watch.stop();
        also_data << files.path() << room.path() << QStringLiteral("svg pdf xlsx csv json png washfast");
        for (const auto& substance : chemistry::knownSubstances())
            also_data << substance.key; // offered where a substance is typed
        also_data << QStringLiteral(
            "rain ran off not and or has from to is yes known unknown cotton"); // examples of the filter line
        for (const auto& trouble : room.troubles())
            seen.add(QStringLiteral("trouble"), trouble);
        WindowInWords::TearDown();
    }

    /// Presses every button that can be pressed now, and every entry of its menus.
    void press(QWidget& within)
    {
        QList<QPointer<QAbstractButton>> buttons;
        for (auto* button : within.findChildren<QAbstractButton*>())
            if (button->isVisible() && button->isEnabled())
                buttons << button;
        for (const auto& button : buttons) {
            if (!button || !button->isVisible() || !button->isEnabled())
                continue;
            button->click();
            ++clicks;
            pause();
            settle();
            seen.add(QStringLiteral("foot"), window->statusBar()->currentMessage());
        }
        QList<QPointer<QAction>> actions;
        for (auto* menu : within.findChildren<QMenu*>())
            for (auto* action : menu->actions())
                if (action->isEnabled() && !action->isSeparator() && !action->menu())
                    actions << action;
        for (const auto& action : actions) {
            if (!action || action->text() == madeUp("&Quit"))
                continue;
            action->trigger();
            ++clicks;
            pause();
            settle();
            seen.add(QStringLiteral("foot"), window->statusBar()->currentMessage());
        }
        seen.add(QStringLiteral("undo"), room.desk().undoLabel());
        seen.add(QStringLiteral("redo"), room.desk().redoLabel());
    }
    /// Searches that a button began come to their end.
    void settle()
    {
        for (auto* causes : window->findChildren<ui::CausesView*>())
            ASSERT_TRUE(QTest::qWaitFor([&] { return !causes->working(); }, 60'000));
    }
    void pressPages(QWidget& within)
    {
        press(within);
        seen.read(within);
        for (auto* tabs : within.findChildren<QTabWidget*>())
            for (int i = 0; i < tabs->count(); ++i) {
                tabs->setCurrentIndex(i);
                pause();
                press(within);
                seen.read(within);
            }
    }

    std::unique_ptr<OneAnswer> answers;
    QTimer watch;
    std::set<QByteArray> pressed; // kinds of dialog whose buttons have been pressed
    int clicks = 0, opened = 0;
};

} // namespace

TEST_P(EveryButton, OfTheViews)
{
    for (int i = 0; i < window->count(); ++i) {
        auto* view = window->go(i);
        pause();
        settle();
        pressPages(*view);
    }
    EXPECT_GT(clicks, 80);
}

TEST_P(EveryButton, OfTheBenchWithRowsAndAForm)
{
    auto& bench = view<ui::BenchView>();
    ASSERT_GT(bench.model()->rowCount(), 3);
    const auto prints = room.desk().printsOf(room.desk().session());
    for (int column = 0; column < bench.model()->columnCount(); ++column) {
        window->go(0);
        bench.choose(room.desk().printsOf(room.desk().session()).mid(1, 2));
        bench.table()->setCurrentIndex(bench.model()->index(1, column));
        pause();
        press(bench);
        seen.read(bench);
    }
    EXPECT_GT(clicks, 20);
}

TEST_P(EveryButton, OfAPrintsPage)
{
    auto& prints = view<ui::PrintsView>();
    prints.showPrint(prints.model()->idAt(0));
    pause();
    pressPages(prints);
    prints.table()->selectAll();
    pause();
    press(prints);
    EXPECT_GT(clicks, 20);
    EXPECT_GT(opened, 2);
}

TEST_P(EveryButton, OfEveryKindOnTheShelf)
{
    auto& shelf = view<ui::ShelfView>();
    for (const auto entity : { Entity::Mix, Entity::Paper, Entity::Cover, Entity::Negative, Entity::Site, Entity::Term,
             Entity::Chemical, Entity::Formula, Entity::Lamp, Entity::Card }) {
        window->go(window->count() - 1);
        shelf.choose(entity);
        pause();
        shelf.choose(Ref { entity, lastOf(entity) });
        pause();
        press(shelf);
        seen.read(shelf);
    }
    EXPECT_GT(clicks, 40);
    EXPECT_GT(opened, 10);
    EXPECT_GT(answers->shown(), 3);
}

TEST_P(EveryButton, OfTheMenus)
{
    view<ui::PrintsView>();
    press(*window->menuBar());
    seen.read(*window);
    EXPECT_GT(clicks, 10);
    EXPECT_GT(answers->shown(), 3);
}

INSTANTIATE_TEST_SUITE_P(TurningBackAndSayingYes, EveryButton, testing::Bool());

} // namespace WASHFAST_FILE
