// From what was measured in a photo to the fields of a reading, as they stand in the notebook. Plain data: nothing is
// written here.
#pragma once

#include "core/density/measure.h"
#include "core/quantity/value.h"

#include <utility>

namespace washfast::density {

enum class ReadChannel { Red, Green, Blue, Visual };
[[nodiscard]] QString channelKey(ReadChannel channel); // red, green, blue, visual
[[nodiscard]] const ChannelReading& channelOf(const RegionReading& region, ReadChannel channel);

/// Field key and value.
using ReadingFields = std::vector<std::pair<QString, Known>>;

/// Density, spread, channel, method and Lab of one region. Refused, with the sentence why: densities relative to the
/// paper, a density that is a lower bound only (a reading cannot say so), a region without a density. `cards`: how the
/// densities of the references are known; the readings cannot be known better.
[[nodiscard]] Result<ReadingFields> readingFields(
    const Measurement& measurement, const RegionReading& region, ReadChannel channel, Evidence cards);

} // namespace washfast::density
