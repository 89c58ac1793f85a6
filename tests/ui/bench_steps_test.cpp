// What a key press writes, and what is proposed: stations, touch, light, masses, densities, codes.
#include "tests/support/desk_fixture.h"
#include "ui/bench/codes.h"
#include "ui/bench/entry.h"
#include "ui/bench/new_prints.h"

#include <gmock/gmock.h>
#include <set>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

class BenchSteps : public testing::Test {
protected:
    BenchSteps()
    {
        room.sit(room.add(Entity::Session, { { "session_code", "A1" } }));
        print = room.print("A1-01");
    }
    [[nodiscard]] CellState state(Station station)
    {
        return cellState(room.desk().reader(), room.desk().notebook().prints().find(print), station, room.desk().now());
    }
    bool run(const std::function<Outcome(store::Writer&)>& work)
    {
        return room.desk().perform(QStringLiteral("step"), work);
    }
    bool start(Station station)
    {
        return run([&](store::Writer& w) { return startStation(w, print, station, room.desk().now()); });
    }
    bool end(Station station)
    {
        return run([&](store::Writer& w) { return endStation(w, print, station, room.desk().now()); });
    }
    [[nodiscard]] Known child(Entity entity, int at, const char* column)
    {
        const auto rows = room.desk().notebook().children(entity, print);
        const auto& table = room.desk().notebook().table(entity);
        return table.at(rows[size_t(at)], room.catalogue().column(entity, QString::fromUtf8(column)));
    }

    DeskFixture room;
    qint64 print = 0;
};

CellState in(Stage stage)
{
    CellState state;
    state.stage = stage;
    return state;
}

} // namespace

TEST(BenchPress, SpaceStartsWhatWaitsAndEndsWhatRuns)
{
    for (const auto station : { Station::Coat, Station::Dry, Station::Expose, Station::Hold, Station::Rinse }) {
        EXPECT_EQ(pressOn(in(Stage::Waiting), station), Press::Start);
        EXPECT_EQ(pressOn(in(Stage::Running), station), Press::End);
        EXPECT_EQ(pressOn(in(Stage::Passed), station), Press::Nothing);
        EXPECT_EQ(pressOn(in(Stage::Done), station), station == Station::Expose ? Press::Again : Press::Nothing);
    }
    for (const auto stage : { Stage::Waiting, Stage::Running, Stage::Done, Stage::Begun })
        EXPECT_EQ(pressOn(in(stage), Station::Read), Press::Nothing);
}

TEST(BenchPress, TheCurrentSheetSaysWhatIsDoneToTheChosenOnes)
{
    const std::vector<Chosen> chosen { { 1, in(Stage::Waiting) }, { 2, in(Stage::Running) }, { 3, in(Stage::Waiting) },
        { 4, in(Stage::Done) } };
    auto plan = planPress(Station::Dry, in(Stage::Waiting), chosen);
    EXPECT_EQ(plan.press, Press::Start);
    EXPECT_THAT(plan.prints, testing::ElementsAre(1, 3));
    EXPECT_EQ(plan.left_alone, 2);
    plan = planPress(Station::Dry, in(Stage::Running), chosen);
    EXPECT_EQ(plan.press, Press::End);
    EXPECT_THAT(plan.prints, testing::ElementsAre(2));
    plan = planPress(Station::Dry, in(Stage::Done), chosen);
    EXPECT_EQ(plan.press, Press::Nothing);
    EXPECT_TRUE(plan.prints.isEmpty());
}

TEST(BenchPress, TheStepSaysWhatItDid)
{
    EXPECT_EQ(pressLabel(Press::Start, Station::Expose, 12, {}), QStringLiteral("Start Expose, 12 prints"));
    EXPECT_EQ(pressLabel(Press::End, Station::Dry, 1, QStringLiteral("A1-07")), QStringLiteral("End Dry, A1-07"));
}

