#include "core/causes/next_prints.h"

#include "core/causes/phrases.h"
#include "core/causes/published_signs.h"
#include "core/causes/settings.h"
#include "core/stats/doptimal.h"
#include "core/stats/fisher.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace washfast::causes {

namespace {

constexpr std::size_t most_factors = 4; // in one plan
constexpr std::size_t most_mapped = 3;
constexpr int most_looked_at = 40;
constexpr double worth_deciding_p = 0.2;
// Rates of failing that a plan reckons with are kept within these: a handful of prints promises no certainty.
constexpr double least_rate = 0.05, most_rate = 0.95;

/// A factor with its two settings, and on which side of it each print of the table lies.
struct Lever {
    const Factor* factor = nullptr;
    const FactorEvidence* evidence = nullptr;
    Setting bad, good;
    std::vector<int> side; // 1: as in the prints that failed; -1: not known
};

/// To two figures, or to as many as it takes to differ from the other one.
double rounded(double value, double other)
{
    for (int figures = 2; figures < 15; ++figures) {
        const double out = QString::number(value, 'g', figures).toDouble();
        if (out != QString::number(other, 'g', figures).toDouble())
            return out;
    }
    return value;
}

Setting settingOf(const Factor& factor, bool as_failed)
{
    Setting out;
    out.factor = factor.name;
    out.label = factor.spoken();
    out.as_failed = as_failed;
    return out;
}

/// The levels that fail most and least.
std::optional<std::pair<std::size_t, std::size_t>> worstAndBest(const FactorEvidence& evidence, bool larger_is_worse)
{
    std::optional<std::size_t> worst, best;
    const auto badness = [&](std::size_t l) {
        const LevelCount& level = evidence.levels[l];
        if (level.median_outcome)
            return larger_is_worse ? *level.median_outcome : -*level.median_outcome;
        return (level.failed + 0.5) / (level.n + 1.0);
    };
    for (std::size_t l = 0; l < evidence.levels.size(); ++l) {
        if (evidence.levels[l].n == 0)
            continue;
        if (!worst || badness(l) > badness(*worst))
            worst = l;
        if (!best || badness(l) < badness(*best))
            best = l;
    }
    if (!worst || worst == best)
        return std::nullopt;
    return std::pair(*worst, *best);
}

double quantile(std::vector<double> values, double share)
{
    std::sort(values.begin(), values.end());
    return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
}

/// The two settings of a number: the medians of failed and kept, or its lower and upper fifth.
std::optional<std::pair<double, double>> endsOf(
    const Factor& factor, const FactorEvidence& evidence, bool larger_is_worse)
{
    if (evidence.median_failed && evidence.median_kept && *evidence.median_failed != *evidence.median_kept)
        return std::pair(*evidence.median_failed, *evidence.median_kept);
    std::vector<double> values;
    for (const auto& value : factor.numbers)
        if (value)
            values.push_back(*value);
    if (values.size() < 2)
        return std::nullopt;
    const double low = quantile(values, 0.2);
    const double high = quantile(values, 0.8);
    if (low == high)
        return std::nullopt;
    const bool high_fails = evidence.correlation && (*evidence.correlation > 0.0) == larger_is_worse;
    return high_fails ? std::pair(high, low) : std::pair(low, high);
}

std::optional<Lever> leverOf(const FactorTable& table, const FactorEvidence& evidence)
{
    const auto factor = std::find_if(
        table.factors.begin(), table.factors.end(), [&](const Factor& one) { return one.name == evidence.name; });
    if (factor == table.factors.end())
        return std::nullopt;
    Lever out;
    out.factor = &*factor;
    out.evidence = &evidence;
    out.bad = settingOf(*factor, true);
    out.good = settingOf(*factor, false);
    if (factor->kind == Factor::Kind::Number) {
        const auto ends = endsOf(*factor, evidence, table.larger_is_worse);
        if (!ends)
            return std::nullopt;
        const double bad = rounded(ends->first, ends->second);
        const double good = rounded(ends->second, ends->first);
        for (const auto& [setting, value] : { std::pair(&out.bad, bad), std::pair(&out.good, good) }) {
            setting->value = value;
            setting->spoken = withUnit(value, factor->unit);
        }
        for (const auto& value : factor->numbers)
            out.side.push_back(!value                                                    ? -1
                    : std::fabs(*value - ends->first) < std::fabs(*value - ends->second) ? 1
                                                                                         : 0);
        return out;
    }
    const auto levels = worstAndBest(evidence, table.larger_is_worse);
    if (!levels)
        return std::nullopt;
    for (const auto& [setting, l] : { std::pair(&out.bad, levels->first), std::pair(&out.good, levels->second) }) {
        const LevelCount& level = evidence.levels[l];
        if (factor->kind == Factor::Kind::YesNo)
            setting->value = level.level == QLatin1String("yes");
        else
            setting->value = level.level;
        setting->spoken = level.label;
    }
    if (factor->kind == Factor::Kind::YesNo) {
        const bool bad = std::get<bool>(out.bad.value);
        for (const auto& value : factor->numbers)
            out.side.push_back(!value ? -1 : (*value != 0.0) == bad ? 1 : 0);
    } else {
        for (const QString& text : factor->texts)
            out.side.push_back(text.isNull() ? -1 : text == std::get<QString>(out.bad.value) ? 1 : 0);
    }
    return out;
}

/// 1 failed, 0 kept; of a number, the worse half. Empty where unknown.
std::vector<std::optional<int>> failedOf(const FactorTable& table)
{
    std::vector<std::optional<int>> out;
    double middle = 0.0;
    if (table.outcome_is_number) {
        std::vector<double> values;
        for (const auto& value : table.outcome_values)
            if (value)
                values.push_back(*value);
        if (!values.empty())
            middle = quantile(values, 0.5);
    }
    for (const auto& value : table.outcome_values) {
        if (!value)
            out.emplace_back();
        else if (!table.outcome_is_number)
            out.emplace_back(*value != 0.0 ? 1 : 0);
        else
            out.emplace_back((table.larger_is_worse ? *value > middle : *value < middle) ? 1 : 0);
    }
    return out;
}

struct Rates {
    double bad = most_rate, good = least_rate;
};

Rates ratesOf(const Lever& lever, const std::vector<std::optional<int>>& failed)
{
    double n[2] {}, f[2] {};
    for (std::size_t i = 0; i < failed.size() && i < lever.side.size(); ++i)
        if (failed[i] && lever.side[i] >= 0) {
            n[lever.side[i]] += 1.0;
            f[lever.side[i]] += *failed[i];
        }
    const auto rate = [&](int side) { return std::clamp((f[side] + 0.25) / (n[side] + 0.5), least_rate, most_rate); };
    return { rate(1), rate(0) };
}

double binomial(int n, int k, double rate)
{
    return std::exp(std::lgamma(n + 1.0) - std::lgamma(k + 1.0) - std::lgamma(n - k + 1.0) + k * std::log(rate)
        + (n - k) * std::log1p(-rate));
}

void put(stats::TwoByTwo& table, int side, int failed, int kept)
{
    (side == 1 ? table.with_failed : table.without_failed) += failed;
    (side == 1 ? table.with_kept : table.without_kept) += kept;
}

using Combination = std::vector<int>; // a side for each lever

/// Chance that `truth` still goes with the outcome with `rival` held equal (or nothing, without a rival), when it is
/// the cause at these rates: summed over all that the new prints can show.
double chanceOf(const std::vector<Lever>& levers, std::size_t truth, std::optional<std::size_t> rival,
    const std::vector<Combination>& made, const std::vector<std::optional<int>>& failed, bool with_present,
    double alpha)
{
    std::map<int, stats::TwoByTwo> present;
    for (std::size_t i = 0; with_present && i < failed.size(); ++i) {
        const int own = i < levers[truth].side.size() ? levers[truth].side[i] : -1;
        const int other = !rival ? 0 : (i < levers[*rival].side.size() ? levers[*rival].side[i] : -1);
        if (failed[i] && own >= 0 && other >= 0)
            put(present[other], own, *failed[i], 1 - *failed[i]);
    }
    struct Cell {
        int stratum, side, n;
    };
    std::map<std::pair<int, int>, int> counts;
    for (const Combination& one : made)
        ++counts[{ rival ? one[*rival] : 0, one[truth] }];
    std::vector<Cell> cells;
    for (const auto& [key, n] : counts)
        cells.push_back({ key.first, key.second, n });
    const Rates rates = ratesOf(levers[truth], failed);
    double chance = 0.0;
    const auto walk = [&](auto&& self, std::size_t at, std::map<int, stats::TwoByTwo> tables, double p) -> void {
        if (at == cells.size()) {
            std::vector<stats::TwoByTwo> list;
            for (const auto& [stratum, table] : tables)
                list.push_back(table);
            const stats::FisherResult test = stats::stratifiedExact(list);
            if (test.two_sided < alpha && test.greater < test.less)
                chance += p;
            return;
        }
        const Cell& cell = cells[at];
        for (int k = 0; k <= cell.n; ++k) {
            auto next = tables;
            put(next[cell.stratum], cell.side, k, cell.n - k);
            self(self, at + 1, std::move(next), p * binomial(cell.n, k, cell.side == 1 ? rates.bad : rates.good));
        }
    };
    walk(walk, 0, present, 1.0);
    return chance;
}

/// The smallest chance over which of the levers is the cause and which other one it has to be told from.
double chanceToSettle(const std::vector<Lever>& levers, const std::vector<Combination>& made,
    const std::vector<std::optional<int>>& failed, bool with_present, double alpha)
{
    if (levers.size() == 1)
        return chanceOf(levers, 0, std::nullopt, made, failed, with_present, alpha);
    double least = 1.0;
    for (std::size_t truth = 0; truth < levers.size(); ++truth)
        for (std::size_t rival = 0; rival < levers.size(); ++rival)
            if (truth != rival)
                least = std::min(least, chanceOf(levers, truth, rival, made, failed, with_present, alpha));
    return least;
}

class Planning {
public:
    Planning(const FactorTable& table, const Answer& answer, const NextOptions& options)
        : table_(table)
        , answer_(answer)
        , options_(options)
        , failed_(failedOf(table))
    {
    }

