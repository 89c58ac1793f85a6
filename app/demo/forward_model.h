// A small model of what happens to a sheet, from light and water to density, by which the example notebook is made. It
// stands on its own: the program's own calculations are not used here, so that they can be tried on data that they did
// not make.
//
// Two stages: net density = most that the paper gives x curve(dose x speed) x what the rinse leaves.
#pragma once

#include "app/demo/chance.h"
#include "app/demo/sheet.h"
#include "core/quantity/instant.h"

namespace washfast::demo {

struct Scenario;

/// Height of the sun's centre above the horizon, degrees, without refraction. Good to 0.02 degrees in this century.
[[nodiscard]] double sunHeightDeg(double latitude_deg, double longitude_deg, const Instant& at);
/// Ultraviolet (315-400 nm) on level ground under a clear sky, W/m2. Linear between the rows of a table.
[[nodiscard]] double clearSkyUva(double sun_height_deg);
/// How much more water the air could hold, kPa.
[[nodiscard]] double vapourDeficitKpa(double temperature_c, double humidity_pct);
/// Share of the coat's water that is left after drying in such air.
[[nodiscard]] double moistureAfterDrying(
    double minutes, double coat_ml_m2, double vapour_deficit_kpa, const char* method, bool covered);
/// Share of the highest density that a dose gives, 0 to 1.
[[nodiscard]] double curve(double dose_j_cm2);
/// Share of the formed blue that a rinse leaves on a sheet with this moisture.
[[nodiscard]] double keptByDryness(double moisture);
/// Share lost per minute, as the rate of an exponential, in water of this pH.
[[nodiscard]] double washRate(double ph);

/// What comes of a sheet, with the scatter that sheets of the same making have.
[[nodiscard]] Truth befall(const Scenario& scenario, const SheetPlan& sheet, Chance& nature);

} // namespace washfast::demo
