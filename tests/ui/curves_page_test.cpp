// The pages "Characteristic curve" and "Negative" of Curves with the example notebook: keys and mouse, what is said,
// and the files that come out.
#include "app/demo/demo_notebook.h"
#include "tests/support/desk_fixture.h"
#include "ui/common/empty_state.h"
#include "ui/curves/curve_chart.h"
#include "ui/curves/curve_page.h"
#include "ui/curves/curves_view.h"
#include "ui/curves/negative_page.h"
#include "ui/curves/step_chart.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QGraphicsScene>
#include <QLabel>
#include <QLineEdit>
#include <QProcess>
#include <QPushButton>
#include <QSignalSpy>
#include <QSpinBox>
#include <QStandardPaths>
#include <QTabBar>
#include <QTabWidget>
#include <QTableWidget>
#include <QTemporaryDir>
#include <QTest>
#include <cmath>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::ui::curves;
using testing::HasSubstr;

namespace {

class CurvePages : public testing::Test {
protected:
    void fill()
    {
        ASSERT_TRUE(demo::writeDemo(room.desk().file()));
        room.reopen();
        room.desk().waitUntilComplete();
    }
    /// A film of the person's own with measured steps.
    qint64 addFilm(const char* name = "Film steps")
    {
        const auto film = room.add(Entity::Negative, { { "negative_name", name }, { "negative_kind", "film" } });
        for (int i = 0; i <= 10; ++i)
            room.add(Entity::NegativeStep,
                { { "step_number", i + 1 }, { "step_value", 10.0 * i },
                    { "step_uv_density", 0.07 + 1.2 * std::pow(i / 10.0, 1.3) } },
                film);
        return film;
    }
    ui::CurvesView& show(ui::CurvesView::Page page)
    {
        view_ = std::make_unique<ui::CurvesView>(room.services());
        view_->resize(1200, 760);
        view_->show();
        view_->activateWindow();
        EXPECT_TRUE(QTest::qWaitForWindowActive(view_.get()));
        view_->showPage(page);
        view_->arrive();
        QTest::qWait(30);
        return *view_;
    }
    static QPushButton* button(const QWidget& within, const char* text)
    {
        for (auto* one : within.findChildren<QPushButton*>())
            if (one->isVisible() && one->text().remove(QLatin1Char('&')) == QString::fromLatin1(text))
                return one;
        ADD_FAILURE() << "no button " << text;
        return nullptr;
    }
    static void press(const QWidget& within, const char* text)
    {
        auto* one = button(within, text);
        ASSERT_NE(one, nullptr);
        ASSERT_TRUE(one->isEnabled()) << text;
        one->setFocus();
        QTest::keyClick(one, Qt::Key_Space);
    }
    static std::string wordsOf(const QWidget& widget)
    {
        QString all;
        for (const auto* label : widget.findChildren<QLabel*>())
            if (label->isVisible())
                all += label->text() + QLatin1Char('\n');
        return all.toStdString();
    }
    static void type(QDoubleSpinBox& box, const char* text)
    {
        box.setFocus();
        box.selectAll();
        QTest::keyClicks(&box, QString::fromLatin1(text));
        QTest::keyClick(&box, Qt::Key_Return);
    }
    static QByteArray bytesOf(const QString& path)
    {
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::ReadOnly)) << path.toStdString();
        return file.readAll();
    }

    DeskFixture room;
    QTemporaryDir files;
    std::unique_ptr<ui::CurvesView> view_;
};

} // namespace

TEST_F(CurvePages, AnEmptyNotebookSaysWhatACurveNeeds)
{
    auto& view = show(ui::CurvesView::Page::Characteristic);
    EXPECT_THAT(wordsOf(*view.curvePage()), HasSubstr("under a wedge with known ultraviolet densities"));
    EXPECT_FALSE(button(view, "Take as dose goal...")->isEnabled());
    view.showPage(ui::CurvesView::Page::Negative);
    EXPECT_THAT(view.negativePage()->says().toStdString(), HasSubstr("A curve is needed first"));
}

