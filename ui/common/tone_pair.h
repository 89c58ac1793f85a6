// The tone pair: two swatches side by side, the print just before the rinse and the same print dry a day after.
//
// Where a reading has CIE Lab, the swatch shows it as truly as sRGB can. Where there is only a density, the colour is
// an estimate and carries a corner mark. Where there is nothing, the swatch stays empty and hatched: not recorded is
// not white.
//
// Sources: CIE 15:2004 (Lab); Lam 1985, the Bradford adaptation with the cone matrix as the ICC specification gives
// it; IEC 61966-2-1 (sRGB matrix and transfer curve). White points: D50 of the ICC connection space (0.9642, 1,
// 0.8249) and D65 of sRGB (0.9505, 1, 1.0890).
#pragma once

#include <QColor>
#include <QRectF>
#include <QSize>
#include <QString>
#include <array>
#include <optional>

class QFontMetrics;
class QPainter;

namespace washfast::ui {

struct Theme;

struct Xyz {
    double x = 0;
    double y = 0;
    double z = 0;
};

inline constexpr Xyz whiteD50 { 0.9642, 1.0, 0.8249 };
inline constexpr Xyz whiteD65 { 0.9505, 1.0, 1.0890 };

[[nodiscard]] Xyz labToXyz(double l, double a, double b, const Xyz& white);
// Bradford adaptation of a colour seen under `from` to the one that looks the same under `to`.
[[nodiscard]] Xyz adapted(const Xyz& colour, const Xyz& from, const Xyz& to);
// sRGB code values; what lies outside is held at the edge and, if asked, reported (a slack of half a code is not).
[[nodiscard]] QColor xyzD65ToSrgb(const Xyz& colour, bool* outOfGamut = nullptr);
[[nodiscard]] QColor labD50ToSrgb(double l, double a, double b, bool* outOfGamut = nullptr);

// ESTIMATED colour of a print from one density. An assumption of ours, not a measurement, to give a swatch a place
// between light and dark; it never feeds a calculation:
//  - luminance is taken as Y = 10^-D, as if the red density were the visual one (for a blue pigment the red density
//    is the higher, so a real print looks a little lighter than its estimate);
//  - after the rinse the hue runs from paper white to Prussian blue; before it from the yellow-green of the coat
//    (reached at D = 0.25, the luminance of that colour) to the grey-blue of a printed-out sheet (from D = 1.0);
//  - more density is never lighter. Densities below paper white (D = 0.046, Y = 0.9) show paper white.
[[nodiscard]] QColor colourFromDensity(double redDensity, bool washed);

struct LabD50 {
    double l = 0;
    double a = 0;
    double b = 0;
};

// What one swatch shows and what it says to a screen reader and in a tool tip.
struct ToneColour {
    std::optional<QColor> colour; // nothing: not recorded
    bool estimated = false;
    QString says;
};

// Lab if it was measured, else an estimate from the density, else "not recorded".
[[nodiscard]] ToneColour toneColour(
    const std::optional<LabD50>& lab, const std::optional<double>& redDensity, bool washed);

// Both swatches in one sentence.
[[nodiscard]] QString tonePairText(const ToneColour& before, const ToneColour& after);
// A size that suits a table cell in this font: what a delegate returns as its hint.
[[nodiscard]] QSize tonePairSize(const QFontMetrics& metrics);
// The two swatches in `area`, left before, right after: where a hit test or a label belongs.
[[nodiscard]] std::array<QRectF, 2> tonePairSwatches(const QRectF& area);
// Paints the pair at any scale, on screen or into a vector file; uses no clipping.
void paintTonePair(
    QPainter& painter, const QRectF& area, const ToneColour& before, const ToneColour& after, const Theme& theme);
void paintSwatch(QPainter& painter, const QRectF& area, const ToneColour& tone, const Theme& theme);
// Diagonal lines that end exactly at the edge of `area`, so that they survive where clipping is lost.
void paintHatch(QPainter& painter, const QRectF& area, const QColor& colour, double spacing);

} // namespace washfast::ui
