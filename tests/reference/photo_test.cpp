// Densities and linear values from real photos of a 24-patch chart. The grey row's densities are the nominal ones
// printed on the chart (.05 .23 .44 .70 1.05 1.50; chart24_reference.csv); the linear values are those that the authors
// of the oblique photo read. tests/reference/data/photos/SOURCES.md says where the photos come from.
#include "core/density/measure.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <gmock/gmock.h>
#include <sstream>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using testing::HasSubstr;

namespace {

constexpr const char* greyNames[] { "white", "neutral 8", "neutral 6.5", "neutral 5", "neutral 3.5", "black" };
constexpr double greyDensities[] { 0.05, 0.23, 0.44, 0.70, 1.05, 1.50 };

Photo open(const char* name)
{
    auto photo = openPhoto(QStringLiteral(WASHFAST_REFERENCE "/photos/") + QLatin1String(name));
    if (!photo)
        throw std::runtime_error(photo.error().sentence().toStdString());
    return std::move(photo).value();
}

Photo cabinet()
{
    return open("chart24_cabinet_target.jpg");
}
Photo oblique()
{
    return open("chart24_passport_oblique_warm_512px.png");
}

/// Middles of the patches, read off the photo by eye: the grey row is the left column.
Region cabinetPatch(int row, int column)
{
    constexpr double x[] { 1060, 1191, 1322, 1451 }, y[] { 1049, 1180, 1310, 1441, 1569, 1699 };
    Region region;
    region.corners = rectangle(x[column] - 36, y[row] - 36, 72, 72);
    return region;
}

std::vector<Region> cabinetGreys()
{
    std::vector<Region> regions;
    for (int i = 0; i < 6; ++i) {
        regions.push_back(cabinetPatch(i, 0));
        regions.back().name = QLatin1String(greyNames[i]);
    }
    return regions;
}

/// The oblique chart by its four outer patch middles; each patch by its place in the grid of 6 x 4.
Region obliquePatch(int index)
{
    static const auto perspective
        = *Perspective::ontoCorners({ Point { 189, 121 }, Point { 390, 127 }, Point { 394, 202 }, Point { 177, 192 } });
    const double u = index % 6 / 5.0, v = index / 6 / 3.0;
    Region region;
    region.corners = *perspective.toPhoto(rectangle(u - 0.03, v - 0.05, 0.06, 0.10));
    return region;
}

std::vector<Region> obliqueGreys()
{
    std::vector<Region> regions;
    for (int i = 0; i < 6; ++i) {
        regions.push_back(obliquePatch(18 + i));
        regions.back().name = QLatin1String(greyNames[i]);
    }
    return regions;
}

void know(Region& region, double density)
{
    region.density = ChannelDensities { density, density, density };
}

/// Largest miss of the greys' visual density with these two as the references.
double worstMiss(const Photo& photo, std::vector<Region> greys, int light, int dark, int first)
{
    know(greys[size_t(light)], greyDensities[light]);
    know(greys[size_t(dark)], greyDensities[dark]);
    const auto measured = measure(photo, { {}, Flat::None, Codes::Auto, greys });
    if (!measured)
        throw std::runtime_error(measured.error().sentence().toStdString());
    double worst = 0;
    for (int i = first; i < 6; ++i)
        worst = std::max(worst, std::abs(*measured->regions[size_t(i)].visual.density - greyDensities[i]));
    return worst;
}

} // namespace

TEST(RealPhoto, CabinetGreysWithinATenthFromTwoReferences)
{
    const auto photo = cabinet();
    // The white is clipped, so the lightest that can be used is neutral 8.
    EXPECT_LT(worstMiss(photo, cabinetGreys(), 1, 5, 1), 0.10);
    EXPECT_LT(worstMiss(photo, cabinetGreys(), 2, 5, 1), 0.10);
    EXPECT_LT(worstMiss(photo, cabinetGreys(), 1, 4, 1), 0.10);
}

TEST(RealPhoto, ObliqueGreysWithinATenthFromTwoReferences)
{
    const auto photo = oblique();
    EXPECT_LT(worstMiss(photo, obliqueGreys(), 0, 5, 0), 0.10);
    EXPECT_LT(worstMiss(photo, obliqueGreys(), 0, 3, 0), 0.10);
    EXPECT_LT(worstMiss(photo, obliqueGreys(), 1, 5, 0), 0.11); // the white lies outside these two
}

