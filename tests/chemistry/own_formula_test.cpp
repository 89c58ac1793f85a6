// Formulas of one's own: amounts as they were written, strengths that follow from them, and a sentence for every
// mistake.
#include "core/chemistry/bottle_labels.h"
#include "core/chemistry/own_formula.h"

#include "tests/support/small_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::chemistry;

namespace {

WrittenFormula chloride()
{
    // 10 mL at 0.336 mol/L iron and 0.152 mol/L hexacyanoferrate, by hand from the CIAAW's atomic weights:
    //     3.36 mmol x 270.29 g/mol = 0.908 g FeCl3.6H2O, 1.52 mmol x 329.25 g/mol = 0.500 g K3[Fe(CN)6]
    WrittenFormula written;
    written.name = QStringLiteral("Ours");
    written.volume_ml = 10;
    written.ingredients = { { QStringLiteral("FeCl3·6H2O"), 0.908, QStringLiteral("A"), {} },
        { QStringLiteral("potassium ferricyanide"), 0.500, QStringLiteral("B"), QStringLiteral("Last.") } };
    return written;
}

std::string problemOf(const WrittenFormula& written)
{
    const auto recipe = recipeFrom(written);
    return recipe ? "none" : recipe.error().says.toStdString();
}

} // namespace

TEST(OwnFormula, AmountsAreAsWrittenAndStrengthsFollowFromThem)
{
    const auto written = chloride();
    const auto recipe = recipeFrom(written);
    ASSERT_TRUE(recipe) << recipe.error().says.toStdString();
    ASSERT_EQ(recipe->components.size(), 2u);
    EXPECT_EQ(recipe->components[0].substance, QStringLiteral("FeCl3.6H2O"));
    EXPECT_EQ(recipe->components[0].grams, 0.908);
    EXPECT_EQ(recipe->components[1].substance, QStringLiteral("K3[Fe(CN)6]"));
    EXPECT_EQ(recipe->components[1].solution, QStringLiteral("B"));
    EXPECT_EQ(recipe->components[1].note, QStringLiteral("Last."));
    EXPECT_NEAR(recipe->ironMolarity(), 0.336, 0.0005);
    EXPECT_NEAR(recipe->hexacyanoferrateMolarity(), 0.152, 0.0005);
    EXPECT_THAT(recipe->cautions, testing::Contains(QStringLiteral("iron_chloride")));
    const auto reckoned = reckonedFrom(written);
    EXPECT_EQ(reckoned.iron_mol_l.evidence, Evidence::Estimated);
    EXPECT_NEAR(reckoned.iron_mol_l.number().value(), 0.336, 0.0005);
}

TEST(OwnFormula, StepsAreOneALine)
{
    auto written = chloride();
    EXPECT_EQ(recipeFrom(written)->steps.size(), 1) << "without any there is a plain one";
    written.steps = QStringLiteral("Dissolve A.\n\n  Dissolve B. \nPour together.");
    written.notes = QStringLiteral("Same day.");
    EXPECT_THAT(recipeFrom(written)->steps,
        testing::ElementsAre(QStringLiteral("Dissolve A."), QStringLiteral("Dissolve B."),
            QStringLiteral("Pour together."), QStringLiteral("Same day.")));
}

TEST(OwnFormula, EveryMistakeHasItsSentence)
{
    using testing::HasSubstr;
    EXPECT_EQ(problemOf(chloride()), "none");
    auto one = chloride();
    one.ingredients[1].substance = QStringLiteral("blue powder");
    EXPECT_THAT(problemOf(one), HasSubstr("Ingredient 2, “blue powder”"));
    one = chloride();
    one.ingredients[1].substance = QStringLiteral("NaCl"); // can be read, and is nothing of a mix
    EXPECT_THAT(problemOf(one), HasSubstr("none of the substances"));
    one = chloride();
    one.ingredients[0].substance.clear();
    EXPECT_THAT(problemOf(one), HasSubstr("Ingredient 1 has no substance"));
    one = chloride();
    one.ingredients[0].grams.reset();
    EXPECT_THAT(problemOf(one), HasSubstr("has no amount")) << "not recorded is not zero";
    one = chloride();
    one.ingredients[1].substance = QStringLiteral("iron(III) chloride hexahydrate");
    EXPECT_THAT(problemOf(one), HasSubstr("twice"));
    one = chloride();
    one.ingredients[1].substance = QStringLiteral("water");
    EXPECT_THAT(problemOf(one), HasSubstr("topped up"));
    one = chloride();
    one.volume_ml.reset();
    EXPECT_THAT(problemOf(one), HasSubstr("how many mL"));
    one.ingredients.clear();
    EXPECT_THAT(problemOf(one), HasSubstr("no ingredients"));
    EXPECT_FALSE(reckonedFrom(one).iron_mol_l.has());
}

