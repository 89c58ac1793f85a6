// washfast import NOTEBOOK TABLE.csv
#include "core/exchange/import.h"
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "app/cli/whole_catalogue.h"
#include "app/cli/words.h"
#include "core/files/read_once.h"

#include <QFileInfo>
#include <QJsonArray>

namespace washfast::cli {

namespace {

using exchange::ImportRow;

/// HEADING=key: the last = counts, since a heading may have one.
Result<exchange::HeadingChoices> headingChoices(const QStringList& given)
{
    exchange::HeadingChoices choices;
    for (const auto& one : given) {
        const qsizetype at = one.lastIndexOf(QLatin1Char('='));
        if (at <= 0)
            return Error { Trouble::BadInput, Words::tr("--map needs HEADING=key, and “%1” is not that.").arg(one),
                {} };
        choices.insert(one.left(at), one.mid(at + 1));
    }
    return choices;
}

Result<exchange::ImportOptions> importOptions(const Arguments& arguments)
{
    exchange::ImportOptions options;
    if (arguments.has("--zone")) {
        options.zone = QTimeZone(arguments.value("--zone").toUtf8());
        if (!options.zone.isValid())
            return Error { Trouble::BadInput,
                Words::tr("There is no time zone %1; write a name such as Europe/Lisbon.")
                    .arg(arguments.value("--zone")),
                {} };
    }
    options.any_size = arguments.has("--any-size");
    for (const auto& one : arguments.values("--every-row")) {
        const qsizetype at = one.indexOf(QLatin1Char('='));
        if (at <= 0)
            return Error { Trouble::BadInput, Words::tr("--every-row needs key=value, and “%1” is not that.").arg(one),
                {} };
        options.every_row.emplace_back(one.left(at), one.mid(at + 1));
    }
    return options;
}

QJsonObject toJson(const exchange::ImportPreview& preview, const exchange::ImportReport& report, bool applied)
{
    QJsonArray refused;
    QJsonArray prints;
    for (const auto& row : preview.rows) {
        if (row.state == ImportRow::State::New)
            prints.append(row.code);
        for (const auto& refusal : row.refusals)
            refused.append(QJsonObject { { QStringLiteral("line"), refusal.line },
                { QStringLiteral("print"), row.code.isEmpty() ? QJsonValue() : QJsonValue(row.code) },
                { QStringLiteral("heading"), refusal.heading.isEmpty() ? QJsonValue() : QJsonValue(refusal.heading) },
                { QStringLiteral("says"), refusal.says } });
    }
    return { { QStringLiteral("applied"), applied }, { QStringLiteral("rows"), qint64(preview.rows.size()) },
        { QStringLiteral("new"), preview.count(ImportRow::State::New) },
        { QStringLiteral("imported"), report.imported },
        { QStringLiteral("already_there"), preview.count(ImportRow::State::AlreadyThere) },
        { QStringLiteral("rows_refused"), preview.count(ImportRow::State::Refused) },
        { QStringLiteral("refused"), refused }, { QStringLiteral("prints"), prints },
        { QStringLiteral("faults"), QJsonArray::fromStringList(preview.faults) },
        { QStringLiteral("not_read"), QJsonArray::fromStringList(preview.mapping.notImported()) },
        { QStringLiteral("warnings"), QJsonArray::fromStringList(preview.warnings) } };
}

void tellThePerson(const exchange::ImportPreview& preview, const QString& table, const Output& output)
{
    for (const auto& text : preview.mapping.notImported() + preview.warnings)
        output.say(QStringLiteral("%1: %2").arg(table, text));
    for (const auto& refusal : preview.refusals())
        output.say(QStringLiteral("%1: %2").arg(table, refusal.sentence()));
}

/// What the table would become. A notebook that does not exist yet is an empty one, and is not made here.
Result<exchange::ImportPreview> preview(const QString& notebook, const QByteArray& bytes,
    const exchange::HeadingChoices& choices, const exchange::ImportOptions& options)
{
    const auto table = exchange::readDelimited(bytes);
    if (!QFileInfo::exists(notebook)) {
        const auto catalogue = wholeCatalogue();
        return previewImport(
            table, exchange::mapHeadings(table.header, catalogue, choices), Notebook(catalogue), options);
    }
    auto opened = openNotebook(notebook, Open::ToReadLookedThrough);
    if (!opened)
        return opened.error();
    if (const auto damage = opened->damage())
        return *damage; // nothing is written into it
    if (auto read = opened->readRecords(); !read)
        return read.error();
    return previewImport(
        table, exchange::mapHeadings(table.header, *opened->catalogue, choices), *opened->records, options);
}

/// Into a notebook that is there, or into a new one, which is not left half made.
Result<exchange::ImportReport> importInto(
    const QString& path, const exchange::ImportPreview& planned, bool keep_good, const QString& label)
{
    if (QFileInfo::exists(path)) {
        auto opened = openNotebook(path, Open::MayBeNew);
        if (!opened)
            return opened.error();
        auto applied = applyImport(*opened->file, planned, keep_good, label);
        if (!applied && applied.error().code == Trouble::NoSpace)
            return Error { Trouble::NoSpace, Words::tr("The disk is full, so nothing was imported."), path };
        return applied;
    }
    exchange::ImportReport report;
    const auto made = makeNotebook(path, files::Existing::Refuse, [&](OpenedNotebook& notebook) -> Outcome {
        auto applied = applyImport(*notebook.file, planned, keep_good, label);
        if (!applied)
            return applied.error();
        report = *applied;
        return Done {};
    });
    if (!made)
        return made.error();
    return report;
}

int runImport(const Arguments& arguments, const Output& output)
{
    const auto choices = headingChoices(arguments.values("--map"));
    if (!choices)
        return output.misuse(choices.error().says);
    const auto options = importOptions(arguments);
    if (!options)
        return output.misuse(options.error().says);
    if (store::isSameFile(arguments.file(0), arguments.file(1)))
        return output.fail(
            { Trouble::BadInput, Words::tr("This is the notebook itself, not a table."), arguments.file(1) });
    const auto bytes = files::readOnce(arguments.file(1), exchange::DelimitedLimits().bytes);
    if (!bytes)
        return output.fail(bytes.error());
    const auto planned = preview(arguments.file(0), *bytes, *choices, *options);
    if (!planned)
        return output.fail(planned.error());
    const QString name = files::spokenName(arguments.file(1));
    tellThePerson(*planned, name, output);

    const bool only_look = arguments.has("--dry-run");
    const bool keep_good = arguments.has("--keep-good");
    const int refused = planned->count(ImportRow::State::Refused);
    const int fresh = planned->count(ImportRow::State::New);
    const bool possible = planned->faults.isEmpty() && (refused == 0 || keep_good);
    exchange::ImportReport report;
    Error trouble;
    if (possible && !only_look && fresh > 0) {
        const auto applied = importInto(
            arguments.file(0), *planned, keep_good, Words::tr("Import %n prints from %1", nullptr, fresh).arg(name));
        if (!applied)
            return output.fail(applied.error());
        report = *applied;
        output.wroteFiles();
    } else if (!planned->faults.isEmpty()) {
        trouble = { Trouble::BadInput, planned->faults.join(QLatin1Char('\n')), name };
    } else if (!possible) {
        trouble = { Trouble::BadInput,
            Words::tr("%1 of %n rows cannot be taken as they are, so nothing is imported. Put them right, or take the "
                      "good ones with --keep-good.",
                nullptr, int(planned->rows.size()))
                .arg(refused),
            name };
    } else if (refused > 0 && refused == int(planned->rows.size())) {
        trouble = { Trouble::BadInput, Words::tr("Not one row can be taken."), name };
    }
    if (arguments.has("--json"))
        output.json(toJson(*planned, report, report.imported > 0));
    if (!trouble.says.isEmpty())
        return output.fail(trouble);
    if (!arguments.has("--json"))
        output.line((only_look
                ? Words::tr("%n prints would be imported; already there: %1, rows refused: %2.", nullptr, fresh)
                : Words::tr("%n prints imported; already there: %1, rows refused: %2.", nullptr, report.imported))
                        .arg(planned->count(ImportRow::State::AlreadyThere))
                        .arg(refused));
    return done;
}

} // namespace

Verb importVerb()
{
    return { "import", QT_TRANSLATE_NOOP("Cli", "adds prints from a table whose headings are catalogue keys or names"),
        { { "NOTEBOOK", "TABLE.csv" },
            { { "--map", "HEADING=key",
                  QT_TRANSLATE_NOOP("Cli", "reads a column as this field; HEADING= leaves it out"), true },
                { "--every-row", "key=value",
                    QT_TRANSLATE_NOOP("Cli", "a field that has no column and is the same everywhere"), true },
                { "--zone", "NAME",
                    QT_TRANSLATE_NOOP("Cli", "clock of times without an offset, such as Europe/Lisbon") },
                { "--any-size", nullptr,
                    QT_TRANSLATE_NOOP(
                        "Cli", "takes numbers outside the plausible range and times that last too long, too") },
                { "--keep-good", nullptr,
                    QT_TRANSLATE_NOOP("Cli", "imports the good rows although others are refused") },
                { "--dry-run", nullptr, QT_TRANSLATE_NOOP("Cli", "only says what would happen") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } },
        runImport };
}

} // namespace washfast::cli
