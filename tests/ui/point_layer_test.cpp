// The cloud of points: in the right place, found under the pointer, drawn once, and whole in vector files.
#include "ui/common/point_layer.h"

#include "ui/common/chart_export.h"
#include "ui/common/chart_style.h"

#include <QApplication>
#include <QImage>
#include <QPainter>
#include <QSignalSpy>
#include <QTest>
#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QLegend>
#include <QtCharts/QScatterSeries>
#include <QtCharts/QValueAxis>
#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <memory>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast::ui;

namespace {

// A chart 640 by 440 with axes 0..10 and -1..1, on show offscreen.
class PointLayerTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        auto* chart = new QChart;
        chart->legend()->hide();
        x_ = new QValueAxis;
        y_ = new QValueAxis;
        x_->setRange(0, 10);
        y_->setRange(-1, 1);
        chart->addAxis(x_, Qt::AlignBottom);
        chart->addAxis(y_, Qt::AlignLeft);
        styleChart(*chart, theme_);
        view_ = std::make_unique<QChartView>(chart);
        styleChartView(*view_, theme_);
        view_->resize(640, 440);
        layer_ = new PointLayer(chart, theme_);
        layer_->setAxes(x_, y_);
        view_->show();
        QApplication::processEvents();
    }

    QPoint inViewport(int index) const
    {
        return view_->mapFromScene(layer_->mapToScene(layer_->placeOf(index).value()));
    }

    std::vector<QPointF> scattered(int count, unsigned seed = 11) const
    {
        std::mt19937 random(seed);
        std::uniform_real_distribution<double> x(0, 10);
        std::uniform_real_distribution<double> y(-1, 1);
        std::vector<QPointF> points;
        for (int i = 0; i < count; ++i)
            points.emplace_back(x(random), y(random));
        return points;
    }

    Theme theme_ = lightTheme();
    std::unique_ptr<QChartView> view_;
    QValueAxis* x_ = nullptr;
    QValueAxis* y_ = nullptr;
    PointLayer* layer_ = nullptr;
};

constexpr double missing = std::numeric_limits<double>::quiet_NaN();

} // namespace

TEST_F(PointLayerTest, PlacesAgreeWithTheChartsOwn)
{
    // The judge is Qt Charts: where it maps the same values for a series on the same axes.
    auto* series = new QScatterSeries;
    QChart* chart = view_->chart();
    chart->addSeries(series);
    series->attachAxis(x_);
    series->attachAxis(y_);
    const auto points = scattered(50);
    layer_->setPoints({ points, {}, {} });
    const auto compare = [&](const char* what) {
        for (int i = 0; i < 50; ++i) {
            const QPointF theirs = chart->mapToPosition(points[static_cast<std::size_t>(i)], series);
            ASSERT_TRUE(layer_->placeOf(i)) << what << i;
            EXPECT_NEAR(layer_->placeOf(i)->x(), theirs.x(), 0.01) << what << i;
            EXPECT_NEAR(layer_->placeOf(i)->y(), theirs.y(), 0.01) << what << i;
        }
    };
    compare("first ");
    view_->resize(500, 300);
    QApplication::processEvents();
    compare("smaller window ");
    x_->setRange(-5, 20);
    y_->setRange(-3, 1.5);
    compare("other ranges ");
    y_->setReverse(true);
    QApplication::processEvents();
    compare("y reversed ");
}

TEST_F(PointLayerTest, DrawsNothingThatIsOutsideHiddenOrNotRecorded)
{
    layer_->setPoints(
        { { { 5, 0 }, { 11, 0 }, { 5, missing }, { missing, 0 }, { 10, 1 }, { -0.1, 0 }, { 2, 0.5 } }, {}, {} });
    const auto shown = [&] {
        QString result;
        for (int i = 0; i < layer_->count(); ++i)
            result += layer_->placeOf(i) ? QLatin1Char('x') : QLatin1Char('.');
        return result.toStdString();
    };
    EXPECT_EQ(shown(), "x...x.x");
    layer_->setVisibleMask({ false, true, true, true, true, true, true });
    EXPECT_EQ(shown(), "....x.x");
    layer_->setVisibleMask({});
    EXPECT_EQ(shown(), "x...x.x");
    EXPECT_FALSE(layer_->placeOf(-1));
    EXPECT_FALSE(layer_->placeOf(7));
}

