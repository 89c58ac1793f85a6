// Moments. The judge from outside is QDateTime; fixed moments are the examples of RFC 3339, section 5.8 (quoted from
// memory), and the length of the Gregorian cycle, 146,097 days in 400 years (ISO 8601-1:2019, the calendar it
// prescribes).
#include "core/quantity/instant.h"

#include <QTimeZone>
#include <gtest/gtest.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;

namespace {

qint64 msOf(const char* iso)
{
    const auto time = Instant::fromIso(std::string_view(iso));
    EXPECT_TRUE(time) << iso;
    return time ? time->ms_utc : 0;
}

qint64 judge(const QString& iso)
{
    const auto time = QDateTime::fromString(iso, Qt::ISODateWithMs);
    EXPECT_TRUE(time.isValid()) << iso.toStdString();
    return time.toMSecsSinceEpoch();
}

} // namespace

TEST(Instant, ReadsThePublishedExamples)
{
    // 23:20:50.52 UTC on 12 April 1985.
    EXPECT_EQ(msOf("1985-04-12T23:20:50.52Z"),
        QDateTime(QDate(1985, 4, 12), QTime(23, 20, 50, 520), Qt::UTC).toMSecsSinceEpoch());
    // "Note that this is equivalent to 1996-12-20T00:39:57Z in UTC."
    EXPECT_EQ(msOf("1996-12-19T16:39:57-08:00"), msOf("1996-12-20T00:39:57Z"));
    // Dutch time of 1937, 20 minutes ahead.
    EXPECT_EQ(msOf("1937-01-01T12:00:27.87+00:20"), msOf("1937-01-01T11:40:27.87Z"));
    // The billionth second of the count from 1970.
    EXPECT_EQ(msOf("2001-09-09T01:46:40Z"), 1'000'000'000'000);
}

