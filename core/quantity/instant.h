// A moment with the offset from UTC of the clock that it was read from. Stored and exported as ISO 8601 text,
// for example 2026-05-04T10:15:00+02:00.
#pragma once

#include <QDateTime>
#include <QString>
#include <compare>
#include <limits>
#include <optional>
#include <string_view>

namespace washfast {

struct Instant {
    qint64 ms_utc = std::numeric_limits<qint64>::min(); // milliseconds since 1970-01-01T00:00Z
    qint32 offset_s = 0; // seconds east of UTC

    [[nodiscard]] constexpr bool valid() const { return ms_utc != std::numeric_limits<qint64>::min(); }
    /// Two moments are equal when they are the same time, whatever the clock.
    friend constexpr bool operator==(const Instant& a, const Instant& b) { return a.ms_utc == b.ms_utc; }
    friend constexpr auto operator<=>(const Instant& a, const Instant& b) { return a.ms_utc <=> b.ms_utc; }

    [[nodiscard]] static Instant from(const QDateTime& time);
    [[nodiscard]] QDateTime toDateTime() const;
    /// ISO 8601 with seconds (milliseconds only when they are not zero) and an offset.
    [[nodiscard]] QString toIso() const;
    [[nodiscard]] std::string toIsoBytes() const;
    /// Reads what toIso writes, also `Z`, a space for the T, and no seconds. Nothing if it is not such a text or has no
    /// offset.
    [[nodiscard]] static std::optional<Instant> fromIso(std::string_view text);
    [[nodiscard]] static std::optional<Instant> fromIso(QStringView text);
};

/// Minutes from a to b.
[[nodiscard]] constexpr double minutesBetween(const Instant& a, const Instant& b)
{
    return static_cast<double>(b.ms_utc - a.ms_utc) / 60000.0;
}

} // namespace washfast
