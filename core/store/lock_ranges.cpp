#include "core/store/lock_ranges.h"

#include <QList>
#include <algorithm>

namespace washfast::store {

void LockRanges::clear(qint64 first, qint64 last)
{
    std::vector<LockRange> kept;
    for (const auto& range : ranges_) {
        if (range.first < first)
            kept.push_back({ range.first, std::min(range.last, first - 1), range.writing });
        if (range.last > last)
            kept.push_back({ std::max(range.first, last + 1), range.last, range.writing });
    }
    ranges_ = std::move(kept);
}

void LockRanges::set(const LockRange& range)
{
    clear(range.first, range.last);
    ranges_.push_back(range);
    std::sort(ranges_.begin(), ranges_.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<LockRange> joined; // as the system joins those that touch
    for (const auto& next : ranges_)
        if (!joined.empty() && joined.back().writing == next.writing && joined.back().last == next.first - 1)
            joined.back().last = next.last;
        else
            joined.push_back(next);
    ranges_ = std::move(joined);
}

bool LockRanges::haveAll(const LockRanges& wanted) const
{
    return std::all_of(wanted.begin(), wanted.end(), [&](const LockRange& one) {
        return std::any_of(ranges_.begin(), ranges_.end(), [&](const LockRange& here) {
            return here.first <= one.first && here.last >= one.last && here.writing == one.writing;
        });
    });
}

void LockRanges::addFrom(const QByteArray& fdinfo)
{
    // lock:   1: OFDLCK  ADVISORY  READ -1 08:02:131 1073741826 1073742335
    for (const auto& line : fdinfo.split('\n')) {
        if (!line.startsWith("lock:"))
            continue;
        const auto words = line.simplified().split(' ');
        if (words.size() < 9)
            continue;
        bool starts = false;
        bool ends = true;
        const auto first = words[7].toLongLong(&starts);
        const auto last = words[8] == "EOF" ? toTheEnd : words[8].toLongLong(&ends);
        if (starts && ends)
            set({ first, last, words[4] == "WRITE" });
    }
}

} // namespace washfast::store
