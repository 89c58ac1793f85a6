// washfast merge NOTEBOOK OTHER
#include "core/store/merge.h"
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"

#include <QJsonArray>

namespace washfast::cli {

namespace {

QJsonObject counts(const std::array<int, entityCount>& of)
{
    QJsonObject object;
    for (const auto entity : allEntities())
        if (of[size_t(entity)] > 0)
            object.insert(entityKey(entity), of[size_t(entity)]);
    return object;
}

QJsonValue orNull(const QString& text)
{
    return text.isEmpty() ? QJsonValue() : QJsonValue(text);
}

QJsonValue jsonOf(const Value& value)
{
    if (const auto* yes = std::get_if<bool>(&value))
        return *yes;
    if (const auto* number = std::get_if<double>(&value))
        return *number;
    if (const auto* time = std::get_if<Instant>(&value))
        return time->toIso();
    if (const auto* text = std::get_if<QString>(&value))
        return *text;
    return {};
}

QJsonObject toJson(const store::MergeReport& report)
{
    QJsonArray renamed;
    for (const auto& one : report.renamed)
        renamed.append(QJsonObject { { QStringLiteral("of"), entityKey(one.entity) },
            { QStringLiteral("from"), one.from }, { QStringLiteral("to"), one.to } });
    QJsonArray differences;
    for (const auto& one : report.differences)
        differences.append(QJsonObject { { QStringLiteral("of"), entityKey(one.row.entity) },
            { QStringLiteral("record"), one.record }, { QStringLiteral("print"), orNull(one.print) },
            { QStringLiteral("field"), one.column }, { QStringLiteral("ours"), jsonOf(one.ours) },
            { QStringLiteral("theirs"), jsonOf(one.theirs) }, { QStringLiteral("says"), one.sentence() } });
    return { { QStringLiteral("added"), counts(report.added) }, { QStringLiteral("changed"), report.changed },
        { QStringLiteral("removed"), counts(report.removed) }, { QStringLiteral("renamed"), renamed },
        { QStringLiteral("differences"), differences }, { QStringLiteral("copy"), orNull(report.copy) } };
}

void asText(const store::MergeReport& report, const Output& output)
{
    std::vector<QStringList> rows;
    for (const auto entity : allEntities())
        if (const int added = report.added[size_t(entity)], removed = report.removed[size_t(entity)];
            added > 0 || removed > 0)
            rows.push_back({ entityLabel(entity), QString::number(added), QString::number(removed) });
    if (!rows.empty())
        output.table({ Words::tr("what"), Words::tr("added"), Words::tr("removed") }, rows);
    for (const auto& note : report.notes())
        output.line(note);
}

int runMerge(const Arguments& arguments, const Output& output)
{
    if (const auto itself = store::isItself(arguments.file(0), arguments.file(1)))
        return output.fail(*itself);
    auto notebook = openNotebook(arguments.file(0), Open::ToWrite);
    if (!notebook)
        return output.fail(notebook.error());
    const auto report = store::merge(*notebook->file, arguments.file(1));
    if (!report && report.error().code == Trouble::NoSpace)
        return output.fail(
            { Trouble::NoSpace, Words::tr("The disk is full, so nothing was brought in."), arguments.file(0) });
    if (!report)
        return output.fail(report.error());
    output.wroteFiles();
    if (arguments.has("--json"))
        output.json(toJson(*report));
    else
        asText(*report, output);
    return done;
}

} // namespace

Verb mergeVerb()
{
    return { "merge", QT_TRANSLATE_NOOP("Cli", "brings in what another notebook has"),
        { { "NOTEBOOK", "OTHER" }, { { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } }, runMerge };
}

} // namespace washfast::cli
