// The colour of a spot from its red density: yellow-green to grey before the rinse, Prussian blue a day after.
#pragma once

namespace washfast::demo {

/// CIE L*a*b* for D50 and 2 degrees.
struct Lab {
    double l = 0.0, a = 0.0, b = 0.0;
};

/// From linear red, green and blue of the standard RGB space, 0 to 1.
[[nodiscard]] Lab labOf(double red, double green, double blue);
/// The coat, and over it the blue that has formed, which looks grey. Densities are red; `coat` is 1 where no light has
/// been.
[[nodiscard]] Lab toneBeforeRinse(double paper_density, double formed, double coat);
[[nodiscard]] Lab toneDayAfter(double paper_density, double net);

/// Red density that the yellow coat itself has.
inline constexpr double coatRedDensity = 0.08;

} // namespace washfast::demo
