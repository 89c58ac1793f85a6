// The table made ready for computing: rows with a known outcome, levels numbered, what cannot be used set aside.
#pragma once

#include "core/causes/answer.h"
#include "core/stats/test_result.h"

namespace washfast::causes {

struct Column {
    const Factor* factor = nullptr;
    std::vector<double> value; // a number or a yes/no; NaN: not known
    std::vector<int> level; // a yes/no, a choice, or a number of few values; -1: not known
    std::vector<QString> level_names; // in the order of the levels
    int n_known = 0;

    [[nodiscard]] bool isNumber() const { return factor->kind == Factor::Kind::Number; }
    [[nodiscard]] bool isChoice() const { return factor->kind == Factor::Kind::Choice; }
    [[nodiscard]] bool hasLevels() const { return !level_names.empty(); }
    [[nodiscard]] bool hasTwoLevels() const { return level_names.size() == 2; }
    [[nodiscard]] bool knownAt(std::size_t row) const
    {
        return isChoice() ? level[row] >= 0 : value[row] == value[row];
    }
};

struct Prepared {
    const FactorTable* table = nullptr;
    std::vector<std::size_t> rows; // of the table
    std::vector<double> outcome; // a yes/no as 0 and 1
    std::vector<int> failed; // a yes/no outcome only
    std::vector<int> block; // empty: one block
    std::vector<QString> block_names;
    std::vector<Column> columns;
    QStringList left_out;
    std::vector<Missing> missing;
    QStringList warnings;

    [[nodiscard]] bool yesNo() const { return !table->outcome_is_number; }
    [[nodiscard]] int n() const { return static_cast<int>(rows.size()); }
    [[nodiscard]] int nFailed() const;
    /// Rows in which all of these columns are known.
    [[nodiscard]] std::vector<std::size_t> complete(const std::vector<std::size_t>& which) const;
};

/// 1 for a print that failed; of a number, for one on the worse side of the median.
[[nodiscard]] std::vector<int> badPrints(const Prepared& prepared);

[[nodiscard]] Prepared prepare(const FactorTable& table, const Options& options);

template <typename T>
[[nodiscard]] std::vector<T> picked(const std::vector<T>& values, const std::vector<std::size_t>& rows)
{
    std::vector<T> out;
    if (values.empty())
        return out;
    out.reserve(rows.size());
    for (const std::size_t row : rows)
        out.push_back(values[row]);
    return out;
}

[[nodiscard]] stats::PermutationOptions permutationOptions(const Options& options);

} // namespace washfast::causes
