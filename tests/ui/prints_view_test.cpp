// The view of the prints: table, filter line and page together, by keyboard and mouse.
#include "ui/prints/prints_view.h"

#include "tests/support/prints_fixture.h"
#include "ui/common/empty_state.h"
#include "ui/prints/column_dialog.h"
#include "ui/prints/filter_line.h"
#include "ui/prints/print_page.h"
#include "ui/prints/print_table_model.h"

#include <QApplication>
#include <QClipboard>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>
#include <QTimer>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::PrintsView;

namespace {

class Prints : public testing::Test {
protected:
    void SetUp() override { room.lesson(); }
    void open()
    {
        view = std::make_unique<PrintsView>(room.services());
        view->resize(1200, 700);
        QObject::connect(view.get(), &ui::View::say, view.get(), [this](const QString& sentence) { said << sentence; });
        view->show();
        view->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(view.get()));
        view->arrive();
    }
    void openWithThree()
    {
        first = room.toned("A1-01", 0.9, 0.5);
        second = room.toned("A1-02", 0.9, 0.8);
        third = room.toned("A1-03", 0.9, 0.2);
        open();
    }
    [[nodiscard]] QStringList codes() const { return columnOf(*view->model(), 1); }
    void key(Qt::Key code, Qt::KeyboardModifiers modifiers = Qt::NoModifier)
    {
        QTest::keyClick(view->table(), code, modifiers);
    }
    void press(const char* label)
    {
        for (auto* button : view->findChildren<QPushButton*>())
            if (button->text().remove(QLatin1Char('&')) == text(label) && button->isVisible())
                QTest::mouseClick(button, Qt::LeftButton);
    }
    [[nodiscard]] bool pageIsOpen() const { return view->page()->isVisible(); }

    PrintsFixture room;
    std::unique_ptr<PrintsView> view;
    QStringList said;
    qint64 first = 0, second = 0, third = 0;
};

TEST_F(Prints, AnEmptyNotebookSaysWhatWouldBeHere)
{
    open();
    EXPECT_TRUE(view->findChild<ui::EmptyState*>()->isVisible());
    EXPECT_FALSE(view->findChild<ui::EmptyState*>()->sentence().isEmpty());
    EXPECT_FALSE(view->table()->isVisible());
    room.print("A1-01");
    EXPECT_TRUE(view->table()->isVisible()) << "and gives way to the first print";
}

TEST_F(Prints, AFilterThatMatchesNothingOffersAllAgain)
{
    openWithThree();
    view->setFilter(text("kept > 5"));
    auto* empty = view->findChild<ui::EmptyState*>();
    ASSERT_TRUE(empty->isVisible());
    QTest::mouseClick(empty->button(), Qt::LeftButton);
    EXPECT_EQ(view->model()->rowCount(), 3);
    EXPECT_TRUE(view->table()->isVisible());
    EXPECT_EQ(view->filterLine()->text(), QString());
}

TEST_F(Prints, AWrongFilterKeepsWhatTheLastGoodOneShows)
{
    openWithThree();
    view->setFilter(text("kept < 0.6"));
    EXPECT_EQ(codes(), texts({ "A1-01", "A1-03" }));
    view->setFilter(text("kept < 0.6 and nonsense = 3"));
    EXPECT_EQ(codes(), texts({ "A1-01", "A1-03" }));
    EXPECT_NE(view->filterLine()->complaint(), QString());
}

TEST_F(Prints, CtrlFGoesToTheFilterAndEnterBackToTheTable)
{
    openWithThree();
    key(Qt::Key_F, Qt::ControlModifier);
    EXPECT_EQ(QApplication::focusWidget(), view->filterLine()->line());
    QTest::keyClick(view->filterLine()->line(), Qt::Key_Return);
    EXPECT_EQ(QApplication::focusWidget(), view->table());
}

TEST_F(Prints, HelpOnTheFilterIsShown)
{
    openWithThree();
    Q_EMIT view->filterLine()->helpWanted();
    ASSERT_EQ(room.dialogs.texts(text("message")).size(), 1);
    EXPECT_TRUE(room.dialogs.texts(text("message"))[0].contains(text("kept")));
}

