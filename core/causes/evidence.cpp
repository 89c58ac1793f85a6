#include "core/causes/evidence.h"

#include "core/causes/batches.h"
#include "core/causes/design.h"
#include "core/causes/phrases.h"
#include "core/stats/association.h"
#include "core/stats/firth.h"
#include "core/stats/fisher.h"
#include "core/stats/permutation.h"
#include "core/stats/proportion.h"
#include "core/stats/ranks.h"
#include "core/stats/shift.h"

#include <map>

namespace washfast::causes {

namespace {

using Rows = std::vector<std::size_t>;

void setP(FactorEvidence& out, const stats::TestResult& result, const char* method)
{
    out.p_exact = result.p;
    out.p_enumerated = result.enumerated;
    out.p_method = QString::fromLatin1(method);
}

void countLevels(const Prepared& prepared, const Column& column, const Rows& rows, FactorEvidence& out)
{
    out.levels.resize(column.level_names.size());
    std::vector<std::vector<double>> outcomes(out.levels.size());
    for (std::size_t l = 0; l < out.levels.size(); ++l) {
        out.levels[l].level = column.level_names[l];
        out.levels[l].label = levelLabel(*column.factor, column.level_names[l]);
    }
    for (const std::size_t row : rows) {
        const auto l = static_cast<std::size_t>(column.level[row]);
        ++out.levels[l].n;
        outcomes[l].push_back(prepared.outcome[row]);
        if (prepared.yesNo())
            ++(prepared.failed[row] == 1 ? out.levels[l].failed : out.levels[l].kept);
    }
    if (!prepared.yesNo())
        for (std::size_t l = 0; l < out.levels.size(); ++l)
            out.levels[l].median_outcome = stats::median(outcomes[l]);
}

void testNumberAgainstFailing(
    const Prepared& prepared, const Column& column, const Rows& rows, const Options& options, FactorEvidence& out)
{
    std::map<int, stats::ShiftStratum> strata;
    std::vector<double> failed, kept;
    for (const std::size_t row : rows) {
        stats::ShiftStratum& stratum = strata[prepared.block.empty() ? 0 : prepared.block[row]];
        const bool bad = prepared.failed[row] == 1;
        (bad ? stratum.first : stratum.second).push_back(column.value[row]);
        (bad ? failed : kept).push_back(column.value[row]);
    }
    out.median_failed = stats::median(failed);
    out.median_kept = stats::median(kept);
    if (failed.empty() || kept.empty())
        return;
    setP(out,
        stats::differenceOfMeansTest(picked(column.value, rows), picked(prepared.failed, rows),
            picked(prepared.block, rows), permutationOptions(options)),
        "permutation");
    std::vector<stats::ShiftStratum> list;
    for (const auto& [block, stratum] : strata)
        list.push_back(stratum);
    if (const auto shift = stats::hodgesLehmann(list)) {
        out.difference = shift->value;
        out.difference_low = shift->low;
        out.difference_high = shift->high;
    }
}

void testTwoLevelsAgainstFailing(const Prepared& prepared, const Column& column, const Rows& rows, FactorEvidence& out)
{
    std::map<int, stats::TwoByTwo> strata;
    stats::TwoByTwo all;
    for (const std::size_t row : rows)
        for (stats::TwoByTwo* table : { &all, &strata[prepared.block.empty() ? 0 : prepared.block[row]] }) {
            const bool bad = prepared.failed[row] == 1;
            if (column.level[row] == 1)
                ++(bad ? table->with_failed : table->with_kept);
            else
                ++(bad ? table->without_failed : table->without_kept);
        }
    if (all.with() == 0 || all.without() == 0)
        return;
    const stats::Difference difference
        = stats::riskDifference(all.with_failed, all.with(), all.without_failed, all.without());
    out.difference = difference.value;
    out.difference_low = difference.interval.low;
    out.difference_high = difference.interval.high;
    if (all.failed() == 0 || all.failed() == all.total())
        return;
    std::vector<stats::TwoByTwo> tables;
    for (const auto& [block, table] : strata)
        tables.push_back(table);
    setP(out, { stats::stratifiedExact(tables).two_sided, true, 0 },
        prepared.block.empty() ? "fisher" : "stratified_exact");
}

void testChoiceAgainstFailing(
    const Prepared& prepared, const Column& column, const Rows& rows, const Options& options, FactorEvidence& out)
{
    std::vector<stats::FailedKept> table;
    int failed = 0;
    for (const LevelCount& level : out.levels) {
        table.push_back({ level.failed, level.kept });
        failed += level.failed;
    }
    if (failed == 0 || failed == static_cast<int>(rows.size()))
        return;
    if (prepared.block.empty())
        setP(out, stats::freemanHalton(table, permutationOptions(options)), "freeman_halton");
    else
        setP(out,
            stats::groupMeansTest(picked(prepared.outcome, rows), picked(column.level, rows),
                picked(prepared.block, rows), permutationOptions(options)),
            "permutation");
}

void testAgainstNumber(
    const Prepared& prepared, const Column& column, const Rows& rows, const Options& options, FactorEvidence& out)
{
    const std::vector<double> outcome = picked(prepared.outcome, rows);
    const std::vector<int> block = picked(prepared.block, rows);
    if (column.isNumber()) {
        const std::vector<double> x = picked(column.value, rows);
        out.correlation = stats::pearson(x, outcome);
        if (out.correlation)
            setP(out, stats::correlationTest(x, outcome, block, permutationOptions(options)), "permutation");
        return;
    }
    const std::vector<int> level = picked(column.level, rows);
    if (!column.hasTwoLevels()) {
        setP(out, stats::groupMeansTest(outcome, level, block, permutationOptions(options)), "permutation");
        return;
    }
    setP(out, stats::differenceOfMeansTest(outcome, level, block, permutationOptions(options)), "permutation");
    std::map<int, stats::ShiftStratum> strata;
    for (std::size_t i = 0; i < outcome.size(); ++i) {
        stats::ShiftStratum& stratum = strata[block.empty() ? 0 : block[i]];
        (level[i] == 1 ? stratum.first : stratum.second).push_back(outcome[i]);
    }
    std::vector<stats::ShiftStratum> list;
    for (const auto& [number, stratum] : strata)
        list.push_back(stratum);
    if (const auto shift = stats::hodgesLehmann(list)) {
        out.difference = shift->value;
        out.difference_low = shift->low;
        out.difference_high = shift->high;
    }
}

LogOdds logOdds(const stats::FirthTerm& term)
{
    return { term.estimate, term.low, term.high, term.p };
}

std::optional<LogOdds> firthAlone(const Prepared& prepared, const Column& column, const Rows& rows)
{
    Design design;
    addColumns(design, column, rows);
    if (design.columns.cols() != 1)
        return std::nullopt;
    const auto fit = stats::firth(design.columns, outcomeOf(prepared, rows));
    const auto* found = std::get_if<stats::FirthFit>(&fit);
    return found == nullptr ? std::nullopt : std::optional(logOdds(found->terms[1]));
}

} // namespace

FactorEvidence evidenceFor(const Prepared& prepared, std::size_t index, const Options& options)
{
    const Column& column = prepared.columns[index];
    const Rows rows = prepared.complete({ index });
    FactorEvidence out;
    out.name = column.factor->name;
    out.label = column.factor->label;
    out.unit = column.factor->unit;
    out.kind = column.factor->kind;
    out.meaning = column.factor->meaning;
    out.n_known = column.n_known;
    if (!column.isNumber())
        countLevels(prepared, column, rows, out);
    if (column.isChoice() && column.hasTwoLevels())
        out.difference_of = { column.level_names[1], column.level_names[0] };

    if (!prepared.yesNo())
        testAgainstNumber(prepared, column, rows, options, out);
    else if (column.isNumber())
        testNumberAgainstFailing(prepared, column, rows, options, out);
    else if (column.hasTwoLevels())
        testTwoLevelsAgainstFailing(prepared, column, rows, out);
    else
        testChoiceAgainstFailing(prepared, column, rows, options, out);
    lookAtBatches(prepared, index, options, out);
    if (prepared.yesNo() && options.firth)
        out.firth = firthAlone(prepared, column, rows);
    return out;
}

} // namespace washfast::causes
