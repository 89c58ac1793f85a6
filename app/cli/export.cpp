// washfast export NOTEBOOK
#include "app/cli/notebooks.h"
#include "app/cli/targets.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/files/read_once.h"
#include "core/report/report_answers.h"
#include "core/report/report_files.h"

#include <QJsonArray>

namespace washfast::cli {

namespace {

/// Where an export goes.
struct Target {
    QString path; // on standard output: a name with the ending of the format
    bool to_output = false, replace = false;
};

/// The error is what is wrong with the words.
Result<Target> targetOf(const Arguments& arguments)
{
    const auto wrong = [](const QString& says) { return Error { Trouble::BadInput, says, {} }; };
    if (!arguments.has("--to"))
        return wrong(Words::tr("--to is missing: which file is to be written?"));
    Target target { arguments.value("--to"), false, arguments.has("--replace") };
    target.to_output = files::isStandardStream(target.path);
    if (!target.to_output) {
        if (arguments.has("--format"))
            return wrong(Words::tr("--format goes with --to - only; the name of a file ends in its format."));
        return target;
    }
    const QStringList formats { QStringLiteral("xlsx"), QStringLiteral("csv"), QStringLiteral("json"),
        QStringLiteral("html"), QStringLiteral("pdf") };
    const QString format = arguments.value("--format").toLower();
    if (!formats.contains(format))
        return wrong(Words::tr("--to - writes to standard output and needs --format with one of %1.")
                         .arg(formats.join(QStringLiteral(", "))));
    if (arguments.has("--json"))
        return wrong(Words::tr("--to - and --json would both write to standard output."));
    target.path = QStringLiteral("prints.") + format;
    return target;
}

int put(const exchange::ExportSelection& selection, const std::vector<files::FileToWrite>& made, const Target& target,
    bool as_json, const Output& output)
{
    if (target.to_output) {
        output.file(made.front().bytes);
        for (size_t i = 1; i < made.size(); ++i)
            output.say(Words::tr("The data dictionary (%1) is written beside a file only, not to standard output.")
                           .arg(made[i].path));
        return done;
    }
    const auto written = exchange::writeExport(selection, made, existing(target.replace));
    if (!written)
        return output.fail(withAdvice(written.error(), target.replace));
    output.wroteFiles();
    if (as_json)
        output.json({ { QStringLiteral("prints"), written->prints },
            { QStringLiteral("files"), QJsonArray::fromStringList(written->files) },
            { QStringLiteral("term"), selection.term.isEmpty() ? QJsonValue() : QJsonValue(selection.term) } });
    else
        output.line((written->files.size() == 2 ? Words::tr("Wrote %n prints to %1 and %2.", nullptr, written->prints)
                                                      .arg(written->files[0], written->files[1])
                                                : Words::tr("Wrote %n prints to %1.", nullptr, written->prints)
                                                      .arg(written->files.join(QStringLiteral(", ")))));
    return done;
}

int runExport(const Arguments& arguments, const Output& output)
{
    const auto target = targetOf(arguments);
    if (!target)
        return output.misuse(target.error().says);
    if (!target->to_output)
        if (const auto wrong = whyNotWritten(target->path, target->replace))
            return output.fail(*wrong);
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
    if (report::isReport(target->path)) {
        const PrintColumns columns(*notebook->records);
        contents.makers = arguments.has("--makers");
        contents.written = QDate::currentDate();
        contents.answers = report::answersTo(report::questionsFor(columns, *selection));
    }
    const auto made = report::makeTerm(*selection, target->path, contents);
    if (!made)
        return output.fail(made.error());
    return put(*selection, *made, *target, arguments.has("--json"), output);
}

} // namespace

Verb exportVerb()
{
    return { "export", QT_TRANSLATE_NOOP("Cli", "a term's results as a workbook, a table, JSON or a report"),
        { { "NOTEBOOK" },
            { { "--term", "NAME", QT_TRANSLATE_NOOP("Cli", "this term only; without it, everything") },
                { "--to", "FILE",
                    QT_TRANSLATE_NOOP("Cli", "ends in .xlsx, .csv, .json, .html or .pdf; - is standard output") },
                { "--format", "FORMAT", QT_TRANSLATE_NOOP("Cli", "with --to -: xlsx, csv, json, html or pdf") },
                { "--replace", nullptr, QT_TRANSLATE_NOOP("Cli", "writes over a file that is there") },
                { "--makers", nullptr,
                    QT_TRANSLATE_NOOP("Cli", "a report has the makers' codes too; tables always have") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object about what was written") } } },
        runExport };
}

} // namespace washfast::cli