TEST_F(Prints, EnterOpensThePageArrowsLeafAndEscapeCloses)
{
    openWithThree();
    EXPECT_FALSE(pageIsOpen());
    key(Qt::Key_Return);
    ASSERT_TRUE(pageIsOpen());
    EXPECT_EQ(view->page()->print(), first);
    key(Qt::Key_Down);
    EXPECT_EQ(view->page()->print(), second);
    key(Qt::Key_Escape);
    EXPECT_FALSE(pageIsOpen());
    EXPECT_EQ(QApplication::focusWidget(), view->table());
}

TEST_F(Prints, ClickingAHeadingSortsAndClickingAgainTurnsItRound)
{
    openWithThree();
    view->model()->setColumns(texts({ "print_code", "kept" }));
    auto* header = view->table()->horizontalHeader();
    const QPoint kept(header->sectionViewportPosition(2) + 10, header->height() / 2);
    QTest::mouseClick(header->viewport(), Qt::LeftButton, Qt::NoModifier, kept);
    EXPECT_EQ(codes(), texts({ "A1-03", "A1-01", "A1-02" }));
    QTest::mouseClick(header->viewport(), Qt::LeftButton, Qt::NoModifier, kept);
    EXPECT_EQ(codes(), texts({ "A1-02", "A1-01", "A1-03" }));
}

TEST_F(Prints, ShowingAPrintThatTheFilterHidesClearsTheFilter)
{
    openWithThree();
    view->setFilter(text("kept < 0.6"));
    view->showPrint(second);
    EXPECT_EQ(view->filterLine()->text(), QString());
    EXPECT_EQ(view->page()->print(), second);
    EXPECT_EQ(view->model()->idAt(view->table()->currentIndex().row()), second);
}

TEST_F(Prints, WhatIsChosenStaysChosenWhenRowsComeAndGo)
{
    openWithThree();
    view->table()->selectRow(1);
    room.print("A1-04");
    EXPECT_EQ(view->selected(), (QVector<qint64> { second }));
    view->setFilter(text("kept > 0.4"));
    EXPECT_EQ(view->selected(), (QVector<qint64> { second }));
    EXPECT_EQ(view->model()->idAt(view->table()->currentIndex().row()), second);
    view->setFilter(text("kept < 0.4"));
    EXPECT_EQ(view->selected(), (QVector<qint64> {}));
}

TEST_F(Prints, ThePageStaysWithItsPrintWhenTheFilterHidesIt)
{
    openWithThree();
    view->showPrint(second);
    view->setFilter(text("kept < 0.6"));
    EXPECT_TRUE(pageIsOpen());
    EXPECT_EQ(view->page()->print(), second);
}

TEST_F(Prints, RemovingAsksAndCanBeUndone)
{
    openWithThree();
    view->table()->selectRow(0);
    room.dialogs.willAnswer(1);
    key(Qt::Key_Delete);
    EXPECT_EQ(view->model()->rowCount(), 3) << "kept";
    room.dialogs.willAnswer(0);
    key(Qt::Key_Delete);
    EXPECT_EQ(codes(), texts({ "A1-02", "A1-03" }));
    ASSERT_EQ(said.size(), 1);
    EXPECT_TRUE(said[0].contains(text("Ctrl+Z")));
    room.undo();
    EXPECT_EQ(codes(), texts({ "A1-01", "A1-02", "A1-03" }));
    EXPECT_EQ(room.number(first, "kept"), 0.5) << "with its readings";
}

TEST_F(Prints, RemovingSeveralIsOneStep)
{
    openWithThree();
    view->table()->selectAll();
    room.dialogs.willAnswer(0);
    press("Remove");
    EXPECT_EQ(view->model()->rowCount(), 0);
    room.undo();
    EXPECT_EQ(view->model()->rowCount(), 3);
}

TEST_F(Prints, SideBySideSendsTheChosenInTheOrderOfTheTable)
{
    openWithThree();
    QSignalSpy sent(view.get(), &ui::View::sideBySide);
    view->table()->selectRow(2);
    press("Side by side");
    EXPECT_EQ(sent.size(), 0);
    ASSERT_EQ(said.size(), 1) << "one alone cannot be compared";
    view->table()->selectAll();
    press("Side by side");
    ASSERT_EQ(sent.size(), 1);
    EXPECT_EQ(sent[0][0].value<QVector<qint64>>(), (QVector<qint64> { first, second, third }));
}

TEST_F(Prints, CopyGivesATable)
{
    openWithThree();
    view->model()->setColumns(texts({ "print_code", "kept" }));
    view->table()->selectRow(0);
    key(Qt::Key_C, Qt::ControlModifier);
    EXPECT_EQ(QApplication::clipboard()->text(), text("Print\tKept\nA1-01\t0.50\n"));
    EXPECT_EQ(said.size(), 1);
}

