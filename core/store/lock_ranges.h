// Ranges of bytes with the lock that is on each: what SQLite has asked for, or what the system says that it has.
#pragma once

#include <QByteArray>
#include <QtGlobal>
#include <vector>

namespace washfast::store {

struct LockRange {
    qint64 first = 0, last = 0; // bytes, both inside
    bool writing = false; // nobody else may have any lock on them
};

class LockRanges {
public:
    static constexpr qint64 toTheEnd = std::numeric_limits<qint64>::max();

    /// A lock takes the place of what was there.
    void set(const LockRange& range);
    void clear(qint64 first, qint64 last);

    [[nodiscard]] bool empty() const { return ranges_.empty(); }
    [[nodiscard]] bool haveAll(const LockRanges& wanted) const;
    [[nodiscard]] auto begin() const { return ranges_.begin(); }
    [[nodiscard]] auto end() const { return ranges_.end(); }

    /// Adds those that the text of /proc/PID/fdinfo/N tells (proc_pid_fdinfo(5)).
    void addFrom(const QByteArray& fdinfo);

private:
    std::vector<LockRange> ranges_; // in order, none touches another
};

} // namespace washfast::store
