// The Mixing view: amounts follow the order, swaps carry their caution, what was weighed is audited, and a finished mix
// is one step with its parts.
#include "ui/mixing/check_page.h"
#include "ui/mixing/make_page.h"
#include "ui/mixing/mixing_view.h"
#include "ui/mixing/weigh_page.h"

#include "tests/support/prints_fixture.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QSpinBox>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::MixingView;

namespace {

class MixingViewTest : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        bottle = room.add(Entity::Chemical,
            { { "chemical_name", "Iron(III) chloride hexahydrate" }, { "chemical_formula", "FeCl3.6H2O" },
                { "chemical_lot", "E-9" }, { "chemical_left_g", 50.0 },
                { "chemical_counted", "2024-06-20T08:00:00+00:00" }, { "chemical_low_g", 49.5 } });
        for (int i = 1; i <= 3; ++i)
            prints << room.print(("A1-0" + std::to_string(i)).c_str());
        view = std::make_unique<MixingView>(room.services());
        view->resize(930, 660); // what a window of 1100 x 720 leaves
        QObject::connect(view.get(), &ui::View::say, view.get(), [this](const QString& sentence) { said << sentence; });
        static_cast<QWidget&>(*view).show();
        view->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(view.get()));
        view->arrive();
        view->setFormula(QStringLiteral("iron_chloride"));
    }
    template <typename W> W* named(const char* name) const
    {
        for (auto* widget : view->findChildren<W*>())
            if (widget->accessibleName() == text(name))
                return widget;
        ADD_FAILURE() << "no control is called " << name;
        return nullptr;
    }
    int lineOf(const char* substance) const
    {
        const auto& lines = view->state().lines();
        for (int i = 0; i < int(lines.size()); ++i)
            if (lines[size_t(i)].component == text(substance))
                return i;
        return -1;
    }
    void weigh(const char* substance, const char* grams)
    {
        auto* edit = view->weighPage()->weighedEdit(lineOf(substance));
        edit->setFocus();
        edit->selectAll();
        QTest::keyClicks(edit, text(grams));
        QTest::keyClick(edit, Qt::Key_Return);
    }
    /// A small classroom batch of common practice, no source: 20 mL water, 0.6 g citric acid, 0.6 g iron(III) chloride
    /// hexahydrate, ammonium carbonate until neutral (1.0 g is entered), 1 g hexacyanoferrate.
    void weighClassroomBatch()
    {
        weigh("C6H8O7", "0.6");
        weigh("FeCl3.6H2O", "0,60");
        weigh("NH4HCO3.NH2COONH4", "1.0");
        weigh("K3[Fe(CN)6]", "1");
    }

    PrintsFixture room;
    std::unique_ptr<MixingView> view;
    QVector<qint64> prints;
    qint64 bottle = 0;
    QStringList said;
};

// 10 mL of this mix is the worked batch of the chloride route: 0.336 mol/L iron, 0.152 mol/L hexacyanoferrate need
// 0.908 g FeCl3.6H2O, 0.859 g citric acid, 0.500 g K3[Fe(CN)6] and 0.817 g of the double salt: computed by hand from
// the CIAAW's atomic weights (270.29, 192.12, 329.25 and 157.13 g/mol).
TEST_F(MixingViewTest, TenMillilitresAreTheWorkedBatch)
{
    named<QSpinBox>("Sheets")->setValue(1);
    named<QSpinBox>("Width of the coated area, mm")->setValue(1000);
    named<QSpinBox>("Height of the coated area, mm")->setValue(500);
    view->state().order.spare_pct = 0;
    named<QSpinBox>("Spare")->setValue(0); // 0.5 m2 at 20 mL/m2
    const auto exact = [&](const char* key) { return view->state().lines()[size_t(lineOf(key))].amount.exact_g; };
    EXPECT_NEAR(view->state().scaled().volume_ml, 10, 1e-9);
    EXPECT_NEAR(exact("FeCl3.6H2O"), 0.908, 0.001);
    EXPECT_NEAR(exact("C6H8O7"), 0.859, 0.001);
    EXPECT_NEAR(exact("K3[Fe(CN)6]"), 0.500, 0.001);
    EXPECT_NEAR(exact("NH4HCO3.NH2COONH4"), 0.817, 0.001);
    EXPECT_EQ(view->weighPage()->figure(lineOf("FeCl3.6H2O")), text("0.91 g"));
    EXPECT_TRUE(view->makePage()->cautionText().contains(text("0.25 L")))
        << view->makePage()->cautionText().toStdString();
    EXPECT_TRUE(view->makePage()->cautionText().contains(text("12.7 bar")));
    named<QComboBox>("Smallest step of the balance")->setCurrentIndex(2); // 0.1 g
    EXPECT_EQ(view->weighPage()->figure(lineOf("FeCl3.6H2O")), text("0.9 g"));
}

