// The rows under a record of the shelf: parts, steps, patches and ingredients are added, changed and taken away with
// the keyboard, each in one step; a wedge is filled at once; own formulas, lamps and cards say what follows from them.
#include "ui/common/child_table.h"
#include "ui/common/field_editor.h"
#include "ui/common/record_dialog.h"
#include "ui/mixing/mixing_view.h"
#include "ui/shelf/child_rows.h"
#include "ui/shelf/fill_steps.h"
#include "ui/shelf/formula_record.h"
#include "ui/shelf/record_model.h"
#include "ui/shelf/shelf_view.h"
#include "ui/shelf/tool_facts.h"

#include "tests/support/prints_fixture.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QTableWidget>
#include <QTest>
#include <QTimer>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

class ShelfRows : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        shelf = std::make_unique<ui::ShelfView>(room.services());
        shelf->resize(930, 660);
        static_cast<QWidget&>(*shelf).show();
        shelf->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(shelf.get()));
    }
    void TearDown() override { shelf.reset(); }
    void choose(Entity entity, qint64 id)
    {
        shelf->choose(Ref { entity, id });
        QCoreApplication::processEvents();
        ASSERT_NE(shelf->rows()->table(), nullptr);
    }
    [[nodiscard]] QTableWidget& table() const { return *shelf->rows()->table()->table(); }
    [[nodiscard]] int count(Entity child, qint64 owner) const
    {
        return int(shelf_().notebook().children(child, owner).size());
    }
    [[nodiscard]] ui::Desk& shelf_() const { return const_cast<PrintsFixture&>(room).desk(); }
    [[nodiscard]] Known get(Entity entity, qint64 id, const char* key) const
    {
        return shelf_().notebook().get({ entity, id }, text(key));
    }
    /// Presses a key on the chosen row and works in the dialog that opens.
    void withDialog(const std::function<void()>& opens, const std::function<void(QDialog&)>& work)
    {
        bool seen = false;
        QTimer::singleShot(0, shelf.get(), [&] {
            auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
            ASSERT_NE(dialog, nullptr);
            seen = true;
            work(*dialog);
            if (dialog->isVisible())
                dialog->reject();
        });
        opens();
        EXPECT_TRUE(seen);
    }
    static void accept(const QDialog& dialog)
    {
        for (auto* button : dialog.findChildren<QPushButton*>())
            if (button->isDefault())
                QTest::mouseClick(button, Qt::LeftButton);
    }
    static void type(QDialog& dialog, const char* key, const char* typed)
    {
        auto* editor = dynamic_cast<ui::RecordDialog&>(dialog).editor(text(key));
        ASSERT_NE(editor, nullptr) << key;
        auto* line = qobject_cast<QLineEdit*>(editor->input());
        ASSERT_NE(line, nullptr) << key;
        line->setFocus();
        line->selectAll();
        QTest::keyClicks(line, text(typed));
    }
    [[nodiscard]] QString facts() const
    {
        for (const auto* label : shelf->findChildren<QLabel*>())
            if (label->accessibleName() == text("About the chosen record"))
                return label->text();
        return {};
    }
    [[nodiscard]] QString mind(Entity entity, qint64 id) const
    {
        return shelf->model()->facts().text({ entity, id }, ui::RecordFacts::Fact::Warnings);
    }
    QPushButton* button(const char* part) const
    {
        for (auto* one : shelf->findChildren<QPushButton*>())
            if (one->text().remove(QLatin1Char('&')).contains(text(part)) && one->isVisible())
                return one;
        ADD_FAILURE() << "no button says " << part;
        return nullptr;
    }

    PrintsFixture room;
    std::unique_ptr<ui::ShelfView> shelf;
};

} // namespace

TEST_F(ShelfRows, EnterChangesAPartAndDeleteTakesItAway)
{
    const auto part
        = room.add(Entity::MixPart, { { "part_substance", "K3[Fe(CN)6]" }, { "part_mass_g", 1.0 } }, room.m2);
    room.add(Entity::MixPart, { { "part_substance", "FeCl3.6H2O" }, { "part_mass_g", 0.6 } }, room.m2);
    choose(Entity::Mix, room.m2);
    ASSERT_EQ(table().rowCount(), 2);
    table().setFocus();
    table().selectRow(0);
    withDialog([&] { QTest::keyClick(&table(), Qt::Key_Return); },
        [&](QDialog& dialog) {
            type(dialog, "part_mass_g", "0.45");
            accept(dialog);
        });
    EXPECT_EQ(get(Entity::MixPart, part, "part_mass_g").number(), 0.45);
    EXPECT_EQ(table().rowCount(), 2);
    table().setFocus();
    table().selectRow(0);
    QTest::keyClick(&table(), Qt::Key_Delete);
    EXPECT_EQ(count(Entity::MixPart, room.m2), 1);
    EXPECT_EQ(table().rowCount(), 1);
    room.undo();
    EXPECT_EQ(count(Entity::MixPart, room.m2), 2) << "one step, taken back";
    EXPECT_EQ(table().rowCount(), 2);
    room.undo();
    EXPECT_EQ(get(Entity::MixPart, part, "part_mass_g").number(), 1.0);
}

