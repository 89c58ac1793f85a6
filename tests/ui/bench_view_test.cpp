// The keys and the mouse of the Bench, one thing at a time.
#include "tests/support/bench_fixture.h"

#include <QMenu>
#include <QSplitter>

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

class BenchViewTest : public BenchFixture {
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

TEST_F(BenchViewTest, ArrowsWalkAndShiftChoosesSeveral)
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

TEST_F(BenchViewTest, SpaceActsOnTheChosenRowsInTheStateOfTheCurrentOne)
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

TEST_F(BenchViewTest, SpaceOnADoneStationChangesNothingAndSaysWhy)
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

TEST_F(BenchViewTest, AKeyThatIsHeldDownStartsOnce)
{
    openWith(1);
    key(Qt::Key_Space);
    for (int i = 0; i < 5; ++i) {
        QKeyEvent again(QEvent::KeyPress, Qt::Key_Space, Qt::NoModifier, QStringLiteral(" "), true);
        QApplication::sendEvent(QApplication::focusWidget(), &again);
    }
    EXPECT_EQ(stage(0, Station::Coat), Stage::Running);
}

TEST_F(BenchViewTest, ExposeStartsAFurtherExposureAfterTheFirst)
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

TEST_F(BenchViewTest, AllThatAreAlikeCanBeChosen)
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

TEST_F(BenchViewTest, DigitsTouchTheChosenSheets)
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

TEST_F(BenchViewTest, ARinsedSheetHasNoTouch)
{
    openWith(1);
    goTo(0, BenchModel::Rinse);
    key(Qt::Key_Space);
    key(Qt::Key_3);
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Touch), 0);
    EXPECT_TRUE(said.last().contains(QStringLiteral("before the rinse")));
}

TEST_F(BenchViewTest, ARowOfSheetsIsWeighedWithNumbersAndEnter)
{
    openWith(4);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_A, Qt::ControlModifier);
    key(Qt::Key_Space);
    key(Qt::Key_W);
    ASSERT_TRUE(lineHasFocus());
    EXPECT_EQ(view->entry()->entryId(), QStringLiteral("weigh:coated"));
    type("12.31");
    key(Qt::Key_Return);
    EXPECT_EQ(view->entry()->print(), prints[1]);
    EXPECT_EQ(view->table()->currentIndex().row(), 1) << "the table shows whose turn it is";
    key(Qt::Key_Return); // nothing typed: left as it is
    type("12,5 g"); // a comma and a unit are understood
    key(Qt::Key_Return);
    type("much");
    key(Qt::Key_Return);
    EXPECT_FALSE(view->entry()->complaint().isEmpty()) << "and stays, with a sentence";
    EXPECT_EQ(view->entry()->print(), prints[3]);
    type("900"); // the wrong text is chosen and typed over
    key(Qt::Key_Return);
    EXPECT_TRUE(tableHasFocus());
    EXPECT_EQ(room.number(prints[0], "mass_coated_g"), 12.31);
    EXPECT_FALSE(room.get(prints[1], "mass_coated_g").has());
    EXPECT_EQ(room.number(prints[2], "mass_coated_g"), 12.5);
    EXPECT_EQ(room.number(prints[3], "mass_coated_g"), 900) << "what is not plausible is kept";
    EXPECT_TRUE(said.last().contains(QStringLiteral("3 prints")));
}

TEST_F(BenchViewTest, AWrongMassIsOneCtrlZAwayWithoutLeavingTheLine)
{
    openWith(3);
    key(Qt::Key_W);
    type("1.5");
    key(Qt::Key_Return);
    type("2.5");
    key(Qt::Key_Return);
    ASSERT_EQ(room.number(prints[1], "mass_bare_g"), 2.5);
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_FALSE(room.get(prints[1], "mass_bare_g").has());
    EXPECT_EQ(room.number(prints[0], "mass_bare_g"), 1.5);
    ASSERT_TRUE(lineHasFocus());
    key(Qt::Key_Up);
    type("2.4");
    key(Qt::Key_Return);
    EXPECT_EQ(room.number(prints[1], "mass_bare_g"), 2.4);
    key(Qt::Key_Escape);
    EXPECT_TRUE(tableHasFocus());
    EXPECT_FALSE(view->entry()->isVisible());
}

TEST_F(BenchViewTest, AnyFieldCanBeEnteredRowByRow)
{
    openWith(2);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_R);
    auto* what = view->entry()->what();
    what->setCurrentIndex(what->findData(QStringLiteral("field:coat_tool")));
    type("bru");
    key(Qt::Key_Return);
    type("rod");
    key(Qt::Key_Return);
    EXPECT_EQ(room.text(prints[0], "coat_tool"), "brush");
    EXPECT_EQ(room.text(prints[1], "coat_tool"), "rod");
    goTo(0, BenchModel::Coat);
    key(Qt::Key_R);
    EXPECT_EQ(view->entry()->entryId(), QStringLiteral("field:coat_tool")) << "it begins where it was";
}

