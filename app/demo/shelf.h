// Writes what the prints of the example point at: place, term, bottles, recipes, mixes, papers, covers, negatives,
// lessons.
#pragma once

#include "app/demo/pen.h"
#include "app/demo/scenario.h"

namespace washfast::demo {

/// Ids in the file, in the order of the scenario.
struct Shelf {
    qint64 site = 0, term = 0;
    std::vector<qint64> papers, covers, negatives, mixes;
};

[[nodiscard]] Shelf writeShelf(Pen& pen, const Scenario& scenario);
[[nodiscard]] qint64 writeLesson(Pen& pen, const Shelf& shelf, const Lesson& lesson);

} // namespace washfast::demo
