// The lesson plan: worked timelines, the alternatives, and what has to hold whatever the class.
#include "core/drying/lesson_plan.h"

#include "core/stats/draw.h"

#include <cmath>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::drying;

namespace {

Rate exactRate(double per_min)
{
    return { { per_min, per_min, per_min }, 0.0, RateFrom::PaperAndMethod, 5 };
}

LightAtPaper steady(double w_m2, double give = 0.0)
{
    return [=](const Instant&) { return Bracket { w_m2 * (1 - give), w_m2, w_m2 * (1 + give) }; };
}

/// One pair of hands, one frame, one tray, no uncertainty.
LessonInput oneSheet()
{
    LessonInput input;
    input.starts = Instant::fromIso(std::string_view("2026-06-21T09:00:00Z")).value();
    input.sheets = input.coaters = input.frames = input.trays = 1;
    input.lesson_min = 90;
    input.talk_min = 5;
    input.clear_up_min = 5;
    input.coat_min = { 3, 3, 3 };
    input.rinse_min = { 8, 8, 8 };
    input.rate = exactRate(0.1);
    input.light = steady(50);
    input.dose_goal_j_cm2 = 3.0;
    return input;
}

Assumptions exact()
{
    Assumptions assumed;
    assumed.residual_pct = 2.0;
    assumed.residual_within_pct = 0.0;
    return assumed;
}

const StationTime& at(const Timeline& timeline, Station station)
{
    for (const auto& time : timeline.stations)
        if (time.station == station)
            return time;
    ADD_FAILURE() << "no station " << stationKey(station).toStdString();
    static const StationTime none;
    return none;
}

bool has(const Timeline& timeline, Station station)
{
    return std::any_of(timeline.stations.begin(), timeline.stations.end(),
        [&](const StationTime& time) { return time.station == station; });
}

} // namespace

TEST(LessonPlan, OneSheetWorkedByHand)
{
    // Coat 5 to 8; dry ln(98/3)/0.1 = 34.86 min, to 42.86; light 3 J/cm2 / (50 W/m2 x 60 s / 10^4) = 10 min, to 52.86;
    // rinse 8 min, to 60.86; cleared up at 65.86.
    const auto plan = planLesson(oneSheet(), {}, exact());
    const auto& line = plan.timeline;
    EXPECT_NEAR(at(line, Station::Coat).start_min.likely, 5.0, 1e-9);
    EXPECT_NEAR(at(line, Station::Coat).end_min.likely, 8.0, 1e-9);
    EXPECT_NEAR(at(line, Station::Dry).end_min.likely, 42.86, 0.01);
    EXPECT_NEAR(at(line, Station::Expose).end_min.likely, 52.86, 0.01);
    EXPECT_NEAR(at(line, Station::Rinse).end_min.likely, 60.86, 0.01);
    EXPECT_NEAR(line.end_min.likely, 65.86, 0.01);
    EXPECT_NEAR(line.end_min.high, line.end_min.low, 1e-6);
    EXPECT_EQ(line.fit, Fit::Yes);
    EXPECT_TRUE(plan.alternatives.empty());
    EXPECT_FALSE(has(line, Station::Hold));
    for (const auto& station : line.stations)
        EXPECT_FALSE(station.why.isEmpty());
}

TEST(LessonPlan, SheetsWaitForHandsFramesAndTrays)
{
    auto input = oneSheet();
    input.sheets = 4;
    input.coaters = 2;
    input.frames = 2;
    // Coated in two rounds of 3 min: the last at 11. Dry at 42.86 (two) and 45.86 (two). Light: two till 52.86, the
    // others wait for a frame till 62.86. One tray: 52.86, 60.86, then 68.86, 76.86, till 84.86.
    const auto line = planLesson(input, {}, exact()).timeline;
    EXPECT_NEAR(at(line, Station::Coat).end_min.likely, 11.0, 1e-9);
    EXPECT_NEAR(at(line, Station::Expose).end_min.likely, 62.86, 0.01);
    EXPECT_NEAR(at(line, Station::Rinse).end_min.likely, 84.86, 0.01);
    input.trays = 4;
    EXPECT_NEAR(at(planLesson(input, {}, exact()).timeline, Station::Rinse).end_min.likely, 70.86, 0.01);
}

