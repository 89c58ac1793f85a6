#include "core/light/cloud.h"

#include <algorithm>

namespace washfast::light {

namespace {

// Highest factor of a moment: light thrown by bright edges of broken cloud; seen by Anton et al., Atmos. Res. 118
// (2012).
constexpr double mostLight = 1.25;
constexpr double overcast = 0.31;
constexpr double raggedLowCloud = 0.16;
constexpr double thinHighCloud = 0.95;

/// Factors of the forecasts, by eighths.
double forecastFactor(double eighths)
{
    const double share = eighths / 8;
    if (share < 0.2)
        return 1;
    if (share < 0.7)
        return 0.89;
    return share <= 0.9 ? 0.73 : overcast;
}

// With the disc known the steps become slopes (our assumption): a disc that shows under a sky of cloud is thin cloud,
// a hidden one takes away the beam even under a nearly clear sky. All clouded and hidden is the forecast's overcast.
double shownFactor(double eighths)
{
    const double share = eighths / 8;
    return 1 - 0.10 * share * share;
}

double hiddenFactor(double eighths)
{
    constexpr double loneCloud = 0.60;
    return loneCloud - (loneCloud - overcast) * eighths / 8;
}

} // namespace

std::optional<Disc> discFromKey(const QString& key)
{
    if (key == QLatin1String("yes"))
        return Disc::Yes;
    if (key == QLatin1String("partly"))
        return Disc::Partly;
    if (key == QLatin1String("no"))
        return Disc::No;
    return std::nullopt;
}

CloudFactor cloudFactor(const Sky& sky)
{
    CloudFactor cloud;
    if (!sky.noted()) {
        cloud.assumed = true;
        cloud.low = raggedLowCloud;
        cloud.high = mostLight;
        return cloud;
    }
    if (sky.eighths && *sky.eighths <= 0 && sky.disc.value_or(Disc::Yes) == Disc::Yes)
        return cloud; // clear: only the model's own interval

    // Where only the disc was noted, half a sky of cloud is taken for a hidden or pale one.
    const double eighths = std::clamp(sky.eighths.value_or(sky.disc == Disc::Yes ? 2.0 : 6.0), 0.0, 8.0);
    if (!sky.disc) {
        cloud.factor = forecastFactor(eighths);
        cloud.beam = eighths >= 8 ? 0 : cloud.factor;
    } else if (*sky.disc == Disc::Yes) {
        cloud.factor = shownFactor(eighths);
        cloud.beam = cloud.factor;
    } else if (*sky.disc == Disc::No) {
        cloud.factor = hiddenFactor(eighths);
        cloud.beam = 0;
    } else {
        cloud.factor = (shownFactor(eighths) + hiddenFactor(eighths)) / 2;
        cloud.beam = cloud.factor / 2;
    }
    // The full width from a quarter of the sky on; less for a few small clouds and a disc that shows.
    const bool shown = sky.disc.value_or(Disc::Yes) == Disc::Yes;
    const double width = eyeUncertainty * (shown ? std::min(1.0, eighths / 2) : 1.0);
    cloud.low = cloud.factor * (1 - width);
    cloud.high = std::min(cloud.factor * (1 + width), mostLight);
    if (eighths >= 8 && !sky.disc)
        cloud.high = std::max(cloud.high, thinHighCloud);
    return cloud;
}

} // namespace washfast::light
