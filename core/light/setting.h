// Where the sheet lies: how much of the sky it sees, whether the sun reaches it, how it is tilted.
//
// Tilted planes by the isotropic sky: E = b cos(i) + d (1 + cos t)/2 + albedo E_h (1 - cos t)/2, the gain over the
// level capped at 1.3, because measured ultraviolet on planes facing the sun stays below that (1.18 to 1.27: Parisi &
// Kimlin, J. Photochem. Photobiol. B 53 (1999) 70).
#pragma once

#include "core/light/cloud.h"
#include "core/light/sun.h"

#include <QString>
#include <optional>

namespace washfast::light {

enum class PlaceKind { OpenSky, OpenShade, BesideWall, Window, Lamp };
[[nodiscard]] std::optional<PlaceKind> placeKindFromKey(const QString& key); // open_sky, ... as expose_place has it
[[nodiscard]] QString placeKindName(PlaceKind kind); // translated

struct Setting {
    PlaceKind kind = PlaceKind::OpenSky;
    std::optional<double> sky_share; // of the diffuse light, 0 to 1
    double tilt_deg = 0; // of the sheet
    double facing_deg = 180; // where a tilted sheet looks; behind a window, where the pane looks
    std::optional<bool> sun_reaches; // told; else: never in open shade, always elsewhere, through a pane if it faces it
    bool facing_known = true;
};

/// Share of the sky that is taken when none was noted (our assumptions), and never more than half behind a pane.
[[nodiscard]] double skyShare(const Setting& setting);
[[nodiscard]] bool skyShareAssumed(const Setting& setting);

inline constexpr double tiltGainCap = 1.3;

/// What the light's two parts are multiplied with on their way to the sheet, without covers.
struct Geometry {
    double cos_incidence = 0; // of the beam on the sheet; 0 when it comes from behind
    double beam = 0; // direct normal times this: cos_incidence, or 0 where the sun does not reach, capped
    double diffuse = 0; // diffuse on the level times this
    double ground = 0; // light on the level, both parts, times this (thrown back by the ground)
    std::optional<double> cos_pane; // of the beam on the window's pane
};

[[nodiscard]] Geometry geometryOf(
    const Setting& setting, const SunPosition& sun, double ground_albedo, double direct_share_of_level);

} // namespace washfast::light
