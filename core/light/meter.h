// Readings of an instrument at the paper, made into light at any moment.
//
// Between two readings the light is a straight line. Before the first and after the last it follows the clear sky's
// model through that reading where the model is known, else it stays. Near a reading it is good to 15 %; away from all
// of them the sky may have changed, and the interval grows to that of an estimate by eye within half an hour (our
// assumption).
#pragma once

#include "core/light/light_model.h"

#include <vector>

namespace washfast::light {

class Meter {
public:
    /// Readings without a time count as taken at `middle`.
    Meter(const std::vector<MeterReading>& readings, Instant middle);
    [[nodiscard]] bool empty() const { return points_.empty(); }
    [[nodiscard]] size_t size() const { return points_.size(); }

    struct Light {
        double w_m2 = 0, low = 0, high = 0;
    };
    /// `model` may be null, or not known.
    [[nodiscard]] Light at(Instant when, const LightModel* model) const;

private:
    struct Point {
        Instant when;
        double w_m2;
    };
    std::vector<Point> points_; // by time
};

} // namespace washfast::light
