// Sunlight as a person uses it: keys, pointer, empty state, pages, and taking the pictures out.
#include "ui/sunlight/sunlight_view.h"

#include "tests/support/prints_fixture.h"
#include "ui/common/empty_state.h"
#include "ui/sunlight/day_sheet.h"
#include "ui/sunlight/plan_page.h"
#include "ui/sunlight/sky_bar.h"
#include "ui/sunlight/words.h"
#include "ui/sunlight/year_sheet.h"

#include <QAbstractButton>
#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QSpinBox>
#include <QTabBar>
#include <QTest>
#include <QTimeEdit>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::ui::sunlight;
using testing::HasSubstr;
using ui::SunlightView;

namespace {

class SunlightViewTest : public testing::Test {
protected:
    void withSite()
    {
        const auto yard = room.add(Entity::Site,
            { { "site_name", "Yard" }, { "site_latitude_deg", 48.0 }, { "site_longitude_deg", 16.0 },
                { "site_height_m", 320 }, { "site_zone", "Europe/Vienna" } });
        const auto session = room.add(Entity::Session,
            { { "session_code", "A1" }, { "session_start", "2026-06-09T10:00:00+02:00" }, { "session_site", yard } });
        room.sit(session);
        const auto print = room.print("A1-01", { { "dose_goal_j_cm2", 2.4 } });
        room.add(Entity::Exposure,
            { { "expose_number", 1 }, { "expose_start", "2026-06-09T10:40:00+02:00" },
                { "expose_end", "2026-06-09T10:50:00+02:00" }, { "cloud_start_eighths", 2 }, { "disc_start", "yes" } },
            print);
    }
    void open(QSize size = { 960, 640 })
    {
        view = std::make_unique<SunlightView>(room.services());
        view->resize(size);
        QObject::connect(view.get(), &ui::View::say, view.get(), [this](const QString& sentence) { said << sentence; });
        static_cast<QWidget&>(*view).show();
        view->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(view.get()));
        view->arrive();
    }
    [[nodiscard]] DaySheet* day() const { return view->daySheet(); }
    [[nodiscard]] QString labelled(const char* name) const
    {
        for (auto* label : view->findChildren<QLabel*>())
            if (label->accessibleName() == text(name))
                return label->text();
        ADD_FAILURE() << "no label " << name;
        return {};
    }
    template <typename W> W* named(const char* name) const
    {
        for (auto* one : view->findChildren<W*>())
            if (one->accessibleName() == text(name))
                return one;
        ADD_FAILURE() << "no control " << name;
        return nullptr;
    }

    PrintsFixture room;
    std::unique_ptr<SunlightView> view;
    QStringList said;
};

TEST_F(SunlightViewTest, WithoutASiteAPlaceCanBeTyped)
{
    open();
    auto* empty = view->findChild<ui::EmptyState*>();
    ASSERT_TRUE(empty->isVisible());
    EXPECT_FALSE(day()->isVisible());
    ASSERT_TRUE(empty->button()->isVisible());
    QTest::mouseClick(empty->button(), Qt::LeftButton);
    auto* latitude = named<QLineEdit>("Latitude");
    ASSERT_TRUE(QTest::qWaitFor([&] { return QApplication::focusWidget() == latitude; }));
    QTest::keyClicks(latitude, text("480"));
    QTest::keyClick(latitude, Qt::Key_Tab);
    QTest::keyClicks(QApplication::focusWidget(), text("16"));
    EXPECT_FALSE(day()->isVisible());
    EXPECT_THAT(empty->sentence().toStdString(), HasSubstr("between -90 and 90"));
    latitude->setFocus();
    QTest::keyClick(latitude, Qt::Key_End);
    QTest::keyClick(latitude, Qt::Key_Backspace);
    EXPECT_TRUE(day()->isVisible());
    ASSERT_TRUE(day()->day());
    EXPECT_EQ(day()->day()->ask().site.place.latitude_deg, 48);
    EXPECT_TRUE(day()->day()->ask().dose.assumed);
    EXPECT_THAT(labelled("About this day").toStdString(), HasSubstr("sea level is taken"));
}

TEST_F(SunlightViewTest, BeginsWithTheRunningSession)
{
    withSite();
    open();
    ASSERT_TRUE(day()->day());
    const auto& ask = day()->day()->ask();
    EXPECT_EQ(ask.site.name, text("Yard"));
    EXPECT_EQ(ask.date, QDate(2026, 6, 9));
    EXPECT_EQ(ask.sky.eighths, 2);
    EXPECT_EQ(ask.sky.disc, light::Disc::Yes);
    EXPECT_EQ(ask.dose.j_cm2, 2.4);
    EXPECT_FALSE(ask.pane);
    ASSERT_TRUE(day()->day()->lesson());
    EXPECT_EQ(day()->day()->lesson()->marks.size(), 1u);
    EXPECT_THAT(labelled("Caution for skin and eyes").toStdString(), HasSubstr("UV Index up to 10"));
}

