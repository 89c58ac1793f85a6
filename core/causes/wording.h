// The answer in plain sentences, built from its numbers.
#pragma once

#include "core/causes/judgement.h"
#include "core/causes/missing_prints.h"

namespace washfast::causes {

[[nodiscard]] QString whySentences(const Prepared& prepared, const std::vector<FactorEvidence>& evidence,
    const Judgement& judgement, const MoreNeeded& more);

} // namespace washfast::causes
