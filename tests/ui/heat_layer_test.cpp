// The map: means and counts by cell, in the colours of the ramp, cut at the axes.
#include "ui/common/heat_layer.h"

#include "ui/common/chart_export.h"
#include "ui/common/chart_style.h"

#include <QApplication>
#include <QImage>
#include <QSignalSpy>
#include <QTest>
#include <QtCharts/QChart>
#include <QtCharts/QChartView>
#include <QtCharts/QLegend>
#include <QtCharts/QValueAxis>
#include <cmath>
#include <gtest/gtest.h>
#include <memory>

namespace WASHFAST_FILE {

using namespace washfast::ui;

namespace {

class HeatLayerTest : public ::testing::Test {
protected:
    void SetUp() override
    {
        auto* chart = new QChart;
        chart->legend()->hide();
        auto* x = new QValueAxis;
        auto* y = new QValueAxis;
        x->setRange(0, 4);
        y->setRange(0, 2);
        chart->addAxis(x, Qt::AlignBottom);
        chart->addAxis(y, Qt::AlignLeft);
        styleChart(*chart, theme_);
        view_ = std::make_unique<QChartView>(chart);
        view_->resize(600, 400);
        layer_ = new HeatLayer(chart, theme_);
        layer_->setAxes(x, y);
        view_->show();
        QApplication::processEvents();
    }

