// The painted cells: told apart without colour, readable, the same at any scale, with the dose as a fill.
#include "ui/bench/station_delegate.h"

#include <QGuiApplication>
#include <QImage>
#include <QPainter>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;

namespace {

constexpr QSize cellSize(150, 30);

QImage painted(const CellPaint& cell, const Theme& theme, double scale = 1.0)
{
    QImage image(cellSize * scale, QImage::Format_RGB32);
    image.setDevicePixelRatio(scale);
    image.fill(theme.sheet);
    QPainter painter(&image);
    painter.setFont(QGuiApplication::font());
    paintStationCell(painter, QRectF(QPointF(0, 0), QSizeF(cellSize)), cell, theme);
    return image;
}

/// A theme of two colours: what can still be told apart in it does not hang on colour.
Theme blackAndWhite()
{
    Theme theme = lightTheme();
    theme.sheet = theme.paper = theme.band = theme.selection = theme.onBlue = Qt::white;
    for (QColor* colour : { &theme.ink, &theme.quiet, &theme.edge, &theme.line, &theme.blue, &theme.coated,
             &theme.coatedMark, &theme.printedOut, &theme.rust, &theme.faint })
        *colour = Qt::black;
    return theme;
}

CellState in(Stage stage, bool next = false)
{
    CellState state;
    state.stage = stage;
    state.next = next;
    return state;
}

int pixelsThatDiffer(const QImage& a, const QImage& b)
{
    int n = 0;
    for (int y = 0; y < a.height(); ++y)
        for (int x = 0; x < a.width(); ++x)
            n += a.pixel(x, y) != b.pixel(x, y) ? 1 : 0;
    return n;
}

CellPaint exposing(std::optional<double> share)
{
    CellPaint cell { Station::Expose, in(Stage::Running), {}, {} };
    cell.state.goal_share = share;
    return cell;
}

/// The share of the pill's middle line, away from its ends and the sign, that has this colour.
double shareOf(const QImage& image, const QColor& colour)
{
    int hits = 0;
    int all = 0;
    for (int x = 30; x < image.width() - 12; ++x, ++all)
        hits += QColor(image.pixel(x, image.height() - 8)) == colour ? 1 : 0;
    return double(hits) / all;
}

class EachTheme : public testing::TestWithParam<bool> {
protected:
    Theme theme = GetParam() ? darkTheme() : lightTheme();
};

} // namespace

TEST(BenchPaint, StagesAreToldApartByShapeAlone)
{
    const auto theme = blackAndWhite();
    auto failed = in(Stage::Done);
    failed.failed = true;
    auto reached = in(Stage::Running);
    reached.goal_share = 1.2;
    const CellState states[] = { in(Stage::Waiting, true), in(Stage::Waiting), in(Stage::Running), reached,
        in(Stage::Done), in(Stage::Begun), in(Stage::Passed), failed };
    for (size_t i = 0; i < std::size(states); ++i)
        for (size_t j = i + 1; j < std::size(states); ++j)
            EXPECT_GT(pixelsThatDiffer(painted({ Station::Coat, states[i], {}, {} }, theme),
                          painted({ Station::Coat, states[j], {}, {} }, theme)),
                12)
                << "stages " << i << " and " << j;
}

TEST(BenchPaint, WordsAreShownAsWellAsShapes)
{
    const auto theme = lightTheme();
    for (const auto stage : { Stage::Waiting, Stage::Running, Stage::Done, Stage::Begun }) {
        const auto bare = painted({ Station::Rinse, in(stage, true), {}, {} }, theme);
        const auto worded = painted({ Station::Rinse, in(stage, true), QStringLiteral("04:31"), {} }, theme);
        EXPECT_GT(pixelsThatDiffer(bare, worded), 40);
    }
}

// W3C, WCAG 2.1: 4.5 : 1 for text (1.4.3), 3 : 1 for graphics (1.4.11).
TEST_P(EachTheme, TextAndSignsCanBeRead)
{
    for (const auto station : printStations) {
        EXPECT_GE(contrastRatio(textOn(stationFill(station, theme), theme), stationFill(station, theme)), 4.5);
        EXPECT_GE(contrastRatio(stationMark(station, theme), theme.sheet), 3.0) << stationKey(station).toStdString();
        EXPECT_GE(contrastRatio(stationMark(station, theme), theme.selection), 2.5)
            << "over chosen rows, with its shape";
        EXPECT_GE(contrastRatio(textOn(stationMark(station, theme), theme), stationMark(station, theme)), 4.5);
    }
    EXPECT_GE(contrastRatio(theme.quiet, theme.selection), 4.5);
    EXPECT_GE(contrastRatio(theme.rust, theme.selection), 3.0);
}

TEST_P(EachTheme, TheFillFollowsTheDose)
{
    EXPECT_EQ(shareOf(painted(exposing(std::nullopt), theme), theme.printedOut), 0.0) << "no meter, no fill";
    double before = -1;
    for (const double share : { 0.0, 0.25, 0.5, 0.75, 1.0 }) {
        const auto image = painted(exposing(share), theme);
        const double filled = shareOf(image, theme.printedOut);
        EXPECT_GT(filled, before);
        EXPECT_NEAR(filled + shareOf(image, theme.coated), 1.0, 0.02) << "the rest is still the coat";
        before = filled;
    }
    EXPECT_DOUBLE_EQ(before, 1.0);
    EXPECT_DOUBLE_EQ(shareOf(painted(exposing(3.0), theme), theme.printedOut), 1.0) << "more than full is full";
}

TEST_P(EachTheme, TheColoursAreThoseOfTheProcess)
{
    EXPECT_EQ(stationFill(Station::Coat, theme), theme.coated);
    EXPECT_EQ(stationFill(Station::Dry, theme), theme.coated);
    EXPECT_EQ(stationFill(Station::Expose, theme), theme.printedOut);
    EXPECT_EQ(stationFill(Station::Hold, theme), theme.printedOut);
    EXPECT_EQ(stationFill(Station::Rinse, theme), theme.blue);
}

INSTANTIATE_TEST_SUITE_P(BenchPaint, EachTheme, testing::Values(false, true),
    [](const auto& theme) { return std::string(theme.param ? "Dark" : "Light"); });

TEST(BenchPaint, TwiceTheScaleIsTheSamePicture)
{
    const auto theme = lightTheme();
    const CellPaint cell { Station::Expose, exposing(0.4).state, QStringLiteral("04:31"), { QStringLiteral("40 %") } };
    const auto once = painted(cell, theme);
    const auto twice = painted(cell, theme, 2.0).scaled(once.size(), Qt::IgnoreAspectRatio, Qt::SmoothTransformation);
    double difference = 0;
    for (int y = 0; y < once.height(); ++y)
        for (int x = 0; x < once.width(); ++x)
            difference += std::abs(qGray(once.pixel(x, y)) - qGray(twice.pixel(x, y)));
    EXPECT_LT(difference / (once.width() * once.height()), 9.0) << "mean difference in grey levels of 255";
}

TEST(BenchPaint, ANarrowCellTakesTheShorterWay)
{
    const auto theme = lightTheme();
    const CellPaint both { Station::Rinse, in(Stage::Done), QStringLiteral("8.0 min"),
        { QStringLiteral("a very long way to say three litres"), QStringLiteral("3.0") } };
    const CellPaint only { Station::Rinse, in(Stage::Done), QStringLiteral("8.0 min"), { QStringLiteral("3.0") } };
    EXPECT_EQ(painted(both, theme), painted(only, theme));
}

} // namespace WASHFAST_FILE
