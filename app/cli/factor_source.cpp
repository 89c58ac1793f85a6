#include "app/cli/factor_source.h"

#include "app/cli/notebooks.h"
#include "app/cli/whole_catalogue.h"
#include "app/cli/words.h"
#include "core/causes/from_notebook.h"
#include "core/exchange/delimited.h"
#include "core/files/read_once.h"

namespace washfast::cli {

namespace {

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
    for (const char* option : { "--same-as", "--batch" })
        if (arguments.has(option))
            return Error { Trouble::BadInput, Words::tr("%1 works with a table only.").arg(QLatin1String(option)), {} };
    auto notebook = openNotebook(arguments.file(0));
    if (!notebook)
        return notebook.error();
    if (auto read = notebook->readRecords(); !read)
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

/// COLUMN=key: the last = counts, since a heading may have one.
Result<std::vector<std::pair<QString, QString>>> sameAs(const Arguments& arguments)
{
    std::vector<std::pair<QString, QString>> pairs;
    for (const auto& one : arguments.values("--same-as")) {
        const qsizetype at = one.lastIndexOf(QLatin1Char('='));
        if (at <= 0 || at + 1 == one.size())
            return Error { Trouble::BadInput, Words::tr("--same-as needs COLUMN=key, and “%1” is not that.").arg(one),
                {} };
        pairs.emplace_back(one.left(at).trimmed(), one.mid(at + 1).trimmed());
    }
    return pairs;
}

Result<causes::FactorTable> ofTable(const Arguments& arguments, files::OpenFile& file)
{
    for (const char* option : { "--where", "--against" })
        if (arguments.has(option))
            return Error { Trouble::BadInput, Words::tr("%1 works with a notebook only.").arg(QLatin1String(option)),
                {} };
    const auto pairs = sameAs(arguments);
    if (!pairs)
        return pairs.error();
    const auto bytes = file.all(exchange::DelimitedLimits().bytes);
    if (!bytes)
        return bytes.error();
    const auto table = exchange::readDelimited(*bytes);
    std::vector<QStringList> rows;
    for (const auto& note : table.notes)
        if (note.weight() != exchange::TableNoteWeight::Warning)
            return Error { Trouble::BadInput, note.sentence(), files::spokenName(arguments.file(0)) };
    for (const auto& row : table.rows)
        rows.push_back(row.cells);
    const auto catalogue = wholeCatalogue();
    causes::TableChoices choices;
    choices.outcome = arguments.value("--outcome");
    choices.factors = wantedFactors(arguments);
    choices.block = arguments.value("--block");
    choices.batches = arguments.list("--batch");
    choices.larger_is_worse = arguments.has("--larger-is-worse");
    choices.catalogue = &catalogue;
    choices.same_as = *pairs;
    return causes::readFactorTable(table.header, rows, choices);
}

} // namespace

Result<causes::FactorTable> factorTable(const Arguments& arguments)
{
    bool notebook = false;
    {
        auto file = files::OpenFile::open(arguments.file(0));
        if (!file)
            return file.error();
        const auto start = file->start(16);
        if (!start)
            return start.error();
        notebook = start->startsWith("SQLite format 3");
        if (notebook && !file->onDisk())
            return notOnDisk(arguments.file(0));
        if (!notebook)
            return ofTable(arguments, *file);
    } // the notebook opens its file itself
    return ofNotebook(arguments);
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
        { "--same-as", "COLUMN=key",
            QT_TRANSLATE_NOOP("Cli",
                "this column is that field of the catalogue, with its published signs (table only); a heading that is "
                "a key needs no such word"),
            true },
        { "--where", "FILTER", QT_TRANSLATE_NOOP("Cli", "only these prints of the notebook") },
        { "--against", "FILTER",
            QT_TRANSLATE_NOOP("Cli", "the prints of --where failed, these kept; needs no --outcome") } };
}

} // namespace washfast::cli
