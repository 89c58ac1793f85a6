// How long an exposure takes for a wanted dose: the light is added up once, and each moment asked for is looked up.
#include "core/light/meter.h"

#include <algorithm>
#include <cmath>

namespace washfast::light {

namespace {

/// Dose since a moment, minute by minute, at the middle and at both ends of the interval, J/cm2.
struct Running {
    std::vector<double> middle, low, high;

    void add(double light, double weak, double strong, double minutes)
    {
        const auto more = [minutes](std::vector<double>& sums, double w_m2) {
            sums.push_back(sums.back() + w_m2 * minutes * 60 / 1e4);
        };
        more(middle, light);
        more(low, weak);
        more(high, strong);
    }
};

double valueAt(const std::vector<double>& sums, double position)
{
    if (sums.size() < 2)
        return sums.front();
    const double inside = std::clamp(position, 0.0, static_cast<double>(sums.size() - 1));
    const auto i = std::min(static_cast<size_t>(inside), sums.size() - 2);
    return sums[i] + (inside - static_cast<double>(i)) * (sums[i + 1] - sums[i]);
}

/// Minutes from `position` until `goal` more has come, or nothing within `most` minutes.
std::optional<double> minutesUntil(const std::vector<double>& sums, double position, double goal, double most)
{
    const double wanted = valueAt(sums, position) + goal;
    const auto reached = std::lower_bound(sums.begin(), sums.end(), wanted);
    if (reached == sums.end())
        return std::nullopt;
    const auto i = size_t(reached - sums.begin());
    const double at = i == 0
        ? 0
        : static_cast<double>(i - 1) + (sums[i] > sums[i - 1] ? (wanted - sums[i - 1]) / (sums[i] - sums[i - 1]) : 1);
    const double minutes = std::max(0.0, at - position);
    return minutes <= most ? std::optional(minutes) : std::nullopt;
}

} // namespace

std::vector<TimeNeeded> timesNeeded(
    const ExposureCase& exposure, double goal_j_cm2, Instant from, double step_s, size_t count, double most_h)
{
    std::vector<TimeNeeded> times(count);
    const double most_min = most_h * 60;
    const double whole_min = (count > 0 ? static_cast<double>(count - 1) * step_s / 60 : 0) + most_min;
    const auto steps = static_cast<qint64>(std::ceil(whole_min));
    const auto at = [&](double minutes) { return Instant { from.ms_utc + std::llround(minutes * 60'000), 0 }; };
    const LightModel model(exposure, from, at(whole_min + 1));
    const Meter meter(exposure.readings, from);
    const bool lamp = exposure.setting.kind == PlaceKind::Lamp;
    std::optional<double> steady;
    if (lamp && meter.empty()) {
        // Under a lamp a minute is like any other.
        auto minute = exposure;
        minute.start = from;
        minute.end = at(1);
        minute.pauses.clear();
        minute.pause_min = 0;
        steady = exposureDose(minute).uva_at_paper_w_m2;
    }
    if (!model.known() && meter.empty() && !steady) {
        for (auto& time : times)
            time.unknown = true;
        return times;
    }

    Running running { { 0 }, { 0 }, { 0 } };
    const double last = whole_min - most_min; // where the last of the moments is
    for (qint64 i = 0; i < steps; ++i) {
        if (static_cast<double>(i) > last && running.low.back() - valueAt(running.low, last) >= goal_j_cm2)
            break; // all of them have what they want
        const auto when = at(static_cast<double>(i) + 0.5);
        if (!meter.empty()) {
            const auto read = meter.at(when, &model);
            running.add(read.w_m2, read.low, read.high, 1);
        } else if (steady) {
            running.add(*steady, *steady * 0.8, *steady * 1.2, 1);
        } else {
            const auto now = model.at(when);
            running.add(now.at_paper_w_m2, now.low_w_m2, now.high_w_m2, 1);
        }
    }
    for (size_t i = 0; i < count; ++i) {
        const double position = static_cast<double>(i) * step_s / 60;
        times[i].minutes = minutesUntil(running.middle, position, goal_j_cm2, most_min);
        times[i].low = minutesUntil(running.high, position, goal_j_cm2, most_min);
        times[i].high = minutesUntil(running.low, position, goal_j_cm2, most_min);
    }
    return times;
}

TimeNeeded timeNeeded(const ExposureCase& exposure, double goal_j_cm2, Instant from, double most_h)
{
    return timesNeeded(exposure, goal_j_cm2, from, 60, 1, most_h).front();
}

} // namespace washfast::light
