#include "core/causes/judgement.h"

#include "core/causes/phrases.h"

#include "core/causes/dependencies.h"
#include "core/causes/words.h"
#include "core/stats/association.h"

#include <algorithm>
#include <cmath>

namespace washfast::causes {

namespace {

// A factor whose own p is below this could be the cause instead, if it moves with the candidate at all.
constexpr double rival_p = 0.10;
constexpr double least_association = 0.2;
// So could one that moves with the candidate this strongly, even if its own p is a little larger.
constexpr double rival_association = 0.5;
constexpr double moving_rival_p = 0.20;
// A rival whose own p is less than this many times the candidate's is close behind it or before it: then being told
// apart takes this p and not only alpha.
constexpr double close_ratio = 10.0;
constexpr double close_rival_p = 0.01;
// Held equal, p may be this many times what it was in the same prints before.
constexpr double lost_ratio = 2.0;
// A second cause must hold with the first one held equal at this level: it was found by looking further.
constexpr double second_cause_p = 0.01;
// With a better one held equal nothing is left of a factor: its p is at least this.
constexpr double explained_away_p = 0.10;

double strengthOf(const Prepared& prepared, std::size_t column)
{
    const auto rows = prepared.complete({ column });
    const std::vector<double> outcome = picked(prepared.outcome, rows);
    const Column& c = prepared.columns[column];
    if (c.isChoice()) {
        const auto eta = stats::correlationRatio(picked(c.level, rows), outcome);
        return eta ? eta->corrected : 0.0;
    }
    return std::fabs(stats::pearson(picked(c.value, rows), outcome).value_or(0.0));
}

/// The tested columns, smallest p first; equal ones (drawn p-values have a floor) by strength.
std::vector<std::size_t> byP(const Prepared& prepared, const std::vector<FactorEvidence>& evidence)
{
    std::vector<std::size_t> order;
    std::vector<double> strength(evidence.size(), 0.0);
    for (std::size_t c = 0; c < evidence.size(); ++c)
        if (evidence[c].p_exact) {
            order.push_back(c);
            strength[c] = strengthOf(prepared, c);
        }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        const double p_a = *evidence[a].p_exact;
        const double p_b = *evidence[b].p_exact;
        return p_a != p_b ? p_a < p_b : strength[a] > strength[b];
    });
    return order;
}

/// `close`: the other one stands out nearly as much, so chance may have put the candidate first.
Rival lookAt(const Prepared& prepared, std::size_t candidate, std::size_t other, const Tie& tie, bool close,
    bool lost_prints, const Options& options)
{
    const double limit = close ? close_rival_p : options.alpha;
    Rival rival;
    rival.column = other;
    rival.tie = tie;
    if (!tie.cannot_be_told_apart) {
        rival.p_held_equal = pHeldEqual(prepared, candidate, { other }, {}, options);
        rival.told_apart = *rival.p_held_equal < limit;
    }
    if (rival.p_held_equal && !rival.told_apart && !close && lost_prints && tie.corrected < rival_association) {
        // Only the prints where both are known were used. When the candidate stands out no more in those before
        // anything is held equal, it is the lost prints and not the rival that weaken it.
        const double before = pHeldEqual(prepared, candidate, {}, { other }, options);
        rival.told_apart = *rival.p_held_equal <= lost_ratio * before;
    }
    if (!rival.told_apart) {
        const auto between = pBetweenLevels(prepared, candidate, other, options);
        if (between && *between < limit) {
            rival.p_held_equal = between;
            rival.told_apart = true;
        }
    }
    return rival;
}

/// A factor that follows exactly from several others together, whatever their own p.
void addJointAlias(const Prepared& prepared, std::size_t column, Candidate& candidate)
{
    const QString& own = prepared.columns[column].factor->name;
    for (const Dependency& one : findDependencies(prepared, true).list) {
        if (!one.exact || one.names.size() < 3 || !one.names.contains(own))
            continue;
        candidate.follows_with = one.labels;
        for (const QString& name : one.names)
            for (std::size_t c = 0; c < prepared.columns.size(); ++c) {
                if (c == column || prepared.columns[c].factor->name != name)
                    continue;
                const auto there = std::find_if(candidate.rivals.begin(), candidate.rivals.end(),
                    [c](const Rival& rival) { return rival.column == c; });
                Rival& rival = there != candidate.rivals.end() ? *there : candidate.rivals.emplace_back();
                rival.column = c;
                rival.told_apart = false;
                rival.by_several = true;
            }
    }
}

bool givesAlone(const Candidate& candidate, std::size_t column)
{
    return std::any_of(candidate.rivals.begin(), candidate.rivals.end(),
        [column](const Rival& rival) { return rival.column == column && rival.tie.cannot_be_told_apart; });
}

