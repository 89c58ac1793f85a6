#include "core/causes/factor_table.h"

#include "core/causes/phrases.h"
#include "core/causes/words.h"

#include <QRegularExpression>
#include <cmath>

namespace washfast::causes {

namespace {

using Cells = std::vector<QString>; // null: not known

Error bad(const QString& says, const QString& where = {})
{
    return { Trouble::BadInput, says, where };
}

/// Lines are counted as in a file whose first line holds the headings.
QString place(const QString& column, std::size_t row)
{
    return Words::tr("column %1, line %2").arg(column).arg(row + 2);
}

QString known(const QString& cell)
{
    static const QStringList unknown { QStringLiteral("na"), QStringLiteral("n/a"), QStringLiteral("?"),
        QStringLiteral("unknown") };
    QString text = cell.trimmed();
    if (text.isEmpty() || unknown.contains(text.toLower()))
        return {};
    return text;
}

std::optional<double> asNumber(const QString& text)
{
    bool ok = false;
    const double value = text.toDouble(&ok);
    return ok && std::isfinite(value) ? std::optional(value) : std::nullopt;
}

std::optional<double> asYesNo(const QString& text)
{
    const QString lower = text.toLower();
    if (lower == QLatin1String("yes") || lower == QLatin1String("true") || lower == QLatin1String("1"))
        return 1.0;
    if (lower == QLatin1String("no") || lower == QLatin1String("false") || lower == QLatin1String("0"))
        return 0.0;
    return std::nullopt;
}

bool hasDecimalComma(const QString& text)
{
    static const QRegularExpression pattern(QStringLiteral("^[+-]?\\d+,\\d+$"));
    return pattern.match(text).hasMatch();
}

struct Tally {
    std::size_t known = 0, yes_no = 0, numbers = 0, commas = 0;
    std::optional<std::size_t> first_comma, first_word; // rows
};

Tally tally(const Cells& cells)
{
    Tally out;
    for (std::size_t row = 0; row < cells.size(); ++row) {
        if (cells[row].isNull())
            continue;
        ++out.known;
        out.yes_no += asYesNo(cells[row]) ? 1U : 0U;
        if (asNumber(cells[row])) {
            ++out.numbers;
        } else if (hasDecimalComma(cells[row])) {
            ++out.commas;
            out.first_comma = out.first_comma.value_or(row);
        } else {
            out.first_word = out.first_word.value_or(row);
        }
    }
    return out;
}

std::optional<Error> decimalComma(const QString& name, const Cells& cells, const Tally& counts)
{
    if (counts.commas == 0 || (counts.commas + counts.numbers) * 4 < counts.known * 3)
        return std::nullopt;
    return bad(Words::tr("\"%1\" has a decimal comma; write it with a decimal point").arg(cells[*counts.first_comma]),
        place(name, *counts.first_comma));
}

class Reader {
public:
    Reader(const QStringList& headings, const std::vector<QStringList>& rows)
        : rows_(rows)
    {
        for (const QString& heading : headings)
            headings_.append(heading.trimmed());
    }

    [[nodiscard]] std::optional<Error> checkShape() const
    {
        for (int i = 0; i < headings_.size(); ++i)
            if (!headings_[i].isEmpty() && headings_.indexOf(headings_[i]) != i)
                return bad(Words::tr("two columns are called \"%1\"").arg(headings_[i]));
        for (std::size_t row = 0; row < rows_.size(); ++row)
            if (rows_[row].size() > headings_.size())
                return bad(Words::tr("the line has %1 cells and there are %2 headings")
                               .arg(rows_[row].size())
                               .arg(headings_.size()),
                    Words::tr("line %1").arg(row + 2));
        return std::nullopt;
    }

    [[nodiscard]] bool has(const QString& name) const { return headings_.contains(name); }
    [[nodiscard]] const QStringList& headings() const { return headings_; }

