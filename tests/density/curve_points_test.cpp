// From the record of one print to the points of a curve: doses behind the steps, the right readings, and a sentence for
// whatever is missing.
#include "core/density/wedge_points.h"
#include "tests/support/small_notebook.h"

#include <cmath>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::density;
using testing::HasSubstr;

namespace {

class Points : public testing::Test {
protected:
    Points()
        : wedge(book.add(Entity::Negative, { { "negative_name", "W" }, { "negative_kind", "wedge" } }))
    {
        for (int i = 0; i < 6; ++i)
            book.add(Entity::NegativeStep, { { "step_number", i + 1 }, { "step_uv_density", 0.05 + 0.15 * i } }, wedge);
    }
    qint64 print(const char* code, int exposures = 1, bool with_wedge = true)
    {
        const auto id = book.print(code);
        for (int i = 0; i < exposures; ++i) {
            const auto exposure = book.add(Entity::Exposure, { { "expose_number", i + 1 } }, id);
            if (with_wedge)
                book.set({ Entity::Exposure, exposure }, "expose_negative", wedge);
        }
        return id;
    }
    void read(qint64 print, int step, double density, const char* when = "day_after", const char* channel = "red")
    {
        book.add(Entity::Reading,
            { { "reading_when", when }, { "reading_where", "step" }, { "reading_step", step },
                { "reading_channel", channel }, { "reading_density", density }, { "reading_spread", 0.01 } },
            print);
    }
    Result<WedgePoints> points(qint64 print, const std::vector<GivenDose>& doses, const WedgeAsk& ask = {})
    {
        const PrintReader reader(book.notebook());
        return wedgePoints(reader, book.row(print), doses, ask);
    }
    std::string refusal(qint64 print, const std::vector<GivenDose>& doses, const WedgeAsk& ask = {})
    {
        const auto result = points(print, doses, ask);
        return result ? std::string("not refused") : result.error().sentence().toStdString();
    }
    static GivenDose dose(double j_cm2) { return { j_cm2, j_cm2 / 1.25, j_cm2 * 1.25, Evidence::Measured, {} }; }

    SmallNotebook book;
    qint64 wedge;
};

} // namespace

TEST_F(Points, BehindAWedgeTheDoseFallsWithTheUltravioletDensity)
{
    const auto id = print("P1");
    for (int step = 1; step <= 6; ++step)
        read(id, step, 1.3 - 0.15 * step);
    const auto found = points(id, { dose(2.0) });
    ASSERT_TRUE(found) << found.error().sentence().toStdString();
    ASSERT_EQ(found->points.size(), 6u);
    EXPECT_FALSE(found->strip);
    EXPECT_EQ(found->channel, QStringLiteral("red"));
    EXPECT_EQ(found->when, QStringLiteral("day_after"));
    for (size_t i = 0; i < 6; ++i) {
        const auto& point = found->points[i];
        EXPECT_EQ(point.step, 6 - int(i)) << "by rising exposure";
        EXPECT_NEAR(std::pow(10, point.log_h), 2.0 * std::pow(10, -(0.05 + 0.15 * (point.step - 1))), 1e-12);
        EXPECT_DOUBLE_EQ(point.density, 1.3 - 0.15 * point.step);
        EXPECT_EQ(point.spread, 0.01);
    }
    EXPECT_NEAR(found->dose_high_log10, std::log10(1.25), 1e-12);
    EXPECT_NEAR(found->dose_low_log10, -std::log10(1.25), 1e-12);
    EXPECT_EQ(found->dose_evidence, Evidence::Measured);
}

TEST_F(Points, TwoExposuresThroughTheSameWedgeAddUp)
{
    const auto id = print("P1", 2);
    read(id, 1, 1.0);
    const auto found = points(id, { dose(1.0), dose(0.5) });
    ASSERT_TRUE(found);
    EXPECT_NEAR(std::pow(10, found->points[0].log_h), 1.5 * std::pow(10, -0.05), 1e-12);
}

