#include "app/demo/tone_colour.h"

#include <cmath>

namespace washfast::demo {

namespace {

double reflectance(double density)
{
    return std::pow(10.0, -density);
}

double labCurve(double t)
{
    // CIE 15: the cube root, and a straight line for dark colours.
    constexpr double edge = 216.0 / 24389.0;
    constexpr double slope = 24389.0 / 27.0;
    return t > edge ? std::cbrt(t) : (slope * t + 16.0) / 116.0;
}

} // namespace

Lab labOf(double red, double green, double blue)
{
    // Primaries of IEC 61966-2-1, adapted to D50 by Bradford's method (the rows add up to the white of ICC.1).
    const double x = 0.4360747 * red + 0.3850649 * green + 0.1430804 * blue;
    const double y = 0.2225045 * red + 0.7168786 * green + 0.0606169 * blue;
    const double z = 0.0139322 * red + 0.0971045 * green + 0.7141733 * blue;
    const double fx = labCurve(x / 0.96422);
    const double fy = labCurve(y);
    const double fz = labCurve(z / 0.82521);
    return { 116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz) };
}

Lab toneBeforeRinse(double paper_density, double formed, double coat)
{
    // How much the coat and the greyish blue take from green and blue against red: invented to look right.
    return labOf(reflectance(paper_density + coatRedDensity + formed),
        reflectance(paper_density + 0.05 * coat + 0.88 * formed),
        reflectance(paper_density + 0.03 + 0.60 * coat + 0.72 * formed));
}

Lab toneDayAfter(double paper_density, double net)
{
    return labOf(reflectance(paper_density + net), reflectance(paper_density + 0.74 * net),
        reflectance(paper_density + 0.03 + 0.42 * net));
}

} // namespace washfast::demo
