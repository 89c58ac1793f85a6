// What is made, changed and removed on the Bench: sessions, prints, shared records; and what may not be written.
#include "tests/support/bench_fixture.h"

#include <QMenu>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

class BenchMake : public BenchFixture {
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

    QVector<qint64> prints;
};

} // namespace

TEST_F(BenchMake, ANewNameInTheFormMakesTheRecord)
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

TEST_F(BenchMake, OneNewPrintTakesTheNextCodeAndWhatTheLastOneHad)
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

TEST_F(BenchMake, SeveralPrintsAreMadeFromOneTemplate)
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

TEST_F(BenchMake, ACodeThatIsTakenElsewhereIsRefusedWhole)
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

TEST_F(BenchMake, RemovingAsksAndCtrlZBringsBack)
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

TEST_F(BenchMake, WhatIsMadeIsOfferedToTheChosenPrints)
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

TEST_F(BenchMake, AMixThatPrintsHaveAlreadyIsNotReplacedUnlessThePersonSaysSo)
{
    openWith(2);
    const auto old = room.add(Entity::Mix, { { "mix_code", "M1" } });
    room.set({ Entity::Print, prints[0] }, "print_mix", old);
    key(Qt::Key_A, Qt::ControlModifier);
    const auto makeMix = [&](const char* code) {
        inDialog([=](QDialog& dialog) {
            dynamic_cast<RecordDialog&>(dialog).editor(QStringLiteral("mix_code"))->input()->setFocus();
            type(code);
            accept(dialog);
        });
        view->make(Entity::Mix);
    };
    room.dialogs.willAnswer(0);
    makeMix("M7");
    EXPECT_TRUE(room.dialogs.shown().back().text.contains(QStringLiteral("A1-01 M1")))
        << room.dialogs.shown().back().text.toStdString();
    EXPECT_EQ(room.text(prints[0], "mix_code"), "M1");
    EXPECT_EQ(room.text(prints[1], "mix_code"), "M7");
    room.dialogs.willAnswer(1);
    makeMix("M8");
    EXPECT_EQ(room.text(prints[0], "mix_code"), "M8");
    EXPECT_EQ(room.text(prints[1], "mix_code"), "M8");
}

TEST_F(BenchMake, TheMakeMenuHoldsWhatThePrintsNeed)
{
    openWith(1);
    const auto* menu = qobject_cast<QPushButton*>(button(QStringLiteral("Make")))->menu();
    ASSERT_NE(menu, nullptr);
    QStringList texts;
    for (const auto* action : menu->actions())
        texts << action->text().remove(QLatin1Char('&'));
    EXPECT_EQ(
        texts.join(QLatin1Char(',')), QStringLiteral("Mix...,Paper...,Cover...,Negative or wedge...,Site...,Term..."));
}

TEST_F(BenchMake, TheNextSessionBeginsWhereTheLastOneWas)
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

TEST_F(BenchMake, TheAirOfTheRoomIsEditedInPlace)
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

TEST_F(BenchMake, TheCountsFollow)
{
    openWith(3);
    EXPECT_EQ(view->strip()->countsShown(), QStringLiteral("3 prints: 3 not begun"));
    key(Qt::Key_Space);
    EXPECT_EQ(view->strip()->countsShown(), QStringLiteral("3 prints: 2 not begun · 1 at Coat"));
}

TEST_F(BenchMake, ANotebookThatCannotBeWrittenSaysSo)
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

TEST_F(BenchMake, WhatAnotherWindowDoesArrivesHere)
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

} // namespace WASHFAST_FILE
