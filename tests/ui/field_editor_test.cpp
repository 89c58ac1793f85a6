// One field of a form: typing, committing, refusing, and what happens when the value changes under one's hands.
#include "ui/common/field_editor.h"

#include "tests/support/prints_fixture.h"

#include <QApplication>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QShortcut>
#include <QSignalSpy>
#include <QTest>
#include <QVBoxLayout>
#include <QWheelEvent>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::FieldEditor;

namespace {

class Editor : public testing::Test {
protected:
    FieldEditor& open(const char* key)
    {
        const auto* field = catalogue.findPrintField(text(key));
        EXPECT_NE(field, nullptr) << key;
        ui::FieldContext context;
        context.names = [](Entity) { return texts({ "M2", "M10" }); };
        context.now = [] { return at("2026-05-04T10:15:00+02:00"); };
        auto* editor = new FieldEditor(*field, context, ui::lightTheme(), &page);
        QObject::connect(editor, &FieldEditor::entered, editor, [this](const Known& known) { given.push_back(known); });
        auto* other = new QLineEdit(&page);
        other->setObjectName(text("other"));
        if (!page.layout())
            new QVBoxLayout(&page);
        page.layout()->addWidget(editor);
        page.layout()->addWidget(other);
        page.show();
        page.activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(&page));
        editor->input()->setFocus();
        return *editor;
    }
    void leave() { page.findChild<QLineEdit*>(text("other"))->setFocus(); }
    static QLineEdit* line(FieldEditor& editor) { return qobject_cast<QLineEdit*>(editor.input()); }
    static QComboBox* box(FieldEditor& editor) { return qobject_cast<QComboBox*>(editor.input()); }
    static void type(FieldEditor& editor, const char* keys)
    {
        if (auto* typed = line(editor))
            typed->selectAll();
        QTest::keyClicks(editor.input(), QString::fromUtf8(keys));
    }

    Catalogue catalogue = standardCatalogue();
    QWidget page;
    std::vector<Known> given;
};

TEST_F(Editor, GivesANumberOnEnterAndGoesOn)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 0.5 });
    type(editor, "0,62");
    QTest::keyClick(editor.input(), Qt::Key_Return);
    ASSERT_EQ(given.size(), 1U);
    EXPECT_EQ(given[0], Known { 0.62 });
    EXPECT_NE(QApplication::focusWidget(), editor.input());
}

TEST_F(Editor, GivesWhatWasTypedWhenTheFocusLeaves)
{
    auto& editor = open("coat_volume_ml");
    type(editor, "0.62");
    leave();
    ASSERT_EQ(given.size(), 1U);
    EXPECT_EQ(given[0], Known { 0.62 });
}

TEST_F(Editor, GivesWhatWasTypedWhenTheFormIsClosed)
{
    auto& editor = open("coat_volume_ml");
    type(editor, "0.62");
    page.close();
    ASSERT_EQ(given.size(), 1U);
    EXPECT_EQ(given[0], Known { 0.62 });
}

TEST_F(Editor, GivesNothingWhenNothingWasTyped)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 0.5, Evidence::Estimated });
    QTest::keyClick(editor.input(), Qt::Key_Return);
    editor.input()->setFocus();
    leave();
    EXPECT_TRUE(given.empty());
}

TEST_F(Editor, TypingTheSameAgainGivesNothing)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 0.5 });
    type(editor, "0.50");
    leave();
    EXPECT_TRUE(given.empty());
    EXPECT_EQ(line(editor)->text(), text("0.5"));
}

TEST_F(Editor, AWrongTextStaysWithASentence)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 0.5 });
    type(editor, "half a drop");
    leave();
    EXPECT_TRUE(given.empty());
    EXPECT_EQ(line(editor)->text(), text("half a drop"));
    EXPECT_TRUE(editor.complaint().contains(text("half a drop"))) << editor.complaint().toStdString();
    editor.show(Known { 0.7 }); // another field of the form was committed
    EXPECT_EQ(line(editor)->text(), text("half a drop")) << "it still waits to be put right";
    editor.input()->setFocus();
    type(editor, "0.8");
    QTest::keyClick(editor.input(), Qt::Key_Enter);
    ASSERT_EQ(given.size(), 1U);
    EXPECT_EQ(given[0], Known { 0.8 });
    EXPECT_EQ(editor.complaint(), QString());
}

TEST_F(Editor, EscapeBringsBackWhatStoodThere)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 0.5 });
    type(editor, "half");
    QTest::keyClick(editor.input(), Qt::Key_Escape);
    EXPECT_EQ(line(editor)->text(), text("0.5"));
    EXPECT_EQ(editor.complaint(), QString());
    leave();
    EXPECT_TRUE(given.empty());
}

