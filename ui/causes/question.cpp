#include "ui/causes/question.h"

#include "ui/causes/words.h"

namespace washfast::ui {

namespace {

Result<std::vector<char>> matching(const QString& filter, const PrintColumns& columns)
{
    const auto parsed = parseFilter(filter, columns.notebook().catalogue());
    if (!parsed.ok())
        return parsed.fault->error();
    return parsed.filter.matches(columns);
}

void addNamed(std::vector<BatchChoice>& choices, const Notebook& notebook, Entity entity, const QString& pattern,
    const QString& key)
{
    const auto& table = notebook.table(entity);
    for (int row = table.rows() - 1; row >= 0; --row) {
        const auto name = notebook.nameOf({ entity, table.id(row) });
        if (!name.isEmpty())
            choices.push_back({ pattern.arg(name), QStringLiteral("%1 = \"%2\"").arg(key, name) });
    }
}

} // namespace

std::vector<BatchChoice> batchChoices(const Notebook& notebook)
{
    std::vector<BatchChoice> choices { { CausesWords::tr("all prints"), {} } };
    addNamed(choices, notebook, Entity::Session, CausesWords::tr("session %1"), QStringLiteral("session_code"));
    addNamed(choices, notebook, Entity::Mix, CausesWords::tr("mix %1"), QStringLiteral("mix_code"));
    addNamed(choices, notebook, Entity::Term, CausesWords::tr("term %1"), QStringLiteral("term_name"));
    addNamed(choices, notebook, Entity::Paper, CausesWords::tr("paper %1"), QStringLiteral("paper_name"));
    return choices;
}

std::vector<OutcomeChoice> outcomeChoices(const Catalogue& catalogue)
{
    std::vector<OutcomeChoice> choices { { CausesWords::tr("why did some fail?"), QStringLiteral("failed") } };
    for (const auto& choice : catalogue.columnField(Entity::Print, u"print_outcome").choices)
        if (choice.key != QLatin1String("kept"))
            choices.push_back({ CausesWords::tr("why: %1?").arg(choice.label), QStringLiteral("is_") + choice.key });
    for (const char* key : { "kept", "formed", "net_density" })
        if (const auto* field = catalogue.findPrintField(QString::fromLatin1(key)))
            choices.push_back({ CausesWords::tr("what goes with a low \"%1\"?").arg(field->label), field->key });
    return choices;
}

Result<causes::FactorTable> tableFor(const Question& question, const PrintColumns& columns)
{
    causes::NotebookChoices choices;
    auto batch = matching(question.batch, columns);
    if (!batch)
        return batch.error();
    choices.shown = std::move(*batch);
    choices.block = question.block;
    choices.larger_is_worse = question.larger_is_worse;
    if (!question.compare) {
        choices.outcome = question.outcome;
        return causes::fromNotebook(columns, choices);
    }
    auto against = matching(question.against, columns);
    if (!against)
        return against.error();
    for (size_t i = 0; i < against->size(); ++i)
        if (choices.shown[i])
            (*against)[i] = 0; // the others
    choices.against = std::move(*against);
    return causes::fromNotebook(columns, choices);
}

} // namespace washfast::ui
