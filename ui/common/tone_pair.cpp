#include "ui/common/tone_pair.h"

#include "ui/common/theme.h"

#include <QCoreApplication>
#include <QFontMetrics>
#include <QLineF>
#include <QLocale>
#include <QPainter>
#include <QPainterPath>
#include <QPolygonF>
#include <QVector>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

struct Tr {
    Q_DECLARE_TR_FUNCTIONS(washfast::ui::TonePair)
};

using Row = std::array<double, 3>;
using Matrix = std::array<Row, 3>;

// Bradford cone response, Lam 1985, as in the ICC specification (ICC.1:2010, annex E).
constexpr Matrix bradford { Row { 0.8951, 0.2664, -0.1614 }, Row { -0.7502, 1.7135, 0.0367 },
    Row { 0.0389, -0.0685, 1.0296 } };

// XYZ (D65) to linear sRGB, IEC 61966-2-1:1999, the four-figure matrix of the standard.
constexpr Matrix srgbFromXyz { Row { 3.2406, -1.5372, -0.4986 }, Row { -0.9689, 1.8758, 0.0415 },
    Row { 0.0557, -0.2040, 1.0570 } };

constexpr Row times(const Matrix& m, const Row& v)
{
    Row out {};
    for (std::size_t i = 0; i < 3; ++i)
        out[i] = m[i][0] * v[0] + m[i][1] * v[1] + m[i][2] * v[2];
    return out;
}

constexpr Matrix inverse(const Matrix& m)
{
    const auto minor = [&m](std::size_t r, std::size_t c) {
        const std::size_t r1 = (r + 1) % 3, r2 = (r + 2) % 3, c1 = (c + 1) % 3, c2 = (c + 2) % 3;
        return m[r1][c1] * m[r2][c2] - m[r1][c2] * m[r2][c1];
    };
    const double determinant = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
    Matrix out {};
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c)
            out[c][r] = minor(r, c) / determinant;
    return out;
}

constexpr Matrix bradfordInverse = inverse(bradford);

double lightnessOf(double y)
{
    // CIE 15:2004, L* = 116 f(Y) - 16.
    constexpr double cut = (6.0 / 29.0) * (6.0 / 29.0) * (6.0 / 29.0);
    return y > cut ? 116.0 * std::cbrt(y) - 16.0 : y * 24389.0 / 27.0;
}

struct Ab {
    double a = 0;
    double b = 0;
};

Ab between(const Ab& from, const Ab& to, double share)
{
    const double t = std::clamp(share, 0.0, 1.0);
    return { from.a + (to.a - from.a) * t, from.b + (to.b - from.b) * t };
}

// Places on the two paths of the estimate (Lab under D50; assumptions, see the header).
constexpr double paperY = 0.90;
constexpr Ab paperAb { 0.0, 3.5 };
constexpr Ab prussianAb { -3.0, -32.0 };
constexpr double prussianL = 27.0;
constexpr Ab coatAb { -15.0, 47.0 };
constexpr double coatDensity = 0.25;
constexpr Ab printedOutAb { -4.0, -10.0 };
constexpr double printedOutDensity = 1.0;

Ab washedAb(double lightness)
{
    const double paperL = lightnessOf(paperY);
    if (lightness < prussianL)
        return { prussianAb.a * lightness / prussianL, prussianAb.b * lightness / prussianL };
    // The hue comes early: a thin blue is already clearly blue. The bow in a* keeps it from turning violet half way,
    // which lines of constant Lab hue do in the blues.
    const double t = std::max(0.0, (paperL - lightness) / (paperL - prussianL));
    Ab ab = between(paperAb, prussianAb, std::pow(t, 0.65));
    ab.a -= 28.8 * t * (1.0 - t);
    return ab;
}

