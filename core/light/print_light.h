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

/// A cover as the shelf has it: its spectrum where that reaches from 315 to 400 nm, else the share that was measured,
/// else its material. Nothing when none of them is known.
struct CoverRecord {
    QString kind, name, spectrum;
    std::optional<double> thickness_mm, uva_transmittance;
};
[[nodiscard]] std::optional<Layer> layerOfCover(const CoverRecord& cover);

struct PrintLight {
    std::vector<ExposureCase> exposures;
    std::optional<double> goal_j_cm2;
    Evidence times = Evidence::Measured; // weakest of starts, ends and pauses
    Evidence readings = Evidence::Measured;
    Evidence site = Evidence::Measured; // weakest of latitude and longitude
    Evidence goal = Evidence::Measured;
    Actinic weighting; // of its sensitiser's coat
    Evidence coat = Evidence::Assumed; // how that is known
};

[[nodiscard]] PrintLight readPrintLight(std::span<const Known> inputs, std::span<const ChildRows> rows);

} // namespace washfast::light
