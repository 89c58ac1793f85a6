#include "core/quantity/time_span.h"

#include "core/quantity/words.h"

#include <cmath>

namespace washfast {

QString spanText(double minutes)
{
    constexpr double hour = 60;
    constexpr double day = 24 * hour;
    constexpr double year = 365.25 * day;
    const auto whole = [minutes](double unit) { return int(std::lround(std::min(minutes / unit, 1e6))); };
    if (minutes >= 2 * year)
        return QuantityWords::tr("%n years", nullptr, whole(year));
    if (minutes >= 2 * day)
        return QuantityWords::tr("%n days", nullptr, whole(day));
    if (minutes >= 2 * hour)
        return QuantityWords::tr("%n hours", nullptr, whole(hour));
    return QuantityWords::tr("%n minutes", nullptr, whole(1));
}

bool endsTooLate(const Field& end_field, const std::optional<Instant>& start, const std::optional<Instant>& end)
{
    return end_field.began && start && end && minutesBetween(*start, *end) > end_field.began->most_h * 60;
}

QString tooLateSentence(const Field& end_field, const QString& start_label, const Instant& start, const Instant& end)
{
    const double most_min = end_field.began ? end_field.began->most_h * 60 : 0;
    return QuantityWords::tr("“%1” (%2) is %3 after “%4” (%5); at most %6 are plausible.")
        .arg(end_field.label, end.toIso(), spanText(minutesBetween(start, end)), start_label, start.toIso(),
            spanText(most_min));
}

} // namespace washfast
