// What is in the bottles: the substances of this process, which form each one is, and what a gram of it brings along.
//
// The traps this room is about are all traps of form: iron(III) chloride with or without its water, citric acid with or
// without, and "ammonium carbonate", which as sold is usually the hydrogencarbonate-carbamate double salt.
#pragma once

#include "core/chemistry/formula_parser.h"

#include <QStringList>
#include <vector>

namespace washfast::chemistry {

enum class Role : quint8 { IronSource, Hexacyanoferrate, Acid, Base, Oxidiser, Preservative, Product, Other };
[[nodiscard]] QString roleKey(Role role); // iron_source, hexacyanoferrate, acid, ...
[[nodiscard]] QString roleLabel(Role role);

/// Moles that one mole of the substance brings into the mix (for a salt of varying composition: that one mole of its
/// iron brings). Nothing means that it is not known; zero that there is none.
struct Yield {
    std::optional<double> iron; // iron(III)
    std::optional<double> hexacyanoferrate; // hexacyanoferrate(III)
    std::optional<double> citrate;
    std::optional<double> oxalate;
    std::optional<double> base; // acid that it can take up
    std::optional<double> ammonia;
    std::optional<double> carbon_dioxide; // given off when its base is used up
    std::optional<double> chloride_acid; // acid that iron(III) chloride sets free when citrate takes the iron
};

struct Substance {
    QString key; // its formula, or a word for a salt of varying composition
    QString name;
    QString formula; // empty for a salt of varying composition
    QString form; // "hexahydrate", "double salt"; empty when there is only one
    QString family; // substances that stand for one another: iron_iii_chloride, citric_acid, ammonium_carbonate ...
    Role role = Role::Other;
    std::optional<double> molar_mass; // g/mol
    /// Iron by mass, of a salt of varying composition: usual, least, most.
    std::optional<double> iron_share, iron_share_low, iron_share_high;
    Yield yield;
    QString caution; // the trap of this form; empty when there is none

    [[nodiscard]] bool known() const { return molar_mass || iron_share; }
    /// Moles that the yields are counted by in this mass: of the substance, or of its iron.
    [[nodiscard]] std::optional<double> moles(double grams) const;
};

/// Every substance that this room knows, each once.
[[nodiscard]] const std::vector<Substance>& knownSubstances();
[[nodiscard]] const Substance* substanceByKey(QStringView key); // nullptr when there is none

struct FoundSubstance {
    Substance substance;
    bool form_assumed = false; // the words fit several forms; `says` names the one that was taken
    QString says;
};

/// From a formula in any spelling ("K3Fe(CN)6", "FeCl3·6H2O"), a key or a name, in any case. A formula that can be read
/// but is none of ours gives its molar mass and the yields that the elements leave no doubt about. The error says what
/// cannot be read, and where.
[[nodiscard]] Result<FoundSubstance> findSubstance(const QString& text);

/// The members of a family, in the order of knownSubstances().
[[nodiscard]] std::vector<const Substance*> familyMembers(const QString& family);

} // namespace washfast::chemistry
