// A report as one HTML 5 page that needs nothing else: no scripts, no pictures or styles from outside; the charts are
// drawn in it. It is written as well-formed XML too, and prints on A4.
#pragma once

#include "core/exchange/report.h"

namespace washfast::exchange {

[[nodiscard]] QByteArray reportHtml(const Report& report);

} // namespace washfast::exchange
