#include "core/drying/air.h"

#include <algorithm>
#include <cmath>

namespace washfast::drying {

namespace {

constexpr double zeroCelsius_k = 273.15;

double saturationMagnusExponent(double temperature_c, const Magnus& magnus)
{
    return magnus.b * temperature_c / (magnus.c + temperature_c);
}

} // namespace

double saturationIf97_pa(double temperature_c)
{
    // Coefficients of region 4.
    constexpr double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2,
                     n4 = 0.12020824702470e5, n5 = -0.32325550322333e7, n6 = 0.14915108613530e2,
                     n7 = -0.48232657361591e4, n8 = 0.40511340542057e6, n9 = -0.23855557567849,
                     n10 = 0.65017534844798e3;
    const double kelvin = temperature_c + zeroCelsius_k;
    const double theta = kelvin + n9 / (kelvin - n10);
    const double a = theta * theta + n1 * theta + n2;
    const double b = n3 * theta * theta + n4 * theta + n5;
    const double c = n6 * theta * theta + n7 * theta + n8;
    return 1e6 * std::pow(2.0 * c / (-b + std::sqrt(b * b - 4.0 * a * c)), 4.0);
}

double saturationBuck_pa(double temperature_c)
{
    return 611.21 * std::exp(17.502 * temperature_c / (240.97 + temperature_c));
}

double saturationBuckIce_pa(double temperature_c)
{
    return 611.15 * std::exp(22.452 * temperature_c / (272.55 + temperature_c));
}

double saturation_pa(double temperature_c)
{
    return temperature_c >= 0 ? saturationIf97_pa(temperature_c) : saturationBuck_pa(temperature_c);
}

double vapourPressure_kpa(const Air& air)
{
    return saturation_pa(air.temperature_c) * air.humidity_pct / 100.0 / 1000.0;
}

double vapourPressureDeficit_kpa(const Air& air)
{
    return std::max(0.0, saturation_pa(air.temperature_c) / 1000.0 - vapourPressure_kpa(air));
}

double dewPoint_c(const Air& air, const Magnus& magnus)
{
    const double gamma = std::log(air.humidity_pct / 100.0) + saturationMagnusExponent(air.temperature_c, magnus);
    return magnus.c * gamma / (magnus.b - gamma);
}

double humidityFromDewPoint_pct(double temperature_c, double dew_point_c, const Magnus& magnus)
{
    return 100.0
        * std::exp(saturationMagnusExponent(dew_point_c, magnus) - saturationMagnusExponent(temperature_c, magnus));
}

double absoluteHumidity_g_m3(const Air& air)
{
    // 216.7 = molar mass of water over the gas constant, for hPa: 18.015 / 8.314 x 100.
    return 216.7 * vapourPressure_kpa(air) * 10.0 / (zeroCelsius_k + air.temperature_c);
}

double humidityRatio(double vapour_pressure_pa, double pressure_pa)
{
    return 0.621945 * vapour_pressure_pa / (pressure_pa - vapour_pressure_pa);
}

double humidityRatioFromWetBulb(double temperature_c, double wet_bulb_c, double pressure_pa)
{
    // ASHRAE Fundamentals 2017, chapter 1, equations 33 and 35.
    if (wet_bulb_c >= 0) {
        const double saturated = humidityRatio(saturation_pa(wet_bulb_c), pressure_pa);
        return ((2501.0 - 2.326 * wet_bulb_c) * saturated - 1.006 * (temperature_c - wet_bulb_c))
            / (2501.0 + 1.86 * temperature_c - 4.186 * wet_bulb_c);
    }
    const double saturated = humidityRatio(saturationBuckIce_pa(wet_bulb_c), pressure_pa);
    return ((2830.0 - 0.24 * wet_bulb_c) * saturated - 1.006 * (temperature_c - wet_bulb_c))
        / (2830.0 + 1.86 * temperature_c - 2.1 * wet_bulb_c);
}

double wetBulb_c(const Air& air, double pressure_pa)
{
    const double wanted = humidityRatio(1000.0 * vapourPressure_kpa(air), pressure_pa);
    double low = -60.0, high = air.temperature_c; // the ratio rises with the wet bulb
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2.0;
        (humidityRatioFromWetBulb(air.temperature_c, middle, pressure_pa) < wanted ? low : high) = middle;
    }
    return (low + high) / 2.0;
}

Bracket evaporation_g_m2_h(const Air& air, double speed_m_s, double pressure_pa)
{
    const double surface = humidityRatio(saturation_pa(wetBulb_c(air, pressure_pa)), pressure_pa);
    const double around = humidityRatio(1000.0 * vapourPressure_kpa(air), pressure_pa);
    const double likely = 1000.0 * (25.0 + 19.0 * speed_m_s) * std::max(0.0, surface - around);
    return { 0.6 * likely, likely, 1.4 * likely };
}

} // namespace washfast::drying
