// What the pages of Curves show, without a widget: the example notebook from readings to curve and goal, and small
// notebooks where something is missing.
#include "app/demo/demo_notebook.h"
#include "tests/support/desk_fixture.h"
#include "ui/curves/curve_picture.h"
#include "ui/curves/dose_goal.h"
#include "ui/curves/negative_state.h"

#include <cmath>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::ui::curves;
using testing::HasSubstr;
using testing::Not;

namespace {

class CurveState : public testing::Test {
protected:
    void fill()
    {
        ASSERT_TRUE(demo::writeDemo(room.desk().file()));
        room.reopen();
        room.desk().waitUntilComplete();
    }
    [[nodiscard]] const PrintReader& reader() { return room.desk().reader(); }
    [[nodiscard]] std::vector<CurveGroup> groups() { return curveGroups(reader().notebook(), steppedPrints(reader())); }
    CurveOf group(const char* name)
    {
        for (const auto& one : groups())
            if (one.name == QString::fromUtf8(name))
                return one.of;
        ADD_FAILURE() << "no group " << name;
        return {};
    }
    static std::string all(const QStringList& sentences) { return sentences.join(u'\n').toStdString(); }
    /// A wedge print with its own dose by readings of a meter: 10 minutes under 40 W/m2 are 2.4 J/cm2.
    qint64 wedgePrint(const char* code, double shift, int steps = 12, double uva_w_m2 = 40)
    {
        if (!wedge_) {
            wedge_ = room.add(Entity::Negative, { { "negative_name", "W" }, { "negative_kind", "wedge" } });
            for (int i = 0; i < 12; ++i)
                room.add(
                    Entity::NegativeStep, { { "step_number", i + 1 }, { "step_uv_density", 0.05 + 0.15 * i } }, wedge_);
        }
        const auto id = room.add(Entity::Print, { { "print_code", code } });
        const auto exposure = room.add(Entity::Exposure,
            { { "expose_number", 1 }, { "expose_start", "2026-06-01T12:00:00+02:00" },
                { "expose_end", "2026-06-01T12:10:00+02:00" } },
            id);
        room.set({ Entity::Exposure, exposure }, "expose_negative", wedge_);
        for (const char* time : { "2026-06-01T12:01:00+02:00", "2026-06-01T12:09:00+02:00" })
            room.add(Entity::Meter, { { "meter_time", time }, { "meter_uva_w_m2", uva_w_m2 } }, id);
        const density::Logistic truth { 0.08, 1.3, -0.3, 4.5 };
        for (int i = 0; i < steps; ++i) {
            const double x = std::log10(uva_w_m2 * 600 / 1e4) - (0.05 + 0.15 * i);
            room.add(Entity::Reading,
                { { "reading_when", "day_after" }, { "reading_where", "step" }, { "reading_step", i + 1 },
                    { "reading_channel", "red" },
                    { "reading_density", std::round(1000 * truth.at(x - shift)) / 1000 } },
                id);
        }
        return id;
    }

    DeskFixture room;
    qint64 wedge_ = 0;
};

} // namespace

TEST_F(CurveState, TheExampleHasCurvesByFormulaMixAndPrint)
{
    fill();
    const auto found = groups();
    ASSERT_GE(found.size(), 12u);
    EXPECT_EQ(found.front().name.toStdString(), "Traditional, citrate on Cotton rag 300");
    EXPECT_EQ(found.front().prints, 4);
    EXPECT_EQ(found.back().of.by, CurveOf::By::Print);
}

