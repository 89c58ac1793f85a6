// A term into a file of any kind that there is: tables by core/exchange, and the printable report as .html or .pdf.
#pragma once

#include "core/exchange/report.h"

#include <functional>

namespace washfast::report {

/// True for the endings .html and .pdf.
[[nodiscard]] bool isReport(const QString& path);

/// As exchange::makeExport, with reports too; `contents` says what is in a report. A PDF needs a QGuiApplication.
/// `keep_going` is asked while a report is made, with the share that is done, 0 .. 1, and a last time when it is made;
/// when it says false the answer is the error of stopped(). A report may be made on any thread; the notebook of the
/// selection must not change meanwhile.
[[nodiscard]] Result<std::vector<files::FileToWrite>> makeTerm(const exchange::ExportSelection& selection,
    const QString& path, const exchange::ReportOptions& contents = {},
    const std::function<bool(double)>& keep_going = {});

/// Makes it and writes it, as exchange::exportPrints does.
[[nodiscard]] Result<exchange::ExportDone> exportTerm(const exchange::ExportSelection& selection, const QString& path,
    const exchange::ReportOptions& contents = {}, const std::function<bool(double)>& keep_going = {},
    files::Existing existing = files::Existing::Replace);

} // namespace washfast::report
