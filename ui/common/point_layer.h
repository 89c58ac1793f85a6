// A cloud of points in a chart as one item: up to 100,000 of them, drawn once into a picture and then only shown.
//
// Each point has a colour and a shape (never colour alone). Points outside the axes or with a value that is not
// recorded (NaN) are not drawn; a point on the edge is drawn whole, so nothing depends on clipping. On screen the
// layer paints a cached picture at the screen's pixel density; into SVG and PDF it paints the signs themselves, up to
// vectorLimit points, and above that one picture of three times the resolution.
//
//     auto* layer = new PointLayer(chart, theme);
//     layer->setAxes(xAxis, yAxis);
//     layer->setPoints({ positions, colours, shapes });
//     connect(layer, &PointLayer::clicked, this, &CurvesView::openPrint);
//
// Keyboard: attachKeys(view) lets Left, Right, Home and End walk through the points by x and Enter pick one.
#pragma once

#include "ui/common/plot_item.h"
#include "ui/common/point_glyph.h"
#include "ui/common/point_grid.h"
#include "ui/common/theme.h"

#include <QImage>
#include <QList>
#include <QTransform>
#include <optional>
#include <vector>

class QGraphicsView;

namespace washfast::ui {

struct PointCloud {
    std::vector<QPointF> positions; // values on the axes
    std::vector<QRgb> colours; // one each; missing ones take the theme's accent
    std::vector<PointShape> shapes; // one each; missing ones are circles
};

class PointLayer : public PlotItem {
    Q_OBJECT

public:
    static constexpr int vectorLimit = 20000;

    PointLayer(QChart* chart, const Theme& theme);

    void setPoints(PointCloud cloud);
    [[nodiscard]] int count() const { return static_cast<int>(cloud_.positions.size()); }
    // One flag a point; an empty mask shows all. Hidden points are neither drawn nor hit.
    void setVisibleMask(std::vector<bool> mask);
    // Selected points are ringed and drawn on top.
    void setSelected(const QList<int>& indices);
    [[nodiscard]] const QList<int>& selected() const { return selected_; }
    // Diameter in logical pixels.
    void setPointSize(double size);
    // Dragging over free ground marks a rectangle and emits marked().
    void setRubberBandEnabled(bool enabled) { rubberBandEnabled_ = enabled; }
    void setTheme(const Theme& theme);

    // Where a point stands in the chart; nothing when it is hidden, outside the axes or not recorded.
    [[nodiscard]] std::optional<QPointF> placeOf(int index) const;
    // The point under this place of the chart.
    [[nodiscard]] std::optional<int> hitTest(const QPointF& place) const;

    // The point that hover or keyboard is on.
    [[nodiscard]] std::optional<int> current() const { return current_; }
    void setCurrent(std::optional<int> index);
    // Next (1) or previous (-1) visible point in the order of x; from none to the first or the last.
    void step(int direction);
    void attachKeys(QGraphicsView* view);

    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

    // How often the cloud was drawn afresh: a test of the cache, not of time.
    [[nodiscard]] int drawnTimes() const { return drawnTimes_; }

Q_SIGNALS:
    // -1 when no point is under the pointer; `place` is in the chart's coordinates.
    void hovered(int index, const QPointF& place);
    void clicked(int index, Qt::KeyboardModifiers modifiers);
    void marked(const QList<int>& indices, Qt::KeyboardModifiers modifiers);

protected:
    void frameChanged() override;
    double overhang() const override;
    void hoverMoveEvent(QGraphicsSceneHoverEvent* event) override;
    void hoverLeaveEvent(QGraphicsSceneHoverEvent* event) override;
    void mousePressEvent(QGraphicsSceneMouseEvent* event) override;
    void mouseMoveEvent(QGraphicsSceneMouseEvent* event) override;
    void mouseReleaseEvent(QGraphicsSceneMouseEvent* event) override;

private:
    [[nodiscard]] QRgb colourOf(std::size_t index) const;
    [[nodiscard]] PointShape shapeOf(std::size_t index) const;
    [[nodiscard]] const std::vector<QPointF>& places() const;
    [[nodiscard]] const PointGrid& grid() const;
    [[nodiscard]] const std::vector<int>& order() const;
    [[nodiscard]] QColor halo() const;
    void forgetPlaces();
    void forgetPicture();
    void paintVector(QPainter& painter) const;
    // Keeps the picture for the next time when it is for the screen.
    void paintPicture(QPainter& painter, bool keep);
    void paintOverlay(QPainter& painter) const;
    // The cloud in device pixels; `toDevice` may only move and scale.
    [[nodiscard]] QImage drawn(const QTransform& toDevice, const QRect& deviceRect) const;

    PointCloud cloud_;
    std::vector<bool> mask_;
    QList<int> selected_;
    Theme theme_;
    double size_ = 7.0;
    bool rubberBandEnabled_ = false;
    std::optional<QPointF> bandStart_;
    QRectF band_;
    std::optional<int> pressed_;
    std::optional<int> current_;

    mutable std::vector<QPointF> places_; // NaN: not drawn
    mutable PlotFrame placesFrame_;
    mutable PointGrid grid_;
    mutable std::vector<int> order_;
    mutable bool placesKnown_ = false;
    mutable bool gridKnown_ = false;
    mutable bool orderKnown_ = false;
    mutable int drawable_ = 0;

    QImage picture_;
    QTransform pictureTransform_;
    PlotFrame pictureFrame_;
    bool pictureKnown_ = false;
    int drawnTimes_ = 0;
};

} // namespace washfast::ui
