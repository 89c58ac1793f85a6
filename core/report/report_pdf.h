// A report on paper: A4, headings of tables again on every page, the number of the page at the foot.
#pragma once

#include "core/exchange/report.h"

#include <functional>

namespace washfast::report {

/// The bytes of a PDF. Needs a QGuiApplication for its fonts (the offscreen platform will do): error Failed without
/// one. May be called on any thread. `keep_going` is told the share that is done, 0 .. 1; when it says false the answer
/// is the error of stopped().
[[nodiscard]] Result<QByteArray> reportPdf(
    const exchange::Report& report, const std::function<bool(double)>& keep_going = {});

/// That somebody ended it before it was done.
[[nodiscard]] Error stopped();

} // namespace washfast::report
