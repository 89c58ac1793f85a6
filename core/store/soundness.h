// Whether a notebook's file is whole: SQLite's own check of its pages and indexes, and rows that point at rows which
// are not there.
//
//     const auto look = wholeLook(path);
//     if (look && look->damaged()) ... look->fault
#pragma once

#include "core/store/notebook_file.h"

#include <stop_token>

namespace washfast::store {

/// Looks through the tables as far as the time allows, the prints first: their pages and the order of their rows, not
/// the indexes (PRAGMA quick_check). `most_ms` is kept to within a few milliseconds.
[[nodiscard]] Look quickLook(Connection& connection, int most_ms);
/// Looks at everything, photos included (PRAGMA integrity_check): about 3 s for 100,000 prints, and as long as the disk
/// takes to read the file.
[[nodiscard]] Look wholeLook(Connection& connection, const std::stop_token& stop = {});
/// The same by a connection of its own that only reads: may run in another thread. Error: the file cannot be opened.
[[nodiscard]] Result<Look> wholeLook(const QString& path, const std::stop_token& stop = {});

/// "ok", or what is wrong with the file in a few words. (A link to a row that is only hidden is no fault of the file.)
[[nodiscard]] Result<QString> soundness(NotebookFile& file);

} // namespace washfast::store
