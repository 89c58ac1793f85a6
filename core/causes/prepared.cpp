#include "core/causes/prepared.h"

#include "core/causes/phrases.h"
#include "core/causes/words.h"
#include "core/stats/fisher.h"
#include "core/stats/permutation.h"
#include "core/stats/ranks.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <set>

namespace washfast::causes {

namespace {

// A number with at most this many values is also a set of levels.
constexpr std::size_t few_values = 4;

std::optional<double> finite(const std::vector<std::optional<double>>& values, std::size_t row)
{
    if (row >= values.size() || !values[row] || !std::isfinite(*values[row]))
        return std::nullopt;
    return values[row];
}

std::vector<int> numbered(const std::vector<QString>& texts, std::vector<QString>& names)
{
    std::set<QString> distinct;
    for (const QString& text : texts)
        if (!text.isNull())
            distinct.insert(text);
    names.assign(distinct.begin(), distinct.end());
    std::vector<int> levels;
    for (const QString& text : texts)
        levels.push_back(
            text.isNull() ? -1 : static_cast<int>(std::lower_bound(names.begin(), names.end(), text) - names.begin()));
    return levels;
}

void numberTheValues(Column& column)
{
    std::set<double> distinct;
    for (const double value : column.value)
        if (!std::isnan(value))
            distinct.insert(value);
    if (distinct.size() < 2 || distinct.size() > few_values)
        return;
    for (const double value : distinct)
        column.level_names.push_back(QString::number(value, 'g', 12));
    for (const double value : column.value)
        column.level.push_back(
            std::isnan(value) ? -1 : static_cast<int>(std::distance(distinct.begin(), distinct.find(value))));
}

Column columnOf(const Factor& factor, const std::vector<std::size_t>& rows)
{
    Column column;
    column.factor = &factor;
    if (factor.kind == Factor::Kind::Choice) {
        std::vector<QString> texts;
        for (const std::size_t row : rows)
            texts.push_back(row < factor.texts.size() ? factor.texts[row] : QString());
        column.level = numbered(texts, column.level_names);
        column.n_known = static_cast<int>(
            std::count_if(column.level.begin(), column.level.end(), [](int level) { return level >= 0; }));
        return column;
    }
    for (const std::size_t row : rows) {
        const auto value = finite(factor.numbers, row);
        column.value.push_back(value.value_or(std::numeric_limits<double>::quiet_NaN()));
        column.n_known += value ? 1 : 0;
    }
    if (factor.kind == Factor::Kind::Number) {
        numberTheValues(column);
        return column;
    }
    column.level_names = { QStringLiteral("no"), QStringLiteral("yes") };
    for (double& value : column.value) {
        column.level.push_back(std::isnan(value) ? -1 : (value != 0.0 ? 1 : 0));
        if (!std::isnan(value))
            value = value != 0.0 ? 1.0 : 0.0;
    }
    return column;
}

bool varies(const Column& column)
{
    if (column.isChoice())
        return column.level_names.size() > 1;
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const double value : column.value)
        if (!std::isnan(value)) {
            low = std::min(low, value);
            high = std::max(high, value);
        }
    return low < high;
}

/// Does being unknown go with the outcome? Only asked when some are known and some are not.
std::optional<double> unknownAgainstOutcome(
    const Prepared& prepared, const Column& column, const stats::PermutationOptions& options)
{
    if (column.n_known == 0 || column.n_known == prepared.n())
        return std::nullopt;
    std::vector<int> unknown;
    for (std::size_t row = 0; row < prepared.rows.size(); ++row)
        unknown.push_back(column.knownAt(row) ? 0 : 1);
    if (!prepared.yesNo())
        return stats::differenceOfMeansTest(prepared.outcome, unknown, prepared.block, options).p;
    std::map<int, stats::TwoByTwo> strata;
    for (std::size_t row = 0; row < unknown.size(); ++row) {
        stats::TwoByTwo& table = strata[prepared.block.empty() ? 0 : prepared.block[row]];
        int& cell = unknown[row] == 1 ? (prepared.failed[row] == 1 ? table.with_failed : table.with_kept)
                                      : (prepared.failed[row] == 1 ? table.without_failed : table.without_kept);
        ++cell;
    }
    std::vector<stats::TwoByTwo> tables;
    for (const auto& [block, table] : strata)
        tables.push_back(table);
    return stats::stratifiedExact(tables).two_sided;
}

QString unknownWarning(const Prepared& prepared, const Factor& factor, const Missing& missing)
{
    if (!prepared.yesNo())
        return Words::tr("Whether %1 was recorded goes with the outcome itself (p %2). The prints without it are not "
                         "like the others.")
            .arg(quoted(factor), spokenP(*missing.p));
    return Words::tr("Whether %1 was recorded goes with the outcome itself (p %2): %3 of the %n prints without it "
                     "failed, %4 of the %5 with it. The prints without it are not like the others.",
        nullptr, missing.unknown)
        .arg(quoted(factor), spokenP(*missing.p), QString::number(missing.unknown_failed),
            QString::number(missing.known_failed), QString::number(missing.known));
}

void numberTheBlocks(const FactorTable& table, Prepared& prepared)
{
    if (table.blocks.empty())
        return;
    std::vector<QString> texts;
    int unknown = 0;
    for (const std::size_t row : prepared.rows) {
        QString text = row < table.blocks.size() ? table.blocks[row] : QString();
        unknown += text.isEmpty() ? 1 : 0;
        texts.push_back(text.isEmpty() ? QStringLiteral("") : text);
    }
    prepared.block = numbered(texts, prepared.block_names);
    if (unknown > 0)
        prepared.warnings.append(
            Words::tr("%n prints have no block recorded; they are compared among themselves.", nullptr, unknown));
    if (prepared.block_names.size() < 2)
        prepared.block.clear();
}

/// Columns that say nothing about the outcome, gathered so that each reason is told once.
class SetAside {
public:
    void add(const Column& column)
    {
        auto& list = column.n_known == 0 ? never_ : !varies(column) ? same_ : identifiers_;
        list.append(quoted(*column.factor));
        names_.append(column.factor->name);
    }
    void tell(Prepared& prepared) const
    {
        const auto add = [&](const QStringList& list, const QString& says) {
            if (!list.isEmpty())
                prepared.warnings.append(says.arg(list.join(QStringLiteral(", "))));
        };
        add(never_, Words::tr("Left out, not recorded for any print: %1."));
        add(same_, Words::tr("Left out, the same for every print where it was recorded: %1."));
        add(identifiers_, Words::tr("Left out, a different text for every print, which only names it: %1."));
        prepared.left_out = names_;
    }

private:
    QStringList never_, same_, identifiers_, names_;
};

} // namespace

