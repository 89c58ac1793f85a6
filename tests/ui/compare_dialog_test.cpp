// Two photos compared in colour, with real events. The truth is that of the rendering (tests/support/rendered_photo.h);
// CIEDE2000 itself is held against published pairs in tests/reference.
#include "ui/reading/compare_dialog.h"

#include "tests/support/photo_work.h"
#include "tests/support/rendered_photo.h"
#include "ui/beside/beside_view.h"
#include "ui/prints/photo_strip.h"
#include "ui/reading/compare_map.h"
#include "ui/reading/signs_canvas.h"

#include <QComboBox>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QTabWidget>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::CompareDialog;

namespace {

class Compare : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        one = room.print("A1-01");
        other = room.print("A1-02");
        scene.width = 480;
        scene.height = 340;
        scene.corners = density::rectangle(0, 0, 480, 340);
        scene.patches = { { "white", 0.02, 0.02, 0.2, 0.25, { 0.05, 0.05, 0.05 } },
            { "grey", 0.25, 0.02, 0.2, 0.25, { 0.75, 0.75, 0.75 } },
            { "deep", 0.1, 0.35, 0.35, 0.5, { 1.1, 0.85, 0.45 } }, { "mid", 0.55, 0.3, 0.3, 0.3, { 0.5, 0.4, 0.25 } } };
        scene.noise = 1;
        first = store(one, "day_after", "a.png", 1);
        scene.patches[2].density = { 0.8, 0.6, 0.35 };
        scene.exposure = 0.6;
        second = store(other, "day_after", "b.png", 2);
    }
    qint64 store(qint64 print, const char* stage, const char* name, unsigned seed)
    {
        return storePhoto(room, print, encode(render(scene, seed), "png"), stage, name);
    }
    void open(qint64 a, qint64 b)
    {
        dialog = std::make_unique<CompareDialog>(room.services(), QVector<qint64> { one, other }, a, b);
        dialog->show();
        settle(*dialog);
    }
    static void settle(CompareDialog& dialog)
    {
        waitWhile([&] { return dialog.working(); });
        ASSERT_FALSE(dialog.working());
    }
    void compare()
    {
        QTest::mouseClick(dialog->compareButton(), Qt::LeftButton);
        settle(*dialog);
    }
    void draw(int which, ui::SheetRole role, size_t patch)
    {
        dialog->roleBox()->setCurrentIndex(dialog->roleBox()->findData(int(role)));
        const auto& p = scene.patches[patch];
        const auto at = [&](double share) {
            return density::Point { (p.u + share * p.width) * 480, (p.v + share * p.height) * 340 };
        };
        dragOver(*dialog->canvas(which), at(0.25), at(0.75));
    }
    [[nodiscard]] std::string says() const { return dialog->says().toStdString(); }

    PrintsFixture room;
    Scene scene;
    std::unique_ptr<CompareDialog> dialog;
    qint64 one = 0, other = 0, first = 0, second = 0;
};

TEST_F(Compare, WithoutReferencesItIsSaidThatLightAndCameraDifferToo)
{
    open(first, second);
    EXPECT_EQ(dialog->photoBox(0)->currentData().toLongLong(), first);
    EXPECT_EQ(dialog->photoBox(1)->currentData().toLongLong(), second);
    EXPECT_TRUE(dialog->photoBox(0)->currentText().contains(text("A1-01"))) << "the print is named";
    compare();
    ASSERT_TRUE(dialog->difference()) << says();
    EXPECT_EQ(dialog->pages()->currentIndex(), 1);
    EXPECT_TRUE(dialog->says().contains(text("differ by their light and their camera as well"))) << says();
    EXPECT_TRUE(dialog->says().contains(QLocale().toString(dialog->difference()->mean, 'f', 1)));
    EXPECT_TRUE(dialog->says().contains(text("Deepest tone"))) << says();
    EXPECT_TRUE(dialog->says().contains(text("Paper"))) << says();
}

TEST_F(Compare, CardsDrawnInBothTakeTheLightOut)
{
    open(first, second);
    for (const int which : { 0, 1 }) {
        draw(which, ui::SheetRole::WhiteCard, 0);
        draw(which, ui::SheetRole::GreyCard, 1);
    }
    compare();
    ASSERT_TRUE(dialog->difference()) << says();
    EXPECT_EQ(dialog->difference()->referenced, density::Referenced::Cards);
    EXPECT_TRUE(dialog->says().contains(text("light and camera are taken out"))) << says();
    const auto lab = [](double r, double g, double b) {
        return density::xyzToLab(density::multiply(density::srgbToXyzD50(),
                                     density::Triple { std::pow(10, -r), std::pow(10, -g), std::pow(10, -b) }),
            density::whiteD50);
    };
    const double expected = density::ciede2000(lab(1.1, 0.85, 0.45), lab(0.8, 0.6, 0.35));
    EXPECT_NEAR(*dialog->map()->at({ 0.27, 0.6 }), expected, 1);
    EXPECT_LT(*dialog->map()->at({ 0.7, 0.45 }), 1.5);
}

TEST_F(Compare, TheMapIsReadByKeysAndPointer)
{
    open(first, second);
    compare();
    auto* map = dialog->map();
    map->setFocus(Qt::TabFocusReason);
    const auto before = map->says();
    QTest::keyClick(map, Qt::Key_Left);
    EXPECT_NE(map->says(), before);
    EXPECT_TRUE(map->says().contains(text("CIEDE2000"))) << map->says().toStdString();
    QTest::mouseMove(map, QPoint(map->width() / 2, 30));
    QTest::mouseMove(map, QPoint(map->width() / 2 + 4, (map->height() - 60) / 2));
    EXPECT_TRUE(map->accessibleDescription().contains(text("CIEDE2000")));
}

