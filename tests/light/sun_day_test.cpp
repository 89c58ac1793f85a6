// Days that are not like others: the clock changes, the sun does not set, does not rise, only just rises.
#include "core/light/sun_day.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::light;

namespace {

QTimeZone zoneOf(const char* name)
{
    const auto zone = zoneNamed(QString::fromLatin1(name));
    EXPECT_TRUE(zone) << name;
    return zone ? *zone : QTimeZone::utc();
}

double hoursBetween(const Instant& a, const Instant& b)
{
    return minutesBetween(a, b) / 60;
}

} // namespace

TEST(SunDay, TheClockChanges)
{
    const auto zone = zoneOf("Europe/Oslo");
    const Place oslo { 59.9, 10.75, 0 };
    const auto before = sunDay(QDate(2026, 3, 28), zone, oslo);
    const auto spring = sunDay(QDate(2026, 3, 29), zone, oslo);
    const auto autumn = sunDay(QDate(2026, 10, 25), zone, oslo);
    EXPECT_FALSE(before.clock_changes);
    EXPECT_TRUE(spring.clock_changes && autumn.clock_changes);
    EXPECT_EQ(hoursBetween(spring.begins, spring.ends), 23);
    EXPECT_EQ(hoursBetween(autumn.begins, autumn.ends), 25);
    // The sun knows nothing of it: from one rise to the next are a day and a few minutes less; the clock says an hour
    // more.
    EXPECT_NEAR(hoursBetween(*before.sunrise, *spring.sunrise), 24 - 0.05, 0.03);
    EXPECT_EQ(before.sunrise->offset_s, 3600);
    EXPECT_EQ(spring.sunrise->offset_s, 7200);
    EXPECT_EQ(autumn.sunrise->offset_s, 3600) << "it rises after the change";
}

TEST(SunDay, FarNorth)
{
    const auto zone = zoneOf("Europe/Oslo");
    const Place north { 70, 25, 0 };
    const auto summer = sunDay(QDate(2026, 6, 20), zone, north);
    EXPECT_EQ(summer.kind, DayKind::AlwaysUp);
    EXPECT_FALSE(summer.sunrise || summer.sunset);
    EXPECT_NEAR(summer.noon_zenith_deg, 70 - 23.44, 0.05);
    const auto winter = sunDay(QDate(2026, 12, 20), zone, north);
    EXPECT_EQ(winter.kind, DayKind::AlwaysDown);
    EXPECT_GT(winter.noon_zenith_deg, 90);
    const auto equinox = sunDay(QDate(2026, 3, 20), zone, north);
    EXPECT_EQ(equinox.kind, DayKind::RisesAndSets);
    EXPECT_GT(hoursBetween(*equinox.sunrise, *equinox.sunset), 12) << "refraction and the disc's width lengthen it";
    EXPECT_LT(hoursBetween(*equinox.sunrise, *equinox.sunset), 12.7);
}

TEST(SunDay, RiseNoonAndSetAreInOrderEverywhere)
{
    for (double latitude = -90; latitude <= 90; latitude += 7.5)
        for (int day = 0; day < 366; day += 13) {
            const auto found = sunDay(QDate(2024, 1, 1).addDays(day), QTimeZone::utc(), { latitude, 100, 0 });
            if (found.sunrise) {
                EXPECT_LE(*found.sunrise, found.solar_noon);
            }
            if (found.sunset) {
                EXPECT_GE(*found.sunset, found.solar_noon);
            }
            if (found.kind == DayKind::RisesAndSets && found.sunrise) {
                EXPECT_NEAR(sunAt(*found.sunrise, { latitude, 100, 0 }).elevation_deg(), -0.8333, 0.01);
            }
        }
}

TEST(SunDay, ZonesByName)
{
    EXPECT_TRUE(zoneNamed(QString()));
    const auto none = zoneNamed(QStringLiteral("Atlantis/West"));
    ASSERT_FALSE(none);
    EXPECT_TRUE(none.error().says.contains(QStringLiteral("Atlantis/West")));
}

TEST(SunTrack, IsTheSeriesInBetween)
{
    const Instant from { 1'767'225'600'000, 0 }; // the first of January 2026
    const Instant to { from.ms_utc + qint64(366) * 86'400'000, 0 };
    const SunTrack track(from, to);
    const Place place { -33, 151, 50 };
    for (int i = 0; i <= 700; ++i) {
        const Instant when { from.ms_utc + i * (to.ms_utc - from.ms_utc) / 700, 0 };
        const auto far = sunAt(when, place);
        const auto near = track.at(when, place);
        EXPECT_NEAR(near.zenith_deg, far.zenith_deg, 1e-4) << i;
        EXPECT_NEAR(near.distance_au, far.distance_au, 1e-6) << i;
    }
    EXPECT_NEAR(track.at({ to.ms_utc + qint64(40) * 86'400'000, 0 }, place).zenith_deg,
        sunAt({ to.ms_utc + qint64(40) * 86'400'000, 0 }, place).zenith_deg, 1e-9)
        << "beyond its stretch it asks the series";
}

} // namespace WASHFAST_FILE
