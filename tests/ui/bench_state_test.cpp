// Where a sheet is, from its record alone: every station in every state, the words for it, and the counts over a class.
#include "tests/support/small_notebook.h"
#include "ui/bench/cell_state.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

constexpr const char* noon = "2024-06-21T12:00:00+00:00";
constexpr const char* half = "2024-06-21T12:30:00+00:00";
constexpr const char* one = "2024-06-21T13:00:00+00:00";
constexpr const char* two = "2024-06-21T14:00:00+00:00";

class BenchState : public testing::Test {
protected:
    [[nodiscard]] SheetStates states(qint64 print, const char* now = one) const
    {
        const PrintReader reader(book.notebook());
        return sheetStates(reader, book.row(print), at(now));
    }
    [[nodiscard]] CellState state(qint64 print, Station station, const char* now = one) const
    {
        return stateAt(states(print, now), station);
    }
    [[nodiscard]] Stage stage(qint64 print, Station station) const { return state(print, station).stage; }
    qint64 expose(qint64 print, int number, const char* start, const char* end = nullptr)
    {
        const auto id = book.add(Entity::Exposure, { { "expose_number", number }, { "expose_start", start } }, print);
        if (end)
            book.set({ Entity::Exposure, id }, "expose_end", end);
        return id;
    }
    void light(qint64 print, int number, double watts)
    {
        book.add(Entity::Meter, { { "meter_number", number }, { "meter_uva_w_m2", watts } }, print);
    }
    [[nodiscard]] std::string figure(const CellState& state, int at = 0) const
    {
        return figureTexts(state, book.catalogue(), QLocale::c()).value(at).toStdString();
    }

    SmallNotebook book;
};

} // namespace

TEST_F(BenchState, AFreshSheetWaitsForItsCoat)
{
    const auto all = states(book.print("A1"));
    for (const auto& one : all) {
        EXPECT_EQ(one.stage, Stage::Waiting);
        EXPECT_FALSE(one.minutes.has_value());
    }
    EXPECT_TRUE(stateAt(all, Station::Coat).next);
    EXPECT_FALSE(stateAt(all, Station::Dry).next) << "it waits for one station only";
    EXPECT_FALSE(runningAt(all).has_value());
}

TEST_F(BenchState, APrintThatIsNotThereSaysNothing)
{
    const PrintReader reader(book.notebook());
    EXPECT_EQ(sheetStates(reader, -1, at(one)), SheetStates {});
}

class StationWithTimes : public BenchState, public testing::WithParamInterface<Station> { };

TEST_P(StationWithTimes, WaitsRunsAndIsDone)
{
    const auto station = GetParam();
    const auto print = book.print("A1");
    EXPECT_EQ(stage(print, station), Stage::Waiting);
    book.set({ Entity::Print, print }, startKey(station).toUtf8().constData(), noon);
    auto now = state(print, station, half);
    EXPECT_EQ(now.stage, Stage::Running);
    EXPECT_DOUBLE_EQ(now.minutes.value_or(-1), 30.0);
    EXPECT_EQ(runningAt(states(print)), station);
    EXPECT_DOUBLE_EQ(state(print, station, one).minutes.value_or(-1), 60.0) << "time goes on";
    book.set({ Entity::Print, print }, endKey(station).toUtf8().constData(), half);
    now = state(print, station, two);
    EXPECT_EQ(now.stage, Stage::Done);
    EXPECT_DOUBLE_EQ(now.minutes.value_or(-1), 30.0) << "and stops with the station";
    EXPECT_FALSE(runningAt(states(print)).has_value());
}

TEST_P(StationWithTimes, ThatEndsBeforeItBeginsSaysSo)
{
    const auto station = GetParam();
    const auto print = book.print("A1");
    book.set({ Entity::Print, print }, startKey(station).toUtf8().constData(), one);
    book.set({ Entity::Print, print }, endKey(station).toUtf8().constData(), noon);
    const auto now = state(print, station);
    EXPECT_TRUE(now.contradicts);
    EXPECT_FALSE(now.minutes.has_value());
    EXPECT_EQ(stateText(now, QLocale::c()), QStringLiteral("times?"));
}

TEST_P(StationWithTimes, WithAnEndOnlyIsDoneWithoutADuration)
{
    const auto print = book.print("A1");
    book.set({ Entity::Print, print }, endKey(GetParam()).toUtf8().constData(), noon);
    const auto now = state(print, GetParam());
    EXPECT_EQ(now.stage, Stage::Done);
    EXPECT_FALSE(now.minutes.has_value());
    EXPECT_EQ(stateText(now, QLocale::c()), QStringLiteral("done"));
}

