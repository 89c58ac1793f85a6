// The five signs for points in plots. A group always has a shape as well as a colour; the cross means failed.
#pragma once

#include <QColor>
#include <QPointF>
#include <cstdint>

class QPainter;

namespace washfast::ui {

enum class PointShape : std::uint8_t { Circle, Square, Triangle, Diamond, Cross };

// Shapes for groups, in the order of Theme::categories; the cross is kept for failures.
[[nodiscard]] PointShape groupShape(int group);

// Paints one sign centred on `centre`. `size` is the diameter of the circle; the others are drawn to the same area.
// An invalid `outline` leaves it out. For legends, too.
void paintGlyph(QPainter& painter, const QPointF& centre, double size, PointShape shape, const QColor& fill,
    const QColor& outline = {});

// How far a sign of this size can reach from its centre.
[[nodiscard]] double glyphReach(double size);

} // namespace washfast::ui