TEST_F(ShelfRows, TabComesFromTheRecordsToTheirRowsAndOnToTheirButtons)
{
    room.add(Entity::MixPart, { { "part_substance", "K3[Fe(CN)6]" } }, room.m2);
    choose(Entity::Mix, room.m2);
    shelf->table()->setFocus();
    QTest::keyClick(shelf->table(), Qt::Key_Tab);
    EXPECT_EQ(QApplication::focusWidget(), &table());
    EXPECT_EQ(table().currentRow(), 0) << "whoever comes in stands on a row";
    QTest::keyClick(&table(), Qt::Key_Tab);
    EXPECT_EQ(QApplication::focusWidget(), shelf->rows()->table()->addRowButton());
}

TEST_F(ShelfRows, AnUnknownSubstanceIsToldWhereItIsTyped)
{
    choose(Entity::Mix, room.m2);
    withDialog([&] { QTest::mouseClick(button("Add..."), Qt::LeftButton); },
        [&](QDialog& dialog) {
            type(dialog, "part_substance", "blue powder");
            auto* editor = dynamic_cast<ui::RecordDialog&>(dialog).editor(text("part_substance"));
            QTest::keyClick(editor->input(), Qt::Key_Return);
            EXPECT_THAT(editor->complaint().toStdString(), HasSubstr("no substance that is known"));
            type(dialog, "part_substance", "citric acid monohydrate");
            QTest::keyClick(editor->input(), Qt::Key_Return);
            EXPECT_TRUE(editor->complaint().isEmpty()) << editor->complaint().toStdString();
        });
}

TEST_F(ShelfRows, AWedgeIsFilledAtOnceAndInOneStep)
{
    const auto wedge = room.add(Entity::Negative, { { "negative_name", "Wedge T" }, { "negative_kind", "wedge" } });
    room.add(Entity::NegativeStep, { { "step_number", 1 }, { "step_uv_density", 0.3 } }, wedge);
    choose(Entity::Negative, wedge);
    withDialog([&] { QTest::mouseClick(button("Fill steps"), Qt::LeftButton); },
        [&](QDialog& dialog) {
            auto& fill = dynamic_cast<ui::FillStepsDialog&>(dialog);
            EXPECT_THAT(fill.preview()->text().toStdString(), HasSubstr("0.05  0.20  0.35  …  3.05"));
            EXPECT_THAT(fill.preview()->text().toStdString(), HasSubstr("taken away"));
            accept(dialog);
        });
    ASSERT_EQ(count(Entity::NegativeStep, wedge), 21);
    const auto& steps = room.desk().notebook().table(Entity::NegativeStep);
    const auto rows = ui::childrenInOrder(room.desk().notebook(), Entity::NegativeStep, wedge);
    for (int i = 0; i < 21; ++i) {
        const auto density = get(Entity::NegativeStep, steps.id(rows[size_t(i)]), "step_uv_density");
        EXPECT_NEAR(density.number().value_or(-1), 0.05 + 0.15 * i, 1e-9);
        EXPECT_EQ(density.evidence, Evidence::Assumed) << "nobody has measured it";
        EXPECT_EQ(get(Entity::NegativeStep, steps.id(rows[size_t(i)]), "step_number").number(), i + 1);
        EXPECT_FALSE(get(Entity::NegativeStep, steps.id(rows[size_t(i)]), "step_value").has());
    }
    EXPECT_EQ(table().rowCount(), 21);
    room.undo();
    EXPECT_EQ(count(Entity::NegativeStep, wedge), 1) << "the one that was there is back";
}

