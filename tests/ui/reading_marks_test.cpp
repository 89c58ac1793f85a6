// What was marked in a stored photo comes back when it is opened again; what is not understood is refused and left.
#include "tests/support/reading_fixture.h"
#include "ui/reading/kept_marks.h"
#include "ui/reading/reference_panel.h"

#include <QCheckBox>
#include <QDoubleSpinBox>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::MarkRole;

namespace {

class ReadingMarks : public testing::Test {
protected:
    void SetUp() override
    {
        room.scene.patches = { { "white", 0.05, 0.05, 0.2, 0.25, { 0.05, 0.05, 0.05 } },
            { "grey", 0.3, 0.05, 0.2, 0.25, { 0.75, 0.75, 0.75 } },
            { "deep", 0.05, 0.4, 0.3, 0.2, { 1.1, 0.9, 0.6 } } };
        for (int i = 0; i < 5; ++i)
            room.scene.patches.push_back(
                { "step", 0.1 + 0.16 * i, 0.7, 0.16, 0.2, { 1.2 - 0.2 * i, 0.9 - 0.15 * i, 0.6 - 0.1 * i } });
        room.openStored();
    }
    void markAll()
    {
        room.drag(MarkRole::White, { 0.08, 0.1 }, { 0.22, 0.25 });
        room.drag(MarkRole::Grey, { 0.33, 0.1 }, { 0.47, 0.25 });
        room.drag(MarkRole::Deepest, { 0.1, 0.45 }, { 0.3, 0.55 });
        room.drag(MarkRole::WedgeRow, { 0.1, 0.8 }, { 0.9, 0.8 });
        room.reading->canvas()->addOutline(room.other);
        room.current().outlines[0].corners = room.scene.corners;
        room.settle();
    }
    [[nodiscard]] QString kept()
    {
        return room.desk().notebook().get({ Entity::Photo, room.photo }, u"photo_marks").text().value_or(QString());
    }
    void keep(const QString& json) { room.set({ Entity::Photo, room.photo }, "photo_marks", json); }
    /// The kept marks with one thing changed.
    [[nodiscard]] static QString with(const QString& json, const char* key, const QJsonValue& value)
    {
        auto object = QJsonDocument::fromJson(json.toUtf8()).object();
        object.insert(QLatin1String(key), value);
        return QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact));
    }

    ReadingFixture room;
};

TEST_F(ReadingMarks, TheyReturnWhenThePhotoIsOpenedAgain)
{
    markAll();
    room.enter();
    ASSERT_EQ(room.childrenOf(room.other, Entity::Reading), 6) << room.says();
    const ui::Marked before = room.current();
    const auto density = *room.current().measured->regions[2].red.density;
    ASSERT_EQ(before.rows.size(), 1u);
    room.reading.reset();
    room.reopen(); // as it stands in the file
    room.openDesk();
    auto& after = room.current();
    EXPECT_EQ(static_cast<ui::Marked&>(after), before);
    ASSERT_TRUE(after.measured) << room.says();
    EXPECT_EQ(*after.measured->regions[2].red.density, density) << "nothing was rounded";
    EXPECT_TRUE(after.notes.isEmpty());
    room.enter();
    EXPECT_EQ(room.childrenOf(room.other, Entity::Reading), 6) << "the same readings";
}

TEST_F(ReadingMarks, NothingIsKeptBeforeReadingsAreEntered)
{
    markAll();
    room.openDesk();
    EXPECT_TRUE(room.current().marks.empty());
    EXPECT_EQ(kept(), QString());
}

TEST_F(ReadingMarks, MarksThatAnotherWindowKeptMeanwhileAreNotReplaced)
{
    markAll();
    room.enter();
    const auto theirs = with(kept(), "level", true);
    keep(theirs);
    room.enter();
    EXPECT_EQ(kept(), theirs);
    EXPECT_THAT(room.says(), testing::HasSubstr("another window"));
    room.openDesk();
    room.enter();
    EXPECT_THAT(room.says(), testing::Not(testing::HasSubstr("another window"))) << "they were read and are known";
}

TEST_F(ReadingMarks, AnotherCardOfThePhotoIsNotReplaced)
{
    const auto first = room.add(Entity::Card, { { "card_name", "C1" } });
    const auto second = room.add(Entity::Card, { { "card_name", "C2" } });
    markAll();
    room.set({ Entity::Photo, room.photo }, "photo_card", first);
    room.current().references.card = second;
    room.enter();
    EXPECT_EQ(room.desk().notebook().get({ Entity::Photo, room.photo }, u"photo_card").link(), first);
    EXPECT_THAT(room.says(), testing::HasSubstr("C1"));
}

