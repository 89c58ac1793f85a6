#include "ui/common/point_layer.h"

#include <QEvent>
#include <QGraphicsSceneHoverEvent>
#include <QGraphicsSceneMouseEvent>
#include <QGraphicsView>
#include <QKeyEvent>
#include <QPainter>
#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace washfast::ui {

namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();
// How near the pointer must come to the edge of a sign.
constexpr double reachAround = 4.0;

} // namespace

PointLayer::PointLayer(QChart* chart, const Theme& theme)
    : PlotItem(chart)
    , theme_(theme)
{
    setAcceptHoverEvents(true);
    setAcceptedMouseButtons(Qt::LeftButton);
}

QRgb PointLayer::colourOf(std::size_t index) const
{
    return index < cloud_.colours.size() ? cloud_.colours[index] : theme_.blue.rgb();
}

PointShape PointLayer::shapeOf(std::size_t index) const
{
    return index < cloud_.shapes.size() ? cloud_.shapes[index] : PointShape::Circle;
}

void PointLayer::setPoints(PointCloud cloud)
{
    cloud_ = std::move(cloud);
    mask_.clear();
    selected_.clear();
    pressed_.reset();
    current_.reset();
    forgetPlaces();
}

void PointLayer::setVisibleMask(std::vector<bool> mask)
{
    mask_ = std::move(mask);
    forgetPlaces();
    if (current_ && !placeOf(*current_))
        setCurrent(std::nullopt);
}

void PointLayer::setSelected(const QList<int>& indices)
{
    if (indices == selected_)
        return;
    selected_ = indices;
    forgetPicture();
}

void PointLayer::setPointSize(double size)
{
    if (size <= 0 || size == size_)
        return;
    aboutToResize();
    size_ = size;
    forgetPicture();
}

void PointLayer::setTheme(const Theme& theme)
{
    theme_ = theme;
    forgetPicture();
}

void PointLayer::frameChanged()
{
    forgetPlaces();
}

double PointLayer::overhang() const
{
    return glyphReach(size_ * 1.3) + reachAround + 2;
}

void PointLayer::forgetPlaces()
{
    placesKnown_ = gridKnown_ = orderKnown_ = false;
    forgetPicture();
}

void PointLayer::forgetPicture()
{
    pictureKnown_ = false;
    update();
}

const std::vector<QPointF>& PointLayer::places() const
{
    const PlotFrame plot = frame();
    if (placesKnown_ && plot == placesFrame_)
        return places_;
    placesFrame_ = plot;
    gridKnown_ = orderKnown_ = false;
    places_.assign(cloud_.positions.size(), QPointF(nothing, nothing));
    drawable_ = 0;
    if (plot.isValid()) {
        // A hair of slack, so that a point exactly on an axis is not lost to rounding.
        const QRectF area = plot.area.adjusted(-0.01, -0.01, 0.01, 0.01);
        for (std::size_t i = 0; i < places_.size(); ++i) {
            if (i < mask_.size() && !mask_[i])
                continue;
            const QPointF place = plot.toPlace(cloud_.positions[i]);
            if (place.x() >= area.left() && place.x() <= area.right() && place.y() >= area.top()
                && place.y() <= area.bottom()) {
                places_[i] = place;
                ++drawable_;
            }
        }
    }
    placesKnown_ = true;
    return places_;
}

const PointGrid& PointLayer::grid() const
{
    const auto& where = places();
    if (!gridKnown_) {
        grid_.build(where);
        gridKnown_ = true;
    }
    return grid_;
}

const std::vector<int>& PointLayer::order() const
{
    const auto& where = places();
    if (!orderKnown_) {
        order_.clear();
        for (std::size_t i = 0; i < where.size(); ++i)
            if (!std::isnan(where[i].x()))
                order_.push_back(static_cast<int>(i));
        std::stable_sort(order_.begin(), order_.end(), [&where](int a, int b) {
            const QPointF& one = where[static_cast<std::size_t>(a)];
            const QPointF& other = where[static_cast<std::size_t>(b)];
            return one.x() != other.x() ? one.x() < other.x() : one.y() > other.y();
        });
        orderKnown_ = true;
    }
    return order_;
}