// WCAG 2.1 has no rule for ramps; what a colour-blind person needs is that lightness alone tells the order.
TEST_F(Compare, TheScaleIsOrderedByLightnessInBothLooks)
{
    for (const auto& theme : { ui::lightTheme(), ui::darkTheme() }) {
        ui::CompareMap map(theme);
        density::SheetPicture plain;
        plain.width = plain.height = 2;
        plain.values = { 0, 1, 2, 3 };
        map.setMap(plain, 10);
        int rising = 0, falling = 0;
        for (int i = 0; i < 10; ++i) {
            const double a = ui::relativeLuminance(map.colourFor(i)), b = ui::relativeLuminance(map.colourFor(i + 1));
            rising += b > a;
            falling += b < a;
        }
        EXPECT_TRUE(rising == 10 || falling == 10) << rising << " " << falling;
    }
    EXPECT_EQ(ui::roundTop(1.2), 2);
    EXPECT_EQ(ui::roundTop(7), 10);
    EXPECT_EQ(ui::roundTop(400), 100);
}

TEST_F(Compare, AMissingCommonSpotIsAskedFor)
{
    open(first, second);
    dialog->laidByBox()->setCurrentIndex(dialog->laidByBox()->findData(int(density::LaidBy::Spot)));
    compare();
    EXPECT_FALSE(dialog->difference());
    bool said = false;
    for (const auto* label : dialog->findChildren<QLabel*>())
        said = said || label->text().contains(text("Mark the common spot"));
    EXPECT_TRUE(said);
    draw(0, ui::SheetRole::CommonSpot, 3);
    draw(1, ui::SheetRole::CommonSpot, 3);
    compare();
    ASSERT_TRUE(dialog->difference());
    EXPECT_EQ(dialog->difference()->laid, density::LaidBy::Spot);
}

TEST_F(Compare, WithoutAPhotoThereIsNothingToCompare)
{
    open(first, 0);
    EXPECT_FALSE(dialog->compareButton()->isEnabled());
    dialog->photoBox(1)->setFocus();
    dialog->photoBox(1)->setCurrentIndex(dialog->photoBox(1)->findData(second));
    settle(*dialog);
    EXPECT_TRUE(dialog->compareButton()->isEnabled());
}

TEST_F(Compare, ClosingWhileItWorksIsSafe)
{
    dialog = std::make_unique<CompareDialog>(room.services(), QVector<qint64> { one }, first, second);
    dialog.reset();
    open(first, second);
    QTest::mouseClick(dialog->compareButton(), Qt::LeftButton);
    dialog.reset();
    QTest::qWait(20);
}

TEST_F(Compare, PhotosOfTheSameStageAreProposed)
{
    const auto& notebook = room.desk().notebook();
    EXPECT_EQ(ui::photosToCompare(notebook, one, other), std::pair(first, second));
    const auto wet = store(other, "wet", "c.png", 3);
    EXPECT_EQ(ui::photosToCompare(room.desk().notebook(), one, other), std::pair(first, second));
    const auto third = room.print("A1-03");
    EXPECT_EQ(ui::photosToCompare(room.desk().notebook(), one, third), std::pair(first, qint64(0)));
    const auto only_wet = store(third, "wet", "d.png", 4);
    EXPECT_EQ(ui::photosToCompare(room.desk().notebook(), other, third), std::pair(wet, only_wet));
}

TEST_F(Compare, TwoChosenPhotosOfAPrintOpenItAndSoDoTwoPrintsSideBySide)
{
    const auto wet = store(one, "wet", "c.png", 3);
    ui::PhotoStrip strip(room.services());
    strip.setPrint(one);
    strip.resize(600, 400);
    strip.show();
    QTest::qWait(1);
    strip.list()->selectAll();
    const auto press = [](QWidget& in) {
        for (auto* button : in.findChildren<QPushButton*>())
            if (button->text().remove(QLatin1Char('&')).contains(text("Compare colours")))
                QTest::mouseClick(button, Qt::LeftButton);
    };
    press(strip);
    auto* opened = strip.findChild<CompareDialog*>();
    ASSERT_TRUE(opened);
    const QVector<qint64> chosen { opened->photoBox(0)->currentData().toLongLong(),
        opened->photoBox(1)->currentData().toLongLong() };
    EXPECT_TRUE(chosen.contains(first) && chosen.contains(wet));
    opened->close();
    QTest::qWait(10);

    ui::BesideView beside(room.services());
    beside.resize(900, 500);
    static_cast<QWidget&>(beside).show();
    beside.setPrints({ one });
    press(beside); // one alone: the button is off
    EXPECT_FALSE(beside.findChild<CompareDialog*>());
    beside.setPrints({ one, room.print("A1-09"), other });
    press(beside);
    opened = beside.findChild<CompareDialog*>();
    ASSERT_TRUE(opened);
    EXPECT_EQ(opened->photoBox(0)->currentData().toLongLong(), first);
    EXPECT_EQ(opened->photoBox(1)->currentData().toLongLong(), second);
    opened->close();
    QTest::qWait(10);
}

} // namespace

} // namespace WASHFAST_FILE