TEST_F(CurveState, FourPrintsOfTheExampleGiveOneCurveWithTheirShifts)
{
    fill();
    const CurvePageState state(reader(), { group("Traditional, citrate on Cotton rag 300"), {}, {}, false, 0.9 });
    ASSERT_EQ(state.prints().size(), 4u) << all(state.sentences());
    EXPECT_EQ(state.channel(), QStringLiteral("red"));
    EXPECT_EQ(state.when(), QStringLiteral("day_after"));
    ASSERT_TRUE(state.pooled()) << all(state.sentences());
    ASSERT_TRUE(state.fit());
    // The model behind the example: half of the density at 0.65 J/cm2 for a fresh mix, Hill's n = 2 (forward_model.h);
    // the age of the mixes and their dampness slow prints down.
    EXPECT_GT(std::pow(10, state.fit()->curve.midpoint), 0.5);
    EXPECT_LT(std::pow(10, state.fit()->curve.midpoint), 1.4);
    EXPECT_NEAR(state.fit()->curve.slope, 2 * std::log(10.0), 1.2);
    const auto target = state.target();
    ASSERT_TRUE(target && target->log_h && target->log_h_low && target->log_h_high);
    EXPECT_LT(*target->log_h_low, *target->log_h);
    EXPECT_LT(*state.nextPrint().low, *target->log_h_low) << "the next print is less certain than the curve";
    double sum = 0;
    for (const auto& print : state.prints()) {
        sum += print.shift;
        ASSERT_TRUE(print.shift_error);
    }
    EXPECT_NEAR(sum, 0, 1e-4);
    ASSERT_TRUE(state.drift());
    EXPECT_EQ(state.drift()->prints, 4);
    EXPECT_THAT(all(state.sentences()), HasSubstr("by analogy"));
    EXPECT_THAT(all(state.sentences()), HasSubstr("S1-24: Taken as a strip"));
    bool wanted = false, drift = false;
    for (const auto& figure : state.figures()) {
        wanted = wanted || figure.name == QStringLiteral("Exposure for 0.90");
        drift = drift || figure.name == QStringLiteral("Each day of the mix");
        EXPECT_FALSE(figure.hint.isEmpty()) << figure.name.toStdString();
    }
    EXPECT_TRUE(wanted && drift);
    EXPECT_THAT(state.inWords().toStdString(), HasSubstr("Exposure for 0.90"));
}

TEST_F(CurveState, NothingIsDrawnOutsideTheSteps)
{
    fill();
    for (const auto& one : groups())
        for (const bool laid_over : { true, false }) {
            const CurvePageState state(reader(), { one.of });
            const auto picture = curvePicture(state, laid_over);
            for (const auto& line : picture.lines) {
                ASSERT_GT(line.points.size(), 10u) << one.name.toStdString();
                EXPECT_GE(line.points.front().x(), picture.extent.left() - 1e-9);
                EXPECT_LE(line.points.back().x(), picture.extent.right() + 1e-9);
                if (line.group >= 0)
                    for (const auto& point : line.points) {
                        const auto& steps = state.prints()[size_t(line.group)].steps.points;
                        EXPECT_GE(point.x(), steps.front().log_h - 1e-9);
                        EXPECT_LE(point.x(), steps.back().log_h + 1e-9);
                    }
            }
            for (const auto& point : picture.band) {
                EXPECT_GE(point.x(), picture.extent.left() - 1e-9);
                EXPECT_LE(point.x(), picture.extent.right() + 1e-9);
            }
            EXPECT_GE(picture.wanted_ends.x(), picture.wanted_ends == QPointF() ? 0 : picture.extent.left() - 1e-9);
            EXPECT_LE(picture.wanted_ends.y(), picture.wanted_ends == QPointF() ? 0 : picture.extent.right() + 1e-9);
            for (const auto& mark : picture.across) {
                EXPECT_GE(mark.at, picture.extent.left() - 1e-9) << mark.words.toStdString();
                EXPECT_LE(mark.at, picture.extent.right() + 1e-9) << mark.words.toStdString();
            }
        }
}

