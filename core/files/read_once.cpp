#include "core/files/read_once.h"

#include "core/files/words.h"

#include <QFile>
#include <QFileInfo>
#include <algorithm>
#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace washfast::files {

namespace {

QString place(const QString& path)
{
    return isStandardStream(path) ? Words::tr("standard input") : path;
}

Error openingFailed(int number, const QString& path)
{
    switch (number) {
    case ENOENT:
    case ENOTDIR:
        return { Trouble::NotFound, Words::tr("There is no such file."), path };
    case EACCES:
    case EPERM:
        return { Trouble::ReadOnly, Words::tr("This file may not be read."), path };
    default:
        return { Trouble::Failed, Words::tr("This file cannot be opened: %1.").arg(qt_error_string(number)), path };
    }
}

} // namespace

bool isStandardStream(const QString& path)
{
    return path == QLatin1String("-");
}

QString spokenName(const QString& path)
{
    return isStandardStream(path) ? Words::tr("standard input") : QFileInfo(path).fileName();
}

QString spokenSize(qint64 bytes)
{
    return Words::tr("%1 MB").arg(QString::number(double(bytes) / (1 << 20), 'g', 4));
}

OpenFile::OpenFile(int handle, bool owned, bool on_disk, qint64 size, QString path)
    : handle_(handle)
    , owned_(owned)
    , on_disk_(on_disk)
    , size_(size)
    , path_(std::move(path))
{
}

OpenFile::OpenFile(OpenFile&& other) noexcept
    : handle_(std::exchange(other.handle_, -1))
    , owned_(other.owned_)
    , on_disk_(other.on_disk_)
    , ended_(other.ended_)
    , size_(other.size_)
    , path_(std::move(other.path_))
    , begun_(std::move(other.begun_))
{
}

OpenFile::~OpenFile()
{
    if (owned_ && handle_ >= 0)
        ::close(handle_);
}

Result<OpenFile> OpenFile::open(const QString& path, From from)
{
    const bool stream = from == From::Anywhere && isStandardStream(path);
    // Without O_NONBLOCK the opening of a pipe waits for its writer, which a window cannot do.
    const int flags = O_RDONLY | O_CLOEXEC | O_NOCTTY | (from == From::DiskOnly ? O_NONBLOCK : 0);
    const int handle = stream ? STDIN_FILENO : ::open(QFile::encodeName(path).constData(), flags);
    if (handle < 0)
        return openingFailed(errno, path);
    struct stat about { };
    const bool known = ::fstat(handle, &about) == 0;
    const int trouble = errno;
    OpenFile file(handle, !stream, known && S_ISREG(about.st_mode), 0, stream ? place(path) : path);
    if (!known)
        return openingFailed(trouble, file.path_);
    if (S_ISDIR(about.st_mode))
        return Error { Trouble::BadInput, Words::tr("This is a folder, not a file."), file.path_ };
    if (from == From::DiskOnly && !file.on_disk_)
        return Error { Trouble::BadInput, Words::tr("This is a pipe or a device, not a file."), file.path_ };
    if (file.on_disk_)
        file.size_ = about.st_size;
    return file;
}

Outcome OpenFile::readTo(qint64 bytes)
{
    constexpr qsizetype atOnce = 1 << 20;
    while (!ended_ && begun_.size() < bytes) {
        const auto before = begun_.size();
        const auto wanted = std::min<qint64>(atOnce, bytes - before);
        begun_.resize(before + qsizetype(wanted));
        ssize_t got = 0;
        do {
            got = ::read(handle_, begun_.data() + before, size_t(wanted));
        } while (got < 0 && errno == EINTR);
        const int trouble = errno;
        begun_.resize(before + qsizetype(std::max<ssize_t>(got, 0)));
        if (got < 0)
            return Error { Trouble::Failed,
                Words::tr("This file could not be read to its end: %1.").arg(qt_error_string(trouble)), path_ };
        ended_ = got == 0;
    }
    return Done {};
}

Result<QByteArray> OpenFile::start(qsizetype bytes)
{
    if (auto read = readTo(bytes); !read)
        return read.error();
    return begun_.left(bytes);
}

Result<QByteArray> OpenFile::all(qint64 most)
{
    const qint64 limit = on_disk_ ? most : std::min(most, mostFromPipe);
    const auto tooMuch = [&] {
        return Error { Trouble::BadInput,
            Words::tr("It holds more than %1, which is the most that is read.").arg(spokenSize(limit)), path_ };
    };
    if (size_ > limit)
        return tooMuch();
    begun_.reserve(qsizetype(size_ + 1));
    if (auto read = readTo(limit + 1); !read)
        return read.error();
    if (begun_.size() > limit)
        return tooMuch();
    return std::move(begun_);
}

Result<QByteArray> readOnce(const QString& path, qint64 most, From from)
{
    auto file = OpenFile::open(path, from);
    if (!file)
        return file.error();
    return file->all(most);
}

} // namespace washfast::files
