// Locks on the files that SQLite has open which nobody but SQLite can drop. Those that SQLite takes on Unix belong to
// the process, and the system drops all of them as soon as the process closes any descriptor of the file: one that a
// file dialog opened to tell its kind is enough. Another program then takes the notebook's log for left over and
// removes it under the window. Here they belong to the open file description instead (fcntl(2), "Open file description
// locks"); towards other processes, also those with locks of the old kind, they count the same.
//
// SQLite has one set of system calls for the whole process, so that this is one for the process, too. SQLite takes and
// gives back the locks of one file through any of its descriptors; all of them go to one duplicate here, which is kept
// until SQLite has closed its last. What the system cannot do stays as SQLite has it.
#pragma once

#include <QByteArray>
#include <QString>
#include <compare>
#include <optional>
#include <vector>

namespace washfast::store {

/// A file, whatever its names are.
struct FileId {
    quint64 device = 0, inode = 0;
    friend auto operator<=>(const FileId&, const FileId&) = default;
};

/// What a name leads to; nothing when it leads nowhere.
[[nodiscard]] std::optional<FileId> fileIdOf(const QString& path);
/// Also by another name of it. Neither is opened.
[[nodiscard]] bool isSameFile(const QString& a, const QString& b);

namespace file_locks {

enum class Held { All, NotAll, NotKnown };

/// Before the first connection; does nothing when it is done already.
void install();

/// Whether the system still has the locks that SQLite has taken on this file. About 0.02 ms.
[[nodiscard]] Held held(FileId file);
/// Takes them again. False when somebody else has come between.
[[nodiscard]] bool retake(FileId file);

/// Whether SQLite has the file open in this process.
[[nodiscard]] bool isOpen(FileId file);
/// What it has opened in this process by this name, as SQLite writes it, and still has open.
[[nodiscard]] std::vector<FileId> openedAs(const QByteArray& name);
/// Reads of a file that SQLite has open, through a descriptor of it: nothing is opened or closed. Fewer bytes than
/// asked for where it ends; nothing when it is not open.
[[nodiscard]] std::optional<QByteArray> peek(FileId file, qint64 from, qint64 count);
/// Its size in bytes, likewise.
[[nodiscard]] std::optional<qint64> sizeOf(FileId file);

} // namespace file_locks

} // namespace washfast::store