TEST_F(BenchSteps, ASheetIsAtOneStationAtATime)
{
    ASSERT_TRUE(start(Station::Coat));
    room.clock.advanceMinutes(2);
    ASSERT_TRUE(start(Station::Dry));
    const auto moment = room.desk().now();
    EXPECT_EQ(room.time(print, "coat_end"), moment);
    EXPECT_EQ(room.time(print, "dry_start"), moment) << "at the same moment";
    room.clock.advanceMinutes(9);
    ASSERT_TRUE(start(Station::Expose));
    EXPECT_EQ(room.time(print, "dry_end"), room.desk().now());
    room.clock.advanceMinutes(9);
    ASSERT_TRUE(start(Station::Rinse));
    EXPECT_EQ(room.time(print, "expose_end"), room.desk().now());
    EXPECT_EQ(runningAt(sheetStates(room.desk().reader(), 0, room.desk().now())), Station::Rinse);
}

TEST_F(BenchSteps, WhatHasEndedIsLeftAsItIs)
{
    ASSERT_TRUE(start(Station::Coat));
    room.clock.advanceMinutes(2);
    ASSERT_TRUE(end(Station::Coat));
    const auto ended = room.desk().now();
    room.clock.advanceMinutes(5);
    ASSERT_TRUE(start(Station::Dry));
    EXPECT_EQ(room.time(print, "coat_end"), ended);
}

TEST_F(BenchSteps, AForgottenEndIsNotInvented)
{
    room.set({ Entity::Print, print }, "coat_start", room.desk().now());
    room.clock.advanceMinutes(30);
    room.set(
        { Entity::Print, print }, "dry_start", room.desk().now()); // typed in later: nobody noted the end of the coat
    room.clock.advanceMinutes(30);
    ASSERT_TRUE(start(Station::Expose));
    EXPECT_FALSE(room.time(print, "coat_end").has_value()) << "it was over half an hour ago";
    EXPECT_EQ(room.time(print, "dry_end"), room.desk().now()) << "this is what it leaves now";
    room.clock.advanceMinutes(7 * 24 * 60);
    ASSERT_TRUE(start(Station::Rinse));
    EXPECT_FALSE(room.time(print, "expose_end").has_value()) << "no exposure takes a week";
    EXPECT_TRUE(state(Station::Expose).end_missing);
}

TEST_F(BenchSteps, AHoldMayLastUntilTheNextLesson)
{
    ASSERT_TRUE(start(Station::Hold));
    room.clock.advanceMinutes(7 * 24 * 60);
    ASSERT_TRUE(start(Station::Rinse));
    EXPECT_EQ(room.time(print, "hold_end"), room.desk().now());
}

TEST_F(BenchSteps, StartingTwiceIsRefusedAndWritesNothing)
{
    ASSERT_TRUE(start(Station::Coat));
    const auto first = room.time(print, "coat_start");
    room.clock.advanceMinutes(1);
    room.expectTrouble();
    EXPECT_FALSE(start(Station::Coat)) << "another window was quicker";
    EXPECT_EQ(room.time(print, "coat_start"), first);
    EXPECT_EQ(room.troubles().size(), 1);
}

TEST_F(BenchSteps, EveryFurtherExposureHasItsNumber)
{
    for (int n = 1; n <= 3; ++n) {
        ASSERT_TRUE(start(Station::Expose));
        room.clock.advanceMinutes(n);
        ASSERT_TRUE(end(Station::Expose));
        room.clock.advanceMinutes(1);
    }
    ASSERT_EQ(room.childrenOf(print, Entity::Exposure), 3);
    for (int n = 0; n < 3; ++n)
        EXPECT_EQ(child(Entity::Exposure, n, "expose_number").number(), n + 1.0);
    EXPECT_DOUBLE_EQ(room.number(print, "expose_minutes").value_or(-1), 6.0);
}

