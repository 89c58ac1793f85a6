#include "core/store/file_locks.h"

#include "core/store/lock_ranges.h"

#include <QFile>
#include <algorithm>
#include <cerrno>
#include <cstdarg>
#include <fcntl.h>
#include <map>
#include <mutex>
#include <pthread.h>
#include <sqlite3.h>
#include <string>
#include <sys/stat.h>
#include <unistd.h>
#include <unordered_map>

namespace washfast::store {

namespace {

static_assert(sizeof(off_t) == 8, "struct flock must be the one that SQLite was compiled with");

constexpr int firstOwnDescriptor = 3; // those below are the standard streams

FileId idFrom(const struct stat& status)
{
    return { quint64(status.st_dev), quint64(status.st_ino) };
}

struct flock lockOn(const LockRange& range)
{
    struct flock lock { };
    lock.l_type = range.writing ? F_WRLCK : F_RDLCK;
    lock.l_whence = SEEK_SET;
    lock.l_start = range.first;
    lock.l_len = range.last == LockRanges::toTheEnd ? 0 : range.last - range.first + 1;
    return lock;
}

/// What SQLite would call, or whoever has put themselves there before.
struct SystemCalls {
    int (*open)(const char*, int, int) = nullptr;
    int (*close)(int) = nullptr;
    int (*fcntl)(int, int, ...) = nullptr;
};

/// One that SQLite has opened.
struct Descriptor {
    FileId file;
    std::string name; // as SQLite wrote it; empty when it was opened before install()
    bool writable = false;
};

/// What there is about a file that SQLite has open.
struct LockedFile {
    std::vector<int> descriptors; // SQLite's own
    int holder = -1; // our duplicate of one of them, on whose description the locks are
    bool holder_writable = false;
    bool classic = false; // the system has no such locks: SQLite's calls go through as they are
    std::optional<bool> shown; // whether the system lists the locks of this file
    LockRanges ranges; // that SQLite has
};

class LockTable {
public:
    /// One for the process, as SQLite's system calls are. It is never taken down: SQLite may close files at the end.
    static LockTable& ofProcess()
    {
        static auto* table = new LockTable;
        return *table;
    }

    void install();

    int open(const char* name, int flags, int mode);
    int close(int descriptor);
    int lock(int descriptor, int command, struct flock* wanted);
    [[nodiscard]] const SystemCalls& calls() const { return calls_; }

    [[nodiscard]] file_locks::Held held(FileId id);
    [[nodiscard]] bool retake(FileId id);
    [[nodiscard]] std::vector<FileId> openedAs(const std::string& name);
    /// A descriptor of the file for `use`, which is called with the table held. False when it is not open.
    template <typename Use> bool with(FileId id, const Use& use)
    {
        const std::lock_guard guard(mutex_);
        const auto file = files_.find(id);
        if (file == files_.end() || file->second.descriptors.empty())
            return false;
        use(file->second.descriptors.front());
        return true;
    }

    void beforeFork() { mutex_.lock(); }
    void afterFork() { mutex_.unlock(); }
    void inChild();

private:
    LockedFile* fileOf(int descriptor);
    [[nodiscard]] int holderFor(LockedFile& file, int descriptor, bool writing);
    [[nodiscard]] bool put(int descriptor, const LockRange& range);
    [[nodiscard]] LockRanges listed(const LockedFile& file);
    void note(LockedFile& file, const struct flock& done);
    void letGo(LockedFile& file);

