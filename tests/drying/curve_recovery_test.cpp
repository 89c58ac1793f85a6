// Curves recovered from made-up weighings with noise: how often the truth lies in the stated interval. Fixed seed; the
// tolerance is that of a binomial count.
#include "core/drying/curve.h"
#include "core/stats/draw.h"

#include <cmath>
#include <functional>
#include <gtest/gtest.h>
#include <numbers>

namespace WASHFAST_FILE {

using namespace washfast::drying;

namespace {

constexpr int sheets = 500;
constexpr double noise_sd = 2.0; // % of the coat's water

double normal(washfast::stats::Draw& draw)
{
    // Box and Muller, Ann. Math. Stat. 29 (1958) 610.
    const double radius = std::sqrt(-2.0 * std::log(1.0 - draw.unit()));
    return radius * std::cos(2.0 * std::numbers::pi * draw.unit());
}

CurveOptions stated()
{
    CurveOptions options;
    options.residual_pct = 2.0;
    options.residual_within_pct = 2.0;
    options.weighing_within_pct = 1.96 * noise_sd;
    return options;
}

struct Coverage {
    int moisture = 0, time = 0, fits = 0;
};

/// For each made-up sheet its own residual moisture and curve; asked at `asked` minutes and for 20 % left.
Coverage coverage(const std::vector<double>& minutes, double asked, std::uint64_t seed,
    const std::function<std::function<double(double)>(washfast::stats::Draw&)>& makeLaw)
{
    washfast::stats::Draw draw(seed);
    const auto options = stated();
    Coverage covered;
    for (int sheet = 0; sheet < sheets; ++sheet) {
        const double residual = std::max(0.0, options.residual_pct + normal(draw) * options.residual_within_pct / 1.96);
        const auto law = makeLaw(draw);
        const auto truth = [&](double t) { return residual + (100.0 - residual) * law(t); };
        std::vector<Weighed> weighed;
        for (const double t : minutes)
            weighed.push_back({ t, truth(t) + noise_sd * normal(draw) });
        const auto found = fitCurve(weighed, options);
        const auto* curve = std::get_if<Curve>(&found);
        if (!curve)
            continue;
        ++covered.fits;
        const auto moisture = curve->at(asked);
        covered.moisture += moisture.low <= truth(asked) && truth(asked) <= moisture.high;
        double true_time = 0.0;
        while (truth(true_time) > 20.0)
            true_time += 0.01;
        const auto time = curve->minutesUntil(20.0);
        covered.time += time.low <= true_time && true_time <= time.high;
    }
    return covered;
}

/// 95 of 100 with a binomial count's spread of three standard deviations below; above, an interval that always holds
/// the truth would say too little, so at most all but one in 200.
void expectAboutNineteenOfTwenty(int covered)
{
    const double least = 0.95 * sheets - 3.0 * std::sqrt(sheets * 0.95 * 0.05);
    EXPECT_GE(covered, least);
    EXPECT_LE(covered, sheets - sheets / 200);
}

} // namespace

TEST(CurveRecovery, PageWithEightWeighings)
{
    const auto covered = coverage({ 3, 6, 10, 14, 19, 25, 32, 40 }, 17.0, 0x5EED'0001, [](washfast::stats::Draw& draw) {
        const double tau = 10.0 + 8.0 * draw.unit();
        const double n = 1.0 + 0.4 * draw.unit();
        return [tau, n](double t) { return std::exp(-std::pow(t / tau, n)); };
    });
    EXPECT_EQ(covered.fits, sheets);
    expectAboutNineteenOfTwenty(covered.moisture);
    expectAboutNineteenOfTwenty(covered.time);
}

TEST(CurveRecovery, TwoStagesWithEightWeighings)
{
    const auto covered = coverage({ 3, 6, 10, 14, 19, 25, 32, 40 }, 17.0, 0x5EED'0002, [](washfast::stats::Draw& draw) {
        const double rate = 0.04 + 0.03 * draw.unit();
        const double critical = 0.25 + 0.35 * draw.unit();
        return [rate, critical](double t) {
            const double bend = (1.0 - critical) / rate;
            return t < bend ? 1.0 - rate * t : critical * std::exp(-rate / critical * (t - bend));
        };
    });
    EXPECT_EQ(covered.fits, sheets);
    expectAboutNineteenOfTwenty(covered.moisture);
    expectAboutNineteenOfTwenty(covered.time);
}

TEST(CurveRecovery, FirstOrderWithTwoWeighingsAskedBeyondThem)
{
    // The shape is not known to the fit: n is drawn about 1 with the spread that the curve allows for.
    const auto covered = coverage({ 5, 12 }, 25.0, 0x5EED'0003, [](washfast::stats::Draw& draw) {
        const double tau = 10.0 + 8.0 * draw.unit();
        const double n = std::exp(std::log(1.25) * normal(draw));
        return [tau, n](double t) { return std::exp(-std::pow(t / tau, n)); };
    });
    EXPECT_EQ(covered.fits, sheets);
    expectAboutNineteenOfTwenty(covered.moisture);
    expectAboutNineteenOfTwenty(covered.time);
}

TEST(CurveRecovery, TheEstimateIsNotBiased)
{
    // Mean of the fitted time constant over many sheets of one known curve: within 2 % of it.
    washfast::stats::Draw draw(0x5EED'0004);
    double sum = 0.0;
    for (int sheet = 0; sheet < sheets; ++sheet) {
        std::vector<Weighed> weighed;
        for (const double t : { 3.0, 6.0, 10.0, 14.0, 19.0, 25.0, 32.0, 40.0 })
            weighed.push_back({ t, 2.0 + 98.0 * std::exp(-std::pow(t / 14.0, 1.2)) + noise_sd * normal(draw) });
        sum += 1.0 / std::get<Curve>(fitCurve(weighed, stated())).rate_per_min();
    }
    EXPECT_NEAR(sum / sheets / 14.0, 1.0, 0.02);
}

} // namespace WASHFAST_FILE
