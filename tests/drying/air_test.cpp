// Water in air. Worked values: by the equations named beside them, worked out apart from this code.
#include "core/drying/air.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::drying;

namespace {

struct Worked {
    double temperature_c, humidity_pct, deficit_kpa, dew_point_c, water_g_m3;
};

} // namespace

// Deficit e_s (1 - RH), Magnus dew point (Alduchov and Eskridge 1996), 216.7 e / T; no published table has these rows.
TEST(Air, WorkedValues)
{
    for (const auto& w : { Worked { 20, 50, 1.170, 9.26, 8.65 }, Worked { 20, 80, 0.468, 16.44, 13.83 },
             Worked { 30, 60, 1.699, 21.39, 18.21 }, Worked { 35, 30, 3.940, 14.85, 11.88 } }) {
        const Air air { w.temperature_c, w.humidity_pct };
        EXPECT_NEAR(vapourPressureDeficit_kpa(air), w.deficit_kpa, 0.0006) << w.temperature_c;
        EXPECT_NEAR(dewPoint_c(air), w.dew_point_c, 0.006) << w.temperature_c;
        EXPECT_NEAR(absoluteHumidity_g_m3(air), w.water_g_m3, 0.02) << w.temperature_c;
    }
}

// Buck's equation of 1981 and Magnus in the form of Alduchov and Eskridge, worked out apart from this code, hPa.
TEST(Air, SaturationByTwoEquations)
{
    struct Row {
        double t, buck_hpa, magnus_hpa;
    };
    for (const auto& row : { Row { 0, 6.1121, 6.1094 }, Row { 10, 12.2760, 12.2602 }, Row { 15, 17.0457, 17.0198 },
             Row { 20, 23.3728, 23.3344 }, Row { 25, 31.6703, 31.6174 }, Row { 30, 42.4351, 42.3665 },
             Row { 40, 73.8418, 73.7472 } }) {
        EXPECT_NEAR(saturationBuck_pa(row.t) / 100.0, row.buck_hpa, 6e-5) << row.t;
        // Only ratios of Magnus are used: the humidity at which this air has its dew point at 0 degrees.
        EXPECT_NEAR(humidityFromDewPoint_pct(row.t, 0.0), 100.0 * 6.1094 / row.magnus_hpa, 2e-3) << row.t;
    }
}

TEST(Air, TheDewPointIsWhereTheVapourSaturates)
{
    for (const double t : { 5.0, 20.0, 35.0 })
        for (const double humidity : { 20.0, 50.0, 90.0, 100.0 }) {
            const double dew = dewPoint_c({ t, humidity });
            EXPECT_LE(dew, t + 1e-9);
            // The two equations of saturation agree within 0.5 %.
            EXPECT_NEAR(saturation_pa(dew) / 1000.0 / vapourPressure_kpa({ t, humidity }), 1.0, 0.005);
            EXPECT_NEAR(humidityFromDewPoint_pct(t, dew), humidity, 1e-9);
        }
}

TEST(Air, SaturatedAirHasNoDeficit)
{
    for (const double t : { -10.0, 0.0, 20.0, 60.0 }) {
        EXPECT_NEAR(vapourPressureDeficit_kpa({ t, 100 }), 0.0, 1e-12);
        EXPECT_EQ(vapourPressureDeficit_kpa({ t, 104 }), 0.0) << "a hygrometer that reads too high";
        EXPECT_NEAR(wetBulb_c({ t, 100 }), t, t < 0 ? 1.2 : 1e-3) << "over ice below zero";
        EXPECT_NEAR(evaporation_g_m2_h({ std::max(t, 0.0), 100 }, 0.2).likely, 0.0, 0.1);
    }
}

TEST(Air, SaturationHasNoStepAtZero)
{
    EXPECT_NEAR(saturation_pa(-1e-9) / saturation_pa(1e-9), 1.0, 1e-4);
}

TEST(Air, WarmerAndDrierAirIsThirstier)
{
    for (double t = -15; t < 60; t += 5)
        for (double humidity = 5; humidity < 95; humidity += 10) {
            const double here = vapourPressureDeficit_kpa({ t, humidity });
            EXPECT_GT(vapourPressureDeficit_kpa({ t + 5, humidity }), here);
            EXPECT_GT(here, vapourPressureDeficit_kpa({ t, humidity + 5 }));
            EXPECT_LE(wetBulb_c({ t, humidity }), t);
        }
}

// Worked with (25 + 19 v)(xs - x), the surface at the wet bulb, by the psychrometer's equation with 6.62e-4 rather than
// the enthalpy balance used here: they agree within 4 %, and the formula itself is good for 40 %.
TEST(Air, EvaporationFromAWetSurface)
{
    struct Drying {
        double temperature_c, humidity_pct, speed_m_s, g_m2_h;
    };
    for (const auto& w : { Drying { 20, 50, 0.2, 75 }, Drying { 20, 80, 0.2, 28 }, Drying { 30, 40, 0.2, 122 },
             Drying { 20, 50, 0.0, 65 } }) {
        const auto found = evaporation_g_m2_h({ w.temperature_c, w.humidity_pct }, w.speed_m_s);
        EXPECT_NEAR(found.likely / w.g_m2_h, 1.0, 0.04) << w.temperature_c << ' ' << w.humidity_pct;
        EXPECT_NEAR(found.low, 0.6 * found.likely, 1e-9);
        EXPECT_NEAR(found.high, 1.4 * found.likely, 1e-9);
    }
    EXPECT_NEAR(wetBulb_c({ 20, 50 }), 13.84, 0.15);
}

} // namespace WASHFAST_FILE
