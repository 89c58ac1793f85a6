// washfast export NOTEBOOK
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/report/report_answers.h"
#include "core/report/report_files.h"

#include <QJsonArray>

namespace washfast::cli {

namespace {

int runExport(const Arguments& arguments, const Output& output)
{
    if (!arguments.has("--to"))
        return output.misuse(Words::tr("--to is missing: which file is to be written?"));
    auto notebook = openNotebook(arguments.file(0));
    if (!notebook)
        return output.fail(notebook.error());
    if (auto read = notebook->readSoundRecords(); !read)
        return output.fail(read.error());
    const auto term = arguments.has("--term") ? std::optional(arguments.value("--term")) : std::nullopt;
    const auto selection = exchange::selectForExport(*notebook->records, term);
    if (!selection)
        return output.fail(selection.error());
    exchange::ReportOptions contents;
    if (report::isReport(arguments.value("--to"))) {
        const PrintColumns columns(*notebook->records);
        contents.makers = arguments.has("--makers");
        contents.written = QDate::currentDate();
        contents.answers = report::answersTo(report::questionsFor(columns, *selection));
    }
    const auto written = report::exportTerm(*selection, arguments.value("--to"), contents);
    if (!written)
        return output.fail(written.error());
    if (arguments.has("--json"))
        output.json({ { QStringLiteral("prints"), written->prints },
            { QStringLiteral("files"), QJsonArray::fromStringList(written->files) },
            { QStringLiteral("term"), term ? QJsonValue(selection->term) : QJsonValue() } });
    else
        output.line(
            Words::tr("Wrote %1 prints to %2.").arg(written->prints).arg(written->files.join(Words::tr(" and "))));
    return done;
}

} // namespace

Verb exportVerb()
{
    return { "export", QT_TRANSLATE_NOOP("Cli", "a term's results as a workbook, a table, JSON or a report"),
        { { "NOTEBOOK" },
            { { "--term", "NAME", QT_TRANSLATE_NOOP("Cli", "this term only; without it, everything") },
                { "--to", "FILE", QT_TRANSLATE_NOOP("Cli", "ends in .xlsx, .csv, .json, .html or .pdf") },
                { "--makers", nullptr,
                    QT_TRANSLATE_NOOP("Cli", "a report has the makers' codes too; tables always have") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object about what was written") } } },
        runExport };
}

} // namespace washfast::cli
