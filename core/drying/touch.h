// How a coat feels, as a range of the water left in it. No published table was found: the ranges are this program's
// assumption and can be changed.
#pragma once

#include "core/drying/bracket.h"

#include <QString>
#include <optional>

namespace washfast::drying {

/// Share of the coat's water still in the sheet, per cent, for each choice of the catalogue's touch_state.
struct TouchRanges {
    Bracket wet_shine { 60.0, 82.0, 100.0 };
    Bracket clings { 30.0, 48.0, 70.0 };
    Bracket cool { 10.0, 20.0, 40.0 };
    Bracket dry { 1.0, 5.0, 14.0 };
    Bracket crisp { 0.0, 1.5, 4.0 };

    /// By the key of a touch_state; nothing for a key that is none.
    [[nodiscard]] std::optional<Bracket> of(const QString& touch_state) const;
};

} // namespace washfast::drying
