// Formulas of one's own: from the ingredients that are written down for them, else from what was weighed for the last
// mix that followed them. One with a mistake is not left out: it comes with the sentence that says what is missing.
#pragma once

#include "core/chemistry/recipe.h"
#include "core/trial/notebook.h"

namespace washfast::chemistry {

/// One line of a formula as it was written down.
struct Ingredient {
    QString substance; // a formula, a name or a key
    std::optional<double> grams; // for the formula's volume
    QString solution, note;
};

/// A formula as it was written down.
struct WrittenFormula {
    QString key, name, source, steps, notes; // steps: one a line
    std::optional<double> volume_ml;
    std::vector<Ingredient> ingredients; // in the order of addition
};

/// What can be weighed from it; the amounts as they were written. The error says which ingredient cannot be used and
/// why.
[[nodiscard]] Result<Recipe> recipeFrom(const WrittenFormula& written);

/// mol/L in the finished mix, reckoned. Estimated where a salt's composition varies, assumed where a name leaves the
/// form open; unknown as long as recipeFrom gives an error.
struct Reckoned {
    Known iron_mol_l, hexacyanoferrate_mol_l;
};
[[nodiscard]] Reckoned reckonedFrom(const WrittenFormula& written);

/// The record with its ingredients in the order of their numbers.
[[nodiscard]] WrittenFormula writtenFormula(const Notebook& notebook, qint64 formula);

struct OwnFormula {
    qint64 formula = 0; // the record
    QString name;
    std::optional<Recipe> recipe; // its key is own/ and the record's id
    QString problem; // why there is none
};

/// Every own formula that is in use: those that have a published formula's name are that one and left out.
[[nodiscard]] std::vector<OwnFormula> ownFormulas(const Notebook& notebook);
/// The same for one record.
[[nodiscard]] OwnFormula ownFormula(const Notebook& notebook, qint64 formula);
/// Those that can be weighed.
[[nodiscard]] std::vector<Recipe> ownRecipes(const Notebook& notebook);

/// What a copy of a published formula begins with; parts that are left out for a reason are named in its notes.
[[nodiscard]] WrittenFormula copyOf(const Recipe& recipe, const QString& name);

} // namespace washfast::chemistry