    NextPrints run()
    {
        choosePurpose();
        if (levers_.empty()) {
            plan_.warnings.append(QStringLiteral(
                "No recorded factor can be set to two values, so there is nothing to plan: record at least the light, "
                "the drying and the rinse."));
            addControls();
            return std::move(plan_);
        }
        makeCombinations();
        if (plan_.purpose == Purpose::Map)
            choose(static_cast<int>(levers_.size()) + 1);
        else
            chooseEnough();
        describe();
        addControls();
        warn();
        return std::move(plan_);
    }

private:
    bool addLever(const QString& name)
    {
        for (const FactorEvidence& one : answer_.factors)
            if (one.name == name)
                if (auto lever = leverOf(table_, one)) {
                    levers_.push_back(*std::move(lever));
                    return true;
                }
        return false;
    }

    void choosePurpose()
    {
        if (answer_.verdict == Verdict::Tangle) {
            plan_.purpose = Purpose::Untangle;
            for (const QString& name : oneOfEachKind()) {
                if (levers_.size() >= most_factors) {
                    plan_.warnings.append(
                        QStringLiteral("The tangle has %1 factors; this plan takes apart the first %2.")
                            .arg(answer_.factors_named.size())
                            .arg(most_factors));
                    break;
                }
                addLever(name);
            }
            if (levers_.size() == 1)
                plan_.purpose = Purpose::Decide;
            return;
        }
        if (answer_.verdict == Verdict::Cause) {
            plan_.purpose = Purpose::Decide;
            addLever(answer_.factors_named.value(0));
            return;
        }
        std::vector<const FactorEvidence*> order;
        for (const FactorEvidence& one : answer_.factors)
            if (one.p_exact && canBeChosen(one.name))
                order.push_back(&one);
        std::stable_sort(order.begin(), order.end(),
            [](const FactorEvidence* a, const FactorEvidence* b) { return *a->p_exact < *b->p_exact; });
        if (!order.empty() && *order.front()->p_exact < worth_deciding_p && addLever(order.front()->name)) {
            plan_.purpose = Purpose::Decide;
            return;
        }
        plan_.purpose = Purpose::Map;
        for (const FactorEvidence* one : order)
            if (levers_.size() < most_mapped)
                addLever(one->name);
    }

