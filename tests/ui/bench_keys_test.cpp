// The keys and the mouse of the Bench, one thing at a time.
#include "tests/support/bench_fixture.h"

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

class BenchKeys : public BenchFixture {
protected:
    void openWith(int count)
    {
        addSession();
        prints = addPrints(count);
        open();
    }
    [[nodiscard]] QWidget* button(const QString& text) const
    {
        for (auto* one : view->findChildren<QPushButton*>())
            if (one->text().remove(QLatin1Char('&')).startsWith(text))
                return one;
        ADD_FAILURE() << "no button " << text.toStdString();
        return nullptr;
    }
    void click(int row, int column, Qt::KeyboardModifiers modifiers = Qt::NoModifier)
    {
        const auto place = view->table()->visualRect(view->model()->index(row, column)).center();
        QTest::mouseClick(view->table()->viewport(), Qt::LeftButton, modifiers, place);
    }
    void doubleClick(int row, int column)
    {
        const auto place = view->table()->visualRect(view->model()->index(row, column)).center();
        QTest::mouseClick(view->table()->viewport(), Qt::LeftButton, Qt::NoModifier, place);
        QTest::mouseDClick(view->table()->viewport(), Qt::LeftButton, Qt::NoModifier, place);
    }

    QVector<qint64> prints;
};

} // namespace

TEST_F(BenchKeys, ArrowsWalkAndShiftChoosesSeveral)
{
    openWith(6);
    EXPECT_EQ(view->table()->currentIndex(), view->model()->index(0, BenchModel::Coat));
    key(Qt::Key_Down);
    key(Qt::Key_Down, Qt::ShiftModifier, 2);
    EXPECT_EQ(view->chosen(), prints.mid(1, 3));
    key(Qt::Key_Right, Qt::NoModifier, 3);
    EXPECT_EQ(view->chosen(), prints.mid(1, 3));
    EXPECT_EQ(view->table()->currentIndex().column(), BenchModel::Hold);
    key(Qt::Key_End);
    EXPECT_EQ(view->table()->currentIndex().column(), BenchModel::Read);
    key(Qt::Key_Home);
    EXPECT_EQ(view->table()->currentIndex().column(), BenchModel::Sheet);
    key(Qt::Key_Left);
    EXPECT_EQ(view->table()->currentIndex().column(), BenchModel::Sheet);
    key(Qt::Key_Up);
    EXPECT_EQ(view->chosen().size(), 1);
}

TEST_F(BenchKeys, SpaceActsOnTheChosenRowsInTheStateOfTheCurrentOne)
{
    openWith(4);
    goTo(1, BenchModel::Coat);
    key(Qt::Key_Space);
    EXPECT_EQ(stage(0, Station::Coat), Stage::Waiting);
    EXPECT_EQ(stage(1, Station::Coat), Stage::Running);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_A, Qt::ControlModifier);
    key(Qt::Key_Space); // the current one waits: those that wait are started
    for (int row = 0; row < 4; ++row)
        EXPECT_EQ(stage(row, Station::Coat), Stage::Running) << row;
    EXPECT_TRUE(said.last().contains(QStringLiteral("left as they are: 1 print"))) << said.last().toStdString();
    key(Qt::Key_Space);
    for (int row = 0; row < 4; ++row)
        EXPECT_EQ(stage(row, Station::Coat), Stage::Done) << row;
}

TEST_F(BenchKeys, SpaceOnADoneStationChangesNothingAndSaysWhy)
{
    openWith(1);
    key(Qt::Key_Space);
    room.clock.advanceMinutes(1);
    key(Qt::Key_Space);
    const auto ended = room.time(prints[0], "coat_end");
    room.clock.advanceMinutes(1);
    key(Qt::Key_Space);
    EXPECT_EQ(room.time(prints[0], "coat_end"), ended);
    EXPECT_TRUE(said.last().startsWith(QStringLiteral("Coat is done.")));
    goTo(0, BenchModel::Sheet);
    key(Qt::Key_Space);
    EXPECT_TRUE(said.last().contains(QStringLiteral("right arrow")));
}

TEST_F(BenchKeys, AKeyThatIsHeldDownStartsOnce)
{
    openWith(1);
    key(Qt::Key_Space);
    for (int i = 0; i < 5; ++i) {
        QKeyEvent again(QEvent::KeyPress, Qt::Key_Space, Qt::NoModifier, QStringLiteral(" "), true);
        QApplication::sendEvent(QApplication::focusWidget(), &again);
    }
    EXPECT_EQ(stage(0, Station::Coat), Stage::Running);
}