TEST_F(CurveState, LaidOverTheShiftsAreTakenOff)
{
    fill();
    const CurvePageState state(reader(), { group("Traditional, citrate on Cotton rag 300") });
    const auto apart = curvePicture(state, false), over = curvePicture(state, true);
    ASSERT_EQ(apart.points.size(), over.points.size());
    double scatter_apart = 0, scatter_over = 0;
    for (size_t i = 0; i < over.points.size(); ++i) {
        const auto& print = state.prints()[size_t(over.points[i].group)];
        EXPECT_NEAR(apart.points[i].at.x() - over.points[i].at.x(), print.shift, 1e-12);
        scatter_apart += std::pow(apart.points[i].at.y() - state.fit()->curve.at(apart.points[i].at.x()), 2);
        scatter_over += std::pow(over.points[i].at.y() - state.fit()->curve.at(over.points[i].at.x()), 2);
    }
    EXPECT_LT(scatter_over, scatter_apart);
    EXPECT_EQ(apart.lines.size(), 4u);
    EXPECT_EQ(over.lines.size(), 1u);
}

TEST_F(CurveState, APrintWithoutSupportTakesTheSlopeOfTheOthers)
{
    fill();
    // S1-24 is a strip of five steps.
    const CurvePageState state(reader(), { group("Print S1-24") });
    ASSERT_TRUE(state.fit()) << all(state.sentences());
    EXPECT_EQ(state.prints().size(), 1u);
    EXPECT_THAT(all(state.sentences()), HasSubstr("the slope is that of 3 other print"));
    EXPECT_EQ(state.fit()->model, density::CurveModel::Logistic);
    EXPECT_FALSE(state.fit()->standard_errors[density::Slope]) << "it was not fitted";
}

TEST_F(CurveState, AKnownCurveIsFoundThroughMeterWedgeAndReadings)
{
    wedgePrint("P1", 0);
    const auto of = group("Print P1");
    const CurvePageState state(reader(), { of, {}, {}, false, 0.66 });
    ASSERT_TRUE(state.fit()) << all(state.sentences());
    EXPECT_NEAR(state.fit()->curve.midpoint, -0.3, 0.01);
    EXPECT_NEAR(state.fit()->curve.d_max, 1.3, 0.01);
    EXPECT_NEAR(state.fit()->curve.slope, 4.5, 0.1);
    const density::Logistic truth { 0.08, 1.3, -0.3, 4.5 };
    EXPECT_NEAR(*state.target()->log_h, *truth.where(0.66), 0.005);
    EXPECT_EQ(state.ask().wanted, 0.66);
    const CurvePageState suggested(reader(), { of });
    EXPECT_DOUBLE_EQ(*suggested.ask().wanted, 1.15) << "the shoulder at 1.178, rounded down to a twentieth";
    ASSERT_TRUE(suggested.target()->log_h);
}

TEST_F(CurveState, WhatCannotBeUsedIsSaid)
{
    EXPECT_THAT(all(CurvePageState(reader(), {}).sentences()), HasSubstr("No print with steps"));
    const auto formula = room.add(Entity::Formula, { { "formula_name", "F" } });
    const auto mix = room.add(Entity::Mix, { { "mix_code", "M" }, { "mix_formula", formula } });
    const auto good = wedgePrint("P1", 0), dark = wedgePrint("P2", 0.1);
    for (const auto id : { good, dark })
        room.set({ Entity::Print, id }, "print_mix", mix);
    const auto of = group("F on a paper not recorded");
    const auto both = CurvePageState(reader(), { of });
    ASSERT_EQ(both.prints().size(), 2u);
    EXPECT_THAT(all(both.sentences()), HasSubstr("With so few prints"));
    EXPECT_NEAR(both.prints()[1].shift - both.prints()[0].shift, 0.1, 0.02);
    EXPECT_FALSE(both.drift()) << "no age is known";
    // The second one loses its wedge.
    const auto exposure = room.desk().notebook().children(Entity::Exposure, dark)[0];
    room.set({ Entity::Exposure, room.desk().notebook().table(Entity::Exposure).id(exposure) }, "expose_negative",
        Given(Known {}));
    const auto one = CurvePageState(reader(), { of });
    ASSERT_EQ(one.prints().size(), 1u);
    EXPECT_THAT(all(one.sentences()), HasSubstr("P2: No wedge is recorded"));
    EXPECT_TRUE(one.fit()) << "the other one still gives a curve";
    const auto wet = CurvePageState(reader(), { of, QStringLiteral("wet") });
    EXPECT_TRUE(wet.prints().empty());
    EXPECT_FALSE(wet.fit());
    EXPECT_THAT(all(wet.sentences()), HasSubstr("P1: Its steps were not read wet"));
    const auto few = wedgePrint("P3", 0, 3);
    const auto flat = CurvePageState(reader(), { { CurveOf::By::Print, few, 0 } });
    ASSERT_TRUE(flat.fit());
    EXPECT_EQ(flat.fit()->model, density::CurveModel::Monotone);
    EXPECT_THAT(all(flat.sentences()), HasSubstr("too few"));
}