TEST_F(BenchViewTest, ReadingsCarryHowTheyWereRead)
{
    openWith(2);
    goTo(0, BenchModel::Read);
    type(".9");
    ASSERT_TRUE(lineHasFocus());
    EXPECT_EQ(view->entry()->line()->text(), QStringLiteral(".9"));
    auto* what = view->entry()->what();
    what->setCurrentIndex(what->findData(QStringLiteral("read:before_rinse:deepest")));
    for (auto* box : view->entry()->findChildren<QComboBox*>())
        if (const int at = box->findData(QStringLiteral("densitometer")); at >= 0)
            box->setCurrentIndex(at);
    key(Qt::Key_Return);
    EXPECT_EQ(room.number(prints[0], "density_before_rinse_deepest"), 0.9);
    const auto& table = room.desk().notebook().table(Entity::Reading);
    EXPECT_EQ(table.at(0, room.catalogue().column(Entity::Reading, u"reading_method")).text(),
        QStringLiteral("densitometer"));
}

TEST_F(BenchViewTest, LightGoesToAllThatAreExposed)
{
    openWith(4);
    key(Qt::Key_L);
    EXPECT_FALSE(view->entry()->isVisible());
    EXPECT_TRUE(said.last().startsWith(QStringLiteral("No sheet is being exposed")));
    view->choose(prints.mid(1, 2));
    goTo(1, BenchModel::Expose);
    view->choose(prints.mid(1, 2));
    key(Qt::Key_Space);
    room.clock.advanceMinutes(2);
    key(Qt::Key_L);
    type("18.5");
    key(Qt::Key_Return);
    EXPECT_TRUE(tableHasFocus());
    EXPECT_EQ(room.number(prints[1], "meter1_uva_w_m2"), 18.5);
    EXPECT_EQ(room.number(prints[2], "meter1_uva_w_m2"), 18.5);
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Meter), 0);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("Light, all that are exposed now, 2 prints"));
}

TEST_F(BenchViewTest, TheFormOpensAtTheStationAndEscapeComesBack)
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

TEST_F(BenchViewTest, ANewNameInTheFormMakesTheRecord)
{
    openWith(2);
    goTo(0, BenchModel::Expose);
    key(Qt::Key_Return);
    auto* cover = view->form()->form()->editor(QStringLiteral("cover_name"));
    ASSERT_NE(cover, nullptr);
    cover->input()->setFocus();
    type("glass 4");
    key(Qt::Key_Return);
    EXPECT_EQ(room.desk().notebook().table(Entity::Cover).rows(), 1);
    EXPECT_EQ(room.text(prints[0], "cover_name"), "glass 4");
    EXPECT_EQ(stage(0, Station::Expose), Stage::Waiting) << "a cover is no exposure yet";
}

TEST_F(BenchViewTest, OneNewPrintTakesTheNextCodeAndWhatTheLastOneHad)
{
    openWith(2);
    const auto mix = room.add(Entity::Mix, { { "mix_code", "M7" } });
    room.set({ Entity::Print, prints[1] }, "print_mix", mix);
    room.set({ Entity::Print, prints[1] }, "dose_goal_j_cm2", 1.8);
    inDialog([](QDialog& dialog) {
        EXPECT_EQ(dynamic_cast<NewPrintsDialog&>(dialog).count()->value(), 1);
        key(Qt::Key_Return);
    });
    key(Qt::Key_N);
    ASSERT_EQ(view->model()->rowCount(), 3);
    const auto fresh = view->model()->printAt(2);
    EXPECT_EQ(room.text(fresh, "print_code"), "A1-03");
    EXPECT_EQ(room.text(fresh, "mix_code"), "M7");
    EXPECT_EQ(room.number(fresh, "dose_goal_j_cm2"), 1.8);
    EXPECT_EQ(view->chosen(), QVector<qint64> { fresh });
    EXPECT_TRUE(tableHasFocus());
}

