// The evidence for one factor by itself: exact test within blocks, difference with interval, counts, log odds.
#pragma once

#include "core/causes/prepared.h"

namespace washfast::causes {

/// All but what concerns other factors (adjusted p, what moves with it, variance inflation).
[[nodiscard]] FactorEvidence evidenceFor(const Prepared& prepared, std::size_t column, const Options& options);

} // namespace washfast::causes
