// Covers as they are written, spectra as files, and what must hold of every stack.
#include "core/light/covers.h"
#include "core/light/materials.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::light;

namespace {

Layer layerOf(const char* text)
{
    const auto read = readLayer(QString::fromUtf8(text));
    EXPECT_TRUE(read) << text;
    return read ? *read : Layer {};
}

QString complaintOf(const QByteArray& table)
{
    const auto read = readSpectrum(table, QLatin1String("transmittance"), 0, 1);
    EXPECT_FALSE(read) << table.constData();
    return read ? QString() : read.error().says;
}

} // namespace

TEST(Layers, AreReadAsTheyAreWritten)
{
    EXPECT_EQ(layerOf("glass:4mm").thickness_mm, 4);
    EXPECT_EQ(layerOf("low-iron-glass:6 mm").material, Material::LowIronGlass);
    EXPECT_EQ(layerOf("laminated-glass:6.4mm").thickness_mm, 6.4);
    EXPECT_EQ(layerOf("acetate:0.115").material, Material::Acetate);
    EXPECT_FALSE(layerOf("polyester").thickness_mm);
    EXPECT_TRUE(layerOf("polyester").assumed());
    EXPECT_FALSE(layerOf("polyester:0.1mm").assumed());
    for (const char* wrong : { "", "wood:4mm", "glass:", "glass:thick", "glass:-1mm", "glass:0mm", "glass:4km",
             "file:", "file:/nowhere/at/all.csv" }) {
        const auto read = readLayer(QString::fromUtf8(wrong));
        ASSERT_FALSE(read) << wrong;
        EXPECT_FALSE(read.error().says.isEmpty()) << wrong;
    }
    for (const auto material : { Material::Glass, Material::LowIronGlass, Material::LaminatedGlass, Material::Acrylic,
             Material::Acetate, Material::Polyester })
        EXPECT_EQ(materialFromKey(materialKey(material)), material);
}

TEST(Layers, WrongSpectraAreToldWithTheirLine)
{
    EXPECT_TRUE(complaintOf("nm,t\n300,1\n").contains(QStringLiteral("wavelength_nm")));
    EXPECT_TRUE(complaintOf("wavelength_nm,transmittance\n300,0.5\n310,x\n").contains(QStringLiteral("3")));
    EXPECT_TRUE(complaintOf("wavelength_nm,transmittance\n310,0.5\n300,0.5\n").contains(QStringLiteral("rise")));
    EXPECT_TRUE(complaintOf("wavelength_nm,transmittance\n300,0.5\n310,88\n").contains(QStringLiteral("88")));
    EXPECT_FALSE(complaintOf("").isEmpty());
    EXPECT_FALSE(complaintOf("wavelength_nm,transmittance\n300,nan\n310,0.4\n").isEmpty());
    const auto semicolons = readSpectrum(
        "# a pane\nwavelength_nm;transmittance\n300;0,5\n400;0,7\n", QLatin1String("transmittance"), 0, 1);
    ASSERT_TRUE(semicolons);
    EXPECT_DOUBLE_EQ(semicolons->at(350), 0.6);
    EXPECT_DOUBLE_EQ(semicolons->at(500), 0.7) << "the end value beyond the end";
    EXPECT_FALSE(semicolons->covers(290, 400));
}

TEST(Covers, MoreIsLess)
{
    const auto sky = clearSpectrum(45, 1, {}, 1013.25);
    for (const auto material : { Material::Glass, Material::LowIronGlass, Material::LaminatedGlass, Material::Acrylic,
             Material::Acetate, Material::Polyester }) {
        double before = 1;
        for (const double times : { 0.5, 1.0, 2.0, 4.0 }) {
            Layer layer;
            layer.material = material;
            layer.thickness_mm = usualThickness_mm(material) * times;
            const CoverStack one({ layer });
            const CoverStack two({ layer, layer });
            const double passed = one.directShare(sky.direct_normal, 1, uvaWeights);
            EXPECT_GT(passed, 0);
            EXPECT_LT(passed, before) << qPrintable(materialKey(material));
            EXPECT_LT(two.directShare(sky.direct_normal, 1, uvaWeights), passed);
            EXPECT_LT(one.diffuseShare(sky.diffuse, uvaWeights), one.directShare(sky.diffuse, 1, uvaWeights))
                << "aslant less passes";
            before = passed;
            const auto range = one.interval();
            EXPECT_LT(range.low, 1);
            EXPECT_GT(range.high, 1);
        }
    }
    EXPECT_DOUBLE_EQ(CoverStack().directShare(sky.direct_normal, 0.2, uvaWeights), 1);
    EXPECT_DOUBLE_EQ(CoverStack().diffuseShare(sky.diffuse, uvaWeights), 1);
}

