// The swatches are true to the measured colour, and what was not measured is not made up.
#include "ui/common/tone_pair.h"

#include "ui/common/theme.h"

#include <QFile>
#include <QImage>
#include <QPainter>
#include <QPicture>
#include <QTextStream>
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <gtest/gtest.h>
#include <limits>
#include <map>
#include <vector>

namespace WASHFAST_FILE {

using namespace washfast::ui;

namespace {

using Row = std::map<QString, QString>;

std::vector<Row> readTable(const char* name)
{
    QFile file(QStringLiteral(WASHFAST_REFERENCE "/colour/") + QLatin1String(name));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << name;
    QTextStream text(&file);
    const QStringList heads = text.readLine().split(QLatin1Char(','));
    std::vector<Row> rows;
    while (!text.atEnd()) {
        const QStringList cells = text.readLine().split(QLatin1Char(','));
        Row row;
        for (qsizetype i = 0; i < std::min(heads.size(), cells.size()); ++i)
            row[heads[i]] = cells[i];
        rows.push_back(row);
    }
    return rows;
}

double number(const Row& row, const char* column)
{
    return row.at(QLatin1String(column)).toDouble();
}

void expectColour(const QColor& got, int red, int green, int blue, int within, const std::string& what)
{
    EXPECT_NEAR(got.red(), red, within) << what;
    EXPECT_NEAR(got.green(), green, within) << what;
    EXPECT_NEAR(got.blue(), blue, within) << what;
}

QImage painted(const QSizeF& size, double scale, const std::function<void(QPainter&)>& paint)
{
    QImage image((size * scale).toSize(), QImage::Format_RGB32);
    image.fill(Qt::magenta);
    QPainter painter(&image);
    painter.scale(scale, scale);
    paint(painter);
    return image;
}

} // namespace

// xyz_lab_d65_pairs.csv: see tests/reference/data/colour/SOURCES.md.
TEST(Colour, LabAndXyzOfTheSrgbPrimariesAgreeWithPublishedPairs)
{
    const std::map<QString, std::array<int, 3>> codes { { QStringLiteral("red"), { 255, 0, 0 } },
        { QStringLiteral("black"), { 0, 0, 0 } }, { QStringLiteral("white"), { 255, 255, 255 } },
        { QStringLiteral("blue"), { 0, 0, 255 } }, { QStringLiteral("green"), { 0, 128, 0 } } };
    const auto rows = readTable("xyz_lab_d65_pairs.csv");
    ASSERT_EQ(rows.size(), 5U);
    for (const Row& row : rows) {
        const std::string name = row.at(QStringLiteral("name")).toStdString();
        const Xyz xyz = labToXyz(number(row, "L"), number(row, "a"), number(row, "b"), whiteD65);
        EXPECT_NEAR(xyz.x, number(row, "X"), 5e-4) << name;
        EXPECT_NEAR(xyz.y, number(row, "Y"), 5e-4) << name;
        EXPECT_NEAR(xyz.z, number(row, "Z"), 5e-4) << name;
        const auto& code = codes.at(row.at(QStringLiteral("name")));
        expectColour(
            xyzD65ToSrgb({ number(row, "X"), number(row, "Y"), number(row, "Z") }), code[0], code[1], code[2], 1, name);
    }
}

// The matrix from D50 to D65 that the W3C gives with CSS Color Module Level 4 (its white points have a figure more).
TEST(Colour, AdaptationAgreesWithTheMatrixOfCssColor4)
{
    const double published[3][3] = { { 0.955473421488075, -0.02309845494876471, 0.06325924320057072 },
        { -0.0283697093338637, 1.0099953980813041, 0.021041441191917323 },
        { 0.012314014864481998, -0.020507649298898964, 1.330365926242124 } };
    const Xyz units[3] = { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } };
    for (int column = 0; column < 3; ++column) {
        const Xyz got = adapted(units[column], whiteD50, whiteD65);
        EXPECT_NEAR(got.x, published[0][column], 1e-3) << column;
        EXPECT_NEAR(got.y, published[1][column], 1e-3) << column;
        EXPECT_NEAR(got.z, published[2][column], 1e-3) << column;
    }
    const Xyz white = adapted(whiteD50, whiteD50, whiteD65);
    EXPECT_NEAR(white.x, whiteD65.x, 1e-12);
    EXPECT_NEAR(white.z, whiteD65.z, 1e-12);
}

