// One cell of a table as the value of a field: numbers with their marks and units, times on a given clock, choices by
// key or label. What cannot be read for certain is an error with one sentence.
#pragma once

#include "core/quantity/field.h"
#include "core/quantity/number_text.h"
#include "core/quantity/result.h"

#include <QDate>
#include <QTimeZone>

namespace washfast::exchange {

struct CellReading {
    DecimalMark mark = DecimalMark::Undecided; // of the column
    QString unit; // of the column; empty: the field's own
    std::optional<QDate> day; // of the row, for times that have none
    bool day_refused = false; // the row has a day that cannot be read: times without one are passed over
    QTimeZone zone; // for times without an offset
    bool any_size = false; // also numbers outside the plausible range
};

/// Empty cells, a dash, and "n/a" or "unknown" where no text is wanted, are unknown. `~0.6` is an estimate, `0.6?` an
/// assumption. The error's sentence does not name the field.
[[nodiscard]] Result<Known> readCell(const Field& field, const QString& cell, const CellReading& how);

/// The day of a row. A time behind it is not wanted.
[[nodiscard]] Result<std::optional<QDate>> readDay(const QString& cell);

/// What an export writes about evidence: "coat_volume_ml:estimated; kept:assumed".
[[nodiscard]] Result<QHash<QString, Evidence>> readNotMeasured(const QString& cell);

/// True when the cell says that nothing was recorded.
[[nodiscard]] bool isBlank(const Field& field, const QString& cell);

} // namespace washfast::exchange
