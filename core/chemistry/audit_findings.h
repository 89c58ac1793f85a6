// The sentences of an audit, and the limits at which they are said.
#pragma once

#include "core/chemistry/audit.h"

namespace washfast::chemistry::findings {

/// A ratio within this share of the published range counts as agreeing: weighing 0.5 g on a balance that shows 0.01 g,
/// and the spread of the iron salt, are of this size. Our own choice.
inline constexpr double tolerance = 0.10;
/// citrate : iron of the brown and of the green citrate salt, 1.02 and 1.33, widened to round numbers.
inline constexpr double citrateLow = 1.0, citrateHigh = 1.4;
/// Shares of the target base that are said to be short and too much. Our own choice.
inline constexpr double baseShort = 0.9, baseTooMuch = 1.15;

[[nodiscard]] QString noMass(const QString& name);
[[nodiscard]] QString nothingWeighed();
[[nodiscard]] QString wrongSubstance(const Substance& substance);

/// Adds what the numbers of the audit say beside the published formulas.
void compare(Audit& audit);

} // namespace washfast::chemistry::findings
