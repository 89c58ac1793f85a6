// Records of one print that cannot be true together, or hardly: an end before its start or years after it, a rinse
// before the exposure ended, a coated sheet that weighs less than the bare one. Import refuses what is impossible, and
// what lasts too long unless numbers of any size are wanted; `check` tells about all of it.
#pragma once

#include "core/trial/notebook.h"

#include <functional>
#include <vector>

namespace washfast::exchange {

struct Contradiction {
    QString field; // key of the print field to look at first
    QString says; // one sentence that names both sides
    bool impossible = false; // or only hard to believe
    bool too_long = false; // a station that lasts longer than is plausible
};

/// `get` gives a print field by its key; unknown keys are unknown values.
[[nodiscard]] std::vector<Contradiction> contradictions(
    const Catalogue& catalogue, const std::function<Known(const QString& key)>& get);

struct Finding {
    QString print; // code; empty when it is about another record
    QString field; // key; empty when it is about no single one
    QString says;
};

/// Everything in a notebook that contradicts itself, lies outside the plausible range, or could not be read.
[[nodiscard]] std::vector<Finding> findContradictions(const Notebook& notebook);

} // namespace washfast::exchange
