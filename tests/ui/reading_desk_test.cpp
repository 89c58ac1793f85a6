// The Reading desk with real key and mouse events on a photo rendered from known densities. The truth is that of the
// rendering (tests/support/rendered_photo.h: sRGB of IEC 61966-2-1, D = -log10 R).
#include "ui/reading/reading_desk.h"

#include "tests/support/photo_work.h"
#include "tests/support/rendered_photo.h"
#include "ui/reading/density_table.h"
#include "ui/reading/photo_canvas.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::MarkRole;

namespace {

constexpr double white = 0.05, grey = 0.75, deep = 1.10;

class Reading : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        print = room.print("A1-01");
        other = room.print("A1-02");
        scene.flare = 0.01;
        scene.patches = { { "white", 0.05, 0.05, 0.2, 0.3, { white, white, white } },
            { "grey", 0.3, 0.05, 0.2, 0.3, { grey, grey, grey } }, { "deep", 0.05, 0.5, 0.3, 0.4, { deep, 0.9, 0.6 } },
            { "mid", 0.6, 0.5, 0.3, 0.4, { 0.5, 0.45, 0.3 } } };
        desk = std::make_unique<ui::ReadingDesk>(room.services(), print);
        desk->show();
        desk->addFiles({ put("sheet.png", encode(render(scene, 7), "PNG")) });
        settle();
    }
    QString put(const char* name, const QByteArray& bytes)
    {
        const auto path = folder.filePath(text(name));
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size());
        return path;
    }
    void settle()
    {
        waitWhile([&] { return desk->working(); });
        ASSERT_FALSE(desk->working());
    }
    /// Inner part of a patch, dragged over with the mouse.
    void drag(MarkRole role, size_t patch)
    {
        desk->roleBox()->setCurrentIndex(int(role));
        const auto map = *density::Perspective::ontoCorners(scene.corners);
        const auto& p = scene.patches[patch];
        const auto at = [&](double share) {
            return *map.toPhoto(density::Point { p.u + share * p.width, p.v + share * p.height });
        };
        dragOver(*desk->canvas(), at(0.25), at(0.75));
        settle();
    }
    void markAll()
    {
        drag(MarkRole::White, 0);
        drag(MarkRole::Grey, 1);
        drag(MarkRole::Deepest, 2);
        drag(MarkRole::Middle, 3);
    }
    [[nodiscard]] Known of(int row, const char* column)
    {
        const auto& notebook = room.desk().notebook();
        return notebook.get({ Entity::Reading, notebook.table(Entity::Reading).id(row) }, text(column));
    }

    PrintsFixture room;
    QTemporaryDir folder;
    Scene scene;
    std::unique_ptr<ui::ReadingDesk> desk;
    qint64 print = 0, other = 0;
};

TEST_F(Reading, DraggedRegionsGiveTheDensitiesThatWereRendered)
{
    markAll();
    ASSERT_EQ(desk->current()->marks.size(), 4u);
    ASSERT_TRUE(desk->current()->measured) << desk->says().toStdString();
    const auto& read = desk->current()->measured->regions[2];
    EXPECT_NEAR(*read.red.density, deep, 0.03);
    EXPECT_NEAR(*read.green.density, 0.9, 0.03);
    EXPECT_NEAR(*read.blue.density, 0.6, 0.03);
    EXPECT_TRUE(desk->table()->item(2, 2)->text().startsWith(QLocale().toString(*read.red.density, 'f', 2)));
}

TEST_F(Reading, EnteringIsOneStepAndStatesTheChannel)
{
    markAll();
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    ASSERT_EQ(room.childrenOf(print, Entity::Reading), 2) << desk->says().toStdString();
    EXPECT_NEAR(*of(0, "reading_density").number(), deep, 0.03);
    EXPECT_EQ(of(0, "reading_channel").text(), text("red"));
    EXPECT_EQ(of(0, "reading_method").text(), text("photo"));
    EXPECT_EQ(of(0, "reading_when").text(), text("day_after"));
    EXPECT_EQ(of(0, "reading_where").text(), text("deepest"));
    EXPECT_TRUE(of(0, "reading_lab_l").has());
    EXPECT_TRUE(of(0, "reading_spread").has());
    room.undo();
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 0);
}

