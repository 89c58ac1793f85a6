// The chart of prints: axes and legend from Qt Charts, the cloud of points or the map as one item of ours in its scene.
#pragma once

#include "ui/common/heat_layer.h"
#include "ui/common/point_layer.h"
#include "ui/curves/curve_state.h"

#include <QChartView>

class QCategoryAxis;
class QValueAxis;

namespace washfast::ui {

class PlotHeading;

class PrintsChart : public QChartView {
    Q_OBJECT

public:
    explicit PrintsChart(const Theme& theme, QWidget* parent = nullptr);

    void setPrints(PlottedPrints prints, const PlotAxes& axes, const QString& title);
    [[nodiscard]] const PlottedPrints& prints() const { return prints_; }
    void setTheme(const Theme& theme);
    [[nodiscard]] PointLayer* points() const { return points_; }
    [[nodiscard]] HeatLayer* map() const { return map_; }
    [[nodiscard]] PlotHeading* heading() const { return heading_; }

Q_SIGNALS:
    void hovered(int at); // index into prints().rows, -1 for none
    void picked(int at);

private:
    void layAxes();
    void layPoints();
    void layMap();
    void style();

    Theme theme_;
    PlottedPrints prints_;
    PlotAxes axes_ = axesOf(Plot::DensityDose);
    QValueAxis* x_ = nullptr;
    QCategoryAxis* x_log_ = nullptr;
    QValueAxis* y_ = nullptr;
    PointLayer* points_ = nullptr;
    HeatLayer* map_ = nullptr;
    PlotHeading* heading_ = nullptr;
    QString title_;
};

} // namespace washfast::ui