TEST_F(BenchSteps, AnExposureMadeForItsCoverIsUsed)
{
    room.add(Entity::Exposure, { { "expose_number", 1 }, { "expose_place", "window" } }, print);
    ASSERT_TRUE(start(Station::Expose));
    ASSERT_EQ(room.childrenOf(print, Entity::Exposure), 1);
    EXPECT_EQ(room.text(print, "expose_place"), "window");
    EXPECT_EQ(room.time(print, "expose_start"), room.desk().now());
}

TEST_F(BenchSteps, TheRinseGetsItsFirstBathOnce)
{
    ASSERT_TRUE(start(Station::Rinse));
    ASSERT_EQ(room.childrenOf(print, Entity::Bath), 1);
    EXPECT_EQ(child(Entity::Bath, 0, "bath_position").number(), 1.0);
    room.desk().undo();
    EXPECT_EQ(room.childrenOf(print, Entity::Bath), 0) << "one step, taken back whole";
    room.add(Entity::Bath, { { "bath_position", 1 }, { "bath_water", "rain" } }, print);
    ASSERT_TRUE(start(Station::Rinse));
    EXPECT_EQ(room.childrenOf(print, Entity::Bath), 1);
}

TEST_F(BenchSteps, ATouchKnowsWhetherTheSheetWasOut)
{
    const auto touch = [&](const char* state) {
        return run([&](store::Writer& w) { return addTouch(w, print, QLatin1String(state), room.desk().now()); });
    };
    ASSERT_TRUE(touch("cool"));
    EXPECT_EQ(child(Entity::Touch, 0, "touch_moment").text(), QStringLiteral("drying"));
    EXPECT_EQ(child(Entity::Touch, 0, "touch_time").time(), room.desk().now());
    EXPECT_EQ(child(Entity::Touch, 0, "touch_state").evidence, Evidence::Estimated) << "felt, not measured";
    room.clock.advanceMinutes(5);
    ASSERT_TRUE(start(Station::Expose));
    EXPECT_EQ(room.text(print, "touch_at_expose"), "cool") << "the derived field finds it";
    ASSERT_TRUE(touch("dry"));
    EXPECT_EQ(child(Entity::Touch, 1, "touch_moment").text(), QStringLiteral("before_rinse"));
}

TEST_F(BenchSteps, LightReadingsAreNumberedAndKnowTheirExposure)
{
    ASSERT_TRUE(start(Station::Expose));
    room.clock.advanceMinutes(1);
    for (const double watts : { 20.0, 30.0 })
        ASSERT_TRUE(run([&](store::Writer& w) { return addLight(w, print, knownNumber(watts), room.desk().now()); }));
    ASSERT_EQ(room.childrenOf(print, Entity::Meter), 2);
    EXPECT_EQ(child(Entity::Meter, 1, "meter_number").number(), 2.0);
    EXPECT_EQ(child(Entity::Meter, 1, "meter_exposure").number(), 1.0);
    EXPECT_EQ(child(Entity::Meter, 0, "meter_time").time(), room.desk().now());
    EXPECT_EQ(room.number(print, "uva_mean_w_m2"), 25.0);
}

TEST_F(BenchSteps, AMassIsPutRightButWhileDryingAdded)
{
    const auto weigh = [&](const char* state, double grams) {
        return run([&](store::Writer& w) {
            return enterWeighing(w, print, QLatin1String(state), knownNumber(grams), room.desk().now());
        });
    };
    ASSERT_TRUE(weigh("coated", 12.1));
    ASSERT_TRUE(weigh("coated", 12.4));
    EXPECT_EQ(room.childrenOf(print, Entity::Weighing), 1);
    EXPECT_EQ(room.number(print, "mass_coated_g"), 12.4);
    ASSERT_TRUE(weigh("drying", 12.0));
    ASSERT_TRUE(weigh("drying", 11.8));
    EXPECT_EQ(room.childrenOf(print, Entity::Weighing), 3) << "a row of them makes the drying curve";
}