TEST_F(CurvePages, TheTabsAreReachedByTheirKeys)
{
    fill();
    auto& view = show(ui::CurvesView::Page::Prints);
    QTest::keyClick(&view, Qt::Key_2, Qt::AltModifier);
    EXPECT_TRUE(view.curvePage()->isVisible());
    ASSERT_TRUE(view.curvePage()->state());
    EXPECT_TRUE(view.curvePage()->state()->fit());
    QTest::keyClick(&view, Qt::Key_3, Qt::AltModifier);
    EXPECT_TRUE(view.negativePage()->isVisible());
    QTest::keyClick(&view, Qt::Key_1, Qt::AltModifier);
    EXPECT_TRUE(view.chart() != nullptr && !view.negativePage()->isVisible());
}

TEST_F(CurvePages, AnotherDensityAndAnotherPrintGiveOtherExposures)
{
    fill();
    auto& page = *show(ui::CurvesView::Page::Characteristic).curvePage();
    ASSERT_TRUE(page.goal_j_cm2()) << page.says().toStdString();
    const double first = *page.goal_j_cm2();
    type(*page.wantedBox(), QLocale().toString(0.6, 'f', 2).toLatin1().constData());
    ASSERT_TRUE(page.goal_j_cm2());
    EXPECT_LT(*page.goal_j_cm2(), first);
    EXPECT_EQ(page.state()->ask().wanted, 0.6);
    EXPECT_THAT(page.figures()->item(0, 0)->text().toStdString(), HasSubstr("0.60"));
    EXPECT_THAT(wordsOf(page), HasSubstr("needs "));
    type(*page.wantedBox(), QLocale().toString(2.9, 'f', 2).toLatin1().constData());
    EXPECT_FALSE(page.goal_j_cm2());
    EXPECT_THAT(wordsOf(page), HasSubstr("not reached within the steps"));
    EXPECT_THAT(page.says().toStdString(), HasSubstr("nothing is guessed beyond"));
    EXPECT_FALSE(button(page, "Take as dose goal...")->isEnabled());
    // Another choice takes its own density again.
    auto* of = page.findChild<QComboBox*>();
    ASSERT_NE(of, nullptr);
    of->setFocus();
    QTest::keyClicks(of, QStringLiteral("Print S3-06"));
    EXPECT_EQ(page.chosen().by, CurveOf::By::Print);
    ASSERT_EQ(page.state()->prints().size(), 1u) << page.says().toStdString();
    EXPECT_TRUE(page.goal_j_cm2()) << page.says().toStdString();
    EXPECT_NE(page.state()->ask().wanted, 2.9);
}

TEST_F(CurvePages, AFilmOverTheSheetRaisesTheDose)
{
    fill();
    addFilm();
    auto& page = *show(ui::CurvesView::Page::Characteristic).curvePage();
    const double bare = *page.goal_j_cm2();
    QComboBox* film = nullptr;
    for (auto* box : page.findChildren<QComboBox*>())
        if (box->accessibleName() == QStringLiteral("What lies over the deepest tone"))
            film = box;
    ASSERT_NE(film, nullptr);
    film->setCurrentIndex(film->count() - 1);
    EXPECT_NEAR(*page.goal_j_cm2(), bare * std::pow(10, 0.07), 1e-9);
}