    /// Of a tangle, one factor for each kind of cause (light, damp, mix ...), the one that is set by hand before the
    /// one that is measured; all of them when they are of one kind.
    QStringList oneOfEachKind()
    {
        QStringList chosen;
        QHash<QString, QString> by_kind;
        QStringList told;
        for (const QString& name : answer_.factors_named) {
            const auto one = std::find_if(answer_.factors.begin(), answer_.factors.end(),
                [&](const FactorEvidence& evidence) { return evidence.name == name; });
            if (one == answer_.factors.end() || !leverOf(table_, *one))
                continue;
            const auto sign = matchSign(*one, answer_.tones);
            const QString kind = sign ? sign->key : QStringLiteral("column ") + name;
            const QString before = by_kind.value(kind);
            if (before.isEmpty()) {
                chosen.append(name);
            } else {
                told.append(quoted(*one));
                if (!isMeasuredOnly(before) || isMeasuredOnly(name))
                    continue;
                chosen.replace(chosen.indexOf(before), name);
            }
            by_kind.insert(kind, name);
        }
        if (chosen.size() < 2)
            return answer_.factors_named;
        if (!told.isEmpty())
            plan_.warnings.append(
                QStringLiteral("One factor stands for each kind of cause, since these act in the same "
                               "way as another: %1. Let them change with it.")
                    .arg(listed(told)));
        return chosen;
    }