TEST_F(SunlightViewTest, PointerAndKeysReadAMoment)
{
    withSite();
    open();
    QTest::qWait(20);
    auto* port = day()->viewport();
    QTest::mouseMove(port, QPoint(int(day()->placeOf(720)), port->height() / 2));
    QTest::qWait(20);
    ASSERT_TRUE(day()->current());
    EXPECT_NEAR(*day()->current(), 720, 5);
    EXPECT_EQ(labelled("The moment that is pointed at"), day()->day()->readout(*day()->current()));
    day()->setFocus();
    QTest::keyClick(day(), Qt::Key_Escape);
    EXPECT_FALSE(day()->current());
    QTest::keyClick(day(), Qt::Key_Right);
    const double noon = day()->day()->minuteOf(day()->day()->sun().solar_noon);
    EXPECT_NEAR(*day()->current(), noon, 2.5);
    const double from = *day()->current();
    QTest::keyClick(day(), Qt::Key_Right);
    EXPECT_EQ(*day()->current(), from + 5);
    QTest::keyClick(day(), Qt::Key_PageUp);
    EXPECT_EQ(*day()->current(), from - 55);
    QTest::keyClick(day(), Qt::Key_End);
    EXPECT_EQ(*day()->current(), 1440);
    EXPECT_THAT(labelled("The moment that is pointed at").toStdString(), HasSubstr("the sun is down"));
}

TEST_F(SunlightViewTest, TheSwitchLaysAPaneOver)
{
    withSite();
    room.add(Entity::Cover, { { "cover_name", "Frame" }, { "cover_kind", "glass" }, { "cover_thickness_mm", 4.0 } });
    open();
    auto* glass = view->findChild<QCheckBox*>();
    EXPECT_FALSE(named<QComboBox>("Which pane")->isEnabled());
    glass->setFocus();
    QTest::keyClick(glass, Qt::Key_Space);
    EXPECT_TRUE(named<QComboBox>("Which pane")->isEnabled());
    ASSERT_TRUE(day()->day()->ask().pane);
    EXPECT_EQ(day()->day()->ask().pane->name, text("Frame"));
    EXPECT_GT(day()->day()->near(720).behind_w_m2, 0);
    QTest::keyClick(glass, Qt::Key_Space);
    EXPECT_FALSE(day()->day()->ask().pane);
}

TEST_F(SunlightViewTest, ALessonBringsItsDayAndAnotherDayKeepsItsHour)
{
    withSite();
    open();
    view->bar()->setDate(QDate(2026, 12, 1));
    ASSERT_TRUE(day()->day()->lesson());
    EXPECT_FALSE(day()->day()->lesson()->that_day);
    auto* lesson = named<QComboBox>("Lesson");
    lesson->setCurrentIndex(0);
    EXPECT_FALSE(day()->day()->lesson());
    lesson->setCurrentIndex(1);
    EXPECT_EQ(day()->day()->ask().date, QDate(2026, 6, 9));
    EXPECT_TRUE(day()->day()->lesson()->that_day);
}

TEST_F(SunlightViewTest, ANewExposureInTheNotebookAppears)
{
    withSite();
    open();
    const auto print = room.print("A1-02");
    room.add(Entity::Exposure, { { "expose_number", 1 }, { "expose_start", "2026-06-09T10:45:00+02:00" } }, print);
    EXPECT_EQ(day()->day()->lesson()->marks.size(), 2u);
}

TEST_F(SunlightViewTest, TheYearIsWalkedByKeysAndAnHourIsPicked)
{
    withSite();
    open();
    view->showPage(SunlightView::Page::Year);
    auto* year = view->yearSheet();
    year->setFocus();
    QTest::keyClick(year, Qt::Key_Right);
    ASSERT_TRUE(year->current());
    const auto begin = *year->current();
    QTest::keyClick(year, Qt::Key_Right);
    QTest::keyClick(year, Qt::Key_Up);
    EXPECT_EQ(year->current()->week, begin.week + 1);
    EXPECT_EQ(year->current()->row, begin.row + 1);
    QTest::keyClick(year, Qt::Key_Return);
    EXPECT_EQ(named<QTimeEdit>("At this hour")->time(), QTime(10, 30));
    EXPECT_THAT(labelled("Weeks that can print").toStdString(), HasSubstr("At 10:30"));
    EXPECT_THAT(labelled("The week and hour that is pointed at").toStdString(),
        HasSubstr("week " + std::to_string(begin.week + 1)));
    // The pointer does the same.
    const auto place = year->placeOf({ 30, 26 }).toPoint();
    QTest::mouseClick(year->viewport(), Qt::LeftButton, Qt::NoModifier, place);
    EXPECT_EQ(year->current()->week, 30);
    EXPECT_EQ(named<QTimeEdit>("At this hour")->time(), QTime(13, 0));
}

