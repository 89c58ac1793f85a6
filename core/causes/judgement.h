// From the evidence of each factor to one of the three answers.
//
// A cause needs: an adjusted p below alpha; at least four prints on each side; at least one other recorded factor that
// varied; and no rival that these prints cannot tell from it. A rival is a factor that is tied to it (the same in all
// but two prints), that moves with it, or whose own p is small. It is told apart when the factor still goes with the
// outcome, p below alpha, with the rival held equal. What cannot be told apart makes a tangle. So does a factor that
// never changed within a batch (a mix, a tray, a lesson) when whole batches exchanged do not show it, and one that
// follows exactly from several others together.
#pragma once

#include "core/causes/together.h"

namespace washfast::causes {

struct Rival {
    std::size_t column = 0;
    Tie tie;
    std::optional<double> p_held_equal; // of the candidate, with this rival held equal
    bool told_apart = false;
    bool by_several = false; // it is one of several that together give the candidate exactly
    std::optional<std::size_t> together_with; // with that column it gives the candidate exactly
};

struct Candidate {
    std::size_t column = 0;
    std::vector<Rival> rivals; // those that had to be looked at, by their own p
    bool batch_is_unit = false; // and with whole batches exchanged it does not stand out
    QStringList follows_with; // labels, its own too: each follows exactly from the others together
    int others = 0; // other factors that varied and could have been the cause
    [[nodiscard]] bool clear() const;
};

struct Judgement {
    Verdict verdict = Verdict::NotEnough;
    std::vector<std::size_t> named; // columns; a tangle starts with the smallest p
    std::optional<std::size_t> lead; // the column with the smallest p
    std::optional<Candidate> first; // of a cause or a tangle, or of a lone factor
    bool lone = false; // its p is small but nothing else was recorded that varied
    bool too_few = false; // its p is small but one side has fewer than four prints
    QStringList warnings;
};

[[nodiscard]] Judgement judge(
    const Prepared& prepared, const std::vector<FactorEvidence>& evidence, const Options& options);

/// The smaller side of the comparison: prints on the rarer level, or failed or kept. For two numbers: a half of all.
[[nodiscard]] int smallerSide(const Prepared& prepared, const FactorEvidence& evidence, std::size_t column);

constexpr int fewest_on_a_side = 4;

} // namespace washfast::causes
