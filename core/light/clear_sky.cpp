#include "core/light/clear_sky.h"
#include "core/light/angles.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace washfast::light {

namespace {

/// Light at the top of the air, W/m2/nm, at the mean distance. Table of the report, 300-500 nm.
constexpr Bands extraterrestrial { 0.5359, 0.5583, 0.622, 0.6927, 0.7151, 0.8329, 0.9619, 0.9319, 0.9006, 0.9113,
    0.9755, 0.9759, 1.1199, 1.1038, 1.0338, 1.4791, 1.7013, 1.7404, 1.5872, 1.837, 2.005, 2.043, 1.987, 2.027, 1.896,
    1.909 };
/// Absorption of ozone, 1/(atm cm). The same table. Water and mixed gases take nothing below 500 nm.
constexpr Bands ozoneAbsorption { 10, 4.8, 2.7, 1.35, 0.8, 0.38, 0.16, 0.075, 0.04, 0.019, 0.007, 0, 0, 0, 0, 0, 0, 0,
    0, 0, 0.003, 0.006, 0.009, 0.014, 0.021, 0.03 };

constexpr double asymmetry = 0.65; // of the aerosol's scattering
constexpr double angstrom = 1.14; // how its depth falls with wavelength
constexpr double scattering400 = 0.945; // share of it that scatters at 400 nm
constexpr double scatteringFall = 0.095;
constexpr double effectiveAirMass = 1.8; // of light that the ground threw back

constexpr double standardPressure_hpa = 1013; // of the program

struct Forward {
    double afs, bfs;
    /// Share of the scattered light that goes on forwards.
    [[nodiscard]] double at(double mu) const { return 1 - 0.5 * std::exp((afs + bfs * mu) * mu); }
};

Forward forward()
{
    const double log = std::log(1 - asymmetry);
    return { log * (1.459 + log * (0.1595 + log * 0.4129)), log * (0.0783 + log * (-0.3824 - log * 0.5874)) };
}

/// Of the diffuse light, by wavelength.
Bands corrections()
{
    Bands c {};
    for (size_t i = 0; i < bandCount; ++i)
        c[i] = wavelengths_nm[i] <= 450 ? std::pow(wavelengths_nm[i] / 1000 + 0.55, 1.8) : 1;
    return c;
}

} // namespace

std::optional<double> groundAlbedo(const QString& ground)
{
    struct Row {
        const char* ground;
        double albedo;
    };
    // Middle of the range given in the source for UVA.
    static constexpr Row rows[] = { { "grass", 0.018 }, { "soil", 0.065 }, { "concrete", 0.085 }, { "sand", 0.20 },
        { "snow", 0.69 }, { "water", 0.07 } }; // water: from memory
    for (const auto& row : rows)
        if (ground == QLatin1String(row.ground))
            return row.albedo;
    return std::nullopt;
}

double distanceFactor(double day_of_year)
{
    const double psi = 2 * std::numbers::pi * (day_of_year - 1) / 365;
    return 1.00011 + 0.034221 * std::cos(psi) + 0.00128 * std::sin(psi) + 0.000719 * std::cos(2 * psi)
        + 0.000077 * std::sin(2 * psi);
}

double dayOfYear(Instant when)
{
    const auto time = QDateTime::fromMSecsSinceEpoch(when.ms_utc, Qt::UTC);
    return time.date().dayOfYear() + time.time().msecsSinceStartOfDay() / 86'400'000.0 - 0.5;
}

SkyModel::SkyModel(const Atmosphere& atmosphere, double pressure_hpa)
    : ozone_atm_cm_(atmosphere.ozone_du / 1000)
{
    const double forward_back = forward().at(1 / effectiveAirMass);
    for (size_t i = 0; i < bandCount; ++i) {
        const double um = wavelengths_nm[i] / 1000;
        const double squared = um * um;
        rayleigh_[i] = pressure_hpa / standardPressure_hpa / (squared * squared * (115.6406 - 1.3366 / squared));
        const double depth = atmosphere.aerosol_500 * std::pow(um / 0.5, -angstrom);
        const double log = std::log(um / 0.4);
        const double share = scattering400 * std::exp(-scatteringFall * log * log);
        scattered_[i] = share * depth;
        absorbed_[i] = (1 - share) * depth;

        const double rayleigh_back = std::exp(-rayleigh_[i] * effectiveAirMass);
        const double scattered_back = std::exp(-scattered_[i] * effectiveAirMass);
        const double absorbed_back = std::exp(-absorbed_[i] * effectiveAirMass);
        const double sky
            = absorbed_back * (0.5 * (1 - rayleigh_back) + (1 - forward_back) * rayleigh_back * (1 - scattered_back));
        const double bounce = sky * atmosphere.ground_albedo;
        thrown_[i] = bounce / (1 - bounce);
    }
}

