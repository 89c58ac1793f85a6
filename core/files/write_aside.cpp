#include "core/files/write_aside.h"

#include "core/files/words.h"

#include <QDir>
#include <QFile>
#include <QFileInfo>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

namespace washfast::files {

namespace {

const QString asideName = QStringLiteral(".washfast-part-");

QByteArray encoded(const QString& path)
{
    return QFile::encodeName(path);
}

Error writingFailed(int number, const QString& path)
{
    switch (number) {
    case ENOSPC:
    case EDQUOT:
        return { Trouble::NoSpace, Words::tr("The disk is full, so nothing was written."), path };
    case EFBIG:
        return { Trouble::NoSpace, Words::tr("The file would be larger than is allowed here, so it was not written."),
            path };
    case EACCES:
    case EPERM:
    case EROFS:
        return { Trouble::ReadOnly, Words::tr("Nothing can be written here: %1.").arg(qt_error_string(number)), path };
    default:
        return { Trouble::Failed, Words::tr("It could not be written: %1.").arg(qt_error_string(number)), path };
    }
}

Error isThere(const QString& path)
{
    return { Trouble::BadInput, Words::tr("There is a file of this name already."), path };
}

/// Asks the system to put on the disk what it may still hold; not every kind of file system can.
bool settle(int handle)
{
    return ::fsync(handle) == 0 || errno == EINVAL || errno == EROFS || errno == ENOTSUP;
}

void settleFolder(const QString& folder)
{
    if (const int handle = ::open(encoded(folder).constData(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); handle >= 0) {
        (void)settle(handle);
        ::close(handle);
    }
}

/// rename(2) that never replaces. 0, or the number of the error; EEXIST when there is one.
int renameToNew(const QByteArray& from, const QByteArray& to)
{
    if (::renameat2(AT_FDCWD, from.constData(), AT_FDCWD, to.constData(), RENAME_NOREPLACE) == 0)
        return 0;
    if (errno != EINVAL && errno != ENOSYS)
        return errno;
    // A file system that does not know it: a second name is refused when there is one.
    if (::link(from.constData(), to.constData()) != 0)
        return errno;
    ::unlink(from.constData());
    return 0;
}

/// Takes the folder for this process; -1 when another one has it, or when it is gone.
int take(const QString& folder)
{
    const int handle = ::open(encoded(folder).constData(), O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
    if (handle < 0)
        return -1;
    struct stat held {
    }, named {};
    const bool ours = ::flock(handle, LOCK_EX | LOCK_NB) == 0 && ::fstat(handle, &held) == 0
        && ::lstat(encoded(folder).constData(), &named) == 0 && held.st_ino == named.st_ino
        && held.st_dev == named.st_dev && held.st_uid == ::geteuid();
    if (!ours) {
        ::close(handle);
        return -1;
    }
    return handle;
}

} // namespace

std::optional<Error> whyNotWrite(const QString& path, Existing existing)
{
    struct stat about { };
    if (::lstat(encoded(path).constData(), &about) != 0) {
        if (errno != ENOENT && errno != ENOTDIR)
            return writingFailed(errno, path);
        const QString folder = QFileInfo(path).absolutePath();
        if (!QFileInfo(folder).isDir())
            return Error { Trouble::NotFound, Words::tr("There is no such folder."), folder };
        return {};
    }
    const bool link = S_ISLNK(about.st_mode);
    if (link && (::stat(encoded(path).constData(), &about) != 0 || S_ISREG(about.st_mode) || S_ISDIR(about.st_mode)))
        return Error { Trouble::BadInput,
            Words::tr("This is a link to another place, and nothing is written through a link. Name the file itself."),
            path };
    if (S_ISDIR(about.st_mode))
        return Error { Trouble::BadInput, Words::tr("This is a folder, and no file can take its place."), path };
    if (!S_ISREG(about.st_mode))
        return Error { Trouble::BadInput,
            Words::tr("This is a pipe or a device and not a plain file, so nothing is written to it."), path };
    if (existing == Existing::Refuse)
        return isThere(path);
    return {};
}

void removeLeftAside(const QString& path)
{
    const QDir folder(QFileInfo(path).absolutePath());
    for (const auto& name : folder.entryList({ asideName + QLatin1Char('*') }, QDir::Dirs | QDir::Hidden)) {
        const QString left = folder.filePath(name);
        if (const int handle = take(left); handle >= 0) {
            QDir(left).removeRecursively();
            ::close(handle);
        }
    }
}

bool standsThere(const QString& path)
{
    struct stat about { };
    return ::lstat(encoded(path).constData(), &about) == 0 && S_ISREG(about.st_mode);
}

Aside::Aside(QString folder, int lock)
    : folder_(std::move(folder))
    , lock_(lock)
{
}

Aside::~Aside()
{
    QDir(folder_).removeRecursively();
    if (lock_ >= 0)
        ::close(lock_);
}

Result<std::unique_ptr<Aside>> Aside::beside(const QString& path)
{
    removeLeftAside(path);
    const QDir folder(QFileInfo(path).absolutePath());
    // One that looks at what is left over may take the new folder before it is locked: then another is made.
    for (int attempt = 0;; ++attempt) {
        QByteArray name = encoded(folder.filePath(asideName + QStringLiteral("XXXXXX")));
        if (::mkdtemp(name.data()) == nullptr)
            return writingFailed(errno, path);
        const QString made = QFile::decodeName(name);
        const int lock = take(made);
        if (lock >= 0 || attempt > 10) // a file system without such locks: it is written there all the same
            return std::unique_ptr<Aside>(new Aside(made, lock));
        ::rmdir(name.constData());
    }
}

QString Aside::path(const QString& name) const
{
    return folder_ + QLatin1Char('/') + name;
}

Outcome Aside::put(const QString& name, const QByteArray& bytes) const
{
    const int handle
        = ::open(encoded(path(name)).constData(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (handle < 0)
        return writingFailed(errno, name);
    int trouble = 0;
    for (qsizetype at = 0; trouble == 0 && at < bytes.size();) {
        const auto put = ::write(handle, bytes.constData() + at, size_t(bytes.size() - at));
        if (put >= 0)
            at += put;
        else if (errno != EINTR)
            trouble = errno;
    }
    if (trouble == 0 && !settle(handle))
        trouble = errno;
    if (::close(handle) != 0 && trouble == 0 && errno != EINTR)
        trouble = errno;
    if (trouble != 0)
        return writingFailed(trouble, name);
    return Done {};
}

Outcome Aside::moveInto(const QString& name, const QString& target, Existing existing) const
{
    if (auto wrong = whyNotWrite(target, existing))
        return *wrong;
    const auto from = encoded(path(name)), to = encoded(target);
    struct stat older { };
    const bool replaces = ::lstat(to.constData(), &older) == 0;
    if (replaces)
        (void)::chmod(from.constData(), older.st_mode & 07777);
    const int trouble
        = replaces ? (::rename(from.constData(), to.constData()) == 0 ? 0 : errno) : renameToNew(from, to);
    if (trouble == EEXIST)
        return isThere(target);
    if (trouble != 0)
        return writingFailed(trouble, target);
    settleFolder(QFileInfo(target).absolutePath());
    return Done {};
}

Outcome writeFiles(const std::vector<FileToWrite>& files, Existing existing)
{
    const auto about = [](Error error, const QString& path) {
        error.where = path; // not the name aside
        return error;
    };
    for (const auto& file : files)
        if (auto wrong = whyNotWrite(file.path, existing))
            return *wrong;
    std::vector<std::unique_ptr<Aside>> asides;
    for (size_t i = 0; i < files.size(); ++i) {
        auto aside = Aside::beside(files[i].path);
        if (!aside)
            return aside.error();
        asides.push_back(std::move(aside).value());
        if (auto put = asides.back()->put(QStringLiteral("file"), files[i].bytes); !put)
            return about(put.error(), files[i].path);
    }
    for (size_t i = 0; i < files.size(); ++i)
        if (auto moved = asides[i]->moveInto(QStringLiteral("file"), files[i].path, existing); !moved)
            return moved.error();
    return Done {};
}

} // namespace washfast::files
