// Where the sun stands.
//
//     const auto sun = sunAt(*Instant::fromIso("2026-06-20T12:00:00Z"), { 51.5, 0.0, 20.0 });
//     sun.apparent_zenith_deg   // 28.1
//
// The place of the sun from libnova's planetary theory (VSOP87) and nutation; precession, aberration, sidereal time,
// parallax and refraction as in J. Meeus, Astronomical Algorithms, 2nd ed., chapters 12, 16, 21, 25 and 40. Within
// 0.0005 degrees of the worked example of Reda & Andreas, Solar Energy 76 (2004) 577.
#pragma once

#include "core/quantity/instant.h"

#include <optional>
#include <vector>

namespace washfast::light {

struct Place {
    double latitude_deg = 0; // north is positive
    double longitude_deg = 0; // east is positive
    double height_m = 0; // above the sea
};

/// Air that bends the light. Pressure from the height when it is not given.
struct Air {
    std::optional<double> pressure_hpa;
    double temperature_c = 15;
};

/// Pressure of the standard atmosphere, hPa. Source: the fit that SCIENCE's reference library uses.
[[nodiscard]] double pressureAt(double height_m);

struct SunPosition {
    double zenith_deg = 90; // geometric, of the disc's centre as seen from the place
    double apparent_zenith_deg = 90; // lifted by refraction
    double azimuth_deg = 0; // from north through east, 0 to 360
    double distance_au = 1;
    double declination_deg = 0;
    double hour_angle_deg = 0; // -180 to 180, 0 at noon, west is positive

    [[nodiscard]] double elevation_deg() const { return 90 - zenith_deg; }
    [[nodiscard]] double apparent_elevation_deg() const { return 90 - apparent_zenith_deg; }
};

[[nodiscard]] SunPosition sunAt(Instant when, const Place& place, const Air& air = {});

/// The sun over a stretch of time: costly series at a few moments, interpolated in between to 0.0001 degrees. Cheap to
/// ask; outside of the stretch it asks the series itself. Const and safe to share.
class SunTrack {
public:
    SunTrack(Instant from, Instant to);
    [[nodiscard]] SunPosition at(Instant when, const Place& place, const Air& air = {}) const;

    struct Node {
        double longitude_deg, latitude_deg; // apparent, of the ecliptic of the date
        double obliquity_deg; // true
        double equinoxes_deg; // equation of the equinoxes
        double distance_au;
    };

private:
    double first_ = 0; // Julian date of the first node
    std::vector<Node> nodes_;
};

/// Relative optical air mass (Kasten & Young, Appl. Opt. 28 (1989) 4735), from the apparent zenith angle; at 90 degrees
/// and beyond it stays at the horizon's.
[[nodiscard]] double airMass(double apparent_zenith_deg);

/// Terrestrial minus universal time, s. Polynomials of Espenak & Meeus (from memory), 1961 to 2050.
[[nodiscard]] double deltaT_s(double year);

} // namespace washfast::light