TEST(Covers, FallWithTheAngleToNothing)
{
    const CoverStack pane({ layerOf("glass:4mm") });
    double before = 1;
    for (double cosine = 1; cosine > 0; cosine -= 0.05) {
        const double passed = pane.direct(cosine)[10];
        EXPECT_LE(passed, before + 1e-12) << cosine;
        EXPECT_GE(passed, 0);
        before = passed;
    }
    EXPECT_EQ(pane.direct(0)[10], 0);
}

// The integral over the hemisphere against a fine sum of rings.
TEST(Covers, DiffuseIsTheHemispheresMean)
{
    const CoverStack stack({ layerOf("glass:4mm"), layerOf("acetate:0.115mm") });
    constexpr int rings = 4000;
    Bands sum {};
    for (int i = 0; i < rings; ++i) {
        const auto passed = stack.direct(std::sqrt((i + 0.5) / rings));
        for (size_t band = 0; band < bandCount; ++band)
            sum[band] += passed[band] / rings;
    }
    for (size_t band = 0; band < bandCount; ++band)
        EXPECT_NEAR(stack.diffuse()[band], sum[band], 0.003) << wavelengths_nm[band];
}

TEST(Covers, WhatWasMeasuredPasses)
{
    const auto sky = clearSpectrum(45, 1, {}, 1013.25);
    for (const double share : { 0.0, 0.05, 0.5, 0.92, 0.99 }) {
        Layer layer;
        layer.uva_transmittance = share;
        EXPECT_NEAR(CoverStack({ layer }).directShare(sky.direct_normal, 1, uvaWeights), share, 1e-4);
        EXPECT_FALSE(layer.assumed());
    }
}

TEST(Lamps, AreShipped)
{
    for (const auto& name : lampNames()) {
        const auto lamp = lampSpectrum(name);
        ASSERT_TRUE(lamp) << qPrintable(name);
        EXPECT_GT(integral(lamp->averagedOnBands(), trapezoid(300, 500)), 1) << qPrintable(name);
    }
    EXPECT_FALSE(lampSpectrum(QStringLiteral("candle")));
}

TEST(SpectrumOfPairs, ReadsPairsAndRefusesTheRest)
{
    const auto pairs = [](const char* text) { return spectrumOfPairs(QString::fromUtf8(text), 0, 1); };
    const auto read = pairs("  315:0.2 360:0.70;400:0.9\n");
    ASSERT_TRUE(read);
    EXPECT_EQ(read->nm, (std::vector<double> { 315, 360, 400 }));
    EXPECT_DOUBLE_EQ(read->at(337.5), 0.45);
    EXPECT_TRUE(read->covers(315, 400));
    struct Bad {
        const char* text;
        const char* says;
    };
    const Bad bad[] = { { "", "fewer than two" }, { "340:0.7", "fewer than two" }, { "340:0.7 350", "350" },
        { "340:0.7 350:x", "350:x" }, { "340:0.7 330:0.6", "have to rise" }, { "340:0.7 350:1.2", "between 0 and 1" },
        { "340:0.7:1 350:0.2", "340:0.7:1" }, { "nan:0.1 340:0.2", "nan" }, { "-3:0.1 340:0.2", "-3" } };
    for (const auto& one : bad) {
        const auto refused = pairs(one.text);
        ASSERT_FALSE(refused) << one.text;
        EXPECT_TRUE(refused.error().says.contains(QString::fromUtf8(one.says))) << qPrintable(refused.error().says);
    }
}

} // namespace WASHFAST_FILE
