// Opening a notebook for a verb.
#pragma once

#include "core/files/write_aside.h"
#include "core/store/notebook_file.h"
#include "core/trial/filter.h"
#include "core/trial/print_columns.h"

#include <functional>

namespace washfast::cli {

enum class Open { MustExist, MayBeNew };

/// Keeps what the notebook leans on together.
struct OpenedNotebook {
    std::unique_ptr<Catalogue> catalogue;
    std::unique_ptr<store::NotebookFile> file;
    std::unique_ptr<Notebook> records; // only after readRecords()

    [[nodiscard]] Outcome readRecords();
};

/// What is said of a notebook that comes from a pipe, a device or standard input.
[[nodiscard]] Error notOnDisk(const QString& path);

[[nodiscard]] Result<OpenedNotebook> openNotebook(const QString& path, Open how = Open::MustExist);

/// Makes a new notebook aside and moves it into place when `work` is done, so that nothing of it stays when it is not,
/// nor when the process is killed. The errors are about `path`.
[[nodiscard]] Outcome makeNotebook(
    const QString& path, files::Existing existing, const std::function<Outcome(OpenedNotebook&)>& work);

/// The prints that a filter shows, one mark a row; an empty text shows all. The error says where the filter is wrong.
[[nodiscard]] Result<std::vector<char>> printsShown(const PrintColumns& columns, const QString& filter);

} // namespace washfast::cli
