// Looking for signs in a photo of a print, with real key and mouse events: what is proposed, that the person decides,
// what is written, and what is said when nothing is found.
#include "ui/reading/signs_dialog.h"

#include "tests/support/photo_work.h"
#include "tests/support/rendered_photo.h"
#include "ui/common/child_table.h"
#include "ui/prints/photo_strip.h"
#include "ui/reading/signs_canvas.h"
#include "ui/reading/signs_record.h"
#include "ui/reading/signs_words.h"

#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>
#include <QTest>
#include <numbers>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using density::SignKind;
using ui::SheetRole;
using ui::SignsDialog;

namespace {

class Signs : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        print = room.print("A1-01");
        room.set({ Entity::Print, print }, "print_width_mm", 148);
        room.set({ Entity::Print, print }, "print_height_mm", 105);
        scene.width = 480;
        scene.height = 340;
        scene.corners = density::rectangle(0, 0, 480, 340); // the sheet fills the photo
        scene.patches = { { "print", 0, 0, 1, 1, { 0.9, 0.7, 0.4 } } };
        scene.noise = 1.5;
    }
    qint64 store(const QByteArray& bytes, const char* stage, const char* name = "p.png")
    {
        return storePhoto(room, print, bytes, stage, name);
    }
    qint64 photo(const char* stage, unsigned seed = 1, const char* name = "p.png")
    {
        return store(encode(render(scene, seed), "png"), stage, name);
    }
    void stripes(double amplitude = 0.03)
    {
        scene.extra
            = [amplitude](double u, double) { return amplitude * std::sin(2 * std::numbers::pi * u * 148 / 4); };
    }
    void open(qint64 id)
    {
        dialog = std::make_unique<SignsDialog>(room.services(), print, id);
        dialog->show();
        settle();
    }
    void settle()
    {
        waitWhile([&] { return dialog->working(); });
        ASSERT_FALSE(dialog->working());
    }
    void look()
    {
        QTest::mouseClick(dialog->lookButton(), Qt::LeftButton);
        settle();
    }
    [[nodiscard]] int rowOf(SignKind kind) const
    {
        for (int row = 0; row < dialog->table()->rowCount(); ++row)
            if (dialog->table()->item(row, 0)->text() == ui::signWord(kind))
                return row;
        return -1;
    }
    [[nodiscard]] Known of(int row, const char* column)
    {
        const auto& notebook = room.desk().notebook();
        return notebook.get({ Entity::Sign, notebook.table(Entity::Sign).id(row) }, text(column));
    }
    [[nodiscard]] std::string says() const { return dialog->says().toStdString(); }

    PrintsFixture room;
    Scene scene;
    std::unique_ptr<SignsDialog> dialog;
    qint64 print = 0;
};

TEST_F(Signs, StripesAreProposedAndAcceptedByKeyAsOneStep)
{
    stripes();
    const auto id = photo("day_after");
    open(id);
    dialog->brushBox()->setCurrentIndex(2); // up and down
    look();
    ASSERT_TRUE(dialog->proposals()) << says();
    const int row = rowOf(SignKind::Stripes);
    ASSERT_GE(row, 0) << says();
    EXPECT_EQ(room.childrenOf(print, Entity::Sign), 0) << "nothing is decided by itself";
    EXPECT_TRUE(dialog->table()->item(row, 3)->text().contains(text("along the brush")));
    EXPECT_TRUE(dialog->table()->item(row, 4)->text().contains(text("not decided")));
    dialog->table()->setCurrentCell(row, 0);
    dialog->acceptButton()->setFocus();
    QTest::keyClick(dialog->acceptButton(), Qt::Key_Space);
    ASSERT_EQ(room.childrenOf(print, Entity::Sign), 1);
    EXPECT_EQ(of(0, "sign_kind").text(), text("stripes"));
    EXPECT_EQ(of(0, "sign_found").text(), text("accepted"));
    EXPECT_EQ(of(0, "sign_station").text(), text("read"));
    EXPECT_EQ(of(0, "sign_photo").link(), id);
    EXPECT_NEAR(*of(0, "sign_measure").number(), 0.03, 0.005);
    EXPECT_NEAR(*of(0, "sign_spacing_mm").number(), 4.0, 0.2);
    EXPECT_NEAR(*of(0, "sign_direction_deg").number(), 90, 3);
    EXPECT_FALSE(of(0, "sign_strength").has()) << "by eye: left to the person";
    EXPECT_TRUE(dialog->table()->item(row, 4)->text().startsWith(text("accepted")));
    EXPECT_FALSE(dialog->acceptButton()->isEnabled());
    EXPECT_TRUE(dialog->rejectButton()->isEnabled());
    room.undo();
    EXPECT_EQ(room.childrenOf(print, Entity::Sign), 0);
    EXPECT_TRUE(dialog->table()->item(row, 4)->text().contains(text("not decided"))) << "the dialog follows";
}

