// An audit when something is not recorded, and what it says about mixes that are off.
#include "core/chemistry/audit.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::chemistry;

namespace {

Weighed part(const char* substance, std::optional<double> grams, std::optional<double> purity = std::nullopt)
{
    return { QString::fromUtf8(substance), grams, purity };
}

Audit of(std::vector<Weighed> parts, std::optional<double> volume_ml = 20)
{
    Batch batch;
    batch.parts = std::move(parts);
    batch.volume_ml = volume_ml;
    return audit(batch);
}

} // namespace

TEST(Audit, AnUnknownMassMakesOnlyWhatDependsOnItUnknown)
{
    const auto one = of({ part("FeCl3.6H2O", 0.6), part("C6H8O7", std::nullopt), part("K3[Fe(CN)6]", 0.3) });
    EXPECT_TRUE(one.iron_to_hexacyanoferrate);
    EXPECT_FALSE(one.citrate_to_iron);
    EXPECT_TRUE(one.has(FindingKind::Unknown));
    const auto other = of({ part("FeCl3.6H2O", std::nullopt), part("K3[Fe(CN)6]", 0.3) });
    EXPECT_FALSE(other.iron_mol_l);
    EXPECT_FALSE(other.iron_to_hexacyanoferrate);
    EXPECT_FALSE(other.carbon_dioxide_mmol);
    EXPECT_TRUE(other.hexacyanoferrate_mol_l);
}

TEST(Audit, AnUnknownSubstanceMakesEveryRatioUnknown)
{
    const auto one = of({ part("FeCl3.6H2O", 0.6), part("K3[Fe(CN)6]", 0.3), part("white powder", 0.1) });
    EXPECT_FALSE(one.iron_to_hexacyanoferrate);
    EXPECT_FALSE(one.citrate_to_iron);
    EXPECT_TRUE(one.has(FindingKind::Unknown));
    const auto salt = of({ part("FeCl3.6H2O", 0.6), part("K3[Fe(CN)6]", 0.3), part("NaCl", 0.1) });
    EXPECT_TRUE(salt.iron_to_hexacyanoferrate);
    EXPECT_FALSE(of({}).iron_mmol);
}

TEST(Audit, WithoutAVolumeTheRatiosStay)
{
    const auto one = of({ part("FeCl3.6H2O", 0.6), part("K3[Fe(CN)6]", 0.3) }, std::nullopt);
    EXPECT_FALSE(one.iron_mol_l);
    EXPECT_TRUE(one.iron_to_hexacyanoferrate);
}

TEST(Audit, PurityCounts)
{
    const auto pure = of({ part("FeCl3.6H2O", 0.6) }), half = of({ part("FeCl3.6H2O", 0.6, 50.0) });
    EXPECT_NEAR(half.iron_mmol.value(), pure.iron_mmol.value() / 2, 1e-12);
}

TEST(Audit, SaysWhatIsOff)
{
    EXPECT_TRUE(of({ part("FeCl3.6H2O", 2.0), part("K3[Fe(CN)6]", 0.5) }).has(FindingKind::IronExcess));
    EXPECT_TRUE(of({ part("FeCl3.6H2O", 2.0), part("C6H8O7", 0.5) }).has(FindingKind::CitrateShort));
    EXPECT_TRUE(of({ part("FeCl3.6H2O", 1.0), part("C6H8O7", 2.0) }).has(FindingKind::CitrateExcess));
    EXPECT_TRUE(of({ part("FeCl3.6H2O", 1.0) }).has(FindingKind::AcidLeft));
    EXPECT_TRUE(of({ part("FeCl3.6H2O", 1.0), part("(NH4)2CO3", 2.0) }).has(FindingKind::BaseExcess));
    EXPECT_TRUE(of({ part("K4[Fe(CN)6].3H2O", 1.0) }).has(FindingKind::WrongSubstance));
    EXPECT_TRUE(of({ part("citric acid", 1.0) }).has(FindingKind::FormAssumed));
    EXPECT_FALSE(of({ part("ammonium iron(III) citrate green", 2.5) }).has(FindingKind::AcidLeft));
}

} // namespace WASHFAST_FILE
