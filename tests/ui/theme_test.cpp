// Every text can be read and every mark seen, in both themes; groups stay apart for colour-blind eyes.
#include "ui/common/theme.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QLocale>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <array>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast::ui;

namespace {

// WCAG 2.1, success criteria 1.4.3 (text) and 1.4.11 (graphics).
constexpr double textRatio = 4.5;
constexpr double graphicRatio = 3.0;

std::array<Theme, 2> themes()
{
    return { lightTheme(), darkTheme() };
}

using Lab = std::array<double, 3>;
using Matrix = std::array<std::array<double, 3>, 3>;

// Full-strength simulation of Machado, Oliveira and Fernandes, "A physiologically-based model for simulation of color
// vision deficiency", IEEE TVCG 15 (2009) 1291, on linear sRGB.
constexpr Matrix protan { { { 0.152286, 1.052583, -0.204868 }, { 0.114503, 0.786281, 0.099216 },
    { -0.003882, -0.048116, 1.051998 } } };
constexpr Matrix deutan { { { 0.367322, 0.860646, -0.227968 }, { 0.280085, 0.672501, 0.047413 },
    { -0.011820, 0.042940, 0.968881 } } };
constexpr Matrix tritan { { { 1.255528, -0.076749, -0.178779 }, { -0.078411, 0.930809, 0.147602 },
    { 0.004733, 0.691367, 0.303900 } } };
constexpr Matrix everyone { { { 1, 0, 0 }, { 0, 1, 0 }, { 0, 0, 1 } } };

Lab seenBy(const Matrix& eyes, const QColor& colour)
{
    const auto linear = [](double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
    const std::array<double, 3> rgb { linear(colour.red() / 255.0), linear(colour.green() / 255.0),
        linear(colour.blue() / 255.0) };
    std::array<double, 3> seen {};
    for (std::size_t i = 0; i < 3; ++i)
        seen[i] = std::clamp(eyes[i][0] * rgb[0] + eyes[i][1] * rgb[1] + eyes[i][2] * rgb[2], 0.0, 1.0);
    const double x = 0.4124 * seen[0] + 0.3576 * seen[1] + 0.1805 * seen[2];
    const double y = 0.2126 * seen[0] + 0.7152 * seen[1] + 0.0722 * seen[2];
    const double z = 0.0193 * seen[0] + 0.1192 * seen[1] + 0.9505 * seen[2];
    const auto f = [](double t) { return t > 216.0 / 24389.0 ? std::cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0; };
    return { 116 * f(y) - 16, 500 * (f(x / 0.9505) - f(y)), 200 * (f(y) - f(z / 1.089)) };
}

double closestPair(const std::array<QColor, 6>& colours)
{
    double closest = 1e9;
    for (const Matrix& eyes : { protan, deutan, tritan, everyone }) {
        for (std::size_t i = 0; i < colours.size(); ++i) {
            for (std::size_t j = i + 1; j < colours.size(); ++j) {
                const Lab a = seenBy(eyes, colours[i]);
                const Lab b = seenBy(eyes, colours[j]);
                closest = std::min(closest, std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]));
            }
        }
    }
    return closest;
}

} // namespace

TEST(Contrast, FollowsTheDefinitionOfWcag21)
{
    // The ends of the scale stand in the definition of "contrast ratio".
    EXPECT_NEAR(contrastRatio(Qt::black, Qt::white), 21.0, 1e-12);
    EXPECT_NEAR(contrastRatio(Qt::white, Qt::white), 1.0, 1e-12);
    // The weights stand in the definition of "relative luminance".
    EXPECT_NEAR(relativeLuminance(QColor(255, 0, 0)), 0.2126, 1e-12);
    EXPECT_NEAR(relativeLuminance(QColor(0, 255, 0)), 0.7152, 1e-12);
    EXPECT_NEAR(relativeLuminance(QColor(0, 0, 255)), 0.0722, 1e-12);
    // W3C's own example of a grey that just misses 4.5 on white: #777777, 4.47 (value from memory).
    EXPECT_NEAR(contrastRatio(QColor(0x77, 0x77, 0x77), Qt::white), 4.478, 0.001);
    EXPECT_EQ(contrastRatio(Qt::red, Qt::blue), contrastRatio(Qt::blue, Qt::red));
}

TEST(Contrast, EveryTextIsReadableWhereItStands)
{
    for (const Theme& theme : themes()) {
        const std::pair<const char*, QColor> texts[]
            = { { "ink", theme.ink }, { "quiet", theme.quiet }, { "blue", theme.blue }, { "rust", theme.rust } };
        const std::pair<const char*, QColor> grounds[] = { { "paper", theme.paper }, { "sheet", theme.sheet },
            { "band", theme.band }, { "selection", theme.selection } };
        for (const auto& [text, colour] : texts)
            for (const auto& [ground, fill] : grounds)
                EXPECT_GE(contrastRatio(colour, fill), textRatio)
                    << text << " on " << ground << (theme.dark ? ", dark" : ", light");
        EXPECT_GE(contrastRatio(theme.onBlue, theme.blue), textRatio) << (theme.dark ? "dark" : "light");
    }
}

