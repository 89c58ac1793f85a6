// Reads chemical formulas as they stand on a label or are typed in a hurry.
//
//     readFormula(u"K3[Fe(CN)6]")            K 3, Fe 1, C 6, N 6
//     readFormula(u"FeCl3.6H2O")             also FeCl3·6H2O and FeCl3*6H2O: Fe 1, Cl 3, H 12, O 6
//     readFormula(u"(NH4)3[Fe(C2O4)3]·3H2O") brackets of three kinds, nested as deep as is sensible
//     readFormula(u"CuSO4.0.5H2O")           half a water: only a number in front of a part may have decimals
//     readFormula(u"[Fe(CN)6]3-")            charge -3; also [Fe(CN)6]^3-, Fe^3+, NH4^+, Cl-, Fe³⁺
//
// "Fe3+" without ^ or brackets is refused: it can be three atoms with one charge or one atom with three.
#pragma once

#include "core/quantity/result.h"

#include <QMap>
#include <optional>

namespace washfast::chemistry {

/// How many atoms of each element one formula unit holds, and its charge in elementary charges.
struct Composition {
    QMap<QString, double> atoms;
    int charge = 0;

    [[nodiscard]] double count(const char* symbol) const { return atoms.value(QString::fromLatin1(symbol)); }
    friend bool operator==(const Composition&, const Composition&) = default;
};

/// What is wrong with a formula, and where: `at` counts characters from 0, and is the length when something is missing
/// at the end.
struct FormulaFault {
    qsizetype at = 0;
    QString says;

    /// One sentence that shows the formula and counts from 1, as people do.
    [[nodiscard]] Error error(const QString& formula) const;
};

struct FormulaReading {
    std::optional<Composition> composition;
    std::optional<FormulaFault> fault; // set when there is no composition

    [[nodiscard]] bool ok() const { return composition.has_value(); }
};

/// At most 200 characters, brackets nested at most 20 deep, counts at most 9999.
[[nodiscard]] FormulaReading readFormula(QStringView formula);

/// The formula with small figures, a middle dot and raised charges, for people: FeCl₃·6H₂O. What cannot be read comes
/// back as it was.
[[nodiscard]] QString prettyFormula(const QString& formula);

} // namespace washfast::chemistry