TEST_F(ReadingMarks, WhatIsNotUnderstoodIsRefusedAndLeftAsItIs)
{
    markAll();
    room.enter();
    const auto good = kept();
    const QJsonArray line { QJsonArray { 0, 0 }, QJsonArray { 1, 1 }, QJsonArray { 2, 2 }, QJsonArray { 3, 3 } };
    const std::pair<QString, const char*> bad[] {
        { text("{\"version\":1,"), "no JSON" },
        { text("[]"), "version" },
        { text("{\"regions\":[]}"), "version" },
        { with(good, "version", 2), "newer" },
        { with(good, "photo", QJsonArray { 10, 10 }), "another size" },
        { with(good, "colour", 1), "colour" },
        { with(good, "when", text("tomorrow")), "when" },
        { with(good, "channel", 3), "channel" },
        { with(good, "regions", QJsonArray { QJsonObject { { text("role"), text("deepest") } } }), "regions[0].quad" },
        { with(good, "regions",
              QJsonArray { QJsonObject { { text("role"), text("deepest") }, { text("quad"), line } } }),
            "regions[0].quad" },
        { with(good, "rows", QJsonArray { QJsonObject { { text("kind"), text("spiral") } } }), "rows[0].kind" },
        { with(good, "references", QJsonObject { { text("white"), 0.05 } }), "references.grey" },
    };
    for (const auto& [json, place] : bad) {
        keep(json);
        room.openDesk();
        EXPECT_TRUE(room.current().marks.empty() && room.current().rows.empty()) << json.toStdString();
        EXPECT_NE(room.says().find("not understood"), std::string::npos) << json.toStdString();
        EXPECT_NE(room.says().find(place), std::string::npos) << place << ": " << room.says();
    }
    markAll();
    room.enter();
    EXPECT_EQ(room.childrenOf(room.other, Entity::Reading), 6) << "readings are entered all the same";
    EXPECT_EQ(kept(), bad[std::size(bad) - 1].first) << "left as it is";
}

TEST_F(ReadingMarks, WhatIsGoneOrChangedIsSaid)
{
    const auto card = room.add(Entity::Card, { { "card_name", "C1" }, { "card_known_by", "densitometer" } });
    const auto light = room.add(Entity::CardPatch, { { "patch_position", 1 }, { "patch_density", 0.05 } }, card);
    room.add(Entity::CardPatch, { { "patch_position", 2 }, { "patch_density", 0.75 } }, card);
    markAll();
    auto* box = room.reading->referencePanel()->cardBox();
    while (box->currentData().toLongLong() != card)
        QTest::keyClick(box, Qt::Key_Down);
    room.drag(MarkRole::PatchRow, { 0.025, 0.175 }, { 0.525, 0.175 });
    room.enter();
    ASSERT_EQ(room.childrenOf(room.other, Entity::Reading), 6) << room.says();
    room.set({ Entity::CardPatch, light }, "patch_density", 0.06);
    room.openDesk();
    EXPECT_EQ(room.current().references.card, card);
    EXPECT_NE(room.says().find("have been changed since"), std::string::npos) << room.says();
    ASSERT_TRUE(room.desk().perform({}, [&](store::Writer& writer) -> Outcome {
        if (auto gone = writer.remove({ Entity::Print, room.other }); !gone)
            return gone;
        return writer.remove({ Entity::Card, card });
    }));
    room.openDesk();
    EXPECT_EQ(room.current().references.card, 0);
    EXPECT_EQ(room.current().outlines.at(0).print, 0);
    EXPECT_NE(room.says().find("C1"), std::string::npos) << room.says();
    EXPECT_NE(room.says().find("A1-02"), std::string::npos) << room.says();
}

TEST_F(ReadingMarks, AFileThatIsNotStoredKeepsNoneAndSaysSo)
{
    QTemporaryDir folder;
    const auto path = folder.filePath(text("loose.png"));
    ASSERT_TRUE(render(room.scene, 9).save(path));
    room.reading->addFiles({ path });
    room.settle();
    markAll();
    room.enter();
    EXPECT_EQ(room.childrenOf(room.other, Entity::Reading), 6);
    EXPECT_FALSE(room.readings(room.other, "reading_photo").at(0).has());
    EXPECT_NE(room.says().find("not stored"), std::string::npos) << room.says();
    EXPECT_EQ(kept(), QString());
}

