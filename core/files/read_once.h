// A file that somebody named, opened once and read to its end, but never beyond a limit: a table, a photo, a spectrum,
// marks. It may lie on a disk or come from a pipe (`<(command)`, a FIFO); "-" is standard input. What never ends, such
// as a device of zeros, is refused at the limit.
//
//     const auto bytes = files::readOnce(path, 16 << 20);      // Result<QByteArray>
//
// POSIX: open(2), fstat(2), read(2); opening a pipe waits for its writer, as everywhere.
#pragma once

#include "core/quantity/result.h"

#include <QByteArray>
#include <QString>

namespace washfast::files {

/// DiskOnly: "-" is a name like any other and pipes and devices are refused without waiting for them; for windows.
enum class From { Anywhere, DiskOnly };

/// What comes from a pipe or a device is held in memory whole, so that it has a limit of its own, in bytes.
inline constexpr qint64 mostFromPipe = qint64(256) << 20;

[[nodiscard]] bool isStandardStream(const QString& path);

/// The name of a file without its folder, or "standard input"; for sentences.
[[nodiscard]] QString spokenName(const QString& path);

/// "64 MB", of 1,048,576 bytes each.
[[nodiscard]] QString spokenSize(qint64 bytes);

class OpenFile {
public:
    /// Errors: NotFound, ReadOnly (it may not be read), BadInput (a folder; not on a disk), Failed.
    [[nodiscard]] static Result<OpenFile> open(const QString& path, From from = From::Anywhere);
    ~OpenFile();
    OpenFile(OpenFile&& other) noexcept;
    OpenFile& operator=(OpenFile&&) = delete;
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;

    [[nodiscard]] bool onDisk() const { return on_disk_; }
    /// Up to so many of its first bytes, which all() gives too.
    [[nodiscard]] Result<QByteArray> start(qsizetype bytes);
    /// The whole of it. Errors: BadInput, which names the limit, when there is more; Failed.
    [[nodiscard]] Result<QByteArray> all(qint64 most);

private:
    OpenFile(int handle, bool owned, bool on_disk, qint64 size, QString path);
    /// Reads on until `begun_` has so many bytes or the file ends.
    [[nodiscard]] Outcome readTo(qint64 bytes);

    int handle_;
    bool owned_, on_disk_, ended_ = false;
    qint64 size_; // 0 when it is not on a disk
    QString path_;
    QByteArray begun_;
};

/// Opens it and reads all of it.
[[nodiscard]] Result<QByteArray> readOnce(const QString& path, qint64 most, From from = From::Anywhere);

} // namespace washfast::files