TEST_F(BenchSteps, ADensitySaysHowItWasFound)
{
    const auto read = [&](double density, const char* method) {
        const ReadingKind kind { QStringLiteral("day_after"), QStringLiteral("deepest"), QLatin1String(method),
            QStringLiteral("red") };
        return run(
            [&](store::Writer& w) { return enterReading(w, print, kind, knownNumber(density), room.desk().now()); });
    };
    ASSERT_TRUE(read(0.91, "scan"));
    EXPECT_EQ(child(Entity::Reading, 0, "reading_method").text(), QStringLiteral("scan"));
    EXPECT_EQ(child(Entity::Reading, 0, "reading_channel").text(), QStringLiteral("red"));
    EXPECT_EQ(room.get(print, "density_day_after_deepest").evidence, Evidence::Measured);
    ASSERT_TRUE(read(0.93, "scan"));
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 1) << "put right, not doubled";
    ASSERT_TRUE(read(0.9, "by_eye"));
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 2) << "another way of reading stands beside it";
    EXPECT_EQ(room.number(print, "density_day_after_deepest"), 0.93) << "what was measured counts";
    EXPECT_EQ(room.get(print, "density_day_after_deepest").evidence, Evidence::Measured);
}

TEST_F(BenchSteps, EveryEntryIsWrittenWhereItIsReadFrom)
{
    const auto entries = entriesOf(room.catalogue());
    std::set<QString> ids;
    int checked = 0;
    for (const auto& entry : entries) {
        EXPECT_TRUE(ids.insert(entry.id).second) << entry.id.toStdString() << " is offered twice";
        if (entry.field->kind != Kind::Number || entry.kind == Entry::Kind::Light
            || entry.weigh_state == QLatin1String("drying"))
            continue;
        const double value = entry.field->low.value_or(0) + 1.0;
        ASSERT_TRUE(run([&](store::Writer& w) {
            return writeEntry(w, print, entry, knownNumber(value), {}, {}, room.desk().now());
        })) << entry.id.toStdString();
        EXPECT_EQ(entered(room.desk(), print, entry).number(), value) << entry.id.toStdString();
        ++checked;
    }
    EXPECT_GT(checked, 40);
}

TEST_F(BenchSteps, WhatIsWeighedAndReadFollowsTheSheet)
{
    const auto weighs
        = [&] { return weighStateFor(sheetStates(room.desk().reader(), 0, room.desk().now())).toStdString(); };
    const auto reads = [&] { return readIdFor(sheetStates(room.desk().reader(), 0, room.desk().now())).toStdString(); };
    EXPECT_EQ(weighs(), "bare");
    const std::pair<Station, const char*> steps[] = { { Station::Coat, "coated" }, { Station::Dry, "drying" },
        { Station::Expose, "before_expose" }, { Station::Hold, "before_rinse" }, { Station::Rinse, "oven_dry" } };
    EXPECT_EQ(reads(), "read:coated:deepest");
    for (const auto& [station, wanted] : steps) {
        room.clock.advanceMinutes(1);
        ASSERT_TRUE(start(station));
        EXPECT_EQ(weighs(), wanted);
        if (station == Station::Hold) {
            EXPECT_EQ(reads(), "read:before_rinse:deepest");
        }
    }
    EXPECT_EQ(reads(), "read:day_after:deepest");
}

TEST(BenchCodes, FollowTheNumberAtTheEnd)
{
    EXPECT_EQ(codeAfter(QStringLiteral("A1-09")), QStringLiteral("A1-10"));
    EXPECT_EQ(codeAfter(QStringLiteral("A1-99")), QStringLiteral("A1-100"));
    EXPECT_EQ(codeAfter(QStringLiteral("A")), QStringLiteral("A-01"));
    EXPECT_EQ(codesFrom(QStringLiteral("b-08"), 3, { QStringLiteral("B-09") }),
        (QStringList { QStringLiteral("b-08"), QStringLiteral("b-10"), QStringLiteral("b-11") }));
    EXPECT_EQ(codesFrom(QStringLiteral("wedge"), 1), QStringList { QStringLiteral("wedge") });
    EXPECT_EQ(codesFrom(QStringLiteral("wedge"), 2).first(), QStringLiteral("wedge-01"));
    EXPECT_TRUE(codesFrom(QStringLiteral("  "), 3).isEmpty());
}

