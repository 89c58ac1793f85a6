// The UV Index of a clear sky, for the caution on skin and eyes. It has its own formula: S. Madronich, "Analytic
// formula for the clear-sky UV index", Photochem. Photobiol. 83 (2007) 1537: UVI = 12.5 mu^2.42 (ozone/300)^-1.23.
// It must never be taken from the spectrum of clear_sky.h, which begins at 300 nm and gives a quarter too little.
//
// About 10 % up to a zenith angle of 60 degrees (from memory); without cloud, haze and snow, at sea level.
#pragma once

#include <QString>
#include <optional>

namespace washfast::light {

[[nodiscard]] double uvIndex(double zenith_deg, double ozone_du);

/// Bands of exposure of the World Health Organization's "Global Solar UV Index: A Practical Guide" (2002), which rounds
/// to whole numbers: low below 3, moderate 3 to 5, high 6 and 7, very high 8 to 10, extreme 11 and more.
enum class UvBand { Low, Moderate, High, VeryHigh, Extreme };
[[nodiscard]] UvBand uvBand(double uv_index);
[[nodiscard]] QString uvBandKey(UvBand band); // low, moderate, high, very_high, extreme
[[nodiscard]] QString uvBandName(UvBand band); // translated
/// What that guide says about it, in our words: one sentence, translated.
[[nodiscard]] QString uvCaution(UvBand band);

/// Minutes until unprotected skin has had `standard_doses` of 100 J/m2 of erythemal light (ISO/CIE 17166; one unit of
/// the index is 0.025 W/m2). Two such doses can redden fair skin (from memory). Nothing when the index is 0.
[[nodiscard]] std::optional<double> erythemalMinutes(double uv_index, double standard_doses = 2);

} // namespace washfast::light
