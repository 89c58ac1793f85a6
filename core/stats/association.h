// How strongly two columns of the same prints go together, from 0 (not at all) to 1 (the one tells the other), and how
// many prints disagree. A correlation keeps its sign.
//
// Each of the measures for choices has a second form with the part taken away that chance alone would give when there
// are many choices and few prints (Bergsma, J. Korean Stat. Soc. 42 (2013) 323, for Cramer's V; Kelley, Proc. Natl.
// Acad. Sci. 21 (1935) 554, for the correlation ratio). All are empty when a column does not vary.
#pragma once

#include <optional>
#include <span>

namespace washfast::stats {

[[nodiscard]] std::optional<double> pearson(std::span<const double> x, std::span<const double> y);
[[nodiscard]] std::optional<double> spearman(std::span<const double> x, std::span<const double> y);

struct ChoiceAssociation {
    double plain = 0.0;
    double corrected = 0.0;
};

/// Cramer's V of two choices, numbered from 0.
[[nodiscard]] std::optional<ChoiceAssociation> cramersV(std::span<const int> a, std::span<const int> b);

/// Correlation ratio (eta): share of the spread of the values that lies between the choices, as a square root.
[[nodiscard]] std::optional<ChoiceAssociation> correlationRatio(
    std::span<const int> choice, std::span<const double> values);

/// Two-level columns (0/1): how many prints would have to change for the two to say the same (or always the opposite).
[[nodiscard]] int printsThatDisagree(std::span<const int> a, std::span<const int> b);

/// The cut of a number that tells a two-level column best.
struct Cut {
    double at = 0.0; // half way between two neighbouring values
    bool above_is_one = true;
    int disagree = 0; // prints on the wrong side
};

/// Empty when the number does not vary.
[[nodiscard]] std::optional<Cut> bestCut(std::span<const double> x, std::span<const int> level);

} // namespace washfast::stats
