// What clouds leave of the ultraviolet: from what was seen.
//
// Centre values: without the disc, the factors of the forecasts of the United States' weather service (clear 1.0,
// scattered 0.89, broken 0.73, overcast 0.31; less than 2, 2-7, 7-9, over 9 tenths of cloud). Range of overcast skies
// 0.16 to 0.95: Theor. Appl. Climatol., doi 10.1007/s007040050100. An estimate by eye is good to 50 %, even when it
// says whether the disc shows; with a reading of an instrument 15 %: Schwander et al., J. Geophys. Res. 107 (2002). How
// the disc moves the centre is our own assumption.
#pragma once

#include <QString>
#include <optional>

namespace washfast::light {

enum class Disc { Yes, Partly, No };
[[nodiscard]] std::optional<Disc> discFromKey(const QString& key); // yes, partly, no

struct Sky {
    std::optional<double> eighths; // of the sky that are clouded
    std::optional<Disc> disc;

    [[nodiscard]] bool noted() const { return eighths || disc; }
};

struct CloudFactor {
    double factor = 1; // of the clear sky's light on the level
    double low = 1, high = 1;
    bool assumed = false; // nothing was noted: a clear sky is taken, and the interval is that of any sky
    /// Share of the direct beam that is left; the rest of `factor` is diffuse.
    double beam = 1;
};

[[nodiscard]] CloudFactor cloudFactor(const Sky& sky);

/// Relative interval of a level that an instrument read at that moment.
inline constexpr double readingUncertainty = 0.15;
/// Of an estimate by eye.
inline constexpr double eyeUncertainty = 0.5;

} // namespace washfast::light