INSTANTIATE_TEST_SUITE_P(Each, StationWithTimes,
    testing::Values(Station::Coat, Station::Dry, Station::Hold, Station::Rinse),
    [](const auto& station) { return stationKey(station.param).toStdString(); });

TEST_F(BenchState, AStationThatWasSkippedIsPassed)
{
    const auto print = book.print("A1", { { "coat_start", noon }, { "coat_end", noon } });
    expose(print, 1, half);
    EXPECT_EQ(stage(print, Station::Dry), Stage::Passed);
    EXPECT_EQ(stage(print, Station::Hold), Stage::Waiting);
    EXPECT_TRUE(state(print, Station::Hold).next);
}

TEST_F(BenchState, AnEndThatNobodyNotedIsNotCountedOn)
{
    const auto print = book.print("A1", { { "coat_start", noon }, { "dry_start", half }, { "dose_goal_j_cm2", 2.0 } });
    auto now = state(print, Station::Coat);
    EXPECT_EQ(now.stage, Stage::Done) << "it dries, so it is coated";
    EXPECT_TRUE(now.end_missing);
    EXPECT_FALSE(now.minutes.has_value());
    EXPECT_EQ(stateText(now, QLocale::c()), QStringLiteral("end?"));
    expose(print, 1, one);
    light(print, 1, 25);
    const char* next_week = "2024-06-28T12:00:00+00:00";
    now = state(print, Station::Expose, next_week);
    EXPECT_EQ(now.stage, Stage::Done) << "no exposure takes a week";
    EXPECT_TRUE(now.end_missing);
    EXPECT_FALSE(now.figure.has()) << "and no dose is made up for it";
    EXPECT_FALSE(now.goal_share.has_value());
    const auto held = book.print("A2", { { "hold_start", noon } });
    EXPECT_EQ(state(held, Station::Hold, next_week).stage, Stage::Running) << "until the next lesson";
}

TEST_F(BenchState, AControlIsNotExposed)
{
    const auto print = book.print("A1", { { "print_method", "control" } });
    EXPECT_EQ(stage(print, Station::Expose), Stage::Passed);
    EXPECT_EQ(stage(print, Station::Hold), Stage::Passed);
    EXPECT_EQ(stage(print, Station::Coat), Stage::Waiting);
    expose(print, 1, noon);
    EXPECT_EQ(stage(print, Station::Expose), Stage::Running) << "what was recorded counts";
}

TEST_F(BenchState, AnEarlyOutcomeDoesNotMoveTheSheet)
{
    const auto print = book.print("A1", { { "coat_start", noon }, { "print_outcome", "fogged" } });
    EXPECT_EQ(stage(print, Station::Read), Stage::Done);
    EXPECT_EQ(stage(print, Station::Rinse), Stage::Waiting);
    book.reading(print, "day_after", "deepest", 0.9);
    EXPECT_EQ(stage(print, Station::Rinse), Stage::Passed) << "a day after, the rinse is over";
}

// 1 W = 1 J/s (SI Brochure, BIPM, 9th edition, table 4), and 10,000 cm2 make a square metre: 25 W/m2 for 10 minutes are
// 25 x 600 / 10,000 = 1.5 J/cm2.
TEST_F(BenchState, TheDoseGoesTowardItsGoalWhileTheSheetIsOut)
{
    const auto print = book.print("A1", { { "dose_goal_j_cm2", 2.0 } });
    expose(print, 1, noon);
    light(print, 1, 20);
    light(print, 2, 30);
    const auto now = state(print, Station::Expose, "2024-06-21T12:10:00+00:00");
    ASSERT_TRUE(now.figure.number().has_value());
    EXPECT_NEAR(*now.figure.number(), 1.5, 1e-12);
    EXPECT_EQ(now.figure.evidence, Evidence::Estimated) << "it still runs";
    EXPECT_NEAR(now.goal_share.value_or(-1), 0.75, 1e-12);
    // 0.5 J/cm2 are missing: 5,000 J/m2 / 25 W/m2 = 200 s, a little over three minutes.
    ASSERT_TRUE(now.left_min);
    EXPECT_NEAR(now.left_min->likely, 200.0 / 60.0, 1e-9);
    EXPECT_EQ(figure(now), "≈1.50 / 2.00 J/cm², about 4 min left");
    EXPECT_EQ(figure(now, 1), "about 4 min left");
    EXPECT_EQ(figure(now, 2), "≈ 4 min");
    EXPECT_EQ(figure(now, 3), "75 %");
    const auto later = state(print, Station::Expose, "2024-06-21T12:14:00+00:00");
    EXPECT_NEAR(later.goal_share.value_or(-1), 1.05, 1e-12);
    EXPECT_EQ(figure(later, 1), "reached");
}