Candidate examine(const Prepared& prepared, const std::vector<FactorEvidence>& evidence,
    const std::vector<std::size_t>& order, std::size_t column, const Options& options, QStringList& warnings)
{
    Candidate candidate;
    candidate.column = column;
    const int known = evidence[column].n_known;
    std::vector<std::size_t> small;
    QStringList too_few;
    for (const std::size_t other : order) {
        if (other == column)
            continue;
        const auto tie = tieOf(prepared, column, other);
        const bool small_p = *evidence[other].p_exact < rival_p;
        const double p = *evidence[other].p_exact;
        const bool same_prints = tie && tie->n_both == known;
        const bool suspect = !tie ? small_p
                                  : (small_p && tie->corrected >= least_association)
                || (p < moving_rival_p && (tie->corrected >= rival_association || tie->cannot_be_told_apart))
                || (same_prints && tie->cannot_be_told_apart);
        if (!tie || tie->n_both * 2 < known) {
            if (suspect)
                too_few.append(prepared.columns[other].factor->spoken());
            continue;
        }
        ++candidate.others;
        if (suspect)
            candidate.rivals.push_back(lookAt(prepared, column, other, *tie,
                *evidence[other].p_exact < close_ratio * *evidence[column].p_exact, tie->n_both < known, options));
        if (small_p)
            small.push_back(other);
    }
    if (!too_few.isEmpty()) {
        const auto warning = Words::tr("Known for too few of the prints to be held against %1: %2.")
                                 .arg(prepared.columns[column].factor->spoken(), too_few.join(QStringLiteral(", ")));
        if (!warnings.contains(warning))
            warnings.append(warning);
    }
    candidate.batch_is_unit = evidence[column].p_batch && *evidence[column].p_batch >= options.alpha;
    addJointAlias(prepared, column, candidate);
    // Two rivals that together give the candidate exactly.
    for (std::size_t i = 0; i < small.size(); ++i)
        for (std::size_t j = i + 1; j < small.size(); ++j)
            if (!givesAlone(candidate, small[i]) && !givesAlone(candidate, small[j])
                && followsFrom(prepared, column, small[i], small[j]))
                for (Rival& rival : candidate.rivals)
                    if (rival.column == small[i] || rival.column == small[j]) {
                        rival.told_apart = false;
                        rival.together_with = rival.column == small[i] ? small[j] : small[i];
                    }
    return candidate;
}

bool holdsBeside(const Prepared& prepared, std::size_t second, std::size_t first, const Options& options)
{
    const auto tie = tieOf(prepared, second, first);
    return tie && !tie->cannot_be_told_apart && pHeldEqual(prepared, second, { first }, {}, options) < second_cause_p;
}

} // namespace

bool Candidate::clear() const
{
    if (batch_is_unit || !follows_with.isEmpty())
        return false;
    return std::all_of(rivals.begin(), rivals.end(), [](const Rival& rival) { return rival.told_apart; });
}

int smallerSide(const Prepared& prepared, const FactorEvidence& evidence, std::size_t column)
{
    const Column& c = prepared.columns[column];
    if (evidence.levels.size() == 2)
        return std::min(evidence.levels[0].n, evidence.levels[1].n);
    if (!prepared.yesNo())
        return c.n_known / 2;
    const std::vector<int> failed = picked(prepared.failed, prepared.complete({ column }));
    const auto bad = static_cast<int>(std::count(failed.begin(), failed.end(), 1));
    return std::min(bad, c.n_known - bad);
}

Judgement judge(const Prepared& prepared, const std::vector<FactorEvidence>& evidence, const Options& options)
{
    Judgement out;
    const std::vector<std::size_t> order = byP(prepared, evidence);
    if (order.empty())
        return out;
    out.lead = order.front();

    std::vector<std::size_t> candidates;
    for (const std::size_t column : order) {
        if (*evidence[column].p_adjusted >= options.named_below)
            break;
        if (smallerSide(prepared, evidence[column], column) >= fewest_on_a_side)
            candidates.push_back(column);
        else if (column == *out.lead)
            out.too_few = true;
    }
    if (candidates.empty())
        return out;
    const auto look
        = [&](std::size_t column) { return examine(prepared, evidence, order, column, options, out.warnings); };

    out.first = look(candidates.front());
    if (out.first->others == 0) {
        out.lone = true;
        return out;
    }
    if (!out.first->clear()) {
        // A rival that explains the first one away, and is itself told apart from everything, is the better name.
        // Chance decides which of two comes first, so it must do so clearly.
        const std::size_t lead = out.first->column;
        for (const Rival& rival : out.first->rivals) {
            const bool explains = rival.p_held_equal && *rival.p_held_equal >= explained_away_p;
            if (!explains || std::find(candidates.begin(), candidates.end(), rival.column) == candidates.end()
                || !holdsBeside(prepared, rival.column, lead, options))
                continue;
            Candidate better = look(rival.column);
            if (better.others > 0 && better.clear()) {
                out.first = std::move(better);
                break;
            }
        }
    }
    out.named.push_back(out.first->column);
    if (!out.first->clear()) {
        out.verdict = Verdict::Tangle;
        for (const Rival& rival : out.first->rivals)
            if (!rival.told_apart)
                out.named.push_back(rival.column);
        return out;
    }
    out.verdict = Verdict::Cause;
    for (const std::size_t column : candidates)
        if (column != out.first->column && holdsBeside(prepared, column, out.first->column, options)
            && look(column).clear())
            out.named.push_back(column);
    return out;
}

} // namespace washfast::causes
