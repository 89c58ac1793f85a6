// washfast check NOTEBOOK
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/exchange/contradictions.h"
#include "core/store/soundness.h"

#include <QJsonArray>

namespace washfast::cli {

namespace {

QJsonValue orNull(const QString& text)
{
    return text.isEmpty() ? QJsonValue() : QJsonValue(text);
}

QJsonObject toJson(
    const QString& integrity, const OpenedNotebook& notebook, const std::vector<exchange::Finding>& findings)
{
    QJsonArray list;
    for (const auto& finding : findings)
        list.append(QJsonObject { { QStringLiteral("print"), orNull(finding.print) },
            { QStringLiteral("field"), orNull(finding.field) }, { QStringLiteral("says"), finding.says } });
    return { { QStringLiteral("integrity"), integrity }, { QStringLiteral("schema"), notebook.file->schema() },
        { QStringLiteral("prints"), notebook.records ? QJsonValue(notebook.records->prints().rows()) : QJsonValue() },
        { QStringLiteral("findings"), list } };
}

void asText(const OpenedNotebook& notebook, const std::vector<exchange::Finding>& findings, const Output& output)
{
    output.line(Words::tr("The file is sound: schema %1, %n prints.", nullptr, notebook.records->prints().rows())
                    .arg(notebook.file->schema()));
    for (const auto& finding : findings)
        output.line(finding.print.isEmpty() ? finding.says : QStringLiteral("%1: %2").arg(finding.print, finding.says));
    if (findings.empty())
        output.line(Words::tr("No records contradict one another."));
}

int runCheck(const Arguments& arguments, const Output& output)
{
    auto notebook = openNotebook(arguments.file(0));
    if (!notebook)
        return output.fail(notebook.error());
    const auto whole = store::soundness(*notebook->file);
    const QString integrity = whole ? *whole : whole.error().says;
    const bool sound = integrity == QLatin1String("ok");
    std::vector<exchange::Finding> findings;
    auto read = notebook->readRecords();
    if (read)
        findings = exchange::findContradictions(*notebook->records);
    if (arguments.has("--json"))
        output.json(toJson(integrity, *notebook, findings));
    if (!sound)
        return output.fail(
            { Trouble::Damaged, Words::tr("The file is not sound: %1.").arg(integrity), arguments.file(0) });
    if (!read)
        return output.fail(read.error());
    if (!arguments.has("--json"))
        asText(*notebook, findings, output);
    return done;
}

} // namespace

Verb checkVerb()
{
    return { "check", QT_TRANSLATE_NOOP("Cli", "whether the file is sound, and records that contradict one another"),
        { { "NOTEBOOK" }, { { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } }, runCheck };
}

} // namespace washfast::cli
