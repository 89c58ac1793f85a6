// Opening a notebook's file so that nothing is written, not even beside it.
//
// A file at rest (no log beside it) is opened as one that does not change: SQLite then makes no log and takes no lock.
// Whether it did rest is asked afterwards by stillTheSame(). A file that another program holds open is read beside it,
// through its log.
#pragma once

#include "core/store/migrations.h"

#include <QTemporaryDir>

namespace washfast::store {

/// Which file it is, and when it was last written.
struct FileStamp {
    quint64 device = 0, inode = 0;
    qint64 size = -1, changed_ns = 0;
    friend bool operator==(const FileStamp&, const FileStamp&) = default;
};
[[nodiscard]] FileStamp stampOf(const QString& path);

struct ReadingConnection {
    QString path;
    std::unique_ptr<Connection> connection;
    std::optional<FileStamp> at_rest; // as it was before the file was opened; nothing when it is read through its log

    /// Whether what has been read so far is of one moment.
    [[nodiscard]] bool stillTheSame() const { return !at_rest || *at_rest == stampOf(path); }
};

[[nodiscard]] Result<ReadingConnection> openToRead(const QString& path);

/// A copy of the file that `from` reads, brought up to date by the migrations; the file itself stays as it is. A small
/// one is made in memory, a large one in `scratch`, which is made then and goes away with the copy.
[[nodiscard]] Result<std::unique_ptr<Connection>> upgradedCopy(
    Connection& from, const std::vector<Migration>& migrations, std::unique_ptr<QTemporaryDir>& scratch);

} // namespace washfast::store
