// Several factors together: Firth's logistic regression with profile intervals for an outcome of yes and no, Huber's
// robust straight-line regression for a number.
#pragma once

#include "core/causes/prepared.h"

namespace washfast::causes {

/// Fits the named factors together. Sets `problem` to a sentence when that cannot be done.
[[nodiscard]] std::optional<FittedModel> fitModel(const Prepared& prepared, const QStringList& names, QString& problem);

/// As many of the factors as the prints can bear, by their own p: one term for each five prints of the rarer outcome (a
/// working rule, not published), or for each eight prints of an outcome that is a number. Factors that follow from
/// those before them, that cannot be told from one of them, or are known for fewer than four prints in five, are passed
/// over. Empty when the prints can bear fewer than two terms.
[[nodiscard]] std::optional<FittedModel> modelTheyBear(
    const Prepared& prepared, const std::vector<FactorEvidence>& evidence);

} // namespace washfast::causes
