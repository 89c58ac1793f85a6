// Atomic weights and molar masses against the published table; tests/reference/data/chem/SOURCES.md says where it comes
// from.
#include "core/chemistry/atomic_weights.h"
#include "core/chemistry/molar_mass.h"
#include "core/chemistry/substance.h"

#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::chemistry;

namespace {

struct Published {
    std::string symbol;
    double weight;
};

std::vector<Published> table()
{
    std::ifstream file(WASHFAST_REFERENCE "/chem/atomic_weights_ciaaw2021_abridged.csv");
    EXPECT_TRUE(file.is_open());
    std::vector<Published> rows;
    std::string line;
    std::getline(file, line); // headings
    while (std::getline(file, line)) {
        std::istringstream cells(line);
        std::string number, symbol, name, weight;
        std::getline(cells, number, ',');
        std::getline(cells, symbol, ',');
        std::getline(cells, name, ',');
        std::getline(cells, weight, ',');
        rows.push_back({ symbol, std::stod(weight) });
    }
    return rows;
}

double mass(const char* formula)
{
    const auto found = molarMass(QString::fromUtf8(formula));
    EXPECT_TRUE(found) << formula;
    return found ? *found : 0;
}

} // namespace

TEST(AtomicWeights, AreThoseOfTheTable)
{
    const auto rows = table();
    ASSERT_EQ(rows.size(), 83U); // all that have a weight but lead, which the copied table lacks
    for (const auto& row : rows) {
        const auto weight = atomicWeight(QString::fromStdString(row.symbol));
        ASSERT_TRUE(weight) << row.symbol;
        EXPECT_DOUBLE_EQ(*weight, row.weight) << row.symbol;
    }
}

TEST(AtomicWeights, ElementsWithoutAStandardWeightAreElementsAllTheSame)
{
    int elements = 0, weights = 0;
    for (char16_t a = u'A'; a <= u'Z'; ++a) {
        for (char16_t b = u'a' - 1; b <= u'z'; ++b) {
            const QString symbol = b < u'a' ? QString(QChar(a)) : QString(QChar(a)) + QChar(b);
            elements += isElement(symbol);
            weights += atomicWeight(symbol).has_value();
        }
    }
    EXPECT_EQ(elements, 118); // IUPAC, periodic table of the elements
    EXPECT_EQ(weights, 84);
}

// The sum worked out here, from the numbers of the table and by hand, not with the formula reader.
TEST(MolarMass, IsTheSumOfTheTable)
{
    std::map<std::string, double> w;
    for (const auto& row : table())
        w[row.symbol] = row.weight;
    EXPECT_NEAR(mass("FeCl3.6H2O"), w["Fe"] + 3 * w["Cl"] + 12 * w["H"] + 6 * w["O"], 1e-9);
    EXPECT_NEAR(mass("K3[Fe(CN)6]"), 3 * w["K"] + w["Fe"] + 6 * w["C"] + 6 * w["N"], 1e-9);
    EXPECT_NEAR(mass("(NH4)3[Fe(C2O4)3].3H2O"), 3 * w["N"] + 18 * w["H"] + w["Fe"] + 6 * w["C"] + 15 * w["O"], 1e-9);
    EXPECT_NEAR(mass("Fe4[Fe(CN)6]3"), 7 * w["Fe"] + 18 * w["C"] + 18 * w["N"], 1e-9);
    EXPECT_NEAR(mass("NH4HCO3.NH2COONH4"), 3 * w["N"] + 11 * w["H"] + 2 * w["C"] + 5 * w["O"], 1e-9);
}

// Handbook values, g/mol, to two decimals: worked out from the abridged weights of IUPAC. That of potassium
// hexacyanoferrate(III) is also printed in ICSC 1132 (IPCS, 2002): 329.25.
TEST(MolarMass, OfEverySubstanceOfTheProcess)
{
    const std::pair<const char*, double> published[] = { { "FeCl3.6H2O", 270.29 }, { "FeCl3", 162.20 },
        { "C6H8O7", 192.12 }, { "C6H8O7.H2O", 210.14 }, { "(NH4)2CO3", 96.09 }, { "NH4HCO3.NH2COONH4", 157.13 },
        { "K3[Fe(CN)6]", 329.25 }, { "(NH4)3[Fe(C2O4)3].3H2O", 428.06 }, { "NH4Cl", 53.49 }, { "H2O2", 34.01 },
        { "KFe[Fe(CN)6]", 306.90 }, { "Fe4[Fe(CN)6]3", 859.24 } };
    for (const auto& [formula, expected] : published) {
        // Half a unit of the last place, and the last place of the weights.
        EXPECT_NEAR(mass(formula), expected, 0.0101) << formula;
        const auto* known = substanceByKey(QString::fromUtf8(formula));
        ASSERT_NE(known, nullptr) << formula;
        EXPECT_DOUBLE_EQ(known->molar_mass.value_or(0), mass(formula)) << formula;
    }
}

// NIST, CODATA 2018 values: molar gas constant 8.314462618... J/(mol K), molar volume of an ideal gas at 273.15 K and
// 101.325 kPa 22.41396954... L/mol.
TEST(MolarGas, VolumeIsThatOfCodata)
{
    EXPECT_NEAR(gasConstant, 8.314462618, 1e-9);
    EXPECT_NEAR(molarGasVolume(0), 22.41396954, 1e-7);
}

} // namespace WASHFAST_FILE
