// Axes with sensible ticks, and charts in the colours of the theme.
#include "ui/common/chart_style.h"

#include <QLocale>
#include <QtCharts/QCategoryAxis>
#include <QtCharts/QChart>
#include <QtCharts/QLegend>
#include <QtCharts/QValueAxis>
#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast::ui;

namespace {

std::vector<std::string> labels(const std::vector<LogTick>& ticks)
{
    std::vector<std::string> result;
    for (const LogTick& tick : ticks)
        result.push_back(tick.label.toStdString());
    return result;
}

using Labels = std::vector<std::string>;

} // namespace

TEST(NiceAxis, GivesTheLooseLabelsOfHeckbertsExample)
{
    // Heckbert, "Nice numbers for graph labels", Graphics Gems 1990: 105 to 543 becomes 100, 200 ... 600 (from memory).
    const NiceAxis nice = niceAxis(105, 543, 6);
    EXPECT_DOUBLE_EQ(nice.low, 100);
    EXPECT_DOUBLE_EQ(nice.high, 600);
    EXPECT_DOUBLE_EQ(nice.step, 100);
    EXPECT_EQ(nice.ticks(), 6);
    EXPECT_EQ(nice.decimals, 0);
}

TEST(NiceAxis, CoversTheDataWithAStepOfOneTwoOrFive)
{
    std::mt19937 random(2);
    std::uniform_real_distribution<double> exponent(-6, 6);
    std::uniform_real_distribution<double> share(-1, 1);
    for (int i = 0; i < 2000; ++i) {
        const double scale = std::pow(10.0, exponent(random));
        const double a = share(random) * scale;
        const double b = a + std::abs(share(random)) * scale + scale * 1e-3;
        const NiceAxis nice = niceAxis(a, b, 6);
        const double slack = nice.step * 1e-6;
        EXPECT_LE(nice.low, a + slack);
        EXPECT_GE(nice.high, b - slack);
        EXPECT_GT(nice.low, a - nice.step - slack);
        EXPECT_LT(nice.high, b + nice.step + slack);
        const double lead = nice.step / std::pow(10.0, std::floor(std::log10(nice.step) + 1e-9));
        EXPECT_TRUE(std::abs(lead - 1) < 1e-6 || std::abs(lead - 2) < 1e-6 || std::abs(lead - 5) < 1e-6) << lead;
        EXPECT_GE(nice.ticks(), 3);
        EXPECT_LE(nice.ticks(), 8);
        // The labels tell neighbouring ticks apart.
        EXPECT_NE(
            QString::number(nice.low, 'f', nice.decimals), QString::number(nice.low + nice.step, 'f', nice.decimals));
    }
}

TEST(NiceAxis, MendsWhatIsNoRange)
{
    const NiceAxis same = niceAxis(1.2, 1.2);
    EXPECT_LT(same.low, 1.2);
    EXPECT_GT(same.high, 1.2);
    const NiceAxis zero = niceAxis(0, 0);
    EXPECT_LT(zero.low, zero.high);
    EXPECT_EQ(niceAxis(3, 1).low, niceAxis(1, 3).low);
    EXPECT_LT(niceAxis(std::nan(""), 1).low, niceAxis(std::nan(""), 1).high);
    EXPECT_LT(niceAxis(0, std::numeric_limits<double>::infinity()).low, 2);
}

