#include "core/causes/levers.h"

#include "core/causes/phrases.h"

#include <algorithm>
#include <cmath>

namespace washfast::causes {

namespace {

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

} // namespace

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

} // namespace washfast::causes
