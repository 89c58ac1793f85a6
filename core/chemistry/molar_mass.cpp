#include "core/chemistry/molar_mass.h"

#include "core/chemistry/atomic_weights.h"
#include "core/chemistry/words.h"

namespace washfast::chemistry {

std::optional<double> molarMass(const Composition& composition)
{
    double sum = 0;
    for (auto atom = composition.atoms.begin(); atom != composition.atoms.end(); ++atom) {
        const auto weight = atomicWeight(atom.key());
        if (!weight)
            return std::nullopt;
        sum += *weight * atom.value();
    }
    return sum;
}

Result<double> molarMass(const QString& formula)
{
    const auto reading = readFormula(formula);
    if (!reading.ok())
        return reading.fault->error(formula);
    for (auto atom = reading.composition->atoms.begin(); atom != reading.composition->atoms.end(); ++atom)
        if (!atomicWeight(atom.key()))
            return Error { Trouble::BadInput, Words::tr("%1 has no standard atomic weight.").arg(atom.key()), formula };
    return *molarMass(*reading.composition);
}

} // namespace washfast::chemistry