TEST(RealPhoto, AClippedWhiteIsNoticed)
{
    const auto photo = cabinet();
    auto greys = cabinetGreys();
    const auto plain = measure(photo, { {}, Flat::None, Codes::Auto, greys });
    ASSERT_TRUE(plain);
    EXPECT_GT(plain->regions[0].clipped_share, 0.99);
    EXPECT_LT(plain->regions[1].clipped_share, 0.01);

    know(greys[0], greyDensities[0]);
    know(greys[5], greyDensities[5]);
    const auto refused = measure(photo, { {}, Flat::None, Codes::Auto, greys });
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().sentence().toStdString(), HasSubstr("white is clipped"));

    know(greys[2], greyDensities[2]);
    const auto without = measure(photo, { {}, Flat::None, Codes::Auto, greys });
    ASSERT_TRUE(without);
    EXPECT_FALSE(without->references[0].used);
    EXPECT_THAT(without->warnings.join(QLatin1Char('\n')).toStdString(), HasSubstr("left out"));
}

// Order of the coloured patches by luminance: Y under D50 of the maker's 2005 values in chart24_reference.csv. The
// white is clipped here and left out. Pairs closer than 0.10 in density may change places.
TEST(RealPhoto, ColouredPatchesComeOutInOrder)
{
    std::ifstream file(WASHFAST_REFERENCE "/colour/chart24_reference.csv");
    std::string line;
    std::getline(file, line);
    std::vector<std::string> heads;
    std::istringstream head(line);
    for (std::string cell; std::getline(head, cell, ',');)
        heads.push_back(cell);
    const auto at = std::size_t(std::find(heads.begin(), heads.end(), "Y_2005_D50") - heads.begin());
    std::vector<double> published;
    while (std::getline(file, line)) {
        std::istringstream cells(line);
        std::string cell;
        for (std::size_t i = 0; i <= at; ++i)
            std::getline(cells, cell, ',');
        published.push_back(-std::log10(std::stod(cell)));
    }
    ASSERT_EQ(published.size(), 24u);

    auto regions = cabinetGreys();
    for (size_t i = 0; i < 6; ++i)
        know(regions[i], greyDensities[i]);
    // The chart is turned by 90 degrees: its first row is the right-hand column, read downwards.
    for (int patch = 0; patch < 18; ++patch) {
        regions.push_back(cabinetPatch(patch % 6, 3 - patch / 6));
        regions.back().name = QString::number(patch + 1);
    }
    const auto measured = measure(cabinet(), { {}, Flat::None, Codes::Auto, regions });
    ASSERT_TRUE(measured);
    int pairs = 0;
    for (int a = 0; a < 18; ++a)
        for (int b = 0; b < 18; ++b) {
            if (published[size_t(a)] + 0.10 > published[size_t(b)])
                continue;
            ++pairs;
            EXPECT_LT(
                *measured->regions[size_t(6 + a)].visual.density, *measured->regions[size_t(6 + b)].visual.density)
                << "patches " << a + 1 << " and " << b + 1;
        }
    EXPECT_GT(pairs, 100);
}

TEST(RealPhoto, LinearValuesOfTheObliquePhotoAreMet)
{
    std::ifstream file(WASHFAST_REFERENCE "/photos/chart24_passport_oblique_warm_linear_rgb.csv");
    std::string line;
    std::getline(file, line);
    const auto photo = oblique();
    int compared = 0, near = 0;
    for (int index = 0; std::getline(file, line); ++index) {
        std::istringstream cells(line);
        std::string cell;
        std::getline(cells, cell, ',');
        const auto sample = sampleRegion(photo, obliquePatch(index).corners);
        ASSERT_GT(sample.pixels, 60);
        for (size_t k = 0; k < 3; ++k, ++compared) {
            std::getline(cells, cell, ',');
            const double theirs = 255 * linearToSrgb(std::stod(cell)), ours = 255 * linearToSrgb(sample.light[k]);
            // Grey row: within 2 counts, as stated with the file. The coloured ones are where their own region lay.
            EXPECT_NEAR(ours, theirs, index >= 18 ? 2.0 : 4.0) << "patch " << index << " channel " << k;
            near += std::abs(ours - theirs) <= 2.0;
        }
    }
    EXPECT_EQ(compared, 72);
    EXPECT_GE(near, 65);
}

} // namespace WASHFAST_FILE
