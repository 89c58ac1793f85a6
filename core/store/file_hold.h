// What a connection leans on outside itself: the notebook's file under its name, the log ("-wal") and the index of the
// log ("-shm") that SQLite has open, and the locks on them. A person or a program may move, replace, overwrite or
// remove any of them while it is open; whoever goes on writing then writes where nobody will look, or over what others
// have written. look() tells, before every commit and twice a second.
#pragma once

#include "core/store/file_locks.h"

struct sqlite3;

namespace washfast::store {

class FileHold {
public:
    enum class Found {
        Ours, // or nothing else is known
        LocksGone, // all files are where they were
        LogGone, // removed, or another one is in its place
        FileGone, // removed, renamed or moved
        Replaced, // another file has its name
        Overwritten // the same file, but what is in it has not come through SQLite
    };

    /// `given` is the name that the person knows it by.
    FileHold(sqlite3* handle, const QString& given);

    /// Costs less than 0.1 ms.
    [[nodiscard]] Found look();
    /// Takes locks again when it is only they that are gone. True when all is ours then.
    [[nodiscard]] bool isOurs();

    /// Whether a connection of this process still works with a log that is not beside the file any more. SQLite would
    /// give a further connection the index of that log.
    [[nodiscard]] static bool isLostHere(const QString& path);

    /// The notebook's file as it was opened.
    [[nodiscard]] std::optional<FileId> file() const { return file_; }
    /// A log beside a notebook, so that it can be known again.
    struct Log {
        QString path;
        FileId file;
        QByteArray head; // holds random numbers of its own (sqlite.org/fileformat2.html, section 4.1)
        /// Removes it if it is still there: it belongs to a file that is not, and would be played into the one that is.
        void removeIfThere() const;
    };
    /// Its own, where there is one and it has been seen.
    [[nodiscard]] std::optional<Log> log() const;

private:
    [[nodiscard]] Found lookAtNames();
    [[nodiscard]] bool lookAtSideFile(const QByteArray& name, std::optional<FileId>& known) const;
    [[nodiscard]] bool overwritten();

    /// What can be seen of the file without SQLite, and how much of the log had been copied into it by then.
    struct Written {
        QByteArray head; // the file's first bytes
        qint64 size = 0;
        QByteArray copied;
        friend bool operator==(const Written&, const Written&) = default;
    };
    [[nodiscard]] std::optional<Written> written() const;

    QString given_;
    QByteArray name_; // as SQLite writes it
    std::optional<FileId> file_, log_, index_;
    std::optional<Written> written_;
};

} // namespace washfast::store