// Covered after 1, 2, 4 and 8 J/cm2 in all; the clearest step is number 1.
TEST_F(Points, AStripHasTheSumsOfItsExposures)
{
    const auto id = print("P1", 4, false);
    for (int step = 1; step <= 4; ++step)
        read(id, step, 1.2 - 0.2 * step);
    const auto found = points(id, { dose(1), dose(1), dose(2), dose(4) });
    ASSERT_TRUE(found) << found.error().sentence().toStdString();
    EXPECT_TRUE(found->strip);
    ASSERT_EQ(found->points.size(), 4u);
    const double sums[] { 1, 2, 4, 8 };
    for (size_t i = 0; i < 4; ++i) {
        EXPECT_EQ(found->points[i].step, 4 - int(i));
        EXPECT_NEAR(std::pow(10, found->points[i].log_h), sums[i], 1e-12);
    }
    EXPECT_THAT(found->notes.join(u' ').toStdString(), HasSubstr("covered step by step"));
}

TEST_F(Points, TheExposuresOfAStripCountInTheOrderOfTheirNumbers)
{
    const auto id = book.print("P1");
    book.add(Entity::Exposure, { { "expose_number", 2 } }, id);
    book.add(Entity::Exposure, { { "expose_number", 1 } }, id);
    read(id, 1, 1.0);
    read(id, 2, 0.5);
    const auto found = points(id, { dose(5), dose(1) });
    ASSERT_TRUE(found);
    EXPECT_NEAR(std::pow(10, found->points[0].log_h), 1.0, 1e-12) << "the last step saw the first exposure";
    EXPECT_NEAR(std::pow(10, found->points[1].log_h), 6.0, 1e-12);
}

TEST_F(Points, StatesAreNeverMixed)
{
    const auto id = print("P1");
    read(id, 1, 0.9, "dry");
    read(id, 2, 0.8, "dry");
    read(id, 2, 0.5, "before_rinse");
    auto found = points(id, { dose(2) });
    ASSERT_TRUE(found);
    EXPECT_EQ(found->points.size(), 2u);
    EXPECT_EQ(found->when, QStringLiteral("dry"));
    EXPECT_THAT(found->notes.join(u' ').toStdString(), HasSubstr("just dry"));
    read(id, 3, 0.4);
    found = points(id, { dose(2) });
    ASSERT_TRUE(found);
    ASSERT_EQ(found->points.size(), 1u) << "one step a day after does not take in those read just dry";
    EXPECT_EQ(found->points[0].step, 3);
    EXPECT_EQ(points(id, { dose(2) }, { .when = QStringLiteral("before_rinse") })->points.size(), 1u);
    EXPECT_THAT(refusal(id, { dose(2) }, { .when = QStringLiteral("wet") }), HasSubstr("not read wet"));
}

TEST_F(Points, ChannelsAreNeverMixed)
{
    const auto id = print("P1");
    read(id, 1, 0.9, "day_after", "blue");
    read(id, 2, 0.8, "day_after", "blue");
    read(id, 3, 0.7, "day_after", "green");
    EXPECT_EQ(points(id, { dose(2) })->channel, QStringLiteral("blue")) << "most steps";
    read(id, 4, 0.6, "day_after", "red");
    const auto red = points(id, { dose(2) });
    EXPECT_EQ(red->channel, QStringLiteral("red"));
    EXPECT_EQ(red->points.size(), 1u);
    EXPECT_EQ(points(id, { dose(2) }, { .channel = QStringLiteral("green") })->points.size(), 1u);
    EXPECT_THAT(refusal(id, { dose(2) }, { .channel = QStringLiteral("visual") }), HasSubstr("not read in visual"));
    EXPECT_EQ(
        channelsRead(book.notebook(), id, QStringLiteral("day_after")).join(u' '), QStringLiteral("red green blue"));
}

TEST_F(Points, ALaterReadingOfAStepReplacesAnEarlierOne)
{
    const auto id = print("P1");
    read(id, 1, 0.9);
    read(id, 1, 0.7);
    const auto found = points(id, { dose(2) });
    ASSERT_EQ(found->points.size(), 1u);
    EXPECT_EQ(found->points[0].density, 0.7);
}

TEST_F(Points, AnAssumedReadingInAPhotoDoesNotStandInForAScans)
{
    const auto id = print("P1");
    for (int step = 1; step <= 4; ++step)
        read(id, step, 1.3 - 0.15 * step);
    book.add(Entity::Reading,
        { { "reading_when", "day_after" }, { "reading_where", "step" }, { "reading_step", 2 },
            { "reading_channel", "red" }, { "reading_method", "photo" },
            { "reading_density", knownNumber(0.4, Evidence::Assumed) } },
        id);
    const auto found = points(id, { dose(2.0) });
    ASSERT_TRUE(found) << found.error().sentence().toStdString();
    ASSERT_EQ(found->points.size(), 4u);
    for (const auto& point : found->points) {
        EXPECT_DOUBLE_EQ(point.density, 1.3 - 0.15 * point.step);
        EXPECT_EQ(point.evidence, Evidence::Measured);
    }
}

