// The readings of a print as they are in the file, inside a step.
#pragma once

#include "core/store/writer.h"
#include "core/trial/same_reading.h"

namespace washfast::store {

/// All readings of a print, in the order of their ids.
[[nodiscard]] Result<std::vector<ReadingThere>> readingsOf(Writer& writer, qint64 print);

} // namespace washfast::store
