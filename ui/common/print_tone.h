// The tone pair of a print, from its readings of the deepest spot.
#pragma once

#include "core/trial/print_reader.h"
#include "ui/common/tone_pair.h"

namespace washfast::ui {

struct PrintTones {
    ToneColour before; // just before the rinse
    ToneColour after; // dry, a day after
};

[[nodiscard]] PrintTones tonesOf(const PrintReader& reader, int print_row);

} // namespace washfast::ui
