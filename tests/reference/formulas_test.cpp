// The published formulas of the sensitiser, in molarities, and the worked batch with iron(III) chloride.
#include "core/chemistry/audit.h"
#include "core/chemistry/scale.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::chemistry;

namespace {

const Recipe& recipe(const char* key)
{
    const auto* found = findRecipe(QString::fromLatin1(key));
    if (!found)
        throw std::runtime_error(key);
    return *found;
}

Audit auditOf(double volume_ml, std::initializer_list<std::pair<const char*, double>> parts, double headspace_ml = 20)
{
    Batch batch;
    batch.volume_ml = volume_ml;
    batch.headspace_ml = headspace_ml;
    for (const auto& [substance, grams] : parts)
        batch.parts.push_back({ QString::fromUtf8(substance), grams, std::nullopt });
    return audit(batch);
}

} // namespace

// Ware, The new cyanotype (gives the traditional recipe): 25 g + 10 g in 200 mL, green salt with 14 to 18 % iron.
//     25 g x 0.15 / 55.845 / 0.200 L = 0.3358; 10 / 329.25 / 0.200 = 0.1519; ratio 2.21
TEST(PublishedFormula, Traditional)
{
    EXPECT_NEAR(recipe("traditional").ironMolarity(), 0.336, 0.0005);
    EXPECT_NEAR(recipe("traditional").hexacyanoferrateMolarity(), 0.152, 0.0005);
    EXPECT_NEAR(recipe("traditional").ironToHexacyanoferrate(), 2.21, 0.005);
}

// Encyclopaedia article Cyanotype: equal volumes of 20 % and 8.1 %.
//     0.5 x 200 g/L x 0.15 / 55.845 = 0.2686; 0.5 x 81 g/L / 329.25 = 0.1230; ratio 2.18
TEST(PublishedFormula, EqualVolumes)
{
    EXPECT_NEAR(recipe("equal_volumes").ironMolarity(), 0.269, 0.0005);
    EXPECT_NEAR(recipe("equal_volumes").hexacyanoferrateMolarity(), 0.123, 0.0005);
    EXPECT_NEAR(recipe("equal_volumes").ironToHexacyanoferrate(), 2.18, 0.005);
}

// Formula listing of 21 July 2009 quoting Ware: 30 g + 10 g to 100 mL.
//     300 / 428.06 = 0.7008; 100 / 329.25 = 0.3037; ratio 2.31
TEST(PublishedFormula, Oxalate)
{
    EXPECT_NEAR(recipe("oxalate").ironMolarity(), 0.701, 0.0005);
    EXPECT_NEAR(recipe("oxalate").hexacyanoferrateMolarity(), 0.304, 0.0005);
    EXPECT_NEAR(recipe("oxalate").ironToHexacyanoferrate(), 2.31, 0.005);
}

TEST(PublishedFormula, RatiosAreFromTheThree)
{
    EXPECT_NEAR(publishedRatios().low, 2.18, 0.005);
    EXPECT_NEAR(publishedRatios().high, 2.31, 0.005);
    for (const auto& one : recipes()) {
        EXPECT_FALSE(one.source.isEmpty()) << one.key.toStdString();
        EXPECT_EQ(one.published(), one.key != QLatin1String("iron_chloride")) << one.key.toStdString();
        EXPECT_EQ(one.source.contains(QLatin1String("not published")), !one.published()) << one.key.toStdString();
    }
}

// Not published, worked out by hand for 10 mL at 0.336 and 0.152 mol/L, n(Fe) = 3.36 mmol:
//     iron chloride    3.36 x 270.29          = 0.908 g
//     citric acid      1.33 x 3.36 = 4.469    x 192.12 = 0.859 g, x 210.14 = 0.939 g with its water
//     ammonia          4.64 x 3.36 = 15.59    / 2 x 96.09 = 0.749 g pure, / 3 x 157.13 = 0.817 g double salt
//     hexacyanoferrate 1.52 x 329.25          = 0.500 g
TEST(ChlorideBatch, AmountsOfTenMillilitres)
{
    const auto& target = recipe("iron_chloride");
    ASSERT_EQ(target.volume_ml, 10);
    std::map<QString, double> grams;
    for (const auto& part : target.components)
        grams[part.substance] = part.grams;
    EXPECT_NEAR(grams[QStringLiteral("FeCl3.6H2O")], 0.908, 0.0005);
    EXPECT_NEAR(grams[QStringLiteral("C6H8O7")], 0.859, 0.0005);
    EXPECT_NEAR(grams[QStringLiteral("K3[Fe(CN)6]")], 0.500, 0.0006);
    EXPECT_NEAR(grams[QStringLiteral("NH4HCO3.NH2COONH4")], 0.817, 0.0005);
    const auto other = [&](const char* from, const char* to) {
        return equivalentMass(*substanceByKey(QString::fromLatin1(from)), *substanceByKey(QString::fromLatin1(to)),
            grams[QString::fromLatin1(from)])
            .value();
    };
    EXPECT_NEAR(other("C6H8O7", "C6H8O7.H2O"), 0.939, 0.0005);
    EXPECT_NEAR(other("NH4HCO3.NH2COONH4", "(NH4)2CO3"), 0.749, 0.0005);
}