TEST_F(Signs, ARejectedOneStaysOnRecordAndIsMarkedWhereverItIsShown)
{
    stripes();
    const auto id = photo("day_after");
    open(id);
    look();
    dialog->table()->setCurrentCell(rowOf(SignKind::Stripes), 0);
    QTest::mouseClick(dialog->rejectButton(), Qt::LeftButton);
    ASSERT_EQ(room.childrenOf(print, Entity::Sign), 1);
    EXPECT_EQ(of(0, "sign_found").text(), text("rejected"));
    ui::ChildTable rows(room.services(), Entity::Sign, text("Signs"));
    rows.setOwner(print);
    EXPECT_TRUE(rows.table()->item(0, 0)->text().contains(text("rejected: no sign")))
        << rows.table()->item(0, 0)->text().toStdString();
    EXPECT_FALSE(room.get(print, "signs_seen").has()) << "it counts as no sign";
    // Opened again, the same photo shows what was decided; changing one's mind changes the row.
    open(id);
    look();
    const int row = rowOf(SignKind::Stripes);
    EXPECT_TRUE(dialog->table()->item(row, 4)->text().contains(text("counts as no sign")));
    dialog->table()->setCurrentCell(row, 0);
    EXPECT_FALSE(dialog->rejectButton()->isEnabled());
    QTest::mouseClick(dialog->acceptButton(), Qt::LeftButton);
    EXPECT_EQ(room.childrenOf(print, Entity::Sign), 1);
    EXPECT_EQ(of(0, "sign_found").text(), text("accepted"));
    EXPECT_EQ(room.text(print, "signs_seen"), "stripes");
    rows.refresh();
    EXPECT_FALSE(rows.table()->item(0, 0)->text().contains(text("rejected")));
    room.undo();
    EXPECT_EQ(of(0, "sign_found").text(), text("rejected"));
}

TEST_F(Signs, NoSignIsSaidPlainlyWithWhatWasLookedFor)
{
    open(photo("day_after"));
    look();
    ASSERT_TRUE(dialog->proposals());
    EXPECT_TRUE(dialog->proposals()->found.empty());
    EXPECT_TRUE(dialog->says().startsWith(text("No sign found."))) << says();
    EXPECT_TRUE(dialog->says().contains(text("Stripes: none found at spacings of 2 mm"))) << says();
    EXPECT_TRUE(dialog->says().contains(text("no bare paper is marked"))) << says();
    EXPECT_TRUE(dialog->says().contains(text("no photo before the rinse"))) << says();
    EXPECT_FALSE(dialog->acceptButton()->isVisible());
    EXPECT_FALSE(dialog->rejectButton()->isVisible());
}

TEST_F(Signs, RegionsAreDrawnWithTheMouseAndFogIsReadInThem)
{
    scene.patches
        = { { "print", 0, 0, 0.6, 1, { 0.9, 0.7, 0.4 } }, { "covered", 0.65, 0.1, 0.3, 0.3, { 0.2, 0.2, 0.2 } } };
    open(photo("day_after"));
    const auto draw = [&](int role, double u, double v, double width, double height) {
        dialog->roleBox()->setCurrentIndex(role);
        auto* canvas = dialog->canvas();
        const auto at = [&](double x, double y) { return canvas->toWidget({ x * 480, y * 340 }).toPoint(); };
        QTest::mousePress(canvas, Qt::LeftButton, {}, at(u, v));
        QTest::mouseMove(canvas, at(u + width / 2, v + height / 2));
        QTest::mouseRelease(canvas, Qt::LeftButton, {}, at(u + width, v + height));
    };
    draw(0, 0.7, 0.6, 0.2, 0.3); // bare paper
    draw(1, 0.7, 0.15, 0.2, 0.2); // covered
    EXPECT_EQ(dialog->canvas()->sheet()->regions.size(), 2u);
    look();
    const int row = rowOf(SignKind::Fog);
    ASSERT_GE(row, 0) << says();
    dialog->table()->setCurrentCell(row, 0);
    QTest::mouseClick(dialog->acceptButton(), Qt::LeftButton);
    EXPECT_EQ(of(0, "sign_kind").text(), text("fog"));
    EXPECT_NEAR(*of(0, "sign_measure").number(), 0.14, 0.02); // 0.20 against 0.06
    EXPECT_FALSE(of(0, "sign_spacing_mm").has());
}