TEST(Contrast, EveryMarkCanBeSeenWhereItStands)
{
    for (const Theme& theme : themes()) {
        const std::pair<const char*, QColor> marks[] = { { "edge", theme.edge }, { "coatedMark", theme.coatedMark },
            { "printedOut", theme.printedOut }, { "blue", theme.blue }, { "rust", theme.rust } };
        for (const auto& [mark, colour] : marks)
            for (const QColor& ground : { theme.paper, theme.sheet, theme.band })
                EXPECT_GE(contrastRatio(colour, ground), graphicRatio)
                    << mark << " on " << ground.name().toStdString() << (theme.dark ? ", dark" : ", light");
        for (const QColor& group : theme.categories)
            EXPECT_GE(contrastRatio(group, theme.sheet), graphicRatio) << group.name().toStdString();
        for (int i = 0; i <= 100; ++i)
            EXPECT_GE(contrastRatio(onRamp(theme.markRamp, i / 100.0), theme.sheet), graphicRatio) << i;
    }
}

TEST(Contrast, TextOnAnyFillReachesFourAndAHalf)
{
    std::mt19937 random(7);
    std::uniform_int_distribution<int> code(0, 255);
    for (const Theme& theme : themes()) {
        EXPECT_EQ(textOn(theme.sheet, theme), theme.ink);
        EXPECT_GE(contrastRatio(textOn(theme.coated, theme), theme.coated), textRatio);
        for (int i = 0; i < 256; ++i)
            EXPECT_GE(contrastRatio(textOn(QColor(i, i, i), theme), QColor(i, i, i)), textRatio) << i;
        for (int i = 0; i < 500; ++i) {
            const QColor fill(code(random), code(random), code(random));
            EXPECT_GE(contrastRatio(textOn(fill, theme), fill), textRatio) << fill.name().toStdString();
        }
    }
}

TEST(Palette, TextRolesAreReadableOnTheirGrounds)
{
    for (const Theme& theme : themes()) {
        const QPalette colours = palette(theme);
        using P = QPalette;
        for (const auto group : { P::Active, P::Inactive }) {
            for (const auto& [text, ground] :
                { std::pair { P::WindowText, P::Window }, { P::Text, P::Base }, { P::Text, P::AlternateBase },
                    { P::PlaceholderText, P::Base }, { P::ButtonText, P::Button }, { P::HighlightedText, P::Highlight },
                    { P::Link, P::Base }, { P::LinkVisited, P::Window }, { P::ToolTipText, P::ToolTipBase } })
                EXPECT_GE(contrastRatio(colours.color(group, text), colours.color(group, ground)), textRatio)
                    << text << " on " << ground;
            EXPECT_GE(contrastRatio(colours.color(group, P::Dark), colours.color(group, P::Window)), graphicRatio);
            EXPECT_GE(contrastRatio(colours.color(group, P::Dark), colours.color(group, P::Base)), graphicRatio);
        }
    }
}

TEST(Groups, AreAsFarApartForColourBlindEyesAsThePublishedPalette)
{
    // Okabe and Ito, "Color Universal Design", 2008: blue, vermilion, bluish green, reddish purple, sky blue, orange.
    const std::array<QColor, 6> published { QColor(0x0072B2), QColor(0xD55E00), QColor(0x009E73), QColor(0xCC79A7),
        QColor(0x56B4E9), QColor(0xE69F00) };
    const double measure = closestPair(published);
    ASSERT_GT(measure, 10);
    for (const Theme& theme : themes())
        EXPECT_GE(closestPair(theme.categories), measure * 0.95) << (theme.dark ? "dark" : "light");
    // The measure can tell: two oranges are not two groups.
    auto tooClose = published;
    tooClose[1] = QColor(0xC88A00);
    EXPECT_LT(closestPair(tooClose), measure - 5);
}

TEST(Ramps, GoOneWayInLightness)
{
    for (const Theme& theme : themes()) {
        for (const auto& ramp : { theme.ramp, theme.markRamp }) {
            double before = contrastRatio(onRamp(ramp, 0), theme.sheet);
            for (int i = 1; i <= 50; ++i) {
                const double now = contrastRatio(onRamp(ramp, i / 50.0), theme.sheet);
                EXPECT_GT(now, before) << i << (theme.dark ? " dark" : " light");
                before = now;
            }
        }
    }
}

TEST(Ramps, HoldTheirEnds)
{
    const auto ramp = lightTheme().ramp;
    EXPECT_EQ(onRamp(ramp, 0), ramp.front());
    EXPECT_EQ(onRamp(ramp, 1), ramp.back());
    EXPECT_EQ(onRamp(ramp, -3), ramp.front());
    EXPECT_EQ(onRamp(ramp, 7), ramp.back());
    EXPECT_EQ(onRamp(ramp, 0.4), ramp[2]);
    EXPECT_FALSE(onRamp(ramp, std::nan("")).isValid());
}

