// Drying curves: worked values of the equations, and properties that every fit has.
#include "core/drying/curve.h"

#include "core/stats/draw.h"

#include <cmath>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::drying;

namespace {

/// No residual moisture and a balance without error: the equations themselves.
CurveOptions bare()
{
    CurveOptions options;
    options.residual_pct = 0.0;
    options.residual_within_pct = 0.0;
    options.weighing_within_pct = 0.01;
    return options;
}

Curve fitted(const std::vector<Weighed>& points, const CurveOptions& options = {})
{
    const auto found = fitCurve(points, options);
    EXPECT_TRUE(std::holds_alternative<Curve>(found));
    return std::get<Curve>(found);
}

double page(double minutes, double tau, double n)
{
    return std::exp(-std::pow(minutes / tau, n));
}

double twoStages(double minutes, double rate, double critical)
{
    const double bend = (1.0 - critical) / rate;
    return minutes < bend ? 1.0 - rate * minutes : critical * std::exp(-rate / critical * (minutes - bend));
}

std::vector<Weighed> points(const std::vector<double>& minutes, double residual, auto ratio)
{
    std::vector<Weighed> found;
    for (const double t : minutes)
        found.push_back({ t, residual + (100.0 - residual) * ratio(t) });
    return found;
}

} // namespace

// Worked by hand: exp(-0.05 x 30) = 0.2231; ln 20 / 0.05 = 59.9 min; ln 100 / 0.05 = 92.1 min.
TEST(Curve, LewisWorkedValues)
{
    const auto curve = Curve::ofRate(0.05, 0.1, bare());
    EXPECT_NEAR(curve.at(30).likely, 22.31, 0.005);
    EXPECT_NEAR(curve.minutesUntil(5).likely, 59.9, 0.05);
    EXPECT_NEAR(curve.minutesUntil(1).likely, 92.1, 0.05);
    EXPECT_NEAR(curve.rate_per_min(), 0.05, 1e-12);
    // One weighing gives the rate back.
    const auto one = fitted({ { 30, 100 * std::exp(-1.5) } }, bare());
    EXPECT_EQ(one.model(), CurveModel::FirstOrder);
    EXPECT_NEAR(one.parameters()[0], 0.05, 1e-6);
}

// Worked by hand with k = 0.02, n = 1.3: MR(20) = exp(-0.02 x 20^1.3) = 0.3743; (ln 2 / 0.02)^(1/1.3) = 15.29 min;
// (ln 20 / 0.02)^(1/1.3) = 47.15 min. In the modified form tau = 0.02^(-1/1.3).
TEST(Curve, PageWorkedValues)
{
    const double tau = std::pow(0.02, -1.0 / 1.3);
    const auto curve
        = fitted(points({ 2, 5, 10, 15, 20, 30, 40, 50 }, 0, [&](double t) { return page(t, tau, 1.3); }), bare());
    EXPECT_EQ(curve.model(), CurveModel::Page);
    EXPECT_NEAR(curve.parameters()[0], tau, 1e-3);
    EXPECT_NEAR(curve.parameters()[1], 1.3, 1e-4);
    EXPECT_NEAR(curve.at(20).likely, 37.43, 0.01);
    EXPECT_NEAR(curve.minutesUntil(50).likely, 15.29, 0.01);
    EXPECT_NEAR(curve.minutesUntil(5).likely, 47.15, 0.02);
    EXPECT_NEAR(curve.rate_per_min(), 1.0 / tau, 1e-4);
}

