// What the light explains: the difference of one exposure from a reference, in log10 units, split into its parts.
//
// The reference: clear open sky, a level sheet without covers, the sun at a stated height, for the planned minutes; or,
// when the dose that the mix needs is known, for as long as that sky takes to give it: then the total is the difference
// from the wanted dose.
//
// Duration is a plain factor and its part is a plain logarithm. Sun height, cloud, sky share, tilt and cover act on one
// another (a pane takes more of a low beam), so each part is the mean of what it changes over all the orders in which
// the five could be put in place (Shapley's value). No order is preferred, and the parts add up to the total exactly.
#pragma once

#include "core/light/exposure_light.h"

#include <array>
#include <span>

namespace washfast::light {

enum class LightPart { SunHeight, Cloud, Cover, SkyShare, Tilt, Duration };
inline constexpr size_t lightPartCount = 6;
[[nodiscard]] QString lightPartKey(LightPart part); // sun, cloud, cover, sky_share, tilt, time
[[nodiscard]] QString lightPartName(LightPart part); // translated

struct Reference {
    double zenith_deg = 45; // apparent
    std::optional<double> planned_minutes;
    std::optional<double> goal_j_cm2; // instead of the minutes
};

struct LightExplained {
    double total_log10 = 0; // log10(dose / reference dose); below 0: less light
    std::array<double, lightPartCount> log10 {}; // by LightPart; their sum is the total
    double reference_w_m2 = 0, reference_minutes = 0;
    double reference_dose_j_cm2 = 0, dose_j_cm2 = 0;
    bool duration_compared = false; // false: neither plan nor goal, the exposure's own minutes are the reference
    bool cloud_is_rest = false; // readings gave the dose: Cloud also holds whatever else they saw

    [[nodiscard]] double part(LightPart which) const { return log10[size_t(which)]; }
};

/// Nothing without a place, times and covers that can be reckoned, under a lamp, or when no light came at all.
[[nodiscard]] std::optional<LightExplained> explainLight(const ExposureCase& exposure, const Reference& reference = {});
/// Several exposures of one sheet together.
[[nodiscard]] std::optional<LightExplained> explainLight(
    std::span<const ExposureCase> exposures, const Reference& reference = {});

} // namespace washfast::light