TEST_F(ShelfRows, WhatDoesNotFitIsToldAndNothingIsWritten)
{
    const auto wedge = room.add(Entity::Negative, { { "negative_name", "Wedge T" }, { "negative_kind", "wedge" } });
    choose(Entity::Negative, wedge);
    withDialog([&] { shelf->rows()->fillSteps(); },
        [&](QDialog& dialog) {
            auto& fill = dynamic_cast<ui::FillStepsDialog&>(dialog);
            fill.densityStep()->setValue(1.0); // 20.05 at the end
            accept(dialog);
            EXPECT_TRUE(dialog.isVisible());
            EXPECT_THAT(fill.preview()->text().toStdString(), HasSubstr("20.05"));
            fill.withDensities()->setChecked(false);
            accept(dialog);
            EXPECT_THAT(fill.preview()->text().toStdString(), HasSubstr("nothing to fill in"));
            fill.withValues()->setChecked(true); // a printed film: values now, densities when they are measured
            accept(dialog);
            EXPECT_FALSE(dialog.isVisible());
        });
    ASSERT_EQ(count(Entity::NegativeStep, wedge), 21);
    const auto last = room.desk()
                          .notebook()
                          .table(Entity::NegativeStep)
                          .id(ui::childrenInOrder(room.desk().notebook(), Entity::NegativeStep, wedge).back());
    EXPECT_EQ(get(Entity::NegativeStep, last, "step_value").number(), 100);
    EXPECT_FALSE(get(Entity::NegativeStep, last, "step_uv_density").has());
}

TEST_F(ShelfRows, ACardTellsItsPatchesAndHowWellTheyAreKnown)
{
    // The clock of the desk stands at 2024-06-21.
    const auto card = room.add(Entity::Card,
        { { "card_name", "G1" }, { "card_known_by", "densitometer" },
            { "card_known_on", "2024-03-21T00:00:00+00:00" } });
    choose(Entity::Card, card);
    EXPECT_THAT(mind(Entity::Card, card).toStdString(), HasSubstr("no patches"));
    withDialog(
        [&] { QTest::mouseClick(button("Fill patches"), Qt::LeftButton); }, [&](QDialog& dialog) { accept(dialog); });
    EXPECT_EQ(count(Entity::CardPatch, card), 8);
    EXPECT_THAT(facts().toStdString(), HasSubstr("Patches: 8, density 0.05 to 1.10."));
    EXPECT_THAT(facts().toStdString(), HasSubstr("densitometer, since 2024-03-21 (0.3 years)"));
    EXPECT_TRUE(mind(Entity::Card, card).isEmpty()) << mind(Entity::Card, card).toStdString();
    room.set({ Entity::Card, card }, "card_known_on", "2022-06-20T00:00:00+00:00");
    EXPECT_THAT(mind(Entity::Card, card).toStdString(), HasSubstr("old"));
    room.set({ Entity::Card, card }, "card_known_by", "assumed");
    EXPECT_THAT(mind(Entity::Card, card).toStdString(), HasSubstr("only assumed"));
    EXPECT_THAT(facts().toStdString(), HasSubstr("cards yellow"));
}

// Square law by hand: 28 W/m2 at 20 cm are 28 x (20/30)^2 = 12.44 at 30 cm and 28 x (20/50)^2 = 4.48 at 50 cm.
TEST_F(ShelfRows, ALampTellsWhatItGivesAtOtherDistancesAsReckoned)
{
    EXPECT_NEAR(ui::lightAtDistance(28, 20, 30), 12.444, 0.001);
    EXPECT_NEAR(ui::lightAtDistance(28, 20, 50), 4.48, 1e-9);
    const auto lamp = room.add(Entity::Lamp,
        { { "lamp_name", "Box" }, { "lamp_kind", "tube_dark" }, { "lamp_uva_w_m2", 28 }, { "lamp_measured_at_cm", 20 },
            { "lamp_spectrum", "350:0.4 370:1 390:0.3" } });
    const auto bare = room.add(Entity::Lamp, { { "lamp_name", "Bare" } });
    shelf->choose(Ref { Entity::Lamp, lamp });
    EXPECT_EQ(shelf->rows()->table(), nullptr);
    EXPECT_FALSE(shelf->rows()->isVisible());
    EXPECT_THAT(facts().toStdString(), HasSubstr("Measured: 28.0 W/m² at 20 cm."));
    EXPECT_THAT(facts().toStdString(), HasSubstr("Reckoned"));
    EXPECT_THAT(facts().toStdString(), HasSubstr("≈12.4 W/m² at 30 cm, ≈4.5 W/m² at 50 cm"));
    EXPECT_THAT(facts().toStdString(), HasSubstr("3 wavelengths from 350 to 390 nm, strongest at 370 nm"));
    EXPECT_TRUE(mind(Entity::Lamp, lamp).isEmpty());
    EXPECT_THAT(mind(Entity::Lamp, bare).toStdString(), HasSubstr("light not measured"));
    // A bad spectrum is told where it is typed, and on the shelf.
    withDialog([&] { shelf->change(); },
        [&](QDialog& dialog) {
            type(dialog, "lamp_spectrum", "370:1 350:0.4");
            auto* editor = dynamic_cast<ui::RecordDialog&>(dialog).editor(text("lamp_spectrum"));
            QTest::keyClick(editor->input(), Qt::Key_Return);
            EXPECT_THAT(editor->complaint().toStdString(), HasSubstr("have to rise"));
            accept(dialog);
        });
    EXPECT_THAT(mind(Entity::Lamp, lamp).toStdString(), HasSubstr("spectrum cannot be read"));
    EXPECT_THAT(facts().toStdString(), HasSubstr("have to rise"));
}

