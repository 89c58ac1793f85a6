// A report on paper: A4, headings of tables again on every page, the number of the page at the foot.
#pragma once

#include "core/exchange/report.h"

namespace washfast::report {

/// The bytes of a PDF. Needs a QGuiApplication for its fonts (the offscreen platform will do): error Failed without
/// one.
[[nodiscard]] Result<QByteArray> reportPdf(const exchange::Report& report);

} // namespace washfast::report
