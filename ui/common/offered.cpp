#include "ui/common/offered.h"

namespace washfast::ui {

QString retiredColumn(const Catalogue& catalogue, Entity entity)
{
    const auto key = entityKey(entity) + QStringLiteral("_retired");
    return catalogue.column(entity, key) >= 0 ? key : QString();
}

bool isRetired(const Notebook& notebook, Ref record)
{
    const auto column = retiredColumn(notebook.catalogue(), record.entity);
    return !column.isEmpty() && notebook.get(record, column).yes().value_or(false);
}

QStringList offeredNames(const Notebook& notebook, Entity entity)
{
    QStringList names;
    const auto& table = notebook.table(entity);
    for (int row = table.rows() - 1; row >= 0; --row) {
        const Ref record { entity, table.id(row) };
        if (const auto name = notebook.nameOf(record); !name.isEmpty() && !isRetired(notebook, record))
            names << name;
    }
    names.removeDuplicates();
    return names;
}

Known unlessRetired(const Notebook& notebook, Entity entity, const Known& name)
{
    const auto words = name.text();
    const auto id = words ? notebook.byName(entity, *words) : std::nullopt;
    return id && isRetired(notebook, { entity, *id }) ? Known {} : name;
}

} // namespace washfast::ui
