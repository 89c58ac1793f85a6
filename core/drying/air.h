// Water in air: saturation pressure, vapour pressure deficit, dew point, absolute humidity, wet bulb, and how fast a
// wet surface loses water.
//
//   drying::vapourPressureDeficit_kpa({ 20, 50 })   // 1.170
#pragma once

#include "core/drying/bracket.h"

namespace washfast::drying {

inline constexpr double standardPressure_pa = 101325.0;

/// Air of a room. Humidity is relative, in per cent, over liquid water.
struct Air {
    double temperature_c = 20.0;
    double humidity_pct = 50.0;
};

/// Over water, Pa; IAPWS-IF97, region 4 (Wagner et al., J. Eng. Gas Turbines Power 122 (2000) 150); 0 to 373.9 °C.
[[nodiscard]] double saturationIf97_pa(double temperature_c);
/// Over water, Pa; Buck, J. Appl. Meteorol. 20 (1981) 1527, equation of -20 to 50 °C, without the enhancement factor.
[[nodiscard]] double saturationBuck_pa(double temperature_c);
/// Over ice, Pa; the same paper, -50 to 0 °C.
[[nodiscard]] double saturationBuckIce_pa(double temperature_c);
/// Over water, Pa: IF97 from 0 °C up, Buck's equation below. The one that the program uses.
[[nodiscard]] double saturation_pa(double temperature_c);

/// Partial pressure of the water vapour, kPa.
[[nodiscard]] double vapourPressure_kpa(const Air& air);
/// What drives drying: by how much the air falls short of saturation, kPa; never negative.
[[nodiscard]] double vapourPressureDeficit_kpa(const Air& air);

/// e = a exp(b t / (c + t)); c in °C. Only ratios are used, so a is left out.
struct Magnus {
    double b, c;
};
/// Alduchov and Eskridge, J. Appl. Meteorol. 35 (1996) 601 (from memory).
inline constexpr Magnus magnusAlduchovEskridge { 17.625, 243.04 };
/// World Meteorological Organization, Guide to Instruments and Methods of Observation (WMO-No. 8).
inline constexpr Magnus magnusWmo { 17.62, 243.12 };

/// °C. Humidity above 0 %.
[[nodiscard]] double dewPoint_c(const Air& air, const Magnus& magnus = magnusAlduchovEskridge);
/// Per cent.
[[nodiscard]] double humidityFromDewPoint_pct(
    double temperature_c, double dew_point_c, const Magnus& magnus = magnusAlduchovEskridge);
/// Water in the air, g/m³.
[[nodiscard]] double absoluteHumidity_g_m3(const Air& air);

/// Mass of water for a mass of dry air, kg/kg; ASHRAE Fundamentals 2017, chapter 1.
[[nodiscard]] double humidityRatio(double vapour_pressure_pa, double pressure_pa = standardPressure_pa);
/// The same from a wet-bulb reading; over ice below 0 °C.
[[nodiscard]] double humidityRatioFromWetBulb(
    double temperature_c, double wet_bulb_c, double pressure_pa = standardPressure_pa);
/// °C, by the same equations.
[[nodiscard]] double wetBulb_c(const Air& air, double pressure_pa = standardPressure_pa);

/// Water lost by a wet surface while it still looks wet, g/(m² h), near the wet-bulb temperature:
/// (25 + 19 v)(xs - x) kg/(m² h), an engineering formula; other published forms differ by up to 40 %, and that is the
/// range given. `speed_m_s`: of the air over the sheet, 0 for still air.
[[nodiscard]] Bracket evaporation_g_m2_h(const Air& air, double speed_m_s, double pressure_pa = standardPressure_pa);

} // namespace washfast::drying
