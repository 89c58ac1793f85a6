// The history of a print in words: when, what, from what to what.
#pragma once

#include "core/store/history.h"
#include "core/trial/notebook.h"

namespace washfast::ui {

struct HistoryLine {
    QString when; // local date and time
    QString what; // label of the field or "added"
    QString change; // old -> new
    QString step; // what the person did
};

/// Newest first.
[[nodiscard]] std::vector<HistoryLine> historyLines(
    const std::vector<store::HistoryEntry>& entries, const Notebook& notebook);

} // namespace washfast::ui
