// The year of Sunlight: weeks, hours, and which of them can print.
#include "ui/sunlight/year_state.h"

#include "tests/support/prints_fixture.h"
#include "ui/sunlight/day_state.h"

#include <algorithm>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::ui::sunlight;
using testing::HasSubstr;

namespace {

LightAsk askFor(const char* zone, double latitude, double longitude, QDate date)
{
    LightAsk ask;
    ask.site = { text("Yard"), { latitude, longitude, 0 }, QTimeZone(QByteArray(zone)), {}, {} };
    ask.date = date;
    ask.sky = { 0, light::Disc::Yes };
    ask.dose = { 2.4, text("as typed"), false };
    return ask;
}

class SunlightYear : public testing::Test {
protected:
    const YearState& vienna()
    {
        static const YearState year(askFor("Europe/Vienna", 48, 16, QDate(2026, 6, 9)));
        return year;
    }
};

// ISO 8601: the year 2026 begins on a Thursday and so has 53 weeks; week 1 begins on 2025-12-29. 2025 has 52.
TEST_F(SunlightYear, HasTheWeeksOfTheStandard)
{
    EXPECT_EQ(vienna().weeks(), 53);
    EXPECT_EQ(vienna().monday(1), QDate(2025, 12, 29));
    EXPECT_EQ(vienna().monday(53), QDate(2026, 12, 28));
    EXPECT_EQ(YearState(askFor("UTC", 48, 16, QDate(2025, 6, 9))).weeks(), 52);
    EXPECT_EQ(YearState(askFor("UTC", 48, 16, QDate(2025, 12, 30))).year(), 2026) << "a day of week 1 of 2026";
    EXPECT_EQ(vienna().weekWords(23), text("week 23 (1 to 7 June)"));
    EXPECT_EQ(vienna().weekWords(1), text("week 1 (29 December to 4 January)"));
}

TEST_F(SunlightYear, CellsAreWhatTheDayOfTheWeekSays)
{
    for (const int week : { 3, 24, 40 }) {
        const DayState day(askFor("Europe/Vienna", 48, 16, vienna().monday(week).addDays(3)));
        for (const int row : { 18, 21, 24, 28 }) {
            const auto& cell = vienna().cell(week, row);
            const auto& sample = day.near(row * 30);
            ASSERT_TRUE(cell);
            EXPECT_NEAR(cell->uva_w_m2, sample.likely_w_m2, 0.05);
            ASSERT_EQ(cell->needed.minutes.has_value(), sample.needed.minutes.has_value()) << week << " " << row;
            const double minutes = sample.needed.minutes.value_or(0);
            EXPECT_NEAR(cell->needed.minutes.value_or(0), minutes, 0.01 * minutes + 0.05);
        }
    }
    EXPECT_FALSE(vienna().cell(3, 0)) << "midnight";
}

TEST_F(SunlightYear, NamesTheWeeksThatCanPrint)
{
    // At 10:00 the clock's change in March puts the sun back by an hour: some limits fall in two runs.
    for (const double within : { 12.0, 15.0, 25.0 }) {
        const auto runs = vienna().printable(20, within);
        ASSERT_FALSE(runs.empty());
        for (int week = 1; week <= vienna().weeks(); ++week) {
            const auto& cell = vienna().cell(week, 20);
            const bool quick = cell && cell->needed.minutes && *cell->needed.minutes <= within;
            const bool named = std::any_of(
                runs.begin(), runs.end(), [week](const auto& run) { return week >= run.first && week <= run.last; });
            EXPECT_EQ(quick, named) << week;
        }
        const auto words = vienna().printableSentence(20, within).toStdString();
        EXPECT_THAT(words, HasSubstr("At 10:00"));
        for (const auto& run : runs)
            EXPECT_THAT(words, HasSubstr(std::to_string(run.first)));
        EXPECT_EQ(size_t(std::count(words.begin(), words.end(), '(')), runs.size());
    }
    EXPECT_THAT(vienna().printableSentence(20, 240).toStdString(), HasSubstr("every week"));
    EXPECT_THAT(vienna().printableSentence(2, 30).toStdString(), HasSubstr("no week"));
}

TEST_F(SunlightYear, OnTheSouthernHalfTheSummerIsAroundTheNewYear)
{
    const YearState south(askFor("Africa/Johannesburg", -34, 18.5, QDate(2026, 6, 9)));
    ASSERT_TRUE(south.cell(2, 24) && south.cell(26, 24));
    EXPECT_LT(*south.cell(2, 24)->needed.minutes, *south.cell(26, 24)->needed.minutes);
    const auto runs = south.printable(20, *south.cell(10, 20)->needed.minutes);
    ASSERT_EQ(runs.size(), 2u) << "before and after the winter";
    EXPECT_EQ(runs[0].first, 1);
    EXPECT_EQ(runs[1].last, 53);
}

TEST_F(SunlightYear, SeventyDegreesNorthHasWeeksWithoutAndWithASunAtMidnight)
{
    const YearState north(askFor("Europe/Oslo", 70, 25, QDate(2026, 6, 9)));
    EXPECT_FALSE(north.cell(52, 24));
    EXPECT_TRUE(north.cell(25, 0));
    EXPECT_EQ(north.litRows(), std::pair(0, YearState::rows - 1));
    EXPECT_THAT(north.readout(52, 24).toStdString(), HasSubstr("down"));
}

TEST_F(SunlightYear, ThePaneCounts)
{
    auto ask = askFor("Europe/Vienna", 48, 16, QDate(2026, 6, 9));
    ask.pane = Pane { text("a window"), true, {} };
    const YearState behind(ask);
    EXPECT_GT(*behind.cell(24, 24)->needed.minutes, 2 * *vienna().cell(24, 24)->needed.minutes);
    EXPECT_THAT(behind.heading().toStdString(), HasSubstr("a window"));
}

} // namespace

} // namespace WASHFAST_FILE