TEST_F(ShelfRows, ACopiedFormulaIsChangedAndTheMixingViewOffersIt)
{
    shelf->choose(Entity::Formula);
    room.dialogs.willAnswer(0); // traditional, 200 mL
    room.dialogs.willType(text("Ours"));
    QTest::mouseClick(button("Copy a published formula"), Qt::LeftButton);
    const auto id = room.desk().notebook().byName(Entity::Formula, text("Ours"));
    ASSERT_TRUE(id);
    EXPECT_EQ(count(Entity::FormulaPart, *id), 2);
    // 25 g x 0.15 / 55.845 g/mol / 0.200 L = 0.3357 mol/L (the published recipe by hand, green salt at 15 % iron)
    EXPECT_NEAR(get(Entity::Formula, *id, "formula_iron_mol_l").number().value_or(0), 0.3357, 0.0001);
    EXPECT_EQ(get(Entity::Formula, *id, "formula_iron_mol_l").evidence, Evidence::Estimated);
    EXPECT_THAT(facts().toStdString(), HasSubstr("iron(III) 0.336 mol/L"));

    // Half as much of the iron salt: the strength follows in the same step.
    ASSERT_EQ(table().rowCount(), 2);
    table().setFocus();
    table().selectRow(0);
    withDialog([&] { QTest::keyClick(&table(), Qt::Key_Return); },
        [&](QDialog& dialog) {
            type(dialog, "ingredient_g", "12.5");
            accept(dialog);
        });
    EXPECT_NEAR(get(Entity::Formula, *id, "formula_iron_mol_l").number().value_or(0), 0.3357 / 2, 0.0001);
    room.undo();
    EXPECT_NEAR(get(Entity::Formula, *id, "formula_iron_mol_l").number().value_or(0), 0.3357, 0.0001);

    // It cannot be typed over, and the volume works on it.
    withDialog([&] { shelf->change(); },
        [&](QDialog& dialog) {
            auto* iron = qobject_cast<QLineEdit*>(
                dynamic_cast<ui::RecordDialog&>(dialog).editor(text("formula_iron_mol_l"))->input());
            EXPECT_TRUE(iron->isReadOnly());
            type(dialog, "formula_volume_ml", "400");
            accept(dialog);
        });
    EXPECT_NEAR(get(Entity::Formula, *id, "formula_iron_mol_l").number().value_or(0), 0.3357 / 2, 0.0001);

    withDialog([&] { QTest::mouseClick(button("Steps..."), Qt::LeftButton); },
        [&](QDialog& dialog) {
            auto& steps = dynamic_cast<ui::StepsDialog&>(dialog);
            steps.text()->selectAll();
            QTest::keyClicks(steps.text(), text("Stir A."));
            QTest::keyClick(steps.text(), Qt::Key_Return);
            QTest::keyClicks(steps.text(), text("Pour in B."));
            steps.accept();
        });
    EXPECT_EQ(get(Entity::Formula, *id, "formula_steps").text(), text("Stir A.\nPour in B."));

    ui::MixingView mixing(room.services());
    mixing.arrive();
    mixing.setFormula(QStringLiteral("own/%1").arg(*id));
    ASSERT_TRUE(mixing.state().own());
    EXPECT_EQ(mixing.state().formula().volume_ml, 400);
    QStringList steps;
    for (const auto& step : mixing.state().steps())
        steps << step.text;
    EXPECT_TRUE(steps.contains(text("Pour in B."))) << steps.join(QLatin1Char('|')).toStdString();
}

