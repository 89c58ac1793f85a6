// Roughly how many more prints would let these prints speak.
#pragma once

#include "core/causes/prepared.h"

namespace washfast::causes {

struct MoreNeeded {
    std::optional<int>
        prints; // 0: there would have been enough for a difference as large as `assumed`; empty: far too many
    QString assumed; // the difference that the number is for, as part of a sentence
};

/// For the factor with the smallest p when it shows a difference worth the name, else for a large difference (9 in 10
/// against 2 in 10 of the prints, or a correlation of 0.6). Power 0.8 at `alpha` shared among the `tested` factors.
[[nodiscard]] MoreNeeded moreNeeded(const Prepared& prepared, const FactorEvidence* lead,
    std::optional<std::size_t> column, int tested, const Options& options);

} // namespace washfast::causes
