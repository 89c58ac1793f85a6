// washfast list NOTEBOOK
#include "app/cli/notebooks.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/exchange/export.h"
#include "core/quantity/value_text.h"

#include <QJsonArray>
#include <QLocale>

namespace washfast::cli {

namespace {

const char* const ordinaryColumns
    = "print_code,session_code,mix_code,paper_name,print_method,dose_j_cm2,formed,kept,print_outcome";

/// Indices of the wanted print fields, or the first that is none.
Result<std::vector<int>> columnsFor(const Catalogue& catalogue, const QStringList& keys)
{
    std::vector<int> columns;
    for (const auto& key : keys) {
        const int index = catalogue.printField(key);
        if (index < 0)
            return Error { Trouble::BadInput, Words::tr("There is no field %1.").arg(key), {} };
        columns.push_back(index);
    }
    return columns;
}

QJsonObject toJson(const PrintReader& reader, const std::vector<int>& columns, const std::vector<int>& rows)
{
    QJsonArray prints;
    const auto& fields = reader.notebook().catalogue().printFields();
    for (const int row : rows) {
        QJsonObject print;
        QJsonObject weak;
        for (const int column : columns) {
            const auto& field = fields[size_t(column)];
            const auto known = reader.get(row, column);
            print.insert(field.key, exchange::jsonValue(reader.notebook(), field, known));
            if (known.has() && known.evidence != Evidence::Measured)
                weak.insert(field.key, evidenceKey(known.evidence));
        }
        print.insert(QStringLiteral("not_measured"), weak);
        prints.append(print);
    }
    return { { QStringLiteral("n"), qint64(rows.size()) }, { QStringLiteral("prints"), prints } };
}

void asTable(
    const PrintReader& reader, const std::vector<int>& columns, const std::vector<int>& rows, const Output& output)
{
    const auto& fields = reader.notebook().catalogue().printFields();
    QStringList headings;
    for (const int column : columns)
        headings << fields[size_t(column)].key;
    std::vector<QStringList> lines;
    for (const int row : rows) {
        auto& line = lines.emplace_back();
        for (const int column : columns) {
            const auto& field = fields[size_t(column)];
            const auto known = reader.get(row, column);
            line << (field.kind == Kind::Time ? isoText(field, known.value) : displayText(field, known, QLocale::c()));
        }
    }
    output.table(headings, lines);
}

int runList(const Arguments& arguments, const Output& output)
{
    auto notebook = openNotebook(arguments.file(0));
    if (!notebook)
        return output.fail(notebook.error());
    const QStringList keys = arguments.has("--columns") ? arguments.list("--columns")
                                                        : QString::fromLatin1(ordinaryColumns).split(QLatin1Char(','));
    const auto columns = columnsFor(*notebook->catalogue, keys);
    if (!columns)
        return output.misuse(columns.error().says);
    const auto filter = parseFilter(arguments.value("--where"), *notebook->catalogue);
    if (!filter.ok())
        return output.misuse(filter.fault->error().sentence());
    notebook->lookBeside();
    const auto read = notebook->readRecords();
    const auto damage = notebook->damage();
    if (!read)
        return output.fail(damage ? *damage : read.error());
    if (damage)
        output.say(Words::tr("The notebook is damaged: prints and values may be missing from what follows."));
    const PrintColumns values(*notebook->records);
    const auto shown = filter.filter.matches(values);
    std::vector<int> rows;
    for (size_t row = 0; row < shown.size(); ++row)
        if (shown[row])
            rows.push_back(int(row));
    if (arguments.has("--json"))
        output.json(toJson(values.reader(), *columns, rows));
    else
        asTable(values.reader(), *columns, rows, output);
    return damage ? output.fail(*damage) : done;
}

} // namespace

Verb listVerb()
{
    return { "list", QT_TRANSLATE_NOOP("Cli", "prints of a notebook, as a table"),
        { { "NOTEBOOK" },
            { { "--where", "FILTER", QT_TRANSLATE_NOOP("Cli", "only these, such as \"kept < 0.6 and mix_code = M7\"") },
                { "--columns", "A,B,C", QT_TRANSLATE_NOOP("Cli", "catalogue keys of the columns") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } },
        runList };
}

} // namespace washfast::cli
