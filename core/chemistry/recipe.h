// Published formulas of the sensitiser, read from resources/formulas, and the one that is computed.
//
// A file is one JSON object:
//     key, name, source     what it is called in commands, for people, and where it was published
//     volume_ml             of the finished mix that the amounts are for
//     target                only where nothing was published: iron_mol_l, hexacyanoferrate_mol_l, citrate_to_iron,
//                           base_to_iron. The amounts of the components are then worked out from it.
//     solutions             what is kept in a bottle of its own until it is mixed: name, volume_ml
//     components            in the order of addition: substance (a key of substance.h), grams, or with a target
//                           amount (iron, citrate, base, hexacyanoferrate); solution; note; left_out says why a
//                           published part is not weighed
//     steps, steps_source   what to do, in order, and what that rests on
//     waiting, light, storage, cautions (keys of hazards.h)
#pragma once

#include "core/chemistry/substance.h"

namespace washfast::chemistry {

struct Component {
    QString substance; // key
    double grams = 0; // for Recipe::volume_ml
    QString solution;
    QString note;
    QString left_out; // why it is not weighed; empty when it is
};

struct Solution {
    QString name;
    double volume_ml = 0;
};

/// What a computed formula aims at.
struct Target {
    double iron_mol_l = 0, hexacyanoferrate_mol_l = 0;
    double citrate_to_iron = 0, base_to_iron = 0;
};

struct Recipe {
    QString key, name, source;
    std::optional<Target> target; // computed, not published
    double volume_ml = 0;
    std::vector<Solution> solutions;
    std::vector<Component> components; // in the order of addition
    QStringList steps;
    QString steps_source;
    QString waiting, light, storage;
    QStringList cautions;

    [[nodiscard]] bool published() const { return !target.has_value(); }
    /// mol/L in the finished mix, from the amounts and the usual composition of the salts.
    [[nodiscard]] double ironMolarity() const;
    [[nodiscard]] double hexacyanoferrateMolarity() const;
    [[nodiscard]] double ironToHexacyanoferrate() const { return ironMolarity() / hexacyanoferrateMolarity(); }
};

/// The error says what is wrong in the file; `where` is the file.
[[nodiscard]] Result<Recipe> readRecipe(const QByteArray& json, const QString& where);

/// The formulas that come with the program.
[[nodiscard]] const std::vector<Recipe>& recipes();
/// By key or name, in any case; nullptr when there is none.
[[nodiscard]] const Recipe* findRecipe(const QString& name);

/// Least and greatest iron : hexacyanoferrate among the published formulas (2.18 to 2.31).
struct Range {
    double low = 0, high = 0;
};
[[nodiscard]] Range publishedRatios();

} // namespace washfast::chemistry