Ab unwashedAb(double density)
{
    if (density <= coatDensity)
        return between(paperAb, coatAb, density / coatDensity);
    const double share = (density - coatDensity) / (printedOutDensity - coatDensity);
    const Ab hue = between(coatAb, printedOutAb, std::pow(std::min(share, 1.0), 0.7));
    const double fade = std::min(1.0, lightnessOf(std::pow(10.0, -density)) / prussianL);
    return { hue.a * fade, hue.b * fade };
}

} // namespace

Xyz labToXyz(double l, double a, double b, const Xyz& white)
{
    constexpr double delta = 6.0 / 29.0;
    const auto back = [](double t) { return t > delta ? t * t * t : 3.0 * delta * delta * (t - 4.0 / 29.0); };
    const double fy = (l + 16.0) / 116.0;
    return { white.x * back(fy + a / 500.0), white.y * back(fy), white.z * back(fy - b / 200.0) };
}

Xyz adapted(const Xyz& colour, const Xyz& from, const Xyz& to)
{
    const Row cone = times(bradford, { colour.x, colour.y, colour.z });
    const Row source = times(bradford, { from.x, from.y, from.z });
    const Row target = times(bradford, { to.x, to.y, to.z });
    const Row out = times(bradfordInverse,
        { cone[0] * target[0] / source[0], cone[1] * target[1] / source[1], cone[2] * target[2] / source[2] });
    return { out[0], out[1], out[2] };
}

QColor xyzD65ToSrgb(const Xyz& colour, bool* outOfGamut)
{
    const Row linear = times(srgbFromXyz, { colour.x, colour.y, colour.z });
    std::array<int, 3> code {};
    bool outside = false;
    for (std::size_t i = 0; i < 3; ++i) {
        const double v = linear[i];
        // IEC 61966-2-1 transfer curve; the straight piece carries on below 0 so that "outside" can be told.
        const double encoded = v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1.0 / 2.4) - 0.055;
        outside = outside || encoded < -0.5 / 255.0 || encoded > 1.0 + 0.5 / 255.0;
        code[i] = static_cast<int>(std::lround(std::clamp(encoded, 0.0, 1.0) * 255.0));
    }
    if (outOfGamut)
        *outOfGamut = outside;
    return QColor(code[0], code[1], code[2]);
}

QColor labD50ToSrgb(double l, double a, double b, bool* outOfGamut)
{
    return xyzD65ToSrgb(adapted(labToXyz(l, a, b, whiteD50), whiteD50, whiteD65), outOfGamut);
}

QColor colourFromDensity(double redDensity, bool washed)
{
    if (std::isnan(redDensity))
        return {};
    const double density = std::clamp(redDensity, 0.0, 4.0);
    const double lightness = lightnessOf(std::min(paperY, std::pow(10.0, -density)));
    const Ab ab = washed ? washedAb(lightness) : unwashedAb(density);
    return labD50ToSrgb(lightness, ab.a, ab.b);
}

ToneColour toneColour(const std::optional<LabD50>& lab, const std::optional<double>& redDensity, bool washed)
{
    const QLocale locale;
    if (lab && std::isfinite(lab->l) && std::isfinite(lab->a) && std::isfinite(lab->b)) {
        bool outside = false;
        ToneColour tone;
        tone.colour = labD50ToSrgb(lab->l, lab->a, lab->b, &outside);
        tone.says = Tr::tr("measured: L* %1, a* %2, b* %3")
                        .arg(locale.toString(lab->l, 'f', 0), locale.toString(lab->a, 'f', 0),
                            locale.toString(lab->b, 'f', 0));
        if (outside)
            tone.says += Tr::tr(" (more vivid than a screen can show)");
        return tone;
    }
    if (redDensity && std::isfinite(*redDensity)) {
        return { colourFromDensity(*redDensity, washed), true,
            Tr::tr("colour estimated from density %1").arg(locale.toString(*redDensity, 'f', 2)) };
    }
    return { std::nullopt, false, Tr::tr("not recorded") };
}

QString tonePairText(const ToneColour& before, const ToneColour& after)
{
    return Tr::tr("Before the rinse: %1. A day after: %2.").arg(before.says, after.says);
}

