// The data dictionary: what each field of a table is, in words, drawn from the catalogue.
#pragma once

#include "core/exchange/csvw.h"
#include "core/quantity/catalogue.h"

namespace washfast::exchange {

struct DictionaryEntry {
    QString key, label, unit, kind;
    QString station; // at which it is recorded
    QString of; // the record that holds it: print, session, bath ...
    QString choices; // "brush = brush; rod = rod"
    std::optional<double> low, high; // plausible range
    QString evidence; // measured, or estimated when it is taken by eye
    QString worked_out_from; // keys of the fields that a derived one stands on
    QString description;
};

[[nodiscard]] DictionaryEntry dictionaryEntry(const Field& field);
/// The headings of a dictionary that is written as a table, and an entry as its cells.
[[nodiscard]] QStringList dictionaryHeadings();

/// A column of a table whose heading is the field's key.
[[nodiscard]] CsvwColumn csvwColumn(const Field& field);
/// The column that says what was estimated or assumed.
[[nodiscard]] CsvwColumn notMeasuredColumn();
/// Its heading, in every kind of file.
[[nodiscard]] QString notMeasuredHeading();

} // namespace washfast::exchange