TEST_F(ShelfRows, AFormulaWithAMistakeIsListedWithItsSentence)
{
    const auto id = room.add(Entity::Formula, { { "formula_name", "Half done" }, { "formula_volume_ml", 20 } });
    room.add(Entity::FormulaPart, { { "ingredient_substance", "grey salt" }, { "ingredient_g", 1 } }, id);
    choose(Entity::Formula, id);
    EXPECT_THAT(mind(Entity::Formula, id).toStdString(), HasSubstr("cannot be weighed"));
    EXPECT_THAT(facts().toStdString(), HasSubstr("“grey salt”"));

    ui::MixingView mixing(room.services());
    static_cast<QWidget&>(mixing).show();
    mixing.arrive();
    QComboBox* formulas = nullptr;
    for (auto* box : mixing.findChildren<QComboBox*>())
        if (box->accessibleName() == text("Formula"))
            formulas = box;
    ASSERT_NE(formulas, nullptr);
    const int at = formulas->findText(text("Half done"), Qt::MatchContains);
    ASSERT_GE(at, 0) << "not hidden";
    const auto before = mixing.state().formula().key;
    formulas->setFocus();
    for (int i = formulas->currentIndex(); i < at; ++i)
        QTest::keyClick(formulas, Qt::Key_Down);
    ASSERT_FALSE(room.dialogs.texts(text("message")).isEmpty());
    EXPECT_THAT(room.dialogs.texts(text("message")).last().toStdString(), HasSubstr("“grey salt”"));
    EXPECT_FALSE(mixing.state().formula().name == text("Half done"));
    EXPECT_FALSE(before.isEmpty());
}

TEST_F(ShelfRows, ALabelIsWrittenAndTheBottleCountsAsLabelled)
{
    QTemporaryDir folder;
    const auto jar = room.add(Entity::Chemical,
        { { "chemical_name", "Iron(III) chloride hexahydrate" }, { "chemical_formula", "FeCl3.6H2O" },
            { "chemical_labelled", false } });
    shelf->choose(Ref { Entity::Chemical, jar });
    EXPECT_THAT(mind(Entity::Chemical, jar).toStdString(), HasSubstr("no label"));
    room.dialogs.willAnswer(1); // a sheet of labels
    room.dialogs.willType(text("5"));
    room.dialogs.willSave(folder.filePath(QStringLiteral("jar.pdf")));
    QTest::mouseClick(button("Label..."), Qt::LeftButton);
    QFile file(folder.filePath(QStringLiteral("jar.pdf")));
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    EXPECT_TRUE(file.readAll().startsWith("%PDF-"));
    EXPECT_EQ(get(Entity::Chemical, jar, "chemical_labelled").yes(), true);
    EXPECT_TRUE(mind(Entity::Chemical, jar).isEmpty());
    room.undo();
    EXPECT_EQ(get(Entity::Chemical, jar, "chemical_labelled").yes(), false);
    // Turned back from: nothing is claimed.
    room.dialogs.willAnswer(std::nullopt);
    shelf->label();
    EXPECT_EQ(get(Entity::Chemical, jar, "chemical_labelled").yes(), false);
    shelf->choose(Entity::Mix);
    ASSERT_NE(button("Label..."), nullptr);
}

TEST_F(ShelfRows, AllOfItFitsTheSmallestWindow)
{
    for (const auto entity : { Entity::Mix, Entity::Negative, Entity::Card, Entity::Formula, Entity::Lamp }) {
        const auto* identity = room.catalogue().identity(entity);
        ASSERT_NE(identity, nullptr);
        qint64 id = room.m2;
        if (entity != Entity::Mix)
            id = room.add(entity, { { identity->key.toUtf8().constData(), "One" } });
        if (const auto child = ui::ChildRows::childOf(entity))
            for (int i = 0; i < 12; ++i)
                room.add(*child, {}, id);
        shelf->choose(Ref { entity, id });
        QCoreApplication::processEvents();
        EXPECT_LE(shelf->minimumSizeHint().width(), 930) << int(entity);
        EXPECT_LE(shelf->minimumSizeHint().height(), 660) << int(entity);
        for (auto* one : shelf->findChildren<QPushButton*>())
            EXPECT_FALSE(one->isVisible() && one->text().isEmpty());
    }
}

} // namespace WASHFAST_FILE