TEST_F(SunlightViewTest, EveryPictureIsSavedAndCopied)
{
    withSite();
    open();
    QTemporaryDir folder;
    for (const auto page : { SunlightView::Page::Day, SunlightView::Page::Year, SunlightView::Page::Plan }) {
        view->showPage(page);
        QTest::qWait(20);
        for (const char* ending : { "svg", "pdf", "png" }) {
            const auto path = folder.filePath(QStringLiteral("%1.%2").arg(int(page)).arg(text(ending)));
            room.dialogs.willSave(path);
            view->save();
            QFile file(path);
            ASSERT_TRUE(file.open(QIODevice::ReadOnly)) << path.toStdString();
            const auto bytes = file.readAll();
            EXPECT_GT(bytes.size(), 3000) << path.toStdString();
            if (qstrcmp(ending, "svg") == 0) { // the words are in it, as text or as outlines
                EXPECT_TRUE(bytes.contains("<svg"));
                EXPECT_FALSE(bytes.contains("nan")) << path.toStdString();
            }
        }
        QApplication::clipboard()->clear();
        QTest::mouseClick(named<QPushButton>("Copy the picture"), Qt::LeftButton);
        EXPECT_TRUE(QApplication::clipboard()->mimeData()->hasImage());
    }
    EXPECT_EQ(said.size(), 12);
}

TEST_F(SunlightViewTest, NoControlIsCutOffAndEachHasAName)
{
    withSite();
    room.add(Entity::Cover, { { "cover_name", "Frame" }, { "cover_kind", "glass" }, { "cover_thickness_mm", 4.0 } });
    for (const QSize size : { QSize(950, 650), QSize(1130, 760) }) { // what the window of 1100x720 and 1280x820 leaves
        open(size);
        for (const auto page : { SunlightView::Page::Day, SunlightView::Page::Year, SunlightView::Page::Plan }) {
            view->showPage(page);
            QTest::qWait(20);
            if (page == SunlightView::Page::Plan)
                named<QSpinBox>("Length")->setValue(30); // too short, so that there is something else to choose
            QTest::qWait(20);
            EXPECT_EQ(view->size(), size) << "the view asks for more room than there is";
            EXPECT_LE(view->minimumSizeHint().width(), size.width());
            EXPECT_LE(view->minimumSizeHint().height(), size.height());
            for (auto* widget : view->findChildren<QWidget*>()) {
                if (!widget->isVisible() || widget->focusProxy()
                    || widget->parentWidget()->inherits("QAbstractSpinBox"))
                    continue;
                const QRect inside(widget->mapTo(view.get(), QPoint()), widget->size());
                if (widget->focusPolicy() != Qt::NoFocus && !widget->inherits("QTabBar")
                    && !widget->inherits("QStackedWidget") && !widget->inherits("QTabWidget")
                    && !widget->inherits("QScrollBar") && !widget->inherits("QAbstractScrollAreaViewport")) {
                    auto* button = qobject_cast<QAbstractButton*>(widget);
                    EXPECT_TRUE(!widget->accessibleName().isEmpty() || (button && !button->text().isEmpty()))
                        << widget->metaObject()->className();
                }
                if (auto* label = qobject_cast<QLabel*>(widget)) {
                    const int needed
                        = label->wordWrap() ? label->heightForWidth(label->width()) : label->sizeHint().height();
                    EXPECT_LE(needed, label->height()) << label->text().toStdString();
                    EXPECT_TRUE(label->wordWrap() || label->sizeHint().width() <= label->width())
                        << label->text().toStdString();
                    EXPECT_TRUE(view->rect().contains(inside)) << label->text().toStdString();
                } else if (auto* button = qobject_cast<QAbstractButton*>(widget)) {
                    EXPECT_LE(button->fontMetrics().horizontalAdvance(button->text()), button->width() + 8)
                        << button->text().toStdString();
                    EXPECT_TRUE(view->rect().contains(inside)) << button->text().toStdString();
                }
            }
        }
    }
}

TEST_F(SunlightViewTest, FollowsTheTheme)
{
    withSite();
    open();
    QTest::qWait(20);
    const auto corner = [&] { return day()->grab().toImage().pixelColor(3, day()->height() / 2); };
    EXPECT_EQ(corner(), ui::lightTheme().sheet);
    room.look.setMode(ui::ThemeMode::Dark);
    QTest::qWait(20);
    EXPECT_EQ(corner(), ui::darkTheme().sheet);
}

} // namespace

} // namespace WASHFAST_FILE
