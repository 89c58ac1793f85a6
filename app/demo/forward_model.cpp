#include "app/demo/forward_model.h"

#include "app/demo/scenario.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <numbers>

namespace washfast::demo {

namespace {

constexpr double radian = std::numbers::pi / 180.0;

double logistic(double x)
{
    return 1.0 / (1.0 + std::exp(-x));
}

/// How quickly each way of drying works, against lying flat in still air. Invented for the example.
double dryingTimeFactor(const char* method)
{
    if (std::strcmp(method, "hung") == 0)
        return 0.9;
    if (std::strcmp(method, "fan") == 0)
        return 0.55;
    if (std::strcmp(method, "dryer_cool") == 0)
        return 0.35;
    if (std::strcmp(method, "dryer_hot") == 0)
        return 0.22;
    return 1.0;
}

/// A thin coat cannot give the full density; 1 at 20 mL/m2.
double coatShare(double coat_ml_m2)
{
    return (1.0 - std::exp(-coat_ml_m2 / 9.0)) / (1.0 - std::exp(-20.0 / 9.0));
}

/// Light at the paper at one moment, W/m2.
double atPaper(const Scenario& scenario, const SheetPlan& sheet, const Sky& sky, double minute)
{
    const auto& session = scenario.sessions[size_t(sheet.session)];
    const double height = sunHeightDeg(siteLatitudeDeg, siteLongitudeDeg, session.at(minute));
    const double cover = sheet.cover ? scenario.covers[size_t(*sheet.cover)].transmittance : 1.0;
    // About half of the ultraviolet comes from the sky; a wall takes its share of that.
    return clearSkyUva(height) * session.clearness * sky.factor * cover * (0.5 + 0.5 * sheet.sky_share);
}

double fogOf(const SheetPlan& sheet, double mix_age_h)
{
    // A mix veils the whites when it is about a day old.
    return 0.008 + 0.09 * logistic((mix_age_h - 23.0) / 1.2) + sheet.stray_light;
}

} // namespace

double sunHeightDeg(double latitude_deg, double longitude_deg, const Instant& at)
{
    // Meeus, Astronomical Algorithms, chapter 25, low accuracy; dynamical and universal time are taken as one.
    const double jd = double(at.ms_utc) / 86'400'000.0 + 2'440'587.5;
    const double t = (jd - 2'451'545.0) / 36'525.0;
    const double mean_longitude = 280.46646 + 36'000.76983 * t;
    const double anomaly = (357.52911 + 35'999.05029 * t) * radian;
    const double centre = (1.914602 - 0.004817 * t) * std::sin(anomaly) + 0.019993 * std::sin(2 * anomaly)
        + 0.000289 * std::sin(3 * anomaly);
    const double longitude = (mean_longitude + centre - 0.00569) * radian;
    const double obliquity = (23.439291 - 0.0130042 * t) * radian;
    const double ascension = std::atan2(std::cos(obliquity) * std::sin(longitude), std::cos(longitude));
    const double declination = std::asin(std::sin(obliquity) * std::sin(longitude));
    const double sidereal_deg = 280.46061837 + 360.98564736629 * (jd - 2'451'545.0);
    const double hour_angle = (sidereal_deg + longitude_deg) * radian - ascension;
    const double latitude = latitude_deg * radian;
    return std::asin(std::sin(latitude) * std::sin(declination)
               + std::cos(latitude) * std::cos(declination) * std::cos(hour_angle))
        / radian;
}

double clearSkyUva(double sun_height_deg)
{
    // Worked out for midsummer, 300 DU of ozone, aerosol 0.1 at 500 nm, ground 0.05, sea level with the clear-sky model
    // of Bird and Riordan (NREL/SERI TR-215-2436, 1984, doi 10.2172/5986936), added up from 315 to 400 nm. Zenith angle
    // and W/m2.
    constexpr std::array<std::pair<double, double>, 11> rows { { { 0, 57.44 }, { 20, 52.87 }, { 30, 47.36 },
        { 40, 40.05 }, { 45, 35.84 }, { 50, 31.36 }, { 60, 21.96 }, { 70, 12.85 }, { 75, 8.84 }, { 80, 5.41 },
        { 90, 0 } } };
    const double zenith = std::clamp(90.0 - sun_height_deg, 0.0, 90.0);
    for (size_t i = 1; i < rows.size(); ++i)
        if (zenith <= rows[i].first)
            return std::lerp(
                rows[i - 1].second, rows[i].second, (zenith - rows[i - 1].first) / (rows[i].first - rows[i - 1].first));
    return 0.0;
}

double vapourDeficitKpa(double temperature_c, double humidity_pct)
{
    // Saturation pressure in Tetens' form (17.0523 hPa at 15 degrees).
    const double saturation_kpa = 0.61078 * std::exp(17.269 * temperature_c / (temperature_c + 237.3));
    return saturation_kpa * (1.0 - humidity_pct / 100.0);
}

double moistureAfterDrying(
    double minutes, double coat_ml_m2, double vapour_deficit_kpa, const char* method, bool covered)
{
    // Page's thin-layer curve, exp(-(t/time)^n). The time and n are invented; that it goes with the coat and against
    // the vapour deficit is the usual first estimate. Under film hardly any water leaves.
    const double time
        = 13.0 * (coat_ml_m2 / 20.0) * (1.17 / vapour_deficit_kpa) * dryingTimeFactor(method) * (covered ? 1.7 : 1.0);
    return std::exp(-std::pow(std::max(minutes, 0.0) / time, 1.25));
}

double curve(double dose_j_cm2)
{
    // Logistic in the logarithm of the dose, the same as Hill's form with n = 2. Half of the density at 0.65 J/cm2 lies
    // inside the range that is assumed for a full shadow (3 J/cm2, times or over 2.5).
    constexpr double half = 0.65;
    if (dose_j_cm2 <= 0)
        return 0.0;
    return logistic(2.0 * std::numbers::ln10 * std::log10(dose_j_cm2 / half));
}

double keptByDryness(double moisture)
{
    return 0.97 - 0.87 * logistic((moisture - 0.20) / 0.035);
}

double washRate(double ph)
{
    // Slow below pH 7.5, ten times as fast for each unit above. No published rate is known: invented.
    return ph < 6.0 ? 0.001 : 0.003 + 0.022 * std::pow(10.0, ph - 8.5);
}

Truth befall(const Scenario& scenario, const SheetPlan& sheet, Chance& nature)
{
    const auto& session = scenario.sessions[size_t(sheet.session)];
    const auto& mix = scenario.mixes[size_t(sheet.mix)];
    Truth truth;
    truth.mix_age_h = minutesBetween(mix.made, session.at(sheet.coatStart())) / 60.0;

    const double deficit = vapourDeficitKpa(session.room_c, session.room_humidity_pct);
    const double dried
        = moistureAfterDrying(sheet.dry_minutes, sheet.coat_ml_m2, deficit, sheet.dry_method, sheet.dry_covered);
    // One draw in each statement: the order of two in one expression is the compiler's choice.
    const double sheet_by_sheet = dried * (1.0 + nature.normal(0.10));
    const double left_over = nature.between(0.005, 0.025) + (sheet.early_heat ? 0.05 : 0.0);
    truth.moisture_expose = std::clamp(sheet_by_sheet + left_over, 0.0, 0.98);
    const double in_frame = truth.moisture_expose * std::exp(-sheet.expose_minutes / (sheet.cover ? 120.0 : 45.0));
    truth.moisture_rinse
        = std::clamp(in_frame * std::exp(-sheet.hold_minutes / 150.0) + sheet.water_taken_up, 0.0, 0.98);

    const std::array<double, 3> moments { sheet.expose_at, (sheet.expose_at + sheet.exposeEnd()) / 2,
        sheet.exposeEnd() };
    double mean = 0.0;
    for (size_t i = 0; i < moments.size(); ++i) {
        truth.uva_w_m2[i] = atPaper(scenario, sheet, sheet.sky[i], moments[i]) * (1.0 + nature.normal(0.03));
        mean += truth.uva_w_m2[i] / double(moments.size());
    }
    truth.dose_j_cm2 = mean * sheet.expose_minutes * 60.0 / 1e4; // W/m2 x s = J/m2; 10,000 cm2 in a square metre

    const double speed
        = mix.speed * std::exp(-truth.mix_age_h / 90.0) / (1.0 + std::pow(truth.moisture_expose / 0.45, 2.0));
    const double most = scenario.papers[size_t(sheet.paper)].most_net * coatShare(sheet.coat_ml_m2)
        * (1.0 - 0.35 * truth.moisture_expose) * (1.0 + nature.normal(0.035));
    const auto* negative = sheet.negative ? &scenario.negatives[size_t(*sheet.negative)] : nullptr;
    const double clearest = negative ? std::pow(10.0, -negative->clearest_density) : 1.0;
    truth.formed = most * curve(truth.dose_j_cm2 * clearest * speed);

    double wash = 0.0;
    for (const auto& bath : sheet.baths)
        wash += washRate(bath.ph) * bath.minutes;
    double kept = keptByDryness(truth.moisture_rinse) * std::exp(-wash) * (1.0 + nature.normal(0.03));
    if (sheet.early_heat)
        kept *= 0.60 + nature.normal(0.10);
    if (sheet.coat_ml_m2 > 40.0)
        kept *= 0.8;
    truth.kept = std::clamp(kept, 0.02, 1.05);
    truth.net = truth.formed * truth.kept;
    truth.border_net = most * curve(truth.dose_j_cm2 * speed) * truth.kept;
    truth.fog = fogOf(sheet, truth.mix_age_h);

    if (!sheet.strip_minutes.empty()) {
        double lit = sheet.expose_minutes; // the clearest step had all of the light
        for (auto part = sheet.strip_minutes.rbegin(); part != sheet.strip_minutes.rend(); ++part) {
            truth.step_formed.push_back(most * curve(mean * lit * 60.0 / 1e4 * speed));
            lit -= *part;
        }
    } else if (negative) {
        for (const double density : negative->steps)
            truth.step_formed.push_back(most * curve(truth.dose_j_cm2 * std::pow(10.0, -density) * speed));
    }
    for (const double formed : truth.step_formed)
        truth.step_net.push_back(formed * truth.kept);
    return truth;
}

} // namespace washfast::demo
