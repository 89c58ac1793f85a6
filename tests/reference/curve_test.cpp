// The characteristic curve against worked values: the points of ISO 6846:1992 by analogy, evaluated by hand from their
// definitions and from the logistic; and the identity of logistic and Hill.
#include "core/density/characteristic.h"
#include "core/density/response.h"
#include "core/density/tone_table.h"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

namespace WASHFAST_FILE {

using namespace washfast::density;

namespace {

/// d_min 0.06, d_max 1.36, n = 2.
Logistic worked()
{
    return fromHill({ 0.06, 1.36, 1.0, 2.0 });
}

} // namespace

TEST(CurveReference, PointsOfTheWorkedCurve)
{
    const auto curve = worked();
    EXPECT_NEAR(curve.slope, 4.6052, 5e-5); // k = n ln 10
    EXPECT_NEAR(*curve.toe(), -0.7492, 5e-5);
    EXPECT_NEAR(*curve.shoulder(), 0.4771, 5e-5);
    EXPECT_NEAR(*curve.shoulder() - *curve.toe(), 1.2263, 5e-5);
    EXPECT_NEAR(curve.maxGradient(), 1.4967, 5e-5);
    constexpr double at[] { -0.5, 0, 0.3, 0.5, 1.0 }, density[] { 0.1782, 0.7100, 1.0990, 1.2418, 1.3471 };
    for (int i = 0; i < 5; ++i)
        EXPECT_NEAR(curve.at(at[i]), density[i], 5.1e-5);
    EXPECT_NEAR(*curve.where(0.66), -0.0335, 5e-5); // net density 0.60
}

TEST(CurveReference, AFitOfTheWorkedCurveGivesItsPoints)
{
    CurveRequest request;
    for (int i = 0; i <= 20; ++i) {
        const double x = -1.5 + 0.15 * i;
        request.points.push_back({ x, worked().at(x), 1 });
    }
    request.targets = { 0.66 };
    const auto fit = fitCurve(request);
    ASSERT_TRUE(fit);
    ASSERT_EQ(fit->model, CurveModel::Logistic);
    EXPECT_NEAR(fit->curve.d_min, 0.06, 1e-9);
    EXPECT_NEAR(fit->curve.d_max, 1.36, 1e-9);
    EXPECT_NEAR(fit->curve.slope, 2 * std::numbers::ln10, 1e-7);
    EXPECT_NEAR(*fit->range(), 1.2263, 5e-5);
    EXPECT_NEAR(*fit->contrast(), 0.9215, 5e-5); // mean gradient between the two points
    EXPECT_NEAR(*fit->targets[0].log_h, -0.0335, 5e-5);
}

TEST(CurveReference, LogisticIsHill)
{
    const Hill hill { 0.08, 1.21, 0.37, 1.7 };
    const auto logistic = fromHill(hill);
    for (double x = -3; x <= 3; x += 0.01)
        EXPECT_NEAR(logistic.at(x), hill.at(std::pow(10, x)), 1e-12);
    const auto back = toHill(logistic);
    EXPECT_NEAR(back.h50, hill.h50, 1e-12);
    EXPECT_NEAR(back.n, hill.n, 1e-12);
}

// The inverse of the same logistic, x = midpoint + ln(q / (1 - q)) / k with q the share of the range, worked by hand
// for the quarters: ln 3 / 4.6052 = 0.2386 to each side of the middle, whatever the range. A film whose ultraviolet
// density is its value over 100 then needs, for each tone, the value 100 (exposure - x).
TEST(CurveReference, TheToneTableIsTheInverseOfTheCurve)
{
    CurveRequest request;
    for (int i = 0; i <= 40; ++i) {
        const double x = -2 + 0.1 * i;
        request.points.push_back({ x, worked().at(x), 1 });
    }
    const auto fit = fitCurve(request);
    ASSERT_TRUE(fit);
    // Film from nothing to 0.8, under an exposure that puts its ends at plus and minus 0.4 around the middle.
    std::vector<FilmStep> film;
    for (int value = 0; value <= 80; value += 5)
        film.push_back({ double(value), value / 100.0 });
    const auto table = toneTable(*fit, film, 0.4, 21);
    ASSERT_TRUE(table);
    const double light = worked().at(-0.4), dark = worked().at(0.4);
    for (const auto& row : table->rows) {
        const double density = light + (dark - light) * row.tone_percent / 100;
        const double q = (density - 0.06) / 1.30;
        const double x = std::log(q / (1 - q)) / (2 * std::numbers::ln10);
        EXPECT_NEAR(row.print_density, density, 1e-6);
        EXPECT_NEAR(row.log_h, x, 1e-6);
        EXPECT_NEAR(row.film_value, 100 * (0.4 - x), 1e-3);
    }
    EXPECT_NEAR(*worked().where(0.06 + 0.75 * 1.30), 0.2386, 5e-5);
    EXPECT_NEAR(*worked().where(0.06 + 0.25 * 1.30), -0.2386, 5e-5);
    EXPECT_NEAR(table->rows[10].film_value, 40, 1e-3) << "half the tone lies in the middle of this film";
}

// Two references take the flare off: white L 0.90 (R 0.88), grey L 0.20 (R 0.18), sample L 0.0452: R 0.0252,
// density 1.60 where the white alone would say 1.345.
TEST(CurveReference, TwoReferencesTakeTheFlareOff)
{
    const double light[] { 0.90, 0.20 }, density[] { -std::log10(0.88), -std::log10(0.18) };
    const auto response = fitChannel(light, density, 2);
    ASSERT_TRUE(response);
    EXPECT_NEAR(response->a, -0.020, 5e-5);
    EXPECT_NEAR(response->slope(0.5), 1.000, 5e-5);
    EXPECT_NEAR(response->reflectance(0.0452), 0.0252, 5e-5);
    EXPECT_NEAR(-std::log10(response->reflectance(0.0452)), 1.60, 5e-3);
    EXPECT_NEAR(-std::log10(0.0452), 1.345, 5e-4);
}

} // namespace WASHFAST_FILE
