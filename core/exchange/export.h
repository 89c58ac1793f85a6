// A term's prints, or all of them, written to a file for others to read:
//
//     .xlsx   a workbook: prints, sessions, mixes, readings, a chart, the data dictionary
//     .csv    one row a print, ISO dates, UTF-8; beside it NAME.csv-metadata.json says what each column is
//     .json   the same contents with the catalogue's keys
//
// Recorded and worked-out fields are written when any print has a value. Not recorded is an empty cell. What was
// estimated or assumed stands in a column `not_measured`. A CSV file can be imported again and gives the same records;
// texts that a spreadsheet would run as formulas are guarded (delimited.h).
// Photos, their places and file names are never written, makers are codes.
#pragma once

#include "core/files/write_aside.h"
#include "core/quantity/result.h"
#include "core/trial/print_reader.h"

#include <QJsonValue>

namespace washfast::exchange {

/// What goes into a file.
struct ExportSelection {
    const Notebook* notebook = nullptr;
    QString term; // empty: everything
    std::vector<int> prints; // rows of the print table
    std::vector<int> fields; // indices of print fields that any of these prints has
    std::vector<int> sessions, mixes, readings; // rows of their tables

    [[nodiscard]] const Catalogue& catalogue() const { return notebook->catalogue(); }
    [[nodiscard]] const Field& field(size_t i) const { return catalogue().printFields()[size_t(fields[i])]; }
};

/// Error NotFound when there is no such term; it names those that there are.
[[nodiscard]] Result<ExportSelection> selectForExport(const Notebook& notebook, const std::optional<QString>& term);

struct ExportDone {
    int prints = 0;
    QStringList files; // that were written
};

/// What would be written at this path, of the kind that its ending names: the file first, then what goes beside it.
/// Errors: BadInput (another ending), NoSpace, Failed.
[[nodiscard]] Result<std::vector<files::FileToWrite>> makeExport(const ExportSelection& selection, const QString& path);

/// Makes the files and writes them. An older file of that name is replaced only by a complete one, and only if
/// `existing` says so. Errors: those of makeExport() and of files::writeFiles().
[[nodiscard]] Result<ExportDone> exportPrints(
    const ExportSelection& selection, const QString& path, files::Existing existing = files::Existing::Replace);
/// Writes what makeExport() or another maker has made.
[[nodiscard]] Result<ExportDone> writeExport(
    const ExportSelection& selection, const std::vector<files::FileToWrite>& files, files::Existing existing);

/// "coat_volume_ml:estimated; kept:assumed" for the values of one print; `values` in the order of selection.fields.
[[nodiscard]] QString notMeasuredText(const ExportSelection& selection, const std::vector<Known>& values);

/// A number, true or false, an ISO time, a key, a list of keys; null when unknown. A link becomes the name of what it
/// points at.
[[nodiscard]] QJsonValue jsonValue(const Notebook& notebook, const Field& field, const Known& known);

} // namespace washfast::exchange
