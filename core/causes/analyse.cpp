#include "core/causes/batches.h"
#include "core/causes/dependencies.h"
#include "core/causes/evidence.h"
#include "core/causes/models.h"
#include "core/causes/phrases.h"
#include "core/causes/reasons.h"
#include "core/causes/tones.h"
#include "core/causes/wording.h"
#include "core/causes/words.h"
#include "core/stats/association.h"
#include "core/stats/multiplicity.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <functional>
#include <future>
#include <numeric>
#include <thread>

namespace washfast::causes {

namespace {

constexpr double moves_with = 0.5;

void adjust(std::vector<FactorEvidence>& evidence)
{
    std::vector<double> p;
    for (const FactorEvidence& one : evidence)
        if (one.p_exact)
            p.push_back(*one.p_exact);
    const std::vector<double> adjusted = stats::benjaminiHochberg(p);
    std::size_t next = 0;
    for (FactorEvidence& one : evidence)
        if (one.p_exact)
            one.p_adjusted = adjusted[next++];
}

void findWhatMovesTogether(const Prepared& prepared, std::vector<FactorEvidence>& evidence)
{
    for (std::size_t a = 0; a < evidence.size(); ++a)
        for (std::size_t b = a + 1; b < evidence.size(); ++b) {
            const auto tie = tieOf(prepared, a, b);
            if (!tie || (tie->corrected < moves_with && !tie->cannot_be_told_apart))
                continue;
            evidence[a].moves_with.push_back({ evidence[b].name, tie->association, tie->disagree });
            evidence[b].moves_with.push_back({ evidence[a].name, tie->association, tie->disagree });
        }
    for (FactorEvidence& one : evidence)
        std::stable_sort(one.moves_with.begin(), one.moves_with.end(),
            [](const MovesWith& a, const MovesWith& b) { return a.association > b.association; });
}

/// A factor that differs between the blocks but never within one can say nothing.
void warnOfBlockFactors(const Prepared& prepared, QStringList& warnings)
{
    if (prepared.block.empty())
        return;
    for (std::size_t c = 0; c < prepared.columns.size(); ++c) {
        const Column& column = prepared.columns[c];
        std::vector<std::optional<double>> seen(prepared.block_names.size());
        bool constant = true;
        for (const std::size_t row : prepared.complete({ c })) {
            auto& first = seen[static_cast<std::size_t>(prepared.block[row])];
            const double value = column.isChoice() ? column.level[row] : column.value[row];
            constant = constant && (!first || *first == value);
            first = value;
        }
        if (constant)
            warnings.append(Words::tr("%1 never differed within a block, so it cannot be told from the blocks.")
                                .arg(quoted(*column.factor)));
    }
}

/// Prints for and against a factor of two levels, or a number cut where it tells the outcome best.
void sortPrints(const Prepared& prepared, std::size_t index, Answer& answer)
{
    const Column& column = prepared.columns[index];
    const auto rows = prepared.complete({ index });
    if (!prepared.yesNo() || (!column.hasTwoLevels() && !column.isNumber()))
        return;
    const std::vector<int> failed = picked(prepared.failed, rows);
    std::vector<int> side;
    if (column.hasTwoLevels()) {
        side = picked(column.level, rows);
        const auto agree = std::inner_product(
            side.begin(), side.end(), failed.begin(), 0, std::plus<>(), [](int a, int b) { return a == b ? 1 : -1; });
        if (agree < 0)
            for (int& one : side)
                one = 1 - one;
    } else if (const auto cut = stats::bestCut(picked(column.value, rows), failed)) {
        for (const std::size_t row : rows)
            side.push_back((column.value[row] > cut->at) == cut->above_is_one ? 1 : 0);
    }
    for (std::size_t i = 0; i < side.size(); ++i)
        (side[i] == failed[i] ? answer.prints_for : answer.prints_against)
            .append(prepared.table->prints[prepared.rows[rows[i]]]);
}

void noteHeldEqual(const Judgement& judgement, std::vector<FactorEvidence>& evidence)
{
    if (!judgement.first)
        return;
    for (const Rival& rival : judgement.first->rivals) {
        auto& p = evidence[judgement.first->column].p_held_equal;
        const double here = rival.p_held_equal.value_or(1.0);
        p = p ? std::max(*p, here) : here;
    }
}

/// The factors one by one, on all cores. `tell` is called on this thread with how many are done; the rest is left when
/// it says false.
template <typename Tell>
std::vector<FactorEvidence> evidenceOfAll(const Prepared& prepared, const Options& options, const Tell& tell)
{
    std::vector<FactorEvidence> all(prepared.columns.size());
    std::atomic<std::size_t> next = 0;
    std::atomic<std::size_t> done = 0;
    std::atomic<bool> stop = false;
    const auto work = [&](const auto& after_each) {
        for (std::size_t c = next++; c < all.size() && !stop; c = next++) {
            all[c] = evidenceFor(prepared, c, options);
            after_each(++done);
        }
    };
    std::vector<std::future<void>> others;
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    for (std::size_t i = 1; i < std::min(cores, all.size()); ++i)
        others.push_back(std::async(std::launch::async, [&] { work([](std::size_t) {}); }));
    work([&](std::size_t so_far) {
        if (!tell(so_far))
            stop = true;
    });
    for (auto& other : others)
        other.get();
    return all;
}

} // namespace

Answer analyse(const FactorTable& table, const Options& options)
{
    const Prepared prepared = prepare(table, options);
    Answer answer;
    answer.outcome = table.outcome;
    answer.outcome_label = table.outcome_label.isEmpty() ? table.outcome : table.outcome_label;
    answer.n = prepared.n();
    if (prepared.yesNo())
        answer.n_failed = prepared.nFailed();
    answer.left_out = prepared.left_out;
    answer.missing = prepared.missing;
    answer.warnings = prepared.warnings;

    // The factors one by one take about two thirds of the time.
    const auto stopAt = [&](double share) {
        answer.stopped = answer.stopped || (options.keep_going && !options.keep_going(share));
        return answer.stopped;
    };
    const auto count = static_cast<double>(prepared.columns.size());
    answer.factors = evidenceOfAll(
        prepared, options, [&](std::size_t done) { return !stopAt(0.65 * static_cast<double>(done) / count); });
    if (answer.stopped)
        return answer;
    adjust(answer.factors);
    findWhatMovesTogether(prepared, answer.factors);
    const auto vif = inflation(prepared);
    for (std::size_t c = 0; c < answer.factors.size(); ++c)
        answer.factors[c].vif = vif[c];
    warnOfBlockFactors(prepared, answer.warnings);
    answer.unit_says = unitSentence(answer.factors);
    answer.tones = compareTones(prepared);
    Dependencies dependencies = findDependencies(prepared, false);
    answer.largest_condition_index = dependencies.largest_condition_index;
    answer.dependencies = std::move(dependencies.list);
    for (const Dependency& one : answer.dependencies)
        if (one.exact && one.names.size() > 2)
            answer.warnings.append(one.says);

    if (stopAt(0.8))
        return answer;
    const Judgement judgement = judge(prepared, answer.factors, options);
    answer.verdict = judgement.verdict;
    answer.warnings += judgement.warnings;
    for (const std::size_t column : judgement.named)
        answer.factors_named.append(answer.factors[column].name);
    if (judgement.verdict == Verdict::Cause)
        sortPrints(prepared, judgement.named.front(), answer);
    noteHeldEqual(judgement, answer.factors);

    MoreNeeded more;
    if (judgement.verdict == Verdict::NotEnough && judgement.lead && !judgement.lone) {
        const auto tested = std::count_if(answer.factors.begin(), answer.factors.end(),
            [](const FactorEvidence& one) { return one.p_exact.has_value(); });
        const FactorEvidence& lead = answer.factors[*judgement.lead];
        if (judgement.too_few)
            more.prints = fewest_on_a_side - smallerSide(prepared, lead, *judgement.lead);
        else
            more = moreNeeded(prepared, &lead, judgement.lead, static_cast<int>(tested), options);
        answer.prints_missing = more.prints;
    }
    answer.why = whySentences(prepared, answer.factors, judgement, more);

    giveReasons(prepared, judgement, options, answer);
    if (stopAt(0.9))
        return answer;

    std::optional<FittedModel> model;
    if (!options.model.isEmpty()) {
        QString problem;
        model = fitModel(prepared, options.model, problem);
        if (!model)
            answer.warnings.append(problem);
    } else if (options.firth) {
        model = modelTheyBear(prepared, answer.factors);
    }
    (prepared.yesNo() ? answer.firth_model : answer.linear_model) = std::move(model);
    return answer;
}

} // namespace washfast::causes
