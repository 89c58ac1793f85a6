// The order in which a person expects codes and names: M2 before M10, case aside.
#pragma once

#include <QStringView>

namespace washfast::ui {

/// Below 0, 0 or above 0. Runs of the digits 0 to 9 count as whole numbers, everything else by its folded case. Texts
/// that differ only in leading zeros or in case are equal.
[[nodiscard]] int compareNaturally(QStringView a, QStringView b);

} // namespace washfast::ui