// sRGB primaries under D50 as the W3C gives them with CSS Color Module Level 4.
TEST(Colour, SrgbPrimariesUnderD50ComeBack)
{
    const Xyz primaries[3] = { { 0.436065742824811, 0.22249319175623702, 0.013923904500943465 },
        { 0.3851514688337912, 0.7168870538238823, 0.09708128566574634 },
        { 0.14307845442264197, 0.06061979053616537, 0.7140993584005155 } };
    const int codes[3][3] = { { 255, 0, 0 }, { 0, 255, 0 }, { 0, 0, 255 } };
    for (int i = 0; i < 3; ++i) {
        const Xyz& p = primaries[i];
        // CIE 15:2004, forwards.
        const auto f
            = [](double t) { return t > 216.0 / 24389.0 ? std::cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0; };
        const double fx = f(p.x / whiteD50.x), fy = f(p.y), fz = f(p.z / whiteD50.z);
        const QColor got = labD50ToSrgb(116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz));
        // Dark codes are steep: a thousandth of linear light is 3 codes there.
        expectColour(got, codes[i][0], codes[i][1], codes[i][2], 3, "primary " + std::to_string(i));
    }
}

// chart24_reference.csv: the maker's Lab and luminance of the 24-patch chart (McCamy 1976), see SOURCES.md.
TEST(Colour, GreysOfTheChartKeepTheirLuminance)
{
    const auto rows = readTable("chart24_reference.csv");
    ASSERT_EQ(rows.size(), 24U);
    for (std::size_t i = 18; i < 24; ++i) {
        const Row& row = rows[i];
        const QColor grey = labD50ToSrgb(
            number(row, "L_before2014_D50"), number(row, "a_before2014_D50"), number(row, "b_before2014_D50"));
        const std::string name = row.at(QStringLiteral("patch")).toStdString();
        EXPECT_NEAR(relativeLuminance(grey), number(row, "Y_2005_D50"), 0.006) << name;
        EXPECT_LE(
            std::max({ grey.red(), grey.green(), grey.blue() }) - std::min({ grey.red(), grey.green(), grey.blue() }),
            5)
            << name;
    }
}

TEST(Colour, OnlyTheCyanPatchLiesOutsideSrgb)
{
    for (const Row& row : readTable("chart24_reference.csv")) {
        bool outside = false;
        (void)labD50ToSrgb(number(row, "L_before2014_D50"), number(row, "a_before2014_D50"),
            number(row, "b_before2014_D50"), &outside);
        EXPECT_EQ(outside, row.at(QStringLiteral("patch")) == QLatin1String("cyan"))
            << row.at(QStringLiteral("patch")).toStdString();
    }
}

// chart24_srgb_pascale2006.csv: Pascale 2006, table 2, the sRGB codes that belong to the same Lab values.
TEST(Colour, PatchesHaveTheirPublishedCodes)
{
    const auto patches = readTable("chart24_reference.csv");
    const auto codes = readTable("chart24_srgb_pascale2006.csv");
    ASSERT_EQ(codes.size(), patches.size());
    for (std::size_t i = 0; i < codes.size(); ++i) {
        const Row& lab = patches[i];
        const QColor got = labD50ToSrgb(
            number(lab, "L_before2014_D50"), number(lab, "a_before2014_D50"), number(lab, "b_before2014_D50"));
        expectColour(got, codes[i].at(QStringLiteral("red")).toInt(), codes[i].at(QStringLiteral("green")).toInt(),
            codes[i].at(QStringLiteral("blue")).toInt(), 1, lab.at(QStringLiteral("patch")).toStdString());
    }
}

TEST(Estimate, MoreDensityIsNeverLighter)
{
    for (const bool washed : { false, true }) {
        double before = 2;
        for (int i = 0; i <= 300; ++i) {
            const double now = relativeLuminance(colourFromDensity(i / 100.0, washed));
            // One code of a light tone is 0.009 of luminance.
            EXPECT_LE(now, before + 0.005) << i / 100.0 << (washed ? " washed" : " before the rinse");
            before = now;
        }
        EXPECT_LT(before, 0.02);
    }
}

TEST(Estimate, LuminanceIsTenToTheMinusDensity)
{
    // Definition of density (ISO 5-1): D = -log10 of the reflectance factor.
    for (const bool washed : { false, true })
        for (const double density : { 0.1, 0.25, 0.5, 0.8, 1.0, 1.3 })
            EXPECT_NEAR(relativeLuminance(colourFromDensity(density, washed)), std::pow(10.0, -density), 0.012)
                << density << (washed ? " washed" : " before the rinse");
}

TEST(Estimate, RunsThroughTheColoursOfTheProcess)
{
    const QColor paper = colourFromDensity(0.0, true);
    EXPECT_GT(std::min({ paper.red(), paper.green(), paper.blue() }), 225);
    EXPECT_EQ(colourFromDensity(-0.2, true), paper);
    const QColor blue = colourFromDensity(1.4, true);
    EXPECT_GT(blue.blue(), blue.green());
    EXPECT_GT(blue.green(), blue.red());
    const QColor coat = colourFromDensity(0.25, false);
    EXPECT_GT(coat.green(), coat.red());
    EXPECT_GT(coat.red(), coat.blue() + 60);
    const QColor printedOut = colourFromDensity(1.0, false);
    EXPECT_GE(printedOut.blue(), printedOut.red());
    EXPECT_LT(printedOut.hsvSaturation(), 90);
    EXPECT_FALSE(colourFromDensity(std::nan(""), true).isValid());
}

