#include "core/light/sun_day.h"

#include "core/light/words.h"

#include <cmath>

namespace washfast::light {

namespace {

constexpr double halfDay_ms = 43'200'000;
constexpr double horizon = -0.8333; // of the disc's centre: 16' half-width, 34' refraction

Instant shifted(Instant when, double ms)
{
    return { when.ms_utc + static_cast<qint64>(std::llround(ms)), when.offset_s };
}

} // namespace

Instant inZone(Instant when, const QTimeZone& zone)
{
    return { when.ms_utc, zone.offsetFromUtc(QDateTime::fromMSecsSinceEpoch(when.ms_utc, Qt::UTC)) };
}

Result<QTimeZone> zoneNamed(const QString& name)
{
    if (name.isEmpty())
        return QTimeZone(QByteArrayLiteral("UTC"));
    const QTimeZone zone(name.toUtf8());
    // Qt also takes a POSIX rule, which any word looks like.
    if (!zone.isValid() || !QTimeZone::isTimeZoneIdAvailable(name.toUtf8()))
        return Error { Trouble::BadInput,
            Words::tr("“%1” is no time zone that this computer knows; try one like "
                      "Europe/Lisbon.")
                .arg(name),
            {} };
    return zone;
}

SunDay sunDay(QDate date, const QTimeZone& zone, const Place& place)
{
    SunDay day;
    day.begins = Instant::from(date.startOfDay(zone));
    day.ends = Instant::from(date.addDays(1).startOfDay(zone));
    day.clock_changes = day.begins.offset_s != day.ends.offset_s;

    const SunTrack track(shifted(day.begins, -2 * halfDay_ms), shifted(day.ends, 2 * halfDay_ms));
    const auto elevation = [&](Instant when) { return track.at(when, place).elevation_deg(); };

    // The meridian is crossed when the hour angle is 0; it grows by 360 in a day, so two steps suffice.
    Instant noon = shifted(day.begins, static_cast<double>(day.ends.ms_utc - day.begins.ms_utc) / 2);
    for (int i = 0; i < 4; ++i)
        noon = shifted(noon, -track.at(noon, place).hour_angle_deg / 360 * 2 * halfDay_ms);
    day.solar_noon = inZone(noon, zone);
    day.noon_zenith_deg = track.at(noon, place).apparent_zenith_deg;

    const auto crossing = [&](double from_ms, double to_ms) -> std::optional<Instant> {
        double a = from_ms;
        double b = to_ms;
        const bool up = elevation(shifted(noon, a)) > horizon;
        if (up == (elevation(shifted(noon, b)) > horizon))
            return std::nullopt;
        while (b - a > 100) {
            const double middle = (a + b) / 2;
            ((elevation(shifted(noon, middle)) > horizon) == up ? a : b) = middle;
        }
        return inZone(shifted(noon, (a + b) / 2), zone);
    };
    day.sunrise = crossing(-halfDay_ms, 0);
    day.sunset = crossing(0, halfDay_ms);
    if (!day.sunrise && !day.sunset)
        day.kind = elevation(noon) > horizon ? DayKind::AlwaysUp : DayKind::AlwaysDown;
    return day;
}

} // namespace washfast::light