TEST(OwnFormula, AFormThatIsLeftOpenIsSaidAndMakesItAnAssumption)
{
    auto written = chloride();
    written.ingredients.push_back({ QStringLiteral("citric acid"), 0.86, {}, {} });
    const auto recipe = recipeFrom(written);
    ASSERT_TRUE(recipe);
    EXPECT_EQ(recipe->components[2].substance, QStringLiteral("C6H8O7"));
    EXPECT_THAT(recipe->components[2].note.toStdString(), testing::HasSubstr("does not say which form"));
    EXPECT_EQ(reckonedFrom(written).iron_mol_l.evidence, Evidence::Assumed);
}

TEST(OwnFormula, ACopyComesToTheSameAsThePublishedOne)
{
    for (const auto& recipe : recipes()) {
        const auto copy = recipeFrom(copyOf(recipe, QStringLiteral("Ours")));
        ASSERT_TRUE(copy) << recipe.key.toStdString() << ": " << copy.error().says.toStdString();
        EXPECT_NEAR(copy->ironMolarity(), recipe.ironMolarity(), 1e-12) << recipe.key.toStdString();
        EXPECT_NEAR(copy->hexacyanoferrateMolarity(), recipe.hexacyanoferrateMolarity(), 1e-12);
        for (const auto& component : copy->components)
            EXPECT_NE(component.substance, QStringLiteral("(NH4)2Cr2O7")) << "not for schools";
    }
}

TEST(OwnFormula, IngredientsComeBeforeTheLastMix)
{
    SmallNotebook book;
    const auto formula = book.add(Entity::Formula, { { "formula_name", "Ours" } });
    EXPECT_FALSE(ownFormula(book.notebook(), formula).recipe);
    EXPECT_THAT(ownFormula(book.notebook(), formula).problem.toStdString(), testing::HasSubstr("no ingredients"));
    const auto mix
        = book.add(Entity::Mix, { { "mix_code", "M3" }, { "mix_formula", formula }, { "mix_water_ml", 20 } });
    book.add(Entity::MixPart, { { "part_substance", "FeCl3.6H2O" }, { "part_mass_g", 0.6 } }, mix);
    auto own = ownFormula(book.notebook(), formula);
    ASSERT_TRUE(own.recipe);
    EXPECT_EQ(own.recipe->components[0].grams, 0.6) << "as it was weighed";

    book.add(Entity::FormulaPart,
        { { "ingredient_position", 2 }, { "ingredient_substance", "K3[Fe(CN)6]" }, { "ingredient_g", 0.25 } }, formula);
    own = ownFormula(book.notebook(), formula);
    EXPECT_FALSE(own.recipe) << "the volume is missing, and the mix does not step in for a mistake";
    book.set({ Entity::Formula, formula }, "formula_volume_ml", 25);
    book.add(Entity::FormulaPart,
        { { "ingredient_position", 1 }, { "ingredient_substance", "FeCl3.6H2O" }, { "ingredient_g", 0.75 } }, formula);
    own = ownFormula(book.notebook(), formula);
    ASSERT_TRUE(own.recipe) << own.problem.toStdString();
    EXPECT_EQ(own.recipe->volume_ml, 25);
    ASSERT_EQ(own.recipe->components.size(), 2u);
    EXPECT_EQ(own.recipe->components[0].grams, 0.75) << "in the order of their numbers";
    EXPECT_EQ(ownRecipes(book.notebook()).size(), 1u);
}