TEST_F(CurvePages, AStepIsPointedAtAndItsPrintOpened)
{
    fill();
    auto& view = show(ui::CurvesView::Page::Characteristic);
    auto* chart = view.curvePage()->chart();
    ASSERT_GT(chart->picture().points.size(), 20u);
    // The lowest exposure of all stands alone.
    size_t apart = 0;
    for (size_t i = 0; i < chart->picture().points.size(); ++i)
        if (chart->picture().points[i].at.x() < chart->picture().points[apart].at.x())
            apart = i;
    const auto place = chart->points()->placeOf(int(apart));
    ASSERT_TRUE(place);
    const auto at = chart->mapFromScene(chart->points()->mapToScene(*place));
    QTest::mouseMove(chart->viewport(), at);
    QTest::qWait(20);
    const auto& print = view.curvePage()->state()->prints()[size_t(chart->picture().points[apart].group)].print;
    EXPECT_THAT(wordsOf(*view.curvePage()),
        testing::AllOf(HasSubstr(print.code.toStdString()), HasSubstr("step 12"), HasSubstr("shift of the print")));
    QSignalSpy opened(&view, &ui::View::openPrint);
    QTest::mouseClick(chart->viewport(), Qt::LeftButton, Qt::NoModifier, at);
    ASSERT_EQ(opened.size(), 1);
    EXPECT_EQ(opened[0][0].toLongLong(), print.id);
    chart->setFocus();
    QTest::keyClick(chart, Qt::Key_End);
    QTest::keyClick(chart, Qt::Key_Return);
    EXPECT_EQ(opened.size(), 2) << "by keys as well";
    auto* drift = view.curvePage()->driftChart();
    drift->setFocus();
    QTest::keyClick(drift, Qt::Key_Home);
    EXPECT_THAT(wordsOf(*view.curvePage()), HasSubstr("days old"));
    QTest::keyClick(drift, Qt::Key_Return);
    ASSERT_EQ(opened.size(), 3);
    double youngest = 1e9;
    qint64 expected = 0;
    for (const auto& one : view.curvePage()->state()->prints())
        if (one.print.mix_age_d && *one.print.mix_age_d < youngest) {
            youngest = *one.print.mix_age_d;
            expected = one.print.id;
        }
    EXPECT_EQ(opened[2][0].toLongLong(), expected) << "the print with the youngest mix";
}

TEST_F(CurvePages, TheBandLiesInsideThePlotArea)
{
    fill();
    auto* chart = show(ui::CurvesView::Page::Characteristic).curvePage()->chart();
    const auto area = chart->chart()->plotArea().adjusted(-0.5, -0.5, 0.5, 0.5);
    ASSERT_FALSE(chart->layer()->bandOutline().isEmpty());
    for (const auto& point : chart->layer()->bandOutline()) {
        EXPECT_GE(point.x(), area.left());
        EXPECT_LE(point.x(), area.right());
    }
    EXPECT_EQ(chart->heading()->entries().size(), 4u);
    EXPECT_GE(chart->heading()->boundingRect().top(), 0) << "the legend is not cut off at the top";
}

TEST_F(CurvePages, TheGoalOfTheSessionIsSetAndUndone)
{
    fill();
    // A lesson that begins: two prints of the chosen formula and paper, one of them exposed.
    const auto& book = room.desk().notebook();
    const auto like = *book.byName(Entity::Print, QStringLiteral("S3-06"));
    const auto mix = *book.get({ Entity::Print, like }, u"print_mix").link();
    const auto paper = *book.get({ Entity::Print, like }, u"print_paper").link();
    const auto session = room.add(Entity::Session, { { "session_code", "S9" } });
    room.sit(session);
    const auto waiting = room.print("S9-01", { { "print_mix", mix }, { "print_paper", paper } });
    const auto exposed = room.print("S9-02", { { "print_mix", mix }, { "print_paper", paper } });
    room.add(Entity::Exposure, { { "expose_start", "2026-06-10T10:00:00+02:00" } }, exposed);
    auto& view = show(ui::CurvesView::Page::Characteristic);
    const double goal = *view.curvePage()->goal_j_cm2();
    QSignalSpy said(&view, &ui::View::say);
    room.dialogs.willAnswer(0);
    press(*view.curvePage(), "Take as dose goal...");
    EXPECT_THAT(room.dialogs.shown().back().text.toStdString(),
        testing::AllOf(HasSubstr("1 print"), HasSubstr("S9"), HasSubstr("Cotton rag 300")));
    ASSERT_TRUE(room.number(waiting, "dose_goal_j_cm2"));
    EXPECT_NEAR(*room.number(waiting, "dose_goal_j_cm2"), goal, 0.00501);
    EXPECT_EQ(room.get(waiting, "dose_goal_j_cm2").evidence, Evidence::Estimated);
    EXPECT_FALSE(room.number(exposed, "dose_goal_j_cm2"));
    ASSERT_FALSE(said.empty());
    EXPECT_THAT(said.back()[0].toString().toStdString(), HasSubstr("1 print"));
    room.desk().undo();
    EXPECT_FALSE(room.number(waiting, "dose_goal_j_cm2"));
    view_.reset();
    room.reopen();
    EXPECT_FALSE(room.number(waiting, "dose_goal_j_cm2"));
}

