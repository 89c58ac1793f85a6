#include "core/light/explain.h"

#include "core/light/light_model.h"
#include "core/light/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::light {

namespace {

struct Name {
    const char* key;
    const char* name;
};

const Name& nameOf(LightPart part)
{
    static constexpr Name names[] = {
        { "sun", QT_TRANSLATE_NOOP("Light", "sun height") },
        { "cloud", QT_TRANSLATE_NOOP("Light", "cloud") },
        { "cover", QT_TRANSLATE_NOOP("Light", "cover") },
        { "sky_share", QT_TRANSLATE_NOOP("Light", "share of the sky") },
        { "tilt", QT_TRANSLATE_NOOP("Light", "tilt") },
        { "time", QT_TRANSLATE_NOOP("Light", "duration") },
    };
    return names[size_t(part)];
}

constexpr size_t partCount = 5; // that act on one another
constexpr unsigned everything = (1U << partCount) - 1;

/// Weight of a part joining `others` that are there already: |S|! (n-|S|-1)! / n!.
constexpr double weightOf(int others)
{
    constexpr double factorial[] = { 1, 1, 2, 6, 24, 120 };
    return factorial[others] * factorial[partCount - 1 - size_t(others)] / factorial[partCount];
}

std::array<double, partCount> shapley(const std::array<double, 32>& log_light)
{
    std::array<double, partCount> value {};
    for (size_t part = 0; part < partCount; ++part)
        for (unsigned set = 0; set <= everything; ++set)
            if (!(set & 1U << part))
                value[part] += weightOf(__builtin_popcount(set)) * (log_light[set | 1U << part] - log_light[set]);
    return value;
}

} // namespace

QString lightPartKey(LightPart part)
{
    return QString::fromLatin1(nameOf(part).key);
}

QString lightPartName(LightPart part)
{
    return Words::tr(nameOf(part).name);
}

std::optional<LightExplained> explainLight(const ExposureCase& exposure, const Reference& reference)
{
    return explainLight(std::span(&exposure, 1), reference);
}

std::optional<LightExplained> explainLight(std::span<const ExposureCase> exposures, const Reference& reference)
{
    LightExplained explained;
    double lit_min = 0;
    std::array<double, 32> mean {}; // light of every combination, over all minutes with light
    for (const auto& exposure : exposures) {
        const auto lit = exposure.litMinutes();
        const auto dose = exposureDose(exposure);
        if (!lit || !dose.dose_j_cm2)
            return std::nullopt;
        const LightModel model(exposure, *exposure.start, *exposure.end);
        if (!model.known())
            return std::nullopt;
        constexpr int moments = 6; // the middle rule
        const double whole_ms = static_cast<double>(exposure.end->ms_utc - exposure.start->ms_utc);
        for (int i = 0; i < moments; ++i) {
            const Instant when { exposure.start->ms_utc + std::llround(whole_ms * (i + 0.5) / moments), 0 };
            const auto values = model.allCombinations(when, reference.zenith_deg);
            for (size_t set = 0; set < mean.size(); ++set)
                mean[set] += values[set] * *lit / moments;
        }
        lit_min += *lit;
        explained.dose_j_cm2 += *dose.dose_j_cm2;
        explained.cloud_is_rest = explained.cloud_is_rest || dose.from_readings;
    }
    if (!(lit_min > 0) || !(explained.dose_j_cm2 > 0))
        return std::nullopt;
    std::array<double, 32> logs {};
    for (size_t set = 0; set < logs.size(); ++set) {
        if (!(mean[set] > 0))
            return std::nullopt; // darkness has no logarithm
        mean[set] /= lit_min;
        logs[set] = std::log10(mean[set]);
    }

    explained.reference_w_m2 = mean[0];
    explained.reference_minutes = lit_min;
    if (reference.goal_j_cm2 && *reference.goal_j_cm2 > 0)
        explained.reference_minutes = *reference.goal_j_cm2 * 1e4 / mean[0] / 60;
    else if (reference.planned_minutes && *reference.planned_minutes > 0)
        explained.reference_minutes = *reference.planned_minutes;
    explained.duration_compared = reference.goal_j_cm2 || reference.planned_minutes;
    explained.reference_dose_j_cm2 = mean[0] * explained.reference_minutes * 60 / 1e4;
    explained.total_log10 = std::log10(explained.dose_j_cm2 / explained.reference_dose_j_cm2);

    const auto shares = shapley(logs);
    std::copy(shares.begin(), shares.end(), explained.log10.begin());
    explained.log10[size_t(LightPart::Duration)] = std::log10(lit_min / explained.reference_minutes);
    // The moments here are fewer than the dose's, and readings know more than the sky that was noted: what is left goes
    // to the cloud, so that the parts are the whole.
    double sum = 0;
    for (const double part : explained.log10)
        sum += part;
    explained.log10[size_t(LightPart::Cloud)] += explained.total_log10 - sum;
    return explained;
}

} // namespace washfast::light
