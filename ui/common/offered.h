// What is offered where a record is chosen: those that are in use. A retired one stays in tables, filters and on the
// records that have it already.
#pragma once

#include "core/trial/notebook.h"

#include <QStringList>

namespace washfast::ui {

/// The column that says that a record of this kind is retired ("mix_retired"); empty for kinds that are not.
[[nodiscard]] QString retiredColumn(const Catalogue& catalogue, Entity entity);
[[nodiscard]] bool isRetired(const Notebook& notebook, Ref record);
/// Names to choose from, the newest first, each once.
[[nodiscard]] QStringList offeredNames(const Notebook& notebook, Entity entity);
/// A value that names a record of this kind; nothing when that record is retired: it is not handed on to new ones.
[[nodiscard]] Known unlessRetired(const Notebook& notebook, Entity entity, const Known& name);

} // namespace washfast::ui
