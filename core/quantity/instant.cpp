#include "core/quantity/instant.h"

#include <QTimeZone>
#include <array>
#include <chrono>
#include <cstdio>

namespace washfast {

namespace {

/// Reads exactly `count` digits at `at`.
std::optional<int> digits(std::string_view text, size_t at, size_t count)
{
    if (at + count > text.size())
        return std::nullopt;
    int value = 0;
    for (size_t i = at; i < at + count; ++i) {
        if (text[i] < '0' || text[i] > '9')
            return std::nullopt;
        value = value * 10 + (text[i] - '0');
    }
    return value;
}

std::optional<qint32> readOffset(std::string_view text, size_t at)
{
    if (at >= text.size())
        return std::nullopt;
    if ((text[at] == 'Z' || text[at] == 'z') && at + 1 == text.size())
        return 0;
    if (text[at] != '+' && text[at] != '-')
        return std::nullopt;
    const int sign = text[at] == '-' ? -1 : 1;
    const auto hours = digits(text, at + 1, 2);
    if (!hours)
        return std::nullopt;
    size_t next = at + 3;
    int minutes = 0;
    if (next < text.size()) {
        if (text[next] == ':')
            ++next;
        const auto read = digits(text, next, 2);
        if (!read || next + 2 != text.size())
            return std::nullopt;
        minutes = *read;
    }
    const int offset_s = *hours * 3600 + minutes * 60;
    if (minutes > 59 || offset_s > 14 * 3600) // no clock is further from UTC
        return std::nullopt;
    return sign * offset_s;
}

} // namespace

Instant Instant::from(const QDateTime& time)
{
    if (!time.isValid())
        return {};
    return { time.toMSecsSinceEpoch(), time.offsetFromUtc() };
}

QDateTime Instant::toDateTime() const
{
    if (!valid())
        return {};
    return QDateTime::fromMSecsSinceEpoch(ms_utc, Qt::OffsetFromUTC, offset_s);
}

std::string Instant::toIsoBytes() const
{
    if (!valid())
        return {};
    using namespace std::chrono;
    // ISO 8601 has no seconds in an offset (clocks of the 19th century had): the nearest minute towards UTC keeps the
    // moment.
    const int offset_min = offset_s / 60;
    const sys_time<milliseconds> local { milliseconds(ms_utc) + minutes(offset_min) };
    const auto day = floor<days>(local);
    const year_month_day date { day };
    const hh_mm_ss time { local - day };
    std::array<char, 64> buffer {};
    int size = std::snprintf(buffer.data(), buffer.size(), "%04d-%02u-%02uT%02d:%02d:%02d", int(date.year()),
        unsigned(date.month()), unsigned(date.day()), int(time.hours().count()), int(time.minutes().count()),
        int(time.seconds().count()));
    std::string text(buffer.data(), size_t(size));
    if (const auto ms = time.subseconds().count(); ms != 0) {
        size = std::snprintf(buffer.data(), buffer.size(), ".%03d", int(ms));
        text.append(buffer.data(), size_t(size));
    }
    const int away = std::abs(offset_min);
    size = std::snprintf(buffer.data(), buffer.size(), "%c%02d:%02d", offset_min < 0 ? '-' : '+', away / 60, away % 60);
    text.append(buffer.data(), size_t(size));
    return text;
}

QString Instant::toIso() const
{
    return QString::fromLatin1(toIsoBytes().c_str());
}

std::optional<Instant> Instant::fromIso(std::string_view text)
{
    const auto year = digits(text, 0, 4);
    const auto month = digits(text, 5, 2);
    const auto day = digits(text, 8, 2);
    const auto hour = digits(text, 11, 2);
    const auto minute = digits(text, 14, 2);
    if (!year || !month || !day || !hour || !minute)
        return std::nullopt;
    if (text[4] != '-' || text[7] != '-' || (text[10] != 'T' && text[10] != 't' && text[10] != ' ') || text[13] != ':')
        return std::nullopt;
    size_t at = 16;
    int second = 0;
    int ms = 0;
    if (at < text.size() && text[at] == ':') {
        const auto read = digits(text, at + 1, 2);
        if (!read)
            return std::nullopt;
        second = *read;
        at += 3;
        if (at < text.size() && text[at] == '.') {
            ++at;
            if (!digits(text, at, 1))
                return std::nullopt;
            for (int scale = 100; at < text.size() && text[at] >= '0' && text[at] <= '9'; ++at, scale /= 10)
                ms += scale * (text[at] - '0');
        }
    }
    const auto offset = readOffset(text, at);
    if (!offset || *hour > 23 || *minute > 59 || second > 59)
        return std::nullopt;
    using namespace std::chrono;
    const year_month_day date { std::chrono::year(*year), std::chrono::month(unsigned(*month)),
        std::chrono::day(unsigned(*day)) };
    if (!date.ok())
        return std::nullopt;
    const auto local = duration_cast<milliseconds>(sys_days(date).time_since_epoch()) + hours(*hour) + minutes(*minute)
        + seconds(second) + milliseconds(ms);
    return Instant { local.count() - qint64(*offset) * 1000, *offset };
}

std::optional<Instant> Instant::fromIso(QStringView text)
{
    const QByteArray bytes = text.toLatin1();
    return fromIso(std::string_view(bytes.constData(), size_t(bytes.size())));
}

} // namespace washfast