TEST_F(CurveState, AnotherDensityIsReadFromTheSameCurve)
{
    fill();
    for (const char* name : { "Traditional, citrate on Cotton rag 300", "Print S1-24" }) {
        const auto of = group(name);
        for (const double density : { 0.5, 2.9 }) {
            const CurvePageState anew(reader(), { of, {}, {}, false, density });
            const auto moved = CurvePageState(reader(), { of }).withWanted(density);
            EXPECT_EQ(moved.ask().wanted, density);
            ASSERT_TRUE(anew.target() && moved.target()) << name;
            EXPECT_EQ(moved.target()->log_h, anew.target()->log_h);
            EXPECT_EQ(moved.target()->log_h_low, anew.target()->log_h_low);
            EXPECT_EQ(moved.sentences(), anew.sentences());
        }
    }
}

TEST_F(CurveState, OfManyPrintsTheLatestAreTaken)
{
    const auto mix = room.add(Entity::Mix, { { "mix_code", "M" } });
    for (int i = 0; i <= CurvePageState::mostPrints; ++i)
        room.set({ Entity::Print, wedgePrint(QStringLiteral("P%1").arg(i).toUtf8().constData(), 0.01 * (i % 7), 7) },
            "print_mix", mix);
    const CurvePageState state(reader(), { group("Mix M on a paper not recorded") });
    EXPECT_EQ(int(state.prints().size()), CurvePageState::mostPrints);
    EXPECT_EQ(state.prints().front().print.code, QStringLiteral("P1"));
    EXPECT_THAT(all(state.sentences()), HasSubstr("Of 41 prints the latest 40 were taken"));
}

TEST_F(CurveState, AnUnknownEndOfAnExposureIsToldAsTheReason)
{
    const auto id = wedgePrint("P1", 0);
    const auto exposure = room.desk().notebook().children(Entity::Exposure, id)[0];
    room.set({ Entity::Exposure, room.desk().notebook().table(Entity::Exposure).id(exposure) }, "expose_end",
        Given(Known {}));
    const auto state = CurvePageState(reader(), { group("Print P1") });
    EXPECT_THAT(all(state.sentences()),
        HasSubstr("P1: The dose of exposure 1 is not known. Its start or its end was not noted."));
}

TEST_F(CurveState, ReversalIsLeftOutAndMarked)
{
    const auto id = wedgePrint("P1", 0, 12, 400); // deep into the shoulder
    const auto& table = room.desk().notebook().table(Entity::Reading);
    const auto first = room.desk().notebook().children(Entity::Reading, id)[0];
    room.set({ Entity::Reading, table.id(first) }, "reading_density", 1.1);
    const auto state = CurvePageState(reader(), { group("Print P1") });
    ASSERT_TRUE(state.fit());
    EXPECT_EQ(state.fit()->left_out.size(), 1u);
    EXPECT_THAT(all(state.sentences()), HasSubstr("reversal"));
    int crosses = 0;
    for (const auto& point : curvePicture(state, true).points)
        crosses += point.left_out && point.step == 1;
    EXPECT_EQ(crosses, 1);
}

// ---- the goal