TEST_F(MixingViewTest, ASwapChangesTheMassAndSaysItsCaution)
{
    const int line = lineOf("C6H8O7");
    const double before = view->state().lines()[size_t(line)].amount.exact_g;
    auto* box = view->weighPage()->insteadBox(line);
    box->setFocus();
    QTest::keyClick(box, Qt::Key_Down);
    const auto& after = view->state().lines()[size_t(line)].amount;
    EXPECT_EQ(after.substance, text("C6H8O7.H2O"));
    EXPECT_NEAR(after.exact_g / before, 210.14 / 192.12, 1e-3); // molar masses by the CIAAW's atomic weights
}

TEST_F(MixingViewTest, TheClassroomBatchIsFoundToHaveTooMuchHexacyanoferrate)
{
    weighClassroomBatch();
    const auto audit = view->state().audited();
    // 0.6/270.29 = 2.220 mmol iron, 1/329.25 = 3.037 mmol: 0.731; 0.6/192.12 = 3.123 mmol citrate: 1.407
    EXPECT_NEAR(audit.iron_to_hexacyanoferrate.value_or(0), 0.731, 0.001);
    EXPECT_NEAR(audit.citrate_to_iron.value_or(0), 1.407, 0.001);
    EXPECT_TRUE(audit.has(chemistry::FindingKind::HexacyanoferrateExcess));
    EXPECT_TRUE(view->checkPage()->findings().contains(QChar(0x25B2))) << view->checkPage()->findings().toStdString();
}

TEST_F(MixingViewTest, WhatIsNoMassIsToldAndStays)
{
    weigh("C6H8O7", "two");
    EXPECT_EQ(view->weighPage()->weighedEdit(lineOf("C6H8O7"))->text(), text("two"));
    EXPECT_EQ(view->state().weighed(), 0);
}

TEST_F(MixingViewTest, StepsAreTickedWithSpaceAndKeepTheirTicks)
{
    view->showPage(MixingView::Page::Make);
    auto* steps = view->makePage()->steps();
    steps->setFocus();
    steps->setCurrentRow(0);
    QTest::keyClick(steps, Qt::Key_Space);
    QTest::keyClick(steps, Qt::Key_Space);
    EXPECT_EQ(steps->tickedCount(), 2);
    EXPECT_EQ(steps->currentRow(), 2);
    EXPECT_TRUE(steps->item(0)->data(Qt::AccessibleTextRole).toString().contains(text("done")));
    weigh("C6H8O7", "3.4"); // what is entered elsewhere forgets nothing
    EXPECT_EQ(steps->tickedCount(), 2);
    for (int row = 0; row < steps->count(); ++row)
        EXPECT_GE(steps->visualItemRect(steps->item(row)).height(), 56) << "a wet finger must hit it";
}

TEST_F(MixingViewTest, AWaitingStepHasATimer)
{
    view->showPage(MixingView::Page::Make);
    auto* steps = view->makePage()->steps();
    int waiting = -1;
    for (int row = 0; row < steps->count(); ++row)
        if (steps->waitOf(row) > 0)
            waiting = row;
    ASSERT_GE(waiting, 0);
    EXPECT_EQ(steps->waitOf(waiting), 30) << "at least half an hour open";
    steps->setCurrentRow(waiting);
    QTest::mouseClick(view->makePage()->timerButton(), Qt::LeftButton);
    room.clock.advanceMinutes(29);
    view->makePage()->look();
    EXPECT_EQ(view->makePage()->timerText(), text("1:00"));
    room.clock.advanceMinutes(1);
    view->makePage()->look();
    EXPECT_EQ(said.size(), 1);
}