QSize tonePairSize(const QFontMetrics& metrics)
{
    const int height = std::max(20, metrics.height() + 4);
    return { height * 2 + height / 2, height };
}

std::array<QRectF, 2> tonePairSwatches(const QRectF& area)
{
    const double gap = std::clamp(area.width() * 0.03, 2.0, 8.0);
    const double width = std::max(0.0, (area.width() - gap) / 2.0);
    return { QRectF(area.left(), area.top(), width, area.height()),
        QRectF(area.right() - width, area.top(), width, area.height()) };
}

void paintHatch(QPainter& painter, const QRectF& area, const QColor& colour, double spacing)
{
    if (area.isEmpty() || spacing <= 0)
        return;
    // Lines x + y = c for c every `spacing * sqrt 2`, cut where they meet the rectangle.
    QVector<QLineF> lines;
    const double step = spacing * std::sqrt(2.0);
    for (double c = step / 2; c < area.width() + area.height(); c += step) {
        const double x1 = std::max(0.0, c - area.height());
        const double x2 = std::min(area.width(), c);
        lines.append(QLineF(area.left() + x1, area.top() + c - x1, area.left() + x2, area.top() + c - x2));
    }
    painter.save();
    painter.setPen(QPen(colour, std::max(1.0, spacing / 8), Qt::SolidLine, Qt::FlatCap));
    painter.setRenderHint(QPainter::Antialiasing);
    painter.drawLines(lines);
    painter.restore();
}

void paintSwatch(QPainter& painter, const QRectF& area, const ToneColour& tone, const Theme& theme)
{
    const double stroke = std::clamp(area.height() / 60.0, 1.0, 2.0);
    const QRectF body = area.adjusted(stroke / 2, stroke / 2, -stroke / 2, -stroke / 2);
    if (body.width() <= 0 || body.height() <= 0)
        return;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tone.colour ? *tone.colour : theme.sheet);
    painter.drawRect(body);
    if (!tone.colour) {
        paintHatch(painter, body, theme.line, std::clamp(body.height() / 5, 4.0, 14.0));
        const QString word = Tr::tr("not recorded");
        const QFontMetricsF metrics(painter.font());
        const QRectF box = metrics.boundingRect(word).adjusted(-4, -1, 4, 1);
        if (box.width() < body.width() - 8 && box.height() < body.height()) {
            QRectF place(QPointF(), box.size());
            place.moveCenter(body.center());
            painter.setBrush(theme.sheet);
            painter.drawRect(place);
            painter.setPen(theme.quiet);
            painter.drawText(place, Qt::AlignCenter, word);
        } else {
            const double dash = std::min(body.width() / 4, body.height() / 3);
            painter.setPen(QPen(theme.quiet, std::max(1.5, stroke * 1.5), Qt::SolidLine, Qt::FlatCap));
            painter.drawLine(body.center() - QPointF(dash / 2, 0), body.center() + QPointF(dash / 2, 0));
        }
    } else if (tone.estimated) {
        const double side = std::clamp(body.height() * 0.28, 5.0, 16.0);
        // A turned-down corner: the sheet shows behind it.
        painter.setBrush(theme.sheet);
        painter.setPen(QPen(theme.edge, stroke, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin));
        painter.drawPolygon(QPolygonF(
            { body.bottomRight(), body.bottomRight() - QPointF(side, 0), body.bottomRight() - QPointF(0, side) }));
    }
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme.edge, stroke, Qt::SolidLine, Qt::SquareCap, Qt::MiterJoin));
    painter.drawRect(body);
    painter.restore();
}

void paintTonePair(
    QPainter& painter, const QRectF& area, const ToneColour& before, const ToneColour& after, const Theme& theme)
{
    const auto swatches = tonePairSwatches(area);
    paintSwatch(painter, swatches[0], before, theme);
    paintSwatch(painter, swatches[1], after, theme);
}

} // namespace washfast::ui