    [[nodiscard]] Error missing(const QString& what, const QString& name) const
    {
        return bad(Words::tr("there is no column \"%1\" for %2; the columns are: %3")
                       .arg(name, what, headings_.join(QStringLiteral(", "))));
    }

    [[nodiscard]] Cells cells(const QString& name) const
    {
        const qsizetype column = headings_.indexOf(name);
        Cells out;
        for (const QStringList& row : rows_)
            out.push_back(column < row.size() ? known(row[column]) : QString());
        return out;
    }

private:
    QStringList headings_;
    const std::vector<QStringList>& rows_;
};

std::optional<Error> readOutcome(const Reader& reader, FactorTable& table)
{
    const Cells cells = reader.cells(table.outcome);
    const Tally counts = tally(cells);
    if (counts.known == 0)
        return bad(Words::tr("the outcome \"%1\" is not recorded for any print").arg(table.outcome));
    const bool yes_no = counts.yes_no == counts.known;
    table.outcome_is_number = !yes_no;
    if (!yes_no) {
        if (const auto error = decimalComma(table.outcome, cells, counts))
            return error;
    }
    for (std::size_t row = 0; row < cells.size(); ++row) {
        if (cells[row].isNull()) {
            table.outcome_values.emplace_back();
            continue;
        }
        const auto value = yes_no ? asYesNo(cells[row]) : asNumber(cells[row]);
        if (!value)
            return bad(Words::tr("\"%1\" is %2")
                           .arg(cells[row],
                               counts.numbers * 2 > counts.known && counts.yes_no * 2 < counts.known
                                   ? Words::tr("not a number")
                                   : Words::tr("neither yes or no nor a number")),
                place(table.outcome, row));
        table.outcome_values.push_back(value);
    }
    return std::nullopt;
}

std::optional<Error> readFactor(const Reader& reader, const QString& name, FactorTable& table)
{
    const Cells cells = reader.cells(name);
    const Tally counts = tally(cells);
    Factor factor;
    factor.name = name;
    if (const auto error = decimalComma(name, cells, counts))
        return error;
    if (counts.known > 0 && counts.yes_no == counts.known) {
        factor.kind = Factor::Kind::YesNo;
        for (const QString& cell : cells)
            factor.numbers.push_back(cell.isNull() ? std::nullopt : asYesNo(cell));
    } else if (counts.numbers > 0 && counts.numbers * 4 >= counts.known * 3) {
        factor.kind = Factor::Kind::Number;
        QStringList refused;
        for (std::size_t row = 0; row < cells.size(); ++row) {
            factor.numbers.push_back(cells[row].isNull() ? std::nullopt : asNumber(cells[row]));
            if (!cells[row].isNull() && !factor.numbers.back())
                refused.append(Words::tr("\"%1\" (line %2)").arg(cells[row]).arg(row + 2));
        }
        if (!refused.isEmpty())
            table.warnings.append(Words::tr("%1 is a column of numbers; not a number, so taken as not known: %2.")
                                      .arg(name, refused.join(QStringLiteral(", "))));
    } else {
        factor.kind = Factor::Kind::Choice;
        factor.texts = cells;
    }
    table.factors.push_back(std::move(factor));
    return std::nullopt;
}

void readCodes(const Reader& reader, std::size_t rows, FactorTable& table, QString& code_column)
{
    for (const QString& name : { QStringLiteral("code"), QStringLiteral("print"), QStringLiteral("print_code") })
        if (reader.has(name) && name != table.outcome) {
            code_column = name;
            break;
        }
    const Cells cells = code_column.isEmpty() ? Cells(rows) : reader.cells(code_column);
    for (std::size_t row = 0; row < rows; ++row)
        table.prints.push_back(cells[row].isNull() ? Words::tr("line %1").arg(row + 2) : cells[row]);
}

bool allNumbers(const Cells& cells)
{
    const Tally counts = tally(cells);
    return counts.known > 0 && counts.numbers == counts.known && counts.yes_no < counts.known;
}

/// Readings of the two tones are no causes.
void takeTones(const Reader& reader, const TableChoices& choices, QStringList& names, FactorTable& table)
{
    QStringList taken;
    for (const char* key : { "formed", "kept", "net_density" }) {
        const QString name = QString::fromLatin1(key);
        if (!reader.has(name) || choices.factors.contains(name) || name == choices.block)
            continue;
        const Cells cells = reader.cells(name);
        if (!allNumbers(cells))
            continue;
        if (name != choices.outcome && names.removeAll(name) > 0)
            taken.append(name);
        if (qstrcmp(key, "net_density") == 0)
            continue;
        auto& tones = qstrcmp(key, "formed") == 0 ? table.formed : table.kept;
        for (const QString& cell : cells)
            tones.push_back(cell.isNull() ? std::nullopt : asNumber(cell));
    }
    if (!taken.isEmpty())
        table.warnings.append(
            Words::tr("Taken for readings of how the print came out and not for causes: %1. Name them among the "
                      "factors to look at them all the same.")
                .arg(taken.join(QStringLiteral(", "))));
}

/// So are signs.
void takeSigns(const Reader& reader, const TableChoices& choices, QStringList& names, FactorTable& table)
{
    const auto name = QStringLiteral("signs_seen");
    if (!reader.has(name) || choices.factors.contains(name) || name == choices.block || name == choices.outcome)
        return;
    names.removeAll(name);
    for (const QString& cell : reader.cells(name)) {
        QStringList signs;
        for (const QString& sign : cell.split(QLatin1Char(';'), Qt::SkipEmptyParts))
            signs << sign.trimmed();
        table.signs.push_back(signs);
    }
}

} // namespace

Result<FactorTable> readFactorTable(
    const QStringList& headings, const std::vector<QStringList>& rows, const TableChoices& choices)
{
    const Reader reader(headings, rows);
    if (auto error = reader.checkShape())
        return *error;
    if (!reader.has(choices.outcome))
        return reader.missing(Words::tr("the outcome"), choices.outcome);
    if (!choices.block.isEmpty() && !reader.has(choices.block))
        return reader.missing(Words::tr("the block"), choices.block);
    if (choices.block == choices.outcome)
        return bad(Words::tr("\"%1\" cannot be both the outcome and the block").arg(choices.outcome));

    FactorTable table;
    table.outcome = choices.outcome;
    table.larger_is_worse = choices.larger_is_worse;
    if (auto error = readOutcome(reader, table))
        return *error;
    QString code_column;
    readCodes(reader, rows.size(), table, code_column);
    if (!choices.block.isEmpty())
        table.blocks = reader.cells(choices.block);

    for (const QString& name : choices.batches) {
        if (!reader.has(name))
            return reader.missing(Words::tr("the batches"), name);
        table.batches.push_back({ name, name, reader.cells(name) });
    }
    QStringList names = choices.factors;
    if (names.isEmpty())
        for (const QString& heading : reader.headings())
            if (!heading.isEmpty() && heading != choices.outcome && heading != choices.block && heading != code_column)
                names.append(heading);
    takeTones(reader, choices, names, table);
    takeSigns(reader, choices, names, table);
    names.removeDuplicates();
    for (const QString& name : names) {
        if (!reader.has(name))
            return reader.missing(Words::tr("a factor"), name);
        if (name == choices.outcome || name == choices.block)
            return bad(Words::tr("\"%1\" cannot be a factor as well as the %2")
                           .arg(name, name == choices.outcome ? Words::tr("outcome") : Words::tr("block")));
        if (auto error = readFactor(reader, name, table))
            return *error;
    }
    if (table.factors.empty())
        return bad(Words::tr("there is no column left that could be a factor"));
    return table;
}

} // namespace washfast::causes