TEST_F(MixingViewTest, AFinishedMixIsOneStepWithItsPartsAndForTheBench)
{
    weighClassroomBatch();
    view->showPage(MixingView::Page::Check);
    EXPECT_EQ(view->checkPage()->code(), text("M11"));
    ASSERT_TRUE(view->checkPage()->useBox()->isVisible());
    QTest::mouseClick(view->checkPage()->keepButton(), Qt::LeftButton);
    const auto& notebook = room.desk().notebook();
    const auto mix = notebook.byName(Entity::Mix, text("M11"));
    ASSERT_TRUE(mix);
    EXPECT_EQ(notebook.children(Entity::MixPart, *mix).size(), 4u);
    for (const auto print : prints)
        EXPECT_EQ(room.text(print, "mix_code"), "M11");
    // The bottle went down by what was weighed, by arithmetic on the parts: nothing was changed in its record.
    const auto state = chemistry::bottleState(notebook, bottle, room.desk().now());
    EXPECT_NEAR(state.left_g.value_or(0), 49.4, 1e-9);
    EXPECT_EQ(notebook.get({ Entity::Chemical, bottle }, u"chemical_left_g").number(), 50.0);
    EXPECT_EQ(state.warnings, std::vector { chemistry::ShelfWarning::Low });
    EXPECT_EQ(said.size(), 1);

    room.desk().undo();
    EXPECT_FALSE(room.desk().notebook().byName(Entity::Mix, text("M11")));
    EXPECT_FALSE(room.get(prints[0], "mix_code").has());
    EXPECT_EQ(room.desk().notebook().table(Entity::MixPart).rows(), 0);
    room.desk().redo();
    EXPECT_EQ(room.text(prints[2], "mix_code"), "M11");
}

TEST_F(MixingViewTest, WithoutAMassItAsksFirst)
{
    room.dialogs.willAnswer(0);
    view->keepMix();
    EXPECT_FALSE(room.desk().notebook().byName(Entity::Mix, text("M11")));
}

TEST_F(MixingViewTest, AnOwnFormulaIsWhatWasWeighedLastTime)
{
    const auto formula = room.add(Entity::Formula, { { "formula_name", "Ours" } });
    const auto mix
        = room.add(Entity::Mix, { { "mix_code", "M3" }, { "mix_formula", formula }, { "mix_water_ml", 20 } });
    room.add(Entity::MixPart, { { "part_substance", "FeCl3.6H2O" }, { "part_mass_g", 0.6 } }, mix);
    room.add(Entity::MixPart, { { "part_substance", "K3[Fe(CN)6]" }, { "part_mass_g", 1.0 } }, mix);
    view->arrive();
    view->setFormula(QStringLiteral("own/%1").arg(formula));
    ASSERT_TRUE(view->state().own());
    const auto& scaled = view->state().scaled();
    ASSERT_EQ(scaled.amounts.size(), 2u);
    EXPECT_NEAR(scaled.amounts[0].exact_g, 0.6 * scaled.volume_ml / 20, 1e-9);
}

TEST_F(MixingViewTest, EveryControlHasANameAndNothingIsWiderThanTheWindow)
{
    for (const auto page : { MixingView::Page::Weigh, MixingView::Page::Make, MixingView::Page::Check }) {
        view->showPage(page);
        QTest::qWait(20);
        for (auto* widget : view->findChildren<QWidget*>()) {
            if (!widget->isVisible() || widget->focusPolicy() == Qt::NoFocus)
                continue;
            if (qobject_cast<QLineEdit*>(widget) && qobject_cast<QAbstractSpinBox*>(widget->parentWidget()))
                continue;
            auto* button = qobject_cast<QAbstractButton*>(widget);
            EXPECT_TRUE(!widget->accessibleName().isEmpty() || (button && !button->text().isEmpty())
                || widget->inherits("QTabBar"))
                << widget->metaObject()->className() << " in page " << int(page);
        }
        EXPECT_LE(view->minimumSizeHint().width(), 930) << int(page);
        EXPECT_LE(view->minimumSizeHint().height(), 660) << int(page);
    }
}

} // namespace

} // namespace WASHFAST_FILE
