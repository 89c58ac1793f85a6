// Of several rows that fit a print field (two readings of one spot), the one that counts: a source lists what decides,
// first things first. Readers and writers of a field use the same rule, so that what is changed is what is shown.
#pragma once

#include "core/quantity/field.h"

#include <array>

namespace washfast {

/// Smaller is better; of equals the later row counts.
using Rank = std::array<int, 4>;

/// `value` is that of the field in the row; `get` gives a column of the row by its key. A row without a value comes
/// last, whatever else it says.
template <typename Get> [[nodiscard]] Rank rankOf(const std::vector<Preference>& prefer, const Known& value, Get get)
{
    Rank rank {};
    rank[0] = value.has() ? 0 : 1;
    for (size_t i = 0; i < prefer.size() && i + 1 < rank.size(); ++i) {
        const auto& [column, order] = prefer[i];
        if (column.isEmpty()) {
            rank[i + 1] = int(value.evidence);
            continue;
        }
        const auto said = Known(get(column)).text().value_or(QString());
        int place = 0;
        while (place < int(order.size()) && !order[place].contains(said))
            ++place;
        rank[i + 1] = place;
    }
    return rank;
}

} // namespace washfast
