// What `washfast mix` has to say, as an object for scripts and as a table for people.
#pragma once

#include "app/cli/output.h"
#include "core/chemistry/audit.h"
#include "core/chemistry/scale.h"

namespace washfast::cli {

struct MixAnswer {
    chemistry::Audit audit; // of what was weighed, or of the amounts to weigh as rounded
    std::vector<chemistry::Amount> amounts; // to weigh; empty for what was weighed
    std::vector<chemistry::Solution> solutions;
    QString formula, source; // of the amounts
    QStringList steps;
    std::optional<double> coat_volume_ml, coat_ml_m2;
    QStringList cautions, warnings;
};

[[nodiscard]] MixAnswer answerFor(const chemistry::Recipe& recipe, const chemistry::Scaled& scaled,
    const chemistry::Order& order, double headspace_ml);
/// `sheets_m2`: coated area of all sheets.
[[nodiscard]] MixAnswer answerFor(
    const chemistry::Batch& batch, std::optional<double> coat_ml_m2, std::optional<double> sheets_m2);

[[nodiscard]] QJsonObject toJson(const MixAnswer& answer);
void asText(const MixAnswer& answer, const Output& output);

} // namespace washfast::cli