    void makeCombinations()
    {
        const std::size_t k = levers_.size();
        const std::size_t all = std::size_t { 1 } << k;
        candidates_.resize(static_cast<Eigen::Index>(all), static_cast<Eigen::Index>(k) + 1);
        for (std::size_t c = 0; c < all; ++c) {
            Combination one;
            candidates_(static_cast<Eigen::Index>(c), 0) = 1.0;
            for (std::size_t j = 0; j < k; ++j) {
                one.push_back((c >> j & 1U) != 0 ? 1 : 0);
                candidates_(static_cast<Eigen::Index>(c), static_cast<Eigen::Index>(j) + 1) = one.back();
            }
            combinations_.push_back(one);
        }
        std::vector<std::vector<double>> rows;
        for (std::size_t i = 0; i < known().size(); ++i) {
            std::vector<double> row { 1.0 };
            for (const Lever& lever : levers_)
                if (i < lever.side.size() && lever.side[i] >= 0)
                    row.push_back(lever.side[i]);
            if (row.size() == k + 1 && known()[i])
                rows.push_back(row);
        }
        present_.resize(static_cast<Eigen::Index>(rows.size()), static_cast<Eigen::Index>(k) + 1);
        for (std::size_t i = 0; i < rows.size(); ++i)
            for (std::size_t j = 0; j <= k; ++j)
                present_(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j)) = rows[i][j];
    }

    /// To confirm a cause that was found by looking, only the new prints count.
    [[nodiscard]] const std::vector<std::optional<int>>& known() const
    {
        static const std::vector<std::optional<int>> none;
        return answer_.verdict == Verdict::Cause ? none : failed_;
    }

    void choose(int count)
    {
        chosen_ = stats::augmentDOptimally(present_, candidates_, count, ridge);
        if (levers_.size() == 1 && count % 2 == 0) // as many of each, so that halves of sheets can be paired
            for (std::size_t i = 0; i < chosen_.size(); ++i)
                chosen_[i] = i % 2;
        Eigen::MatrixXd sum = stats::information(present_);
        const double before = stats::logDeterminant(sum, ridge);
        made_.clear();
        for (const std::size_t one : chosen_) {
            sum += stats::information(candidates_.row(static_cast<Eigen::Index>(one)));
            made_.push_back(combinations_[one]);
        }
        plan_.information_gain = stats::logDeterminant(sum, ridge) - before;
    }

    void chooseEnough()
    {
        const bool pairs = levers_.size() <= 2;
        const bool untangle = plan_.purpose == Purpose::Untangle;
        const auto tested = std::count_if(answer_.factors.begin(), answer_.factors.end(),
            [](const FactorEvidence& one) { return one.p_exact.has_value(); });
        const double alpha = untangle ? options_.alpha_to_untangle
            : answer_.verdict == Verdict::Cause
            ? options_.alpha // one question, asked beforehand
            : options_.alpha / static_cast<double>(std::max<std::ptrdiff_t>(tested, 1));
        for (int count = untangle ? options_.fewest_to_untangle : 2; count <= most_looked_at; count += pairs ? 2 : 1) {
            choose(count);
            const double chance = chanceToSettle(levers_, made_, failed_, answer_.verdict != Verdict::Cause, alpha);
            if (chance >= options_.power) {
                plan_.chance = chance;
                plan_.prints_needed_for_power_80 = count;
                break;
            }
            // Beyond a few factors the outcomes are too many to count.
            if (!pairs && count >= options_.most_trials)
                break;
        }
        const int needed = plan_.prints_needed_for_power_80.value_or(options_.most_trials);
        if (needed > options_.most_trials || !plan_.prints_needed_for_power_80) {
            choose(options_.most_trials);
            plan_.chance = chanceToSettle(levers_, made_, failed_, answer_.verdict != Verdict::Cause, alpha);
        }
    }

