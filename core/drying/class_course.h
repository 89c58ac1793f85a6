// A class going through the stations: sheets queue for hands, frames and trays. Used by the lesson plan, three times
// over: when all goes fast, as is likely, and slowly.
#pragma once

#include "core/drying/lesson_plan.h"

#include <array>

namespace washfast::drying {

/// Which stations, and how dry before which.
struct Course {
    bool dry = true, expose = true, rinse = true; // a later one needs the earlier
    Bracket dry_before_light_min; // minutes after coating
    Bracket dry_before_rinse_min; // minutes after coating, when it goes on drying in the light
};

/// Ultraviolet dose since the lesson began, summed minute by minute.
class LightSum {
public:
    static constexpr int horizon_min = 480; // looks no further ahead

    explicit LightSum(const LessonInput& input);

    /// When a sheet that goes out at `from_min` has got the goal; infinite beyond the horizon. `end`: 0 with the high
    /// end of the light (fast), 1 likely, 2 with the low end.
    [[nodiscard]] double reached_min(double from_min, size_t end) const;

private:
    [[nodiscard]] double doseAt(double minutes, size_t end) const;

    double goal_j_cm2_;
    std::array<std::vector<double>, 3> sums_; // J/cm2 at each full minute; empty when the light is not known
};

/// The stations of the course in their order, without their reasons.
[[nodiscard]] std::vector<StationTime> runCourse(const LessonInput& input, const Course& course, const LightSum& light);

} // namespace washfast::drying
