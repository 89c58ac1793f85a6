#include "core/store/file_hold.h"

#include <QFile>
#include <QFileInfo>
#include <algorithm>
#include <cerrno>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

namespace washfast::store {

namespace {

QString decoded(const QByteArray& name)
{
    return QFile::decodeName(name);
}

/// Whether a name leads nowhere, rather than that one may not look.
bool leadsNowhere(const QString& path)
{
    struct stat status { };
    return ::stat(QFile::encodeName(path).constData(), &status) != 0 && (errno == ENOENT || errno == ENOTDIR);
}

constexpr const char* logEnding = "-wal";
constexpr const char* indexEnding = "-shm";

} // namespace

FileHold::FileHold(sqlite3* handle, const QString& given)
    : given_(QFileInfo(given).absoluteFilePath()) // the working folder may change
{
    if (const char* name = sqlite3_db_filename(handle, "main"))
        name_ = name;
    if (name_.isEmpty())
        return;
    const auto opened = file_locks::openedAs(name_);
    file_ = fileIdOf(decoded(name_));
    if (!opened.empty() && (!file_ || std::find(opened.begin(), opened.end(), *file_) == opened.end()))
        file_ = opened.front(); // replaced in between: look() will tell
}

/// Whether the side file is still the one that SQLite has open. It is opened later than the notebook's file, and there
/// is none in some ways of opening.
bool FileHold::lookAtSideFile(const QByteArray& name, std::optional<FileId>& known) const
{
    if (known)
        return known == fileIdOf(decoded(name));
    const auto opened = file_locks::openedAs(name);
    if (opened.empty())
        return true;
    const auto there = fileIdOf(decoded(name));
    if (!there || std::find(opened.begin(), opened.end(), *there) == opened.end())
        return false;
    known = there;
    return true;
}

FileHold::Found FileHold::lookAtNames()
{
    for (const auto& name : { decoded(name_), given_ }) {
        const auto there = fileIdOf(name);
        if (!there && leadsNowhere(name))
            return Found::FileGone;
        if (there && there != file_)
            return Found::Replaced;
    }
    if (!lookAtSideFile(name_ + logEnding, log_) || !lookAtSideFile(name_ + indexEnding, index_))
        return Found::LogGone;
    return Found::Ours;
}

FileHold::Found FileHold::look()
{
    if (!file_)
        return Found::Ours;
    if (const auto names = lookAtNames(); names != Found::Ours)
        return names;
    if (overwritten())
        return Found::Overwritten;
    for (const auto& file : { file_, index_ })
        if (file && file_locks::held(*file) == file_locks::Held::NotAll)
            return Found::LocksGone;
    return Found::Ours;
}

bool FileHold::isOurs()
{
    const auto found = look();
    if (found != Found::LocksGone)
        return found == Found::Ours;
    // The index first: whoever opens the notebook asks there whether it is in use. The names are looked at when the
    // locks are back, since until then another program may have removed the log.
    for (const auto& file : { index_, file_ })
        if (file && file_locks::held(*file) == file_locks::Held::NotAll && !file_locks::retake(*file))
            return false;
    return look() == Found::Ours;
}

bool FileHold::isLostHere(const QString& path)
{
    const auto file = fileIdOf(path);
    const auto real = QFile::encodeName(QFileInfo(path).canonicalFilePath());
    if (!file || !file_locks::isOpen(*file))
        return false;
    // Not the index: SQLite removes it a moment before it closes it.
    const auto there = fileIdOf(decoded(real + logEnding));
    const auto opened = file_locks::openedAs(real + logEnding);
    return std::any_of(opened.begin(), opened.end(), [&](const FileId& one) { return one != there; });
}

/// The log's index says how far the log has been copied into the file; it is written before and after each copying
/// (sqlite.org/walformat.html, section 2.1: salts at byte 32, nBackfill at 96, nBackfillAttempted at 128). Nothing
/// while somebody is copying.
std::optional<FileHold::Written> FileHold::written() const
{
    constexpr qint64 headBytes = 100;
    constexpr qint64 saltsAt = 32, saltsBytes = 8, copiedAt = 96, attemptedAt = 128, numberBytes = 4;
    const auto copied = [this]() -> QByteArray {
        const auto salts = file_locks::peek(*index_, saltsAt, saltsBytes);
        const auto done = file_locks::peek(*index_, copiedAt, numberBytes);
        const auto attempted = file_locks::peek(*index_, attemptedAt, numberBytes);
        const bool quiet = salts && done && attempted && done->size() == numberBytes && *done == *attempted;
        return quiet ? *salts + *done : QByteArray();
    };
    const auto before = copied();
    const auto head = file_locks::peek(*file_, 0, headBytes);
    const auto size = file_locks::sizeOf(*file_);
    if (before.isEmpty() || !head || !size || copied() != before)
        return std::nullopt;
    return Written { *head, *size, before };
}

/// With a log, SQLite writes into the file only what it copies from there.
bool FileHold::overwritten()
{
    if (!index_)
        return false;
    const auto now = written();
    if (!now)
        return false;
    if (written_ && written_->copied == now->copied && *now != *written_)
        return true;
    written_ = now;
    return false;
}

std::optional<FileHold::Log> FileHold::log() const
{
    constexpr qint64 headBytes = 32;
    if (!log_)
        return std::nullopt;
    return Log { decoded(name_ + logEnding), *log_, file_locks::peek(*log_, 0, headBytes).value_or(QByteArray()) };
}

void FileHold::Log::removeIfThere() const
{
    if (fileIdOf(path) != file)
        return;
    // Not only by its number, which another file may have by now.
    const auto held = file_locks::peek(file, 0, head.size());
    QFile there(path);
    if (!held && !there.open(QIODevice::ReadOnly))
        return;
    if ((held ? *held : there.read(head.size())) == head)
        QFile::remove(path);
}

} // namespace washfast::store