TEST_F(CurvePages, NoPrintToTakeTheGoalIsAnsweredInWords)
{
    fill();
    room.sit(room.add(Entity::Session, { { "session_code", "S9" } }));
    auto& page = *show(ui::CurvesView::Page::Characteristic).curvePage();
    press(page, "Take as dose goal...");
    ASSERT_EQ(room.dialogs.shown().size(), 1u);
    EXPECT_EQ(room.dialogs.shown()[0].kind, QStringLiteral("message"));
    EXPECT_THAT(room.dialogs.shown()[0].text.toStdString(), HasSubstr("still to be exposed"));
}

TEST_F(CurvePages, CurveAndDriftAreSaved)
{
    fill();
    auto& page = *show(ui::CurvesView::Page::Characteristic).curvePage();
    const auto svg = files.filePath(QStringLiteral("curve.svg")), pdf = files.filePath(QStringLiteral("drift.pdf"));
    room.dialogs.willSave(svg);
    press(page, "Save...");
    EXPECT_TRUE(bytesOf(svg).startsWith("<?xml"));
    EXPECT_THAT(QString::fromUtf8(bytesOf(svg)).toStdString(), HasSubstr("shoulder"));
    ASSERT_TRUE(page.driftChart()->isVisible());
    room.dialogs.willSave(pdf);
    press(page, "Save the drift...");
    EXPECT_TRUE(bytesOf(pdf).startsWith("%PDF"));
    EXPECT_TRUE(room.dialogs.allUsed());
    room.dialogs.willSave(files.filePath(QStringLiteral("no such folder/curve.svg")));
    press(page, "Save...");
    EXPECT_EQ(room.dialogs.shown().back().kind, QStringLiteral("error"));
}

TEST_F(CurvePages, TheCurveFollowsTheNotebook)
{
    fill();
    auto& page = *show(ui::CurvesView::Page::Characteristic).curvePage();
    const auto before = page.state()->prints().size();
    const auto& print = page.state()->prints().back().print;
    const auto id = print.id;
    EXPECT_TRUE(room.desk().perform(QStringLiteral("remove"), [&](store::Writer& writer) {
        return writer.remove({ Entity::Print, id });
    }));
    EXPECT_EQ(page.state()->prints().size(), before - 1);
    room.desk().undo();
    EXPECT_EQ(page.state()->prints().size(), before);
}

// ---- Negative