TEST(BenchCodes, ManyAreAllDifferent)
{
    const auto codes = codesFrom(QStringLiteral("999998"), mostNewPrints);
    EXPECT_EQ(codes.size(), mostNewPrints);
    EXPECT_EQ(QSet<QString>(codes.begin(), codes.end()).size(), mostNewPrints);
}

TEST_F(BenchSteps, TheNextCodeStandsBehindTheHighest)
{
    const auto next = [&] {
        return nextPrintCode(room.desk().notebook(), room.desk().session(), room.desk().printsOf(room.desk().session()))
            .toStdString();
    };
    EXPECT_EQ(next(), "A1-02");
    room.print("A1-17");
    room.print("A1-03");
    EXPECT_EQ(next(), "A1-18");
    room.sit(room.add(Entity::Session, { { "session_code", "A2" } }));
    EXPECT_EQ(next(), "A2-01");
}

TEST_F(BenchSteps, SessionsStandNewestFirstAndGetTheNextCode)
{
    auto& notebook = room.desk().notebook();
    EXPECT_EQ(nextSessionCode(notebook, room.desk().now()), QStringLiteral("A2")) << "counted on from A1";
    const auto older = room.add(
        Entity::Session, { { "session_code", "2024-05-01" }, { "session_start", "2024-05-01T10:00:00+00:00" } });
    const auto newer = room.add(
        Entity::Session, { { "session_code", "2024-06-21" }, { "session_start", "2024-06-21T09:00:00+00:00" } });
    const auto ids = sessionsNewestFirst(room.desk().notebook());
    ASSERT_EQ(ids.size(), 3);
    EXPECT_EQ(ids[0], newer);
    EXPECT_EQ(ids[1], older);
    EXPECT_EQ(nextSessionCode(room.desk().notebook(), room.desk().now()), QStringLiteral("2024-06-21-2"))
        << "a date is not counted on";
}

TEST_F(BenchSteps, ATemplateMakesTheMixAndThePaperOnce)
{
    PrintTemplate sheets;
    sheets.codes = codesFrom(QStringLiteral("A1-02"), 5);
    sheets.maker_prefix = QStringLiteral("m");
    sheets.first_maker = 9;
    sheets.fields = { { QStringLiteral("mix_code"), Known { Value(QStringLiteral("M9")) } },
        { QStringLiteral("print_width_mm"), knownNumber(105) }, { QStringLiteral("coat_tool"), Known {} } };
    QVector<qint64> made;
    ASSERT_TRUE(run([&](store::Writer& writer) -> Outcome {
        auto added = addPrints(writer, room.desk().session(), sheets);
        if (!added)
            return added.error();
        made = *added;
        return Done {};
    }));
    ASSERT_EQ(made.size(), 5);
    EXPECT_EQ(room.desk().notebook().table(Entity::Mix).rows(), 1);
    EXPECT_EQ(room.text(made[4], "mix_code"), "M9");
    EXPECT_EQ(room.text(made[0], "print_maker"), "m09");
    EXPECT_EQ(room.text(made[1], "print_maker"), "m10");
    EXPECT_FALSE(room.get(made[0], "coat_tool").has()) << "what was left empty stays unknown";
    room.desk().undo();
    EXPECT_EQ(room.desk().printsOf(room.desk().session()).size(), 1);
    EXPECT_EQ(room.desk().notebook().table(Entity::Mix).rows(), 0);
}

} // namespace WASHFAST_FILE
