// Logistic regression with Firth's penalty (Biometrika 80 (1993) 27; Heinze and Schemper, Stat. Med. 21 (2002) 2409):
//
//   maximise l*(b) = l(b) + 1/2 ln |I(b)|,   I = X'WX,   w = pi (1 - pi)
//
// It stays finite when a factor separates the failed from the kept. Tests and intervals are by the penalised profile
// likelihood with chi-squared on 1 degree of freedom, not by standard errors.
#pragma once

#include "core/stats/matrix.h"

#include <optional>
#include <variant>
#include <vector>

namespace washfast::stats {

struct FirthTerm {
    double estimate = 0.0; // log odds; per unit of the column
    std::optional<double> low, high; // profile interval; empty when an end was not found
    double p = 1.0; // penalised likelihood ratio test of 0
};

struct FirthFit {
    std::vector<FirthTerm> terms; // the constant first, then one a column
    double penalised_log_likelihood = 0.0;
};

enum class FirthTrouble {
    TooFewRows, // no rows, or fewer rows than terms
    SameOutcome, // all failed or all kept
    RankDeficient, // a column is constant or follows from the others
    NotConverged
};

struct FirthOptions {
    double confidence = 0.95;
    bool intervals = true; // also p; false gives the estimates only
};

/// `columns`: one row a print, without the constant. `failed`: 0 or 1 for each row.
[[nodiscard]] std::variant<FirthFit, FirthTrouble> firth(
    const Matrix& columns, const Vector& failed, const FirthOptions& options = {});

} // namespace washfast::stats