TEST(LogTicks, CarryTheValueNotTheLogarithm)
{
    const QLocale c = QLocale::c();
    EXPECT_EQ(labels(logTicks(-1, 2, 10, c)), (Labels { "0.1", "0.2", "0.5", "1", "2", "5", "10", "20", "50", "100" }));
    EXPECT_EQ(labels(logTicks(-1, 2, 7, c)), (Labels { "0.1", "0.3", "1", "3", "10", "30", "100" }));
    EXPECT_EQ(labels(logTicks(-1, 2, 4, c)), (Labels { "0.1", "1", "10", "100" }));
    EXPECT_EQ(labels(logTicks(-4, 4, 5, c)), (Labels { "0.0001", "0.01", "1", "100", "10000" }));
    EXPECT_EQ(labels(logTicks(std::log10(1.1), std::log10(1.9), 7, c)), (Labels { "1.2", "1.5" }));
    // Nothing round in between: the ends themselves.
    EXPECT_EQ(labels(logTicks(std::log10(1.02), std::log10(1.1), 7, c)), (Labels { "1.02", "1.1" }));
    EXPECT_TRUE(logTicks(1, 1, 7, c).empty());
    EXPECT_TRUE(logTicks(std::nan(""), 1, 7, c).empty());
    for (const LogTick& tick : logTicks(-2.3, 1.7, 7, c))
        EXPECT_NEAR(std::log10(tick.label.toDouble()), tick.log10, 1e-3);
    EXPECT_EQ(labels(logTicks(-1, 0, 2, QLocale(QLocale::German))), (Labels { "0,1", "1" }));
}

TEST(LogTicks, StandOnACategoryAxis)
{
    QCategoryAxis axis;
    applyLogAxis(axis, -1, 1, QLocale::c(), 3);
    EXPECT_EQ(
        axis.categoriesLabels(), (QStringList { QStringLiteral("0.1"), QStringLiteral("1"), QStringLiteral("10") }));
    EXPECT_DOUBLE_EQ(axis.min(), -1);
    EXPECT_DOUBLE_EQ(axis.max(), 1);
    EXPECT_DOUBLE_EQ(axis.endValue(QStringLiteral("1")), 0);
    applyLogAxis(axis, 0, 2, QLocale::c(), 3);
    EXPECT_EQ(
        axis.categoriesLabels(), (QStringList { QStringLiteral("1"), QStringLiteral("10"), QStringLiteral("100") }));
}

TEST(Gaps, SplitALine)
{
    const double nan = std::nan("");
    const auto runs = splitAtGaps({ { 0, nan }, { 1, 1 }, { 2, 2 }, { 3, nan }, { nan, 3 }, { 4, 4 } });
    ASSERT_EQ(runs.size(), 2U);
    EXPECT_EQ(runs[0], (QList<QPointF> { { 1, 1 }, { 2, 2 } }));
    EXPECT_EQ(runs[1], (QList<QPointF> { { 4, 4 } }));
    EXPECT_TRUE(splitAtGaps({}).empty());
}

TEST(ChartStyle, TakesTheColoursOfTheTheme)
{
    for (const Theme& theme : { lightTheme(), darkTheme() }) {
        QChart chart;
        auto* x = new QValueAxis;
        auto* y = new QValueAxis;
        chart.addAxis(x, Qt::AlignBottom);
        chart.addAxis(y, Qt::AlignLeft);
        styleChart(chart, theme);
        applyAxis(*y, niceAxis(0, 1.43));
        EXPECT_EQ(chart.backgroundBrush().color(), theme.sheet);
        EXPECT_EQ(chart.titleBrush().color(), theme.ink);
        EXPECT_EQ(chart.legend()->labelColor(), theme.ink);
        for (const QAbstractAxis* axis : { x, y }) {
            EXPECT_EQ(axis->labelsBrush().color(), theme.quiet);
            EXPECT_EQ(axis->gridLinePen().color(), theme.line);
            EXPECT_EQ(axis->linePen().color(), theme.edge);
        }
        EXPECT_DOUBLE_EQ(y->max(), 1.5);
        EXPECT_EQ(y->labelFormat(), QStringLiteral("%.1f"));
    }
}

TEST(ChartStyle, GroupsDifferInColourAndDash)
{
    const Theme theme = lightTheme();
    for (int group = 0; group < 6; ++group) {
        EXPECT_EQ(groupPen(theme, group).color(), theme.categories[static_cast<std::size_t>(group)]);
        for (int other = 0; other < group; ++other)
            EXPECT_FALSE(groupPen(theme, group).color() == groupPen(theme, other).color());
        EXPECT_NE(groupPen(theme, group).style(), groupPen(theme, group + 1).style());
    }
    EXPECT_NO_FATAL_FAILURE((void)groupPen(theme, -1));
}

} // namespace WASHFAST_FILE
