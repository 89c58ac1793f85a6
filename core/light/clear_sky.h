// Ultraviolet of a cloudless sky by the simple spectral model: R. Bird, C. Riordan, "Simple solar spectral model for
// direct and diffuse irradiance ... at the Earth's surface for cloudless atmospheres", SERI/TR-215-2436 (1984),
// doi 10.2172/5986936, with the constants of its published C program (1.3366 for 1.335).
//
// Near ultraviolet of clear noons agrees with measurements within 10 % (Tellus 36B (1984)); we show 15 %.
#pragma once

#include "core/light/bands.h"
#include "core/light/sun.h"

#include <QString>
#include <vector>

namespace washfast::light {

/// The model is good to this share of its value for a clear sky.
inline constexpr double clearSkyUncertainty = 0.15;

struct Atmosphere {
    double ozone_du = 300;
    double aerosol_500 = 0.1; // optical depth at 500 nm
    double ground_albedo = 0.05; // in the ultraviolet
    std::optional<double> pressure_hpa; // from the height when not given
};

/// Albedo in UVA of what lies around, by the key of site_ground: Feister & Grewe, Photochem. Photobiol. 62 (1995) 736;
/// water from memory. Nothing for an unknown key.
[[nodiscard]] std::optional<double> groundAlbedo(const QString& ground);

struct SkySpectrum {
    Bands direct_normal {}; // W/m2/nm, on a plane that faces the sun
    Bands diffuse {}; // W/m2/nm, on the level
};

/// Square of (mean distance / distance) by the day of the year from 1.0, as the model has it.
[[nodiscard]] double distanceFactor(double day_of_year);
[[nodiscard]] double dayOfYear(Instant when); // 1.0 at the noon of the first of January, UTC

/// The model of one air: what does not depend on the sun is reckoned once.
class SkyModel {
public:
    SkyModel() = default;
    SkyModel(const Atmosphere& atmosphere, double pressure_hpa);
    /// Zero when the apparent zenith angle is 90 degrees or more, and at wavelengths where `weights` are 0.
    [[nodiscard]] SkySpectrum at(
        double apparent_zenith_deg, double distance_factor, const Bands* weights = nullptr) const;

private:
    double ozone_atm_cm_ = 0.3;
    Bands rayleigh_ {}; // depth for one air mass
    Bands scattered_ {}, absorbed_ {}; // of the aerosol
    Bands thrown_ {}; // what goes up from the ground and comes down again, as a share
};

/// Zero when the apparent zenith angle is 90 degrees or more.
[[nodiscard]] SkySpectrum clearSpectrum(
    double apparent_zenith_deg, double distance_factor, const Atmosphere& atmosphere, double pressure_hpa);

/// UVA of the two parts of the light, W/m2.
struct Uva {
    double direct_normal = 0; // on a plane that faces the sun
    double diffuse = 0; // on the level

    [[nodiscard]] double horizontal(double cos_zenith) const
    {
        return direct_normal * (cos_zenith > 0 ? cos_zenith : 0) + diffuse;
    }
};
[[nodiscard]] Uva uvaOf(const SkySpectrum& spectrum, const Bands& weights = uvaWeights);

/// The clear sky of one place over a stretch of time, tabulated over the zenith angle, so that a year can be drawn at
/// once (365 x 96 moments in some ten milliseconds).
class ClearSky {
public:
    struct Moment {
        SunPosition sun;
        double direct_normal_w_m2 = 0;
        double diffuse_w_m2 = 0;
        double uva_w_m2 = 0; // on the level: both together
    };

    ClearSky(
        const Place& place, const Atmosphere& atmosphere, Instant from, Instant to, const Bands& weights = uvaWeights);
    [[nodiscard]] Moment at(Instant when) const;
    /// UVA on the level at `count` moments from `from`, every `step_s` seconds.
    [[nodiscard]] std::vector<double> series(Instant from, double step_s, size_t count) const;

    [[nodiscard]] const Place& place() const { return place_; }
    [[nodiscard]] const Atmosphere& atmosphere() const { return atmosphere_; }
    [[nodiscard]] double pressure_hpa() const { return air_.pressure_hpa.value_or(1013.25); }

private:
    static constexpr int perDegree = 4;
    Place place_;
    Atmosphere atmosphere_;
    Air air_;
    SunTrack track_;
    std::vector<Uva> table_; // at distance factor 1, every 1/perDegree degree of the apparent zenith angle
};

} // namespace washfast::light