TEST_F(BenchKeys, ExposeStartsAFurtherExposureAfterTheFirst)
{
    openWith(1);
    goTo(0, BenchModel::Expose);
    for (int i = 0; i < 4; ++i) {
        key(Qt::Key_Space);
        room.clock.advanceMinutes(1);
    }
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Exposure), 2);
    EXPECT_EQ(room.number(prints[0], "expose_minutes"), 2.0);
}

TEST_F(BenchKeys, AllThatAreAlikeCanBeChosen)
{
    openWith(5);
    view->choose({ prints[1], prints[3] });
    key(Qt::Key_Space);
    goTo(1, BenchModel::Coat);
    key(Qt::Key_A);
    EXPECT_EQ(view->chosen(), (QVector<qint64> { prints[1], prints[3] }));
    goTo(0, BenchModel::Coat);
    key(Qt::Key_A);
    EXPECT_EQ(view->chosen(), (QVector<qint64> { prints[0], prints[2], prints[4] }));
}

TEST_F(BenchKeys, DigitsTouchTheChosenSheets)
{
    openWith(3);
    goTo(0, BenchModel::Dry);
    key(Qt::Key_Down, Qt::ShiftModifier);
    const char* states[] = { "wet_shine", "clings", "cool", "dry", "crisp" };
    for (int digit = 1; digit <= 5; ++digit) {
        room.clock.advanceMinutes(1);
        key(Qt::Key(Qt::Key_0 + digit));
        EXPECT_EQ(
            stateAt(view->model()->states(0), Station::Dry).figure.text(), QString::fromLatin1(states[digit - 1]));
    }
    EXPECT_EQ(room.childrenOf(prints[1], Entity::Touch), 5);
    EXPECT_EQ(room.childrenOf(prints[2], Entity::Touch), 0);
    key(Qt::Key_6);
    key(Qt::Key_0);
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Touch), 5) << "there are five";
}

TEST_F(BenchKeys, ARinsedSheetHasNoTouch)
{
    openWith(1);
    goTo(0, BenchModel::Rinse);
    key(Qt::Key_Space);
    key(Qt::Key_3);
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Touch), 0);
    EXPECT_TRUE(said.last().contains(QStringLiteral("before the rinse")));
}

TEST_F(BenchKeys, TheFormOpensAtTheStationAndEscapeComesBack)
{
    openWith(3);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_Down, Qt::ShiftModifier);
    key(Qt::Key_Return);
    ASSERT_TRUE(view->form()->isVisible());
    EXPECT_EQ(view->form()->station(), Station::Coat);
    EXPECT_TRUE(view->form()->isAncestorOf(QApplication::focusWidget()));
    auto* volume = view->form()->form()->editor(QStringLiteral("coat_volume_ml"));
    ASSERT_NE(volume, nullptr);
    volume->input()->setFocus();
    type("0.62");
    key(Qt::Key_Return);
    EXPECT_EQ(room.number(prints[0], "coat_volume_ml"), 0.62);
    EXPECT_EQ(room.number(prints[1], "coat_volume_ml"), 0.62);
    EXPECT_FALSE(room.get(prints[2], "coat_volume_ml").has());
    key(Qt::Key_Escape);
    EXPECT_TRUE(tableHasFocus());
    EXPECT_TRUE(view->form()->isVisible()) << "it stays and follows";
    key(Qt::Key_Right);
    EXPECT_EQ(view->form()->station(), Station::Dry);
    key(Qt::Key_Down);
    EXPECT_EQ(view->form()->form()->prints().size(), 1);
    key(Qt::Key_Escape);
    EXPECT_FALSE(view->form()->isVisible());
    key(Qt::Key_F2);
    EXPECT_TRUE(view->form()->isVisible());
    goTo(0, BenchModel::Sheet);
    EXPECT_EQ(view->form()->station(), Station::About);
}

