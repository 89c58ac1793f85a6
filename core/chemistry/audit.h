// What was really weighed: amounts, strength and ratios beside the published formulas, the base that the acid of
// iron(III) chloride asks for, and the gas that this gives off.
//
// Not recorded is not zero: one unknown substance or mass that could matter for a number makes the number unknown.
// The volume of the mix counts as the volume of its water; the dissolved substance adds a little, so that molarities
// are a little too high.
#pragma once

#include "core/chemistry/recipe.h"

namespace washfast::chemistry {

struct Weighed {
    QString substance; // as written down
    std::optional<double> mass_g;
    std::optional<double> purity_pct; // counts as 100 when it is not known
};

struct Batch {
    std::vector<Weighed> parts;
    std::optional<double> volume_ml;
    double headspace_ml = 20; // air in the bottle that somebody might close
    double celsius = 20;
    QString base = QStringLiteral("NH4HCO3.NH2COONH4"); // the base that the needed amount is given in
};

struct AuditedPart {
    QString written, name; // as written down; what it was taken for, empty when that is unknown
    QString substance; // key or formula
    bool form_assumed = false;
    std::optional<double> molar_mass, mass_g, amount_mmol, molar_mol_l;
};

enum class FindingKind : quint8 {
    Unknown, // something is not recorded or cannot be read
    FormAssumed,
    Agrees, // with the published formulas
    HexacyanoferrateExcess,
    IronExcess,
    CitrateShort,
    CitrateExcess,
    AcidLeft, // less base than the target
    BaseExcess,
    Weak, // less than half the iron of the weakest published formula
    Strong, // more iron than the strongest
    WrongSubstance // turns the mix blue by itself, or does not belong in it
};

struct Finding {
    FindingKind kind;
    QString says; // what was found, how far off it is, and what it is likely to do
};

/// One published or computed formula beside the batch.
struct Beside {
    QString recipe; // key
    double iron_mol_l = 0, iron_to_hexacyanoferrate = 0;
    std::optional<double> ratio_factor; // batch over formula: 0.5 is half as much iron for each hexacyanoferrate
};

struct Audit {
    std::vector<AuditedPart> parts;
    std::optional<double> volume_ml;
    std::optional<double> iron_mmol, hexacyanoferrate_mmol, citrate_mmol, base_mmol;
    std::optional<double> iron_mol_l, hexacyanoferrate_mol_l;
    std::optional<double> iron_to_hexacyanoferrate, citrate_to_iron;
    /// Base that takes up the acid of the iron(III) chloride and gives the ammonia of the green citrate salt; 0 when no
    /// chloride is there.
    std::optional<double> base_needed_mmol;
    std::optional<double> neutralised; // base weighed over base needed; nothing when none is needed
    QString base; // the substance of base_g: the one that was weighed, else the one asked for
    std::optional<double> base_needed_g;
    /// Complete reaction of the base that was weighed, or of the base that is needed when none was.
    std::optional<double> carbon_dioxide_mmol, carbon_dioxide_l;
    double headspace_ml = 0, celsius = 0;
    /// Overpressure if it were closed at once: ideal gas, nothing dissolved. An upper bound.
    std::optional<double> closed_bottle_kpa;
    std::vector<Beside> beside;
    std::vector<Finding> findings;

    [[nodiscard]] bool has(FindingKind kind) const;
    [[nodiscard]] QStringList substances() const; // keys of the parts that are known
};

/// The numbers, and findings about what is unknown, assumed or wrong.
[[nodiscard]] Audit reckon(const Batch& batch);
/// The same with the published formulas beside it, and what differs.
[[nodiscard]] Audit audit(const Batch& batch);

/// Base for each iron of iron(III) chloride: 3 for its acid and 1.64 to match the ammonia of the green citrate salt.
inline constexpr double baseForAcid = 3.0, baseForAmmonia = 1.64;

/// kPa over the air's pressure.
[[nodiscard]] constexpr double gasOverpressure(double mmol, double headspace_ml, double celsius)
{
    return mmol * 8.31446261815324 * (celsius + 273.15) / headspace_ml; // mmol/mL is mol/L, and J/L is kPa
}

} // namespace washfast::chemistry
