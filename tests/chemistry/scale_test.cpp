// Amounts for a lesson, worked out by hand in the comments.
#include "core/chemistry/scale.h"

#include "core/chemistry/molar_mass.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::chemistry;
using testing::HasSubstr;

namespace {

const Recipe& recipe(const char* key)
{
    return *findRecipe(QString::fromLatin1(key));
}

// 30 sheets of A5: 30 x 0.148 x 0.210 = 0.9324 m2, x 20 mL/m2 = 18.648 mL, + 10 % = 20.5128 mL
const Order lesson { 30, 148, 210, 20, 10, 0.01 };

Scaled scaled(const char* key, const Order& order, const Swaps& swaps = {})
{
    const auto made = scale(recipe(key), order, swaps);
    if (!made)
        throw std::runtime_error(made.error().sentence().toStdString());
    return *made;
}

const Amount& amount(const Scaled& batch, const char* substance)
{
    for (const auto& one : batch.amounts)
        if (one.substance == QLatin1String(substance))
            return one;
    throw std::runtime_error(substance);
}

} // namespace

// 20.5128 mL of 200 mL: 25 g x 0.102564 = 2.5641 g, 10 g x 0.102564 = 1.02564 g
TEST(Scale, TraditionalForALesson)
{
    const auto batch = scaled("traditional", lesson);
    EXPECT_NEAR(batch.coat_volume_ml, 18.648, 1e-9);
    EXPECT_NEAR(batch.volume_ml, 20.5128, 1e-9);
    EXPECT_NEAR(amount(batch, "ammonium iron(III) citrate green").exact_g, 2.5641, 1e-4);
    EXPECT_NEAR(amount(batch, "ammonium iron(III) citrate green").rounded_g, 2.56, 1e-9);
    EXPECT_NEAR(amount(batch, "K3[Fe(CN)6]").exact_g, 1.02564, 1e-5);
    EXPECT_NEAR(amount(batch, "K3[Fe(CN)6]").rounded_g, 1.03, 1e-9);
    ASSERT_EQ(batch.solutions.size(), 2U);
    EXPECT_NEAR(batch.solutions[0].volume_ml, 10.2564, 1e-9);
    // Rounding: 2.56/2.5641 = 0.9984, 1.03/1.02564 = 1.00425; the ratio goes from 2.2108 to 2.2108 x 0.9942 = 2.198
    EXPECT_NEAR(batch.exact.iron_to_hexacyanoferrate.value(), 2.2108, 0.0002);
    EXPECT_NEAR(batch.rounded.iron_to_hexacyanoferrate.value(), 2.198, 0.0005);
    EXPECT_TRUE(batch.warnings.isEmpty()) << batch.warnings.join(u'\n').toStdString();
}

TEST(Scale, ACoarseBalanceIsSaid)
{
    Order coarse = lesson;
    coarse.balance_g = 0.1;
    coarse.sheets = 4; // 2.735 mL: 0.3419 g and 0.13675 g; rounded 0.3 and 0.1
    const auto batch = scaled("traditional", coarse);
    EXPECT_NEAR(amount(batch, "K3[Fe(CN)6]").rounded_g, 0.1, 1e-9);
    EXPECT_NEAR(batch.rounded.iron_to_hexacyanoferrate.value(), 2.2108 * (0.3 / 0.3419) / (0.1 / 0.13675), 0.002);
    EXPECT_EQ(batch.warnings.size(), 2);
    coarse.sheets = 1; // 0.0342 g of hexacyanoferrate: nothing on that balance
    EXPECT_THAT(scaled("traditional", coarse).warnings.join(u'\n').toStdString(), HasSubstr("less than the balance"));
}

TEST(Scale, SwapsKeepTheAmountAndSayWhatToMind)
{
    const auto plain = scaled("iron_chloride", lesson);
    const Swaps swaps { { QStringLiteral("C6H8O7"), QStringLiteral("C6H8O7.H2O") },
        { QStringLiteral("FeCl3.6H2O"), QStringLiteral("FeCl3") },
        { QStringLiteral("NH4HCO3.NH2COONH4"), QStringLiteral("(NH4)2CO3") } };
    const auto other = scaled("iron_chloride", lesson, swaps);
    EXPECT_NEAR(amount(other, "C6H8O7.H2O").exact_g / amount(plain, "C6H8O7").exact_g, 210.14 / 192.12, 1e-4);
    EXPECT_NEAR(amount(other, "FeCl3").exact_g / amount(plain, "FeCl3.6H2O").exact_g, 162.20 / 270.29, 1e-4);
    EXPECT_NEAR(amount(other, "(NH4)2CO3").exact_g / amount(plain, "NH4HCO3.NH2COONH4").exact_g,
        (96.09 / 2) / (157.13 / 3), 1e-4);
    EXPECT_NEAR(other.exact.iron_mol_l, plain.exact.iron_mol_l, 1e-9);
    EXPECT_NEAR(other.exact.citrate_to_iron.value(), plain.exact.citrate_to_iron.value(), 1e-9);
    ASSERT_EQ(other.cautions.size(), 3);
    const auto cautions = other.cautions.join(u'\n').toStdString();
    EXPECT_THAT(cautions, HasSubstr("becomes hot")); // the anhydrous chloride
    EXPECT_THAT(cautions, HasSubstr("0.75 times the carbon dioxide")); // 1/2 against 2/3
    EXPECT_EQ(amount(other, "FeCl3").swapped_from, QStringLiteral("FeCl3.6H2O"));
}

