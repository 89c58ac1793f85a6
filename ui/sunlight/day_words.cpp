// The sentences of DayState.
#include "ui/sunlight/day_state.h"
#include "ui/sunlight/words.h"

#include <array>

namespace washfast::ui::sunlight {

QString directionWords(double azimuth_deg)
{
    static constexpr std::array<const char*, 8> names { QT_TRANSLATE_NOOP("Sunlight", "north"),
        QT_TRANSLATE_NOOP("Sunlight", "north-east"), QT_TRANSLATE_NOOP("Sunlight", "east"),
        QT_TRANSLATE_NOOP("Sunlight", "south-east"), QT_TRANSLATE_NOOP("Sunlight", "south"),
        QT_TRANSLATE_NOOP("Sunlight", "south-west"), QT_TRANSLATE_NOOP("Sunlight", "west"),
        QT_TRANSLATE_NOOP("Sunlight", "north-west") };
    const auto at = static_cast<int>(std::lround(azimuth_deg / 45)) % 8;
    return Words::tr(names[static_cast<size_t>((at + 8) % 8)]);
}

QString DayState::heading() const
{
    return Words::tr("%1, %2").arg(ask_.site.name, QLocale().toString(ask_.date, QStringLiteral("dddd d MMMM yyyy")));
}

QString DayState::sunSentence() const
{
    const auto noon
        = Words::tr("highest at %1 (%2°)").arg(clockText(sun_.solar_noon), figure(90 - sun_.noon_zenith_deg, 0));
    switch (sun_.kind) {
    case light::DayKind::AlwaysUp:
        return Words::tr("The sun does not set on this day; %1.").arg(noon);
    case light::DayKind::AlwaysDown:
        return Words::tr("The sun does not rise on this day: there is no sunlight to print by.");
    case light::DayKind::RisesAndSets:
        break;
    }
    const auto time = [&](const std::optional<Instant>& when, const QString& never) {
        if (!when)
            return never;
        const auto minute = minuteOf(*when);
        return minute < 0          ? Words::tr("%1 the day before").arg(clockText(*when))
            : minute > length_min_ ? Words::tr("%1 the day after").arg(clockText(*when))
                                   : clockText(*when);
    };
    return Words::tr("Sunrise %1, %2, sunset %3.")
        .arg(time(sun_.sunrise, Words::tr("none")), noon, time(sun_.sunset, Words::tr("none")));
}

QString DayState::neededWords(const light::TimeNeeded& needed)
{
    const auto end = [](const std::optional<double>& minutes) {
        return minutes ? minutesFigure(*minutes) : Words::tr("over 4 h");
    };
    if (!needed.minutes)
        return needed.low ? Words::tr("over 4 h (%1 at best)").arg(minutesWords(*needed.low))
                          : Words::tr("over 4 h or never");
    return Words::tr("%1 (%2 to %3)").arg(minutesWords(*needed.minutes), end(needed.low), end(needed.high));
}

QString DayState::bestSentence() const
{
    const auto dose = Words::tr("%1 J/cm²").arg(roughFigure(ask_.dose.j_cm2));
    const auto* best = quickest();
    if (!best)
        return Words::tr("No print gets %1 within 4 h on this day.").arg(dose);
    return Words::tr("Quickest for %1: start at %2, %3.").arg(dose, clockText(best->at), neededWords(best->needed));
}

QString DayState::caution() const
{
    const double peak = uvPeak();
    if (peak <= 0)
        return Words::tr("UV Index 0: no sun on this day.");
    const auto band = light::uvBand(peak);
    return Words::tr("UV Index up to %1 (%2) under a clear sky. Skin and eyes: %3 Follow your local rules.")
        .arg(figure(peak, 0), light::uvBandName(band), light::uvCaution(band));
}

QStringList DayState::notes() const
{
    QStringList notes;
    if (change_)
        notes << change_->sentence;
    if (lesson_ && !lesson_->that_day)
        notes << Words::tr("The hour of %1 is laid over another day.").arg(lesson_->code);
    if (!ask_.sky.noted())
        notes << Words::tr("No sky is chosen: the band is that of any sky.");
    notes << ask_.site.assumed;
    return notes;
}

QString DayState::readout(double minute) const
{
    const auto& one = near(minute);
    QStringList parts { clockText(one.at) };
    if (one.height_deg <= 0) {
        parts << Words::tr("the sun is down");
        return parts.join(QStringLiteral("  ·  "));
    }
    parts << Words::tr("%1 W/m² (%2 to %3)")
                 .arg(figure(one.likely_w_m2, 1), figure(one.low_w_m2, 1), figure(one.high_w_m2, 1));
    if (ask_.pane)
        parts << Words::tr("behind the pane %1").arg(figure(one.behind_w_m2, 1));
    parts << Words::tr("sun %1° high in the %2").arg(figure(one.height_deg, 0), directionWords(one.azimuth_deg));
    parts << Words::tr("%1 J/cm² in %2").arg(roughFigure(ask_.dose.j_cm2), neededWords(one.needed));
    if (ask_.pane)
        parts << Words::tr("behind it %1").arg(neededWords(one.needed_behind));
    parts << Words::tr("UV Index %1, %2").arg(figure(one.uv_index, 0), light::uvBandName(light::uvBand(one.uv_index)));
    return parts.join(QStringLiteral("  ·  "));
}

} // namespace washfast::ui::sunlight
