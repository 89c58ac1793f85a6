#include "core/light/meter.h"

#include <algorithm>
#include <cmath>

namespace washfast::light {

namespace {

/// How far the model may carry a reading, as a factor: beyond, something else has happened.
constexpr double mostCarried = 4;
constexpr double changesWithin_min = 30;

double carried(double reading, Instant at, Instant when, const LightModel* model)
{
    if (!model || !model->known())
        return reading;
    const double there = model->at(at).clear_w_m2;
    const double here = model->at(when).clear_w_m2;
    if (!(there > 0))
        return reading;
    return reading * std::min(here / there, mostCarried);
}

} // namespace

Meter::Meter(const std::vector<MeterReading>& readings, Instant middle)
{
    for (const auto& reading : readings)
        points_.push_back({ reading.when.value_or(middle), reading.uva_w_m2 });
    std::stable_sort(points_.begin(), points_.end(), [](const Point& a, const Point& b) { return a.when < b.when; });
    // Several at one moment are one: their mean.
    std::vector<Point> merged;
    for (size_t i = 0; i < points_.size();) {
        size_t j = i;
        double sum = 0;
        for (; j < points_.size() && points_[j].when == points_[i].when; ++j)
            sum += points_[j].w_m2;
        merged.push_back({ points_[i].when, sum / static_cast<double>(j - i) });
        i = j;
    }
    points_ = std::move(merged);
}

Meter::Light Meter::at(Instant when, const LightModel* model) const
{
    Light light;
    if (points_.empty())
        return light;
    const auto after = std::lower_bound(
        points_.begin(), points_.end(), when, [](const Point& point, Instant t) { return point.when < t; });
    double distance_min = 0;
    if (after == points_.begin()) {
        light.w_m2 = carried(after->w_m2, after->when, when, model);
        distance_min = minutesBetween(when, after->when);
    } else if (after == points_.end()) {
        const auto& last = points_.back();
        light.w_m2 = carried(last.w_m2, last.when, when, model);
        distance_min = minutesBetween(last.when, when);
    } else {
        const auto& before = *(after - 1);
        const double share = minutesBetween(before.when, when) / minutesBetween(before.when, after->when);
        light.w_m2 = before.w_m2 + share * (after->w_m2 - before.w_m2);
        distance_min = std::min(minutesBetween(before.when, when), minutesBetween(when, after->when));
    }
    const double away = 1 - std::exp(-distance_min / changesWithin_min);
    const double width = std::hypot(readingUncertainty, eyeUncertainty * away);
    light.low = light.w_m2 * (1 - std::min(width, 1.0));
    light.high = light.w_m2 * (1 + width);
    return light;
}

} // namespace washfast::light
