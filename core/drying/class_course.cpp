#include "core/drying/class_course.h"
#include "core/drying/never.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <queue>

namespace washfast::drying {

namespace {

double endOf(const Bracket& bracket, size_t end)
{
    return end == 0 ? bracket.low : end == 1 ? bracket.likely : bracket.high;
}

void setEnd(Bracket& bracket, size_t end, double value)
{
    (end == 0 ? bracket.low : end == 1 ? bracket.likely : bracket.high) = value;
}

/// So many places; whoever comes takes the one that is free first.
class Places {
public:
    explicit Places(int count)
    {
        for (int i = 0; i < std::max(1, count); ++i)
            free_.push(0.0);
    }
    /// When work that is ready then can begin.
    [[nodiscard]] double take(double ready)
    {
        const double begins = std::max(ready, free_.top());
        free_.pop();
        return begins;
    }
    void giveBack(double at) { free_.push(at); }

private:
    std::priority_queue<double, std::vector<double>, std::greater<>> free_;
};

struct Stretch {
    double from = never, to = 0.0;
    void add(double begins, double ends)
    {
        from = std::min(from, begins);
        to = std::max(to, ends);
    }
};

enum At : size_t { Coating, Drying, Light, Holding, Rinsing, AtCount };

std::array<Stretch, AtCount> oneRun(const LessonInput& in, const Course& course, const LightSum& light, size_t end)
{
    std::array<Stretch, AtCount> stretches;
    Places hands(in.coaters), frames(in.frames), trays(in.trays);
    for (int sheet = 0; sheet < in.sheets; ++sheet) {
        const double begins = hands.take(in.talk_min);
        const double coated = begins + endOf(in.coat_min, end);
        hands.giveBack(coated);
        stretches[Coating].add(begins, coated);
        if (!course.dry)
            continue;
        const double dry = coated + endOf(course.dry_before_light_min, end);
        stretches[Drying].add(coated, dry);
        if (!course.expose)
            continue;
        const double out = frames.take(dry);
        const double in_again = light.reached_min(out, end);
        frames.giveBack(in_again);
        stretches[Light].add(out, in_again);
        const double ready = std::max(in_again + in.hold_min, coated + endOf(course.dry_before_rinse_min, end));
        stretches[Holding].add(in_again, ready);
        if (!course.rinse)
            continue;
        const double wet = trays.take(ready);
        const double rinsed = wet + endOf(in.rinse_min, end);
        trays.giveBack(rinsed);
        stretches[Rinsing].add(wet, rinsed);
    }
    return stretches;
}

} // namespace

LightSum::LightSum(const LessonInput& input)
    : goal_j_cm2_(input.dose_goal_j_cm2)
{
    if (!input.light)
        return;
    std::array<double, 3> sum {};
    for (int minute = 0; minute <= horizon_min; ++minute) {
        for (size_t end = 0; end < 3; ++end)
            sums_[end].push_back(sum[end]);
        // The middle of the coming minute. W/m2 x 60 s = J/m2; 10,000 cm2 in a square metre.
        const auto light
            = input.light({ input.starts.ms_utc + qint64(minute) * 60'000 + 30'000, input.starts.offset_s });
        sum[0] += std::max(0.0, light.high) * 60.0 / 1e4;
        sum[1] += std::max(0.0, light.likely) * 60.0 / 1e4;
        sum[2] += std::max(0.0, light.low) * 60.0 / 1e4;
    }
}

double LightSum::doseAt(double minutes, size_t end) const
{
    const auto& sums = sums_[end];
    const auto whole = size_t(std::floor(minutes));
    if (whole + 1 >= sums.size())
        return sums.back();
    return std::lerp(sums[whole], sums[whole + 1], minutes - double(whole));
}

double LightSum::reached_min(double from_min, size_t end) const
{
    const auto& sums = sums_[end];
    if (sums.empty() || !(from_min < horizon_min))
        return never;
    const double wanted = doseAt(from_min, end) + goal_j_cm2_;
    const auto reached = std::lower_bound(sums.begin(), sums.end(), wanted);
    if (reached == sums.end())
        return never;
    if (reached == sums.begin())
        return from_min;
    const double before = *std::prev(reached);
    const double minutes = double(reached - sums.begin()) - 1.0 + (wanted - before) / (*reached - before);
    return std::max(from_min, minutes);
}

std::vector<StationTime> runCourse(const LessonInput& input, const Course& course, const LightSum& light)
{
    constexpr std::array<Station, AtCount> stations { Station::Coat, Station::Dry, Station::Expose, Station::Hold,
        Station::Rinse };
    std::array<StationTime, AtCount> times;
    for (size_t end = 0; end < 3; ++end) {
        const auto run = oneRun(input, course, light, end);
        for (size_t at = 0; at < AtCount; ++at) {
            times[at].station = stations[at];
            setEnd(times[at].start_min, end, run[at].from);
            setEnd(times[at].end_min, end, run[at].to);
        }
    }
    const bool exposed = course.dry && course.expose;
    const bool held = exposed && (input.hold_min > 0 || course.dry_before_rinse_min.high > 0);
    const std::array<bool, AtCount> passed { input.sheets > 0, course.dry, exposed, held, exposed && course.rinse };
    std::vector<StationTime> found;
    for (size_t at = 0; at < AtCount; ++at)
        if (passed[at] && passed[Coating])
            found.push_back(times[at]);
    return found;
}

} // namespace washfast::drying