    [[nodiscard]] bool canSplit() const
    {
        return std::all_of(levers_.begin(), levers_.end(),
            [](const Lever& lever) { return canDifferWithinASheet(lever.factor->name); });
    }

    void describe()
    {
        std::map<std::size_t, int> counts;
        for (const std::size_t one : chosen_)
            ++counts[one];
        const bool split = canSplit() && counts.size() > 1;
        for (const auto& [at, count] : counts) {
            PlannedPrint print;
            print.count = count;
            print.split_sheet = split;
            QStringList bad, good;
            for (std::size_t j = 0; j < levers_.size(); ++j) {
                const bool as_failed = combinations_[at][j] == 1;
                print.settings.push_back(as_failed ? levers_[j].bad : levers_[j].good);
                (as_failed ? bad : good)
                    .append(QStringLiteral("%1 %2").arg(quoted(*levers_[j].factor), print.settings.back().spoken));
            }
            print.why = whyOf(bad, good);
            plan_.prints.push_back(std::move(print));
        }
    }

    [[nodiscard]] QString whyOf(const QStringList& bad, const QStringList& good) const
    {
        if (plan_.purpose == Purpose::Map)
            return QStringLiteral("Spreads what was tried: %1.").arg(listed(bad + good));
        if (bad.isEmpty())
            return QStringLiteral("With %1, as in the prints that kept: if this fails too, it is something else.")
                .arg(listed(good));
        if (good.isEmpty())
            return QStringLiteral("With %1, as in the prints that failed: if this keeps, it is something else.")
                .arg(listed(bad));
        return QStringLiteral("With %1 as in the prints that failed and %2 as in those that kept: if it fails, %3; if "
                              "it keeps, %4.")
            .arg(listed(bad), listed(good),
                bad.size() == 1 ? QStringLiteral("the first is the cause") : QStringLiteral("it is one of the first"),
                bad.size() == 1 ? QStringLiteral("it is not") : QStringLiteral("it is none of the first"));
    }

    void addControls()
    {
        PlannedPrint good;
        good.role = PlannedPrint::Role::KnownGood;
        for (const Lever& lever : levers_)
            good.settings.push_back(lever.good);
        good.why = QStringLiteral(
            "A print made in the way that is known to work: if it fails too, something else is wrong that day.");
        plan_.prints.push_back(std::move(good));
        PlannedPrint dark;
        dark.role = PlannedPrint::Role::Unexposed;
        dark.why = QStringLiteral(
            "A coated strip that gets no light and the same rinse: it must turn white, else mix or coat is veiled.");
        plan_.prints.push_back(std::move(dark));
    }

    void warn()
    {
        for (const Lever& lever : levers_)
            if (!canBeChosen(lever.factor->name))
                plan_.warnings.append(
                    QStringLiteral("%1 cannot be chosen: wait for such a day, or change what it acts through.")
                        .arg(quoted(*lever.factor)));
        if (plan_.purpose != Purpose::Map && !plan_.prints_needed_for_power_80)
            plan_.warnings.append(
                QStringLiteral("Even %1 such prints would settle it in fewer than %2 of 100 cases, if "
                               "the difference is as these prints suggest.")
                    .arg(most_looked_at)
                    .arg(std::lround(options_.power * 100.0)));
        for (const Lever& lever : levers_)
            if (lever.factor->kind == Factor::Kind::Number && plan_.purpose != Purpose::Map) {
                plan_.warnings.append(QStringLiteral(
                    "The chance is reckoned as if each number had two values only, the one of the failed prints and "
                    "the one of the kept."));
                break;
            }
        if (!levers_.empty() && !canSplit())
            plan_.warnings.append(QStringLiteral("Mix, paper and coat cannot differ within a sheet, so these are whole "
                                                 "sheets: make them side by side."));
    }

    static constexpr double ridge = 0.05;
    const FactorTable& table_;
    const Answer& answer_;
    const NextOptions& options_;
    std::vector<std::optional<int>> failed_;
    std::vector<Lever> levers_;
    std::vector<Combination> combinations_, made_;
    Eigen::MatrixXd candidates_, present_;
    std::vector<std::size_t> chosen_;
    NextPrints plan_;
};

} // namespace

int NextPrints::trials() const
{
    int sum = 0;
    for (const PlannedPrint& print : prints)
        sum += print.role == PlannedPrint::Role::Trial ? print.count : 0;
    return sum;
}

NextPrints nextPrints(const FactorTable& table, const Answer& answer, const NextOptions& options)
{
    return Planning(table, answer, options).run();
}

} // namespace washfast::causes