// The same batch: carbon dioxide 15.59 / 2 = 7.8 mmol from the pure salt, 15.59 x 2 / 3 = 10.4 mmol from the double
// salt; at 20 °C 24.055 L/mol: 0.19 and 0.25 L; in 20 mL of air, 8.314 x 293.15 x n / V: 9.5 and 12.7 bar.
TEST(ChlorideBatch, GasOfBothCarbonates)
{
    const auto pure = auditOf(
        10, { { "FeCl3.6H2O", 0.908 }, { "C6H8O7", 0.859 }, { "(NH4)2CO3", 0.749 }, { "K3[Fe(CN)6]", 0.500 } });
    EXPECT_NEAR(pure.carbon_dioxide_mmol.value(), 7.8, 0.05);
    EXPECT_NEAR(pure.carbon_dioxide_l.value(), 0.19, 0.005);
    EXPECT_NEAR(pure.closed_bottle_kpa.value(), 950, 5);
    EXPECT_NEAR(pure.neutralised.value(), 1.0, 0.005);
    EXPECT_NEAR(pure.base_needed_g.value(), 0.749, 0.001);
    EXPECT_TRUE(pure.has(FindingKind::Agrees));

    const auto sold = auditOf(
        10, { { "FeCl3.6H2O", 0.908 }, { "C6H8O7", 0.859 }, { "NH4HCO3.NH2COONH4", 0.817 }, { "K3[Fe(CN)6]", 0.500 } });
    EXPECT_NEAR(sold.carbon_dioxide_mmol.value(), 10.4, 0.05);
    EXPECT_NEAR(sold.carbon_dioxide_l.value(), 0.25, 0.005);
    EXPECT_NEAR(sold.closed_bottle_kpa.value(), 1270, 5);
    EXPECT_NEAR(sold.base_needed_g.value(), 0.817, 0.001);
    EXPECT_NEAR(sold.iron_mol_l.value(), 0.336, 0.0005);
    EXPECT_NEAR(sold.hexacyanoferrate_mol_l.value(), 0.152, 0.0005);
    EXPECT_NEAR(sold.citrate_to_iron.value(), 1.33, 0.005);
}

// Hydrogencarbonate-carbamate against the pure salt, from their formulas: ammonia by mass 3 x 17.031 / 157.13 = 32.5 %
// and 2 x 17.031 / 96.09 = 35.4 %; carbon dioxide for each ammonia 2/3 and 1/2.
TEST(Carbonates, AmmoniaByMassAndGas)
{
    const auto ammonia = [](const char* key) {
        const auto* salt = substanceByKey(QString::fromLatin1(key));
        return *salt->yield.ammonia * 17.031 / *salt->molar_mass;
    };
    EXPECT_NEAR(ammonia("NH4HCO3.NH2COONH4"), 0.325, 0.0005);
    EXPECT_NEAR(ammonia("(NH4)2CO3"), 0.3545, 0.0005);
    EXPECT_NEAR(auditOf(10, { { "(NH4)2CO3", 1.0 } }).carbon_dioxide_l.value(), 0.25, 0.005); // 10.4 mmol
}

// A small classroom batch (common practice, no source): 20 mL water, 0.6 g citric acid, 0.6 g iron(III) chloride
// hexahydrate, ammonium carbonate until neutral, 1 g hexacyanoferrate. By hand:
//     iron              0.6 / 270.29 = 2.220 mmol, 0.1110 mol/L
//     citric acid       0.6 / 192.12 = 3.123 mmol (anhydrous), 0.6 / 210.14 = 2.855 mmol (monohydrate)
//     hexacyanoferrate  1.0 / 329.25 = 3.037 mmol, 0.1519 mol/L
//     iron : hexacyanoferrate = 0.731, against 2.18 to 2.31; 2.18 / 0.731 = 2.99 times the hexacyanoferrate
//     citrate : iron    = 1.407 anhydrous, 1.286 monohydrate
//     base              4.64 x 2.220 = 10.30 mmol = 10.30 / 3 x 157.13 = 0.5395 g of the double salt
//     carbon dioxide    10.30 x 2 / 3 = 6.867 mmol
TEST(ClassroomBatch, HasHexacyanoferrateInExcess)
{
    const auto dry = auditOf(20, { { "C6H8O7", 0.6 }, { "FeCl3.6H2O", 0.6 }, { "K3[Fe(CN)6]", 1.0 } });
    EXPECT_NEAR(dry.iron_mmol.value(), 2.220, 0.0005);
    EXPECT_NEAR(dry.iron_mol_l.value(), 0.1110, 0.00005);
    EXPECT_NEAR(dry.hexacyanoferrate_mol_l.value(), 0.1519, 0.00005);
    EXPECT_NEAR(dry.iron_to_hexacyanoferrate.value(), 0.731, 0.0005);
    EXPECT_NEAR(dry.citrate_to_iron.value(), 1.407, 0.0005);
    EXPECT_NEAR(dry.base_needed_mmol.value(), 10.30, 0.005);
    EXPECT_NEAR(dry.base_needed_g.value(), 0.5395, 0.0005);
    EXPECT_NEAR(dry.carbon_dioxide_mmol.value(), 6.867, 0.005);
    EXPECT_TRUE(dry.has(FindingKind::HexacyanoferrateExcess));
    EXPECT_FALSE(dry.has(FindingKind::IronExcess));
    EXPECT_TRUE(dry.has(FindingKind::Weak)); // 0.111 is less than half of 0.269
    for (const auto& finding : dry.findings)
        if (finding.kind == FindingKind::HexacyanoferrateExcess) {
            EXPECT_TRUE(finding.says.contains(QStringLiteral("2.99"))) << finding.says.toStdString();
        }

    const auto wet = auditOf(20, { { "C6H8O7.H2O", 0.6 }, { "FeCl3.6H2O", 0.6 }, { "K3[Fe(CN)6]", 1.0 } });
    EXPECT_NEAR(wet.citrate_to_iron.value(), 1.286, 0.0005);
    EXPECT_TRUE(wet.has(FindingKind::HexacyanoferrateExcess));
}

} // namespace WASHFAST_FILE