TEST_F(PointLayerTest, FindsWhatAPlainSearchFinds)
{
    const auto points = scattered(3000);
    layer_->setPoints({ points, {}, {} });
    std::mt19937 random(5);
    const QRectF area = layer_->frame().area;
    std::uniform_real_distribution<double> x(area.left(), area.right());
    std::uniform_real_distribution<double> y(area.top(), area.bottom());
    int hits = 0;
    for (int trial = 0; trial < 400; ++trial) {
        const QPointF place(x(random), y(random));
        std::optional<int> nearest;
        double best = 7.5 * 7.5; // half the sign of 7 and 4 around it
        for (int i = 0; i < 3000; ++i) {
            const QPointF d = *layer_->placeOf(i) - place;
            if (QPointF::dotProduct(d, d) <= best) {
                best = QPointF::dotProduct(d, d);
                nearest = i;
            }
        }
        EXPECT_EQ(layer_->hitTest(place), nearest) << trial;
        hits += nearest.has_value();
    }
    EXPECT_GT(hits, 100);
    EXPECT_LT(hits, 400);
}

TEST(PointGrid, TakesTheLaterOfTwoOnOneSpotAndAllInABox)
{
    PointGrid grid;
    EXPECT_FALSE(grid.nearest({ 0, 0 }, 100));
    grid.build({ { 5, 5 }, { 5, 5 }, { missing, 2 }, { 100, 100 }, { 8, 5 } });
    EXPECT_EQ(grid.nearest({ 5, 6 }, 3), 1);
    EXPECT_FALSE(grid.nearest({ 50, 50 }, 3));
    EXPECT_EQ(grid.nearest({ 103, 100 }, 3), 3);
    EXPECT_EQ(grid.within({ 4, 4, 4, 2 }), (std::vector<int> { 0, 1, 4 }));
    EXPECT_TRUE(grid.within({ 200, 200, 5, 5 }).empty());
    // One point only, and points in a line, have no width to divide.
    grid.build({ { 3, 3 } });
    EXPECT_EQ(grid.nearest({ 3, 3 }, 1), 0);
    // Far apart, the cells grow instead of taking all memory.
    grid.build({ { 0, 0 }, { 1e7, 1e7 } });
    EXPECT_EQ(grid.nearest({ 1e7, 1e7 }, 1), 1);
}

TEST_F(PointLayerTest, PaintsEachPointInItsColour)
{
    layer_->setPointSize(12);
    layer_->setPoints({ { { 2, 0 }, { 4, 0 }, { 6, 0 }, { 8, 0 }, { 9, 0.5 } },
        { qRgb(200, 0, 0), qRgb(0, 150, 0), qRgb(0, 0, 200), qRgb(120, 60, 0), theme_.rust.rgb() },
        { PointShape::Circle, PointShape::Square, PointShape::Triangle, PointShape::Diamond, PointShape::Cross } });
    for (const double scale : { 1.0, 2.0 }) {
        const QImage image = chartImage(*view_, scale);
        const QRgb wanted[]
            = { qRgb(200, 0, 0), qRgb(0, 150, 0), qRgb(0, 0, 200), qRgb(120, 60, 0), theme_.rust.rgb() };
        for (int i = 0; i < 5; ++i)
            EXPECT_EQ(image.pixel((*layer_->placeOf(i) * scale).toPoint()), wanted[i]) << i << " at " << scale;
    }
}

