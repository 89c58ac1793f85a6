// Writes the densities and colours that were read from one print: by photo before the rinse, by scan a day after.
#pragma once

#include "app/demo/pen.h"
#include "app/demo/scenario.h"

namespace washfast::demo {

void writeReadings(
    Pen& pen, const Scenario& scenario, const SheetPlan& sheet, const Truth& truth, Chance& pencil, qint64 print);

} // namespace washfast::demo