// Constant rate 0.05 per min to 40 %: at 12 min; then exp with slope 0.05 / 0.4 = 0.125 per min. At 6 min 70 %; at 20
// min 40 x exp(-1) = 14.72 %; 5 % after 12 + ln 8 / 0.125 = 28.64 min.
TEST(Curve, TwoStagesWorkedValues)
{
    const auto curve
        = fitted(points({ 3, 6, 9, 12, 15, 20, 25, 30 }, 0, [](double t) { return twoStages(t, 0.05, 0.4); }), bare());
    EXPECT_EQ(curve.model(), CurveModel::TwoStage);
    EXPECT_NEAR(curve.parameters()[0], 0.05, 1e-4);
    EXPECT_NEAR(curve.parameters()[1], 0.4, 1e-3);
    EXPECT_NEAR(curve.at(6).likely, 70.0, 0.05);
    EXPECT_NEAR(curve.at(20).likely, 14.72, 0.05);
    EXPECT_NEAR(curve.minutesUntil(5).likely, 28.64, 0.05);
}

TEST(Curve, FewerThanFiveWeighingsAreFirstOrder)
{
    const auto four = points({ 5, 10, 20, 30 }, 2, [](double t) { return page(t, 14, 1.2); });
    EXPECT_EQ(fitted(four).model(), CurveModel::FirstOrder);
    EXPECT_EQ(fitted(four).weighings(), 4);
    auto five = four;
    five.push_back({ 40, 2 + 98 * page(40, 14, 1.2) });
    EXPECT_NE(fitted(five).model(), CurveModel::FirstOrder);
}

TEST(Curve, TroubleIsNamed)
{
    EXPECT_EQ(std::get<CurveTrouble>(fitCurve({})), CurveTrouble::NoWeighing);
    const std::vector<Weighed> at_start { { 0, 100 }, { -3, 101 } };
    EXPECT_EQ(std::get<CurveTrouble>(fitCurve(at_start)), CurveTrouble::NoWeighing);
    const std::vector<Weighed> wet { { 10, 100 }, { 20, 99.5 } };
    EXPECT_EQ(std::get<CurveTrouble>(fitCurve(wet)), CurveTrouble::NotDrying);
    const std::vector<Weighed> not_numbers { { 10, std::nan("") } };
    EXPECT_EQ(std::get<CurveTrouble>(fitCurve(not_numbers)), CurveTrouble::NoWeighing);
}

TEST(Curve, DryAtTheFirstWeighingTellsNoRate)
{
    const auto dry = fitted({ { 40, 1.0 } });
    EXPECT_FALSE(dry.rateKnown());
    EXPECT_LE(dry.at(40).likely, 6.0);
    EXPECT_TRUE(fitted({ { 10, 60.0 } }).rateKnown());
}

class EveryFit : public testing::TestWithParam<std::vector<Weighed>> { };

TEST_P(EveryFit, NeverRisesAndLiesInItsInterval)
{
    const auto curve = fitted(GetParam());
    double before = 100.0;
    for (double t = 0; t <= 200; t += 0.5) {
        const auto moisture = curve.at(t);
        EXPECT_LE(moisture.likely, before + 1e-9) << t;
        EXPECT_LE(moisture.low, moisture.likely);
        EXPECT_GE(moisture.high, moisture.likely);
        EXPECT_GE(moisture.low, 0.0);
        EXPECT_LE(moisture.high, 100.0);
        before = moisture.likely;
    }
    EXPECT_NEAR(curve.at(0).likely, 100.0, 1e-9);
    double sooner = 0.0;
    for (double pct = 95; pct > curve.residual_pct() + 0.5; pct -= 5) {
        const auto minutes = curve.minutesUntil(pct);
        EXPECT_LE(minutes.low, minutes.likely);
        EXPECT_GE(minutes.high, minutes.likely);
        EXPECT_GT(minutes.likely, sooner);
        EXPECT_NEAR(curve.at(minutes.likely).likely, pct, 1e-6);
        sooner = minutes.likely;
    }
    EXPECT_TRUE(std::isinf(curve.minutesUntil(curve.residual_pct()).likely)) << "it stays above the residual moisture";
    EXPECT_EQ(curve.minutesLeft(50, 1e4).high, 0.0);
    EXPECT_NEAR(curve.minutesLeft(50, 1).likely, std::max(0.0, curve.minutesUntil(50).likely - 1), 1e-9);
}

