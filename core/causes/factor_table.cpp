#include "core/causes/factor_table.h"

#include "core/causes/phrases.h"
#include "core/causes/settings.h"
#include "core/causes/words.h"
#include "core/quantity/number_text.h"

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

std::optional<double> asYesNo(const QString& text)
{
    const QString lower = text.toLower();
    if (lower == QLatin1String("yes") || lower == QLatin1String("true") || lower == QLatin1String("1"))
        return 1.0;
    if (lower == QLatin1String("no") || lower == QLatin1String("false") || lower == QLatin1String("0"))
        return 0.0;
    return std::nullopt;
}

/// The numbers of a column, read by its own decimal mark and brought to one unit.
struct NumberColumn {
    std::size_t known = 0, yes_no = 0, numbers = 0, two_ways = 0;
    std::vector<std::optional<double>> values; // one a cell
    std::optional<std::size_t> first_two_ways; // row of a number that can be read in two ways
    QString two_ways_says;
    std::size_t rough = 0; // estimated or assumed
    QString unit; // that cells had; empty for none

    /// So many of the known cells are numbers, or could be read as such, that the column is one of numbers.
    [[nodiscard]] bool mostlyNumbers() const { return numbers + two_ways > 0 && (numbers + two_ways) * 4 >= known * 3; }
};

/// The value in the column's unit, which is the one of the first cell that has any; empty when it does not convert.
std::optional<double> inUnit(const NumberText& read, QString& unit)
{
    if (!read.value || read.unit.isEmpty())
        return read.value;
    if (unit.isEmpty())
        unit = read.unit;
    return convert(*read.value, read.unit, unit);
}

NumberColumn numbersOf(const QString& heading, const Cells& cells)
{
    NumberColumn out;
    QStringList texts;
    for (const QString& cell : cells)
        texts << cell;
    const DecimalMark mark = decideDecimalMark(texts).mark;
    const Heading split = splitHeading(heading);
    QString unit = split.unit_known ? canonicalUnit(split.unit) : QString();
    for (std::size_t row = 0; row < cells.size(); ++row) {
        out.values.emplace_back();
        if (cells[row].isNull())
            continue;
        ++out.known;
        out.yes_no += asYesNo(cells[row]) ? 1U : 0U;
        const NumberText read = parseNumber(cells[row], mark);
        if (read.fault == NumberFault::Ambiguous) {
            ++out.two_ways;
            if (!out.first_two_ways)
                out.two_ways_says = read.says;
            out.first_two_ways = out.first_two_ways.value_or(row);
        }
        out.values.back() = inUnit(read, unit);
        if (!out.values.back())
            continue;
        ++out.numbers;
        out.rough += read.flag != NumberFlag::Plain ? 1U : 0U;
        if (!read.unit.isEmpty())
            out.unit = unit;
    }
    return out;
}

