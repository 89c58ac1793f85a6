// One row a print, and the document that says what each column is.
#include "core/exchange/delimited.h"
#include "core/exchange/dictionary.h"
#include "core/exchange/export_parts.h"
#include "core/exchange/words.h"
#include "core/quantity/value_text.h"

#include <QDir>
#include <QFileInfo>

namespace washfast::exchange {

namespace {

Result<QByteArray> describe(const ExportSelection& selection, const QString& path)
{
    CsvwTable table;
    table.url = QFileInfo(path).fileName();
    table.language = Words::language();
    table.title = selection.term.isEmpty() ? Words::tr("Prints") : Words::tr("Prints of %1").arg(selection.term);
    table.description = Words::tr(
        "Blue prints with iron salts (cyanotypes), one row a print. An empty cell was not recorded. Makers and groups "
        "are codes. A text that a spreadsheet would run as a formula has an apostrophe before it.");
    for (size_t i = 0; i < selection.fields.size(); ++i)
        table.columns.push_back(csvwColumn(selection.field(i)));
    table.columns.push_back(notMeasuredColumn());
    const auto document = csvwDocument(table);
    if (!document)
        return document.error();
    return csvwBytes(*document);
}

} // namespace

MadeFiles makeCsv(const ExportSelection& selection, const QString& path)
{
    DelimitedWriter writer;
    QStringList headings;
    for (size_t i = 0; i < selection.fields.size(); ++i)
        headings << selection.field(i).key;
    writer.header(headings << notMeasuredHeading());
    const PrintReader reader(*selection.notebook);
    for (const int print : selection.prints) {
        const auto values = printValues(selection, reader, print);
        std::vector<DelimitedCell> cells;
        for (size_t i = 0; i < values.size(); ++i) {
            const auto& field = selection.field(i);
            if (!values[i].has())
                cells.emplace_back();
            else if (field.kind == Kind::Number)
                cells.push_back(DelimitedCell::number(values[i].number()));
            else
                cells.push_back(DelimitedCell::text(isoText(field, values[i].value)));
        }
        cells.push_back(DelimitedCell::text(notMeasuredText(selection, values)));
        writer.row(cells);
    }
    const auto document = describe(selection, path);
    if (!document)
        return document.error();
    const QString beside = QFileInfo(path).dir().filePath(csvwMetadataFileName(QFileInfo(path).fileName()));
    return std::vector<files::FileToWrite> { { path, writer.bytes() }, { beside, *document } };
}

} // namespace washfast::exchange