    Theme theme_ = lightTheme();
    std::unique_ptr<QChartView> view_;
    HeatLayer* layer_ = nullptr;
};

} // namespace

TEST(MeanMap, SortsValuesIntoCells)
{
    const double nan = std::nan("");
    const std::vector<QPointF> where { { 0, 0 }, { 0.5, 0.5 }, { 1, 0 }, { 2, 2 }, { 2.1, 0 }, { nan, 1 }, { 0.1, 0.1 },
        { 1.5, 1.5 } };
    const std::vector<double> values { 1, 3, 5, 7, 100, 100, nan, 9 };
    const MeanMap map = meanMap(where, values, { 0, 1, 2 }, { 0, 1, 2 });
    ASSERT_EQ(map.columns(), 2);
    ASSERT_EQ(map.rows(), 2);
    EXPECT_EQ(map.counts, (std::vector<int> { 2, 1, 0, 2 }));
    EXPECT_EQ(map.means[map.index(0, 0)], 2.0);
    EXPECT_EQ(map.means[map.index(1, 0)], 5.0) << "a lower edge belongs to the cell";
    EXPECT_FALSE(map.means[map.index(0, 1)]) << "no print is not a mean of zero";
    EXPECT_EQ(map.means[map.index(1, 1)], 8.0) << "the last upper edge belongs to the last cell";
    EXPECT_EQ(meanMap({}, {}, {}, {}).columns(), 0);
}

TEST_F(HeatLayerTest, ColoursCellsByTheirMeanAndCutsThemAtTheAxes)
{
    // The second column runs out of the axes on the right.
    MeanMap map;
    map.xEdges = { 0, 2, 9 };
    map.yEdges = { 0, 1, 2 };
    map.means = { 0.2, 1.0, std::nullopt, 0.6 };
    map.counts = { 5, 5, 0, 1 };
    layer_->setMap(map);
    EXPECT_EQ(layer_->low(), 0.2);
    EXPECT_EQ(layer_->high(), 1.0);
    const QImage image = chartImage(*view_, 1.0);
    const PlotFrame plot = layer_->frame();
    const auto at = [&](double x, double y) { return image.pixelColor(plot.toPlace({ x, y }).toPoint()); };
    EXPECT_EQ(at(0.4, 0.3), layer_->colourFor(0.2));
    EXPECT_EQ(at(0.4, 0.3), theme_.ramp.front());
    EXPECT_EQ(at(2.4, 0.3), theme_.ramp.back());
    EXPECT_EQ(at(0.37, 1.63), theme_.sheet);
    const auto right = static_cast<int>(plot.area.right()) + 4;
    EXPECT_EQ(image.pixelColor(right, static_cast<int>(plot.toPlace({ 0, 0.5 }).y())), theme_.sheet);
    // Too few prints: more than one colour in a strip free of the number.
    const auto colours = [&](double y) {
        QSet<QRgb> seen;
        const int row = static_cast<int>(plot.toPlace({ 0, y }).y());
        for (int x = static_cast<int>(plot.toPlace({ 2.1, 0 }).x()); x < plot.toPlace({ 3.9, 0 }).x(); ++x)
            seen.insert(image.pixel(x, row));
        return seen.size();
    };
    EXPECT_EQ(colours(0.2), 1);
    EXPECT_GT(colours(1.8), 1);
}

TEST_F(HeatLayerTest, TellsTheCellUnderThePointer)
{
    layer_->setMap(meanMap({ { 1, 0.5 }, { 3, 1.5 } }, { 1, 2 }, { 0, 2, 4 }, { 0, 1, 2 }));
    const auto place = [&](double x, double y) {
        return view_->mapFromScene(layer_->mapToScene(layer_->frame().toPlace({ x, y })));
    };
    QSignalSpy hovered(layer_, &HeatLayer::hovered);
    QSignalSpy clicked(layer_, &HeatLayer::clicked);
    QTest::mouseMove(view_->viewport(), place(3, 1.5));
    QApplication::processEvents();
    ASSERT_FALSE(hovered.isEmpty());
    EXPECT_EQ(hovered.last().at(0).toInt(), 3);
    QTest::mouseClick(view_->viewport(), Qt::LeftButton, {}, place(1, 0.5));
    ASSERT_EQ(clicked.count(), 1);
    EXPECT_EQ(clicked.last().at(0).toInt(), 0);
    QTest::mouseClick(view_->viewport(), Qt::LeftButton, {}, place(3, 0.5));
    EXPECT_EQ(clicked.count(), 1) << "a cell without prints has nothing to open";
    EXPECT_FALSE(layer_->cellAt({ -5, -5 }));
}

TEST_F(HeatLayerTest, CanBeWalkedWithTheKeyboardPastEmptyCells)
{
    layer_->attachKeys(view_.get());
    layer_->setMap(meanMap({ { 0.5, 0.5 }, { 3.5, 0.5 }, { 3.5, 1.5 } }, { 1, 2, 3 }, { 0, 1, 2, 3, 4 }, { 0, 1, 2 }));
    QSignalSpy clicked(layer_, &HeatLayer::clicked);
    const auto press = [&](Qt::Key key) {
        QTest::keyClick(view_.get(), key);
        return layer_->current();
    };
    EXPECT_EQ(press(Qt::Key_Return), -1);
    EXPECT_EQ(press(Qt::Key_Right), 0);
    EXPECT_EQ(press(Qt::Key_Right), 3);
    EXPECT_EQ(press(Qt::Key_Up), 7);
    EXPECT_EQ(press(Qt::Key_Up), 7);
    EXPECT_EQ(press(Qt::Key_Left), 7);
    EXPECT_EQ(press(Qt::Key_Down), 3);
    EXPECT_EQ(press(Qt::Key_Return), 3);
    ASSERT_EQ(clicked.count(), 1);
    EXPECT_EQ(clicked.first().at(0).toInt(), 3);
    EXPECT_EQ(press(Qt::Key_Escape), -1);
}

TEST_F(HeatLayerTest, OneMeanOnlyHasAColourToo)
{
    layer_->setMap(meanMap({ { 1, 0.5 } }, { 0.7 }, { 0, 2, 4 }, { 0, 1, 2 }));
    EXPECT_EQ(layer_->colourFor(0.7), onRamp(theme_.ramp, 0.5));
    layer_->setRange(0, 1.4);
    EXPECT_EQ(layer_->colourFor(1.4), theme_.ramp.back());
    EXPECT_EQ(layer_->colourFor(3), theme_.ramp.back());
}

} // namespace WASHFAST_FILE
