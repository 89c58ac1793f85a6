// Four corners of something flat seen at a slant, and the way between its own square (0..1, x right, y down) and the
// pixels of the photo. Pixel coordinates: the middle of the first pixel is (0.5, 0.5).
#pragma once

#include <array>
#include <optional>

namespace washfast::density {

struct Point {
    double x = 0, y = 0;
    bool operator==(const Point&) const = default;
};

/// In the order top left, top right, bottom right, bottom left of the thing itself.
using Corners = std::array<Point, 4>;

/// The four corners go round without crossing, every one bulging outward, and hold some area.
[[nodiscard]] bool isConvex(const Corners& corners);

[[nodiscard]] Corners rectangle(double x, double y, double width, double height);
[[nodiscard]] Point middle(const Corners& corners);

/// A projective map of the plane (homography), from four pairs of corners.
class Perspective {
public:
    /// Takes the square's corners (0,0) (1,0) (1,1) (0,1) to these; nothing when they do not span an area.
    [[nodiscard]] static std::optional<Perspective> ontoCorners(const Corners& corners);

    /// Nothing for a point on or behind the horizon.
    [[nodiscard]] std::optional<Point> toPhoto(Point own) const;
    [[nodiscard]] std::optional<Point> toOwn(Point photo) const;
    [[nodiscard]] std::optional<Corners> toPhoto(const Corners& own) const;

private:
    std::array<double, 9> forward_ {}, back_ {};
};

} // namespace washfast::density