TEST_F(Editor, MarksSayHowAValueCameToBe)
{
    auto& editor = open("coat_volume_ml");
    type(editor, "~0.6");
    leave();
    editor.input()->setFocus();
    type(editor, "0.6?");
    leave();
    ASSERT_EQ(given.size(), 2U);
    EXPECT_EQ(given[0], (Known { 0.6, Evidence::Estimated }));
    EXPECT_EQ(given[1], (Known { 0.6, Evidence::Assumed }));
    editor.show(Known { 0.6, Evidence::Estimated });
    EXPECT_EQ(line(editor)->text(), text("~0.6"));
    editor.input()->setFocus();
    type(editor, "0.6"); // now it was measured
    leave();
    ASSERT_EQ(given.size(), 3U);
    EXPECT_EQ(given[2], Known { 0.6 });
}

TEST_F(Editor, EmptyIsNotRecorded)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 0.5 });
    line(editor)->selectAll();
    QTest::keyClick(editor.input(), Qt::Key_Delete);
    leave();
    ASSERT_EQ(given.size(), 1U);
    EXPECT_FALSE(given[0].has());
}

TEST_F(Editor, ANumberOutsideThePlausibleRangeIsTakenAndSaid)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 400.0 });
    EXPECT_NE(editor.complaint(), QString());
    EXPECT_EQ(line(editor)->text(), text("400"));
    editor.show(Known { 0.5 });
    EXPECT_EQ(editor.complaint(), QString());
}

TEST_F(Editor, MixedValuesSaySoAndOneValueGoesToAll)
{
    auto& editor = open("coat_volume_ml");
    editor.show({}, true);
    EXPECT_EQ(line(editor)->text(), QString());
    EXPECT_EQ(line(editor)->placeholderText(), text("several"));
    leave();
    EXPECT_TRUE(given.empty()) << "looking is not emptying";
    editor.input()->setFocus();
    type(editor, "0.6");
    leave();
    ASSERT_EQ(given.size(), 1U);
}

TEST_F(Editor, ATimeOfTheDayIsOneOfToday)
{
    auto& editor = open("coat_start");
    type(editor, "9:05");
    QTest::keyClick(editor.input(), Qt::Key_Return);
    ASSERT_EQ(given.size(), 1U);
    EXPECT_EQ(given[0].time(), at("2026-05-04T09:05:00+02:00"));
}

TEST_F(Editor, AWholeMomentIsReadable)
{
    auto& editor = open("coat_start");
    editor.show(Known { at("2026-05-04T09:05:00+02:00") });
    const auto needed = line(editor)->fontMetrics().horizontalAdvance(line(editor)->text());
    EXPECT_LT(needed + 8, line(editor)->width());
}

TEST_F(Editor, ANewValueWaitsWhileSomethingIsTyped)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 0.5 });
    type(editor, "0.6");
    editor.show(Known { 0.9 }); // another window wrote it
    EXPECT_EQ(line(editor)->text(), text("0.6"));
    EXPECT_EQ(editor.shown(), Known { 0.5 }) << "what the person saw";
    QTest::keyClick(editor.input(), Qt::Key_Escape);
    EXPECT_EQ(line(editor)->text(), text("0.9"));
    EXPECT_EQ(editor.shown(), Known { 0.9 });
}

TEST_F(Editor, AChoiceIsGivenWhenItIsMadeAndByNothingElse)
{
    auto& editor = open("coat_tool");
    editor.show(Known { text("brush"), Evidence::Assumed });
    leave();
    EXPECT_TRUE(given.empty()) << "leaving it must not turn what was assumed into something seen";
    editor.input()->setFocus();
    QTest::keyClick(editor.input(), Qt::Key_Down);
    ASSERT_EQ(given.size(), 1U);
    EXPECT_EQ(given[0].text(), text("foam_brush"));
}

TEST_F(Editor, TheWheelScrollsTheFormAndNotTheChoices)
{
    auto& editor = open("coat_tool");
    editor.show(Known { text("brush") });
    const QPointF middle(editor.input()->rect().center());
    QWheelEvent wheel(middle, editor.input()->mapToGlobal(middle), {}, { 0, -120 }, Qt::NoButton, Qt::NoModifier,
        Qt::NoScrollPhase, false);
    QApplication::sendEvent(editor.input(), &wheel);
    EXPECT_TRUE(given.empty());
    EXPECT_EQ(box(editor)->currentData().toString(), text("brush"));
}

