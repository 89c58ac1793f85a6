// The two tones: was the blue missing before the rinse already, or was it lost after it?
#pragma once

#include "core/causes/prepared.h"

namespace washfast::causes {

/// Compares the failed with the kept prints (of a number: the worse half with the better half). With a tone missing,
/// `says` tells which question cannot be answered. `says` is empty when the table has no tones at all to look for.
[[nodiscard]] Tones compareTones(const Prepared& prepared);

} // namespace washfast::causes
