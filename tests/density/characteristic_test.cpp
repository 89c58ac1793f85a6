// Characteristic curves: intervals, fallback, reversal, targets, tone table.
#include "core/density/characteristic.h"
#include "core/density/tone_table.h"

#include <cmath>
#include <gmock/gmock.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using testing::HasSubstr;

namespace {

constexpr Logistic truth { 0.08, 1.30, 0.2, 4.5 };

CurveRequest wedge(unsigned seed, double noise, int steps = 21, double from = -1.3, double step = 0.15)
{
    std::mt19937 draw(seed);
    std::normal_distribution<double> normal;
    CurveRequest request;
    for (int i = 0; i < steps; ++i) {
        const double x = from + step * i;
        request.points.push_back({ x, truth.at(x) + noise * normal(draw), 1 });
    }
    return request;
}

CurveFit must(Result<CurveFit> fit)
{
    if (!fit)
        throw std::runtime_error(fit.error().sentence().toStdString());
    return std::move(fit).value();
}

std::string warningsOf(const CurveFit& fit)
{
    return fit.warnings.join(QLatin1Char('\n')).toStdString();
}

} // namespace

TEST(Curve, IntervalsHoldInNinetyFiveOfAHundred)
{
    int asked = 0, covered = 0, targets = 0;
    for (unsigned seed = 0; seed < 400; ++seed) {
        auto request = wedge(seed, 0.03);
        request.targets = { 0.9 };
        const auto fit = must(fitCurve(request));
        ASSERT_EQ(fit.model, CurveModel::Logistic);
        const double right[] { truth.d_min, truth.d_max, truth.midpoint, truth.slope };
        for (size_t k = 0; k < curveParameters; ++k, ++asked) {
            ASSERT_TRUE(fit.intervals[k].low && fit.intervals[k].high);
            covered += *fit.intervals[k].low <= right[k] && right[k] <= *fit.intervals[k].high;
        }
        const double x = *truth.where(0.9);
        ASSERT_TRUE(fit.targets[0].log_h_low && fit.targets[0].log_h_high);
        targets += *fit.targets[0].log_h_low <= x && x <= *fit.targets[0].log_h_high;
    }
    // 95 %, give or take three standard errors of a share in so many trials.
    EXPECT_NEAR(double(covered) / asked, 0.95, 0.02);
    EXPECT_NEAR(targets / 400.0, 0.95, 0.033);
}

TEST(Curve, FixedParametersStay)
{
    auto request = wedge(1, 0.02);
    request.fixed[DMin] = 0.0;
    request.fixed[Slope] = 4.0;
    const auto fit = must(fitCurve(request));
    EXPECT_EQ(fit.curve.d_min, 0.0);
    EXPECT_EQ(fit.curve.slope, 4.0);
    EXPECT_FALSE(fit.standard_errors[DMin]);
    EXPECT_TRUE(fit.standard_errors[DMax]);
    EXPECT_EQ(fit.degrees_of_freedom, 19);
}

TEST(Curve, TooFewStepsFallBackToARisingCurve)
{
    const auto few = must(fitCurve(wedge(2, 0.005, 4, -0.6, 0.5)));
    EXPECT_EQ(few.model, CurveModel::Monotone);
    EXPECT_THAT(warningsOf(few), HasSubstr("too few"));
    EXPECT_FALSE(few.densityAt(few.highest() + 0.01));
    EXPECT_FALSE(few.exposureFor(few.curve.d_max + 0.01));
    const auto one_sided = must(fitCurve(wedge(3, 0.005, 9, -1.3, 0.15)));
    EXPECT_EQ(one_sided.model, CurveModel::Monotone);
    auto held = wedge(2, 0.005, 5, -0.7, 0.45);
    held.fixed[Slope] = 4.5;
    EXPECT_EQ(must(fitCurve(held)).model, CurveModel::Logistic);
}

TEST(Curve, NothingIsReadBeyondTheSteps)
{
    auto request = wedge(4, 0.01, 14, -1.3, 0.15); // ends at 0.65, before the shoulder at 0.69
    request.targets = { 1.25, 0.5, 3.0 };
    const auto fit = must(fitCurve(request));
    EXPECT_FALSE(fit.targets[0].log_h);
    EXPECT_TRUE(fit.targets[1].log_h);
    EXPECT_FALSE(fit.targets[2].log_h);
    EXPECT_FALSE(fit.shoulder_log_h);
    EXPECT_FALSE(fit.range());
    EXPECT_THAT(warningsOf(fit), HasSubstr("not reached"));
}

