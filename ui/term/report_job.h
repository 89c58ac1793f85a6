// A term's report made beside the window: reads the notebook again on a connection of its own, asks the search for
// causes, lays out and writes. Shares nothing with the desk but the catalogue.
#pragma once

#include "core/exchange/report.h"

#include <functional>

namespace washfast::ui {

struct ReportWanted {
    QString notebook; // path of the file
    std::optional<QString> term; // none: everything
    QString path; // ends in .html or .pdf
    QDate written;
};

/// For any thread. `keep_going` is told the share that is done, 0 .. 1; when it says false nothing is written, an older
/// file stays, and the answer is the error of report::stopped().
[[nodiscard]] Result<exchange::ExportDone> makeTermReport(
    const Catalogue& catalogue, const ReportWanted& wanted, const std::function<bool(double)>& keep_going);

} // namespace washfast::ui
