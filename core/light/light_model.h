// The model behind exposure_light.h and explain.h: sun, clear sky, cloud, place, tilt and covers of one exposure put
// together for any moment, each of the five also as the reference has it.
#pragma once

#include "core/light/exposure_light.h"

namespace washfast::light {

class LightModel {
public:
    /// For moments between from and to. The exposure has to outlive it.
    LightModel(const ExposureCase& exposure, Instant from, Instant to);
    /// Place and covers are known, and the light is the sun's.
    [[nodiscard]] bool known() const { return known_; }
    [[nodiscard]] LightNow at(Instant when) const;

    /// The cloud that governs a moment: that of the nearest time at which the sky was seen.
    [[nodiscard]] CloudFactor cloudAt(Instant when) const;
    [[nodiscard]] bool skyNoted() const;
    [[nodiscard]] const CoverStack& pane() const { return pane_; }
    [[nodiscard]] bool paneAssumed() const { return pane_assumed_; }
    [[nodiscard]] const Bands& weights() const { return weights_; }

    /// At the paper, by which of sun, cloud, cover, sky share, tilt (bits 0 to 4, the order of LightPart) are those of
    /// the exposure; the others are those of the reference.
    [[nodiscard]] std::array<double, 32> allCombinations(Instant when, double reference_zenith_deg) const;

private:
    struct Light; // of one sun: spectrum and what follows from it
    [[nodiscard]] Light lightOf(const SunPosition& sun, double distance_factor) const;
    [[nodiscard]] double directThrough(const Light& light, const Geometry& geometry) const;

    const ExposureCase& exposure_;
    Air air_;
    std::optional<SunTrack> track_; // where it is known
    SkyModel sky_;
    Bands weights_;
    CoverStack pane_;
    bool pane_assumed_ = false;
    bool known_ = false;
    Bands diffuse_through_ {}; // pane and covers together
    Factors steady_; // interval of all that does not change with time
};

} // namespace washfast::light
