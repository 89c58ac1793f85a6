// The bottles: which substance a name or formula means, and what is taken for granted about it.
#include "core/chemistry/molar_mass.h"
#include "core/chemistry/substance.h"

#include <gmock/gmock.h>
#include <set>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::chemistry;

namespace {

FoundSubstance find(const char* text)
{
    const auto found = findSubstance(QString::fromUtf8(text));
    if (!found)
        throw std::runtime_error(found.error().sentence().toStdString());
    return *found;
}

} // namespace

TEST(Substances, AreEachThereOnce)
{
    std::set<QString> keys;
    std::vector<Composition> compositions;
    for (const auto& substance : knownSubstances()) {
        EXPECT_TRUE(keys.insert(substance.key).second) << substance.key.toStdString();
        EXPECT_TRUE(substance.known()) << substance.key.toStdString();
        EXPECT_NE(substance.molar_mass.has_value(), substance.iron_share.has_value());
        if (substance.formula.isEmpty())
            continue;
        const auto reading = readFormula(substance.formula);
        ASSERT_TRUE(reading.ok()) << substance.formula.toStdString();
        EXPECT_EQ(reading.composition->charge, 0);
        EXPECT_THAT(compositions, testing::Not(testing::Contains(*reading.composition)))
            << substance.formula.toStdString(); // or it could not be found by its elements
        compositions.push_back(*reading.composition);
    }
}

// Nitrogen of an ammonium salt is all ammonia, carbon of a carbonate all carbon dioxide, and iron(III) chloride sets
// free as much acid as it has chlorine.
TEST(Substances, YieldsFitTheFormulas)
{
    for (const auto& substance : knownSubstances()) {
        if (substance.formula.isEmpty())
            continue;
        const auto atoms = *readFormula(substance.formula).composition;
        const auto name = substance.key.toStdString();
        if (substance.role == Role::Base) {
            EXPECT_EQ(substance.yield.ammonia, atoms.count("N")) << name;
            EXPECT_EQ(substance.yield.carbon_dioxide, atoms.count("C")) << name;
            EXPECT_EQ(substance.yield.base, atoms.count("N") + atoms.count("Na")) << name;
        }
        if (substance.role == Role::IronSource) {
            EXPECT_EQ(substance.yield.iron, atoms.count("Fe")) << name;
            EXPECT_EQ(substance.yield.chloride_acid, atoms.count("Cl")) << name;
        }
    }
}

TEST(Substances, AreFoundByFormulaAndName)
{
    const std::pair<const char*, const char*> same[] = { { "FeCl3·6H2O", "FeCl3.6H2O" }, { "K3Fe(CN)6", "K3[Fe(CN)6]" },
        { "k3[fe(cn)6]", "K3[Fe(CN)6]" }, { "Potassium Hexacyanoferrate(III)", "K3[Fe(CN)6]" },
        { "potassium ferricyanide", "K3[Fe(CN)6]" }, { "citric acid monohydrate", "C6H8O7.H2O" },
        { "H2O.C6H8O7", "C6H8O7.H2O" }, { "HOC(CH2COOH)2COOH", "C6H8O7" },
        { "ferric ammonium citrate, green", "ammonium iron(III) citrate green" },
        { "Citric acid, anhydrous", "C6H8O7" } };
    for (const auto& [text, key] : same) {
        const auto found = find(text);
        EXPECT_EQ(found.substance.key.toStdString(), key) << text;
        EXPECT_FALSE(found.form_assumed) << text;
    }
}

TEST(Substances, ANameThatLeavesTheFormOpenSaysWhatWasTaken)
{
    const std::pair<const char*, const char*> open[] = { { "citric acid", "C6H8O7" },
        { "iron(III) chloride", "FeCl3.6H2O" }, { "Ammonium carbonate", "NH4HCO3.NH2COONH4" },
        { "ferric ammonium citrate", "ammonium iron(III) citrate green" } };
    for (const auto& [text, key] : open) {
        const auto found = find(text);
        EXPECT_EQ(found.substance.key.toStdString(), key) << text;
        EXPECT_TRUE(found.form_assumed) << text;
        EXPECT_THAT(found.says.toStdString(), testing::HasSubstr(found.substance.name.toStdString()));
    }
}

TEST(Substances, AStrangerYieldsOnlyWhatItsElementsLeaveNoDoubtAbout)
{
    const auto salt = find("NaCl").substance;
    EXPECT_NEAR(salt.molar_mass.value(), 58.44, 0.005); // CRC Handbook: 58.443
    EXPECT_EQ(salt.yield.iron, 0.0);
    EXPECT_EQ(salt.yield.citrate, 0.0);
    EXPECT_EQ(salt.yield.base, 0.0);
    const auto iron = find("FeSO4.7H2O").substance;
    EXPECT_FALSE(iron.yield.iron); // iron(II) as it happens, which the formula alone does not tell
    EXPECT_FALSE(iron.yield.hexacyanoferrate);
    const auto lye = find("NaOH").substance;
    EXPECT_EQ(lye.yield.iron, 0.0);
    EXPECT_FALSE(lye.yield.base);
    EXPECT_FALSE(findSubstance(QStringLiteral("white powder")).ok());
    EXPECT_FALSE(findSubstance(QStringLiteral("  ")).ok());
}

} // namespace WASHFAST_FILE
