// Standard atomic weights, g/mol, and the symbols of the elements.
#pragma once

#include <QStringView>
#include <optional>

namespace washfast::chemistry {

/// True for the symbol of any of the 118 elements, written as it should be: "Fe", not "FE".
[[nodiscard]] bool isElement(QStringView symbol);

/// Abridged standard atomic weight, g/mol; nothing for what is no element and for elements that have none (Tc, Pm ...).
[[nodiscard]] std::optional<double> atomicWeight(QStringView symbol);

} // namespace washfast::chemistry
