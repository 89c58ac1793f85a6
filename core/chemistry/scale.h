// From sheets, size and coat to amounts on the balance, and what its resolution does to the ratios.
//
//     scale(recipe, { .sheets = 30, .width_mm = 148, .height_mm = 210, .coat_ml_m2 = 20, .spare_pct = 10 })
//     30 x 0.148 m x 0.210 m x 20 mL/m2 = 18.6 mL on the sheets, x 1.1 = 20.5 mL of mix
#pragma once

#include "core/chemistry/recipe.h"

#include <QMap>

namespace washfast::chemistry {

struct Order {
    int sheets = 1;
    double width_mm = 0, height_mm = 0; // of the coated area of one sheet
    double coat_ml_m2 = 20;
    double spare_pct = 10;
    double balance_g = 0.01; // the smallest step of the balance
};

/// A component of the recipe by the one that is there instead: both of one family.
using Swaps = QMap<QString, QString>;

struct Amount {
    QString substance; // after the swap
    QString swapped_from; // empty when it was not
    QString solution, note;
    double exact_g = 0, rounded_g = 0;
    double exact_mmol = 0, rounded_mmol = 0; // of the substance, or of the iron in a salt of varying composition

    /// By how much the balance puts it off, as a share; 0.02 is 2 % too much.
    [[nodiscard]] double off() const { return rounded_g / exact_g - 1.0; }
};

/// Ratios and strength of a batch.
struct Strength {
    double iron_mol_l = 0, hexacyanoferrate_mol_l = 0;
    std::optional<double> iron_to_hexacyanoferrate, citrate_to_iron;
};

struct Scaled {
    QString recipe; // key
    double coat_volume_ml = 0; // on the sheets
    double volume_ml = 0; // of the mix, with the spare
    std::vector<Solution> solutions; // volumes of this batch
    std::vector<Amount> amounts; // in the order of addition
    Strength exact, rounded;
    double iron_mmol_m2 = 0, hexacyanoferrate_mmol_m2 = 0; // on the sheet, as weighed
    QStringList cautions; // of swaps and left-out parts
    QStringList warnings; // about the coat and the balance
};

/// The error says which number of the order or which swap cannot be used.
[[nodiscard]] Result<Scaled> scale(const Recipe& recipe, const Order& order, const Swaps& swaps = {});

/// Grams of `to` that do the same work as `grams` of `from`: the same iron, citrate, hexacyanoferrate or base.
[[nodiscard]] Result<double> equivalentMass(const Substance& from, const Substance& to, double grams);
/// What to mind when `to` is taken for `from`.
[[nodiscard]] QString swapCaution(const Substance& from, const Substance& to);

/// Coat per area below which a sheet is starved and above which the mix stands in puddles, mL/m².
inline constexpr double starvedCoat = 10, puddledCoat = 50;
/// A sentence when the coat lies outside of them; empty otherwise.
[[nodiscard]] QString coatWarning(double coat_ml_m2);

} // namespace washfast::chemistry