TEST(LessonPlan, AHoldIsAStation)
{
    auto input = oneSheet();
    input.hold_min = 12;
    const auto line = planLesson(input, {}, exact()).timeline;
    EXPECT_NEAR(at(line, Station::Hold).end_min.likely - at(line, Station::Hold).start_min.likely, 12.0, 1e-9);
    EXPECT_NEAR(at(line, Station::Rinse).start_min.likely, 64.86, 0.01);
}

TEST(LessonPlan, FadingLightTakesLonger)
{
    auto input = oneSheet();
    const auto start = input.starts;
    // 50 W/m2 until minute 47, then 25: 4.14 min give 1.243 J/cm2, the rest 1.757 takes 11.71 min: till 58.71.
    input.light = [start](const Instant& when) {
        const double light = minutesBetween(start, when) < 47 ? 50.0 : 25.0;
        return Bracket { light, light, light };
    };
    EXPECT_NEAR(at(planLesson(input, {}, exact()).timeline, Station::Expose).end_min.likely, 58.71, 0.02);
}

TEST(LessonPlan, AlternativesWhenItDoesNotFit)
{
    auto input = oneSheet();
    input.lesson_min = 60;
    const auto plan = planLesson(input, {}, exact());
    EXPECT_EQ(plan.timeline.fit, Fit::No);
    ASSERT_EQ(plan.alternatives.size(), 2U);
    const auto& objects = plan.alternatives[0];
    EXPECT_EQ(objects.kind, Alternative::Kind::ObjectsWhileDamp);
    // 40 % left after ln(98/38)/0.1 = 9.47 min: light 17.47 to 27.47; dry at 42.86; rinse till 50.86; end 55.86.
    EXPECT_NEAR(at(objects.today, Station::Expose).start_min.likely, 17.47, 0.01);
    EXPECT_NEAR(at(objects.today, Station::Hold).end_min.likely, 42.86, 0.01) << "it is rinsed dry, not damp";
    EXPECT_NEAR(objects.today.end_min.likely, 55.86, 0.01);
    EXPECT_EQ(objects.today.fit, Fit::Yes);
    EXPECT_TRUE(objects.next_lesson.empty());
    const auto& later = plan.alternatives[1];
    EXPECT_EQ(later.kind, Alternative::Kind::RinseNextLesson);
    EXPECT_FALSE(has(later.today, Station::Rinse));
    EXPECT_NEAR(later.today.end_min.likely, 57.86, 0.01);
    EXPECT_THAT(later.next_lesson, testing::ElementsAre(Station::Rinse));
    for (const auto& alternative : plan.alternatives) {
        EXPECT_FALSE(alternative.title.isEmpty());
        EXPECT_FALSE(alternative.why.isEmpty());
        EXPECT_FALSE(alternative.price.isEmpty());
    }
}

TEST(LessonPlan, WhatDoesNotFitTodayIsLeftForNextTime)
{
    auto input = oneSheet();
    input.lesson_min = 50; // dry at 42.86, cleared up at 47.86
    const auto dried = planLesson(input, {}, exact()).alternatives.at(1);
    EXPECT_FALSE(has(dried.today, Station::Expose));
    EXPECT_EQ(dried.today.fit, Fit::Yes);
    EXPECT_THAT(dried.next_lesson, testing::ElementsAre(Station::Expose, Station::Rinse));
    input.lesson_min = 20;
    const auto coated = planLesson(input, {}, exact()).alternatives.at(1);
    EXPECT_FALSE(has(coated.today, Station::Dry));
    EXPECT_THAT(coated.next_lesson, testing::ElementsAre(Station::Dry, Station::Expose, Station::Rinse));
}

TEST(LessonPlan, UnderFilmInSaturatedAirOrInTheDarkNothingEnds)
{
    auto covered = oneSheet();
    covered.dried_covered = true;
    const auto under_film = planLesson(covered, {}, exact());
    EXPECT_EQ(under_film.timeline.fit, Fit::No);
    EXPECT_TRUE(std::isinf(under_film.timeline.end_min.likely));
    EXPECT_THAT(under_film.answer.toStdString(), testing::HasSubstr("under film"));

    auto saturated = oneSheet();
    saturated.rate.reset();
    saturated.room = { 20, 100 };
    const auto wet = planLesson(saturated, {}, exact());
    EXPECT_EQ(wet.timeline.fit, Fit::No);
    EXPECT_THAT(wet.answer.toStdString(), testing::HasSubstr("saturated"));

    auto night = oneSheet();
    night.light = steady(0);
    const auto dark = planLesson(night, {}, exact());
    EXPECT_EQ(dark.timeline.fit, Fit::No);
    EXPECT_THAT(dark.answer.toStdString(), testing::HasSubstr("light does not reach 3.0 J/cm²"));
    night.light = {};
    EXPECT_THAT(planLesson(night, {}, exact()).answer.toStdString(), testing::HasSubstr("light is not known"));
    for (const auto* plan : { &under_film, &wet, &dark })
        EXPECT_EQ(plan->alternatives.size(), 2U);
}

