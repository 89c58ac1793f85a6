#include "ui/causes/evidence_pictures.h"

#include "ui/causes/words.h"

#include <QLocale>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

const causes::Factor* factorNamed(const causes::FactorTable& table, const QString& name)
{
    const auto found = std::find_if(
        table.factors.begin(), table.factors.end(), [&](const causes::Factor& factor) { return factor.name == name; });
    return found == table.factors.end() ? nullptr : &*found;
}

/// Distance from the first to the third quarter of the known values; the whole spread when that is nothing.
double typicalStep(const causes::Factor& factor)
{
    std::vector<double> known;
    for (const auto& value : factor.numbers)
        if (value)
            known.push_back(*value);
    if (known.size() < 2)
        return 0;
    std::sort(known.begin(), known.end());
    const double step = known[known.size() * 3 / 4] - known[known.size() / 4];
    return step > 0 ? step : known.back() - known.front();
}

} // namespace

StripData stripOf(const causes::FactorTable& table, const causes::FactorEvidence& evidence)
{
    StripData strip;
    const auto* factor = factorNamed(table, evidence.name);
    if (!factor)
        return strip;
    strip.title = factor->spoken();
    strip.across
        = evidence.unit.isEmpty() ? strip.title : strip.title + QStringLiteral(" [") + evidence.unit + QLatin1Char(']');
    strip.outcome_is_number = table.outcome_is_number;
    strip.up = table.outcome_label.isEmpty() ? table.outcome : table.outcome_label;
    strip.median_failed = evidence.median_failed;
    strip.median_kept = evidence.median_kept;
    QStringList keys;
    if (factor->kind != causes::Factor::Kind::Number)
        for (const auto& level : evidence.levels) {
            keys << level.level;
            strip.levels << (level.label.isEmpty() ? level.level : level.label);
        }
    for (size_t i = 0; i < table.prints.size(); ++i) {
        std::optional<double> outcome;
        if (i < table.outcome_values.size())
            outcome = table.outcome_values[i];
        std::optional<double> x;
        if (factor->kind == causes::Factor::Kind::Choice) {
            if (i < factor->texts.size() && !factor->texts[i].isNull())
                if (const auto at = keys.indexOf(factor->texts[i]); at >= 0)
                    x = double(at);
        } else if (i < factor->numbers.size() && factor->numbers[i]) {
            x = *factor->numbers[i];
            if (factor->kind == causes::Factor::Kind::YesNo) {
                const auto at = keys.indexOf(*x != 0 ? QStringLiteral("yes") : QStringLiteral("no"));
                x = at >= 0 ? double(at) : *x;
            }
        }
        if (!outcome || !x) {
            ++strip.unknown;
            continue;
        }
        strip.codes << table.prints[i];
        strip.x.push_back(*x);
        const double came_out = outcome.value_or(0);
        strip.y.push_back(table.outcome_is_number ? came_out : (came_out != 0 ? 1.0 : 0.0));
    }
    return strip;
}

std::vector<Effect> effectsOf(const causes::FactorTable& table, const causes::Answer& answer)
{
    std::vector<Effect> effects;
    for (const auto& evidence : answer.factors) {
        const auto* factor = factorNamed(table, evidence.name);
        if (!factor || factor->kind == causes::Factor::Kind::Choice)
            continue;
        std::optional<causes::LogOdds> odds = evidence.firth;
        bool together = false;
        // Of factors that cannot be told apart a model together says nothing.
        if (answer.firth_model && !answer.firth_model->linear && answer.verdict != causes::Verdict::Tangle) {
            const auto at = answer.firth_model->terms.indexOf(evidence.name);
            if (at >= 0 && size_t(at) < answer.firth_model->values.size()) {
                odds = answer.firth_model->values[size_t(at)];
                together = true;
            }
        }
        if (!odds)
            continue;
        const double step = factor->kind == causes::Factor::Kind::Number ? typicalStep(*factor) : 1.0;
        if (step <= 0)
            continue;
        Effect effect;
        effect.label = factor->spoken();
        effect.step = factor->kind == causes::Factor::Kind::Number
            ? CausesWords::tr("for %1 more")
                  .arg(QLocale().toString(step, 'g', 3)
                      + (evidence.unit.isEmpty() ? QString() : QLatin1Char(' ') + evidence.unit))
            : CausesWords::tr("yes against no");
        effect.odds = std::exp(odds->estimate * step);
        if (odds->low)
            effect.low = std::exp(*odds->low * step);
        if (odds->high)
            effect.high = std::exp(*odds->high * step);
        effect.together = together;
        effect.named = answer.factors_named.contains(evidence.name);
        effects.push_back(std::move(effect));
    }
    std::stable_sort(effects.begin(), effects.end(),
        [](const Effect& a, const Effect& b) { return std::abs(std::log(a.odds)) > std::abs(std::log(b.odds)); });
    constexpr size_t most = 16;
    if (effects.size() > most)
        effects.resize(most);
    return effects;
}

TogetherData togetherOf(const causes::Answer& answer, int most)
{
    auto factors = answer.factors;
    std::stable_sort(factors.begin(), factors.end(),
        [](const auto& a, const auto& b) { return a.p_exact.value_or(2) < b.p_exact.value_or(2); });
    if (int(factors.size()) > most)
        factors.resize(size_t(most));
    TogetherData data;
    const auto n = factors.size();
    data.association.assign(n, std::vector<std::optional<double>>(n));
    data.disagree.assign(n, std::vector<std::optional<int>>(n));
    for (size_t row = 0; row < n; ++row) {
        data.labels << (factors[row].label.isEmpty() ? factors[row].name : factors[row].label);
        for (const auto& other : factors[row].moves_with)
            for (size_t column = 0; column < n; ++column)
                if (factors[column].name == other.name) {
                    data.association[row][column] = data.association[column][row] = other.association;
                    data.disagree[row][column] = data.disagree[column][row] = other.prints_that_disagree;
                }
    }
    return data;
}

} // namespace washfast::ui
