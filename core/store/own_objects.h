// Which triggers and views of a file are Washfast's own. A notebook is an open file: other programs may add to it, and
// what they add runs when the notebook is written to.
#pragma once

#include "core/store/notebook_file.h"

namespace washfast::store {

/// A sentence for each trigger and view that Washfast does not make, for each of its triggers that is another in this
/// file, and for each that is missing. Nothing is said about a file of a newer schema: its triggers are not known here.
[[nodiscard]] Result<QStringList> strangeObjects(NotebookFile& file);

} // namespace washfast::store
