// What the kinds of exported files share. Used by export*.cpp, report*.cpp and core/report only.
#pragma once

#include "core/exchange/export.h"

namespace washfast::exchange {

using MadeFiles = Result<std::vector<files::FileToWrite>>;
[[nodiscard]] MadeFiles makeCsv(const ExportSelection& selection, const QString& path);
[[nodiscard]] MadeFiles makeJson(const ExportSelection& selection, const QString& path);
[[nodiscard]] MadeFiles makeWorkbook(const ExportSelection& selection, const QString& path);

/// Columns of a table that a file shows: neither hidden nor without any value in these rows.
[[nodiscard]] std::vector<const Field*> shownColumns(
    const ExportSelection& selection, Entity entity, const std::vector<int>& rows);
/// All values of a print that are exported.
[[nodiscard]] std::vector<Known> printValues(const ExportSelection& selection, const PrintReader& reader, int print);
/// The name of what a link points at; other values as they are.
[[nodiscard]] Known named(const Notebook& notebook, const Field& field, const Known& known);

} // namespace washfast::exchange