    std::mutex mutex_;
    SystemCalls calls_;
    std::unordered_map<int, Descriptor> descriptors_;
    std::map<FileId, LockedFile> files_;
    std::vector<int> inherited_; // came over a fork: their descriptions are the other process's
};

int openForSqlite(const char* name, int flags, int mode)
{
    return LockTable::ofProcess().open(name, flags, mode);
}

int closeForSqlite(int descriptor)
{
    return LockTable::ofProcess().close(descriptor);
}

int fcntlForSqlite(int descriptor, int command, ...)
{
    va_list rest;
    va_start(rest, command);
    auto* argument = va_arg(rest, void*); // as the C library takes it, a number or an address
    va_end(rest);
    auto& table = LockTable::ofProcess();
    if (command == F_SETLK || command == F_SETLKW || command == F_GETLK)
        return table.lock(descriptor, command, static_cast<struct flock*>(argument));
    return table.calls().fcntl(descriptor, command, argument);
}

void LockTable::install()
{
    const std::lock_guard guard(mutex_);
    auto* vfs = calls_.fcntl ? nullptr : sqlite3_vfs_find("unix");
    if (!vfs || vfs->iVersion < 3)
        return;
    calls_.open = reinterpret_cast<decltype(calls_.open)>(vfs->xGetSystemCall(vfs, "open"));
    calls_.close = reinterpret_cast<decltype(calls_.close)>(vfs->xGetSystemCall(vfs, "close"));
    calls_.fcntl = reinterpret_cast<decltype(calls_.fcntl)>(vfs->xGetSystemCall(vfs, "fcntl"));
    if (!calls_.open || !calls_.close || !calls_.fcntl)
        return;
    vfs->xSetSystemCall(vfs, "open", reinterpret_cast<sqlite3_syscall_ptr>(openForSqlite));
    vfs->xSetSystemCall(vfs, "close", reinterpret_cast<sqlite3_syscall_ptr>(closeForSqlite));
    vfs->xSetSystemCall(vfs, "fcntl", reinterpret_cast<sqlite3_syscall_ptr>(fcntlForSqlite));
    pthread_atfork([] { ofProcess().beforeFork(); }, [] { ofProcess().afterFork(); }, [] { ofProcess().inChild(); });
}

/// A child has the descriptions of its parent, and what it would do to their locks it would do to the parent's. What it
/// opens itself is its own.
void LockTable::inChild()
{
    for (auto& [id, file] : files_)
        if (file.holder >= 0)
            calls_.close(file.holder);
    for (const auto& [number, descriptor] : descriptors_)
        inherited_.push_back(number);
    files_.clear();
    descriptors_.clear();
    mutex_.unlock();
}

int LockTable::open(const char* name, int flags, int mode)
{
    const int descriptor = calls_.open(name, flags, mode);
    struct stat status { };
    const std::lock_guard guard(mutex_);
    if (descriptor < 0 || ::fstat(descriptor, &status) != 0)
        return descriptor;
    const auto id = idFrom(status);
    descriptors_[descriptor] = { id, name, (flags & O_ACCMODE) == O_RDWR };
    files_[id].descriptors.push_back(descriptor);
    return descriptor;
}

int LockTable::close(int descriptor)
{
    const std::lock_guard guard(mutex_); // until it is closed: its number may be given out again at once
    std::erase(inherited_, descriptor);
    const auto known = descriptors_.find(descriptor);
    if (known == descriptors_.end())
        return calls_.close(descriptor);
    const auto file = files_.find(known->second.file);
    descriptors_.erase(known);
    std::erase(file->second.descriptors, descriptor);
    const int done = calls_.close(descriptor);
    const int failure = errno;
    if (file->second.descriptors.empty()) {
        letGo(file->second);
        files_.erase(file);
    }
    errno = failure;
    return done;
}

void LockTable::letGo(LockedFile& file)
{
    if (file.holder < 0)
        return;
    // A child that was forked has the description, too: closing alone would leave the locks to it.
    struct flock all { };
    all.l_type = F_UNLCK;
    all.l_whence = SEEK_SET;
    (void)calls_.fcntl(file.holder, F_OFD_SETLK, &all);
    (void)calls_.close(file.holder);
    file.holder = -1;
}

/// The file of a descriptor; nothing for what cannot be known or is another process's.
LockedFile* LockTable::fileOf(int descriptor)
{
    if (std::find(inherited_.begin(), inherited_.end(), descriptor) != inherited_.end())
        return nullptr;
    auto known = descriptors_.find(descriptor);
    if (known == descriptors_.end()) { // opened before install()
        struct stat status { };
        const int mode = calls_.fcntl(descriptor, F_GETFL, nullptr);
        if (mode < 0 || ::fstat(descriptor, &status) != 0)
            return nullptr;
        known = descriptors_.emplace(descriptor, Descriptor { idFrom(status), {}, (mode & O_ACCMODE) == O_RDWR }).first;
        files_[known->second.file].descriptors.push_back(descriptor);
    }
    return &files_[known->second.file];
}

bool LockTable::put(int descriptor, const LockRange& range)
{
    auto wanted = lockOn(range);
    return calls_.fcntl(descriptor, F_OFD_SETLK, &wanted) == 0;
}

/// The descriptor on whose description the locks of the file are; for a lock for writing one that can be written to.
int LockTable::holderFor(LockedFile& file, int descriptor, bool writing)
{
    if (file.holder >= 0 && (file.holder_writable || !writing))
        return file.holder;
    int from = descriptor;
    for (const int other : file.descriptors)
        if (!descriptors_.at(from).writable)
            from = other;
    const int next = calls_.fcntl(from, F_DUPFD_CLOEXEC, firstOwnDescriptor);
    if (next < 0)
        return next;
    if (file.holder >= 0) {
        // What could not be written to has locks for reading only, and those go well with the same ones of the next.
        for (const auto& range : file.ranges)
            if (!put(next, range)) {
                const int failure = errno;
                (void)calls_.close(next);
                errno = failure;
                return -1;
            }
        letGo(file);
    }
    file.holder = next;
    file.holder_writable = descriptors_.at(from).writable;
    return next;
}

int LockTable::lock(int descriptor, int command, struct flock* wanted)
{
    const std::lock_guard guard(mutex_);
    auto* file = fileOf(descriptor);
    if (!file)
        return calls_.fcntl(descriptor, command, wanted);
    int done = -1;
    if (!file->classic) {
        const bool writing = command != F_GETLK && wanted->l_type == F_WRLCK;
        if (writing && !descriptors_.at(descriptor).writable) {
            errno = EBADF; // as the system answers for this descriptor itself
            return -1;
        }
        const int holder = holderFor(*file, descriptor, writing);
        if (holder < 0)
            return -1;
        wanted->l_pid = 0;
        // Never F_OFD_SETLKW: whoever waits here would hold the table. SQLite takes it for a lock that is taken.
        done = calls_.fcntl(holder, command == F_GETLK ? F_OFD_GETLK : F_OFD_SETLK, wanted);
        file->classic = done != 0 && errno == EINVAL && file->ranges.empty();
    }
    if (file->classic) {
        letGo(*file);
        done = calls_.fcntl(descriptor, command, wanted);
    }
    if (done == 0 && command != F_GETLK)
        note(*file, *wanted);
    return done;
}

void LockTable::note(LockedFile& file, const struct flock& done)
{
    const qint64 last = done.l_len == 0 ? LockRanges::toTheEnd : done.l_start + done.l_len - 1;
    if (done.l_type == F_UNLCK)
        file.ranges.clear(done.l_start, last);
    else
        file.ranges.set({ done.l_start, last, done.l_type == F_WRLCK });
    if (!file.shown && !file.ranges.empty())
        file.shown = listed(file).haveAll(file.ranges);
}

/// What the system lists for our descriptors of a file.
LockRanges LockTable::listed(const LockedFile& file)
{
    LockRanges found;
    auto descriptors = file.descriptors;
    if (file.holder >= 0)
        descriptors = { file.holder };
    for (const int descriptor : descriptors) {
        const auto name = "/proc/self/fdinfo/" + std::to_string(descriptor);
        const int info = ::open(name.c_str(), O_RDONLY | O_CLOEXEC);
        if (info < 0)
            continue;
        QByteArray text;
        char buffer[4096];
        for (ssize_t got = 0; (got = ::read(info, buffer, sizeof buffer)) > 0;)
            text.append(buffer, got);
        ::close(info);
        found.addFrom(text);
    }
    return found;
}

file_locks::Held LockTable::held(FileId id)
{
    using enum file_locks::Held;
    const std::lock_guard guard(mutex_);
    const auto file = files_.find(id);
    if (file == files_.end() || !file->second.shown.value_or(false))
        return NotKnown;
    return listed(file->second).haveAll(file->second.ranges) ? All : NotAll;
}

bool LockTable::retake(FileId id)
{
    const std::lock_guard guard(mutex_);
    const auto file = files_.find(id);
    if (file == files_.end())
        return false;
    const auto& locked = file->second;
    return std::all_of(locked.ranges.begin(), locked.ranges.end(), [&](const LockRange& range) {
        if (!locked.classic)
            return put(locked.holder, range);
        auto wanted = lockOn(range);
        return std::any_of(locked.descriptors.begin(), locked.descriptors.end(), [&](int descriptor) {
            return (descriptors_.at(descriptor).writable || !range.writing)
                && calls_.fcntl(descriptor, F_SETLK, &wanted) == 0;
        });
    });
}

std::vector<FileId> LockTable::openedAs(const std::string& name)
{
    const std::lock_guard guard(mutex_);
    std::vector<FileId> found;
    for (const auto& [number, descriptor] : descriptors_)
        if (descriptor.name == name)
            found.push_back(descriptor.file);
    return found;
}

} // namespace

std::optional<FileId> fileIdOf(const QString& path)
{
    struct stat status { };
    if (::stat(QFile::encodeName(path).constData(), &status) != 0)
        return std::nullopt;
    return idFrom(status);
}

bool isSameFile(const QString& a, const QString& b)
{
    const auto one = fileIdOf(a);
    return one && one == fileIdOf(b);
}

namespace file_locks {

void install()
{
    LockTable::ofProcess().install();
}

Held held(FileId file)
{
    return LockTable::ofProcess().held(file);
}

bool retake(FileId file)
{
    return LockTable::ofProcess().retake(file);
}

bool isOpen(FileId file)
{
    return LockTable::ofProcess().with(file, [](int) {});
}

std::vector<FileId> openedAs(const QByteArray& name)
{
    return LockTable::ofProcess().openedAs(name.toStdString());
}

std::optional<QByteArray> peek(FileId file, qint64 from, qint64 count)
{
    QByteArray bytes;
    const bool open = LockTable::ofProcess().with(file, [&](int descriptor) {
        bytes.resize(count);
        const auto got = ::pread(descriptor, bytes.data(), size_t(count), off_t(from));
        bytes.resize(std::max<qsizetype>(got, 0));
    });
    return open ? std::optional(bytes) : std::nullopt;
}

std::optional<qint64> sizeOf(FileId file)
{
    struct stat status { };
    bool told = false;
    (void)LockTable::ofProcess().with(file, [&](int descriptor) { told = ::fstat(descriptor, &status) == 0; });
    return told ? std::optional<qint64>(status.st_size) : std::nullopt;
}

} // namespace file_locks

} // namespace washfast::store
