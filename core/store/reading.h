// Reads whole tables into memory, as fast as the file gives them.
#pragma once

#include "core/store/writer.h"
#include "core/trial/notebook.h"

namespace washfast::store {

/// Fills `notebook` with the rows of one entity, all or those of one session's prints. What cannot be understood is
/// left unknown and told in notebook.problems.
[[nodiscard]] Outcome readTable(Connection& connection, const std::vector<int>& columns, Entity entity,
    std::optional<qint64> session, Notebook& notebook);

/// Tells of a value that cannot be understood, in notebook.problems; two hundred are enough.
void complain(Notebook& notebook, qint64 id, const Field& field, const QString& found);

} // namespace washfast::store
