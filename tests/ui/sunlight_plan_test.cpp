// The lesson plan of Sunlight: what the notebook tells to begin with, the light that core's plan is given, and the
// rows.
#include "ui/sunlight/plan_state.h"

#include "tests/support/prints_fixture.h"
#include "ui/sunlight/plan_page.h"

#include <QComboBox>
#include <QRadioButton>
#include <QSpinBox>
#include <QTest>
#include <QTextBrowser>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::ui::sunlight;
using testing::HasSubstr;

namespace {

LightAsk clearDay()
{
    LightAsk ask;
    ask.site = { text("Yard"), { 48, 16, 320 }, QTimeZone(QByteArrayLiteral("Europe/Vienna")), {}, {} };
    ask.date = QDate(2026, 6, 9);
    ask.sky = { 0, light::Disc::Yes };
    ask.dose = { 2.4, text("as typed"), false };
    return ask;
}

drying::LessonInput easyLesson()
{
    drying::LessonInput input;
    input.sheets = 6;
    input.coaters = 6;
    input.lesson_min = 300;
    input.dry_method = text("fan");
    return input;
}

TEST(SunlightPlan, GivesThePlanTheLightOfTheModelWithItsEnds)
{
    auto ask = clearDay();
    ask.sky = { 4, light::Disc::Partly };
    const auto starts = at("2026-06-09T10:00:00+02:00");
    const auto light = lightAtPaper(ask, starts);
    ASSERT_TRUE(light);
    const auto when = at("2026-06-09T11:17:00+02:00");
    const auto model = light::lightAt(openSheet(ask), when);
    EXPECT_NEAR(light(when).likely, model->at_paper_w_m2, 0.05);
    EXPECT_NEAR(light(when).low, model->low_w_m2, 0.05);
    EXPECT_NEAR(light(when).high, model->high_w_m2, 0.05);
}

TEST(SunlightPlan, ShowsWhatCoreReckoned)
{
    const PlanState state(clearDay(), QTime(10, 0), easyLesson(), {}, {});
    const auto again = drying::planLesson(state.input());
    EXPECT_EQ(state.input().starts, at("2026-06-09T10:00:00+02:00"));
    EXPECT_EQ(state.plan().answer, again.answer);
    ASSERT_EQ(state.shown()[0].bars.size(), again.timeline.stations.size());
    for (size_t i = 0; i < again.timeline.stations.size(); ++i) {
        EXPECT_EQ(state.shown()[0].bars[i].start_min, again.timeline.stations[i].start_min);
        EXPECT_EQ(state.shown()[0].bars[i].end_min, again.timeline.stations[i].end_min);
    }
    EXPECT_EQ(state.clock(0), text("10:00"));
    EXPECT_EQ(state.clock(65), text("11:05"));
    EXPECT_THAT(state.inWords(state.shown()[0]).toStdString(), HasSubstr("Coat: 10:05 to "));
}

TEST(SunlightPlan, WhenItFitsThereIsNothingElseToChoose)
{
    auto input = easyLesson();
    input.lesson_min = 480;
    const PlanState state(clearDay(), QTime(9, 0), input, {}, {});
    EXPECT_EQ(state.plan().timeline.fit, drying::Fit::Yes) << state.answer().toStdString();
    EXPECT_TRUE(state.answer().startsWith(text("✓")));
    EXPECT_EQ(state.shown().size(), 1u);
}

TEST(SunlightPlan, WhenItDoesNotFitBothWaysOutAreThereWithWhyAndPrice)
{
    auto input = easyLesson();
    input.lesson_min = 40;
    const PlanState state(clearDay(), QTime(10, 0), input, {}, { text("Nobody said how warm it is.") });
    EXPECT_EQ(state.plan().timeline.fit, drying::Fit::No);
    EXPECT_TRUE(state.answer().startsWith(text("✕")));
    ASSERT_EQ(state.shown().size(), 3u);
    EXPECT_FALSE(state.shown()[2].next_lesson.isEmpty());
    const auto reasons = state.reasons();
    for (const auto& other : state.plan().alternatives) {
        EXPECT_TRUE(reasons.contains(other.title.toHtmlEscaped()));
        EXPECT_TRUE(reasons.contains(other.price.toHtmlEscaped()));
    }
    EXPECT_TRUE(reasons.contains(text("Nobody said how warm it is.")));
    EXPECT_LE(state.reach_min(state.shown()[0]), 3 * 40.0 + 1e-9);
}

TEST(SunlightPlan, UnderFilmItNeverDriesAndThatIsSaidNotDrawnAsANumber)
{
    auto input = easyLesson();
    input.dried_covered = true;
    const PlanState state(clearDay(), QTime(10, 0), input, {}, {});
    EXPECT_TRUE(std::isinf(state.shown()[0].end_min.likely));
    EXPECT_EQ(state.shown()[0].end_words, text("never"));
    EXPECT_TRUE(std::isfinite(state.reach_min(state.shown()[0])));
    EXPECT_EQ(state.clock(std::numeric_limits<double>::infinity()), text("never"));
}

class SunlightPlanPage : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        room.set({ Entity::Session, room.session }, "room_temperature_c", 23.5);
        for (int i = 1; i <= 7; ++i)
            room.print(("A1-" + std::to_string(i)).c_str(),
                { { "print_paper", room.paper }, { "dry_method", i < 6 ? "hung" : "fan" },
                    { "print_method", "objects" }, { "coat_volume_ml", 0.6 }, { "print_width_mm", 150 },
                    { "print_height_mm", 200 } });
    }
    PrintsFixture room;
};