TEST_F(ReadingMarks, DensitiesOfTheCardsAreRememberedForTheSessionOnly)
{
    markAll();
    auto* panel = room.reading->referencePanel();
    for (auto* spin : panel->findChildren<QDoubleSpinBox*>())
        if (spin->accessibleName() == text("Density of the grey card"))
            spin->setValue(0.7);
    room.settle();
    room.enter();
    const auto second = room.store(room.first, render(room.scene, 11), "second.png");
    room.photo = second;
    room.openDesk();
    EXPECT_DOUBLE_EQ(room.current().references.grey, 0.7);
    room.sit(room.add(Entity::Session, { { "session_code", "A2" } }));
    room.openDesk();
    EXPECT_DOUBLE_EQ(room.current().references.grey, ui::References().grey);
}

TEST_F(ReadingMarks, ALoupeShowsThePixelsUnderTheCornerThatTheKeysMove)
{
    auto* canvas = room.reading->canvas();
    canvas->addOutline(room.first);
    canvas->choose(0); // its top left corner
    auto& corner = room.current().outlines[0].corners[0];
    const auto edge = room.scene.corners[0];
    corner = { edge.x - 12, edge.y + 60 }; // on the table, left of the sheet
    const auto middle = [&] { // of the loupe, beside its cross
        const auto shot = canvas->grab().toImage();
        const int left = canvas->toWidget(corner).x() < canvas->width() / 2.0 ? canvas->width() - 158 : 8;
        return shot.pixelColor(left + 75 + 6, 8 + 75 + 6).lightness();
    };
    const int table = middle();
    for (int i = 0; i < 2; ++i)
        QTest::keyClick(canvas, Qt::Key_Right, Qt::ShiftModifier); // 20 pixels: onto the paper
    EXPECT_GT(middle(), table + 60);
    QTest::keyClick(canvas, Qt::Key_Left);
    EXPECT_DOUBLE_EQ(corner.x, edge.x - 12 + 20 - 1);
    room.settle();
}

TEST_F(ReadingMarks, AnOutlinedPrintIsSeenStraightOn)
{
    room.set({ Entity::Print, room.other }, "print_width_mm", 150);
    room.set({ Entity::Print, room.other }, "print_height_mm", 200);
    room.reading->canvas()->addOutline(room.other);
    room.current().outlines[0].corners = room.scene.corners;
    QTest::keyClick(room.reading->straightBox(), Qt::Key_Space);
    room.settle();
    ASSERT_TRUE(room.reading->straightView()->isVisible());
    const auto& straight = room.reading->straightView()->picture();
    // The outline lies: the longer side goes across.
    EXPECT_NEAR(double(straight.width()) / straight.height(), 200.0 / 150, 0.01);
    const auto at = [&](double u, double v) {
        return straight.pixelColor(int(u * straight.width()), int(v * straight.height()));
    };
    for (const auto& patch : room.scene.patches) { // every patch stands where the sheet has it, in its colour
        const auto seen = at(patch.u + patch.width / 2, patch.v + patch.height / 2);
        const double light = room.scene.exposure * std::pow(10, -patch.density[0]) + room.scene.flare;
        EXPECT_NEAR(seen.red(), 255 * density::linearToSrgb(light), 3) << patch.name;
        const auto left = at(patch.u - 0.02, patch.v + patch.height / 2);
        const auto right = at(patch.u + 0.02, patch.v + patch.height / 2);
        if (patch.name != std::string("step"))
            EXPECT_NE(left.red(), right.red()) << patch.name;
    }
    QTest::keyClick(room.reading->straightBox(), Qt::Key_Space);
    EXPECT_FALSE(room.reading->straightView()->isVisible());
}

TEST_F(ReadingMarks, WithoutReferencesTheSentenceStays)
{
    room.drag(MarkRole::WedgeRow, { 0.1, 0.8 }, { 0.9, 0.8 });
    EXPECT_NE(room.says().find("relative"), std::string::npos) << room.says();
    room.enter();
    EXPECT_EQ(room.childrenOf(room.first, Entity::Reading), 0);
    EXPECT_NE(room.says().find("two references"), std::string::npos) << room.says();
    EXPECT_NE(room.says().find("and 2 more"), std::string::npos) << "one sentence for all steps: " << room.says();
    EXPECT_EQ(kept(), QString());
}

TEST_F(ReadingMarks, APhotosStageSaysWhatItShows)
{
    const auto wet = room.store(room.first, render(room.scene, 3), "wet.png");
    room.set({ Entity::Photo, wet }, "photo_stage", "wet");
    room.reading->addStored(QVector<qint64> { wet });
    room.settle();
    EXPECT_EQ(room.current().when, text("wet"));
}

} // namespace

} // namespace WASHFAST_FILE