int Prepared::nFailed() const
{
    return static_cast<int>(std::count(failed.begin(), failed.end(), 1));
}

std::vector<std::size_t> Prepared::complete(const std::vector<std::size_t>& which) const
{
    std::vector<std::size_t> out;
    for (std::size_t row = 0; row < rows.size(); ++row)
        if (std::all_of(which.begin(), which.end(), [&](std::size_t c) { return columns[c].knownAt(row); }))
            out.push_back(row);
    return out;
}

stats::PermutationOptions permutationOptions(const Options& options)
{
    return { options.enumerate_up_to, options.draws, options.seed };
}

Prepared prepare(const FactorTable& table, const Options& options)
{
    Prepared prepared;
    prepared.table = &table;
    prepared.warnings = table.warnings;
    int without_outcome = 0;
    for (std::size_t row = 0; row < table.prints.size(); ++row) {
        const auto value = finite(table.outcome_values, row);
        if (!value) {
            ++without_outcome;
            continue;
        }
        prepared.rows.push_back(row);
        prepared.outcome.push_back(table.outcome_is_number ? *value : (*value != 0.0 ? 1.0 : 0.0));
        if (!table.outcome_is_number)
            prepared.failed.push_back(*value != 0.0 ? 1 : 0);
    }
    if (without_outcome > 0)
        prepared.warnings.append(Words::tr("%1 of %n prints could not be used: %2 is not known for them.", nullptr,
            static_cast<int>(table.prints.size()))
                                     .arg(QString::number(without_outcome), spokenOutcome(table)));
    numberTheBlocks(table, prepared);

    SetAside set_aside;
    for (const Factor& factor : table.factors) {
        Column column = columnOf(factor, prepared.rows);
        const int unknown = prepared.n() - column.n_known;
        if (unknown > 0) {
            const auto p = unknownAgainstOutcome(prepared, column, permutationOptions(options));
            Missing missing { factor.name, factor.spoken(), unknown, 0, column.n_known, 0, p };
            if (prepared.yesNo())
                for (std::size_t row = 0; row < prepared.rows.size(); ++row)
                    (column.knownAt(row) ? missing.known_failed : missing.unknown_failed) += prepared.failed[row];
            prepared.missing.push_back(missing);
            if (p && *p < options.alpha)
                prepared.warnings.append(unknownWarning(prepared, factor, missing));
        }
        const bool identifier = column.isChoice() && column.n_known > 2
            && column.level_names.size() == static_cast<std::size_t>(column.n_known);
        if (column.n_known == 0 || !varies(column) || identifier)
            set_aside.add(column);
        else
            prepared.columns.push_back(std::move(column));
    }
    set_aside.tell(prepared);
    return prepared;
}

std::vector<int> badPrints(const Prepared& prepared)
{
    if (prepared.yesNo())
        return prepared.failed;
    const double middle = stats::median(prepared.outcome).value_or(0.0);
    std::vector<int> bad;
    for (const double value : prepared.outcome)
        bad.push_back((prepared.table->larger_is_worse ? value > middle : value < middle) ? 1 : 0);
    return bad;
}

} // namespace washfast::causes