TEST(Curve, StepsThatTurnBackAreLeftOut)
{
    auto request = wedge(5, 0.01);
    request.points[20].density -= 0.15;
    request.points[19].density -= 0.08;
    const auto fit = must(fitCurve(request));
    EXPECT_EQ(fit.left_out.size(), 2u);
    EXPECT_NEAR(fit.curve.d_max, truth.d_max, 0.03);
    EXPECT_THAT(warningsOf(fit), HasSubstr("reversal"));
    for (unsigned seed = 0; seed < 50; ++seed)
        EXPECT_TRUE(must(fitCurve(wedge(seed, 0.02))).left_out.empty()) << seed;
}

TEST(Curve, WeightsCount)
{
    auto request = wedge(6, 0.0);
    request.points[10].density += 0.4;
    request.points[10].weight = 1e-8;
    const auto fit = must(fitCurve(request));
    EXPECT_NEAR(fit.curve.midpoint, truth.midpoint, 1e-5);
}

TEST(Curve, TheBandHoldsTheCurve)
{
    int inside = 0;
    for (unsigned seed = 0; seed < 200; ++seed) {
        const auto fit = must(fitCurve(wedge(seed, 0.03)));
        const auto band = fit.bandAt(0.4);
        inside += *band.low <= truth.at(0.4) && truth.at(0.4) <= *band.high;
    }
    EXPECT_NEAR(inside / 200.0, 0.95, 0.047);
}

TEST(Curve, RefusesWhatIsNoCurve)
{
    EXPECT_FALSE(fitCurve({}));
    CurveRequest falling;
    for (int i = 0; i < 8; ++i)
        falling.points.push_back({ i * 0.2, 1.5 - 0.1 * i, 1 });
    EXPECT_FALSE(fitCurve(falling));
    CurveRequest broken = wedge(7, 0);
    broken.points[3].density = std::nan("");
    EXPECT_FALSE(fitCurve(broken));
}

TEST(ToneTable, MakesAStraightScale)
{
    const auto curve = must(fitCurve(wedge(9, 0.0)));
    std::vector<FilmStep> film;
    for (int i = 0; i <= 10; ++i)
        film.push_back({ i * 10.0, 0.08 + 1.6 * std::pow(i / 10.0, 1.4) });
    const auto table = toneTable(curve, film);
    ASSERT_TRUE(table) << table.error().sentence().toStdString();
    ASSERT_EQ(table->rows.size(), 21u);
    // Printing the table gives equal steps: through film and curve by hand.
    double before = 0;
    for (size_t i = 0; i < 21; ++i) {
        const auto& row = table->rows[i];
        EXPECT_NEAR(0.08 + 1.6 * std::pow(row.film_value / 100, 1.4), row.film_density, 0.01);
        const double printed = truth.at(table->exposure_log_h - row.film_density);
        EXPECT_NEAR(printed, row.print_density, 1e-6);
        if (i > 1) {
            EXPECT_NEAR(printed - before, table->rows[1].print_density - table->rows[0].print_density, 1e-6);
        }
        before = printed;
    }
    EXPECT_GT(table->rows.front().film_value, table->rows.back().film_value);
    const auto csv = writeToneTable(*table);
    EXPECT_TRUE(csv.startsWith("tone_percent,print_density,log_h,film_density,film_value\r\n"));
    EXPECT_EQ(csv.count('\n'), 22);
}

TEST(ToneTable, RefusesFilmThatSaysNothing)
{
    const auto curve = must(fitCurve(wedge(9, 0.0)));
    EXPECT_FALSE(toneTable(curve, { { 0, 0.1 }, { 100, 1.5 } }));
    EXPECT_FALSE(toneTable(curve, { { 0, 0.1 }, { 50, 0.1 }, { 100, 0.1 } }));
    EXPECT_FALSE(toneTable(curve, { { 0, 0.1 }, { 50, 0.8 }, { 100, 1.5 } }, 9.0)); // far beyond the measured curve
}

} // namespace WASHFAST_FILE
