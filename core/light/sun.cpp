#include "core/light/sun.h"
#include "core/light/angles.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <libnova/nutation.h>
#include <libnova/solar.h>
#include <numbers>
#include <unordered_map>

namespace washfast::light {

namespace {

constexpr double msPerDay = 86'400'000.0;
constexpr double julianOf1970 = 2440587.5;
constexpr double j2000 = 2451545.0;

double julianDate(Instant when)
{
    return julianOf1970 + static_cast<double>(when.ms_utc) / msPerDay;
}

double yearOf(double julian)
{
    return 2000 + (julian - j2000) / 365.25;
}

double wrap360(double degrees)
{
    const double rest = std::fmod(degrees, 360.0);
    return rest < 0 ? rest + 360 : rest;
}

/// General precession in longitude since J2000, degrees (Lieske 1977, as in Meeus chapter 21).
double precession(double centuries)
{
    return (5029.0966 + 1.11113 * centuries) * centuries / 3600;
}

SunTrack::Node nodeAt(double julian)
{
    const double ephemeris = julian + deltaT_s(yearOf(julian)) / 86'400;
    const double centuries = (ephemeris - j2000) / 36'525;
    ln_helio_posn sun {};
    ln_get_solar_geom_coords(ephemeris, &sun); // ecliptic of J2000
    ln_nutation nutation {};
    ln_get_nutation(ephemeris, &nutation);
    // Mean obliquity: Meeus 22.2.
    const double mean = 23.4392911 - (46.8150 + (0.00059 - 0.001813 * centuries) * centuries) * centuries / 3600;
    const double obliquity = mean + nutation.obliquity;
    SunTrack::Node node {};
    // Constant of aberration 20.4898": Meeus 25.10.
    node.longitude_deg = wrap360(sun.L + precession(centuries) + nutation.longitude - 20.4898 / 3600 / sun.R);
    // The ecliptic itself turns by 47" in a century about 174.876 degrees: Meeus 21.7.
    node.latitude_deg
        = std::remainder(sun.B, 360.0) + 47.0029 / 3600 * centuries * std::sin((174.876384 - sun.L) * radians);
    node.obliquity_deg = obliquity;
    node.equinoxes_deg = nutation.longitude * std::cos(obliquity * radians);
    node.distance_au = sun.R;
    return node;
}

/// Greenwich mean sidereal time, degrees (Meeus 12.4).
double siderealTime(double julian)
{
    const double days = julian - j2000;
    const double centuries = days / 36'525;
    return 280.46061837 + 360.98564736629 * days + (0.000387933 - centuries / 38'710'000) * centuries * centuries;
}

/// Lift by refraction, degrees: Meeus 16.4 with the weather of its text; nothing once the disc is well below.
double refraction(double elevation, double pressure_hpa, double temperature_c)
{
    constexpr double discAndHorizon = 0.26667 + 0.5667;
    if (elevation < -discAndHorizon)
        return 0;
    return pressure_hpa / 1010 * 283 / (273 + temperature_c) * 1.02
        / (60 * std::tan((elevation + 10.3 / (elevation + 5.11)) * radians));
}

SunPosition seenFrom(const SunTrack::Node& node, double julian, const Place& place, const Air& air)
{
    const double longitude = node.longitude_deg * radians;
    const double latitude = node.latitude_deg * radians;
    const double tilt = node.obliquity_deg * radians;
    const double ascension
        = std::atan2(std::sin(longitude) * std::cos(tilt) - std::tan(latitude) * std::sin(tilt), std::cos(longitude));
    const double declination
        = std::asin(std::sin(latitude) * std::cos(tilt) + std::cos(latitude) * std::sin(tilt) * std::sin(longitude));
    const double hour
        = wrap360(siderealTime(julian) + node.equinoxes_deg + place.longitude_deg - ascension / radians) * radians;

    // Parallax: Meeus chapters 11 and 40.
    const double phi = place.latitude_deg * radians;
    const double u = std::atan(0.99664719 * std::tan(phi));
    const double height = place.height_m / 6'378'140;
    const double x = std::cos(u) + height * std::cos(phi);
    const double y = 0.99664719 * std::sin(u) + height * std::sin(phi);
    const double parallax = std::sin(8.794 / 3600 * radians) / node.distance_au;
    const double shift
        = std::atan2(-x * parallax * std::sin(hour), std::cos(declination) - x * parallax * std::cos(hour));
    const double lower = std::atan2((std::sin(declination) - y * parallax) * std::cos(shift),
        std::cos(declination) - x * parallax * std::cos(hour));
    const double hour_here = hour - shift;

    SunPosition sun;
    sun.distance_au = node.distance_au;
    sun.declination_deg = lower / radians;
    sun.hour_angle_deg = std::remainder(hour_here / radians, 360.0);
    const double elevation
        = std::asin(std::clamp(
              std::sin(phi) * std::sin(lower) + std::cos(phi) * std::cos(lower) * std::cos(hour_here), -1.0, 1.0))
        / radians;
    sun.zenith_deg = 90 - elevation;
    const double pressure = air.pressure_hpa.value_or(pressureAt(place.height_m));
    sun.apparent_zenith_deg = sun.zenith_deg - refraction(elevation, pressure, air.temperature_c);
    sun.azimuth_deg = wrap360(180
        + std::atan2(std::sin(hour_here) * std::cos(lower),
              std::cos(hour_here) * std::cos(lower) * std::sin(phi) - std::sin(lower) * std::cos(phi))
            / radians);
    return sun;
}

/// Longitude jumps at 360: the same way round as the first one.
double unwrapped(double degrees, double beside)
{
    return beside + std::remainder(degrees - beside, 360.0);
}

// A cubic through nodes four days apart is good to 0.00003 degrees.
constexpr double nodeDays = 4;

/// The series at a multiple of four days. It takes 50 us, and a term's prints ask for the same few: each thread keeps
/// those that it has asked for.
const SunTrack::Node& keptNode(int index)
{
    static thread_local std::unordered_map<int, SunTrack::Node> kept;
    constexpr size_t most = 4096; // 45 years
    if (const auto there = kept.find(index); there != kept.end())
        return there->second;
    if (kept.size() >= most)
        kept.clear();
    return kept.emplace(index, nodeAt(index * nodeDays)).first->second;
}

} // namespace

double pressureAt(double height_m)
{
    // Standard atmosphere, US Standard Atmosphere 1976 below 11 km, as a power law; 1013.25 hPa at the sea.
    return std::pow((44331.514 - std::clamp(height_m, -1000.0, 11'000.0)) / 11880.516, 1 / 0.1902632);
}

double deltaT_s(double year)
{
    const double t = year - 2000;
    if (year < 1986) { // 1961 to 1986
        const double s = year - 1975;
        return 45.45 + 1.067 * s - s * s / 260 - s * s * s / 718;
    }
    if (year < 2005)
        return 63.86 + t * (0.3345 + t * (-0.060374 + t * (0.0017275 + t * (0.000651814 + t * 0.00002373599))));
    // Measured: 69.2 s in 2020 and level since (from memory); the old forecast ran 3 s ahead.
    if (year < 2020)
        return 64.69 + (year - 2005) * (69.2 - 64.69) / 15;
    return 69.2 + std::max(0.0, year - 2030) * 0.5;
}

double airMass(double apparent_zenith_deg)
{
    const double zenith = std::clamp(apparent_zenith_deg, 0.0, 90.0);
    return 1 / (std::cos(zenith * radians) + 0.50572 * std::pow(96.07995 - zenith, -1.6364));
}

SunPosition sunAt(Instant when, const Place& place, const Air& air)
{
    const double julian = julianDate(when);
    return seenFrom(nodeAt(julian), julian, place, air);
}

SunTrack::SunTrack(Instant from, Instant to)
{
    const auto first = std::floor(julianDate(from) / nodeDays) - 1;
    const auto last = std::floor(julianDate(to) / nodeDays) + 2;
    first_ = first * nodeDays;
    for (double i = first; i <= last; ++i) {
        nodes_.push_back(keptNode(static_cast<int>(i)));
        if (nodes_.size() > 1)
            nodes_.back().longitude_deg
                = unwrapped(nodes_.back().longitude_deg, nodes_[nodes_.size() - 2].longitude_deg);
    }
}

SunPosition SunTrack::at(Instant when, const Place& place, const Air& air) const
{
    const double julian = julianDate(when);
    const double position = (julian - first_) / nodeDays;
    if (position < 1 || position > static_cast<double>(nodes_.size() - 2))
        return seenFrom(nodeAt(julian), julian, place, air);

    const auto base = std::min(static_cast<size_t>(position), nodes_.size() - 3) - 1;
    const double x = position - static_cast<double>(base); // 1 to 2: Lagrange's cubic through 0, 1, 2, 3
    const std::array<double, 4> w { -(x - 1) * (x - 2) * (x - 3) / 6, x * (x - 2) * (x - 3) / 2,
        -x * (x - 1) * (x - 3) / 2, x * (x - 1) * (x - 2) / 6 };
    Node node {};
    for (size_t i = 0; i < w.size(); ++i) {
        const auto& n = nodes_[base + i];
        node.longitude_deg += w[i] * n.longitude_deg;
        node.latitude_deg += w[i] * n.latitude_deg;
        node.obliquity_deg += w[i] * n.obliquity_deg;
        node.equinoxes_deg += w[i] * n.equinoxes_deg;
        node.distance_au += w[i] * n.distance_au;
    }
    return seenFrom(node, julian, place, air);
}

} // namespace washfast::light