TEST_F(BenchViewTest, SeveralPrintsAreMadeFromOneTemplate)
{
    openWith(1);
    inDialog([](QDialog& dialog) {
        auto& several = dynamic_cast<NewPrintsDialog&>(dialog);
        EXPECT_EQ(several.count()->value(), 20);
        type("30"); // the number is chosen and typed over
        several.editor(QStringLiteral("mix_code"))->input()->setFocus();
        type("M8");
        key(Qt::Key_Return);
        several.editor(QStringLiteral("print_width_mm"))->input()->setFocus();
        type("105");
        accept(dialog);
    });
    key(Qt::Key_N, Qt::ControlModifier | Qt::ShiftModifier);
    ASSERT_EQ(view->model()->rowCount(), 31);
    EXPECT_EQ(view->chosen().size(), 30);
    EXPECT_EQ(room.text(view->model()->printAt(30), "print_code"), "A1-31");
    EXPECT_EQ(room.text(view->model()->printAt(30), "mix_code"), "M8");
    EXPECT_EQ(room.number(view->model()->printAt(1), "print_width_mm"), 105);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("New prints, A1-02 to A1-31"));
}

TEST_F(BenchViewTest, ACodeThatIsTakenElsewhereIsRefusedWhole)
{
    openWith(1);
    inDialog([&](QDialog& dialog) {
        auto& one = dynamic_cast<NewPrintsDialog&>(dialog);
        one.firstCode()->setText(QStringLiteral("   "));
        key(Qt::Key_Return);
        EXPECT_TRUE(dialog.isVisible());
        dialog.reject();
    });
    key(Qt::Key_N, Qt::ControlModifier);
    EXPECT_EQ(view->model()->rowCount(), 1);
    ASSERT_EQ(room.dialogs.texts(QStringLiteral("message")).size(), 1);
}

TEST_F(BenchViewTest, RemovingAsksAndCtrlZBringsBack)
{
    openWith(3);
    goTo(1, BenchModel::Coat);
    key(Qt::Key_Space);
    room.dialogs.willAnswer(1); // keep
    key(Qt::Key_Delete);
    EXPECT_EQ(view->model()->rowCount(), 3);
    room.dialogs.willAnswer(0);
    key(Qt::Key_Delete);
    EXPECT_EQ(view->model()->rowCount(), 2);
    EXPECT_TRUE(room.dialogs.texts(QStringLiteral("question")).last().contains(QStringLiteral("A1-02")));
    EXPECT_EQ(view->table()->currentIndex().row(), 1);
    ASSERT_TRUE(tableHasFocus());
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(view->model()->rowCount(), 3);
    EXPECT_EQ(stage(1, Station::Coat), Stage::Running);
}

TEST_F(BenchViewTest, WhatIsMadeIsOfferedToTheChosenPrints)
{
    openWith(3);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_Down, Qt::ShiftModifier);
    const auto name = [](const char* column, const char* text) {
        inDialog([=](QDialog& dialog) {
            dynamic_cast<RecordDialog&>(dialog).editor(QString::fromLatin1(column))->input()->setFocus();
            type(text);
            accept(dialog);
        });
    };
    room.dialogs.willAnswer(0);
    name("mix_code", "M7");
    view->make(Entity::Mix);
    EXPECT_EQ(room.text(prints[0], "mix_code"), "M7");
    EXPECT_EQ(room.text(prints[1], "mix_code"), "M7");
    EXPECT_FALSE(room.get(prints[2], "mix_code").has());
    room.dialogs.willAnswer(1);
    name("paper_name", "cartridge");
    view->make(Entity::Paper);
    EXPECT_EQ(room.desk().notebook().table(Entity::Paper).rows(), 1);
    EXPECT_FALSE(room.get(prints[0], "paper_name").has()) << "not now";
    room.dialogs.willAnswer(0);
    name("negative_name", "leaf");
    view->make(Entity::Negative);
    EXPECT_EQ(room.text(prints[1], "negative_name"), "leaf");
    room.dialogs.willAnswer(0);
    name("site_name", "yard");
    view->make(Entity::Site);
    EXPECT_EQ(room.text(prints[2], "site_name"), "yard") << "a site is the session's";
    room.dialogs.willAnswer(0);
    name("term_name", "Summer");
    view->make(Entity::Term);
    EXPECT_EQ(room.text(prints[0], "term_name"), "Summer");
    EXPECT_TRUE(tableHasFocus());
    EXPECT_TRUE(room.dialogs.allUsed());
}

TEST_F(BenchViewTest, TheMakeMenuHoldsWhatThePrintsNeed)
{
    openWith(1);
    const auto* menu = qobject_cast<QPushButton*>(button(QStringLiteral("Make")))->menu();
    ASSERT_NE(menu, nullptr);
    QStringList texts;
    for (const auto* action : menu->actions())
        texts << action->text().remove(QLatin1Char('&'));
    EXPECT_EQ(texts.join(QLatin1Char(',')), QStringLiteral("Mix …,Paper …,Cover …,Negative or wedge …,Site …,Term …"));
}