TEST(Instant, EveryDayOfFourHundredYearsIsReadAsQtReadsIt)
{
    int days = 0;
    for (int year = 1800; year < 2200; ++year)
        for (int month = 1; month <= 12; ++month)
            for (int day = 1; day <= 31; ++day) {
                const auto iso = QStringLiteral("%1-%2-%3T12:34:56+02:00")
                                     .arg(year)
                                     .arg(month, 2, 10, QLatin1Char('0'))
                                     .arg(day, 2, 10, QLatin1Char('0'));
                const auto time = Instant::fromIso(QStringView(iso));
                const QDate date(year, month, day);
                ASSERT_EQ(time.has_value(), date.isValid()) << iso.toStdString();
                if (!time)
                    continue;
                ++days;
                ASSERT_EQ(time->ms_utc, QDateTime(date, QTime(10, 34, 56), Qt::UTC).toMSecsSinceEpoch())
                    << iso.toStdString();
                ASSERT_EQ(time->toIso(), iso);
            }
    EXPECT_EQ(days, 146'097);
}

TEST(Instant, AnyMomentOnAnyClockComesBack)
{
    std::mt19937_64 random(20260504);
    const qint64 first = QDateTime(QDate(1800, 1, 1), QTime(0, 0), Qt::UTC).toMSecsSinceEpoch();
    const qint64 last = QDateTime(QDate(2199, 12, 31), QTime(0, 0), Qt::UTC).toMSecsSinceEpoch();
    std::uniform_int_distribution<qint64> moment(first, last);
    std::uniform_int_distribution<int> quarter(-12 * 4, 14 * 4);
    for (int i = 0; i < 20'000; ++i) {
        const qint64 ms = i % 2 == 0 ? moment(random) / 1000 * 1000 : moment(random);
        const Instant written { ms, quarter(random) * 900 };
        const QString iso = written.toIso();
        ASSERT_EQ(judge(iso), ms) << iso.toStdString();
        const auto read = Instant::fromIso(QStringView(iso));
        ASSERT_TRUE(read) << iso.toStdString();
        ASSERT_EQ(read->ms_utc, ms) << iso.toStdString();
        ASSERT_EQ(read->offset_s, written.offset_s) << iso.toStdString();
        const QDateTime there = written.toDateTime();
        ASSERT_EQ(iso.left(19), there.toString(QStringLiteral("yyyy-MM-ddTHH:mm:ss"))) << "the clock's own reading";
        ASSERT_EQ(Instant::from(there).offset_s, written.offset_s);
    }
}

TEST(Instant, NegativeOffsetsAndFractionsAreWrittenAsTheStandardWantsThem)
{
    EXPECT_EQ(Instant({ 0, 0 }).toIso(), QStringLiteral("1970-01-01T00:00:00+00:00"));
    EXPECT_EQ(Instant({ 0, -3 * 3600 - 1800 }).toIso(), QStringLiteral("1969-12-31T20:30:00-03:30"));
    EXPECT_EQ(Instant({ 0, -1800 }).toIso(), QStringLiteral("1969-12-31T23:30:00-00:30"));
    EXPECT_EQ(Instant({ -1, 0 }).toIso(), QStringLiteral("1969-12-31T23:59:59.999+00:00"));
    EXPECT_EQ(Instant({ 5, 3600 }).toIso(), QStringLiteral("1970-01-01T01:00:00.005+01:00"));
    EXPECT_EQ(Instant().toIso(), QString());
    EXPECT_FALSE(Instant().valid());
    EXPECT_FALSE(Instant().toDateTime().isValid());
    EXPECT_FALSE(Instant::from(QDateTime()).valid());
}

TEST(Instant, AClockWithSecondsInItsOffsetKeepsTheMoment)
{
    // Local mean times before the zones had such offsets; ISO 8601 has no place for the seconds.
    for (const int offset_s : { 53 * 60 + 28, -(53 * 60 + 28), 28, -28 }) {
        const Instant odd { msOf("1850-03-01T12:00:00Z"), offset_s };
        const auto read = Instant::fromIso(QStringView(odd.toIso()));
        ASSERT_TRUE(read) << odd.toIso().toStdString();
        EXPECT_EQ(read->ms_utc, odd.ms_utc) << odd.toIso().toStdString();
    }
}

TEST(Instant, TwoClocksThatShowTheSameMomentAreEqual)
{
    const Instant lisbon { 1'000'000, 3600 };
    const Instant azores { 1'000'000, 0 };
    EXPECT_EQ(lisbon, azores);
    EXPECT_LT(lisbon, (Instant { 1'000'001, -3600 }));
    EXPECT_DOUBLE_EQ(minutesBetween(lisbon, Instant { 1'000'000 + 90'000, 7200 }), 1.5);
    EXPECT_DOUBLE_EQ(minutesBetween(Instant { 60'000, 0 }, Instant { 0, 0 }), -1.0);
}

TEST(Instant, ReadsTheFormsThatPeopleAndProgramsWrite)
{
    const qint64 wanted = msOf("2026-05-04T08:15:00Z");
    for (const char* same : { "2026-05-04T10:15:00+02:00", "2026-05-04T10:15+02:00", "2026-05-04 10:15:00+0200",
             "2026-05-04t10:15+02", "2026-05-04 08:15z", "2026-05-04T08:15:00.000Z", "2026-05-04T06:15:00-02:00" })
        EXPECT_EQ(msOf(same), wanted) << same;
    EXPECT_EQ(msOf("2026-05-04T08:15:00.1239999Z"), wanted + 123) << "what is finer than a millisecond is dropped";
}

TEST(Instant, WhatIsNoMomentIsRefused)
{
    for (const char* bad : { "", "2026", "2026-05-04", "2026-05-04T10:15", "2026-05-04T10:15:00",
             "2026-05-04T10:15:00 +02:00", "2026-02-29T10:00Z", "1900-02-29T10:00Z", "2026-00-10T10:00Z",
             "2026-13-10T10:00Z", "2026-05-32T10:00Z", "2026-05-04T24:00Z", "2026-05-04T10:60Z", "2026-05-04T10:15:60Z",
             "1990-12-31T23:59:60Z", "2026-05-04T10:15:00.Z", "2026-05-04T10:15:00+15:00", "2026-05-04T10:15:00+14:01",
             "2026-05-04T10:15:00+02:60", "2026-05-04T10:15:00+2:00",
             "2026-05-04T10:15:00+02:", "2026-05-04T10:15:00+02:0", "2026-05-04T10:15:00Zulu", "2026/05/04T10:15Z",
             "26-05-04T10:15Z", "2026-05-04T1O:15Z", "2026-05-04T10.15Z", " 2026-05-04T10:15Z", "-026-05-04T10:15Z" })
        EXPECT_FALSE(Instant::fromIso(std::string_view(bad))) << bad;
    EXPECT_FALSE(Instant::fromIso(QStringView(u"２０２６-05-04T10:15Z"))) << "full-width digits";
    EXPECT_TRUE(Instant::fromIso(std::string_view("2000-02-29T10:00Z")));
    EXPECT_TRUE(Instant::fromIso(std::string_view("2026-05-04T10:15:00+14:00")));
}

TEST(Instant, SpoiltTextsNeverGiveAMomentThatCannotBeWritten)
{
    std::mt19937 random(7);
    const std::string good = "2026-05-04T10:15:30.250-02:30";
    const std::string letters = "0123456789-+:.TtZz /x";
    for (int i = 0; i < 20'000; ++i) {
        std::string text = good;
        for (int n = int(random() % 4); n >= 0; --n) {
            const size_t at = random() % (text.size() + 1);
            if (random() % 3 == 0 && at < text.size())
                text.erase(at, 1);
            else if (random() % 2 == 0 && at < text.size())
                text[at] = letters[random() % letters.size()];
            else
                text.insert(at, 1, letters[random() % letters.size()]);
        }
        if (const auto read = Instant::fromIso(std::string_view(text))) {
            const auto again = Instant::fromIso(QStringView(read->toIso()));
            ASSERT_TRUE(again) << text << " became " << read->toIso().toStdString();
            ASSERT_EQ(again->ms_utc, read->ms_utc) << text;
            ASSERT_EQ(again->offset_s, read->offset_s) << text;
        }
    }
}

} // namespace WASHFAST_FILE
