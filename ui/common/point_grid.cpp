#include "ui/common/point_grid.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::ui {

namespace {

bool isPlace(const QPointF& place)
{
    return std::isfinite(place.x()) && std::isfinite(place.y());
}

// A grid larger than this would cost more than it saves; its cells grow instead.
constexpr double mostCellsAside = 1024;

} // namespace

void PointGrid::build(const std::vector<QPointF>& places, double cell)
{
    places_ = places;
    double left = std::numeric_limits<double>::infinity(), top = left, right = -left, bottom = -left;
    for (const QPointF& place : places_) {
        if (!isPlace(place))
            continue;
        left = std::min(left, place.x());
        right = std::max(right, place.x());
        top = std::min(top, place.y());
        bottom = std::max(bottom, place.y());
    }
    if (left > right) {
        columns_ = rows_ = 0;
        start_.assign(1, 0);
        indices_.clear();
        return;
    }
    origin_ = QPointF(left, top);
    cell_ = std::max({ cell, (right - left) / mostCellsAside, (bottom - top) / mostCellsAside });
    columns_ = static_cast<int>((right - left) / cell_) + 1;
    rows_ = static_cast<int>((bottom - top) / cell_) + 1;

    // A counting sort: how many in each cell, where each begins, then the indices in their order.
    const auto cellOf = [this](const QPointF& place) {
        const int column = std::min(columns_ - 1, static_cast<int>((place.x() - origin_.x()) / cell_));
        const int row = std::min(rows_ - 1, static_cast<int>((place.y() - origin_.y()) / cell_));
        return static_cast<std::size_t>(row * columns_ + column);
    };
    start_.assign(static_cast<std::size_t>(columns_ * rows_) + 1, 0);
    for (const QPointF& place : places_)
        if (isPlace(place))
            ++start_[cellOf(place) + 1];
    for (std::size_t i = 1; i < start_.size(); ++i)
        start_[i] += start_[i - 1];
    indices_.resize(static_cast<std::size_t>(start_.back()));
    std::vector<int> next = start_;
    for (std::size_t i = 0; i < places_.size(); ++i)
        if (isPlace(places_[i]))
            indices_[static_cast<std::size_t>(next[cellOf(places_[i])]++)] = static_cast<int>(i);
}

PointGrid::Cells PointGrid::cellsOf(const QRectF& rectangle) const
{
    const auto index = [this](double distance, int count) {
        return static_cast<int>(std::clamp(std::floor(distance / cell_), 0.0, static_cast<double>(count - 1)));
    };
    return { index(rectangle.left() - origin_.x(), columns_), index(rectangle.top() - origin_.y(), rows_),
        index(rectangle.right() - origin_.x(), columns_), index(rectangle.bottom() - origin_.y(), rows_) };
}

template <typename Visit> void PointGrid::visit(const Cells& cells, Visit&& visitor) const
{
    for (int row = cells.top; row <= cells.bottom; ++row) {
        const auto first = static_cast<std::size_t>(row * columns_ + cells.left);
        const auto last = static_cast<std::size_t>(row * columns_ + cells.right);
        for (int i = start_[first]; i < start_[last + 1]; ++i)
            visitor(indices_[static_cast<std::size_t>(i)]);
    }
}

std::optional<int> PointGrid::nearest(const QPointF& place, double radius) const
{
    if (columns_ == 0 || !isPlace(place))
        return std::nullopt;
    std::optional<int> best;
    double bestSquare = radius * radius;
    visit(cellsOf(QRectF(place.x() - radius, place.y() - radius, 2 * radius, 2 * radius)), [&](int index) {
        const QPointF offset = places_[static_cast<std::size_t>(index)] - place;
        const double square = QPointF::dotProduct(offset, offset);
        if (square < bestSquare || (square == bestSquare && (!best || index > *best))) {
            best = index;
            bestSquare = square;
        }
    });
    return best;
}

std::vector<int> PointGrid::within(const QRectF& rectangle) const
{
    std::vector<int> found;
    const QRectF box = rectangle.normalized();
    if (columns_ == 0)
        return found;
    visit(cellsOf(box), [&](int index) {
        const QPointF& place = places_[static_cast<std::size_t>(index)];
        if (place.x() >= box.left() && place.x() <= box.right() && place.y() >= box.top() && place.y() <= box.bottom())
            found.push_back(index);
    });
    std::sort(found.begin(), found.end());
    return found;
}

} // namespace washfast::ui
