// Making and changing one record by its form.
#include "ui/common/record_dialog.h"

#include "tests/support/prints_fixture.h"
#include "ui/common/field_editor.h"

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::RecordDialog;

namespace {

class Dialog : public testing::Test {
protected:
    void SetUp() override { room.lesson(); }
    RecordDialog& open(Entity entity, qint64 id = 0, qint64 owner = 0)
    {
        dialog = std::make_unique<RecordDialog>(room.services(), entity, id, nullptr, owner);
        dialog->show();
        dialog->activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(dialog.get()));
        return *dialog;
    }
    void type(const char* key, const char* keys)
    {
        auto* editor = dialog->editor(text(key));
        ASSERT_NE(editor, nullptr) << key;
        editor->input()->setFocus();
        if (auto* line = qobject_cast<QLineEdit*>(editor->input()))
            line->selectAll();
        else if (auto* box = qobject_cast<QComboBox*>(editor->input()); box && box->lineEdit())
            box->lineEdit()->selectAll();
        QTest::keyClicks(editor->input(), QString::fromUtf8(keys));
    }
    /// Presses the button that accepts.
    void accept()
    {
        for (auto* button : dialog->findChildren<QPushButton*>())
            if (button->isDefault())
                QTest::mouseClick(button, Qt::LeftButton);
    }
    [[nodiscard]] Known held(Entity entity, qint64 id, const char* key)
    {
        return room.desk().notebook().get({ entity, id }, text(key));
    }

    PrintsFixture room;
    std::unique_ptr<RecordDialog> dialog;
};

TEST_F(Dialog, MakesARecordInOneStep)
{
    open(Entity::Mix);
    type("mix_code", "M3");
    type("mix_ph", "5.5");
    accept();
    EXPECT_FALSE(dialog->isVisible());
    ASSERT_NE(dialog->id(), 0);
    EXPECT_EQ(held(Entity::Mix, dialog->id(), "mix_code").text(), text("M3"));
    EXPECT_EQ(held(Entity::Mix, dialog->id(), "mix_ph").number(), 5.5);
    room.undo();
    EXPECT_EQ(room.desk().notebook().table(Entity::Mix).find(dialog->id()), -1);
}

TEST_F(Dialog, AskedToMakeOneWithoutANameItSaysSo)
{
    open(Entity::Mix);
    type("mix_ph", "5.5");
    accept();
    EXPECT_TRUE(dialog->isVisible());
    ASSERT_EQ(room.dialogs.texts(text("message")).size(), 1);
    EXPECT_TRUE(room.dialogs.texts(text("message"))[0].contains(text("Mix")));
    EXPECT_EQ(room.desk().notebook().table(Entity::Mix).rows(), 2);
}

TEST_F(Dialog, ANameCannotBeTakenAwayOrTakenTwice)
{
    open(Entity::Mix, room.m2);
    auto* line = qobject_cast<QLineEdit*>(dialog->editor(text("mix_code"))->input());
    line->selectAll();
    QTest::keyClick(line, Qt::Key_Delete);
    accept();
    EXPECT_TRUE(dialog->isVisible());
    EXPECT_EQ(room.dialogs.texts(text("message")).size(), 1);
    room.expectTrouble();
    type("mix_code", "m10");
    accept();
    EXPECT_TRUE(dialog->isVisible());
    EXPECT_EQ(room.troubles().size(), 1);
    EXPECT_EQ(held(Entity::Mix, room.m2, "mix_code").text(), text("M2"));
    type("mix_code", "M2b");
    accept();
    EXPECT_FALSE(dialog->isVisible());
    EXPECT_EQ(held(Entity::Mix, room.m2, "mix_code").text(), text("M2b"));
}

TEST_F(Dialog, AWrongNumberStaysAndNothingIsWritten)
{
    open(Entity::Mix, room.m2);
    type("mix_ph", "sour");
    accept();
    EXPECT_TRUE(dialog->isVisible());
    EXPECT_NE(dialog->editor(text("mix_ph"))->complaint(), QString());
    EXPECT_FALSE(held(Entity::Mix, room.m2, "mix_ph").has());
}

TEST_F(Dialog, ALinkIsEnteredByName)
{
    const auto site = room.add(Entity::Site, { { "site_name", "Yard" } });
    open(Entity::Session, room.session);
    type("session_site", "attic");
    accept();
    EXPECT_TRUE(dialog->isVisible());
    EXPECT_TRUE(dialog->editor(text("session_site"))->complaint().contains(text("attic")))
        << dialog->editor(text("session_site"))->complaint().toStdString();
    type("session_site", "yard");
    accept();
    EXPECT_FALSE(dialog->isVisible());
    EXPECT_EQ(held(Entity::Session, room.session, "session_site").link(), site);
}

TEST_F(Dialog, TurningBackWritesNothing)
{
    open(Entity::Mix, room.m2);
    type("mix_ph", "5.5");
    QTest::keyClick(dialog.get(), Qt::Key_Escape);
    EXPECT_FALSE(dialog->isVisible());
    EXPECT_FALSE(held(Entity::Mix, room.m2, "mix_ph").has());
}

TEST_F(Dialog, WhatIsSuggestedIsWrittenUnlessChanged)
{
    const auto print = room.print("A1-01");
    open(Entity::Weighing, 0, print).suggest(text("weigh_mass_g"), Known { 5.0 });
    type("weigh_mass_g", "5.2");
    accept();
    EXPECT_EQ(held(Entity::Weighing, dialog->id(), "weigh_mass_g").number(), 5.2);
    EXPECT_EQ(room.childrenOf(print, Entity::Weighing), 1);
}

TEST_F(Dialog, DoesNotOverwriteWhatSomebodyElseEnteredMeanwhile)
{
    room.set({ Entity::Mix, room.m2 }, "mix_ph", 6.0);
    open(Entity::Mix, room.m2);
    type("mix_ph", "5.5");
    room.set({ Entity::Mix, room.m2 }, "mix_ph", 7.0); // as another window does
    room.expectTrouble();
    accept();
    EXPECT_TRUE(dialog->isVisible());
    EXPECT_EQ(room.troubles().size(), 1);
    EXPECT_EQ(held(Entity::Mix, room.m2, "mix_ph").number(), 7.0);
    EXPECT_TRUE(dialog->editor(text("mix_ph"))->complaint().contains(text("7.0")))
        << dialog->editor(text("mix_ph"))->complaint().toStdString();
    accept(); // seen, and meant
    EXPECT_FALSE(dialog->isVisible());
    EXPECT_EQ(held(Entity::Mix, room.m2, "mix_ph").number(), 5.5);
}

TEST_F(Dialog, EnterWalksDownTheFieldsAndLastPressesTheButton)
{
    open(Entity::Term);
    type("term_name", "Autumn");
    for (int i = 0; i < 12 && dialog->isVisible(); ++i)
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    EXPECT_FALSE(dialog->isVisible());
    EXPECT_EQ(dialog->result(), int(QDialog::Accepted));
    EXPECT_EQ(held(Entity::Term, dialog->id(), "term_name").text(), text("Autumn"));
}

} // namespace

} // namespace WASHFAST_FILE
