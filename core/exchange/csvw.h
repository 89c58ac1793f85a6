// The data dictionary of an exported table, as a metadata document of CSV on the Web. Sources, both W3C Recommendations
// of 17 December 2015: Metadata Vocabulary for Tabular Data (sections 5.1 to 5.11) and Model for Tabular Data and
// Metadata on the Web (section 5 for where the document is looked for, 6.4 for formats). Column names follow RFC
// 6570, section 2.3.
//
// The unit of a column is an annotation of our choosing, since the vocabulary has none: the common property
// `schema:unitText` (schema.org, "a string or text indicating the unit of measurement"), with the unit as people write
// it. Whether a value was measured, estimated or assumed is data and belongs into columns, not here.
#pragma once

#include "core/quantity/result.h"

#include <QByteArray>
#include <QChar>
#include <QJsonObject>
#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

namespace washfast::exchange {

struct CsvwColumn {
    QString name {}; // see csvwColumnName
    QStringList titles {}; // the heading in the file first
    QString datatype = QStringLiteral("string"); // one of csvwDatatypes
    QString format {}; // of dates, numbers and yes|no; a regular expression for texts; empty for the datatype's own
    QStringList choices {}; // the texts that may stand in it; becomes the format of a text column
    QString list_separator {}; // between the items of one cell, such as "; "; empty when a cell is one value
    std::optional<double> minimum {}, maximum {}; // hard limits, for numbers only
    QString unit {}, description {};
    bool required = false; // no cell may be empty
};

struct CsvwTable {
    QString url; // of the CSV file, relative to the metadata document
    QString title, description;
    QString language = QStringLiteral("en"); // BCP 47, of titles and descriptions
    QChar separator = u',';
    std::vector<CsvwColumn> columns;
    QStringList primary_key; // column names
};

/// The names that section 5.11.1 of the vocabulary lists.
[[nodiscard]] const QStringList& csvwDatatypes();

/// RFC 6570 varname, not starting with the underscore that the vocabulary keeps for itself.
[[nodiscard]] bool isCsvwColumnName(const QString& name);

/// A column name for a heading: letters, digits and _ stay, everything else is percent-encoded.
[[nodiscard]] QString csvwColumnName(const QString& heading);

/// prints.csv -> prints.csv-metadata.json, where readers look first.
[[nodiscard]] QString csvwMetadataFileName(const QString& table_file_name);

/// What is wrong with a table, one sentence each; empty when it can be described.
[[nodiscard]] QStringList csvwFaults(const CsvwTable& table);

/// A document for one table, or an error of code BadInput that says what is wrong.
[[nodiscard]] Result<QJsonObject> csvwDocument(const CsvwTable& table);
/// A document for several tables of one export; the language is that of the first.
[[nodiscard]] Result<QJsonObject> csvwDocument(const std::vector<CsvwTable>& tables, const QString& title = {});

/// The bytes of a document, indented.
[[nodiscard]] QByteArray csvwBytes(const QJsonObject& document);

} // namespace washfast::exchange
