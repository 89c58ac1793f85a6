// A map in a chart: the plot area in cells, each coloured by the mean of the prints that fall into it, with their
// number. Cells with too few prints are hatched; cells with none stay empty.
#pragma once

#include "ui/common/plot_item.h"
#include "ui/common/theme.h"

#include <optional>
#include <vector>

class QGraphicsView;
class QPainter;

namespace washfast::ui {

// Cells row by row from the lowest y; edges ascend, so there are (xEdges - 1) * (yEdges - 1) cells.
struct MeanMap {
    std::vector<double> xEdges;
    std::vector<double> yEdges;
    std::vector<std::optional<double>> means; // nothing: no print fell in
    std::vector<int> counts;

    [[nodiscard]] int columns() const { return xEdges.empty() ? 0 : static_cast<int>(xEdges.size()) - 1; }
    [[nodiscard]] int rows() const { return yEdges.empty() ? 0 : static_cast<int>(yEdges.size()) - 1; }
    [[nodiscard]] std::size_t index(int column, int row) const
    {
        return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns()) + static_cast<std::size_t>(column);
    }
};

// Sorts values into cells. A cell takes its lower edge, the last one its upper edge too. What is outside the edges or
// not a number is left out. `positions` and `values` are equally long.
[[nodiscard]] MeanMap meanMap(const std::vector<QPointF>& positions, const std::vector<double>& values,
    std::vector<double> xEdges, std::vector<double> yEdges);

class HeatLayer : public PlotItem {
    Q_OBJECT

public:
    HeatLayer(QChart* chart, const Theme& theme);

    void setMap(MeanMap map);
    [[nodiscard]] const MeanMap& map() const { return map_; }
    // Values at the ends of the colours; until it is called: lowest and highest mean.
    void setRange(double low, double high);
    [[nodiscard]] double low() const { return low_; }
    [[nodiscard]] double high() const { return high_; }
    // Fewer prints than this and the cell is hatched.
    void setEnough(int prints);
    void setTheme(const Theme& theme);

    // The colour of a mean, as the legend shows it.
    [[nodiscard]] QColor colourFor(double mean) const;
    // Index into the map of the cell at a place of the chart; nothing between or outside the cells.
    [[nodiscard]] std::optional<std::size_t> cellAt(const QPointF& place) const;

    // The cell that hover or keyboard is on; -1: none.
    [[nodiscard]] int current() const { return current_; }
    void setCurrent(int cell);
    // The next cell with prints in a direction (columns to the right, rows upwards); from none to the first.
    void step(int columns, int rows);
    // Arrow keys walk through the cells, Enter picks one, Escape leaves.
    void attachKeys(QGraphicsView* view);

    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;
    bool eventFilter(QObject* watched, QEvent* event) override;

Q_SIGNALS:
    // -1 when neither pointer nor keyboard is on a cell; `place` is the middle of the cell in the chart.
    void hovered(int cell, const QPointF& place);
    void clicked(int cell);

protected:
    void hoverMoveEvent(QGraphicsSceneHoverEvent* event) override;
    void hoverLeaveEvent(QGraphicsSceneHoverEvent* event) override;
    void mousePressEvent(QGraphicsSceneMouseEvent* event) override;

private:
    // The cell in the chart, cut at the axes.
    [[nodiscard]] QRectF cellRect(const PlotFrame& plot, int column, int row) const;
    void paintCell(QPainter& painter, const QRectF& cell, double mean, int count) const;

    MeanMap map_;
    Theme theme_;
    double low_ = 0;
    double high_ = 1;
    int enough_ = 3;
    int current_ = -1;
};

// A strip of the ramp with the values at its ends and what it stands for above: the legend of a map or of points.
void paintRampLegend(QPainter& painter, const QRectF& area, const std::array<QColor, 6>& stops, const QString& label,
    const QString& low, const QString& high, const Theme& theme);

} // namespace washfast::ui
