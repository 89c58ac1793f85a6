// What speaks for the answer and what against it, in single sentences, and what a rival cause would have shown instead.
#pragma once

#include "core/causes/judgement.h"

namespace washfast::causes {

/// Fills evidence_for, evidence_against, signs and rival_would_show; `answer` has its numbers and prints already.
void giveReasons(const Prepared& prepared, const Judgement& judgement, const Options& options, Answer& answer);

} // namespace washfast::causes