TEST_F(BenchViewTest, TheNextSessionBeginsWhereTheLastOneWas)
{
    openWith(1);
    const auto site = room.add(Entity::Site, { { "site_name", "yard" } });
    room.set({ Entity::Session, room.desk().session().value }, "session_site", site);
    room.clock.advanceMinutes(60 * 24 * 7);
    inDialog([](QDialog& dialog) { accept(dialog); });
    view->newSession();
    const auto now = room.desk().session();
    EXPECT_EQ(room.desk().notebook().nameOf(now), QStringLiteral("A2"));
    EXPECT_EQ(room.desk().notebook().get(now, u"session_start").time(), room.desk().now());
    EXPECT_EQ(room.desk().notebook().get(now, u"session_site").link(), site);
    EXPECT_EQ(view->strip()->sessions()->count(), 2);
    EXPECT_TRUE(view->strip()->sessions()->itemText(0).startsWith(QStringLiteral("A2"))) << "newest first";
    EXPECT_FALSE(view->showsTable());
    view->strip()->sessions()->setFocus();
    key(Qt::Key_Down); // back to A1
    EXPECT_TRUE(view->showsTable());
}

TEST_F(BenchViewTest, TheAirOfTheRoomIsEditedInPlace)
{
    openWith(1);
    auto* air = view->strip()->air(QStringLiteral("room_humidity_pct"));
    ASSERT_NE(air, nullptr);
    air->input()->setFocus();
    type("57");
    key(Qt::Key_Return);
    EXPECT_EQ(room.number(prints[0], "room_humidity_pct"), 57.0);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("Room humidity, A1"));
    room.desk().undo();
    EXPECT_EQ(qobject_cast<QLineEdit*>(air->input())->text(), QString());
}

TEST_F(BenchViewTest, TheCountsFollow)
{
    openWith(3);
    EXPECT_EQ(view->strip()->countsShown(), QStringLiteral("3 prints: 3 not begun"));
    key(Qt::Key_Space);
    EXPECT_EQ(view->strip()->countsShown(), QStringLiteral("3 prints: 2 not begun · 1 at Coat"));
}

TEST_F(BenchViewTest, TheLineAtTheFootTellsTheKeysThatMatterNow)
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

TEST_F(BenchViewTest, TheMouseDoesItToo)
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

TEST_F(BenchViewTest, CtrlEnterOpensThePrintsPage)
{
    openWith(3);
    QSignalSpy page(view.get(), &View::openPrint);
    key(Qt::Key_Down);
    key(Qt::Key_Return, Qt::ControlModifier);
    ASSERT_EQ(page.count(), 1);
    EXPECT_EQ(page[0][0].toLongLong(), prints[1]);
    EXPECT_FALSE(view->form()->isVisible());
}

TEST_F(BenchViewTest, TimeGoesOnByItself)
{
    openWith(1);
    key(Qt::Key_Space);
    room.clock.advanceSeconds(61);
    const auto shows
        = [&] { return view->model()->index(0, BenchModel::Coat).data().toString() == QStringLiteral("01:01"); };
    EXPECT_TRUE(QTest::qWaitFor(shows, 5000));
}

TEST_F(BenchViewTest, ANotebookThatCannotBeWrittenSaysSo)
{
    addSession();
    prints = addPrints(2);
    room.reopen(true);
    ASSERT_FALSE(room.desk().writable());
    open();
    for (const auto code : { Qt::Key_Space, Qt::Key_3, Qt::Key_W, Qt::Key_L, Qt::Key_N, Qt::Key_Delete, Qt::Key_R })
        key(code);
    EXPECT_EQ(room.desk().undoLabel(), QString());
    EXPECT_GE(said.filter(QStringLiteral("can be read, not changed")).size(), 7) << "each says why";
    EXPECT_FALSE(view->entry()->isVisible());
    bool told = false;
    for (const auto* label : view->findChildren<QLabel*>())
        told = told || (label->isVisible() && label->text().contains(QStringLiteral("newer version")));
    EXPECT_TRUE(told);
    key(Qt::Key_Return);
    EXPECT_TRUE(view->form()->isVisible()) << "it can be looked into";
}

TEST_F(BenchViewTest, EveryControlHasANameAndTabLeavesTheTable)
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

TEST_F(BenchViewTest, WhatAnotherWindowDoesArrivesHere)
{
    openWith(2);
    auto other = store::NotebookFile::open(room.path(), room.catalogue());
    ASSERT_TRUE(other);
    ASSERT_TRUE((*other)->perform(QStringLiteral("start"),
        [&](store::Writer& writer) { return startStation(writer, prints[0], Station::Coat, room.desk().now()); }));
    room.expectTrouble();
    key(Qt::Key_Space); // not heard of yet
    EXPECT_EQ(stage(0, Station::Coat), Stage::Running);
    EXPECT_EQ(room.troubles().size(), 1) << "and nothing is written over";
}