TEST(OwnFormula, APublishedNameAndARetiredOneAreNotOffered)
{
    SmallNotebook book;
    book.add(Entity::Formula, { { "formula_name", recipes().front().name } });
    book.add(Entity::Formula, { { "formula_name", "Old" }, { "formula_retired", true } });
    EXPECT_TRUE(ownFormulas(book.notebook()).empty());
    book.add(Entity::Formula, { { "formula_name", "Not done" } });
    ASSERT_EQ(ownFormulas(book.notebook()).size(), 1u) << "listed with its sentence, not hidden";
    EXPECT_FALSE(ownFormulas(book.notebook()).front().problem.isEmpty());
    EXPECT_TRUE(ownRecipes(book.notebook()).empty());
}

// Statements and pictograms are those of hazards.h, which tests/reference compares with the published tables.
TEST(BottleLabels, AChemicalHasWhatItsBottleSays)
{
    SmallNotebook book;
    const auto id = book.add(Entity::Chemical,
        { { "chemical_name", "Iron(III) chloride" }, { "chemical_formula", "FeCl3.6H2O" }, { "chemical_lot", "E-9" },
            { "chemical_purity_pct", 98 }, { "chemical_opened", "2026-04-10T08:00:00+02:00" } });
    const auto label = labelOfChemical(book.notebook(), id);
    EXPECT_EQ(label.title, QStringLiteral("Iron(III) chloride"));
    const auto contents = label.contents.join(QLatin1Char('\n')).toStdString();
    EXPECT_THAT(contents, testing::HasSubstr("FeCl₃·6H₂O"));
    EXPECT_THAT(contents, testing::HasSubstr("lot E-9"));
    EXPECT_THAT(contents, testing::HasSubstr("98.0 %"));
    EXPECT_EQ(label.made, QStringLiteral("2026-04-10"));
    EXPECT_EQ(label.date, LabelDate::Opened);
    EXPECT_EQ(label.signal, QStringLiteral("Danger"));
    EXPECT_EQ(label.pictograms.size(), 2u); // corrosion and exclamation mark: H290, H302, H315, H318
    EXPECT_TRUE(label.footing.contains(deferral()));
    EXPECT_EQ(label.note, hazardsOf(QStringLiteral("FeCl3.6H2O"))->note);
    EXPECT_THAT(label.footing.toStdString(), testing::HasSubstr("star")) << "suppliers disagree on H317";
    const auto agreed = labelOfChemical(
        book.notebook(), book.add(Entity::Chemical, { { "chemical_name", "Ammonium hydrogencarbonate" } }));
    EXPECT_EQ(agreed.footing, deferral()) << "no star without a disagreement";
}

TEST(BottleLabels, WhatIsNotKnownIsSaidAndNotGuessed)
{
    SmallNotebook book;
    const auto id = book.add(Entity::Chemical, { { "chemical_name", "White powder" } });
    const auto label = labelOfChemical(book.notebook(), id);
    EXPECT_TRUE(label.hazards.empty());
    EXPECT_TRUE(label.made.isEmpty()) << "a line to write on";
    EXPECT_THAT(label.note.toStdString(), testing::HasSubstr("supplier"));
}

TEST(BottleLabels, AMixHasItsStrengthAndTheDayItWasMade)
{
    SmallNotebook book;
    const auto mix = book.add(
        Entity::Mix, { { "mix_code", "M4" }, { "mix_made", "2026-05-04T07:30:00+02:00" }, { "mix_water_ml", 20 } });
    for (const auto& [substance, grams] : { std::pair("FeCl3.6H2O", 0.6), std::pair("K3[Fe(CN)6]", 1.0),
             std::pair("NH4HCO3.NH2COONH4", 0.5), std::pair("C6H8O7", 0.6) })
        book.add(Entity::MixPart, { { "part_substance", substance }, { "part_mass_g", grams } }, mix);
    const auto label = labelOfMix(book.notebook(), mix);
    EXPECT_EQ(label.made, QStringLiteral("2026-05-04"));
    EXPECT_EQ(label.date, LabelDate::Made);
    // 0.6 / 270.29 / 0.020 and 1.0 / 329.25 / 0.020, by hand
    EXPECT_THAT(label.contents.join(QLatin1Char('\n')).toStdString(), testing::HasSubstr("iron 0.111 mol/L"));
    EXPECT_THAT(
        label.contents.join(QLatin1Char('\n')).toStdString(), testing::HasSubstr("hexacyanoferrate 0.152 mol/L"));
    EXPECT_THAT(label.note.toStdString(), testing::HasSubstr("Vented"));
}

} // namespace WASHFAST_FILE
