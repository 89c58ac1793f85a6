// Labels for the bottles of the notebook: a chemical as it was bought, a mix as it was made.
#pragma once

#include "core/chemistry/audit.h"
#include "core/chemistry/label.h"
#include "core/trial/notebook.h"

namespace washfast::chemistry {

/// Content, formula, form, lot, purity and the day of opening; hazards as they are kept for the substance. Where the
/// substance is not known here the label says so and points at the supplier's.
[[nodiscard]] BottleLabel labelOfChemical(const Notebook& notebook, qint64 chemical);
/// What was weighed, strength, the day it was made; a line to write on where that is not recorded.
[[nodiscard]] BottleLabel labelOfMix(const Notebook& notebook, qint64 mix);
/// The same for a batch that is not recorded yet; `made` is an ISO date.
[[nodiscard]] BottleLabel labelOfBatch(const QString& code, const Audit& audit, const QString& made);

} // namespace washfast::chemistry
