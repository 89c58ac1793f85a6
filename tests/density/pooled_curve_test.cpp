// Curves of several prints taken together: planted shifts are found, intervals hold as often as they say, the limiting
// cases are the plain curve and the plain regression line.
#include "core/density/pooled_curve.h"
#include "core/stats/least_squares.h"

#include <cmath>
#include <gmock/gmock.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;

namespace {

constexpr Logistic truth { 0.08, 1.30, 0.2, 4.5 };

struct Made {
    std::vector<PooledPoint> points;
    std::vector<double> shifts; // planted
    std::vector<double> ages;
};

struct Plan {
    int prints = 10, steps = 10;
    double shift_sd = 0.10, noise = 0.025, per_day = 0;
};

Made make(unsigned seed, const Plan& plan)
{
    std::mt19937 draw(seed);
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> unit;
    Made made;
    for (int print = 0; print < plan.prints; ++print) {
        made.ages.push_back(20 * unit(draw));
        made.shifts.push_back(plan.per_day * made.ages.back() + plan.shift_sd * normal(draw));
        for (int i = 0; i < plan.steps; ++i) {
            const double x = -0.9 + 0.25 * i;
            made.points.push_back({ x, truth.at(x - made.shifts.back()) + plan.noise * normal(draw), print });
        }
    }
    return made;
}

PooledCurve pool(const std::vector<PooledPoint>& points)
{
    auto pooled = poolCurves(points);
    if (!pooled)
        throw std::runtime_error(pooled.error().sentence().toStdString());
    return std::move(pooled).value();
}

std::vector<std::optional<double>> asKnown(const std::vector<double>& values)
{
    return { values.begin(), values.end() };
}

/// Least squares through all steps with the prints forgotten.
CurveFit plain(const std::vector<PooledPoint>& points)
{
    CurveRequest request;
    for (const auto& point : points)
        request.points.push_back({ point.log_h, point.density, 1 });
    return fitCurve(request).value();
}

} // namespace

TEST(PooledCurve, FindsTheSpeedOfEachPrint)
{
    const auto made = make(8, { .prints = 12, .noise = 0.02 });
    const auto pooled = pool(made.points);
    double mean = 0;
    for (const double shift : made.shifts)
        mean += shift / 12;
    for (size_t i = 0; i < 12; ++i) {
        EXPECT_NEAR(pooled.shifts[i], made.shifts[i] - mean, 0.03) << i;
        EXPECT_LT(pooled.shift_errors[i], 0.05) << i;
    }
    double sum = 0;
    for (const double shift : pooled.shifts)
        sum += shift;
    EXPECT_NEAR(sum, 0, 1e-6) << "the common curve is that of the mean print";
}

// 400 terms of eight wedges: the planted sd between prints, the sd within, the exposure for a density and that of the
// next print. Give or take three standard errors of a share in so many trials (0.033).
TEST(PooledCurve, IntervalsHoldInNinetyFiveOfAHundred)
{
    constexpr int terms = 400;
    int sd = 0, target = 0, next = 0, d_max = 0;
    double sds = 0, residuals = 0;
    for (unsigned seed = 0; seed < terms; ++seed) {
        const auto made = make(seed, { .prints = 9 });
        auto points = made.points;
        std::erase_if(points, [](const PooledPoint& point) { return point.print == 8; }); // the next print
        const auto pooled = pool(points);
        const auto fit = commonCurve(pooled, points, { 0.9 });
        sds += pooled.shift_sd * pooled.shift_sd / terms;
        residuals += pooled.residual_sd / terms;
        ASSERT_TRUE(pooled.shift_sd_95.low && pooled.shift_sd_95.high);
        sd += *pooled.shift_sd_95.low <= 0.10 && 0.10 <= *pooled.shift_sd_95.high;
        ASSERT_TRUE(fit.targets[0].log_h_low && fit.targets[0].log_h_high);
        const double right = *truth.where(0.9);
        target += *fit.targets[0].log_h_low <= right && right <= *fit.targets[0].log_h_high;
        const auto ends = pooled.nextPrint(fit.targets[0]);
        next += *ends.low <= right + made.shifts[8] && right + made.shifts[8] <= *ends.high;
        d_max += *fit.intervals[DMax].low <= truth.d_max && truth.d_max <= *fit.intervals[DMax].high;
    }
    EXPECT_NEAR(std::sqrt(sds), 0.10, 0.006);
    EXPECT_NEAR(residuals, 0.025, 0.001);
    EXPECT_NEAR(sd / double(terms), 0.95, 0.033);
    EXPECT_NEAR(target / double(terms), 0.95, 0.033);
    EXPECT_NEAR(next / double(terms), 0.95, 0.033);
    EXPECT_NEAR(d_max / double(terms), 0.95, 0.033);
}

