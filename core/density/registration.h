// Laying one straightened picture of a sheet onto another: what is left of shift, turn, scale and slant after both were
// straightened by hand-marked corners.
//
//     if (const auto placed = registerPictures(before, after))
//         const auto same_place = placed->resampled(after, before);
//
// The best of a coarse grid of shifts and turns, then least squares on the grey values from coarse to fine
// (Gauss-Newton; brightness and contrast are fitted along), in which pixels that do not fit weigh less or nothing, so
// that a place where blue was lost does not pull the picture its way. Slow changes of the lighting are taken off first.
#pragma once

#include "core/density/sheet_picture.h"

namespace washfast::density {

/// From a pixel of the first picture to a pixel of the second (the middle of the first pixel is 0.5, 0.5).
struct Registration {
    std::array<double, 9> map { 1, 0, 0, 0, 1, 0, 0, 0, 1 }; // rows of a projective map, in pixels
    double alike = 0; // correlation of the details where both lie over one another, -1 to 1

    [[nodiscard]] Point toSecond(Point first) const;
    /// The second picture as seen from the first. Where it has no pixel: NaN.
    [[nodiscard]] SheetPicture resampled(const SheetPicture& second, const SheetPicture& first) const;
    /// A shift in pixels.
    [[nodiscard]] static Registration shifted(double dx, double dy);
};

/// Below this the details do not show the same thing (common practice, no source).
inline constexpr double leastAlike = 0.3;

/// Up to an eighth of the sheet and 5 degrees apart. Nothing when the details of the two are not alike (blank sheets,
/// different prints), or when it was cancelled. Both must have the same millimetres in a pixel.
[[nodiscard]] std::optional<Registration> registerPictures(
    const SheetPicture& first, const SheetPicture& second, const Watch& watch = {});

/// Value between the pixels (Catmull-Rom cubic); nothing outside.
[[nodiscard]] std::optional<double> between(const SheetPicture& picture, Point at);

} // namespace washfast::density
