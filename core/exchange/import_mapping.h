// What the headings of a table mean: which field of a print stands in which column, and in which unit.
//
//     coat_volume_ml                 the key of the catalogue
//     Mix on the sheet [µL]          the label, with a unit that can be turned into the field's
//     room humidity pct              the key or the label; case, spaces and signs do not count
//     date                           the day of the row: completes times such as 10:15
//     not_measured                   which fields of the row were estimated or assumed, as an export writes them
//
// A heading that says nothing known is left out and reported, never guessed at. A person maps such a heading by hand.
#pragma once

#include "core/quantity/catalogue.h"

#include <QHash>
#include <QStringList>
#include <vector>

namespace washfast::exchange {

enum class ColumnUse {
    Field, // a recorded field of the print, or of a record it points at
    Day, // the day of the row
    NotMeasured, // what an export says about the row's evidence
    WorkedOut, // a derived field: the program works it out itself
    LeftOut, // by the person's wish, or because it has no heading
    Unknown
};

struct MappedColumn {
    QString heading; // as it stands in the table
    ColumnUse use = ColumnUse::Unknown;
    int field = -1; // index in Catalogue::printFields(), for Field and WorkedOut
    QString unit; // of the numbers in the column; empty: the field's own
    QString says; // why it is not imported, or what is wrong with it; one sentence
    bool fault = false; // nothing can be imported until this is put right
};

struct ImportMapping {
    std::vector<MappedColumn> columns; // one for each heading, in their order

    [[nodiscard]] int columnOf(int field) const; // -1 when the table has no such column
    [[nodiscard]] int columnFor(ColumnUse use) const; // the first, or -1
    [[nodiscard]] QStringList faults() const; // one sentence each
    [[nodiscard]] QStringList
    notImported() const; // what is not read and why; those that are worked out in one sentence
};

/// Heading to key, as a person says it: a print field's key, "date", "not_measured", or "" to leave the column out.
using HeadingChoices = QHash<QString, QString>;

/// Never fails: what is wrong stands in the mapping. A choice for a heading that the table does not have is a fault
/// too.
[[nodiscard]] ImportMapping mapHeadings(
    const QStringList& headings, const Catalogue& catalogue, const HeadingChoices& choices = {});

/// True when a table may carry the field: recorded, and either of the print itself or of a record that it points at.
[[nodiscard]] bool isImportable(const Field& field);

/// Letters and digits in lower case: how headings are compared.
[[nodiscard]] QString foldedHeading(const QString& heading);

} // namespace washfast::exchange
