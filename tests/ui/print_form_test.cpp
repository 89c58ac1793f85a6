// The form of one station for one print or for many at once.
#include "ui/common/print_form.h"

#include "tests/support/prints_fixture.h"

#include <QLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::PrintForm;

namespace {

class Form : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        first = room.print("A1-01");
        second = room.print("A1-02");
        form = std::make_unique<PrintForm>(room.desk(), ui::lightTheme());
        form->setStation(Station::Coat);
        form->resize(600, 500);
        form->show();
        form->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(form.get()));
    }
    [[nodiscard]] QLineEdit* line(const char* key) const
    {
        auto* editor = form->editor(text(key));
        return editor ? qobject_cast<QLineEdit*>(editor->input()) : nullptr;
    }
    void type(const char* key, const char* keys)
    {
        auto* into = line(key);
        ASSERT_NE(into, nullptr) << key;
        into->setFocus();
        into->selectAll();
        QTest::keyClicks(into, QString::fromUtf8(keys));
    }
    void enter(const char* key, const char* keys)
    {
        type(key, keys);
        QTest::keyClick(line(key), Qt::Key_Return);
    }

    PrintsFixture room;
    std::unique_ptr<PrintForm> form;
    qint64 first = 0, second = 0;
};

TEST_F(Form, HasTheStationsFieldsAndThoseOnly)
{
    for (const auto* field : room.catalogue().recordable(Station::Coat))
        if (field->entity == Entity::Print) {
            EXPECT_NE(form->editor(field->key), nullptr) << field->key.toStdString();
        }
    EXPECT_EQ(form->editor(text("rinse_start")), nullptr);
    EXPECT_EQ(form->editor(text("coat_per_area_ml_m2")), nullptr) << "what is worked out is not entered";
    form->setStation(Station::About);
    EXPECT_NE(form->editor(text("mix_code")), nullptr);
    EXPECT_EQ(form->editor(text("mix_ph")), nullptr) << "entered where the mix is";
}

TEST_F(Form, WritesOnePrintInOneStep)
{
    form->setPrints({ first });
    enter("coat_volume_ml", "0.62");
    EXPECT_EQ(room.number(first, "coat_volume_ml"), 0.62);
    EXPECT_FALSE(room.number(second, "coat_volume_ml"));
    room.undo();
    EXPECT_FALSE(room.number(first, "coat_volume_ml"));
    EXPECT_EQ(line("coat_volume_ml")->text(), QString()) << "the form shows it";
}

TEST_F(Form, WritesManyPrintsInOneStep)
{
    room.set({ Entity::Print, first }, "coat_passes", 2);
    room.set({ Entity::Print, second }, "coat_passes", 3);
    form->setPrints({ first, second });
    EXPECT_EQ(line("coat_passes")->placeholderText(), text("several"));
    enter("coat_passes", "4");
    EXPECT_EQ(room.number(first, "coat_passes"), 4);
    EXPECT_EQ(room.number(second, "coat_passes"), 4);
    EXPECT_EQ(line("coat_passes")->text(), text("4"));
    room.undo();
    EXPECT_EQ(room.number(first, "coat_passes"), 2);
    EXPECT_EQ(room.number(second, "coat_passes"), 3);
}

TEST_F(Form, AWeighingIsMadeWhenItIsMissing)
{
    form->setPrints({ first });
    enter("mass_bare_g", "5.1");
    EXPECT_EQ(room.number(first, "mass_bare_g"), 5.1);
    EXPECT_EQ(room.childrenOf(first, Entity::Weighing), 1);
    enter("mass_bare_g", "5.2");
    EXPECT_EQ(room.childrenOf(first, Entity::Weighing), 1);
}

TEST_F(Form, AMixThatIsNotThereYetIsMadeByItsName)
{
    form->setStation(Station::About);
    form->setPrints({ first, second });
    auto* box = form->editor(text("mix_code"))->input();
    box->setFocus();
    QTest::keyClicks(box, text("M77"));
    QTest::keyClick(box, Qt::Key_Return);
    EXPECT_EQ(room.text(first, "mix_code"), "M77");
    EXPECT_EQ(room.text(second, "mix_code"), "M77");
    EXPECT_EQ(room.desk().notebook().table(Entity::Mix).rows(), 3);
}

TEST_F(Form, WhatWasTypedBelongsToThePrintItWasTypedFor)
{
    form->setPrints({ first });
    type("coat_volume_ml", "0.7");
    form->setPrints({ second }); // with the cursor still in the line
    EXPECT_EQ(room.number(first, "coat_volume_ml"), 0.7);
    EXPECT_FALSE(room.number(second, "coat_volume_ml"));
    EXPECT_EQ(line("coat_volume_ml")->text(), QString());
}