TEST_F(Prints, ColumnsAreChosenAndRemembered)
{
    openWithThree();
    QTimer::singleShot(0, view.get(), [] {
        auto* dialog = qobject_cast<ui::ColumnDialog*>(QApplication::activeModalWidget());
        ASSERT_NE(dialog, nullptr);
        auto* all = dialog->findChildren<QListWidget*>()[0];
        for (int i = 0; i < all->count(); ++i)
            if (all->item(i)->data(Qt::UserRole).toString() == text("coat_tool"))
                all->item(i)->setCheckState(Qt::Checked);
        dialog->accept();
    });
    press("Columns...");
    EXPECT_TRUE(view->model()->columnKeys().endsWith(text("coat_tool")));
    const auto keys = view->model()->columnKeys();
    view.reset();
    open();
    EXPECT_EQ(view->model()->columnKeys(), keys);
}

TEST_F(Prints, TheArrowOfTheHeadingGoesWithTheSortedColumn)
{
    openWithThree();
    view->model()->setColumns(texts({ "print_code", "mix_code", "kept" }));
    view->table()->sortByColumn(3, Qt::DescendingOrder);
    QTimer::singleShot(0, view.get(), [] {
        auto* dialog = qobject_cast<ui::ColumnDialog*>(QApplication::activeModalWidget());
        ASSERT_NE(dialog, nullptr);
        auto* all = dialog->findChildren<QListWidget*>()[0];
        for (int i = 0; i < all->count(); ++i)
            if (all->item(i)->data(Qt::UserRole).toString() == text("mix_code"))
                all->item(i)->setCheckState(Qt::Unchecked);
        dialog->accept();
    });
    view->chooseColumns();
    EXPECT_EQ(view->table()->horizontalHeader()->sortIndicatorSection(), 2);
    EXPECT_EQ(codes(), texts({ "A1-02", "A1-01", "A1-03" }));
}

TEST_F(Prints, NoHeadingAndNoValueIsCutOff)
{
    openWithThree();
    const auto* header = view->table()->horizontalHeader();
    for (int column = 1; column < view->model()->columnCount(); ++column) {
        const auto words = view->model()->headerData(column, Qt::Horizontal).toString();
        const QRect room_for(0, 0, header->sectionSize(column) - 16, header->height());
        const auto taken = header->fontMetrics().boundingRect(room_for, Qt::TextWordWrap, words);
        EXPECT_LE(taken.width(), room_for.width()) << words.toStdString();
        EXPECT_LE(taken.height(), header->height()) << words.toStdString();
    }
}

TEST_F(Prints, CountsWhatIsShown)
{
    openWithThree();
    view->setFilter(text("kept < 0.6"));
    QStringList labels;
    for (const auto* label : view->findChildren<QLabel*>())
        if (label->isVisible())
            labels << label->text();
    EXPECT_TRUE(labels.join(QLatin1Char('|')).contains(text("2 of 3"))) << labels.join(QLatin1Char('|')).toStdString();
}

TEST_F(Prints, OfAReadOnlyNotebookNothingIsRemoved)
{
    first = room.toned("A1-01", 0.9, 0.5);
    room.reopen(true);
    open();
    view->table()->selectRow(0);
    key(Qt::Key_Delete);
    EXPECT_TRUE(room.dialogs.shown().empty());
    EXPECT_EQ(view->model()->rowCount(), 1);
    view->showPrint(first);
    EXPECT_TRUE(pageIsOpen()) << "it can be looked at";
}

TEST_F(Prints, TabReachesEveryControl)
{
    openWithThree();
    view->showPrint(first);
    view->table()->setFocus();
    QSet<QWidget*> reached;
    while (!reached.contains(QApplication::focusWidget())) {
        reached << QApplication::focusWidget();
        ASSERT_LT(reached.size(), 300);
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
    }
    EXPECT_EQ(QApplication::focusWidget(), view->table()) << "all the way round";
    for (auto* widget : view->findChildren<QWidget*>())
        if (widget->isVisible() && widget->isEnabled() && (widget->focusPolicy() & Qt::TabFocus)
            && !widget->focusProxy()) {
            EXPECT_TRUE(reached.contains(widget))
                << widget->metaObject()->className() << ' ' << widget->accessibleName().toStdString();
        }
}

} // namespace

} // namespace WASHFAST_FILE
