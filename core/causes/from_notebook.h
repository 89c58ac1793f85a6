// The search for causes over a notebook: its prints as a table of one outcome and the factors of the catalogue.
#pragma once

#include "core/causes/factor_table.h"
#include "core/trial/print_columns.h"

namespace washfast::causes {

struct NotebookChoices {
    QString outcome; // key of a yes/no field (yes = failed) or of a number; not needed with `against`
    QStringList factors; // keys; empty: every field that the catalogue takes for a possible cause
    QString block; // key of the field whose values make the blocks; empty: none
    bool larger_is_worse = false; // for a number
    std::vector<char> shown; // 1 for each print that is looked at, in the order of the print table; empty: all
    std::vector<char> against; // when given: `shown` are the prints that failed, these are the ones that kept
};

/// Values of choices are their keys. Errors: BadInput for a field that is not there or cannot be used, for two groups
/// of prints that overlap or are empty, and when no print has the outcome.
[[nodiscard]] Result<FactorTable> fromNotebook(const PrintColumns& columns, const NotebookChoices& choices);

} // namespace washfast::causes
