// A term into a file of any kind that there is: tables by core/exchange, and the printable report as .html or .pdf.
#pragma once

#include "core/exchange/report.h"

namespace washfast::report {

/// True for the endings .html and .pdf.
[[nodiscard]] bool isReport(const QString& path);

/// As exchange::exportPrints, with reports too; `contents` says what is in a report. A PDF needs a QGuiApplication.
[[nodiscard]] Result<exchange::ExportDone> exportTerm(
    const exchange::ExportSelection& selection, const QString& path, const exchange::ReportOptions& contents = {});

} // namespace washfast::report
