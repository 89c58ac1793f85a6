// Prints that were made together: when a factor was the same for all prints of each batch (a bottle of mix, a tray, a
// lesson), the batch and not the sheet is what was tried. Whole batches are exchanged then, and their number counts.
#pragma once

#include "core/causes/prepared.h"

namespace washfast::causes {

/// Sets batch, n_batches and p_batch when the factor was the same within every batch of some kind, and at least one
/// batch has several prints. Of several such kinds the one with the fewest batches is taken.
void lookAtBatches(const Prepared& prepared, std::size_t column, const Options& options, FactorEvidence& evidence);

/// "For “Mix stored” the mix and not the sheet is the unit: 2 mixes." Empty when every factor varied within batches.
[[nodiscard]] QString unitSentence(const std::vector<FactorEvidence>& evidence);

} // namespace washfast::causes
