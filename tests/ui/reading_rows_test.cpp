// Rows on the Reading desk: a stored card whose row of patches is what the photo is measured against, and a wedge that
// is read in one go. The truth is that of the rendering (tests/support/rendered_photo.h: sRGB of IEC 61966-2-1,
// D = -log10 R). The densities of the card are those published for the neutral row of the 24-patch chart
// (reference/data/colour/chart24_reference.csv; see SOURCES.md there); the wedge's are made for the test.
#include "tests/support/reading_fixture.h"
#include "ui/reading/reference_panel.h"
#include "ui/reading/row_panel.h"

#include <QCheckBox>
#include <QSpinBox>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::MarkRole;

namespace {

constexpr int steps = 10;

/// Nominal densities of patches 19 to 24 as the table has them.
std::vector<double> publishedRow()
{
    QFile file(QStringLiteral(WASHFAST_REFERENCE "/colour/chart24_reference.csv"));
    EXPECT_TRUE(file.open(QIODevice::ReadOnly));
    std::vector<double> all;
    const auto header = QString::fromUtf8(file.readLine()).split(QLatin1Char(','));
    const auto column = header.indexOf(QStringLiteral("nominal_density"));
    while (!file.atEnd())
        if (const auto cells = QString::fromUtf8(file.readLine()).split(QLatin1Char(','));
            column > 0 && cells.size() > column && !cells[column].isEmpty())
            all.push_back(cells[column].toDouble());
    EXPECT_EQ(all.size(), 6u);
    return all;
}

class ReadingRows : public testing::Test {
protected:
    void SetUp() override
    {
        patches = publishedRow();
        for (int i = 0; i < 6; ++i)
            room.scene.patches.push_back({ "card", 0.05 + 0.15 * i, 0.06, 0.15, 0.22,
                { patches[size_t(i)], patches[size_t(i)], patches[size_t(i)] } });
        for (int i = 0; i < steps; ++i) // the clearest step is the deepest blue
            room.scene.patches.push_back({ "step", 0.05 + 0.09 * i, 0.5, 0.09, 0.3, truth(i + 1) });
    }
    static density::ChannelDensities truth(int step)
    {
        const double red = 1.30 - 0.12 * (step - 1);
        return { red, 0.75 * red, 0.4 * red };
    }
    qint64 card(const char* known_by = "maker", const char* name = "C1")
    {
        const auto id = room.add(Entity::Card, { { "card_name", name }, { "card_known_by", known_by } });
        for (size_t i = 0; i < patches.size(); ++i)
            room.add(Entity::CardPatch, { { "patch_position", int(i + 1) }, { "patch_density", patches[i] } }, id);
        return id;
    }
    /// Chooses an entry of a box by the keys.
    void choose(QComboBox* box, int index)
    {
        while (box->currentIndex() != index)
            QTest::keyClick(box, box->currentIndex() < index ? Qt::Key_Down : Qt::Key_Up);
        room.settle();
    }
    void measureAgainstCard(qint64 card)
    {
        auto* box = room.reading->referencePanel()->cardBox();
        choose(box, box->findData(card));
        room.drag(MarkRole::PatchRow, { 0.05, 0.17 }, { 0.95, 0.17 });
    }
    void readWedge() { room.drag(MarkRole::WedgeRow, { 0.05, 0.65 }, { 0.95, 0.65 }); }

