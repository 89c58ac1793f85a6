// Signs in rendered sheets: stripes where they were put, none in plain ones, and the other signs.
#include "core/density/signs.h"
#include "core/density/wedge.h"
#include "tests/support/rendered_photo.h"

#include <gmock/gmock.h>
#include <numbers>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using namespace washfast::test;

namespace {

constexpr double sheetWidth = 148, sheetHeight = 105; // mm

/// A blue sheet with its noise and its lighting.
Scene sheetScene(unsigned seed)
{
    Scene scene;
    scene.width = 640;
    scene.height = 480;
    scene.corners = { Point { 40 + double(seed % 7), 30 }, { 600, 36 }, { 590, 446 }, { 44, 440 } };
    scene.patches = { { "print", 0, 0, 1, 1, { 0.9, 0.7, 0.4 } } };
    scene.gradient = 0.15;
    scene.noise = 2.0;
    return scene;
}

SheetPicture straightened(const Scene& scene, unsigned seed)
{
    const auto photo = readPhoto(encode(render(scene, seed), "jpeg", 92), QStringLiteral("sheet"));
    if (!photo)
        throw std::runtime_error(photo.error().sentence().toStdString());
    return straighten(*photo, *Perspective::ontoCorners(scene.corners), sheetWidth, sheetHeight, PictureChannel::Red);
}

} // namespace

// Stripes of 3 mm and 0.05 from crest to trough, in 40 sheets at changing directions.
TEST(Signs, StripesOfThreeMillimetresAreFound)
{
    int found = 0, right = 0;
    for (unsigned seed = 0; seed < 40; ++seed) {
        auto scene = sheetScene(seed);
        const double direction = seed * 4.5; // degrees, along the stripes
        const double radians = direction * std::numbers::pi / 180;
        scene.extra = [=](double u, double v) {
            const double across = -std::sin(radians) * u * sheetWidth + std::cos(radians) * v * sheetHeight;
            return 0.025 * std::sin(2 * std::numbers::pi * across / 3.0);
        };
        const auto sign = findStripes(straightened(scene, seed));
        if (!sign)
            continue;
        ++found;
        const double off = std::abs(std::remainder(*sign->direction_deg - direction, 180));
        right += std::abs(*sign->spacing_mm - 3.0) < 0.2 && off <= 8;
        EXPECT_FALSE(sign->picture.isNull());
    }
    EXPECT_GE(found, 38) << "of 40";
    EXPECT_GE(right, 36) << "of 40";
}

TEST(Signs, NoStripesInAHundredPlainSheets)
{
    int found = 0;
    for (unsigned seed = 0; seed < 100; ++seed)
        found += findStripes(straightened(sheetScene(seed), 1000 + seed)).has_value();
    EXPECT_EQ(found, 0);
}

TEST(Signs, MottleIsFoundAndPlainSheetsHaveNone)
{
    auto scene = sheetScene(1);
    EXPECT_FALSE(findMottle(straightened(scene, 1)));
    scene.extra = [](double u, double v) { // blotches of some millimetres in both directions
        return 0.06 * std::sin(u * 160 + 3 * std::sin(v * 50)) * std::sin(v * 120 + 2 * std::sin(u * 70));
    };
    const auto sign = findMottle(straightened(scene, 1));
    ASSERT_TRUE(sign);
    EXPECT_GT(sign->strength, 0.02);
    EXPECT_LT(sign->strength, 0.08);
}

TEST(Signs, ALighterCentreIsFound)
{
    auto scene = sheetScene(2);
    EXPECT_FALSE(findLighterCentre(straightened(scene, 2)));
    scene.extra
        = [](double u, double v) { return -0.25 * std::exp(-((u - 0.5) * (u - 0.5) + (v - 0.5) * (v - 0.5)) / 0.05); };
    const auto sign = findLighterCentre(straightened(scene, 2));
    ASSERT_TRUE(sign);
    EXPECT_NEAR(sign->strength, 0.17, 0.08);
    // A sheet that only gets darker to one side has no lighter centre.
    scene.extra = [](double u, double) { return 0.5 * u; };
    EXPECT_FALSE(findLighterCentre(straightened(scene, 2)));
}

