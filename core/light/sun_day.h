// Rise, noon and set of one day at one place, in the day's own clock.
#pragma once

#include "core/light/sun.h"
#include "core/quantity/result.h"

#include <QDate>
#include <QTimeZone>
#include <optional>

namespace washfast::light {

/// Whether the sun rises and sets on a day.
enum class DayKind { RisesAndSets, AlwaysUp, AlwaysDown };

struct SunDay {
    DayKind kind = DayKind::RisesAndSets;
    Instant begins, ends; // from midnight to midnight of the clock: 23, 24 or 25 hours
    std::optional<Instant> sunrise, sunset; // of the half-day before and after noon; near the polar day
                                            // they can fall on the neighbouring date
    Instant solar_noon; // the sun crosses the meridian
    double noon_zenith_deg = 90; // apparent
    bool clock_changes = false; // the offset at the end is another than at the beginning
};

/// Rise and set: the disc's upper edge at the horizon of the sea with 34' of refraction, its centre at -0.8333 degrees.
[[nodiscard]] SunDay sunDay(QDate date, const QTimeZone& zone, const Place& place);

/// A time zone by its IANA name; the error is a sentence. An empty name is UTC.
[[nodiscard]] Result<QTimeZone> zoneNamed(const QString& name);
/// The moment with the offset that this zone has then.
[[nodiscard]] Instant inZone(Instant when, const QTimeZone& zone);

} // namespace washfast::light
