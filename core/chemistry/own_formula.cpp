#include "core/chemistry/own_formula.h"

#include "core/chemistry/hazards.h"
#include "core/chemistry/mix_record.h"
#include "core/chemistry/recorded.h"
#include "core/chemistry/words.h"

#include <algorithm>
#include <limits>

namespace washfast::chemistry {

namespace {

QString defaultStep()
{
    return Words::tr(
        "Dissolve what was weighed, one after the other, in the order of the list, and stir each until it is "
        "clear. Top up to the volume.");
}

/// Steps, notes and cautions, which both kinds of own formula have.
void finish(Recipe& recipe, const QString& steps, const QString& notes)
{
    for (const auto& line : steps.split(QLatin1Char('\n'), Qt::SkipEmptyParts))
        if (!line.trimmed().isEmpty())
            recipe.steps << line.trimmed();
    if (recipe.steps.isEmpty())
        recipe.steps << defaultStep();
    if (!notes.isEmpty())
        recipe.steps << notes;
    QStringList substances;
    for (const auto& component : recipe.components)
        substances << component.substance;
    for (const auto& caution : cautionsFor(substances, QStringLiteral("mixing")))
        recipe.cautions << caution.key;
}

/// The substance of a line, or why it cannot be weighed for a mix.
Result<FoundSubstance> usable(const Ingredient& ingredient, const QString& which)
{
    const auto wrong = [&](const QString& says) { return Error { Trouble::BadInput, says, {} }; };
    if (ingredient.substance.trimmed().isEmpty())
        return wrong(Words::tr("%1 has no substance.").arg(which));
    auto found = findSubstance(ingredient.substance);
    if (!found)
        return wrong(Words::tr("%1, “%2”: %3").arg(which, ingredient.substance, found.error().says));
    if (!substanceByKey(found->substance.key))
        return wrong(
            Words::tr("%1, “%2”: a formula that can be read, but none of the substances that a mix is reckoned from.")
                .arg(which, ingredient.substance));
    if (found->substance.key == QLatin1String("H2O"))
        return wrong(
            Words::tr("%1 is water, which is not weighed here: it is what the volume is topped up with.").arg(which));
    return found;
}

/// What was weighed for one mix; nothing when a part, its mass or the water is not known.
std::optional<Recipe> asWeighed(const Notebook& notebook, qint64 mix)
{
    const auto batch = batchOf(notebook, mix);
    if (!batch.volume_ml || batch.parts.empty() || notebook.children(Entity::MixPart, mix).empty())
        return std::nullopt;
    Recipe recipe;
    recipe.volume_ml = *batch.volume_ml;
    for (const auto& part : batch.parts) {
        const auto found = findSubstance(part.substance);
        if (!part.mass_g || !found || !substanceByKey(found->substance.key))
            return std::nullopt;
        recipe.components.push_back({ found->substance.key, *part.mass_g, {}, {}, {} });
    }
    return recipe;
}

/// The newest mix of a formula that has all that is needed.
std::optional<Recipe> lastTime(const Notebook& notebook, const WrittenFormula& written, qint64 formula)
{
    const auto& mixes = notebook.table(Entity::Mix);
    const int link = notebook.catalogue().column(Entity::Mix, u"mix_formula");
    for (int row = mixes.rows() - 1; row >= 0; --row) {
        if (mixes.link(row, link) != formula)
            continue;
        auto recipe = asWeighed(notebook, mixes.id(row));
        if (!recipe)
            continue;
        recipe->key = written.key;
        recipe->name = written.name;
        recipe->source = Words::tr("Your own: the amounts that were weighed for the mix %1. %2")
                             .arg(notebook.nameOf({ Entity::Mix, mixes.id(row) }), written.source)
                             .trimmed();
        finish(*recipe, written.steps, written.notes);
        return recipe;
    }
    return std::nullopt;
}

} // namespace

Result<Recipe> recipeFrom(const WrittenFormula& written)
{
    const auto wrong = [&](const QString& says) { return Error { Trouble::BadInput, says, {} }; };
    Recipe recipe;
    recipe.key = written.key;
    recipe.name = written.name;
    recipe.source = Words::tr("Your own. %1").arg(written.source).trimmed();
    if (written.ingredients.empty())
        return wrong(Words::tr("It has no ingredients yet."));
    for (size_t i = 0; i < written.ingredients.size(); ++i) {
        const auto& ingredient = written.ingredients[i];
        const auto which = Words::tr("Ingredient %1").arg(i + 1);
        const auto found = usable(ingredient, which);
        if (!found)
            return found.error();
        const auto& key = found->substance.key;
        if (!ingredient.grams || !(*ingredient.grams > 0))
            return wrong(Words::tr("%1, %2, has no amount.").arg(which, found->substance.name));
        if (std::any_of(recipe.components.begin(), recipe.components.end(),
                [&](const Component& other) { return other.substance == key; }))
            return wrong(Words::tr("%1, %2, stands in it twice: put both amounts into one line.")
                             .arg(which, found->substance.name));
        auto note = ingredient.note;
        if (found->form_assumed)
            note = (found->says + QLatin1Char(' ') + note).trimmed();
        recipe.components.push_back({ key, *ingredient.grams, ingredient.solution, note, {} });
    }
    if (!written.volume_ml || !(*written.volume_ml > 0))
        return wrong(Words::tr("It does not say for how many mL of mix the amounts are."));
    recipe.volume_ml = *written.volume_ml;
    finish(recipe, written.steps, written.notes);
    return recipe;
}

Reckoned reckonedFrom(const WrittenFormula& written)
{
    const auto recipe = recipeFrom(written);
    if (!recipe)
        return {};
    auto evidence = Evidence::Estimated; // of a plan; nothing has been weighed
    for (const auto& ingredient : written.ingredients)
        if (const auto found = findSubstance(ingredient.substance); found && found->form_assumed)
            evidence = Evidence::Assumed;
    return { knownNumber(recipe->ironMolarity(), evidence), knownNumber(recipe->hexacyanoferrateMolarity(), evidence) };
}

WrittenFormula writtenFormula(const Notebook& notebook, qint64 formula)
{
    WrittenFormula written;
    written.key = QStringLiteral("own/%1").arg(formula);
    written.name = notebook.nameOf({ Entity::Formula, formula });
    written.source = textAt(notebook, { Entity::Formula, formula }, "formula_source");
    written.steps = textAt(notebook, { Entity::Formula, formula }, "formula_steps");
    written.notes = textAt(notebook, { Entity::Formula, formula }, "formula_notes");
    written.volume_ml = at(notebook, { Entity::Formula, formula }, "formula_volume_ml").number();
    std::vector<std::pair<double, Ingredient>> lines; // by their number; without one they come last
    const auto& table = notebook.table(Entity::FormulaPart);
    for (const int row : notebook.children(Entity::FormulaPart, formula)) {
        const auto id = table.id(row);
        lines.emplace_back(at(notebook, { Entity::FormulaPart, id }, "ingredient_position")
                               .number()
                               .value_or(std::numeric_limits<double>::infinity()),
            Ingredient { textAt(notebook, { Entity::FormulaPart, id }, "ingredient_substance"),
                at(notebook, { Entity::FormulaPart, id }, "ingredient_g").number(),
                textAt(notebook, { Entity::FormulaPart, id }, "ingredient_solution"),
                textAt(notebook, { Entity::FormulaPart, id }, "ingredient_note") });
    }
    std::stable_sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (auto& line : lines)
        written.ingredients.push_back(std::move(line.second));
    return written;
}

OwnFormula ownFormula(const Notebook& notebook, qint64 formula)
{
    const auto written = writtenFormula(notebook, formula);
    OwnFormula own { formula, written.name, std::nullopt, {} };
    if (written.ingredients.empty()) {
        own.recipe = lastTime(notebook, written, formula);
        if (!own.recipe)
            own.problem = Words::tr("It has no ingredients yet, and no mix that follows it says what was weighed.");
        return own;
    }
    auto recipe = recipeFrom(written);
    if (recipe)
        own.recipe = std::move(recipe).value();
    else
        own.problem = recipe.error().says;
    return own;
}

std::vector<OwnFormula> ownFormulas(const Notebook& notebook)
{
    std::vector<OwnFormula> own;
    const auto& formulas = notebook.table(Entity::Formula);
    for (int row = 0; row < formulas.rows(); ++row) {
        const auto id = formulas.id(row);
        const bool retired = at(notebook, { Entity::Formula, id }, "formula_retired").yes().value_or(false);
        if (!retired && !findRecipe(notebook.nameOf({ Entity::Formula, id })))
            own.push_back(ownFormula(notebook, id));
    }
    return own;
}

std::vector<Recipe> ownRecipes(const Notebook& notebook)
{
    std::vector<Recipe> recipes;
    for (auto& own : ownFormulas(notebook))
        if (own.recipe)
            recipes.push_back(std::move(*own.recipe));
    return recipes;
}

WrittenFormula copyOf(const Recipe& recipe, const QString& name)
{
    WrittenFormula written;
    written.name = name;
    written.source = Words::tr("A copy of “%1”. %2").arg(recipe.name, recipe.source);
    written.volume_ml = recipe.volume_ml;
    written.steps = recipe.steps.join(QLatin1Char('\n'));
    QStringList notes;
    for (const auto& component : recipe.components) {
        if (component.left_out.isEmpty())
            written.ingredients.push_back({ component.substance, component.grams, component.solution, component.note });
        else
            notes
                << Words::tr("%1 was left out. %2").arg(substanceByKey(component.substance)->name, component.left_out);
    }
    for (const auto& text : { recipe.waiting, recipe.light, recipe.storage })
        if (!text.isEmpty())
            notes << text;
    written.notes = notes.join(QLatin1Char(' '));
    return written;
}

} // namespace washfast::chemistry
