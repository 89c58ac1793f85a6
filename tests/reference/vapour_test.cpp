// Water in air against published tables; tests/reference/data/chem/SOURCES.md says where each comes from.
#include "core/drying/air.h"

#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace WASHFAST_FILE {

using namespace washfast::drying;

namespace {

/// One row of a table by the names of its columns. Cells may be quoted.
using Row = std::map<std::string, std::string>;

std::vector<std::string> cellsOf(const std::string& line)
{
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"')
            quoted = !quoted;
        else if (c == ',' && !quoted)
            cells.emplace_back();
        else if (c != '\r')
            cells.back() += c;
    }
    return cells;
}

std::vector<Row> table(const std::string& name)
{
    std::ifstream file(std::string(WASHFAST_REFERENCE "/chem/") + name);
    EXPECT_TRUE(file.is_open()) << name;
    std::string line;
    std::getline(file, line);
    const auto headings = cellsOf(line);
    std::vector<Row> rows;
    while (std::getline(file, line)) {
        const auto cells = cellsOf(line);
        auto& row = rows.emplace_back();
        for (std::size_t i = 0; i < cells.size(); ++i)
            row[headings.at(i)] = cells[i];
    }
    return rows;
}

double number(const Row& row, const std::string& column)
{
    return std::stod(row.at(column));
}

} // namespace

// ASHRAE Handbook of Fundamentals 2017, chapter 1, table 3, and IAPWS-IF97, region 4, with its verification value at
// 500 K. Below 0 degrees the handbook's table is over ice.
TEST(VapourReference, SaturationPressure)
{
    int checked = 0;
    for (const auto& row : table("saturation_vapour_pressure.csv")) {
        const double t = number(row, "temperature_C");
        const double published = number(row, "psat_Pa");
        const double found = t < 0 ? saturationBuckIce_pa(t) : saturation_pa(t);
        EXPECT_NEAR(found / published, 1.0, number(row, "rel_tolerance")) << t << " C, " << row.at("origin");
        ++checked;
    }
    EXPECT_EQ(checked, 21);
}

// Buck's equation of 1981 stays within 0.2 % of the same tables where he gives it, up to 50 degrees.
TEST(VapourReference, Buck1981)
{
    int checked = 0;
    for (const auto& row : table("saturation_vapour_pressure.csv")) {
        const double t = number(row, "temperature_C");
        if (t < 0 || t > 50)
            continue;
        EXPECT_NEAR(saturationBuck_pa(t) / number(row, "psat_Pa"), 1.0, 0.002) << t;
        ++checked;
    }
    EXPECT_EQ(checked, 14);
}

// ASHRAE table 2 and worked values of a psychrometric library's tests; World Meteorological Organization's Magnus.
TEST(VapourReference, Humidity)
{
    std::map<std::string, int> checked;
    for (const auto& row : table("humidity_checks.csv")) {
        const auto& quantity = row.at("quantity");
        const double t = number(row, "dry_bulb_C");
        double found = std::nan("");
        if (quantity == "saturation_humidity_ratio")
            found = humidityRatio(saturation_pa(t), number(row, "pressure_Pa"));
        else if (quantity == "vapour_pressure")
            found = 1000.0 * vapourPressure_kpa({ t, 100.0 * number(row, "second_value") });
        else if (quantity == "humidity_ratio_from_vapour_pressure")
            found = humidityRatio(number(row, "second_value"), number(row, "pressure_Pa"));
        else if (quantity == "humidity_ratio_from_wet_bulb")
            found = humidityRatioFromWetBulb(t, number(row, "second_value"), number(row, "pressure_Pa"));
        else if (quantity == "wet_bulb")
            found = wetBulb_c({ t, 100.0 * number(row, "second_value") }, number(row, "pressure_Pa"));
        else if (quantity == "relative_humidity_percent_from_dew_point")
            found = humidityFromDewPoint_pct(t, number(row, "second_value"), magnusWmo);
        else if (quantity == "dry_air_density")
            continue; // nothing here works it out
        const double published = number(row, "result");
        EXPECT_NEAR(found / published, 1.0, number(row, "rel_tolerance")) << quantity << " at " << t;
        ++checked[quantity];
    }
    EXPECT_EQ(checked["saturation_humidity_ratio"], 3);
    EXPECT_EQ(checked["vapour_pressure"], 1);
    EXPECT_EQ(checked["humidity_ratio_from_vapour_pressure"], 1);
    EXPECT_EQ(checked["humidity_ratio_from_wet_bulb"], 2);
    EXPECT_EQ(checked["wet_bulb"], 1);
    EXPECT_EQ(checked["relative_humidity_percent_from_dew_point"], 5);
}

// The Tetens form prints 17.0523 hPa at 15 degrees (Murray, J. Appl. Meteorol. 6 (1967) 203; a published routine gives
// that value): another equation for the same thing, so 0.1 %.
TEST(VapourReference, TetensAtFifteenDegrees)
{
    EXPECT_NEAR(saturation_pa(15.0) / 1705.23, 1.0, 0.001);
    EXPECT_NEAR(saturationBuck_pa(15.0) / 1705.23, 1.0, 0.001);
}

} // namespace WASHFAST_FILE
