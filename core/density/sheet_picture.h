// A sheet seen straight on as a small picture of density, to look for signs in.
#pragma once

#include "core/density/measure.h"

#include <QImage>
#include <vector>

namespace washfast::density {

struct SheetPicture {
    int width = 0, height = 0;
    double mm_per_pixel = 1; // across and down alike
    std::vector<double> values; // rows from the top; density relative to the lightest part unless said otherwise

    [[nodiscard]] double at(int x, int y) const { return values[size_t(y) * size_t(width) + size_t(x)]; }
    double& at(int x, int y) { return values[size_t(y) * size_t(width) + size_t(x)]; }
    /// Grey picture: `low` is white, `high` black.
    [[nodiscard]] QImage picture(double low, double high) const;
    /// Without slow changes: the mean of a square of so many millimetres on each side is taken off.
    [[nodiscard]] SheetPicture withoutSlow(double reach_mm) const;
    [[nodiscard]] double mean() const;
    /// A part of it; pixels, cut at the edges.
    [[nodiscard]] SheetPicture part(int left, int top, int w, int h) const;
    /// Means of squares of so many pixels a side; what is left over at the right and below is left out.
    [[nodiscard]] SheetPicture coarser(int side) const;
};

enum class PictureChannel { Red, Green, Blue, Luminance };

/// Pixels a side when the longer side of the sheet has `longest`.
struct PictureSize {
    int width = 1, height = 1;
    double mm_per_pixel = 1;
};
[[nodiscard]] PictureSize pictureSize(double width_mm, double height_mm, int longest);

/// Straightens the marked sheet, whose sides are `width_mm` by `height_mm`, averaging the light of the photo pixels
/// that fall together. `response` brings it to density; without one it is the density of the light alone. A cancelled
/// one has no pixels.
[[nodiscard]] SheetPicture straighten(const Photo& photo, const Perspective& perspective, double width_mm,
    double height_mm, PictureChannel channel, const ChosenResponse* response = nullptr, int longest = 400,
    const Watch& watch = {});

/// The same sheet in CIE Lab under D50.
struct LabPicture {
    int width = 0, height = 0;
    double mm_per_pixel = 1;
    std::vector<Lab> values; // rows from the top

    [[nodiscard]] const Lab& at(int x, int y) const { return values[size_t(y) * size_t(width) + size_t(x)]; }
    [[nodiscard]] SheetPicture lightness() const; // (100 - L*) / 100: dark is high, as with densities
    [[nodiscard]] QImage picture() const; // in its colours, sRGB
};
/// Without a `response` light is taken as reflectance: the white of the photo is the perfect diffuser.
[[nodiscard]] LabPicture straightenColour(const Photo& photo, const Perspective& perspective, double width_mm,
    double height_mm, const ChosenResponse* response = nullptr, int longest = 400, const Watch& watch = {});

} // namespace washfast::density
