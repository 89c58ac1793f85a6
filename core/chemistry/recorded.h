// What the notebook says in a column of a record.
#pragma once

#include "core/trial/notebook.h"

namespace washfast::chemistry {

[[nodiscard]] inline Known at(const Notebook& notebook, Ref ref, const char* column)
{
    return notebook.get(ref, QString::fromLatin1(column));
}

/// Without spaces around it; empty when it is not recorded.
[[nodiscard]] inline QString textAt(const Notebook& notebook, Ref ref, const char* column)
{
    return at(notebook, ref, column).text().value_or(QString()).trimmed();
}

} // namespace washfast::chemistry