TEST(PooledCurve, TheDriftIsFoundAndItsIntervalHolds)
{
    constexpr int terms = 400;
    int held = 0;
    double mean = 0;
    for (unsigned seed = 0; seed < terms; ++seed) {
        const auto made = make(seed + 1000, { .prints = 8, .steps = 8, .per_day = 0.015 });
        const auto pooled = pool(made.points);
        const auto drift = driftWith(pooled, made.points, asKnown(made.ages));
        ASSERT_TRUE(drift);
        mean += drift->per_unit / terms;
        held += drift->low <= 0.015 && 0.015 <= drift->high;
    }
    EXPECT_NEAR(mean, 0.015, 0.001);
    EXPECT_NEAR(held / double(terms), 0.95, 0.033);
}

TEST(PooledCurve, WithoutDifferencesItIsThePlainCurve)
{
    const auto made = make(3, { .prints = 6, .shift_sd = 0 });
    // The same steps with the prints dealt out at random: nothing is left that a shift could explain.
    auto points = made.points;
    std::mt19937 draw(5);
    for (auto& point : points)
        point.print = int(draw() % 6);
    const auto all = plain(points);
    const auto pooled = pool(points);
    if (pooled.shift_sd > 2e-4)
        GTEST_FAIL() << "this seed shows a difference by chance: " << pooled.shift_sd;
    EXPECT_NEAR(pooled.curve.d_min, all.curve.d_min, 1e-4);
    EXPECT_NEAR(pooled.curve.d_max, all.curve.d_max, 1e-4);
    EXPECT_NEAR(pooled.curve.midpoint, all.curve.midpoint, 1e-4);
    EXPECT_NEAR(pooled.curve.slope, all.curve.slope, 1e-3);
    const auto fit = commonCurve(pooled, points);
    for (const double x : { -0.5, 0.2, 0.8 }) {
        const auto one = all.bandAt(x), other = fit.bandAt(x);
        EXPECT_NEAR(*one.low, *other.low, 2e-3) << x;
        EXPECT_NEAR(*one.high, *other.high, 2e-3) << x;
    }
}

// Many exact steps a print: each shift is known for itself, and the model is the straight line through them.
TEST(PooledCurve, WithExactStepsTheDriftIsThePlainLine)
{
    auto made = make(4, { .prints = 7, .steps = 12, .noise = 1e-4, .per_day = 0.01 });
    auto ages = asKnown(made.ages);
    ages[2].reset();
    const auto pooled = pool(made.points);
    const auto drift = driftWith(pooled, made.points, ages);
    ASSERT_TRUE(drift);
    EXPECT_EQ(drift->prints, 6);
    Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic> design(6, 2);
    std::vector<double> shifts;
    for (size_t k = 0, row = 0; k < 7; ++k)
        if (ages[k]) {
            design.row(Eigen::Index(row++)) << 1.0L, static_cast<long double>(*ages[k]);
            shifts.push_back(made.shifts[k]);
        }
    const auto line = stats::fitLinear(design, shifts);
    EXPECT_NEAR(drift->per_unit, line.coefficients[1], 2e-5);
    EXPECT_NEAR(drift->standard_error, line.standard_errors[1], 0.01 * line.standard_errors[1]);
}

TEST(PooledCurve, APrintWithFewStepsIsDrawnToTheOthers)
{
    auto made = make(6, { .prints = 8, .noise = 0.03 });
    std::erase_if(made.points, [n = 0](const PooledPoint& point) mutable { return point.print == 0 && n++ > 0; });
    made.points.front().density += 0.0;
    const auto pooled = pool(made.points);
    EXPECT_GT(pooled.shift_errors[0], 1.5 * pooled.shift_errors[1]);
    EXPECT_LT(std::abs(pooled.shifts[0]), 3 * pooled.shift_sd);
}

TEST(PooledCurve, RefusesWithASentence)
{
    const auto made = make(2, {});
    const std::vector<PooledPoint> one(made.points.begin(), made.points.begin() + 10);
    const auto single = poolCurves(one);
    ASSERT_FALSE(single);
    EXPECT_THAT(single.error().sentence().toStdString(), testing::HasSubstr("at least two prints"));
    auto gap = one;
    gap.push_back({ 0, 0.5, 2 }); // nothing of print 1
    EXPECT_FALSE(poolCurves(gap));
    auto broken = made.points;
    broken[3].log_h = std::nan("");
    EXPECT_FALSE(poolCurves(broken));
    std::vector<PooledPoint> flat;
    for (int i = 0; i < 20; ++i)
        flat.push_back({ 0.1 * (i % 10), 0.3, i / 10 });
    EXPECT_FALSE(poolCurves(flat));
    std::vector<PooledPoint> low; // the foot of the curve only
    for (const auto& point : made.points)
        if (point.log_h < -0.2)
            low.push_back(point);
    EXPECT_FALSE(poolCurves(low));
    const auto pooled = pool(made.points);
    EXPECT_FALSE(driftWith(pooled, made.points, std::vector<std::optional<double>>(10, 5.0)));
    EXPECT_FALSE(driftWith(pooled, made.points, { 1.0, 2.0 }));
}

} // namespace WASHFAST_FILE