std::optional<QPointF> PointLayer::placeOf(int index) const
{
    const auto& where = places();
    if (index < 0 || index >= static_cast<int>(where.size()))
        return std::nullopt;
    const QPointF place = where[static_cast<std::size_t>(index)];
    return std::isnan(place.x()) ? std::nullopt : std::optional(place);
}

std::optional<int> PointLayer::hitTest(const QPointF& place) const
{
    return grid().nearest(place, size_ / 2 + reachAround);
}

void PointLayer::setCurrent(std::optional<int> index)
{
    if (index && !placeOf(*index))
        index.reset();
    if (index == current_)
        return;
    current_ = index;
    update();
    Q_EMIT hovered(current_.value_or(-1), current_ ? placeOf(*current_).value_or(QPointF()) : QPointF());
}

void PointLayer::step(int direction)
{
    const auto& way = order();
    if (way.empty())
        return;
    const auto here = current_ ? std::find(way.begin(), way.end(), *current_) : way.end();
    if (here == way.end()) {
        setCurrent(direction > 0 ? way.front() : way.back());
        return;
    }
    const auto place
        = std::clamp<std::ptrdiff_t>((here - way.begin()) + direction, 0, static_cast<std::ptrdiff_t>(way.size()) - 1);
    setCurrent(way[static_cast<std::size_t>(place)]);
}

void PointLayer::attachKeys(QGraphicsView* view)
{
    view->installEventFilter(this);
    view->setFocusPolicy(Qt::StrongFocus);
}

bool PointLayer::eventFilter(QObject* watched, QEvent* event)
{
    if (event->type() != QEvent::KeyPress)
        return PlotItem::eventFilter(watched, event);
    const auto* key = static_cast<QKeyEvent*>(event);
    switch (key->key()) {
    case Qt::Key_Right:
        step(1);
        return true;
    case Qt::Key_Left:
        step(-1);
        return true;
    case Qt::Key_Home:
        setCurrent(order().empty() ? std::nullopt : std::optional(order().front()));
        return true;
    case Qt::Key_End:
        setCurrent(order().empty() ? std::nullopt : std::optional(order().back()));
        return true;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (!current_)
            return false;
        Q_EMIT clicked(*current_, key->modifiers());
        return true;
    case Qt::Key_Escape:
        if (!current_)
            return false;
        setCurrent(std::nullopt);
        return true;
    default:
        return false;
    }
}

void PointLayer::hoverMoveEvent(QGraphicsSceneHoverEvent* event)
{
    setCurrent(hitTest(event->pos()));
}

void PointLayer::hoverLeaveEvent(QGraphicsSceneHoverEvent*)
{
    setCurrent(std::nullopt);
}

void PointLayer::mousePressEvent(QGraphicsSceneMouseEvent* event)
{
    pressed_ = hitTest(event->pos());
    if (!pressed_ && !rubberBandEnabled_) {
        event->ignore();
        return;
    }
    if (!pressed_)
        bandStart_ = event->pos();
    event->accept();
}

void PointLayer::mouseMoveEvent(QGraphicsSceneMouseEvent* event)
{
    if (!bandStart_)
        return;
    band_ = QRectF(*bandStart_, event->pos()).normalized().intersected(frame().area);
    update();
}

void PointLayer::mouseReleaseEvent(QGraphicsSceneMouseEvent* event)
{
    if (bandStart_) {
        bandStart_.reset();
        const std::vector<int> inside = band_.isEmpty() ? std::vector<int>() : grid().within(band_);
        band_ = QRectF();
        update();
        Q_EMIT marked(QList<int>(inside.begin(), inside.end()), event->modifiers());
        return;
    }
    const auto index = std::exchange(pressed_, std::nullopt);
    if (index && hitTest(event->pos()) == index)
        Q_EMIT clicked(*index, event->modifiers());
}

} // namespace washfast::ui
