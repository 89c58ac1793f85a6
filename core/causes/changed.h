// How an answer changed when new prints came in.
#pragma once

#include "core/causes/answer.h"

namespace washfast::causes {

/// One or two sentences: how many prints came, what the answer was and is, and how the p of the first factor moved.
[[nodiscard]] QString whatChanged(const Answer& before, const Answer& after);

} // namespace washfast::causes
