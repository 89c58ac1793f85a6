#include "core/causes/next_prints.h"

#include "core/causes/levers.h"
#include "core/causes/phrases.h"
#include "core/causes/published_signs.h"
#include "core/causes/settings.h"
#include "core/causes/words.h"
#include "core/stats/doptimal.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace washfast::causes {

namespace {

constexpr std::size_t most_factors = 4; // in one plan
constexpr std::size_t most_mapped = 3;
constexpr int most_looked_at = 40;
constexpr double worth_deciding_p = 0.2;

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
            plan_.warnings.append(Words::tr(
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
                    plan_.warnings.append(Words::tr("The tangle has %n factors; this plan takes apart the first %1.",
                        nullptr, int(answer_.factors_named.size()))
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
            if (one.p_exact && canBeChosen(one.meaning))
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
        QHash<QString, const FactorEvidence*> by_kind;
        QStringList told;
        for (const QString& name : answer_.factors_named) {
            const auto one = std::find_if(answer_.factors.begin(), answer_.factors.end(),
                [&](const FactorEvidence& evidence) { return evidence.name == name; });
            if (one == answer_.factors.end() || !leverOf(table_, *one))
                continue;
            const auto sign = matchSign(table_, *one, answer_.tones);
            const QString kind = sign ? sign->key : QStringLiteral("column ") + name;
            const FactorEvidence* before = by_kind.value(kind);
            if (before == nullptr) {
                chosen.append(name);
            } else {
                told.append(quoted(*one));
                if (!isMeasuredOnly(before->meaning) || isMeasuredOnly(one->meaning))
                    continue;
                chosen.replace(chosen.indexOf(before->name), name);
            }
            by_kind.insert(kind, &*one);
        }
        if (chosen.size() < 2)
            return answer_.factors_named;
        if (!told.isEmpty())
            plan_.warnings.append(Words::tr("One factor stands for each kind of cause, since these act in the same "
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
        stats::Matrix sum = stats::information(present_);
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
        return std::all_of(
            levers_.begin(), levers_.end(), [](const Lever& lever) { return lever.factor->meaning.within_sheet; });
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
            return Words::tr("Spreads what was tried: %1.").arg(listed(bad + good));
        if (bad.isEmpty())
            return Words::tr("With %1, as in the prints that kept: if this fails too, it is something else.")
                .arg(listed(good));
        if (good.isEmpty())
            return Words::tr("With %1, as in the prints that failed: if this keeps, it is something else.")
                .arg(listed(bad));
        const QString says = bad.size() == 1
            ? Words::tr("With %1 as in the prints that failed and %2 as in those that kept: if it fails, the first is "
                        "the cause; if it keeps, it is not.")
            : Words::tr("With %1 as in the prints that failed and %2 as in those that kept: if it fails, it is one of "
                        "the first; if it keeps, it is none of the first.");
        return says.arg(listed(bad), listed(good));
    }

    void addControls()
    {
        PlannedPrint good;
        good.role = PlannedPrint::Role::KnownGood;
        for (const Lever& lever : levers_)
            good.settings.push_back(lever.good);
        good.why = Words::tr(
            "A print made in the way that is known to work: if it fails too, something else is wrong that day.");
        plan_.prints.push_back(std::move(good));
        PlannedPrint dark;
        dark.role = PlannedPrint::Role::Unexposed;
        dark.why = Words::tr(
            "A coated strip that gets no light and the same rinse: it must turn white, else mix or coat is veiled.");
        plan_.prints.push_back(std::move(dark));
    }

    void warn()
    {
        for (const Lever& lever : levers_)
            if (!canBeChosen(lever.factor->meaning))
                plan_.warnings.append(
                    Words::tr("%1 cannot be chosen: wait for such a day, or change what it acts through.")
                        .arg(quoted(*lever.factor)));
        for (const Lever& lever : levers_)
            if (lever.factor->meaning.lever == InCauses::Lever::Unknown)
                plan_.warnings.append(Words::tr(
                    "Whether %1 can be chosen is not known: it is a column of your own. Say which field it is.")
                                          .arg(quoted(*lever.factor)));
        if (plan_.purpose != Purpose::Map && !plan_.prints_needed_for_power_80)
            plan_.warnings.append(Words::tr("Even %1 such prints would settle it in fewer than %2 of 100 cases, if "
                                            "the difference is as these prints suggest.")
                                      .arg(most_looked_at)
                                      .arg(std::lround(options_.power * 100.0)));
        for (const Lever& lever : levers_)
            if (lever.factor->kind == Factor::Kind::Number && plan_.purpose != Purpose::Map) {
                plan_.warnings.append(Words::tr(
                    "The chance is reckoned as if each number had two values only, the one of the failed prints and "
                    "the one of the kept."));
                break;
            }
        if (!levers_.empty() && !canSplit())
            plan_.warnings.append(Words::tr("Mix, paper and coat cannot differ within a sheet, so these are whole "
                                            "sheets: make them side by side."));
    }

    static constexpr double ridge = 0.05;
    const FactorTable& table_;
    const Answer& answer_;
    const NextOptions& options_;
    std::vector<std::optional<int>> failed_;
    std::vector<Lever> levers_;
    std::vector<Combination> combinations_, made_;
    stats::Matrix candidates_, present_;
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