TEST_F(Points, NetIsAboveTheBarePaperOfTheSameStateAndChannel)
{
    const auto paper = book.add(Entity::Paper, { { "paper_name", "A" }, { "paper_base_density", 0.07 } });
    const auto id = print("P1");
    read(id, 1, 0.9);
    const WedgeAsk net { {}, {}, true };
    EXPECT_THAT(refusal(id, { dose(2) }, net), HasSubstr("nothing to take off"));
    book.set({ Entity::Print, id }, "print_paper", paper);
    auto found = points(id, { dose(2) }, net);
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->points[0].density, 0.83, 1e-12);
    EXPECT_THAT(found->notes.join(u' ').toStdString(), HasSubstr("own record"));
    const auto paperRead = [&](const char* when, const char* channel, double density) {
        book.add(Entity::Reading,
            { { "reading_when", when }, { "reading_where", "paper" }, { "reading_channel", channel },
                { "reading_density", density } },
            id);
    };
    paperRead("before_rinse", "red", 0.3);
    paperRead("day_after", "blue", 0.2);
    EXPECT_NEAR(points(id, { dose(2) }, net)->points[0].density, 0.83, 1e-12);
    paperRead("day_after", "red", 0.05);
    found = points(id, { dose(2) }, net);
    EXPECT_NEAR(found->points[0].density, 0.85, 1e-12);
    EXPECT_TRUE(found->notes.isEmpty());
}

TEST_F(Points, WhatIsMissingIsSaid)
{
    const auto none = print("P1");
    EXPECT_TRUE(printsWithSteps(book.notebook()).empty());
    EXPECT_THAT(refusal(none, { dose(1) }), HasSubstr("P1: No density was read at the steps"));
    const auto no_wedge = print("P2", 1, false);
    read(no_wedge, 1, 0.5);
    EXPECT_EQ(printsWithSteps(book.notebook()), std::vector<qint64> { no_wedge });
    EXPECT_THAT(refusal(no_wedge, { dose(1) }), HasSubstr("P2: No wedge is recorded on its exposure"));
    const auto no_dose = print("P3");
    read(no_dose, 1, 0.5);
    EXPECT_THAT(refusal(no_dose, { { {}, {}, {}, Evidence::Estimated, QStringLiteral("Its end was not noted.") } }),
        testing::AllOf(HasSubstr("dose of exposure 1"), HasSubstr("Its end was not noted.")));
    EXPECT_THAT(refusal(no_dose, {}), HasSubstr("dose of exposure 1"));
    EXPECT_THAT(refusal(no_dose, { dose(0) }), HasSubstr("dose of exposure 1"));
    const auto not_exposed = book.print("P4");
    read(not_exposed, 1, 0.5);
    EXPECT_THAT(refusal(not_exposed, {}), HasSubstr("No exposure is recorded"));
    const auto film = book.add(Entity::Negative, { { "negative_name", "F" }, { "negative_kind", "film" } });
    book.add(Entity::NegativeStep, { { "step_number", 1 }, { "step_value", 0 } }, film);
    const auto unmeasured = book.print("P5");
    book.add(Entity::Exposure, { { "expose_negative", film } }, unmeasured);
    read(unmeasured, 1, 0.5);
    EXPECT_THAT(refusal(unmeasured, { dose(1) }), HasSubstr("no ultraviolet densities yet"));
    const auto other = print("P6", 2);
    book.set({ Entity::Exposure, book.add(Entity::Exposure, {}, other) }, "expose_negative", film);
    read(other, 1, 0.5);
    EXPECT_THAT(refusal(other, { dose(1), dose(1), dose(1) }), HasSubstr("under different negatives"));
    const auto strange = print("P7");
    read(strange, 9, 0.5);
    EXPECT_THAT(refusal(strange, { dose(1) }), HasSubstr("None of the steps"));
    read(strange, 1, 0.8);
    const auto found = points(strange, { dose(1) });
    ASSERT_TRUE(found);
    EXPECT_THAT(found->notes.join(u' ').toStdString(), HasSubstr("No dose is known for step 9"))
        << "said, not silently dropped";
}

} // namespace WASHFAST_FILE