TEST(Scale, RefusesWhatCannotBe)
{
    const auto refused = [](Order order, const Swaps& swaps = {}) {
        const auto made = scale(recipe("iron_chloride"), order, swaps);
        return made ? std::string() : made.error().sentence().toStdString();
    };
    Order order = lesson;
    order.sheets = 0;
    EXPECT_THAT(refused(order), HasSubstr("sheets"));
    order = lesson;
    order.width_mm = -1;
    EXPECT_THAT(refused(order), HasSubstr("Width"));
    order = lesson;
    order.coat_ml_m2 = 0;
    EXPECT_THAT(refused(order), HasSubstr("coat"));
    order = lesson;
    order.balance_g = std::nan("");
    EXPECT_THAT(refused(order), HasSubstr("balance"));
    EXPECT_THAT(
        refused(lesson, { { QStringLiteral("C6H8O7"), QStringLiteral("FeCl3") } }), HasSubstr("cannot stand for"));
    EXPECT_THAT(refused(lesson, { { QStringLiteral("H2O2"), QStringLiteral("C6H8O7") } }), HasSubstr("no part"));
}

TEST(Scale, LeavesOutWhatDoesNotBelongInASchool)
{
    const auto batch = scaled("oxalate", lesson);
    EXPECT_EQ(batch.amounts.size(), 2U);
    EXPECT_THAT(batch.cautions.join(u'\n').toStdString(), HasSubstr("ammonium dichromate is left out"));
}

// Literature of coats: 15 mL/m2 brushed; below 10 starved, above 50 puddled. At 15 mL/m2 the traditional mix lays down
// 0.3358 x 15 = 5.0 mmol/m2 iron and 0.1519 x 15 = 2.3 mmol/m2 hexacyanoferrate.
TEST(Scale, AmountsPerAreaAndTheCoat)
{
    Order order = lesson;
    order.coat_ml_m2 = 15;
    order.balance_g = 0.0001;
    const auto batch = scaled("traditional", order);
    EXPECT_NEAR(batch.iron_mmol_m2, 5.0, 0.05);
    EXPECT_NEAR(batch.hexacyanoferrate_mmol_m2, 2.3, 0.05);
    EXPECT_TRUE(coatWarning(15).isEmpty());
    EXPECT_THAT(coatWarning(9).toStdString(), HasSubstr("starved"));
    EXPECT_THAT(coatWarning(77.5).toStdString(), HasSubstr("puddles"));
}

TEST(Recipes, SayWhatIsWrongInAFile)
{
    const auto refused = [](const char* json) {
        const auto made = readRecipe(json, QStringLiteral("own.json"));
        return made ? std::string() : made.error().sentence().toStdString();
    };
    EXPECT_THAT(refused("{"), HasSubstr("own.json: This is no JSON"));
    EXPECT_THAT(refused("{}"), HasSubstr("Key, name or source"));
    EXPECT_THAT(refused(R"({"key":"a","name":"A","source":"s"})"), HasSubstr("volume"));
    EXPECT_THAT(refused(R"({"key":"a","name":"A","source":"s","volume_ml":100})"), HasSubstr("components"));
    EXPECT_THAT(refused(R"({"key":"a","name":"A","source":"s","volume_ml":100,"components":[{"substance":"gold"}]})"),
        HasSubstr("gold"));
    EXPECT_THAT(refused(R"({"key":"a","name":"A","source":"s","volume_ml":100,"solutions":[{"name":"A"}],
        "components":[{"substance":"FeCl3","solution":"B","grams":1}]})"),
        HasSubstr("no solution"));
    EXPECT_THAT(refused(R"({"key":"a","name":"A","source":"s","volume_ml":100,"solutions":[{"name":"A"}],
        "components":[{"substance":"FeCl3","solution":"A"}]})"),
        HasSubstr("amount of FeCl3 is missing"));
}

} // namespace WASHFAST_FILE