TEST_F(BenchState, TheRunningDoseMeetsTheFinalOne)
{
    const auto print = book.print("A1", { { "dose_goal_j_cm2", 2.0 } });
    const auto exposure = expose(print, 1, noon);
    light(print, 1, 20);
    light(print, 2, 27);
    const auto running = state(print, Station::Expose, half).figure.number();
    book.set({ Entity::Exposure, exposure }, "expose_end", half);
    const auto done = state(print, Station::Expose, two);
    ASSERT_TRUE(running && done.figure.number());
    EXPECT_NEAR(*running, *done.figure.number(), 1e-12);
    EXPECT_EQ(done.figure.evidence, Evidence::Measured);
}

TEST_F(BenchState, WithoutMeterOrGoalNothingIsFilled)
{
    const auto without_goal = book.print("A1");
    expose(without_goal, 1, noon);
    light(without_goal, 1, 25);
    EXPECT_FALSE(state(without_goal, Station::Expose).goal_share.has_value());
    EXPECT_EQ(figure(state(without_goal, Station::Expose, half)), "≈4.50 J/cm²");
    const auto without_meter = book.print("A2", { { "dose_goal_j_cm2", 2.0 } });
    expose(without_meter, 1, noon);
    EXPECT_FALSE(state(without_meter, Station::Expose).goal_share.has_value());
    EXPECT_EQ(figure(state(without_meter, Station::Expose)), "") << "not recorded is not zero";
    const auto goal_of_nothing = book.print("A3", { { "dose_goal_j_cm2", 0.0 } });
    expose(goal_of_nothing, 1, noon);
    light(goal_of_nothing, 1, 25);
    EXPECT_FALSE(state(goal_of_nothing, Station::Expose).goal_share.has_value());
}

TEST_F(BenchState, ExposuresAddUpWithoutTheirPauses)
{
    const auto print = book.print("A1");
    const auto first = expose(print, 1, noon, half);
    book.set({ Entity::Exposure, first }, "expose_pause_min", 4);
    expose(print, 2, one);
    const auto now = state(print, Station::Expose, "2024-06-21T13:05:00+00:00");
    EXPECT_EQ(now.stage, Stage::Running);
    EXPECT_EQ(now.count, 2);
    EXPECT_EQ(now.since, at(one)) << "the one that runs";
    EXPECT_DOUBLE_EQ(now.minutes.value_or(-1), 31.0);
}

TEST_F(BenchState, AnExposureMadeForItsCoverOnlyHasNotBegun)
{
    const auto print = book.print("A1");
    const auto cover = book.add(Entity::Cover, { { "cover_name", "glass 4" } });
    book.add(Entity::Exposure, { { "expose_number", 1 }, { "expose_cover", cover } }, print);
    EXPECT_EQ(stage(print, Station::Expose), Stage::Waiting);
}

TEST_F(BenchState, TheLastTouchIsTheLatestAndNotTheLastTyped)
{
    const auto print = book.print("A1", { { "dry_start", noon } });
    book.add(Entity::Touch, { { "touch_time", one }, { "touch_state", "dry" } }, print);
    book.add(Entity::Touch, { { "touch_time", half }, { "touch_state", "clings" } }, print);
    const auto now = state(print, Station::Dry);
    EXPECT_EQ(now.figure.text(), QStringLiteral("dry"));
    EXPECT_EQ(figure(now), "dry to the touch");
    EXPECT_EQ(figure(now, 1), "touch 4") << "the digit that sets it";
}

TEST_F(BenchState, MoistureFromWeighingsSaysMoreThanATouch)
{
    const auto print = book.print("A1", { { "dry_start", noon }, { "dry_end", half } });
    book.add(Entity::Touch, { { "touch_time", half }, { "touch_state", "dry" } }, print);
    book.weighing(print, "bare", 10);
    book.weighing(print, "coated", 11);
    book.weighing(print, "before_expose", 10.3);
    const auto now = state(print, Station::Dry);
    EXPECT_EQ(now.figure_key, QStringLiteral("moisture_at_expose_pct"));
    EXPECT_TRUE(now.figure.number().has_value());
}

