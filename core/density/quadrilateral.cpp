#include "core/density/quadrilateral.h"

#include <Eigen/LU>
#include <cmath>

namespace washfast::density {

namespace {

double turn(Point a, Point b, Point c)
{
    return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
}

std::optional<Point> mapped(const std::array<double, 9>& h, Point p)
{
    const double w = h[6] * p.x + h[7] * p.y + h[8];
    if (!(w > 1e-9))
        return {};
    return Point { (h[0] * p.x + h[1] * p.y + h[2]) / w, (h[3] * p.x + h[4] * p.y + h[5]) / w };
}

} // namespace

bool isConvex(const Corners& corners)
{
    double area = 0;
    for (const auto& corner : corners)
        if (!std::isfinite(corner.x) || !std::isfinite(corner.y))
            return false;
    const double first = turn(corners[0], corners[1], corners[2]);
    for (std::size_t i = 0; i < 4; ++i) {
        const double here = turn(corners[i], corners[(i + 1) % 4], corners[(i + 2) % 4]);
        if (here * first <= 0)
            return false;
        area += corners[i].x * corners[(i + 1) % 4].y - corners[(i + 1) % 4].x * corners[i].y;
    }
    return std::abs(area) > 1e-12;
}

Corners rectangle(double x, double y, double width, double height)
{
    return { Point { x, y }, Point { x + width, y }, Point { x + width, y + height }, Point { x, y + height } };
}

Point middle(const Corners& corners)
{
    Point sum;
    for (const auto& corner : corners)
        sum = { sum.x + corner.x / 4, sum.y + corner.y / 4 };
    return sum;
}

std::optional<Perspective> Perspective::ontoCorners(const Corners& corners)
{
    if (!isConvex(corners))
        return {};
    // In units of the size of the thing, so that the system is well scaled.
    const Point centre = middle(corners);
    double size = 0;
    for (const auto& corner : corners)
        size = std::max(size, std::hypot(corner.x - centre.x, corner.y - centre.y));
    const Corners own = rectangle(0, 0, 1, 1);
    Eigen::Matrix<double, 8, 8> system;
    Eigen::Matrix<double, 8, 1> right;
    for (int i = 0; i < 4; ++i) {
        const auto& p = own[std::size_t(i)];
        const double x = (corners[std::size_t(i)].x - centre.x) / size;
        const double y = (corners[std::size_t(i)].y - centre.y) / size;
        system.row(2 * i) << p.x, p.y, 1, 0, 0, 0, -p.x * x, -p.y * x;
        system.row(2 * i + 1) << 0, 0, 0, p.x, p.y, 1, -p.x * y, -p.y * y;
        right[2 * i] = x;
        right[2 * i + 1] = y;
    }
    const Eigen::Matrix<double, 8, 1> h = system.fullPivLu().solve(right);
    Eigen::Matrix3d forward;
    forward << h[0], h[1], h[2], h[3], h[4], h[5], h[6], h[7], 1;
    Eigen::Matrix3d place;
    place << size, 0, centre.x, 0, size, centre.y, 0, 0, 1;
    forward = place * forward;
    Eigen::Matrix3d back = forward.inverse();
    if (!forward.allFinite() || !back.allFinite())
        return {};
    // The sign that makes the middle of the thing lie before the horizon.
    const Eigen::Vector3d seen = back * Eigen::Vector3d(centre.x, centre.y, 1);
    if (seen[2] < 0)
        back = -back;
    back /= std::abs(seen[2]);
    Perspective perspective;
    for (int i = 0; i < 9; ++i) {
        perspective.forward_[std::size_t(i)] = forward(i / 3, i % 3);
        perspective.back_[std::size_t(i)] = back(i / 3, i % 3);
    }
    return perspective;
}

std::optional<Point> Perspective::toPhoto(Point own) const
{
    return mapped(forward_, own);
}

std::optional<Point> Perspective::toOwn(Point photo) const
{
    return mapped(back_, photo);
}

std::optional<Corners> Perspective::toPhoto(const Corners& own) const
{
    Corners out {};
    for (std::size_t i = 0; i < 4; ++i) {
        const auto point = toPhoto(own[i]);
        if (!point)
            return {};
        out[i] = *point;
    }
    return out;
}

} // namespace washfast::density
