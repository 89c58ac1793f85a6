// A term in numbers: each session with what became of its prints. Nothing here is a widget.
#pragma once

#include "core/trial/print_columns.h"

namespace washfast::ui {

struct SessionSummary {
    qint64 session = 0;
    QString code, group;
    std::optional<Instant> start;
    int prints = 0;
    int judged = 0; // with an outcome
    int failed = 0;
    int waiting = 0; // rinsed or not, with the tone before the rinse only: the one a day after is still to be read
    std::optional<double> median_net, median_kept;
};

/// Sessions of a term (0: all sessions), in the order of their start.
[[nodiscard]] std::vector<SessionSummary> summariesOf(const PrintColumns& columns, qint64 term);

} // namespace washfast::ui