TEST_F(Form, AWrongTextDoesNotGoOverToTheNextPrint)
{
    form->setPrints({ first });
    type("coat_volume_ml", "a drop");
    form->setPrints({ second });
    EXPECT_EQ(line("coat_volume_ml")->text(), QString());
    QTest::keyClick(line("coat_volume_ml"), Qt::Key_Return);
    EXPECT_FALSE(room.number(first, "coat_volume_ml"));
    EXPECT_FALSE(room.number(second, "coat_volume_ml"));
}

TEST_F(Form, DoesNotOverwriteWhatSomebodyElseEnteredWhileTyping)
{
    room.set({ Entity::Print, first }, "coat_volume_ml", 0.5);
    form->setPrints({ first });
    type("coat_volume_ml", "0.6");
    room.set({ Entity::Print, first }, "coat_volume_ml", 0.9); // as another window does
    ASSERT_EQ(line("coat_volume_ml")->text(), text("0.6")) << "the typing is not disturbed";
    room.expectTrouble();
    QTest::keyClick(line("coat_volume_ml"), Qt::Key_Return);
    EXPECT_EQ(room.number(first, "coat_volume_ml"), 0.9);
    EXPECT_EQ(room.troubles().size(), 1);
    EXPECT_EQ(line("coat_volume_ml")->text(), text("0.9"));
    enter("coat_volume_ml", "0.6"); // now it is meant
    EXPECT_EQ(room.number(first, "coat_volume_ml"), 0.6);
    EXPECT_EQ(room.troubles().size(), 1);
}

TEST_F(Form, NorForOneOfManyPrints)
{
    form->setPrints({ first, second });
    type("coat_volume_ml", "0.6");
    room.set({ Entity::Print, second }, "coat_volume_ml", 0.9);
    room.expectTrouble();
    QTest::keyClick(line("coat_volume_ml"), Qt::Key_Return);
    EXPECT_FALSE(room.number(first, "coat_volume_ml")) << "all of the step, or nothing";
    EXPECT_EQ(room.number(second, "coat_volume_ml"), 0.9);
    EXPECT_EQ(room.troubles().size(), 1);
}

TEST_F(Form, AfterEscapeTheNewValueCanBeChanged)
{
    form->setPrints({ first });
    type("coat_volume_ml", "0.6");
    room.set({ Entity::Print, first }, "coat_volume_ml", 0.9);
    QTest::keyClick(line("coat_volume_ml"), Qt::Key_Escape);
    EXPECT_EQ(line("coat_volume_ml")->text(), text("0.9"));
    enter("coat_volume_ml", "0.6");
    EXPECT_EQ(room.number(first, "coat_volume_ml"), 0.6);
}

TEST_F(Form, FollowsUndoAndOtherWindows)
{
    form->setPrints({ first });
    room.set({ Entity::Print, first }, "coat_volume_ml", 0.5);
    EXPECT_EQ(line("coat_volume_ml")->text(), text("0.5"));
}

TEST_F(Form, WithNoPrintChosenNothingCanBeEntered)
{
    form->setPrints({});
    EXPECT_FALSE(form->editor(text("coat_volume_ml"))->isEnabled());
}

TEST_F(Form, WholeItNeedsNoScrolling)
{
    form->showWhole();
    form->setPrints({ first });
    QTest::qWait(20);
    EXPECT_GE(form->height(), form->widget()->layout()->totalMinimumSize().height());
    EXPECT_EQ(form->widget()->height(), form->viewport()->height());
    room.set({ Entity::Print, first }, "coat_volume_ml", 4000.0); // a sentence comes up
    QTest::qWait(20);
    EXPECT_EQ(form->widget()->height(), form->viewport()->height());
}

TEST_F(Form, TabGoesFromFieldToField)
{
    form->setPrints({ first });
    form->focusField(text("coat_start"));
    EXPECT_EQ(QApplication::focusWidget(), line("coat_start"));
    QTest::keyClick(line("coat_start"), Qt::Key_Tab);
    EXPECT_EQ(QApplication::focusWidget(), line("coat_end"));
}

TEST(ReadOnlyForm, ShowsAndTakesNothing)
{
    PrintsFixture room;
    room.lesson();
    const auto print = room.print("A1-01");
    room.outcome(print, "pale");
    room.reopen(true);
    ASSERT_FALSE(room.desk().writable());
    PrintForm form(room.desk(), ui::lightTheme());
    form.setFields({ room.catalogue().findPrintField(text("print_outcome")),
        room.catalogue().findPrintField(text("coat_volume_ml")) });
    form.setPrints({ print });
    form.show();
    for (auto* button : form.findChildren<QPushButton*>()) {
        QTest::mouseClick(button, Qt::LeftButton);
        EXPECT_EQ(button->isChecked(), button->text().contains(text("pale")));
    }
    EXPECT_TRUE(qobject_cast<QLineEdit*>(form.editor(text("coat_volume_ml"))->input())->isReadOnly());
    EXPECT_EQ(room.text(print, "print_outcome"), "pale");
}

} // namespace

} // namespace WASHFAST_FILE