TEST(ToneColour, PrefersWhatWasMeasured)
{
    const ToneColour measured = toneColour(LabD50 { 30, -2, -30 }, 1.2, true);
    EXPECT_FALSE(measured.estimated);
    EXPECT_EQ(measured.colour, labD50ToSrgb(30, -2, -30));
    EXPECT_TRUE(measured.says.contains(QLatin1String("measured")));

    const ToneColour estimated = toneColour(std::nullopt, 1.2, true);
    EXPECT_TRUE(estimated.estimated);
    EXPECT_EQ(estimated.colour, colourFromDensity(1.2, true));
    EXPECT_TRUE(estimated.says.contains(QLatin1String("1.20"))) << estimated.says.toStdString();

    const ToneColour none = toneColour(std::nullopt, std::nullopt, true);
    EXPECT_FALSE(none.colour);
    EXPECT_FALSE(none.estimated);
    EXPECT_EQ(none.says, QStringLiteral("not recorded"));

    const double nan = std::numeric_limits<double>::quiet_NaN();
    EXPECT_TRUE(toneColour(LabD50 { nan, 0, 0 }, 0.4, true).estimated);
    EXPECT_FALSE(toneColour(LabD50 { 50, 0, nan }, nan, true).colour);
    EXPECT_TRUE(toneColour(LabD50 { 50, -80, -60 }, {}, true).says.contains(QLatin1String("vivid")));
    EXPECT_EQ(tonePairText(none, estimated),
        QStringLiteral("Before the rinse: not recorded. A day after: colour estimated from density 1.20."));
}

TEST(TonePair, ShowsTheMeasuredColourUnchangedAtEveryScale)
{
    const Theme theme = lightTheme();
    const ToneColour before = toneColour(LabD50 { 79, -15, 47 }, {}, false);
    const ToneColour after = toneColour(LabD50 { 28, -3, -31 }, {}, true);
    for (const double scale : { 0.7, 1.0, 2.0, 5.0 }) {
        const QRectF area(0, 0, 60, 24);
        const QImage image
            = painted(area.size(), scale, [&](QPainter& p) { paintTonePair(p, area, before, after, theme); });
        const auto swatches = tonePairSwatches(area);
        EXPECT_EQ(image.pixelColor((swatches[0].center() * scale).toPoint()), *before.colour) << scale;
        EXPECT_EQ(image.pixelColor((swatches[1].center() * scale).toPoint()), *after.colour) << scale;
    }
}

TEST(TonePair, NotRecordedIsHatchedAndEstimatedIsMarked)
{
    for (const Theme& theme : { lightTheme(), darkTheme() }) {
        const QRectF area(0, 0, 40, 40);
        const auto picture = [&](const ToneColour& tone) {
            return painted(area.size(), 2, [&](QPainter& p) { paintSwatch(p, area, tone, theme); });
        };
        const ToneColour solid { QColor(20, 60, 110), false, {} };
        const ToneColour guess { QColor(20, 60, 110), true, {} };
        const QImage measured = picture(solid);
        const QImage estimated = picture(guess);
        const QImage missing = picture({});
        // The mark sits in one corner and nowhere else.
        EXPECT_EQ(estimated.pixelColor(74, 76), theme.sheet);
        EXPECT_EQ(measured.pixelColor(74, 76), *solid.colour);
        EXPECT_EQ(estimated.copy(0, 0, 80, 40), measured.copy(0, 0, 80, 40));
        // Empty means sheet and lines of the hatch, and no colour of a print.
        int sheet = 0;
        int line = 0;
        for (int y = 4; y < 76; ++y) {
            for (int x = 4; x < 76; ++x) {
                sheet += missing.pixelColor(x, y) == theme.sheet;
                line += missing.pixelColor(x, y) == theme.line;
            }
        }
        EXPECT_GT(sheet, 2000);
        EXPECT_GT(line, 200);
    }
}

TEST(TonePair, HatchEndsAtItsEdgesWithoutClipping)
{
    QPicture record;
    QPainter painter(&record);
    const QRectF area(10, 20, 50, 30);
    paintHatch(painter, area, Qt::black, 5);
    painter.end();
    EXPECT_FALSE(record.boundingRect().isEmpty());
    EXPECT_TRUE(area.adjusted(-1.5, -1.5, 1.5, 1.5).contains(record.boundingRect()));
}

TEST(TonePair, SizeFollowsTheFont)
{
    QFont font(QStringLiteral("DejaVu Sans"), 9);
    const QSize small = tonePairSize(QFontMetrics(font));
    font.setPointSize(20);
    const QSize large = tonePairSize(QFontMetrics(font));
    EXPECT_GT(large.height(), small.height());
    EXPECT_GT(small.width(), small.height() * 2);
    EXPECT_GE(small.height(), 20);
}

} // namespace WASHFAST_FILE
