#include "app/cli/factor_source.h"

#include "app/cli/notebooks.h"
#include "app/cli/words.h"
#include "core/causes/from_notebook.h"
#include "core/exchange/delimited.h"

#include <QFile>

namespace washfast::cli {

namespace {

bool isDatabase(const QString& path)
{
    QFile file(path);
    return file.open(QIODevice::ReadOnly) && file.read(16).startsWith("SQLite format 3");
}

/// The factors that are asked for, with those of the model that are not among them.
QStringList wantedFactors(const Arguments& arguments)
{
    QStringList factors = arguments.list("--factors");
    if (!factors.isEmpty())
        for (const auto& name : arguments.list("--model"))
            if (!factors.contains(name))
                factors << name;
    return factors;
}

Result<causes::FactorTable> ofNotebook(const Arguments& arguments)
{
    auto notebook = openNotebook(arguments.file(0));
    if (!notebook)
        return notebook.error();
    if (auto read = notebook->readSoundRecords(); !read)
        return read.error();
    const PrintColumns columns(*notebook->records);
    causes::NotebookChoices choices;
    choices.outcome = arguments.value("--outcome");
    choices.factors = wantedFactors(arguments);
    choices.block = arguments.value("--block");
    choices.larger_is_worse = arguments.has("--larger-is-worse");
    for (const auto& [option, marks] :
        { std::pair("--where", &choices.shown), std::pair("--against", &choices.against) }) {
        if (!arguments.has(option))
            continue;
        auto shown = printsShown(columns, arguments.value(option));
        if (!shown)
            return shown.error();
        *marks = std::move(shown).value();
    }
    return causes::fromNotebook(columns, choices);
}

Result<causes::FactorTable> ofTable(const Arguments& arguments)
{
    for (const char* option : { "--where", "--against" })
        if (arguments.has(option))
            return Error { Trouble::BadInput, Words::tr("%1 works with a notebook only.").arg(QLatin1String(option)),
                {} };
    QFile file(arguments.file(0));
    if (!file.open(QIODevice::ReadOnly))
        return Error { Trouble::NotFound, Words::tr("There is no such notebook or table, or it cannot be read."),
            arguments.file(0) };
    const auto table = exchange::readDelimited(file.readAll());
    std::vector<QStringList> rows;
    for (const auto& note : table.notes)
        if (note.weight() != exchange::TableNoteWeight::Warning)
            return Error { Trouble::BadInput, note.sentence(), arguments.file(0) };
    for (const auto& row : table.rows)
        rows.push_back(row.cells);
    causes::TableChoices choices;
    choices.outcome = arguments.value("--outcome");
    choices.factors = wantedFactors(arguments);
    choices.block = arguments.value("--block");
    choices.batches = arguments.list("--batch");
    choices.larger_is_worse = arguments.has("--larger-is-worse");
    return causes::readFactorTable(table.header, rows, choices);
}

} // namespace

Result<causes::FactorTable> factorTable(const Arguments& arguments)
{
    return isDatabase(arguments.file(0)) ? ofNotebook(arguments) : ofTable(arguments);
}

QString questionFault(const Arguments& arguments)
{
    if (arguments.has("--outcome") || arguments.has("--against"))
        return {};
    return Words::tr("--outcome is missing: which column says what failed?");
}

std::vector<Option> factorOptions()
{
    return { { "--outcome", "COLUMN", QT_TRANSLATE_NOOP("Cli", "a yes/no (yes: failed) or a number (smaller: worse)") },
        { "--larger-is-worse", nullptr, QT_TRANSLATE_NOOP("Cli", "for an outcome that is a number") },
        { "--factors", "A,B,C", QT_TRANSLATE_NOOP("Cli", "what may be the cause; without it, all that can be") },
        { "--block", "COLUMN", QT_TRANSLATE_NOOP("Cli", "compares only within its values, such as session_code") },
        { "--batch", "A,B", QT_TRANSLATE_NOOP("Cli", "columns that say which prints were made together (table only)") },
        { "--where", "FILTER", QT_TRANSLATE_NOOP("Cli", "only these prints of the notebook") },
        { "--against", "FILTER",
            QT_TRANSLATE_NOOP("Cli", "the prints of --where failed, these kept; needs no --outcome") } };
}

} // namespace washfast::cli