TEST_F(CurveState, TheGoalIsForPrintsOfThisKindThatAreNotExposedYet)
{
    const auto formula = room.add(Entity::Formula, { { "formula_name", "F" } });
    const auto mix = room.add(Entity::Mix, { { "mix_code", "M" }, { "mix_formula", formula } });
    const auto next_mix = room.add(Entity::Mix, { { "mix_code", "N" }, { "mix_formula", formula } });
    const auto other_mix = room.add(Entity::Mix, { { "mix_code", "O" } });
    const auto paper = room.add(Entity::Paper, { { "paper_name", "R" } });
    const auto session = room.add(Entity::Session, { { "session_code", "A1" } });
    room.sit(session);
    const auto make = [&](const char* code, qint64 of) {
        const auto id = room.print(code, { { "print_mix", of }, { "print_paper", paper } });
        return id;
    };
    const auto p1 = make("P1", mix), p2 = make("P2", next_mix);
    make("P3", other_mix);
    const auto p4 = make("P4", mix);
    room.add(Entity::Exposure, { { "expose_start", "2026-06-01T12:00:00+02:00" } }, p4);
    const CurveOf by_formula { CurveOf::By::Formula, formula, paper }, by_mix { CurveOf::By::Mix, mix, paper };
    EXPECT_EQ(goalPlan(room.desk(), by_formula, 2.3456).prints, (QVector<qint64> { p1, p2 }));
    EXPECT_EQ(goalPlan(room.desk(), by_mix, 2.3456).prints, QVector<qint64> { p1 });
    EXPECT_EQ(goalPlan(room.desk(), { CurveOf::By::Print, p4, paper }, 2.3456).prints, (QVector<qint64> { p1, p2 }));
    EXPECT_EQ(goalPlan(room.desk(), by_mix, 2.3456).j_cm2, 2.35);
    EXPECT_THAT(goalPlan(room.desk(), by_formula, 2.35).question.toStdString(),
        testing::AllOf(HasSubstr("2 print"), HasSubstr("of session A1"), HasSubstr("F on R"), HasSubstr("2.35")));
    EXPECT_THAT(goalPlan(room.desk(), { CurveOf::By::Formula, formula, 0 }, 2.0).refusal.toStdString(),
        HasSubstr("still to be exposed"));
    EXPECT_FALSE(goalPlan(room.desk(), by_mix, std::nullopt).refusal.isEmpty());
    EXPECT_FALSE(goalPlan(room.desk(), by_mix, 100.0).refusal.isEmpty());
    EXPECT_FALSE(goalPlan(room.desk(), by_mix, 0.001).refusal.isEmpty());

    room.set({ Entity::Print, p2 }, "dose_goal_j_cm2", 3.0);
    const auto plan = goalPlan(room.desk(), by_formula, 2.35);
    EXPECT_EQ(plan.others, 1);
    room.dialogs.willAnswer(1);
    EXPECT_TRUE(takeGoal(room.desk(), room.dialogs, nullptr, plan).isEmpty());
    EXPECT_FALSE(room.number(p1, "dose_goal_j_cm2")) << "left";
    room.dialogs.willAnswer(0);
    EXPECT_THAT(takeGoal(room.desk(), room.dialogs, nullptr, plan).toStdString(), HasSubstr("2 print"));
    for (const auto id : { p1, p2 }) {
        EXPECT_EQ(room.number(id, "dose_goal_j_cm2"), 2.35);
        EXPECT_EQ(room.get(id, "dose_goal_j_cm2").evidence, Evidence::Estimated);
    }
    room.desk().undo(); // one step
    EXPECT_FALSE(room.number(p1, "dose_goal_j_cm2"));
    EXPECT_EQ(room.number(p2, "dose_goal_j_cm2"), 3.0);
}

// ---- the negative

