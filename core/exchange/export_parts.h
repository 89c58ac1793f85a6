// What the kinds of exported files share. Used by export*.cpp, report*.cpp and core/report only.
#pragma once

#include "core/exchange/export.h"

namespace washfast::exchange {

[[nodiscard]] Result<QStringList> exportCsv(const ExportSelection& selection, const QString& path);
[[nodiscard]] Result<QStringList> exportJson(const ExportSelection& selection, const QString& path);
[[nodiscard]] Result<QStringList> exportWorkbook(const ExportSelection& selection, const QString& path);

/// Columns of a table that a file shows: neither hidden nor without any value in these rows.
[[nodiscard]] std::vector<const Field*> shownColumns(
    const ExportSelection& selection, Entity entity, const std::vector<int>& rows);
/// All values of a print that are exported.
[[nodiscard]] std::vector<Known> printValues(const ExportSelection& selection, const PrintReader& reader, int print);
/// The name of what a link points at; other values as they are.
[[nodiscard]] Known named(const Notebook& notebook, const Field& field, const Known& known);
/// Replaces files only when each of them is complete.
[[nodiscard]] Outcome writeFiles(const std::vector<std::pair<QString, QByteArray>>& files);

} // namespace washfast::exchange
