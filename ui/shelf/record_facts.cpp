#include "ui/shelf/record_facts.h"

#include "core/chemistry/own_formula.h"
#include "ui/common/offered.h"
#include "ui/shelf/tool_facts.h"
#include "ui/shelf/words.h"

#include <QLocale>

namespace washfast::ui {

namespace {

constexpr double hoursADay = 24;

} // namespace

std::vector<RecordFacts::Fact> RecordFacts::factsOf(Entity entity)
{
    switch (entity) {
    case Entity::Mix:
        return { Fact::Warnings, Fact::Age, Fact::Left, Fact::Prints };
    case Entity::Chemical:
        return { Fact::Warnings, Fact::Left };
    case Entity::Formula:
    case Entity::Cover:
    case Entity::Lamp:
    case Entity::Card:
        return { Fact::Warnings };
    default:
        return {};
    }
}

QString RecordFacts::heading(Fact fact)
{
    switch (fact) {
    case Fact::Warnings:
        return ShelfWords::tr("Mind");
    case Fact::Age:
        return ShelfWords::tr("Age");
    case Fact::Left:
        return ShelfWords::tr("Left now");
    case Fact::Prints:
        break;
    }
    return ShelfWords::tr("Prints");
}

const RecordFacts::State& RecordFacts::stateOf(Ref record)
{
    if (const auto found = states_.find(record); found != states_.end())
        return found->second;
    auto state = workedOut(record);
    if (retired(record))
        state.warnings.clear();
    return states_.emplace(record, std::move(state)).first->second;
}

RecordFacts::State RecordFacts::workedOut(Ref record) const
{
    State state;
    const auto& notebook = desk_.notebook();
    const auto warn = [&](const std::vector<chemistry::ShelfWarning>& warnings) {
        for (const auto warning : warnings)
            state.warnings << chemistry::warningWord(warning);
    };
    const auto take = [&](const ToolFacts& facts) {
        state.warnings = facts.warnings;
        state.sentences = facts.sentences;
    };
    switch (record.entity) {
    case Entity::Mix: {
        const auto mix = chemistry::mixState(notebook, record.id, desk_.now());
        state.age_days = mix.age_days;
        state.left = mix.left_ml;
        state.at_most = mix.at_most;
        state.prints = mix.prints;
        state.sentences << ShelfWords::tr("Left: %1").arg(mix.says);
        warn(mix.warnings);
        break;
    }
    case Entity::Chemical: {
        const auto bottle = chemistry::bottleState(notebook, record.id, desk_.now());
        state.left = bottle.left_g;
        state.sentences << ShelfWords::tr("Left: %1").arg(bottle.says);
        warn(bottle.warnings);
        break;
    }
    case Entity::Formula:
        return ofFormula(record.id);
    case Entity::Cover:
        take(coverFacts(notebook, record.id));
        break;
    case Entity::Lamp:
        take(lampFacts(notebook, record.id));
        break;
    case Entity::Card:
        take(cardFacts(notebook, record.id, desk_.now()));
        break;
    default:
        break;
    }
    return state;
}

RecordFacts::State RecordFacts::ofFormula(qint64 formula) const
{
    State state;
    const auto& notebook = desk_.notebook();
    if (chemistry::findRecipe(notebook.nameOf({ Entity::Formula, formula }))) {
        state.sentences << ShelfWords::tr(
            "A published formula: the amounts that come with the program count. Copy it under a name "
            "of your own to change them.");
        return state;
    }
    const auto own = chemistry::ownFormula(notebook, formula);
    if (!own.recipe) {
        state.warnings << ShelfWords::tr("cannot be weighed");
        state.sentences << ShelfWords::tr("It cannot be weighed yet: %1").arg(own.problem);
        return state;
    }
    const QLocale locale;
    const double iron = own.recipe->ironMolarity(), cyanoferrate = own.recipe->hexacyanoferrateMolarity();
    if (notebook.children(Entity::FormulaPart, formula).empty())
        state.sentences << own.recipe->source;
    state.sentences << ShelfWords::tr(
        "Amounts for %1 mL. Reckoned: iron(III) %2 mol/L, hexacyanoferrate(III) %3 mol/L.")
                           .arg(locale.toString(own.recipe->volume_ml), locale.toString(iron, 'f', 3),
                               locale.toString(cyanoferrate, 'f', 3));
    if (iron > 0 && cyanoferrate > 0) {
        const auto published = chemistry::publishedRatios();
        state.sentences.last() += QLatin1Char(' ')
            + ShelfWords::tr("Iron : hexacyanoferrate %1; the published formulas have %2 to %3.")
                  .arg(locale.toString(iron / cyanoferrate, 'f', 2), locale.toString(published.low, 'f', 2),
                      locale.toString(published.high, 'f', 2));
    }
    return state;
}

QString RecordFacts::text(Ref record, Fact fact)
{
    const auto& state = stateOf(record);
    const QLocale locale;
    switch (fact) {
    case Fact::Warnings: {
        if (retired(record))
            return ShelfWords::tr("retired");
        return state.warnings.isEmpty() ? QString() : QStringLiteral("▲ ") + state.warnings.join(QStringLiteral(", "));
    }
    case Fact::Age:
        if (!state.age_days)
            return {};
        return *state.age_days < 2 ? ShelfWords::tr("%1 h").arg(locale.toString(*state.age_days * hoursADay, 'f', 0))
                                   : ShelfWords::tr("%1 d").arg(locale.toString(*state.age_days, 'f', 0));
    case Fact::Left:
        if (!state.left)
            return {};
        return (state.at_most ? QStringLiteral("≤ ") : QString())
            + (record.entity == Entity::Mix ? ShelfWords::tr("%1 mL") : ShelfWords::tr("%1 g"))
                  .arg(locale.toString(*state.left, 'f', 1));
    case Fact::Prints:
        break;
    }
    return QString::number(state.prints);
}

QVariant RecordFacts::sortValue(Ref record, Fact fact)
{
    const auto& state = stateOf(record);
    switch (fact) {
    case Fact::Warnings:
        return text(record, fact);
    case Fact::Age:
        return state.age_days ? QVariant(*state.age_days) : QVariant();
    case Fact::Left:
        return state.left ? QVariant(*state.left) : QVariant();
    case Fact::Prints:
        break;
    }
    return double(state.prints);
}

QStringList RecordFacts::sentences(Ref record)
{
    if (record.id == 0)
        return {};
    auto all = stateOf(record).sentences;
    if (record.entity == Entity::Negative && desk_.notebook().children(Entity::NegativeStep, record.id).empty())
        all << ShelfWords::tr("No ultraviolet densities of its steps are recorded.");
    return all;
}

bool RecordFacts::retired(Ref record) const
{
    return isRetired(desk_.notebook(), record);
}

} // namespace washfast::ui