TEST(LessonPlan, DriesSoonerInDrierAir)
{
    auto input = oneSheet();
    input.rate.reset();
    double before = 0.0;
    for (double humidity = 10; humidity < 100; humidity += 10) {
        input.room = { 20, humidity };
        const auto plan = planLesson(input);
        const double dry = at(plan.timeline, Station::Dry).end_min.likely;
        EXPECT_GT(dry, before) << humidity;
        before = dry;
        EXPECT_EQ(plan.rate->from, RateFrom::WetSurface);
        EXPECT_THAT(plan.assumed.join(QLatin1Char('\n')).toStdString(), testing::HasSubstr("first estimate"));
    }
}

TEST(LessonPlan, NoSheetsNoTrouble)
{
    auto input = oneSheet();
    input.sheets = 0;
    const auto plan = planLesson(input);
    EXPECT_TRUE(plan.timeline.stations.empty());
    EXPECT_EQ(plan.timeline.fit, Fit::Yes);
}

// Over many made-up classes: ends in order, stations in order, alternatives exactly when it does not surely fit, and
// the answer to "does it fit" is that of the ends.
TEST(LessonPlan, HoldsForEveryClass)
{
    stats::Draw draw(0x5EED'0021);
    int fits = 0, uncertain = 0, not_fits = 0;
    for (int i = 0; i < 300; ++i) {
        LessonInput input;
        input.starts = Instant::fromIso(std::string_view("2026-06-21T09:00:00Z")).value();
        input.sheets = 1 + int(draw.below(36));
        input.coaters = 1 + int(draw.below(12));
        input.frames = 1 + int(draw.below(30));
        input.trays = 1 + int(draw.below(12));
        input.lesson_min = 40 + 120 * draw.unit();
        input.room = { 12 + 16 * draw.unit(), 20 + 75 * draw.unit() };
        input.coat_ml_m2 = 12 + 25 * draw.unit();
        input.dose_goal_j_cm2 = 0.5 + 4 * draw.unit();
        input.light = steady(5 + 45 * draw.unit(), 0.3 * draw.unit());
        input.film = draw.below(2) == 1;
        input.dry_method = draw.below(2) == 1 ? QStringLiteral("fan") : QStringLiteral("hung");
        const auto plan = planLesson(input);
        const auto& line = plan.timeline;
        for (const auto& time : line.stations) {
            EXPECT_LE(time.start_min.low, time.start_min.likely);
            EXPECT_LE(time.start_min.likely, time.start_min.high);
            EXPECT_LE(time.end_min.low, time.end_min.likely);
            EXPECT_LE(time.end_min.likely, time.end_min.high);
            EXPECT_LE(time.start_min.likely, time.end_min.likely);
        }
        for (size_t s = 1; s < line.stations.size(); ++s) {
            EXPECT_LT(line.stations[s - 1].station, line.stations[s].station);
            EXPECT_LE(line.stations[s - 1].start_min.likely, line.stations[s].start_min.likely);
        }
        EXPECT_EQ(plan.alternatives.empty(), line.fit == Fit::Yes);
        EXPECT_EQ(line.fit == Fit::Yes, line.end_min.high <= input.lesson_min);
        EXPECT_EQ(line.fit == Fit::No, line.end_min.likely > input.lesson_min);
        for (const auto& alternative : plan.alternatives) {
            const bool objects = alternative.kind == Alternative::Kind::ObjectsWhileDamp;
            EXPECT_TRUE(!objects || alternative.today.end_min.likely <= line.end_min.likely + 1e-6) << "never slower";
        }
        EXPECT_FALSE(plan.answer.isEmpty());
        EXPECT_FALSE(plan.answer.contains(QLatin1String("never"))) << plan.answer.toStdString();
        ++(line.fit == Fit::Yes ? fits : line.fit == Fit::No ? not_fits : uncertain);
    }
    EXPECT_GT(fits, 10);
    EXPECT_GT(uncertain, 10);
    EXPECT_GT(not_fits, 10);
}

} // namespace WASHFAST_FILE
