// Writes down one print as a teacher would: whole minutes, a balance of 0.01 g, densities to 0.01, sky and touch by
// eye, and gaps.
#pragma once

#include "app/demo/shelf.h"

namespace washfast::demo {

/// `pencil` decides errors and gaps only; what happened is in `truth`.
void writePrint(Pen& pen, const Scenario& scenario, const Shelf& shelf, qint64 session, const SheetPlan& sheet,
    const Truth& truth, Chance& pencil);

/// The outcomes that somebody who looks at the print would note, joined as they are stored: from the densities, by
/// thresholds.
[[nodiscard]] QStringList judged(const SheetPlan& sheet, const Truth& truth, Chance& eye);

} // namespace washfast::demo