TEST_F(Signs, LossAgainstAPhotoBeforeTheRinseBelongsToTheRinse)
{
    const auto motif = [](double u, double v) {
        return std::fmod(u * 5, 1.0) < 0.5 && std::fmod(v * 3.3 + 0.3 * u, 1.0) < 0.6 ? -0.4 : 0.0;
    };
    scene.extra = motif;
    const auto before = photo("before_rinse", 2, "before.png");
    scene.extra = [&](double u, double v) { return motif(u, v) - (u > 0.6 && v > 0.5 ? 0.2 : 0.0); };
    const auto after = photo("day_after", 3, "after.png");
    open(after);
    const int at = dialog->beforeBox()->findData(before);
    ASSERT_GT(at, 0);
    dialog->beforeBox()->setCurrentIndex(at);
    Q_EMIT dialog->beforeBox()->activated(at);
    settle();
    look();
    const int row = rowOf(SignKind::Loss);
    ASSERT_GE(row, 0) << says();
    EXPECT_TRUE(dialog->says().contains(text("laid onto this one by its details"))) << says();
    EXPECT_TRUE(dialog->says().contains(text("only what was lost in some places"))) << says();
    dialog->table()->setCurrentCell(row, 0);
    QTest::mouseClick(dialog->acceptButton(), Qt::LeftButton);
    EXPECT_EQ(of(0, "sign_kind").text(), text("loss"));
    EXPECT_EQ(of(0, "sign_station").text(), text("rinse"));
    EXPECT_NEAR(*of(0, "sign_measure").number(), 0.2, 0.04);
}

TEST_F(Signs, CornersAreNudgedAndRegionsManagedByKeys)
{
    open(photo("day_after"));
    auto* canvas = dialog->canvas();
    canvas->setFocus(Qt::TabFocusReason);
    ASSERT_EQ(canvas->chosen(), 0);
    EXPECT_TRUE(canvas->accessibleDescription().contains(text("top left")));
    QTest::keyClick(canvas, Qt::Key_Right);
    QTest::keyClick(canvas, Qt::Key_Down, Qt::ShiftModifier);
    EXPECT_EQ(canvas->sheet()->corners[0], (density::Point { 1, 10 }));
    QTest::keyClick(canvas, Qt::Key_PageDown);
    QTest::keyClick(canvas, Qt::Key_Left);
    EXPECT_EQ(canvas->sheet()->corners[1], (density::Point { 479, 0 }));
    QTest::keyClick(canvas, Qt::Key_Insert);
    ASSERT_EQ(canvas->chosen(), 4);
    QTest::keyClick(canvas, Qt::Key_Left, Qt::ControlModifier);
    const auto region = *canvas->sheet()->region(SheetRole::Paper);
    EXPECT_NEAR(region[2].x - region[0].x, 0.2 * 480 - 1, 1e-9);
    QTest::keyClick(canvas, Qt::Key_Delete);
    EXPECT_TRUE(canvas->sheet()->regions.empty());
    EXPECT_EQ(canvas->chosen(), -1);
}

TEST_F(Signs, CrossedCornersAreRefusedInWordsAndNothingIsLost)
{
    open(photo("day_after"));
    auto& corners = dialog->canvas()->sheet()->corners;
    std::swap(corners[0], corners[1]);
    look();
    EXPECT_FALSE(dialog->proposals());
    bool said = false;
    for (const auto* label : dialog->findChildren<QLabel*>())
        said = said || label->text().contains(text("without crossing"));
    EXPECT_TRUE(said);
    EXPECT_EQ(dialog->pages()->currentIndex(), 0);
    std::swap(corners[0], corners[1]);
    look();
    EXPECT_TRUE(dialog->proposals());
}

TEST_F(Signs, APhotoThatCannotBeOpenedIsSaid)
{
    open(store(QByteArray("no picture at all"), "day_after"));
    EXPECT_FALSE(dialog->lookButton()->isEnabled());
    EXPECT_FALSE(dialog->canvas()->sheet()->trouble.isEmpty());
}

TEST_F(Signs, StoppingGivesNoProposals)
{
    open(photo("day_after"));
    QTest::mouseClick(dialog->lookButton(), Qt::LeftButton);
    QTest::mouseClick(dialog->workBar()->stopButton(), Qt::LeftButton);
    settle();
    EXPECT_FALSE(dialog->proposals());
    EXPECT_TRUE(dialog->lookButton()->isEnabled());
}

