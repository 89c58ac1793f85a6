// washfast causes NOTEBOOK-or-TABLE.csv
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "core/causes/answer_json.h"
#include "core/causes/from_notebook.h"
#include "core/exchange/delimited.h"

#include <QCoreApplication>
#include <QFile>
#include <algorithm>

namespace washfast::cli {

namespace {

QString say(const char* text)
{
    return QCoreApplication::translate("Cli", text);
}

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

Result<causes::FactorTable> fromNotebook(const Arguments& arguments)
{
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

Result<causes::FactorTable> fromTable(const Arguments& arguments)
{
    for (const char* option : { "--where", "--against" })
        if (arguments.has(option))
            return Error { Trouble::BadInput,
                say(QT_TRANSLATE_NOOP("Cli", "%1 works with a notebook only.")).arg(QLatin1String(option)), {} };
    QFile file(arguments.file(0));
    if (!file.open(QIODevice::ReadOnly))
        return Error { Trouble::NotFound,
            say(QT_TRANSLATE_NOOP("Cli", "There is no such notebook or table, or it cannot be read.")),
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
    choices.larger_is_worse = arguments.has("--larger-is-worse");
    return causes::readFactorTable(table.header, rows, choices);
}

QString shortNumber(const std::optional<double>& value)
{
    return value ? QString::number(*value, 'g', 3) : QString();
}

void asText(const causes::Answer& answer, const Output& output)
{
    output.line(say(QT_TRANSLATE_NOOP("Cli", "Answer: %1")).arg(causes::verdictKey(answer.verdict)));
    if (!answer.factors_named.isEmpty())
        output.line(say(QT_TRANSLATE_NOOP("Cli", "Named: %1")).arg(answer.factors_named.join(QStringLiteral(", "))));
    output.line(answer.why);
    output.line({});
    std::vector<QStringList> rows;
    for (const auto& factor : answer.factors) {
        QStringList others;
        constexpr size_t most = 3; // the strongest; --json has them all
        for (size_t i = 0; i < std::min(most, factor.moves_with.size()); ++i)
            others << factor.moves_with[i].name;
        if (factor.moves_with.size() > most)
            others << QStringLiteral("+%1").arg(factor.moves_with.size() - most);
        const QString interval = factor.difference_low && factor.difference_high
            ? QStringLiteral("%1 to %2").arg(shortNumber(factor.difference_low), shortNumber(factor.difference_high))
            : QString();
        rows.push_back({ factor.name, QString::number(factor.n_known), shortNumber(factor.difference), interval,
            shortNumber(factor.p_exact), factor.p_method, shortNumber(factor.p_adjusted),
            others.join(QStringLiteral(", ")) });
    }
    output.table(
        { QStringLiteral("factor"), QStringLiteral("n"), QStringLiteral("difference"), QStringLiteral("interval"),
            QStringLiteral("p"), QStringLiteral("by"), QStringLiteral("p adjusted"), QStringLiteral("moves with") },
        rows);
    if (answer.firth_model) {
        output.line({});
        std::vector<QStringList> terms;
        for (qsizetype i = 0; i < answer.firth_model->terms.size(); ++i) {
            const auto& value = answer.firth_model->values[size_t(i)];
            terms.push_back({ answer.firth_model->terms[i], shortNumber(value.estimate), shortNumber(value.low),
                shortNumber(value.high), shortNumber(value.p) });
        }
        output.table({ QStringLiteral("term"), QStringLiteral("log odds"), QStringLiteral("low"),
                         QStringLiteral("high"), QStringLiteral("p") },
            terms);
    }
}

int run(const Arguments& arguments, const Output& output)
{
    if (!arguments.has("--outcome") && !arguments.has("--against"))
        return output.misuse(say(QT_TRANSLATE_NOOP("Cli", "--outcome is missing: which column says what failed?")));
    const auto table = isDatabase(arguments.file(0)) ? fromNotebook(arguments) : fromTable(arguments);
    if (!table)
        return output.fail(table.error());
    causes::Options options;
    options.model = arguments.list("--model");
    for (const auto& name : options.model)
        if (std::none_of(table->factors.begin(), table->factors.end(),
                [&](const causes::Factor& factor) { return factor.name == name; }))
            return output.misuse(say(QT_TRANSLATE_NOOP("Cli", "%1 of --model is no factor here.")).arg(name));
    const auto answer = causes::analyse(*table, options);
    for (const auto& warning : answer.warnings)
        output.say(warning);
    if (arguments.has("--json"))
        output.json(causes::toJson(answer));
    else
        asText(answer, output);
    return done;
}

} // namespace

Verb causesVerb()
{
    return { "causes", QT_TRANSLATE_NOOP("Cli", "why prints failed, as far as these prints can tell"),
        { { "NOTEBOOK-or-TABLE.csv" },
            { { "--outcome", "COLUMN",
                  QT_TRANSLATE_NOOP("Cli", "a yes/no (yes: failed) or a number (smaller: worse)") },
                { "--larger-is-worse", nullptr, QT_TRANSLATE_NOOP("Cli", "for an outcome that is a number") },
                { "--factors", "A,B,C",
                    QT_TRANSLATE_NOOP("Cli", "what may be the cause; without it, all that can be") },
                { "--block", "COLUMN",
                    QT_TRANSLATE_NOOP("Cli", "compares only within its values, such as session_code") },
                { "--model", "A,B,C", QT_TRANSLATE_NOOP("Cli", "fits exactly these together") },
                { "--where", "FILTER", QT_TRANSLATE_NOOP("Cli", "only these prints of the notebook") },
                { "--against", "FILTER",
                    QT_TRANSLATE_NOOP("Cli", "the prints of --where failed, these kept; needs no --outcome") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } },
        run };
}

} // namespace washfast::cli
