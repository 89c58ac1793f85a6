#include "core/trial/day_after.h"

#include "core/trial/same_reading.h"

#include <algorithm>

namespace washfast {

namespace {

Instant startOfNextDay(const Instant& time)
{
    constexpr qint64 msInDay = 24 * 60 * 60 * 1000;
    const qint64 local = time.ms_utc + qint64(time.offset_s) * 1000;
    const qint64 day = local >= 0 ? local / msInDay : -((-local + msInDay - 1) / msInDay);
    return { (day + 1) * msInDay - qint64(time.offset_s) * 1000, time.offset_s };
}

} // namespace

ToneAfter toneAfter(const PrintReader& reader, int print_row)
{
    using enum ToneAfter::State;
    ToneAfter tone;
    if (print_row < 0)
        return tone;
    const auto end = reader.get(print_row, u"rinse_end").time();
    if (const auto rinsed = end ? end : reader.get(print_row, u"rinse_start").time())
        tone.from = startOfNextDay(*rinsed);
    if (reader.get(print_row, u"density_day_after_deepest").has()) {
        tone.state = Read;
        return tone;
    }
    const auto there = readingsOf(reader.notebook(), reader.notebook().prints().id(print_row));
    const bool nothing = std::any_of(there.begin(), there.end(), [](const ReadingThere& reading) {
        return reading.kind.when == QLatin1String("day_after") && reading.kind.method == nothingToReadKey();
    });
    if (nothing)
        tone.state = NothingToRead;
    else if (reader.get(print_row, u"density_before_rinse_deepest").has())
        tone.state = Waits;
    return tone;
}

} // namespace washfast
