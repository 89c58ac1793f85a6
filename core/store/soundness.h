// Whether a notebook's file is whole: SQLite's own check of its pages, and rows that point at rows which are not there.
#pragma once

#include "core/store/notebook_file.h"

namespace washfast::store {

/// "ok", or what is wrong with the file in a few words. (A link to a row that is only hidden is no fault of the file.)
[[nodiscard]] Result<QString> soundness(NotebookFile& file);

} // namespace washfast::store
