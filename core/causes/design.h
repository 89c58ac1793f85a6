// Columns of numbers for a fit: numbers as they are, yes/no as 1 and 0, a choice as one 0/1 column for each level but
// the first.
#pragma once

#include "core/causes/prepared.h"
#include "core/stats/matrix.h"

namespace washfast::causes {

struct Design {
    stats::Matrix columns;
    QStringList terms; // name, or name=level
};

/// The factor as it is. Levels that do not occur in these rows are left out.
void addColumns(Design& design, const Column& column, const std::vector<std::size_t>& rows);

/// The factor as something to be held equal: a number of few values by its levels, any other number by its straight
/// line and by the step that tells the outcome best (causes are often thresholds).
void addAsRival(Design& design, const Prepared& prepared, const Column& column, const std::vector<std::size_t>& rows);

[[nodiscard]] stats::Vector outcomeOf(const Prepared& prepared, const std::vector<std::size_t>& rows);

} // namespace washfast::causes
