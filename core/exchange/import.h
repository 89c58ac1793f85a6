// Prints from a table, in four stages that a window or the command line can show one by one:
//
//     DelimitedTable table = readDelimited(bytes);
//     ImportMapping mapping = mapHeadings(table.header, catalogue, choices);     what the headings mean
//     ImportPreview preview = previewImport(table, mapping, notebook, options);  what each row would become, or why not
//     Result<ImportReport> report = applyImport(file, preview, keep_good);       one step, which can be undone
//
// A row is refused with the line, the heading and the reason. Nothing is imported while a row is refused, unless the
// person wants the good ones. A row that was imported before is recognised and passed over: by its mark (a digest of
// its contents), or by a print of the same code that holds all that the row says. A table without codes gets some made:
// the session's code and a running number.
//
// What a table says about sessions, mixes, papers, covers and the like is written when the record is made by this
// import or does not hold anything there yet; a record that says something else refuses the row.
#pragma once

#include "core/exchange/delimited.h"
#include "core/exchange/import_mapping.h"
#include "core/exchange/import_records.h"
#include "core/store/notebook_file.h"

#include <QTimeZone>

namespace washfast::exchange {

struct ImportOptions {
    QTimeZone zone = QTimeZone::systemTimeZone(); // of times without an offset
    bool any_size = false; // also numbers outside the plausible range
    /// Fields that every row gets, by key, as they would be typed: for what the table has no column for.
    std::vector<std::pair<QString, QString>> every_row;
};

struct Refusal {
    qsizetype line = 0; // where the row starts in the file, from 1
    QString heading; // empty when it is about the whole row
    QString says; // one sentence

    [[nodiscard]] QString sentence() const; // "Line 7, Tool: ..."
};

/// A row of a child table (a bath, a reading) that belongs to the print.
struct PlannedChild {
    Entity entity = Entity::Bath;
    std::vector<store::FieldValue> values;
    std::vector<std::pair<QString, int>> links; // column, and index into ImportPreview::records
};

struct ImportRow {
    enum class State { New, AlreadyThere, Refused };
    State state = State::New;
    qsizetype line = 0;
    QString code; // as typed, or as it will be made
    QString mark;
    std::vector<std::pair<int, Known>> values; // index of the print field, and what the row says
    std::vector<Refusal> refusals; // Refused only

    // What is written for a New row.
    std::vector<store::FieldValue> own;
    std::vector<std::pair<QString, int>> links;
    std::vector<PlannedChild> children;
};

struct ImportPreview {
    ImportMapping mapping;
    std::vector<ImportRow> rows; // in the order of the table
    std::vector<LinkedRecord> records; // that rows point at; those not `used` are not written
    QStringList faults; // nothing can be imported while there are any; one sentence each
    QStringList warnings;

    [[nodiscard]] int count(ImportRow::State state) const;
    [[nodiscard]] std::vector<Refusal> refusals() const; // of all rows, in order
};

/// Never fails and never writes. `notebook` has to hold every print of the file.
[[nodiscard]] ImportPreview previewImport(const DelimitedTable& table, const ImportMapping& mapping,
    const Notebook& notebook, const ImportOptions& options = {});

struct ImportReport {
    int imported = 0;
    int already_there = 0;
    int refused = 0;
    qint64 step = 0; // 0: nothing was written
};

/// Writes the rows that are new, as one step with this label. Errors: BadInput when rows are refused and not
/// `keep_good`, or the mapping has faults; Conflict when somebody else has changed a record since the preview.
[[nodiscard]] Result<ImportReport> applyImport(
    store::NotebookFile& file, const ImportPreview& preview, bool keep_good, const QString& label);

} // namespace washfast::exchange
