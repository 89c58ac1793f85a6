// Molar masses from formulas, and the gas constants of this room.
#pragma once

#include "core/chemistry/formula_parser.h"

namespace washfast::chemistry {

/// g/mol. The mass of the electrons that an ion has lost or gained (0.0005 g/mol each) is left out.
[[nodiscard]] Result<double> molarMass(const QString& formula);
/// Nothing when an element has no standard atomic weight.
[[nodiscard]] std::optional<double> molarMass(const Composition& composition);

/// J/(mol K): Boltzmann's times Avogadro's number, both exact since 2019 (SI brochure, 9th edition).
inline constexpr double gasConstant = 8.31446261815324;

/// Litres of one mole of an ideal gas at 101.325 kPa; 24.06 at 20 °C.
[[nodiscard]] constexpr double molarGasVolume(double celsius)
{
    return gasConstant * (celsius + 273.15) / 101.325;
}

} // namespace washfast::chemistry
