// The chemistry of a lesson's actual mix in numbers, for a sheet that pupils work through: half equations, amounts per
// area, what runs out first, and how much blue there can be at most.
//
// Theoretical: every iron(III) that can be reduced is, and every iron(II) finds a hexacyanoferrate(III). A print needs
// and forms much less; the rest is rinsed out.
#pragma once

#include "core/chemistry/audit.h"

namespace washfast::chemistry {

struct Term {
    int count = 1;
    QString formula; // "e-" for the electron
};

struct Equation {
    QString title; // what happens
    std::vector<Term> left, right;
    QString source;

    /// Same atoms and same charge on both sides.
    [[nodiscard]] bool balanced() const;
    /// Fe³⁺ + e⁻ → Fe²⁺
    [[nodiscard]] QString pretty() const;
};

/// Reduction of the iron, oxidation of what the iron is bound to (citrate or oxalate), the two taken together, and the
/// blue.
[[nodiscard]] std::vector<Equation> equationsFor(const Audit& audit);

enum class Limiting : quint8 { Iron, Hexacyanoferrate, Neither };

struct TeachingNumbers {
    double coat_ml_m2 = 0;
    double iron_mmol_m2 = 0, hexacyanoferrate_mmol_m2 = 0;
    Limiting limiting = Limiting::Neither;
    double left_over_mmol_m2 = 0; // of the other one
    /// KFe[Fe(CN)6], one iron(II) for one hexacyanoferrate.
    double blue_mmol_m2 = 0, blue_g_m2 = 0, blue_molar_mass = 0;
    /// Blue on a sheet of the asked size, mg.
    std::optional<double> blue_mg_sheet;
    /// Half a carbon dioxide for each iron(II), at 20 °C.
    double carbon_dioxide_ml_m2 = 0;
    std::vector<Equation> equations;
};

/// Nothing when the strength of the mix is not known. `sheet_mm`: width and height.
[[nodiscard]] std::optional<TeachingNumbers> teachingNumbers(
    const Audit& audit, double coat_ml_m2, std::optional<std::pair<double, double>> sheet_mm = std::nullopt);

} // namespace washfast::chemistry