TEST_F(CurvePages, TheTableIsShownAndSavedAsItStands)
{
    fill();
    addFilm();
    auto& view = show(ui::CurvesView::Page::Negative);
    auto& page = *view.negativePage();
    ASSERT_TRUE(page.state() && page.state()->table()) << page.says().toStdString();
    EXPECT_FALSE(page.filmBox()->currentText().contains(QStringLiteral("not measured")))
        << "those that can be used first";
    page.filmBox()->setCurrentIndex(page.filmBox()->findText(QStringLiteral("Film steps")));
    EXPECT_EQ(page.rows()->rowCount(), 21);
    EXPECT_EQ(page.chart()->picture().points.size(), 21u);
    EXPECT_THAT(page.says().toStdString(), HasSubstr("J/cm² at the paper, before the film"));
    const auto path = files.filePath(QStringLiteral("tones.csv"));
    room.dialogs.willSave(path);
    press(page, "Save table...");
    const auto lines = QString::fromUtf8(bytesOf(path)).split(QStringLiteral("\r\n"), Qt::SkipEmptyParts);
    ASSERT_EQ(lines.size(), 22);
    EXPECT_EQ(lines[0], QStringLiteral("tone_percent,print_density,log_h,film_density,film_value"));
    for (int i = 1; i < 22; ++i) {
        const auto cells = lines[i].split(u',');
        ASSERT_EQ(cells.size(), 5);
        EXPECT_NEAR(cells[0].toDouble(), 5.0 * (i - 1), 1e-3);
        EXPECT_NEAR(cells[4].toDouble(), page.state()->table()->rows[size_t(i - 1)].film_value, 1e-3);
    }
    const auto png = files.filePath(QStringLiteral("tones.png"));
    room.dialogs.willSave(png);
    press(page, "Save plot...");
    EXPECT_TRUE(bytesOf(png).startsWith("\x89PNG"));
}

TEST_F(CurvePages, AnotherExposureMovesTheTable)
{
    fill();
    addFilm();
    auto& page = *show(ui::CurvesView::Page::Negative).negativePage();
    const double by_shoulder = *page.state()->exposure_j_cm2();
    auto* exposure = page.findChild<QDoubleSpinBox*>();
    ASSERT_NE(exposure, nullptr);
    EXPECT_FALSE(exposure->isEnabled());
    EXPECT_NEAR(exposure->value(), by_shoulder, 0.00501);
    for (auto* box : page.findChildren<QCheckBox*>())
        if (box->text().contains(QStringLiteral("shoulder")))
            QTest::keyClick(box, Qt::Key_Space);
    ASSERT_TRUE(exposure->isEnabled());
    type(*exposure, QLocale().toString(by_shoulder / 2, 'f', 2).toLatin1().constData());
    ASSERT_TRUE(page.state()->table());
    EXPECT_NEAR(*page.state()->exposure_j_cm2(), by_shoulder / 2, 0.01);
    type(*exposure, QLocale().toString(0.01, 'f', 2).toLatin1().constData());
    EXPECT_FALSE(page.state()->table());
    EXPECT_THAT(page.says().toStdString(), HasSubstr("no step of the film falls on the measured curve"));
}

TEST_F(CurvePages, TheSameCurveIsChosenOnBothPages)
{
    fill();
    addFilm();
    auto& view = show(ui::CurvesView::Page::Negative);
    auto* of = view.negativePage()->findChild<QComboBox*>();
    ASSERT_NE(of, nullptr);
    of->setFocus();
    QTest::keyClick(of, Qt::Key_Down);
    EXPECT_EQ(view.curvePage()->chosen(), view.curvePage()->groups()[1].of);
    EXPECT_EQ(view.curvePage()->state()->ask().of, view.curvePage()->groups()[1].of);
}

TEST_F(CurvePages, TheFilmOfTheStepChartIsRecordedWithItsValues)
{
    fill();
    auto& page = *show(ui::CurvesView::Page::Negative).negativePage();
    auto* steps = page.findChild<QSpinBox*>();
    ASSERT_NE(steps, nullptr);
    steps->setValue(6);
    room.dialogs.willType(QStringLiteral("My film"));
    press(page, "Record its film...");
    const auto& book = room.desk().notebook();
    const auto film = book.byName(Entity::Negative, QStringLiteral("My film"));
    ASSERT_TRUE(film);
    std::vector<double> values;
    for (const int row : book.children(Entity::NegativeStep, *film)) {
        const Ref step { Entity::NegativeStep, book.table(Entity::NegativeStep).id(row) };
        values.push_back(book.get(step, u"step_value").number().value_or(-1));
        EXPECT_FALSE(book.get(step, u"step_uv_density").has()) << "not measured is not zero";
    }
    EXPECT_EQ(values, (std::vector<double> { 0, 20, 40, 60, 80, 100 }));
    EXPECT_EQ(page.filmBox()->currentData().toLongLong(), *film);
    EXPECT_THAT(page.says().toStdString(), HasSubstr("My film"));
}