TEST_F(BenchKeys, TheLineAtTheFootTellsTheKeysThatMatterNow)
{
    openWith(2);
    const auto does = [&](const char* wanted) {
        for (const auto& hint : view->keys()->hints())
            if (hint.key == QString::fromUtf8(wanted))
                return hint.does.toStdString();
        return std::string();
    };
    EXPECT_EQ(does("Space"), "start");
    key(Qt::Key_Space);
    EXPECT_EQ(does("Space"), "end");
    key(Qt::Key_Right, Qt::NoModifier, 2);
    EXPECT_EQ(does("L"), "light reading");
    key(Qt::Key_End);
    EXPECT_EQ(does("Space"), "");
    EXPECT_EQ(does("0–9"), "type a density");
    key(Qt::Key_W);
    EXPECT_EQ(does("Esc"), "back to the table");
    key(Qt::Key_Escape);
    key(Qt::Key_Return);
    EXPECT_EQ(does("Tab"), "next field");
    EXPECT_FALSE(view->keys()->accessibleDescription().isEmpty());
}

TEST_F(BenchKeys, TheMouseDoesItToo)
{
    openWith(5);
    click(1, BenchModel::Coat);
    click(3, BenchModel::Coat, Qt::ShiftModifier);
    EXPECT_EQ(view->chosen(), prints.mid(1, 3));
    auto* press = button(QStringLiteral("Start Coat, 3 prints"));
    ASSERT_NE(press, nullptr);
    QTest::mouseClick(press, Qt::LeftButton);
    EXPECT_EQ(stage(3, Station::Coat), Stage::Running);
    EXPECT_TRUE(tableHasFocus()) << "the keys still go to the table";
    QSignalSpy page(view.get(), &View::openPrint);
    doubleClick(2, BenchModel::Sheet);
    ASSERT_EQ(page.count(), 1);
    EXPECT_EQ(page[0][0].toLongLong(), prints[2]);
    doubleClick(2, BenchModel::Rinse);
    EXPECT_TRUE(view->form()->isVisible());
    EXPECT_EQ(view->form()->station(), Station::Rinse);
}

TEST_F(BenchKeys, CtrlEnterOpensThePrintsPage)
{
    openWith(3);
    QSignalSpy page(view.get(), &View::openPrint);
    key(Qt::Key_Down);
    key(Qt::Key_Return, Qt::ControlModifier);
    ASSERT_EQ(page.count(), 1);
    EXPECT_EQ(page[0][0].toLongLong(), prints[1]);
    EXPECT_FALSE(view->form()->isVisible());
}

TEST_F(BenchKeys, TimeGoesOnByItself)
{
    openWith(1);
    key(Qt::Key_Space);
    room.clock.advanceSeconds(61);
    const auto shows
        = [&] { return view->model()->index(0, BenchModel::Coat).data().toString() == QStringLiteral("01:01"); };
    EXPECT_TRUE(QTest::qWaitFor(shows, 5000));
}

TEST_F(BenchKeys, EveryControlHasANameAndTabLeavesTheTable)
{
    openWith(2);
    key(Qt::Key_W);
    key(Qt::Key_Escape);
    key(Qt::Key_Return);
    for (const auto* widget : view->findChildren<QWidget*>()) {
        if (widget->focusPolicy() == Qt::NoFocus || !widget->isVisible() || widget->parentWidget() == nullptr)
            continue;
        const bool inner = qobject_cast<const QComboBox*>(widget->parentWidget()) || widget->inherits("QScrollBar")
            || widget->objectName().startsWith(QStringLiteral("qt_"));
        const auto* asButton = qobject_cast<const QAbstractButton*>(widget);
        EXPECT_TRUE(inner || !widget->accessibleName().isEmpty() || (asButton && !asButton->text().isEmpty()))
            << widget->metaObject()->className() << " has no name";
    }
    key(Qt::Key_Escape);
    ASSERT_TRUE(tableHasFocus());
    key(Qt::Key_Tab);
    EXPECT_FALSE(tableHasFocus());
}

TEST_F(BenchKeys, CtrlZTakesBackWhatWasEnteredInTheForm)
{
    openWith(2);
    key(Qt::Key_A, Qt::ControlModifier);
    key(Qt::Key_Return);
    auto* volume = view->form()->form()->editor(QStringLiteral("coat_volume_ml"));
    volume->input()->setFocus();
    type("0.7");
    key(Qt::Key_Return);
    ASSERT_EQ(room.number(prints[1], "coat_volume_ml"), 0.7);
    ASSERT_TRUE(view->form()->isAncestorOf(QApplication::focusWidget()));
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_FALSE(room.get(prints[0], "coat_volume_ml").has());
    EXPECT_FALSE(room.get(prints[1], "coat_volume_ml").has());
}

} // namespace WASHFAST_FILE