TEST_F(Editor, YesNoKnowsItsThirdAnswer)
{
    auto& editor = open("dry_covered");
    editor.show(Known { true });
    EXPECT_EQ(box(editor)->currentData().toString(), text("yes"));
    QTest::keyClick(editor.input(), Qt::Key_Home);
    ASSERT_EQ(given.size(), 1U);
    EXPECT_FALSE(given[0].has());
}

TEST_F(Editor, ALinkedRecordIsNamedByTypingOrChoosing)
{
    auto& editor = open("mix_code");
    ASSERT_NE(box(editor), nullptr);
    EXPECT_TRUE(box(editor)->isEditable());
    QTest::keyClicks(editor.input(), text("M7"));
    QTest::keyClick(editor.input(), Qt::Key_Return);
    ASSERT_EQ(given.size(), 1U);
    EXPECT_EQ(given[0].text(), text("M7"));
    editor.show(Known { text("M7") });
    editor.input()->setFocus();
    QTest::keyClick(editor.input(), Qt::Key_Down);
    ASSERT_EQ(given.size(), 2U);
    EXPECT_TRUE(texts({ "M2", "M10" }).contains(given[1].text().value_or(QString())));
}

TEST_F(Editor, ANameWithoutAnyTypingIsNotGivenAgain)
{
    auto& editor = open("mix_code");
    editor.show(Known { text("M2"), Evidence::Assumed });
    leave();
    EXPECT_TRUE(given.empty());
}

TEST_F(Editor, ASetOfOutcomesShowsWhatIsChosenByMoreThanColour)
{
    auto& editor = open("print_outcome");
    editor.show(Known { text("pale; fogged"), Evidence::Estimated });
    QStringList chosen;
    for (const auto* button : editor.findChildren<QPushButton*>())
        if (button->isChecked()) {
            chosen << button->text();
            EXPECT_EQ(button->palette().color(QPalette::Button), ui::lightTheme().blue);
            EXPECT_GE(ui::contrastRatio(
                          button->palette().color(QPalette::ButtonText), button->palette().color(QPalette::Button)),
                4.5);
        }
    EXPECT_EQ(chosen, texts({ "✓ pale", "✓ fogged" }));
}

TEST_F(Editor, ASetIsGivenInTheOrderOfTheCatalogueAndEmptied)
{
    auto& editor = open("print_outcome");
    QObject::connect(&editor, &FieldEditor::entered, &editor, [&](const Known& known) { editor.show(known); });
    const auto buttons = editor.findChildren<QPushButton*>();
    const auto press = [&](const char* label) {
        for (auto* button : buttons)
            if (button->text().endsWith(text(label)))
                QTest::keyClick(button, Qt::Key_Space);
    };
    press("fogged");
    press("pale");
    press("fogged");
    press("pale");
    ASSERT_EQ(given.size(), 4U);
    EXPECT_EQ(given[1].text(), text("pale; fogged"));
    EXPECT_EQ(given[2].text(), text("pale"));
    EXPECT_FALSE(given[3].has()) << "no outcome noted is not recorded";
}

TEST_F(Editor, ReadOnlyTakesNothing)
{
    auto& number = open("coat_volume_ml");
    number.setReadOnly(true);
    type(number, "0.6");
    leave();
    auto& set = open("print_outcome");
    set.setReadOnly(true);
    for (auto* button : set.findChildren<QPushButton*>())
        QTest::mouseClick(button, Qt::LeftButton);
    EXPECT_TRUE(given.empty());
}

TEST_F(Editor, UndoIsTheLinesWhileTypingAndTheNotebooksOtherwise)
{
    auto& editor = open("coat_volume_ml");
    editor.show(Known { 0.5 });
    int undone = 0;
    QShortcut undo(QKeySequence(QKeySequence::Undo), &page);
    QObject::connect(&undo, &QShortcut::activated, &page, [&] { ++undone; });
    QTest::keyClick(editor.input(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(undone, 1);
    type(editor, "0.6");
    QTest::keyClick(editor.input(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(undone, 1) << "this one belongs to the line";
}

TEST_F(Editor, EveryControlHasANameForAScreenReader)
{
    EXPECT_EQ(open("coat_volume_ml").input()->accessibleName(), text("Mix on the sheet [mL]"));
    EXPECT_FALSE(open("coat_volume_ml").input()->accessibleDescription().isEmpty());
    for (const auto* button : open("print_outcome").findChildren<QPushButton*>())
        EXPECT_TRUE(button->accessibleName().startsWith(text("Outcome: "))) << button->accessibleName().toStdString();
}

} // namespace

} // namespace WASHFAST_FILE