    ReadingFixture room;
    std::vector<double> patches;
};

TEST_F(ReadingRows, ACardIsPlacedBetweenItsEndsAndItsResidualsAreShown)
{
    const auto id = card();
    room.openStored();
    measureAgainstCard(id);
    ASSERT_TRUE(room.current().measured) << room.says();
    const auto& measured = *room.current().measured;
    ASSERT_EQ(measured.references.size(), 6u);
    EXPECT_FALSE(measured.relative_to_paper);
    for (size_t i = 0; i < 6; ++i) {
        EXPECT_NEAR(*measured.references[i].fitted_density, patches[i], 0.02) << "patch " << i + 1;
        auto* shown = room.reading->table()->item(int(i), ui::DensityTable::OffTheFit);
        EXPECT_NEAR(QLocale().toDouble(shown->text().mid(1)), std::abs(*measured.references[i].residual), 0.0006);
    }
}

TEST_F(ReadingRows, AWedgeIsReadInOneGoWithinItsStatedErrors)
{
    const auto id = card();
    room.openStored();
    measureAgainstCard(id);
    readWedge();
    ASSERT_EQ(room.current().rows.back().found, steps) << "found in the photo";
    ASSERT_TRUE(room.current().measured) << room.says();
    room.enter();
    ASSERT_EQ(room.childrenOf(room.first, Entity::Reading), steps) << room.says();
    const auto density = room.readings(room.first, "reading_density");
    const auto where = room.readings(room.first, "reading_where");
    const auto step = room.readings(room.first, "reading_step");
    int within = 0;
    for (int i = 0; i < steps; ++i) {
        EXPECT_EQ(where[size_t(i)].text(), text("step"));
        EXPECT_EQ(step[size_t(i)].number(), i + 1);
        EXPECT_EQ(density[size_t(i)].evidence, Evidence::Measured) << "the maker knows the card";
        const auto& region = room.current().measured->regions[6 + size_t(i)];
        EXPECT_EQ(*density[size_t(i)].number(), *region.red.density);
        const double off = std::abs(*region.red.density - truth(i + 1)[0]) / *region.red.standard_error;
        EXPECT_LT(off, 3.5) << "step " << i + 1;
        EXPECT_LT(*region.red.standard_error, 0.05) << "an error that says nothing would be met as well";
        within += off < 1.96;
    }
    EXPECT_GE(within, 8) << "95 in 100 are expected";
    for (const auto& from : room.readings(room.first, "reading_photo"))
        EXPECT_EQ(from.link(), room.photo);
    const Ref ref { Entity::Photo, room.photo };
    EXPECT_EQ(room.desk().notebook().get(ref, u"photo_card").link(), id);
    EXPECT_TRUE(room.desk().notebook().get(ref, u"photo_marks").has());
    room.undo();
    EXPECT_EQ(room.childrenOf(room.first, Entity::Reading), 0) << "one step";
    EXPECT_FALSE(room.desk().notebook().get(ref, u"photo_marks").has());
    EXPECT_FALSE(room.desk().notebook().get(ref, u"photo_card").has());
}

TEST_F(ReadingRows, TheClearestStepMayLieAtTheOtherEnd)
{
    const auto id = card();
    room.openStored();
    measureAgainstCard(id);
    room.drag(MarkRole::WedgeRow, { 0.95, 0.65 }, { 0.05, 0.65 }); // from the last step to the first
    EXPECT_NE(room.says().find("at the other end?"), std::string::npos) << "as the densities suggest: " << room.says();
    room.enter();
    auto density = room.readings(room.first, "reading_density");
    ASSERT_EQ(density.size(), size_t(steps)) << room.says();
    EXPECT_NEAR(*density[0].number(), truth(steps)[0], 0.05);
    choose(room.reading->rowPanel()->endBox(), 1);
    EXPECT_EQ(room.says().find("at the other end?"), std::string::npos) << room.says();
    room.dialogs.willAnswer(0);
    room.enter();
    EXPECT_NE(room.dialogs.shown().back().text.indexOf(text("A1-01, step 1 of the wedge: ")), -1)
        << room.dialogs.shown().back().text.toStdString();
    density = room.readings(room.first, "reading_density");
    EXPECT_NEAR(*density[0].number(), truth(steps)[0], 0.05) << "kept";
    room.dialogs.willAnswer(1);
    room.enter();
    density = room.readings(room.first, "reading_density");
    ASSERT_EQ(density.size(), size_t(steps)) << "replaced";
    EXPECT_NEAR(*density[0].number(), truth(1)[0], 0.05);
}

TEST_F(ReadingRows, TheNumberOfStepsIsTypedWhereNoneStandOut)
{
    for (auto& patch : room.scene.patches)
        if (patch.name == std::string("step"))
            patch.density.fill(0.6); // an even field
    const auto id = card();
    room.openStored();
    measureAgainstCard(id);
    readWedge();
    EXPECT_NE(room.says().find("say how many"), std::string::npos) << room.says();
    room.enter();
    EXPECT_EQ(room.childrenOf(room.first, Entity::Reading), 0);
    auto* box = room.reading->rowPanel()->countBox();
    box->setFocus();
    box->selectAll();
    QTest::keyClicks(box, text("5"));
    room.settle();
    EXPECT_EQ(room.says().find("say how many"), std::string::npos) << room.says();
    room.enter();
    ASSERT_EQ(room.childrenOf(room.first, Entity::Reading), 5) << room.says();
    for (const auto& density : room.readings(room.first, "reading_density"))
        EXPECT_NEAR(*density.number(), 0.6, 0.05);
}

TEST_F(ReadingRows, RowsFollowTheSlantOfTheOutlineAndBelongToItsPrint)
{
    const auto id = card();
    room.scene.corners = { density::Point { 150, 60 }, { 860, 170 }, { 760, 660 }, { 40, 560 } };
    room.openStored();
    room.reading->canvas()->addOutline(room.other);
    room.current().outlines[0].corners = room.scene.corners;
    measureAgainstCard(id);
    readWedge();
    ASSERT_EQ(room.current().rows.back().found, steps) << room.says();
    room.enter();
    EXPECT_EQ(room.childrenOf(room.first, Entity::Reading), 0);
    const auto density = room.readings(room.other, "reading_density");
    ASSERT_EQ(density.size(), size_t(steps)) << room.says();
    for (int i = 0; i < steps; ++i)
        EXPECT_NEAR(*density[size_t(i)].number(), truth(i + 1)[0], 0.06) << "step " << i + 1;
}

TEST_F(ReadingRows, EachOutlinedPrintHasAWedgeOfItsOwn)
{
    auto& all = room.scene.patches;
    all.erase(all.begin() + 6, all.end());
    const auto red = [](int sheet, int step) { return 1.2 - 0.2 * step - 0.05 * sheet; };
    for (int sheet = 0; sheet < 2; ++sheet)
        for (int i = 0; i < 5; ++i)
            all.push_back({ "step", 0.05 + 0.5 * sheet + 0.08 * i, 0.5, 0.08, 0.3,
                { red(sheet, i), 0.8 * red(sheet, i), 0.5 * red(sheet, i) } });
    const auto id = card();
    room.openStored();
    measureAgainstCard(id);
    const auto map = *density::Perspective::ontoCorners(room.scene.corners);
    for (const auto& [print, left] : { std::pair(room.first, 0.02), std::pair(room.other, 0.52) }) {
        room.reading->canvas()->addOutline(print);
        room.current().outlines.back().corners = *map.toPhoto(density::rectangle(left, 0.4, 0.46, 0.55));
        room.drag(MarkRole::WedgeRow, { left + 0.03, 0.65 }, { left + 0.43, 0.65 });
        ASSERT_EQ(room.current().rows.back().found, 5) << room.says();
    }
    room.enter();
    for (int sheet = 0; sheet < 2; ++sheet) {
        const auto density = room.readings(sheet ? room.other : room.first, "reading_density");
        ASSERT_EQ(density.size(), 5u) << room.says();
        for (int i = 0; i < 5; ++i)
            EXPECT_NEAR(*density[size_t(i)].number(), red(sheet, i), 0.04) << "sheet " << sheet << " step " << i + 1;
    }
    room.undo();
    EXPECT_EQ(room.childrenOf(room.first, Entity::Reading) + room.childrenOf(room.other, Entity::Reading), 0);
}

/// The photo and the places in it are those of reference/photo_test.cpp; SOURCES.md beside the photo says where it
/// comes from. The grey row is the left column of the chart, from top to bottom.
TEST_F(ReadingRows, TheGreyRowOfARealPhotoIsAReferenceCard)
{
    const auto id = room.add(Entity::Card, { { "card_name", "C4" }, { "card_known_by", "maker" } });
    for (size_t i = 0; i < 6; ++i)
        if (i != 3) // this one is to be measured against the others
            room.add(Entity::CardPatch, { { "patch_position", int(i + 1) }, { "patch_density", patches[i] } }, id);
    room.openStored();
    room.reading->addFiles({ QStringLiteral(WASHFAST_REFERENCE "/photos/chart24_cabinet_target.jpg") });
    room.settle();
    auto* box = room.reading->referencePanel()->cardBox();
    choose(box, box->findData(id));
    EXPECT_EQ(room.reading->roleBox()->currentIndex(), int(MarkRole::PatchRow)) << "what is to be marked next";
    room.dragPixels(MarkRole::PatchRow, { 1060, 1049 - 65 }, { 1060, 1699 + 65 });
    ASSERT_TRUE(room.current().measured) << room.says();
    const auto& measured = *room.current().measured;
    EXPECT_NE(room.says().find("clipped"), std::string::npos) << "the white is: " << room.says();
    EXPECT_EQ(room.reading->table()->item(0, ui::DensityTable::OffTheFit)->text(), text("not used"));
    ASSERT_EQ(measured.references.size(), 5u);
    for (size_t i = 1; i < 5; ++i)
        EXPECT_LT(std::abs(*measured.references[i].residual), 0.05) << i;
    EXPECT_NEAR(*measured.regions[3].visual.density, patches[3], 0.10) << "as published";
}

TEST_F(ReadingRows, ThePhotosCardIsChosenWhenItIsRecorded)
{
    const auto id = card();
    room.openStored();
    room.set({ Entity::Photo, room.photo }, "photo_card", id);
    room.openDesk();
    EXPECT_EQ(room.current().references.card, id);
    EXPECT_EQ(room.reading->referencePanel()->cardBox()->currentData().toLongLong(), id);
}

TEST_F(ReadingRows, AnAssumedCardMakesReadingsAssumed)
{
    const auto id = card("assumed");
    room.openStored();
    measureAgainstCard(id);
    room.drag(MarkRole::Deepest, { 0.06, 0.55 }, { 0.13, 0.75 });
    room.enter();
    EXPECT_EQ(room.readings(room.first, "reading_density").at(0).evidence, Evidence::Assumed);
    EXPECT_NE(room.says().find("assumed"), std::string::npos) << room.says();
}

TEST_F(ReadingRows, ACardMarkedTheWrongWayRoundIsRefused)
{
    const auto id = card();
    room.openStored();
    measureAgainstCard(id);
    choose(room.reading->rowPanel()->endBox(), 1);
    EXPECT_FALSE(room.current().measured);
    EXPECT_NE(room.says().find("contradict"), std::string::npos) << room.says();
    EXPECT_FALSE(room.reading->enterButton()->isEnabled());
}

TEST_F(ReadingRows, PatchesThatNobodyKnowsAreNoReferences)
{
    const auto id = room.add(Entity::Card, { { "card_name", "C2" }, { "card_known_by", "densitometer" } });
    for (int i = 0; i < 6; ++i) // only the first, with its own channels, the fourth, and the last are known
        room.add(Entity::CardPatch,
            i == 0 ? Cells { { "patch_position", 1 }, { "patch_red", patches[0] }, { "patch_green", patches[0] },
                { "patch_blue", patches[0] } }
                : i == 3 || i == 5 ? Cells { { "patch_position", i + 1 }, { "patch_density", patches[size_t(i)] } }
                                   : Cells { { "patch_position", i + 1 } },
            id);
    room.openStored();
    measureAgainstCard(id);
    ASSERT_TRUE(room.current().measured) << room.says();
    EXPECT_EQ(room.current().measured->references.size(), 3u);
    EXPECT_NEAR(*room.current().measured->regions[4].visual.density, patches[4], 0.05) << "read like any other place";
}

TEST_F(ReadingRows, RetiredCardsAreNotOffered)
{
    const auto id = card();
    room.set({ Entity::Card, id }, "card_retired", true);
    const auto stays = card("maker", "C3");
    room.openStored();
    EXPECT_LT(room.reading->referencePanel()->cardBox()->findData(id), 0);
    EXPECT_GE(room.reading->referencePanel()->cardBox()->findData(stays), 0);
}

TEST_F(ReadingRows, GivenDensitiesAreKeptAsACard)
{
    room.openStored();
    room.drag(MarkRole::White, { 0.07, 0.1 }, { 0.18, 0.24 });
    room.drag(MarkRole::Grey, { 0.52, 0.1 }, { 0.63, 0.24 });
    room.reading->cardsMeasuredBox()->setChecked(true);
    room.dialogs.willAnswer(0);
    room.dialogs.willType(text(" Desk card "));
    QTest::keyClick(room.reading->referencePanel()->keepButton(), Qt::Key_Space);
    const auto& notebook = room.desk().notebook();
    const auto id = notebook.byName(Entity::Card, text("Desk card"));
    ASSERT_TRUE(id) << room.says() << room.dialogs.texts(text("message")).join(text("; ")).toStdString();
    EXPECT_TRUE(room.dialogs.allUsed());
    EXPECT_EQ(notebook.get({ Entity::Card, *id }, u"card_known_by").text(), text("densitometer"));
    ASSERT_EQ(notebook.children(Entity::CardPatch, *id).size(), 2u);
    EXPECT_GE(room.reading->referencePanel()->cardBox()->findData(*id), 0) << "offered at once";
    room.undo();
    EXPECT_FALSE(room.desk().notebook().byName(Entity::Card, text("Desk card"))) << "one step";
    EXPECT_EQ(room.desk().notebook().table(Entity::CardPatch).rows(), 0);
}

TEST_F(ReadingRows, ARowOfUnknownPatchesIsMeasuredAndKeptAsACard)
{
    // White and grey are known; the row of six is another card that is to be known by them.
    room.scene.patches.push_back({ "white", 0.05, 0.86, 0.1, 0.12, { 0.05, 0.05, 0.05 } });
    room.scene.patches.push_back({ "grey", 0.2, 0.86, 0.1, 0.12, { 0.75, 0.75, 0.75 } });
    room.openStored();
    room.drag(MarkRole::White, { 0.07, 0.88 }, { 0.13, 0.96 });
    room.drag(MarkRole::Grey, { 0.22, 0.88 }, { 0.28, 0.96 });
    room.reading->cardsMeasuredBox()->setChecked(true);
    room.drag(MarkRole::PatchRow, { 0.95, 0.17 }, { 0.05, 0.17 }); // from its dark end: turned when it is kept
    ASSERT_EQ(room.current().rows[0].found, 6) << room.says();
    room.dialogs.willType(text("C9"));
    QTest::keyClick(room.reading->referencePanel()->keepButton(), Qt::Key_Space);
    const auto& notebook = room.desk().notebook();
    const auto id = notebook.byName(Entity::Card, text("C9"));
    ASSERT_TRUE(id) << room.says();
    EXPECT_EQ(notebook.get({ Entity::Card, *id }, u"card_known_by").text(), text("compared"));
    const auto kept = notebook.children(Entity::CardPatch, *id);
    ASSERT_EQ(kept.size(), 6u);
    for (size_t i = 0; i < 6; ++i) {
        const Ref patch { Entity::CardPatch, notebook.table(Entity::CardPatch).id(kept[i]) };
        EXPECT_EQ(notebook.get(patch, u"patch_position").number(), i + 1);
        EXPECT_NEAR(*notebook.get(patch, u"patch_density").number(), patches[i], i < 5 ? 0.04 : 0.1);
    }
}

TEST_F(ReadingRows, ARowIsMadeMovedWidenedAndRemovedByKeysAlone)
{
    room.openStored();
    auto* canvas = room.reading->canvas();
    room.reading->roleBox()->setCurrentIndex(int(MarkRole::WedgeRow));
    QTest::keyClick(canvas, Qt::Key_Insert);
    ASSERT_EQ(room.current().rows.size(), 1u);
    const auto before = room.current().rows[0].corners;
    QTest::keyClick(canvas, Qt::Key_Right);
    QTest::keyClick(canvas, Qt::Key_Down, Qt::ControlModifier | Qt::ShiftModifier); // wider by 10
    QTest::keyClick(canvas, Qt::Key_Right, Qt::ControlModifier | Qt::ShiftModifier); // longer by 10
    auto after = room.current().rows[0].corners;
    EXPECT_NEAR(after[0].x, before[0].x + 1, 1e-9);
    EXPECT_NEAR(after[0].y, before[0].y - 5, 1e-9);
    EXPECT_NEAR(after[2].x, before[2].x + 11, 1e-9);
    EXPECT_NEAR(after[2].y, before[2].y + 5, 1e-9);
    QTest::keyClick(canvas, Qt::Key_PageDown); // its first corner
    QTest::keyClick(canvas, Qt::Key_Up, Qt::ShiftModifier);
    EXPECT_NEAR(room.current().rows[0].corners[0].y, after[0].y - 10, 1e-9);
    EXPECT_EQ(room.current().rows[0].corners[1], after[1]);
    QTest::keyClick(canvas, Qt::Key_Delete);
    EXPECT_TRUE(room.current().rows.empty());
    room.settle();
}

} // namespace

} // namespace WASHFAST_FILE