TEST_F(SunlightPlanPage, BeginsWithWhatTheSessionTellsAndNamesTheRest)
{
    const auto defaults = planDefaults(room.desk().reader(), room.session);
    EXPECT_EQ(defaults.starts, QTime(10, 0));
    EXPECT_EQ(defaults.input.sheets, 7);
    EXPECT_EQ(defaults.input.room.temperature_c, 23.5);
    EXPECT_EQ(defaults.input.paper, text("P1"));
    EXPECT_EQ(defaults.input.dry_method, text("hung"));
    EXPECT_FALSE(defaults.input.film);
    EXPECT_NEAR(defaults.input.coat_ml_m2, 20.0, 0.01); // 0.6 mL on 0.03 m2
    QStringList missing;
    for (const auto& [field, sentence] : defaults.missing)
        missing << field;
    EXPECT_EQ(missing, texts({ "length", "humidity" }));
}

TEST_F(SunlightPlanPage, TheLessonIsAsLongAsItsLightWent)
{
    room.add(Entity::Exposure,
        { { "expose_number", 1 }, { "expose_start", "2026-05-04T11:20:00+02:00" },
            { "expose_end", "2026-05-04T11:31:00+02:00" } },
        room.print("A1-9"));
    EXPECT_EQ(planDefaults(room.desk().reader(), room.session).input.lesson_min, 105); // 91 and 10, to the quarter
}

TEST_F(SunlightPlanPage, AKeyInTheFormPlansAnewAndTakesTheAssumptionBack)
{
    PlanPage page(room.desk(), room.look.theme());
    page.resize(940, 560);
    page.show();
    page.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&page));
    page.begin(room.session);
    page.setAsk(clearDay());
    ASSERT_TRUE(page.plan());
    auto* humidity = [&]() -> QSpinBox* {
        for (auto* box : page.findChildren<QSpinBox*>())
            if (box->accessibleName() == text("Room humidity"))
                return box;
        return nullptr;
    }();
    ASSERT_TRUE(humidity);
    auto* reasons = page.findChild<QTextBrowser*>();
    EXPECT_TRUE(reasons->toPlainText().contains(text("humidity is not recorded")));
    const auto before = page.plan()->shown()[0].end_min.likely;
    humidity->setFocus();
    for (int i = 0; i < 20; ++i)
        QTest::keyClick(humidity, Qt::Key_Up);
    EXPECT_EQ(humidity->value(), 70);
    EXPECT_GT(page.plan()->shown()[0].end_min.likely, before) << "damp air dries slowly";
    EXPECT_FALSE(reasons->toPlainText().contains(text("humidity is not recorded")));

    const auto choices = page.findChildren<QRadioButton*>();
    ASSERT_EQ(choices.size(), 3);
    QTest::mouseClick(choices[1], Qt::LeftButton, Qt::NoModifier, QPoint(8, choices[1]->height() / 2));
    EXPECT_EQ(page.sheet()->shown(), &page.plan()->shown()[1]);
}

} // namespace

} // namespace WASHFAST_FILE