TEST(Glyphs, CoverTheSameAreaAndDifferInShape)
{
    std::vector<QImage> images;
    std::vector<double> areas;
    for (const auto shape : { PointShape::Circle, PointShape::Square, PointShape::Triangle, PointShape::Diamond }) {
        QImage image(120, 120, QImage::Format_Grayscale8);
        image.fill(Qt::white);
        QPainter painter(&image);
        painter.setRenderHint(QPainter::Antialiasing);
        paintGlyph(painter, { 60, 60 }, 60, shape, Qt::black);
        painter.end();
        double dark = 0;
        for (int y = 0; y < 120; ++y)
            for (int x = 0; x < 120; ++x)
                dark += 1 - qGray(image.pixel(x, y)) / 255.0;
        areas.push_back(dark);
        for (const QImage& other : images)
            EXPECT_NE(image, other);
        images.push_back(image);
        // Nothing reaches further than it says.
        const int reach = static_cast<int>(std::ceil(glyphReach(60)));
        for (int y = 0; y < 120; ++y)
            for (int x = 0; x < 120; ++x)
                if (std::abs(x - 60) > reach || std::abs(y - 60) > reach) {
                    ASSERT_EQ(qGray(image.pixel(x, y)), 255);
                }
    }
    // A circle of diameter 60.
    for (const double area : areas)
        EXPECT_NEAR(area, M_PI * 900, M_PI * 900 * 0.03);
    EXPECT_EQ(groupShape(0), groupShape(4));
    EXPECT_NE(groupShape(0), groupShape(1));
    for (int group = -3; group < 20; ++group)
        EXPECT_NE(groupShape(group), PointShape::Cross);
}

TEST_F(PointLayerTest, HoverDoesNotDrawTheCloudAgain)
{
    layer_->setPoints({ scattered(5000), {}, {} });
    view_->grab();
    const int drawn = layer_->drawnTimes();
    EXPECT_GE(drawn, 1);
    for (int i = 0; i < 20; ++i) {
        layer_->setCurrent(i);
        view_->grab();
    }
    EXPECT_EQ(layer_->drawnTimes(), drawn);
    layer_->setSelected({ 3, 4 });
    view_->grab();
    EXPECT_EQ(layer_->drawnTimes(), drawn + 1);
    x_->setRange(0, 5);
    view_->grab();
    EXPECT_EQ(layer_->drawnTimes(), drawn + 2);
    // A file is drawn on its own and does not disturb what the screen keeps.
    (void)chartImage(*view_);
    view_->grab();
    EXPECT_EQ(layer_->drawnTimes(), drawn + 2);
}

TEST_F(PointLayerTest, TellsWhatIsHoveredAndClicked)
{
    layer_->setPoints({ { { 2, 0 }, { 5, 0.5 }, { 8, -0.5 } }, {}, {} });
    QSignalSpy hovered(layer_, &PointLayer::hovered);
    QSignalSpy clicked(layer_, &PointLayer::clicked);
    QTest::mouseMove(view_->viewport(), inViewport(1));
    QApplication::processEvents();
    ASSERT_FALSE(hovered.isEmpty());
    EXPECT_EQ(hovered.last().at(0).toInt(), 1);
    EXPECT_EQ(layer_->current(), 1);
    QTest::mouseMove(view_->viewport(), inViewport(1) + QPoint(40, 0));
    QApplication::processEvents();
    EXPECT_EQ(hovered.last().at(0).toInt(), -1);
    QTest::mouseClick(view_->viewport(), Qt::LeftButton, Qt::ControlModifier, inViewport(2) + QPoint(2, 1));
    ASSERT_EQ(clicked.count(), 1);
    EXPECT_EQ(clicked.first().at(0).toInt(), 2);
    EXPECT_EQ(clicked.first().at(1).value<Qt::KeyboardModifiers>(), Qt::ControlModifier);
    // Free ground, and a drag that leaves the point, are no click.
    QTest::mouseClick(view_->viewport(), Qt::LeftButton, {}, inViewport(2) + QPoint(60, -30));
    QTest::mousePress(view_->viewport(), Qt::LeftButton, {}, inViewport(0));
    QTest::mouseRelease(view_->viewport(), Qt::LeftButton, {}, inViewport(0) + QPoint(50, 0));
    EXPECT_EQ(clicked.count(), 1);
}

