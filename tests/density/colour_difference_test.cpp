// Two rendered prints compared. What the difference must be follows from the densities that were rendered, through
// sRGB (IEC 61966-2-1), Lab (CIE 15) and CIEDE2000, which tests/reference holds against Sharma, Wu, Dalal, Color Res.
// Appl. 30 (2005) 21, table 1.
#include "core/density/colour_difference.h"
#include "tests/support/rendered_photo.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using namespace washfast::test;

namespace {

constexpr ChannelDensities deep { 1.1, 0.85, 0.45 }, mid { 0.5, 0.4, 0.25 }, paler { 0.8, 0.6, 0.35 };

Scene printScene()
{
    Scene scene;
    scene.width = 640;
    scene.height = 480;
    scene.corners = { Point { 40, 30 }, { 600, 36 }, { 590, 446 }, { 44, 440 } };
    scene.patches = { { "white", 0.04, 0.04, 0.14, 0.2, { 0.05, 0.05, 0.05 } },
        { "grey", 0.22, 0.04, 0.14, 0.2, { 0.75, 0.75, 0.75 } }, { "deep", 0.1, 0.35, 0.3, 0.5, deep },
        { "mid", 0.55, 0.3, 0.3, 0.3, mid }, { "low", 0.6, 0.7, 0.2, 0.2, { 0.3, 0.25, 0.15 } } };
    scene.noise = 1.0;
    return scene;
}

Corners there(const Scene& scene, const RenderedPatch& patch)
{
    return *Perspective::ontoCorners(scene.corners)
                ->toPhoto(rectangle(
                    patch.u + 0.2 * patch.width, patch.v + 0.2 * patch.height, 0.6 * patch.width, 0.6 * patch.height));
}

ComparedSheet photographed(const Scene& scene, unsigned seed, bool cards)
{
    auto photo = readPhoto(encode(render(scene, seed), "png"), QStringLiteral("print"));
    if (!photo)
        throw std::runtime_error(photo.error().sentence().toStdString());
    ComparedSheet sheet;
    sheet.photo = std::make_shared<const Photo>(std::move(*photo));
    sheet.corners = scene.corners;
    if (cards) {
        sheet.white = there(scene, scene.patches[0]);
        sheet.grey = there(scene, scene.patches[1]);
    }
    return sheet;
}

Lab labOf(const ChannelDensities& density)
{
    Triple linear;
    for (size_t k = 0; k < 3; ++k)
        linear[k] = std::pow(10, -density[k]);
    return xyzToLab(multiply(srgbToXyzD50(), linear), whiteD50);
}

ColourQuestion question(ComparedSheet first, ComparedSheet second)
{
    ColourQuestion out;
    out.first = std::move(first);
    out.second = std::move(second);
    out.width_mm = 148;
    out.height_mm = 105;
    return out;
}

double around(const SheetPicture& map, double u, double v)
{
    return map.part(int(u * map.width) - 5, int(v * map.height) - 5, 11, 11).mean();
}

} // namespace

TEST(ColourDifference, WithCardsTheDifferenceIsThatOfThePrints)
{
    const auto first = printScene();
    auto second = printScene();
    second.patches[2].density = paler;
    second.exposure = 0.55; // a darker photo
    second.corners = { Point { 55, 28 }, { 610, 50 }, { 588, 452 }, { 40, 436 } };
    const auto result = compareColours(question(photographed(first, 1, true), photographed(second, 2, true)));
    ASSERT_TRUE(result);
    EXPECT_EQ(result->referenced, Referenced::Cards);
    EXPECT_EQ(result->laid, LaidBy::Details);
    EXPECT_GT(*result->alike, 0.8);
    const double expected = ciede2000(labOf(deep), labOf(paler));
    EXPECT_NEAR(around(result->map, 0.25, 0.6), expected, 1.0);
    EXPECT_LT(around(result->map, 0.7, 0.45), 1.5); // what did not change
    ASSERT_TRUE(result->deepest);
    EXPECT_FALSE(result->deepest->marked);
    EXPECT_NEAR(result->deepest->difference, expected, 1.0);
    EXPECT_NEAR(result->deepest->first.l, labOf(deep).l, 1.0);
    ASSERT_TRUE(result->paper);
    EXPECT_LT(result->paper->difference, 1.5);
    EXPECT_GT(result->ninety_fifth, result->mean);
    EXPECT_GE(result->largest, result->ninety_fifth);
    EXPECT_GT(result->covered, 0.95);
}