TEST_F(BenchState, ReadGoesFromNothingToKept)
{
    const auto print = book.print("A1");
    EXPECT_EQ(stage(print, Station::Read), Stage::Waiting);
    book.reading(print, "before_rinse", "deepest", 1.10);
    book.reading(print, "before_rinse", "covered", 0.10);
    auto now = state(print, Station::Read);
    EXPECT_EQ(now.stage, Stage::Begun);
    EXPECT_EQ(now.count, 2);
    EXPECT_EQ(figure(now), "formed 1.00");
    book.reading(print, "day_after", "deepest", 0.90);
    book.reading(print, "day_after", "paper", 0.10);
    now = state(print, Station::Read);
    EXPECT_EQ(now.stage, Stage::Done);
    EXPECT_EQ(figure(now), "kept 0.80");
    EXPECT_FALSE(now.failed);
}

TEST_F(BenchState, AFailureIsSaidByWord)
{
    const auto print = book.print("A1", { { "print_outcome", "ran_off" } });
    const auto now = state(print, Station::Read);
    EXPECT_TRUE(now.failed);
    EXPECT_EQ(stateText(now, QLocale::c()), QStringLiteral("failed"));
    EXPECT_EQ(figure(now), "ran off");
    const auto good = book.print("A2", { { "print_outcome", "kept" } });
    EXPECT_FALSE(state(good, Station::Read).failed);
}

TEST(BenchWords, AClockShowsMinutesAndSeconds)
{
    EXPECT_EQ(clockText(0), QStringLiteral("00:00"));
    EXPECT_EQ(clockText(-3), QStringLiteral("00:00"));
    EXPECT_EQ(clockText(4.5), QStringLiteral("04:30"));
    EXPECT_EQ(clockText(59 + 59.0 / 60), QStringLiteral("59:59"));
    EXPECT_EQ(clockText(60), QStringLiteral("1:00:00"));
    EXPECT_EQ(clockText(1.0 / 60), QStringLiteral("00:01")) << "no second is lost to rounding";
    for (int seconds = 0; seconds < 4000; ++seconds) {
        const auto parts = clockText(seconds / 60.0).split(QLatin1Char(':'));
        int back = 0;
        for (const auto& part : parts)
            back = back * 60 + part.toInt();
        ASSERT_EQ(back, seconds);
    }
}

TEST_F(BenchState, TheSentenceForAScreenReaderSaysAllOfIt)
{
    const auto print = book.print("A1", { { "dose_goal_j_cm2", 2.0 } });
    expose(print, 1, noon);
    light(print, 1, 25);
    const auto sentence = stateSentence(
        state(print, Station::Expose, "2024-06-21T12:10:00+00:00"), Station::Expose, book.catalogue(), QLocale::c());
    for (const char* part :
        { "Expose", "running since 12:00", "10:00 so far", "1.50 J/cm²", "75 % of the dose wanted" })
        EXPECT_TRUE(sentence.contains(QString::fromUtf8(part))) << part << " is not in " << sentence.toStdString();
}

TEST_F(BenchState, EverySheetIsCountedOnce)
{
    book.print("waits");
    book.print("coats", { { "coat_start", noon } });
    book.print("between", { { "coat_start", noon }, { "coat_end", half } });
    expose(book.print("out"), 1, noon);
    book.reading(book.print("over"), "day_after", "deepest", 1);
    std::vector<SheetStates> sheets;
    const PrintReader reader(book.notebook());
    for (int row = 0; row < book.notebook().prints().rows(); ++row)
        sheets.push_back(sheetStates(reader, row, at(one)));
    const auto counts = countSheets(sheets);
    EXPECT_EQ(counts.not_begun, 1);
    EXPECT_EQ(counts.finished, 1);
    EXPECT_THAT(counts.running, testing::ElementsAre(1, 0, 1, 0, 0, 0));
    EXPECT_THAT(counts.waiting, testing::ElementsAre(0, 1, 0, 0, 0, 0));
    EXPECT_EQ(countsText(counts),
        QStringLiteral("5 prints: 1 not begun · 1 at Coat · 1 at Expose · 1 waiting for Dry · 1 finished"));
    EXPECT_EQ(countsText({}), QStringLiteral("0 prints"));
}

} // namespace WASHFAST_FILE