TEST(StyleSheet, IsUnderstoodByQt)
{
    static QStringList warnings;
    warnings.clear();
    const auto previous = qInstallMessageHandler(
        [](QtMsgType, const QMessageLogContext&, const QString& text) { warnings.append(text); });
    for (const Theme& theme : themes()) {
        const QString rules = styleSheet(theme);
        EXPECT_FALSE(rules.contains(QLatin1Char('%'))) << rules.toStdString();
        QTableView table;
        table.setStyleSheet(rules);
        table.ensurePolished();
    }
    const auto complaints = warnings.size();
    QTableView broken;
    broken.setStyleSheet(QStringLiteral("QTableView { {"));
    broken.ensurePolished();
    qInstallMessageHandler(previous);
    EXPECT_EQ(complaints, 0) << warnings.join(QLatin1Char('\n')).toStdString();
    // A complaint would have been heard.
    EXPECT_GT(warnings.size(), complaints);
}

TEST(Figures, StandUnderOneAnother)
{
    const QFont font = withTabularFigures(QApplication::font());
    ASSERT_TRUE(hasTabularFigures(font));
    const QLocale locale = QLocale::c();
    const QFontMetricsF metrics(font);
    // What stands right of the last whole digit has to be equally wide for each figure of a right-aligned column.
    const auto tail = [&](const QString& figure) {
        const QString padded = padFigure(figure, 2, locale);
        const auto whole = figure.indexOf(QLatin1Char('.')) < 0 ? figure.size() : figure.indexOf(QLatin1Char('.'));
        return metrics.horizontalAdvance(padded.mid(whole));
    };
    const double wanted = tail(QStringLiteral("1.25"));
    EXPECT_NEAR(tail(QStringLiteral("17.5")), wanted, 1.0);
    EXPECT_NEAR(tail(QStringLiteral("3")), wanted, 1.0);
    EXPECT_NEAR(tail(QStringLiteral("-0.31")), wanted, 1.0);
    EXPECT_EQ(padFigure(QStringLiteral("1.25"), 2, locale), QStringLiteral("1.25"));
    EXPECT_EQ(padFigure(QStringLiteral("not recorded"), 2, locale), QStringLiteral("not recorded"));
    EXPECT_EQ(padFigure(QStringLiteral("1,5"), 2, QLocale(QLocale::German)), QStringLiteral("1,5\u2007"));
}

TEST(Figures, ThreeSizesOfOneFamily)
{
    const QFont base(QStringLiteral("DejaVu Sans"), 10);
    EXPECT_LT(textFont(base, TextSize::Small).pointSizeF(), 10);
    EXPECT_EQ(textFont(base, TextSize::Body), base);
    EXPECT_GT(textFont(base, TextSize::Title).pointSizeF(), 13);
    EXPECT_EQ(textFont(base, TextSize::Title).family(), base.family());
}

TEST(ThemeSource, AnnouncesOnlyRealChanges)
{
    ThemeSource look(true);
    EXPECT_TRUE(look.theme().dark);
    QSignalSpy changes(&look, &ThemeSource::changed);
    look.setMode(ThemeMode::Dark);
    EXPECT_EQ(changes.count(), 0);
    look.setMode(ThemeMode::Light);
    EXPECT_EQ(changes.count(), 1);
    EXPECT_FALSE(look.theme().dark);
    look.setMode(ThemeMode::FollowSystem);
    EXPECT_EQ(changes.count(), 2);
    EXPECT_TRUE(look.theme().dark);
}

TEST(ThemeSource, DressesTheApplication)
{
    const QPalette before = QApplication::palette();
    ThemeSource look(false);
    look.applyTo(*qApp);
    EXPECT_EQ(QApplication::palette().color(QPalette::Window), lightTheme().paper);
    look.setMode(ThemeMode::Dark);
    EXPECT_EQ(QApplication::palette().color(QPalette::Window), darkTheme().paper);
    EXPECT_EQ(qApp->styleSheet(), styleSheet(darkTheme()));
    qApp->setStyleSheet({});
    QApplication::setPalette(before);
}

TEST(ThemeSource, ControlsHaveAnOutlineThatCanBeSeen)
{
    ThemeSource look(false);
    look.applyTo(*qApp);
    look.setMode(ThemeMode::Dark);
    QPushButton button(QStringLiteral("Start"));
    button.resize(90, 30);
    const QImage picture = button.grab().toImage();
    double best = 1;
    for (int x = 0; x < 4; ++x)
        best = std::max(best, contrastRatio(picture.pixelColor(x, 15), darkTheme().paper));
    EXPECT_GE(best, graphicRatio);
    qApp->setStyleSheet({});
}

} // namespace WASHFAST_FILE
