// Numbers, minutes and clock times of the Sunlight view as people read them.
#pragma once

#include "core/light/sun_day.h"

#include <QCoreApplication>
#include <QLocale>
#include <cmath>
#include <optional>

namespace washfast::ui::sunlight {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Sunlight)
};

/// Longer than this counts as "never" for a class: our own limit, and said where it is used.
inline constexpr double longestUseful_min = 240;

[[nodiscard]] inline QString figure(double value, int decimals)
{
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    const double tiny = 0.5 * std::pow(10.0, -decimals);
    return locale.toString(std::abs(value) < tiny ? 0.0 : value, 'f', decimals); // never "-0"
}
/// Two figures that count, more or less: 0.42, 3.4, 17.
[[nodiscard]] inline QString roughFigure(double value)
{
    return figure(value, value < 0.995 ? 2 : value < 9.95 ? 1 : 0);
}
/// "3.4", "17", "1 h 45" or "4 h" from minutes.
[[nodiscard]] inline QString minutesFigure(double minutes)
{
    if (minutes < 99.5)
        return roughFigure(minutes);
    const auto whole = std::lround(minutes);
    if (whole % 60 == 0)
        return Words::tr("%1 h").arg(whole / 60);
    return Words::tr("%1 h %2").arg(whole / 60).arg(whole % 60, 2, 10, QLatin1Char('0'));
}
/// A mark of an axis in minutes: 0.5, 5, 60, 4 h.
[[nodiscard]] inline QString minutesMark(double minutes)
{
    return minutes < 99.5 && minutes >= 1 ? figure(minutes, 0) : minutesFigure(minutes);
}
[[nodiscard]] inline QString minutesWords(double minutes)
{
    return minutes < 99.5 ? Words::tr("%1 min").arg(minutesFigure(minutes)) : minutesFigure(minutes);
}
/// 10:05, on the clock of the moment's offset.
[[nodiscard]] inline QString clockText(Instant when)
{
    return when.toDateTime().toString(QStringLiteral("HH:mm"));
}
[[nodiscard]] inline Instant later(Instant when, double minutes)
{
    return { when.ms_utc + static_cast<qint64>(std::llround(minutes * 60'000)), when.offset_s };
}

} // namespace washfast::ui::sunlight
