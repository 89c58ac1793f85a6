// Files are written aside, in a folder of their own beside the place they are meant for, and moved into it when they
// are whole: whatever goes wrong, an older file of that name stays as it was, and a process that is killed leaves
// nothing that could be taken for the file. What a killed one left aside is removed by the next one that writes there.
//
// Never written: through a symbolic link (which would change a file that was not named), nor onto a folder, a pipe or a
// device.
//
// Linux: renameat2(2) with RENAME_NOREPLACE, flock(2) on the folder aside, which tells one in use from one left over.
#pragma once

#include "core/quantity/result.h"

#include <QByteArray>
#include <QString>
#include <memory>
#include <optional>
#include <vector>

namespace washfast::files {

/// What becomes of a file that is there already. Replace is for where the person has said so.
enum class Existing { Refuse, Replace };

/// Why no file can be written at this path; empty when nothing that can be seen speaks against it.
[[nodiscard]] std::optional<Error> whyNotWrite(const QString& path, Existing existing);

/// Removes what processes that were killed have left aside in the folder of this path. Everything here that writes does
/// so by itself.
void removeLeftAside(const QString& path);

/// True when a plain file stands there.
[[nodiscard]] bool standsThere(const QString& path);

struct FileToWrite {
    QString path;
    QByteArray bytes;
};

/// Every one is made ready before the first is moved into its place. Errors: BadInput, NotFound (no such folder),
/// ReadOnly, NoSpace, Failed.
[[nodiscard]] Outcome writeFiles(const std::vector<FileToWrite>& files, Existing existing);

/// The folder aside, for what is not written in one piece (a notebook). It goes away with the object.
class Aside {
public:
    /// Beside the file that is to be written at this path.
    [[nodiscard]] static Result<std::unique_ptr<Aside>> beside(const QString& path);
    ~Aside();
    Aside(const Aside&) = delete;
    Aside& operator=(const Aside&) = delete;

    /// Path of a file in it.
    [[nodiscard]] QString path(const QString& name) const;
    [[nodiscard]] Outcome put(const QString& name, const QByteArray& bytes) const;
    /// Moves a whole file to its place; a file that is replaced hands on who may read it.
    [[nodiscard]] Outcome moveInto(const QString& name, const QString& target, Existing existing) const;

private:
    Aside(QString folder, int lock);

    QString folder_;
    int lock_; // a descriptor, or -1
};

} // namespace washfast::files
