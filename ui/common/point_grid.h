// Finds the point under the pointer: places sorted into square cells, so that a look-up touches nine of them.
#pragma once

#include <QPointF>
#include <QRectF>
#include <optional>
#include <vector>

namespace washfast::ui {

class PointGrid {
public:
    // Places with a NaN are left out. `cell` is the side of a cell, in the unit of the places (logical pixels).
    void build(const std::vector<QPointF>& places, double cell = 8.0);

    // Index of the nearest place within `radius`; of two equally near ones the later, which is painted on top.
    [[nodiscard]] std::optional<int> nearest(const QPointF& place, double radius) const;
    // Indices of all places in the rectangle, ascending.
    [[nodiscard]] std::vector<int> within(const QRectF& rectangle) const;

private:
    struct Cells {
        int left, top, right, bottom;
    };
    [[nodiscard]] Cells cellsOf(const QRectF& rectangle) const;
    template <typename Visit> void visit(const Cells& cells, Visit&& visitor) const;

    QPointF origin_;
    double cell_ = 8.0;
    int columns_ = 0;
    int rows_ = 0;
    std::vector<QPointF> places_;
    std::vector<int> start_; // columns * rows + 1: where each cell's indices begin
    std::vector<int> indices_;
};

} // namespace washfast::ui
