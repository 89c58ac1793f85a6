// Marks: what is read, and where exactly something is wrong.
#include "core/density/marks.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using testing::HasSubstr;

namespace {

std::string complaint(const char* json)
{
    const auto marks = readMarks(json);
    return marks ? "read" : marks.error().sentence().toStdString();
}

} // namespace

TEST(Marks, ReadsAllThatIsDocumented)
{
    const auto marks = readMarks(R"({"corners":[[0,0],[10,1],[11,12],[1,9]],"flat":"plane","codes":"file","regions":[
        {"name":"white","rect":[1,2,3,4],"density":0.05,"density_sd":0.02},
        {"name":"grey","quad":[[0,0],[1,0],[1,1],[0,1]],"density":{"red":0.70,"green":0.71,"blue":0.69}},
        {"name":"paper","rect":[0,0,1,1],"paper":true},
        {"name":"deep","rect":[0,0,1,1]}]})");
    ASSERT_TRUE(marks) << marks.error().sentence().toStdString();
    EXPECT_EQ(marks->flat, Flat::Plane);
    EXPECT_EQ(marks->codes, Codes::File);
    ASSERT_EQ(marks->regions.size(), 4u);
    EXPECT_EQ(marks->regions[0].density, (ChannelDensities { 0.05, 0.05, 0.05 }));
    EXPECT_EQ(marks->regions[0].density_sd, 0.02);
    EXPECT_EQ(marks->regions[0].corners[2], (Point { 4, 6 }));
    EXPECT_EQ(marks->regions[1].density, (ChannelDensities { 0.70, 0.71, 0.69 }));
    EXPECT_TRUE(marks->regions[2].paper);
    EXPECT_FALSE(marks->regions[3].density);
}

TEST(Marks, WhatIsWrittenReadsBackTheSame)
{
    Marks marks;
    marks.corners = Corners { Point { 0.5, 0.25 }, { 100, 3 }, { 90, 80 }, { 2, 75 } };
    marks.flat = Flat::Plane;
    marks.regions
        = { { QStringLiteral("a"), rectangle(0.1, 0.2, 0.3, 0.4), ChannelDensities { 0.1, 0.2, 0.3 }, 0.02, false },
              { QStringLiteral("b"), rectangle(1, 2, 3, 4), {}, {}, true } };
    const auto read = readMarks(writeMarks(marks));
    ASSERT_TRUE(read) << read.error().sentence().toStdString();
    EXPECT_EQ(*read, marks);
}

TEST(Marks, SaysWhereItIsWrong)
{
    EXPECT_THAT(complaint("{\n  \"regions\": [,]\n}"), HasSubstr("line 2"));
    EXPECT_THAT(complaint("[]"), HasSubstr("object"));
    EXPECT_THAT(complaint("{}"), HasSubstr("regions: No region"));
    EXPECT_THAT(complaint(R"({"regions":[{"name":"a","rect":[0,0,1]}]})"), HasSubstr("regions[0].rect"));
    EXPECT_THAT(complaint(R"({"regions":[{"name":"a","rect":[0,0,1,1]},{"name":"b","rect":[0,0,1,"x"]}]})"),
        HasSubstr("regions[1].rect[3]"));
    EXPECT_THAT(complaint(R"({"regions":[{"name":"a","rect":[0,0,0,1]}]})"), HasSubstr("regions[0].rect[2]"));
    EXPECT_THAT(complaint(R"({"regions":[{"rect":[0,0,1,1]}]})"), HasSubstr("regions[0].name"));
    EXPECT_THAT(complaint(R"({"regions":[{"name":"a"}]})"), HasSubstr("either a rect or a quad"));
    EXPECT_THAT(complaint(R"({"regions":[{"name":"a","rect":[0,0,1,1]},{"name":"a","rect":[0,0,1,1]}]})"),
        HasSubstr("regions[1].name: Two regions"));
    EXPECT_THAT(
        complaint(R"({"regions":[{"name":"a","rect":[0,0,1,1],"density":9}]})"), HasSubstr("regions[0].density"));
    EXPECT_THAT(complaint(R"({"regions":[{"name":"a","rect":[0,0,1,1],"density":{"red":1,"green":1}}]})"),
        HasSubstr("regions[0].density.blue"));
    EXPECT_THAT(complaint(R"({"regions":[{"name":"a","rect":[0,0,1,1],"colour":1}]})"), HasSubstr("regions[0].colour"));
    EXPECT_THAT(complaint(R"({"flat":"curved","regions":[{"name":"a","rect":[0,0,1,1]}]})"), HasSubstr("flat"));
    EXPECT_THAT(complaint(R"({"corners":[[0,0],[1,1],[1,0],[0,1]],"regions":[{"name":"a","rect":[0,0,1,1]}]})"),
        HasSubstr("corners"));
}

TEST(Perspective, GoesThereAndBack)
{
    const Corners corners { Point { 90, 70 }, { 830, 95 }, { 700, 640 }, { 160, 610 } };
    const auto perspective = Perspective::ontoCorners(corners);
    ASSERT_TRUE(perspective);
    const auto own = rectangle(0, 0, 1, 1);
    for (size_t i = 0; i < 4; ++i) {
        EXPECT_NEAR(perspective->toPhoto(own[i])->x, corners[i].x, 1e-9);
        EXPECT_NEAR(perspective->toPhoto(own[i])->y, corners[i].y, 1e-9);
    }
    for (double u = -0.2; u <= 1.2; u += 0.1)
        for (double v = -0.2; v <= 1.2; v += 0.1) {
            const auto back = perspective->toOwn(*perspective->toPhoto(Point { u, v }));
            EXPECT_NEAR(back->x, u, 1e-10);
            EXPECT_NEAR(back->y, v, 1e-10);
        }
    // The diagonals of a thing meet in its middle, whatever the slant.
    const auto middle_seen = perspective->toPhoto(Point { 0.5, 0.5 });
    const auto along = [](Point a, Point b, Point p) { return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x); };
    EXPECT_NEAR(along(corners[0], corners[2], *middle_seen), 0, 1e-6);
    EXPECT_NEAR(along(corners[1], corners[3], *middle_seen), 0, 1e-6);
}

TEST(Perspective, RefusesWhatSpansNoArea)
{
    EXPECT_FALSE(Perspective::ontoCorners({ Point { 0, 0 }, { 1, 1 }, { 2, 2 }, { 0, 1 } }));
    EXPECT_FALSE(Perspective::ontoCorners({ Point { 0, 0 }, { 0, 0 }, { 0, 0 }, { 0, 0 } }));
    EXPECT_FALSE(isConvex({ Point { 0, 0 }, { 1, 1 }, { 1, 0 }, { 0, 1 } }));
}

} // namespace WASHFAST_FILE