TEST_F(Signs, ClosingWhileItWorksIsSafe)
{
    const auto id = photo("day_after");
    dialog = std::make_unique<SignsDialog>(room.services(), print, id);
    dialog.reset(); // while the photo is being opened
    open(id);
    QTest::mouseClick(dialog->lookButton(), Qt::LeftButton);
    dialog.reset(); // while it looks
    QTest::qWait(20);
}

TEST_F(Signs, AReadOnlyNotebookShowsButDoesNotJudge)
{
    stripes();
    const auto id = photo("day_after");
    room.reopen(true);
    open(id);
    look();
    EXPECT_GE(rowOf(SignKind::Stripes), 0);
    EXPECT_FALSE(dialog->acceptButton()->isVisible());
    EXPECT_FALSE(dialog->rejectButton()->isVisible());
    dialog.reset();
}

TEST_F(Signs, ThePhotoStripOpensIt)
{
    const auto first = photo("before_rinse", 1, "a.png");
    const auto second = photo("day_after", 2, "b.png");
    ui::PhotoStrip strip(room.services());
    strip.setPrint(print);
    strip.resize(600, 400);
    strip.show();
    QTest::qWait(1);
    strip.list()->setCurrentRow(1);
    for (auto* button : strip.findChildren<QPushButton*>())
        if (button->text().contains(text("signs")))
            QTest::mouseClick(button, Qt::LeftButton);
    auto* opened = strip.findChild<SignsDialog*>();
    ASSERT_TRUE(opened);
    EXPECT_TRUE(opened->windowTitle().contains(text("b.png")));
    EXPECT_GT(opened->beforeBox()->findData(first), 0);
    EXPECT_EQ(opened->beforeBox()->findData(second), -1) << "not against itself";
    opened->close();
    QTest::qWait(10);
}

// The sign's station by the photo's stage: the name of each comes from the catalogue, so that a row can be written.
TEST(SignWords, EveryKindAndStationIsAChoiceOfTheCatalogue)
{
    const auto catalogue = wholeCatalogue();
    const auto keys = [&](const char* column) {
        QStringList all;
        for (const auto& choice : catalogue.columnField(Entity::Sign, text(column)).choices)
            all << choice.key;
        return all;
    };
    for (const auto kind : { SignKind::Stripes, SignKind::Mottle, SignKind::Fog, SignKind::Stain,
             SignKind::BleedingEdge, SignKind::LighterCentre, SignKind::Loss }) {
        EXPECT_TRUE(keys("sign_kind").contains(ui::signKey(kind))) << ui::signKey(kind).toStdString();
        for (const auto& stage : catalogue.columnField(Entity::Photo, u"photo_stage").choices)
            EXPECT_TRUE(keys("sign_station").contains(ui::stationOf(kind, stage.key))) << stage.key.toStdString();
        EXPECT_FALSE(ui::notFoundWords({ kind, density::NotLooked::No, false, 0.05 }).isEmpty());
    }
    EXPECT_TRUE(ui::stationOf(SignKind::Stripes, {}).isEmpty());
}

TEST_F(Signs, TwoKindsOfStripesOnOnePhotoAreTwoSigns)
{
    const auto id = photo("day_after");
    density::Proposal fine, coarse;
    fine.sign = { SignKind::Stripes, 0.02, 3.0, 10.0, {} };
    coarse.sign = { SignKind::Stripes, 0.03, 9.0, 95.0, {} };
    ASSERT_TRUE(ui::judge(room.desk(), print, id, text("wet"), fine, true));
    ASSERT_TRUE(ui::judge(room.desk(), print, id, text("wet"), coarse, false));
    EXPECT_EQ(room.childrenOf(print, Entity::Sign), 2);
    EXPECT_EQ(of(0, "sign_station").text(), text("rinse"));
    fine.sign.direction_deg = 178; // 12 degrees from it, over the half turn
    EXPECT_EQ(ui::judgedBefore(room.desk().notebook(), print, id, fine).verdict, ui::Verdict::Accepted);
    EXPECT_EQ(ui::judgedBefore(room.desk().notebook(), print, id, coarse).verdict, ui::Verdict::Rejected);
    EXPECT_EQ(ui::judgedBefore(room.desk().notebook(), print, id + 1, fine).verdict, ui::Verdict::None);
}

} // namespace

} // namespace WASHFAST_FILE
