// The characteristic curve against worked values: the points of ISO 6846:1992 by analogy, evaluated by hand from their
// definitions and from the logistic; and the identity of logistic and Hill.
#include "core/density/characteristic.h"
#include "core/density/response.h"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>

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