TEST_F(CurvePages, TheStepChartIsAPdfOfTwoPages)
{
    fill();
    auto& page = *show(ui::CurvesView::Page::Negative).negativePage();
    const auto path = files.filePath(QStringLiteral("steps.pdf"));
    room.dialogs.willSave(path);
    press(page, "Print step chart...");
    const auto bytes = bytesOf(path);
    EXPECT_TRUE(bytes.startsWith("%PDF"));
    EXPECT_EQ(bytes.count("/Type /Page\n") + bytes.count("/Type /Page "), 2);
    const auto reader = QStandardPaths::findExecutable(QStringLiteral("pdftotext"));
    ASSERT_FALSE(reader.isEmpty()) << "pdftotext is missing; tests/run.sh installs it";
    QProcess process;
    process.start(reader, { QStringLiteral("-layout"), path, QStringLiteral("-") });
    ASSERT_TRUE(process.waitForFinished());
    const auto text = QString::fromUtf8(process.readAllStandardOutput())
                          .replace(QChar(0xFB01), QStringLiteral("fi")) // a ligature of the typeface
                          .toStdString();
    EXPECT_THAT(text, HasSubstr("Step chart for film, 11 steps"));
    EXPECT_THAT(text, HasSubstr("100 %"));
    EXPECT_THAT(text, HasSubstr("Measure each step in ultraviolet"));
    room.dialogs.willSave(files.filePath(QStringLiteral("no such folder/steps.pdf")));
    press(page, "Print step chart...");
    EXPECT_EQ(room.dialogs.shown().back().kind, QStringLiteral("error"));
}

// ---- The chart of steps itself

TEST(StepChartPage, HasEvenGreysFromWhiteToBlack)
{
    const double dpi = 100, scale = dpi / 25.4;
    for (const int steps : { 3, 11, 21, 41 }) {
        const StepChart chart { steps };
        const auto picture = ui::sheets::pageImage(stepChartPainter(chart), 0, dpi);
        const auto values = chart.values();
        ASSERT_EQ(int(values.size()), steps);
        EXPECT_EQ(values.front(), 0);
        EXPECT_EQ(values.back(), 100);
        for (int i = 0; i < steps; ++i) {
            const auto middle = chart.cell_mm(i).center() * scale;
            EXPECT_EQ(qGray(picture.pixel(middle.toPoint())), qRound(255 * (1 - values[size_t(i)] / 100)))
                << steps << " steps, step " << i + 1;
            if (i > 0) {
                EXPECT_NEAR(chart.cell_mm(i).width(), chart.cell_mm(0).width(), 1e-9)
                    << "as the Reading desk needs them";
            }
        }
        EXPECT_GE(chart.cell_mm(0).left(), 15);
        EXPECT_LE(chart.cell_mm(steps - 1).right(), 195);
    }
}

TEST(StepChartPage, MirroredIsTheSamePageTheOtherWayRound)
{
    const double dpi = 80;
    const auto plain = ui::sheets::pageImage(stepChartPainter({ 7, false }), 0, dpi);
    const auto mirrored = ui::sheets::pageImage(stepChartPainter({ 7, true }), 0, dpi);
    const double scale = dpi / 25.4;
    for (int i = 0; i < 7; ++i) {
        const auto here = (StepChart { 7 }.cell_mm(i).center() * scale).toPoint();
        const auto there = (StepChart { 7 }.cell_mm(6 - i).center() * scale).toPoint();
        EXPECT_EQ(plain.pixel(here), mirrored.pixel(there));
    }
}

} // namespace WASHFAST_FILE
