// washfast check NOTEBOOK
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/exchange/contradictions.h"
#include "core/store/own_objects.h"
#include "core/store/soundness.h"

#include <QJsonArray>

namespace washfast::cli {

namespace {

QJsonValue orNull(const QString& text)
{
    return text.isEmpty() ? QJsonValue() : QJsonValue(text);
}

/// `notebook` may be missing: a file that cannot be opened at all.
QJsonObject checkJson(
    const QString& integrity, const OpenedNotebook* notebook, const std::vector<exchange::Finding>& findings)
{
    QJsonArray list;
    for (const auto& finding : findings)
        list.append(QJsonObject { { QStringLiteral("print"), orNull(finding.print) },
            { QStringLiteral("field"), orNull(finding.field) }, { QStringLiteral("says"), finding.says } });
    const auto* records = notebook ? notebook->records.get() : nullptr;
    return { { QStringLiteral("integrity"), integrity },
        { QStringLiteral("schema"), notebook ? QJsonValue(notebook->file->schemaOfFile()) : QJsonValue() },
        { QStringLiteral("prints"), records ? QJsonValue(records->prints().rows()) : QJsonValue() },
        { QStringLiteral("findings"), list } };
}

void asText(const OpenedNotebook& notebook, const std::vector<exchange::Finding>& findings, const Output& output)
{
    output.line(Words::tr("The file is sound: schema %1, %n prints.", nullptr, notebook.records->prints().rows())
                    .arg(notebook.file->schemaOfFile()));
    if (notebook.file->schemaOfFile() < notebook.file->schema())
        output.line(
            Words::tr("It is of an older version and will be brought up to date (schema %1) when it is opened to "
                      "be changed; a copy is made first.")
                .arg(notebook.file->schema()));
    for (const auto& finding : findings)
        output.line(finding.print.isEmpty() ? finding.says : QStringLiteral("%1: %2").arg(finding.print, finding.says));
    if (findings.empty())
        output.line(Words::tr("No records contradict one another."));
}

int runCheck(const Arguments& arguments, const Output& output)
{
    auto notebook = openNotebook(arguments.file(0));
    if (!notebook && notebook.error().code == Trouble::Damaged && arguments.has("--json"))
        output.json(checkJson(notebook.error().says, nullptr, {}));
    if (!notebook)
        return output.fail(notebook.error());
    const auto whole = store::soundness(*notebook->file);
    const QString integrity = whole ? *whole : whole.error().says;
    const bool sound = integrity == QLatin1String("ok");
    std::vector<exchange::Finding> findings;
    auto read = notebook->readRecords();
    if (read)
        findings = exchange::findContradictions(*notebook->records);
    const auto strange = store::strangeObjects(*notebook->file);
    for (const auto& says : strange ? *strange : QStringList())
        findings.push_back({ {}, {}, says });
    if (arguments.has("--json"))
        output.json(checkJson(integrity, &*notebook, findings));
    if (!sound)
        return output.fail(notebook->file->told(
            { Trouble::Damaged, Words::tr("The file is not sound: %1.").arg(integrity), arguments.file(0) }));
    if (!read)
        return output.fail(read.error());
    if (!strange)
        return output.fail(strange.error());
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