TEST(Signs, LossIsFoundThoughTheSecondPhotoIsShifted)
{
    auto before = sheetScene(3);
    const auto drawing
        = [](double u, double v) { return std::fmod(u * 7, 1.0) < 0.5 && std::fmod(v * 5, 1.0) < 0.6 ? -0.4 : 0.0; };
    before.extra = drawing;
    auto after = before;
    after.extra = [&](double u, double v) { return drawing(u - 0.012, v + 0.008) - 0.15; };
    const auto sign = findLoss(straightened(before, 3), straightened(after, 4));
    ASSERT_TRUE(sign);
    EXPECT_NEAR(sign->strength, 0.15, 0.02);
    EXPECT_FALSE(findLoss(straightened(before, 3), straightened(before, 4)));
}

TEST(Signs, ABleedingEdgeIsMeasured)
{
    for (const double width : { 0.2, 4.0 }) {
        SheetPicture across;
        across.width = 200;
        across.height = 20;
        across.mm_per_pixel = 0.1;
        for (int y = 0; y < 20; ++y)
            for (int x = 0; x < 200; ++x)
                across.values.push_back(0.1 + std::clamp((x * 0.1 - 10) / width + 0.5, 0.0, 1.0));
        const auto sign = findBleedingEdge(across);
        EXPECT_EQ(sign.has_value(), width > 1);
        if (sign) {
            EXPECT_NEAR(sign->strength, 0.8 * width, 0.2); // 10 to 90 % of a straight ramp
        }
    }
}

TEST(Signs, FogAndStainAreDifferencesFromThePaper)
{
    RegionReading paper, covered;
    paper.pixels = covered.pixels = 5000;
    paper.visual = { 0.05, 0.01, 0.01, false };
    covered.visual = { 0.06, 0.01, 0.01, false };
    paper.lab = Lab { 95, 0, 2 };
    covered.lab = Lab { 94, 0, 3 };
    EXPECT_FALSE(findFog(covered, paper));
    EXPECT_FALSE(findStain(covered, paper));
    covered.visual.density = 0.15;
    covered.lab->b = 9;
    EXPECT_NEAR(findFog(covered, paper)->strength, 0.10, 1e-12);
    EXPECT_NEAR(findStain(covered, paper)->strength, 7, 1e-12);
    covered.visual.density.reset();
    EXPECT_FALSE(findFog(covered, paper)); // not measured is not zero
}

TEST(Wedge, StepsAreFoundFromTheTwoEnds)
{
    for (const int steps : { 6, 10, 21 }) {
        Scene scene;
        scene.width = 1000;
        scene.height = 300;
        scene.corners = { Point { 50, 60 }, { 950, 90 }, { 946, 210 }, { 46, 180 } };
        scene.noise = 1.5;
        for (int i = 0; i < steps; ++i) {
            const double density = 0.1 + 1.4 * i / (steps - 1);
            scene.patches.push_back({ "", double(i) / steps, 0, 1.0 / steps, 1, { density, density, density } });
        }
        const auto photo = readPhoto(encode(render(scene, 1), "jpeg", 92), QStringLiteral("wedge"));
        ASSERT_TRUE(photo);
        const WedgeEnds ends { { 48, 120 }, { 948, 150 }, 120, 0 };
        EXPECT_EQ(countSteps(*photo, ends).value_or(0), steps);
        const auto regions = wedgeRegions(*photo, ends);
        ASSERT_TRUE(regions);
        ASSERT_EQ(int(regions->size()), steps);
        double before = -9;
        for (const auto& region : *regions) {
            const double density = -std::log10(sampleRegion(*photo, region.corners).light[1]);
            EXPECT_GT(density, before + 0.6 * 1.4 / (steps - 1));
            before = density;
        }
    }
}

TEST(Wedge, APlainSheetHasNoSteps)
{
    auto scene = sheetScene(5);
    const auto photo = readPhoto(encode(render(scene, 5), "png"), QStringLiteral("plain"));
    ASSERT_TRUE(photo);
    const WedgeEnds ends { { 80, 240 }, { 560, 240 }, 100, 0 };
    EXPECT_FALSE(countSteps(*photo, ends));
    EXPECT_FALSE(wedgeRegions(*photo, ends));
    EXPECT_TRUE(wedgeRegions(*photo, { ends.start, ends.end, 100, 8 }));
}

} // namespace WASHFAST_FILE