INSTANTIATE_TEST_SUITE_P(Weighings, EveryFit,
    testing::Values(std::vector<Weighed> { { 12, 41 } }, std::vector<Weighed> { { 5, 80 }, { 10, 55 }, { 20, 20 } },
        std::vector<Weighed> { { 2, 88 }, { 5, 70 }, { 9, 49 }, { 15, 25 }, { 25, 8 }, { 40, 3 } },
        std::vector<Weighed> { { 2, 98 }, { 5, 101 }, { 9, 77 }, { 15, 80 }, { 25, 50 }, { 40, 55 } }, // rough
        std::vector<Weighed> { { 10, 3 }, { 20, 1 }, { 30, 2 }, { 40, 0 }, { 50, 2 } }, // dry from the first on
        std::vector<Weighed> { { 5, 75 }, { 10, 50 }, { 15, 26 }, { 18, 12 }, { 25, 4 }, { 40, 2 } }));

TEST(Curve, MoreWeighingsNarrowTheInterval)
{
    const auto width = [](const Curve& curve, double t) { return curve.at(t).high - curve.at(t).low; };
    const auto law = [](double t) { return page(t, 15, 1.0); };
    const auto few = fitted(points({ 10 }, 2, law));
    const auto more = fitted(points({ 5, 10, 20 }, 2, law));
    EXPECT_LT(width(more, 20), width(few, 20));
}

TEST(Curve, DriesFasterInDrierAir)
{
    const auto curve = fitted({ { 5, 75 }, { 12, 45 }, { 20, 24 } });
    const auto drier = curve.inOtherAir(0.468, 1.170);
    EXPECT_NEAR(drier.minutesUntil(5).likely, curve.minutesUntil(5).likely * 0.468 / 1.170, 1e-9);
    EXPECT_NEAR(drier.rate_per_min(), curve.rate_per_min() * 1.170 / 0.468, 1e-9);
    for (double t = 1; t < 60; t += 1)
        EXPECT_LT(drier.at(t).likely, curve.at(t).likely);
    const auto spread = [](const Bracket& bracket) { return bracket.high / bracket.low; };
    EXPECT_GT(spread(drier.minutesUntil(5)), spread(curve.minutesUntil(5))) << "the rule of the air is not exact";
    const auto same = curve.inOtherAir(1.0, 1.0);
    EXPECT_NEAR(same.at(17).high, curve.at(17).high, 1e-9);
}

TEST(Curve, RubbishGivesNumbersAllTheSame)
{
    // Masses typed wrongly: moistures from far below nothing to far above all. Whatever comes in, no NaN comes out.
    washfast::stats::Draw draw(0x5EED'0031);
    int curves = 0;
    for (int i = 0; i < 2000; ++i) {
        std::vector<Weighed> weighed;
        const double scale = std::pow(10.0, 4.0 * draw.unit());
        for (int n = 1 + int(draw.below(9)); n > 0; --n)
            weighed.push_back({ 300.0 * draw.unit() - 10.0, scale * (2.0 * draw.unit() - 1.0) });
        const auto found = fitCurve(weighed);
        const auto* curve = std::get_if<Curve>(&found);
        if (!curve)
            continue;
        ++curves;
        for (const double t : { 0.0, 0.5, 20.0, 1000.0 }) {
            const auto moisture = curve->at(t);
            EXPECT_TRUE(moisture.low >= 0 && moisture.low <= moisture.likely && moisture.likely <= moisture.high
                && moisture.high <= 100)
                << i << ' ' << t << ": " << moisture.low << ' ' << moisture.likely << ' ' << moisture.high;
        }
        const auto minutes = curve->minutesUntil(5.0);
        EXPECT_TRUE(minutes.low >= 0 && minutes.low <= minutes.likely && minutes.likely <= minutes.high) << i;
        EXPECT_GT(curve->rate_per_min(), 0.0);
    }
    EXPECT_GT(curves, 500);
}

} // namespace WASHFAST_FILE
