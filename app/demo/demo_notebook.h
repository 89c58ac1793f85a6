// Writes the example notebook: a term of an invented class (scenario.h tells its story), made by a small model with
// chance (forward_model.h) and noted down with rounding and gaps (print_notes.h). The same seed gives the same notebook
// on every machine.
#pragma once

#include "core/store/notebook_file.h"

namespace washfast::demo {

/// Fills an empty notebook; one step for the shelf and one for each lesson. Error BadInput when there is a lesson in it
/// already, with nothing written.
[[nodiscard]] Outcome writeDemo(store::NotebookFile& file, quint32 seed = 20260504);

} // namespace washfast::demo