SkySpectrum SkyModel::at(double apparent_zenith_deg, double distance_factor, const Bands* weights) const
{
    static const Bands correction = corrections();
    SkySpectrum spectrum;
    if (!(apparent_zenith_deg < 90))
        return spectrum;
    const double mu = std::cos(apparent_zenith_deg * radians);
    const double mass = airMass(apparent_zenith_deg);
    constexpr double layer = 22.0 / 6370; // height of the ozone over the radius of the Earth
    const double ozone_path = (1 + layer) / std::sqrt(mu * mu + 2 * layer) * ozone_atm_cm_;
    const double forwards = forward().at(mu);

    for (size_t i = 0; i < bandCount; ++i) {
        if (weights && (*weights)[i] == 0)
            continue;
        const double depth = rayleigh_[i] * mass;
        const double aerosol_scattered = std::exp(-scattered_[i] * mass);
        const double left
            = extraterrestrial[i] * distance_factor * std::exp(-ozoneAbsorption[i] * ozone_path - absorbed_[i] * mass);
        const double direct = left * std::exp(-depth) * aerosol_scattered;
        const double from_air = left * mu * (1 - std::exp(-0.95 * depth)) / 2;
        const double from_aerosol = left * mu * std::exp(-1.5 * depth) * (1 - aerosol_scattered) * forwards;
        const double from_ground = (direct * mu + from_air + from_aerosol) * thrown_[i];
        spectrum.direct_normal[i] = direct;
        spectrum.diffuse[i] = (from_air + from_aerosol + from_ground) * correction[i];
    }
    return spectrum;
}

SkySpectrum clearSpectrum(
    double apparent_zenith_deg, double distance_factor, const Atmosphere& atmosphere, double pressure_hpa)
{
    return SkyModel(atmosphere, pressure_hpa).at(apparent_zenith_deg, distance_factor);
}

Uva uvaOf(const SkySpectrum& spectrum, const Bands& weights)
{
    return { integral(spectrum.direct_normal, weights), integral(spectrum.diffuse, weights) };
}

ClearSky::ClearSky(const Place& place, const Atmosphere& atmosphere, Instant from, Instant to, const Bands& weights)
    : place_(place)
    , atmosphere_(atmosphere)
    , air_ { atmosphere.pressure_hpa.value_or(pressureAt(place.height_m)), 15 }
    , track_(from, to)
{
    const SkyModel model(atmosphere, pressure_hpa());
    for (int i = 0; i <= 90 * perDegree; ++i)
        table_.push_back(uvaOf(model.at(static_cast<double>(i) / perDegree, 1, &weights), weights));
}

ClearSky::Moment ClearSky::at(Instant when) const
{
    Moment moment;
    moment.sun = track_.at(when, place_, air_);
    const double zenith = moment.sun.apparent_zenith_deg;
    if (!(zenith < 90))
        return moment;
    const double position = std::max(zenith, 0.0) * perDegree;
    const auto i = std::min(static_cast<size_t>(position), table_.size() - 2);
    const double share = position - static_cast<double>(i);
    const double factor = distanceFactor(dayOfYear(when));
    const auto between
        = [&](double Uva::*part) { return factor * ((1 - share) * table_[i].*part + share * table_[i + 1].*part); };
    moment.direct_normal_w_m2 = between(&Uva::direct_normal);
    moment.diffuse_w_m2 = between(&Uva::diffuse);
    moment.uva_w_m2 = Uva { moment.direct_normal_w_m2, moment.diffuse_w_m2 }.horizontal(std::cos(zenith * radians));
    return moment;
}

std::vector<double> ClearSky::series(Instant from, double step_s, size_t count) const
{
    std::vector<double> values(count);
    for (size_t i = 0; i < count; ++i)
        values[i] = at({ from.ms_utc + std::llround(step_s * 1000 * static_cast<double>(i)), from.offset_s }).uva_w_m2;
    return values;
}

} // namespace washfast::light
