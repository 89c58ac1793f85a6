// From the record of one print to exposures that can be reckoned: which columns are read, and what they mean.
#pragma once

#include "core/light/exposure_light.h"
#include "core/quantity/field.h"

#include <span>

namespace washfast::light {

/// Keys of the print fields that are asked for, in the order of `inputs` below.
[[nodiscard]] QStringList printInputs();
/// The rows that are asked for: exposures, then meter readings.
[[nodiscard]] std::vector<RowsOf> printRows();

struct PrintLight {
    std::vector<ExposureCase> exposures;
    std::optional<double> goal_j_cm2;
    Evidence times = Evidence::Measured; // weakest of starts, ends and pauses
    Evidence readings = Evidence::Measured;
    Evidence site = Evidence::Measured; // weakest of latitude and longitude
    Evidence goal = Evidence::Measured;
};

[[nodiscard]] PrintLight readPrintLight(std::span<const Known> inputs, std::span<const ChildRows> rows);

} // namespace washfast::light