TEST_F(CurveState, TheToneTableMakesAStraightScale)
{
    wedgePrint("P1", 0);
    const auto film = room.add(Entity::Negative, { { "negative_name", "Film 1" }, { "negative_kind", "film" } });
    const auto density_of = [](double value) { return 0.08 + 1.1 * std::pow(value / 100, 1.4); };
    for (int i = 0; i <= 10; ++i)
        room.add(Entity::NegativeStep,
            { { "step_number", i + 1 }, { "step_value", 10.0 * i }, { "step_uv_density", density_of(10.0 * i) } },
            film);
    const CurvePageState curve(reader(), { group("Print P1") });
    const NegativeState state(curve, room.desk().notebook(), { film });
    ASSERT_TRUE(state.table()) << all(state.sentences());
    EXPECT_EQ(state.table()->rows.size(), 21u);
    const density::Logistic truth { 0.08, 1.3, -0.3, 4.5 };
    // The shoulder of the curve, and the clear film over it.
    EXPECT_NEAR(std::log10(*state.exposure_j_cm2()), *truth.shoulder() + 0.08, 0.02);
    const double light = truth.at(state.table()->exposure_log_h - density_of(state.table()->rows[0].film_value));
    const double dark = truth.at(state.table()->exposure_log_h - density_of(state.table()->rows[20].film_value));
    for (const auto& row : state.table()->rows) {
        const double printed = truth.at(state.table()->exposure_log_h - density_of(row.film_value));
        EXPECT_NEAR(printed, light + (dark - light) * row.tone_percent / 100, 0.015) << row.tone_percent;
    }
    EXPECT_THAT(all(state.sentences()), HasSubstr("at the paper, before the film"));
    EXPECT_EQ(state.picture().points.size(), 21u);
    const NegativeState longer(curve, room.desk().notebook(), { film, 2.0 });
    ASSERT_TRUE(longer.table());
    EXPECT_NEAR(*longer.exposure_j_cm2(), 2.0, 1e-9);
    ASSERT_EQ(clearFilms(room.desk().notebook()).size(), 2u);
    EXPECT_NEAR(clearFilms(room.desk().notebook())[1].uv_density, 0.08, 1e-12);
}

TEST_F(CurveState, AFilmThatWillNotDoIsRefusedInWords)
{
    wedgePrint("P1", 0);
    const CurvePageState curve(reader(), { group("Print P1") });
    const auto film = room.add(Entity::Negative, { { "negative_name", "Film 1" }, { "negative_kind", "film" } });
    const auto refusal = [&](const NegativeAsk& ask) {
        const NegativeState state(curve, room.desk().notebook(), ask);
        EXPECT_FALSE(state.table());
        return all(state.sentences());
    };
    EXPECT_THAT(refusal({}), HasSubstr("No film is chosen"));
    EXPECT_THAT(refusal({ film }), HasSubstr("has no steps on record yet"));
    const auto step = room.add(Entity::NegativeStep, { { "step_number", 1 }, { "step_uv_density", 0.1 } }, film);
    EXPECT_THAT(refusal({ film }), HasSubstr("do not say what was sent to the printer"));
    room.set({ Entity::NegativeStep, step }, "step_value", 0.0);
    EXPECT_THAT(refusal({ film }), HasSubstr("has 1 step"));
    for (const double value : { 50.0, 100.0 })
        room.add(Entity::NegativeStep,
            { { "step_number", 1 + value / 50 }, { "step_value", value }, { "step_uv_density", 0.1 + value / 100 } },
            film);
    EXPECT_THAT(refusal({ film, 60.0 }), HasSubstr("no step of the film falls on the measured curve"));
    EXPECT_TRUE(NegativeState(curve, room.desk().notebook(), { film }).table());
    const CurvePageState none(reader(), {});
    EXPECT_THAT(all(NegativeState(none, room.desk().notebook(), { film }).sentences()), HasSubstr("no curve"));
    // A wedge can be bought and has no printed values: it is not offered as a film.
    EXPECT_EQ(filmChoices(room.desk().notebook()).size(), 1u);
}

} // namespace WASHFAST_FILE