TEST_F(Reading, CardsThatNobodyMeasuredMakeReadingsAnAssumption)
{
    markAll();
    desk->cardsMeasuredBox()->setChecked(false);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(of(0, "reading_density").evidence, Evidence::Assumed);
    EXPECT_TRUE(desk->says().contains(text("assumed"))) << desk->says().toStdString();
    desk->cardsMeasuredBox()->setChecked(true);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(of(0, "reading_density").evidence, Evidence::Measured);
}

TEST_F(Reading, AReadingByADensitometerStays)
{
    markAll();
    room.add(Entity::Reading,
        { { "reading_when", "day_after" }, { "reading_where", "deepest" }, { "reading_density", 1.30 },
            { "reading_method", "densitometer" } },
        print);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(of(0, "reading_density").number(), 1.30);
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 2) << "the middle was entered";
    EXPECT_TRUE(desk->says().contains(text("densitometer"))) << desk->says().toStdString();
}

TEST_F(Reading, AReadingThatIsThereIsNotReplacedBeforeThePersonSaysSo)
{
    markAll();
    desk->cardsMeasuredBox()->setChecked(true);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(of(0, "reading_density").evidence, Evidence::Measured);
    room.set({ Entity::Reading, room.desk().notebook().table(Entity::Reading).id(0) }, "reading_density", 1.30);
    desk->cardsMeasuredBox()->setChecked(false);
    room.dialogs.willAnswer(0);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    ASSERT_EQ(room.dialogs.shown().size(), 1u);
    const auto asked = room.dialogs.shown()[0];
    for (const char* part : { "A1-01, deepest: 1.30 (", "the photo says 1.1", "assumed)", "A1-01, middle: 0.5" })
        EXPECT_TRUE(asked.text.contains(text(part))) << part << " is not in " << asked.text.toStdString();
    EXPECT_EQ(asked.choices.first(), text("Keep what is recorded")) << "Enter keeps";
    EXPECT_EQ(of(0, "reading_density").number(), 1.30);
    EXPECT_EQ(of(1, "reading_density").evidence, Evidence::Measured);
    EXPECT_TRUE(desk->says().contains(text("Readings entered: 0"))) << desk->says().toStdString();

    room.dialogs.willAnswer(1);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 2);
    EXPECT_NEAR(*of(0, "reading_density").number(), deep, 0.03);
    EXPECT_EQ(of(0, "reading_density").evidence, Evidence::Assumed);
    room.undo();
    EXPECT_EQ(of(0, "reading_density").number(), 1.30);
}

TEST_F(Reading, AScansReadingStaysBesideAndCounts)
{
    markAll();
    room.add(Entity::Reading,
        { { "reading_when", "day_after" }, { "reading_where", "deepest" }, { "reading_density", 1.30 },
            { "reading_method", "scan" }, { "reading_channel", "red" } },
        print);
    desk->cardsMeasuredBox()->setChecked(false);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_TRUE(room.dialogs.shown().empty()) << "nothing is replaced";
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 3);
    EXPECT_EQ(of(0, "reading_density").number(), 1.30);
    EXPECT_EQ(room.number(print, "density_day_after_deepest"), 1.30) << "measured goes before assumed";
    EXPECT_TRUE(desk->says().contains(text("1.30 (scan, red) is recorded as well, and it is the one that counts.")))
        << desk->says().toStdString();
}

TEST_F(Reading, AnotherChannelStandsBeside)
{
    markAll();
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    const auto red = room.number(print, "density_day_after_deepest");
    for (auto* box : desk->findChildren<QComboBox*>())
        if (const int green = box->findText(text("photo green")); green >= 0)
            box->setCurrentIndex(green);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_TRUE(room.dialogs.shown().empty());
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 4);
    EXPECT_EQ(room.number(print, "density_day_after_deepest"), red) << "both tones in red, where there is red";
}

