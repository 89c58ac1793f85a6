#include "ui/shelf/record_facts.h"

#include <QCoreApplication>
#include <QLocale>

namespace washfast::ui {

namespace {

constexpr double hoursADay = 24;

QString tr(const char* text)
{
    return QCoreApplication::translate("Shelf", text);
}

} // namespace

std::vector<RecordFacts::Fact> RecordFacts::factsOf(Entity entity)
{
    switch (entity) {
    case Entity::Mix:
        return { Fact::Warnings, Fact::Age, Fact::Left, Fact::Prints };
    case Entity::Chemical:
        return { Fact::Warnings, Fact::Left };
    default:
        return {};
    }
}

QString RecordFacts::heading(Fact fact)
{
    switch (fact) {
    case Fact::Warnings:
        return tr("Mind");
    case Fact::Age:
        return tr("Age");
    case Fact::Left:
        return tr("Left now");
    case Fact::Prints:
        break;
    }
    return tr("Prints");
}

const RecordFacts::State& RecordFacts::stateOf(Ref record)
{
    if (const auto found = states_.find(record); found != states_.end())
        return found->second;
    State state;
    const auto& notebook = desk_.notebook();
    if (record.entity == Entity::Mix) {
        const auto mix = chemistry::mixState(notebook, record.id, desk_.now());
        state = { mix.age_days, mix.left_ml, mix.at_most, mix.prints, mix.says, mix.warnings };
    } else if (record.entity == Entity::Chemical) {
        const auto bottle = chemistry::bottleState(notebook, record.id, desk_.now());
        state.left = bottle.left_g;
        state.says = bottle.says;
        state.warnings = bottle.warnings;
    }
    if (retired(record))
        state.warnings.clear();
    return states_.emplace(record, std::move(state)).first->second;
}

QString RecordFacts::text(Ref record, Fact fact)
{
    const auto& state = stateOf(record);
    const QLocale locale;
    switch (fact) {
    case Fact::Warnings: {
        if (retired(record))
            return tr("retired");
        QStringList words;
        for (const auto warning : state.warnings)
            words << chemistry::warningWord(warning);
        return words.isEmpty() ? QString() : QStringLiteral("▲ ") + words.join(QStringLiteral(", "));
    }
    case Fact::Age:
        if (!state.age_days)
            return {};
        return *state.age_days < 2 ? tr("%1 h").arg(locale.toString(*state.age_days * hoursADay, 'f', 0))
                                   : tr("%1 d").arg(locale.toString(*state.age_days, 'f', 0));
    case Fact::Left:
        if (!state.left)
            return {};
        return (state.at_most ? QStringLiteral("≤ ") : QString())
            + (record.entity == Entity::Mix ? tr("%1 mL") : tr("%1 g")).arg(locale.toString(*state.left, 'f', 1));
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
    QStringList all;
    const auto& notebook = desk_.notebook();
    const QLocale locale;
    if (record.id == 0)
        return all;
    if (record.entity == Entity::Mix || record.entity == Entity::Chemical)
        all << tr("Left: %1").arg(stateOf(record).says);
    if (record.entity == Entity::Mix) {
        QStringList parts;
        const auto& table = notebook.table(Entity::MixPart);
        for (const int row : notebook.children(Entity::MixPart, record.id)) {
            const Ref part { Entity::MixPart, table.id(row) };
            const auto grams = notebook.get(part, u"part_mass_g").number();
            parts << tr("%1 %2").arg(grams ? tr("%1 g").arg(locale.toString(*grams, 'g', 4)) : tr("? g"),
                notebook.get(part, u"part_substance").text().value_or(QString()));
        }
        if (!parts.isEmpty())
            all << tr("Weighed: %1.").arg(parts.join(QStringLiteral(", ")));
    }
    if (record.entity == Entity::Negative) {
        QStringList steps;
        const auto& table = notebook.table(Entity::NegativeStep);
        for (const int row : notebook.children(Entity::NegativeStep, record.id))
            if (const auto density = notebook.get({ Entity::NegativeStep, table.id(row) }, u"step_uv_density").number())
                steps << locale.toString(*density, 'f', 2);
        all << (steps.isEmpty() ? tr("No ultraviolet densities of its steps are recorded.")
                                : tr("Ultraviolet densities of its steps: %1").arg(steps.join(QStringLiteral("  "))));
    }
    return all;
}

QString RecordFacts::retiredColumn(Entity entity)
{
    switch (entity) {
    case Entity::Chemical:
        return QStringLiteral("chemical_retired");
    case Entity::Formula:
        return QStringLiteral("formula_retired");
    case Entity::Mix:
        return QStringLiteral("mix_retired");
    case Entity::Paper:
        return QStringLiteral("paper_retired");
    case Entity::Cover:
        return QStringLiteral("cover_retired");
    case Entity::Negative:
        return QStringLiteral("negative_retired");
    default:
        return {};
    }
}

bool RecordFacts::retired(Ref record) const
{
    const auto column = retiredColumn(record.entity);
    return !column.isEmpty() && desk_.notebook().get(record, column).yes().value_or(false);
}

} // namespace washfast::ui