TEST_F(PointLayerTest, RubberBandMarksWhatIsInside)
{
    layer_->setPoints({ { { 2, 0.2 }, { 3, -0.2 }, { 8, 0 }, { 2.5, 0 } }, {}, {} });
    layer_->setVisibleMask({ true, true, true, false });
    QSignalSpy marked(layer_, &PointLayer::marked);
    const QPoint from = inViewport(0) - QPoint(30, 30);
    const QPoint to = inViewport(1) + QPoint(30, 30);
    const auto drag = [&] {
        QTest::mousePress(view_->viewport(), Qt::LeftButton, {}, from);
        QMouseEvent move(QEvent::MouseMove, to, view_->viewport()->mapToGlobal(to), Qt::NoButton, Qt::LeftButton, {});
        QApplication::sendEvent(view_->viewport(), &move);
        QTest::mouseRelease(view_->viewport(), Qt::LeftButton, {}, to);
    };
    drag();
    EXPECT_EQ(marked.count(), 0);
    layer_->setRubberBandEnabled(true);
    drag();
    ASSERT_EQ(marked.count(), 1);
    EXPECT_EQ(marked.first().at(0).value<QList<int>>(), (QList<int> { 0, 1 }));
}

TEST_F(PointLayerTest, CanBeWalkedWithTheKeyboard)
{
    layer_->attachKeys(view_.get());
    layer_->setPoints({ { { 7, 0 }, { 1, 0 }, { 4, 0 }, { 20, 0 } }, {}, {} });
    QSignalSpy clicked(layer_, &PointLayer::clicked);
    QTest::keyClick(view_.get(), Qt::Key_Return);
    EXPECT_EQ(clicked.count(), 0);
    QTest::keyClick(view_.get(), Qt::Key_Right);
    EXPECT_EQ(layer_->current(), 1);
    QTest::keyClick(view_.get(), Qt::Key_Right);
    EXPECT_EQ(layer_->current(), 2);
    QTest::keyClick(view_.get(), Qt::Key_End);
    EXPECT_EQ(layer_->current(), 0);
    QTest::keyClick(view_.get(), Qt::Key_Right);
    EXPECT_EQ(layer_->current(), 0);
    QTest::keyClick(view_.get(), Qt::Key_Left);
    EXPECT_EQ(layer_->current(), 2);
    QTest::keyClick(view_.get(), Qt::Key_Return);
    ASSERT_EQ(clicked.count(), 1);
    EXPECT_EQ(clicked.first().at(0).toInt(), 2);
    QTest::keyClick(view_.get(), Qt::Key_Escape);
    EXPECT_FALSE(layer_->current());
    // What gets hidden under the ring takes it away.
    layer_->setCurrent(1);
    layer_->setVisibleMask({ true, false, true, true });
    EXPECT_FALSE(layer_->current());
}

TEST_F(PointLayerTest, VectorFilesHoldSignsAndAboveTheLimitOnePicture)
{
    layer_->setPoints({ { { 2, 0 }, { 5, 0 }, { 30, 0 } }, { qRgb(1, 2, 3), qRgb(1, 2, 3), qRgb(1, 2, 3) }, {} });
    const QByteArray few = chartSvg(*view_);
    EXPECT_EQ(few.count("<circle") + few.count("<ellipse"), 2);
    EXPECT_TRUE(few.contains("fill=\"#010203\""));
    EXPECT_FALSE(few.contains("<image"));
    layer_->setPoints({ scattered(PointLayer::vectorLimit + 1), {}, {} });
    const QByteArray many = chartSvg(*view_);
    EXPECT_EQ(many.count("<image"), 1);
    layer_->setPoints({ scattered(PointLayer::vectorLimit), {}, {} });
    EXPECT_FALSE(chartSvg(*view_).contains("<image"));
}

TEST_F(PointLayerTest, NoAxesNoCrash)
{
    QChart bare;
    PointLayer layer(&bare, theme_);
    layer.setPoints({ { { 1, 1 } }, {}, {} });
    EXPECT_FALSE(layer.placeOf(0));
    EXPECT_FALSE(layer.hitTest({ 1, 1 }));
    layer.step(1);
    EXPECT_FALSE(layer.current());
    layer_->setPoints({ { { 5, 0 } }, {}, {} });
    delete x_;
    QApplication::processEvents();
    EXPECT_FALSE(layer_->placeOf(0));
    EXPECT_FALSE(view_->grab().isNull());
}

} // namespace WASHFAST_FILE