std::optional<Error> readInTwoWays(const QString& name, const NumberColumn& column)
{
    if (!column.first_two_ways || !column.mostlyNumbers())
        return std::nullopt;
    return bad(column.two_ways_says, place(name, *column.first_two_ways));
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

void warnOfRough(const QString& name, const NumberColumn& column, FactorTable& table)
{
    if (column.rough > 0)
        table.warnings << Words::tr("Estimated or assumed for some prints: %1.")
                              .arg(Words::tr("%1 (%2 of %3)").arg(name).arg(column.rough).arg(column.known));
}

std::optional<Error> readOutcome(const Reader& reader, FactorTable& table)
{
    const Cells cells = reader.cells(table.outcome);
    const NumberColumn column = numbersOf(table.outcome, cells);
    if (column.known == 0)
        return bad(Words::tr("the outcome \"%1\" is not recorded for any print").arg(table.outcome));
    const bool yes_no = column.yes_no == column.known;
    table.outcome_is_number = !yes_no;
    if (!yes_no) {
        if (const auto error = readInTwoWays(table.outcome, column))
            return error;
        table.outcome_unit = column.unit;
        warnOfRough(table.outcome, column, table);
    }
    for (std::size_t row = 0; row < cells.size(); ++row) {
        if (cells[row].isNull()) {
            table.outcome_values.emplace_back();
            continue;
        }
        const auto value = yes_no ? asYesNo(cells[row]) : column.values[row];
        if (!value)
            return bad(Words::tr("\"%1\" is %2")
                           .arg(cells[row],
                               column.numbers * 2 > column.known && column.yes_no * 2 < column.known
                                   ? Words::tr("not a number")
                                   : Words::tr("neither yes or no nor a number")),
                place(table.outcome, row));
        table.outcome_values.push_back(value);
    }
    return std::nullopt;
}

/// What the column means: of the field that it is said to be, or whose key is its heading.
Result<InCauses> meaningOfColumn(const QString& name, const TableChoices& choices)
{
    QString key = name;
    for (const auto& [column, field] : choices.same_as)
        if (column == name)
            key = field;
    const Field* field = choices.catalogue == nullptr ? nullptr : choices.catalogue->findPrintField(key);
    if (field == nullptr)
        return key == name ? Result<InCauses>(InCauses {})
                           : Result<InCauses>(bad(
                               Words::tr("there is no field \"%1\" that the column \"%2\" could be").arg(key, name)));
    InCauses meaning = meaningOf(*field);
    const auto keys = meaning.sign_of_choice;
    for (const auto& [choice, sign] : keys) // as people write it, too
        meaning.sign_of_choice.emplace_back(field->choiceLabel(choice), sign);
    return meaning;
}

std::optional<Error> readFactor(
    const Reader& reader, const QString& name, const TableChoices& choices, FactorTable& table)
{
    const Cells cells = reader.cells(name);
    const NumberColumn column = numbersOf(name, cells);
    Factor factor;
    factor.name = name;
    const auto meaning = meaningOfColumn(name, choices);
    if (!meaning)
        return meaning.error();
    factor.meaning = *meaning;
    if (column.known > 0 && column.yes_no == column.known) {
        factor.kind = Factor::Kind::YesNo;
        for (const QString& cell : cells)
            factor.numbers.push_back(cell.isNull() ? std::nullopt : asYesNo(cell));
    } else if (column.mostlyNumbers()) {
        if (const auto error = readInTwoWays(name, column))
            return error;
        factor.kind = Factor::Kind::Number;
        factor.unit = column.unit;
        factor.numbers = column.values;
        warnOfRough(name, column, table);
        QStringList refused;
        for (std::size_t row = 0; row < cells.size(); ++row)
            if (!cells[row].isNull() && !factor.numbers[row])
                refused.append(Words::tr("\"%1\" (line %2)").arg(cells[row]).arg(row + 2));
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

/// Readings of the two tones are no causes.
void takeTones(const Reader& reader, const TableChoices& choices, QStringList& names, FactorTable& table)
{
    QStringList taken;
    for (const char* key : { "formed", "kept", "net_density" }) {
        const QString name = QString::fromLatin1(key);
        if (!reader.has(name) || choices.factors.contains(name) || name == choices.block)
            continue;
        const NumberColumn column = numbersOf(name, reader.cells(name));
        if (column.known == 0 || column.numbers < column.known || column.yes_no == column.known)
            continue;
        if (name != choices.outcome && names.removeAll(name) > 0)
            taken.append(name);
        if (qstrcmp(key, "net_density") == 0)
            continue;
        auto& tones = qstrcmp(key, "formed") == 0 ? table.formed : table.kept;
        tones = column.values;
        if (column.unit == QLatin1String("%"))
            for (auto& tone : tones)
                if (tone)
                    tone = convert(*tone, u"%", u"1");
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
    for (const auto& [column, key] : choices.same_as)
        if (!reader.has(column))
            return reader.missing(Words::tr("the field %1").arg(key), column);
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
            return bad((name == choices.outcome ? Words::tr("\"%1\" cannot be a factor as well as the outcome")
                                                : Words::tr("\"%1\" cannot be a factor as well as the block"))
                           .arg(name));
        if (auto error = readFactor(reader, name, choices, table))
            return *error;
    }
    if (table.factors.empty())
        return bad(Words::tr("there is no column left that could be a factor"));
    return table;
}

} // namespace washfast::causes
