// Opening a notebook for a verb.
#pragma once

#include "core/store/notebook_file.h"
#include "core/trial/filter.h"
#include "core/trial/print_columns.h"

namespace washfast::cli {

enum class Open { MustExist, MayBeNew };

/// Keeps what the notebook leans on together.
struct OpenedNotebook {
    std::unique_ptr<Catalogue> catalogue;
    std::unique_ptr<store::NotebookFile> file;
    std::unique_ptr<Notebook> records; // only after readRecords()

    [[nodiscard]] Outcome readRecords();
};

[[nodiscard]] Result<OpenedNotebook> openNotebook(const QString& path, Open how = Open::MustExist);

/// The prints that a filter shows, one mark a row; an empty text shows all. The error says where the filter is wrong.
[[nodiscard]] Result<std::vector<char>> printsShown(const PrintColumns& columns, const QString& filter);

} // namespace washfast::cli