TEST(ColourDifference, WithoutAReferenceTheLightOfThePhotosCountsAndThatIsSaid)
{
    const auto first = printScene();
    auto second = first;
    second.exposure = 0.55;
    const auto bare = compareColours(question(photographed(first, 1, false), photographed(second, 2, false)));
    ASSERT_TRUE(bare);
    EXPECT_EQ(bare->referenced, Referenced::Nothing);
    EXPECT_GT(bare->mean, 5);
    const auto cards = compareColours(question(photographed(first, 1, true), photographed(second, 2, true)));
    ASSERT_TRUE(cards);
    EXPECT_LT(cards->mean, 1.5);
    // Cards in one of them only are no common reference; nor are cards in one and paper in the other.
    auto mixed = question(photographed(first, 1, true), photographed(second, 2, false));
    EXPECT_EQ(compareColours(mixed)->referenced, Referenced::Nothing);
    mixed.second.paper = there(second, { "paper", 0.88, 0.1, 0.1, 0.6, {} });
    EXPECT_EQ(compareColours(mixed)->referenced, Referenced::Nothing);
    mixed.first.paper = mixed.second.paper;
    const auto paper = compareColours(mixed);
    EXPECT_EQ(paper->referenced, Referenced::Paper);
    EXPECT_LT(paper->mean, 1.5);
}

TEST(ColourDifference, DifferentPrintsAreLaidByACommonSpotOrByTheirCorners)
{
    const auto first = printScene();
    auto second = first;
    second.patches.erase(second.patches.begin() + 2, second.patches.end()); // another motif
    second.patches.push_back({ "deep", 0.35, 0.4, 0.3, 0.5, deep });
    auto asked = question(photographed(first, 1, true), photographed(second, 2, true));
    asked.by = LaidBy::Spot;
    auto result = compareColours(asked);
    ASSERT_FALSE(result);
    EXPECT_TRUE(result.error().sentence().contains(QStringLiteral("spot")));
    asked.first.spot = there(first, first.patches[2]);
    asked.second.spot = there(second, second.patches.back());
    result = compareColours(asked);
    ASSERT_TRUE(result);
    EXPECT_EQ(result->laid, LaidBy::Spot);
    EXPECT_LT(around(result->map, 0.25, 0.6), 1.5); // the same tone lies over itself
    EXPECT_LT(result->covered, 0.9); // shifted by a quarter of the sheet
    asked.by = LaidBy::Outline;
    result = compareColours(asked);
    ASSERT_TRUE(result);
    EXPECT_EQ(result->laid, LaidBy::Outline);
    EXPECT_FALSE(result->details_failed);
    EXPECT_GT(around(result->map, 0.2, 0.6), 10); // deep against paper
}

TEST(ColourDifference, SpotsThatAreMarkedAreTaken)
{
    const auto first = printScene();
    auto second = first;
    second.patches[3].density = paler;
    auto asked = question(photographed(first, 1, true), photographed(second, 2, true));
    asked.by = LaidBy::Outline;
    asked.first.deepest = there(first, first.patches[3]);
    asked.second.deepest = there(second, second.patches[2]);
    const auto result = compareColours(asked);
    ASSERT_TRUE(result && result->deepest);
    EXPECT_TRUE(result->deepest->marked);
    EXPECT_NEAR(result->deepest->difference, ciede2000(labOf(mid), labOf(deep)), 1.0);
}

TEST(ColourDifference, RefusesAndStops)
{
    const auto scene = printScene();
    auto asked = question(photographed(scene, 1, false), {});
    EXPECT_FALSE(compareColours(asked));
    asked.second = asked.first;
    std::swap(asked.second.corners[0], asked.second.corners[1]);
    const auto crossed = compareColours(asked);
    ASSERT_FALSE(crossed);
    EXPECT_TRUE(crossed.error().sentence().contains(QStringLiteral("second")))
        << crossed.error().sentence().toStdString();
    asked.second = asked.first;
    const std::atomic<bool> cancel = true;
    EXPECT_FALSE(compareColours(asked, { {}, &cancel }));
    const auto same = compareColours(asked);
    ASSERT_TRUE(same);
    EXPECT_LT(same->mean, 0.1);
}

// Hyndman and Fan (1996), type 7: position 1 + (n - 1) p; for 1 2 3 4 and p 0.95 that is 3.85 (by that formula).
TEST(ColourDifference, QuantilesByTheirPublishedFormula)
{
    EXPECT_DOUBLE_EQ(quantile({ 4, 2, 1, 3 }, 0.95), 3.85);
    EXPECT_DOUBLE_EQ(quantile({ 7 }, 0.95), 7);
    EXPECT_DOUBLE_EQ(quantile({ 1, 2, 3 }, 0.5), 2);
}

} // namespace WASHFAST_FILE
