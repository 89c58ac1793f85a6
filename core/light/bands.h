// The wavelengths that this room reckons with, and what is done with a spectrum on them: integrals and tables.
//
// They are the rows 300-500 nm of the table of the simple spectral model (Bird & Riordan 1984, SERI/TR-215-2436,
// doi 10.2172/5986936): every 5 nm to 350, then every 10 nm.
#pragma once

#include "core/quantity/result.h"

#include <QByteArray>
#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace washfast::light {

inline constexpr size_t bandCount = 26;
/// One number a wavelength; what it is says the user (W/m2/nm, a share of 1, a weight).
using Bands = std::array<double, bandCount>;

inline constexpr Bands wavelengths_nm { 300, 305, 310, 315, 320, 325, 330, 335, 340, 345, 350, 360, 370, 380, 390, 400,
    410, 420, 430, 440, 450, 460, 470, 480, 490, 500 };

/// Weights w so that the sum of w[i] * E[i] is the trapezoid integral from one of the wavelengths to another.
[[nodiscard]] constexpr Bands trapezoid(double from_nm, double to_nm)
{
    Bands weights {};
    for (size_t i = 0; i + 1 < bandCount; ++i)
        if (wavelengths_nm[i] >= from_nm && wavelengths_nm[i + 1] <= to_nm) {
            const double half = (wavelengths_nm[i + 1] - wavelengths_nm[i]) / 2;
            weights[i] += half;
            weights[i + 1] += half;
        }
    return weights;
}
/// Ultraviolet A, 315-400 nm (limits: CIE S 017 / ISO 20473).
inline constexpr Bands uvaWeights = trapezoid(315, 400);

[[nodiscard]] constexpr double integral(const Bands& spectrum, const Bands& weights)
{
    double sum = 0;
    for (size_t i = 0; i < bandCount; ++i)
        sum += spectrum[i] * weights[i];
    return sum;
}

/// How strongly each wavelength acts on the coat. The default of every dose is plain UVA.
struct Actinic {
    QString name;
    Bands weights; // including the step widths: integral(E, weights) is W/m2

    /// As a coat absorbs: photons per joule times 1 - 10^(-A), A = a365 exp(-(nm - 365) / tail), 1 at 365 nm; the same
    /// yield for every photon, 300-450 nm. A modelling proposal, not measured: no absorption of a dry iron(III) citrate
    /// coat was found published.
    [[nodiscard]] static Actinic coat(double absorbance_365, double tail_nm);
};
/// Start values for coat(), to be replaced by the person's own.
inline constexpr double usualAbsorbance365 = 1, usualAbsorbanceTailNm = 25;

/// A spectrum as it was measured: wavelengths that rise, and a value at each.
struct SpectrumTable {
    std::vector<double> nm, value;

    /// Straight lines between the points; the end values beyond them.
    [[nodiscard]] double at(double wavelength_nm) const;
    [[nodiscard]] bool covers(double from_nm, double to_nm) const;
    [[nodiscard]] Bands onBands() const;
    /// The mean around each wavelength, weighted by a triangle to its neighbours: for narrow lines of lamps.
    [[nodiscard]] Bands averagedOnBands() const;
};

/// Reads a table with headings `wavelength_nm` and `column` (comma, semicolon or tab; # starts a remark). Values have
/// to lie between low and high. The error names the line.
[[nodiscard]] Result<SpectrumTable> readSpectrum(
    const QByteArray& bytes, QLatin1String column, double low, double high);
/// From a text such as "320:0.41 340:0.70", in rising order, separated by spaces, semicolons or line ends. The error
/// names the pair.
[[nodiscard]] Result<SpectrumTable> spectrumOfPairs(const QString& text, double low, double high);
/// The same from a file, a pipe, or "-" for standard input.
[[nodiscard]] Result<SpectrumTable> readSpectrumFile(
    const QString& path, QLatin1String column, double low, double high);

} // namespace washfast::light