TEST_F(Reading, AReadingOfWhichNobodySaidHowIsAskedAbout)
{
    markAll();
    room.add(Entity::Reading,
        { { "reading_when", "day_after" }, { "reading_where", "deepest" }, { "reading_density", 0.42 } }, print);
    room.dialogs.willAnswer(std::nullopt); // Escape
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(of(0, "reading_density").number(), 0.42);
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 2) << "the middle was entered";
    EXPECT_TRUE(desk->says().contains(text("Recorded readings that were kept: 1"))) << desk->says().toStdString();
}

TEST_F(Reading, EnteringAgainReplacesTheSameSpot)
{
    markAll();
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 2);
}

TEST_F(Reading, WithoutReferencesNothingIsEntered)
{
    drag(MarkRole::Deepest, 2);
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 0);
    EXPECT_TRUE(desk->says().contains(text("two references"))) << desk->says().toStdString();
}

TEST_F(Reading, OutlinesAreNudgedByKeysAndDecideWhosePrintItIs)
{
    markAll();
    auto* canvas = desk->canvas();
    canvas->addOutline(other);
    auto& outline = desk->current()->outlines[0];
    const auto before = outline.corners[0];
    QTest::keyClick(canvas, Qt::Key_Left, Qt::ShiftModifier);
    QTest::keyClick(canvas, Qt::Key_Up);
    EXPECT_EQ(outline.corners[0], (density::Point { before.x - 10, before.y - 1 }));
    outline.corners = scene.corners;
    settle();
    QTest::keyClick(desk->enterButton(), Qt::Key_Space);
    EXPECT_EQ(room.childrenOf(print, Entity::Reading), 0);
    EXPECT_EQ(room.childrenOf(other, Entity::Reading), 2) << desk->says().toStdString();
}

TEST_F(Reading, ARegionIsMadeMovedAndRemovedByKeysAlone)
{
    auto* canvas = desk->canvas();
    canvas->setFocus();
    QTest::keyClick(canvas, Qt::Key_Insert);
    ASSERT_EQ(desk->current()->marks.size(), 1u);
    const auto before = desk->current()->marks[0].corners;
    QTest::keyClick(canvas, Qt::Key_Right);
    QTest::keyClick(canvas, Qt::Key_Down, Qt::ControlModifier | Qt::ShiftModifier);
    const auto after = desk->current()->marks[0].corners;
    EXPECT_DOUBLE_EQ(after[0].x, before[0].x + 1);
    EXPECT_DOUBLE_EQ(after[2].y, before[2].y + 10);
    EXPECT_DOUBLE_EQ(after[0].y, before[0].y);
    QTest::keyClick(canvas, Qt::Key_Delete);
    EXPECT_TRUE(desk->current()->marks.empty());
    settle();
}

TEST_F(Reading, ADamagedFileIsRefusedWithASentence)
{
    const auto png = encode(render(scene, 7), "PNG");
    desk->addFiles({ put("half.png", png.left(png.size() / 2)) });
    settle();
    EXPECT_FALSE(desk->current()->photo);
    EXPECT_TRUE(desk->says().contains(text("half.png"))) << desk->says().toStdString();
}

TEST_F(Reading, ItStandsWholeAtItsSmallestAndInBothThemes)
{
    markAll();
    desk->canvas()->addOutline(print);
    settle();
    const auto pictures = qEnvironmentVariable("WASHFAST_PICTURES");
    for (const auto mode : { ui::ThemeMode::Light, ui::ThemeMode::Dark }) {
        room.look.setMode(mode);
        room.look.applyTo(*qApp);
        desk->resize(1100, 720);
        QTest::qWait(50);
        EXPECT_EQ(desk->size(), QSize(1100, 720)) << "it fits";
        for (const auto* button : desk->findChildren<QPushButton*>())
            if (button->isVisible()) {
                EXPECT_FALSE(button->visibleRegion().isEmpty()) << button->text().toStdString();
                EXPECT_GE(button->width(), button->sizeHint().width()) << button->text().toStdString();
            }
        if (!pictures.isEmpty())
            EXPECT_TRUE(desk->grab().save(QStringLiteral("%1/reading-%2.png").arg(pictures).arg(int(mode))));
    }
}

} // namespace

} // namespace WASHFAST_FILE
