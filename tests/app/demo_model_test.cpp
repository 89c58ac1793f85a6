// The small model behind the example notebook, against values from outside and for the direction of its effects.
#include "app/demo/forward_model.h"
#include "app/demo/tone_colour.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>
#include <string>
#include <vector>

namespace WASHFAST_FILE {

using namespace washfast;

// Reda & Andreas, NREL/TP-560-34302 (2004), worked example: topocentric elevation without refraction.
TEST(DemoModel, SunHeightOfAPublishedExample)
{
    EXPECT_NEAR(
        demo::sunHeightDeg(39.742476, -105.1786, *Instant::fromIso(std::string_view("2003-10-17T12:30:30-07:00"))),
        39.872046, 0.02);
}

// Output of NREL's spectrl2_2.c (Bird and Riordan's model), mid-March, zenith 47.912 degrees, 0.344 atm-cm of ozone,
// aerosol 0.1, ground 0.2: global W/m2 per nm at these wavelengths, added up by trapezia. The table is for midsummer
// and darker ground, which makes it about 7 % lower; 12 % are allowed.
TEST(DemoModel, ClearSkyIsNearAPublishedSpectrum)
{
    const std::vector<std::pair<double, double>> global { { 310, 0.0532786 }, { 320, 0.1714556 }, { 330, 0.3382609 },
        { 340, 0.3549722 }, { 350, 0.4107106 }, { 360, 0.4314383 }, { 370, 0.5160273 }, { 380, 0.5281409 },
        { 390, 0.5118466 }, { 400, 0.7553230 } };
    double sum = -5.0 * (0.0532786 + (0.0532786 + 0.1714556) / 2) / 2; // from 315 only
    for (size_t i = 1; i < global.size(); ++i)
        sum += (global[i].first - global[i - 1].first) * (global[i].second + global[i - 1].second) / 2;
    EXPECT_NEAR(demo::clearSkyUva(90.0 - 47.912), sum, 0.12 * sum);
    EXPECT_EQ(demo::clearSkyUva(-5.0), 0.0);
}

// ASHRAE Handbook Fundamentals 2017, chapter 1, table 3: 872.6 Pa at 5 degrees, 3169.7 Pa at 25.
TEST(DemoModel, VapourDeficitOfDryAirIsThePublishedSaturationPressure)
{
    EXPECT_NEAR(demo::vapourDeficitKpa(5.0, 0.0), 0.8726, 0.0026);
    EXPECT_NEAR(demo::vapourDeficitKpa(25.0, 0.0), 3.1697, 0.0095);
    EXPECT_NEAR(demo::vapourDeficitKpa(25.0, 60.0), 0.4 * 3.1697, 0.0038);
}

TEST(DemoModel, DosesDrynessAndRinsesWorkInTheRightDirection)
{
    // Hill's form with n = 2: at ten times the dose of half density, 100/101 of it.
    EXPECT_NEAR(demo::curve(0.65), 0.5, 1e-12);
    EXPECT_NEAR(demo::curve(6.5), 100.0 / 101.0, 1e-12);
    EXPECT_EQ(demo::curve(0.0), 0.0);
    EXPECT_EQ(demo::moistureAfterDrying(0.0, 20.0, 1.2, "hung", false), 1.0);
    EXPECT_GT(demo::moistureAfterDrying(20.0, 30.0, 1.2, "hung", false),
        demo::moistureAfterDrying(20.0, 15.0, 1.2, "hung", false));
    EXPECT_GT(demo::moistureAfterDrying(20.0, 20.0, 0.6, "hung", false),
        demo::moistureAfterDrying(20.0, 20.0, 1.2, "hung", false));
    EXPECT_GT(demo::moistureAfterDrying(20.0, 20.0, 1.2, "hung", true),
        demo::moistureAfterDrying(20.0, 20.0, 1.2, "hung", false));
    EXPECT_GT(demo::moistureAfterDrying(20.0, 20.0, 1.2, "flat", false),
        demo::moistureAfterDrying(20.0, 20.0, 1.2, "fan", false));
    EXPECT_GT(demo::keptByDryness(0.03), 0.9);
    EXPECT_LT(demo::keptByDryness(0.35), 0.2);
    EXPECT_GT(demo::washRate(9.0), 5.0 * demo::washRate(7.3));
}

// The averages of 30 charts in xyY for D50 and the sRGB codes given for them (D. Pascale, BabelColor, 2006): see the
// list of sources beside the data. Codes are whole numbers, which moves a dark
// patch by two units; patch 18 lies outside what sRGB can show.
TEST(DemoModel, LabOfAPublishedChart)
{
    const auto rowsOf = [](const char* name) {
        std::ifstream file(std::string(WASHFAST_REFERENCE "/colour/") + name);
        EXPECT_TRUE(file.is_open()) << name;
        std::vector<std::vector<std::string>> rows;
        for (std::string line; std::getline(file, line);) {
            std::istringstream cells(line);
            auto& row = rows.emplace_back();
            for (std::string cell; std::getline(cells, cell, ',');)
                row.push_back(cell);
        }
        return rows;
    };
    const auto codes = rowsOf("chart24_srgb_pascale2006.csv");
    const auto chart = rowsOf("chart24_reference.csv");
    ASSERT_EQ(codes.size(), 25u);
    ASSERT_EQ(chart.size(), 25u);
    const auto column = [&](const char* name) {
        return size_t(std::find(chart[0].begin(), chart[0].end(), name) - chart[0].begin());
    };
    const auto linear = [](const std::string& code) {
        const double v = std::stod(code) / 255.0;
        return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
    };
    const auto f = [](double t) { return t > 216.0 / 24389.0 ? std::cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0; };
    for (size_t patch = 1; patch <= 24; ++patch) {
        if (patch == 18)
            continue;
        const double x = std::stod(chart[patch][column("x_avg_D50")]);
        const double y = std::stod(chart[patch][column("y_avg_D50")]);
        const double big_y = std::stod(chart[patch][column("Y_avg_D50")]);
        const double fx = f(x / y * big_y / 0.9642);
        const double fy = f(big_y);
        const double fz = f((1 - x - y) / y * big_y / 0.8251);
        const auto lab = demo::labOf(linear(codes[patch][1]), linear(codes[patch][2]), linear(codes[patch][3]));
        EXPECT_NEAR(lab.l, 116 * fy - 16, 1.0) << "patch " << patch;
        EXPECT_NEAR(lab.a, 500 * (fx - fy), 2.5) << "patch " << patch;
        EXPECT_NEAR(lab.b, 200 * (fy - fz), 2.5) << "patch " << patch;
    }
}

} // namespace WASHFAST_FILE
