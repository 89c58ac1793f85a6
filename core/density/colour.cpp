#include "core/density/colour.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace washfast::density {

namespace {

constexpr double labEdge = 216.0 / 24389.0; // (6/29)^3
constexpr double labSlope = 24389.0 / 27.0; // (29/3)^3
constexpr double degree = std::numbers::pi / 180.0;

double hue(double a, double b)
{
    if (a == 0 && b == 0)
        return 0;
    const double angle = std::atan2(b, a) / degree;
    return angle < 0 ? angle + 360 : angle;
}

} // namespace

double srgbToLinear(double code)
{
    return code <= 0.04045 ? code / 12.92 : std::pow((code + 0.055) / 1.055, 2.4);
}

double linearToSrgb(double linear)
{
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
}

Triple multiply(const Matrix3& matrix, const Triple& value)
{
    Triple out {};
    for (std::size_t i = 0; i < 3; ++i)
        out[i] = matrix[i][0] * value[0] + matrix[i][1] * value[1] + matrix[i][2] * value[2];
    return out;
}

Matrix3 multiply(const Matrix3& left, const Matrix3& right)
{
    Matrix3 out {};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j)
            for (std::size_t k = 0; k < 3; ++k)
                out[i][j] += left[i][k] * right[k][j];
    return out;
}

std::optional<Matrix3> inverse(const Matrix3& m)
{
    const auto minor = [&](std::size_t i, std::size_t j) {
        const std::size_t a = (i + 1) % 3, b = (i + 2) % 3, c = (j + 1) % 3, d = (j + 2) % 3;
        return m[a][c] * m[b][d] - m[a][d] * m[b][c];
    };
    const double determinant = m[0][0] * minor(0, 0) + m[0][1] * minor(0, 1) + m[0][2] * minor(0, 2);
    if (!(std::abs(determinant) > 1e-300))
        return {};
    Matrix3 out {};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j)
            out[i][j] = minor(j, i) / determinant;
    return out;
}

const Matrix3& srgbToXyzD65()
{
    static const Matrix3 matrix = [] {
        // Primaries of IEC 61966-2-1 as x, y; scaled so that equal amounts give the white of D65.
        constexpr double xy[3][2] = { { 0.64, 0.33 }, { 0.30, 0.60 }, { 0.15, 0.06 } };
        Matrix3 primaries {};
        for (std::size_t k = 0; k < 3; ++k) {
            primaries[0][k] = xy[k][0] / xy[k][1];
            primaries[1][k] = 1;
            primaries[2][k] = (1 - xy[k][0] - xy[k][1]) / xy[k][1];
        }
        constexpr double x = 0.3127, y = 0.3290;
        const Triple amounts = multiply(*inverse(primaries), Triple { x / y, 1, (1 - x - y) / y });
        for (auto& row : primaries)
            for (std::size_t k = 0; k < 3; ++k)
                row[k] *= amounts[k];
        return primaries;
    }();
    return matrix;
}

const Matrix3& srgbToXyzD50()
{
    static const Matrix3 matrix = [] {
        const Triple white = multiply(srgbToXyzD65(), Triple { 1, 1, 1 });
        return multiply(bradford(white, whiteD50), srgbToXyzD65());
    }();
    return matrix;
}

Matrix3 bradford(const Triple& from, const Triple& to)
{
    constexpr Matrix3 cone { { { 0.8951, 0.2664, -0.1614 }, { -0.7502, 1.7135, 0.0367 },
        { 0.0389, -0.0685, 1.0296 } } };
    const Triple source = multiply(cone, from), target = multiply(cone, to);
    Matrix3 gain {};
    for (std::size_t i = 0; i < 3; ++i)
        gain[i][i] = target[i] / source[i];
    return multiply(*inverse(cone), multiply(gain, cone));
}

Lab xyzToLab(const Triple& xyz, const Triple& white)
{
    Triple f {};
    for (std::size_t i = 0; i < 3; ++i) {
        const double t = xyz[i] / white[i];
        f[i] = t > labEdge ? std::cbrt(t) : (labSlope * t + 16) / 116;
    }
    return { 116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2]) };
}

Triple labToXyz(const Lab& lab, const Triple& white)
{
    const double fy = (lab.l + 16) / 116;
    const Triple f { fy + lab.a / 500, fy, fy - lab.b / 200 };
    Triple xyz {};
    for (std::size_t i = 0; i < 3; ++i) {
        const double cube = f[i] * f[i] * f[i];
        xyz[i] = white[i] * (cube > labEdge ? cube : (116 * f[i] - 16) / labSlope);
    }
    return xyz;
}

double ciede2000(const Lab& first, const Lab& second)
{
    const auto seventh = [](double c) {
        const double c7 = std::pow(c, 7);
        return std::sqrt(c7 / (c7 + 6103515625.0)); // 25^7
    };
    const double mean_chroma = (std::hypot(first.a, first.b) + std::hypot(second.a, second.b)) / 2;
    const double g = 0.5 * (1 - seventh(mean_chroma));
    const double a1 = (1 + g) * first.a, a2 = (1 + g) * second.a;
    const double c1 = std::hypot(a1, first.b), c2 = std::hypot(a2, second.b);
    const double h1 = hue(a1, first.b), h2 = hue(a2, second.b);

    const bool grey = c1 * c2 == 0;
    // Opposite hues are the same distance both ways round; rounding must not choose between them.
    constexpr double opposite = 180 + 1e-9;
    double turn = grey ? 0 : h2 - h1;
    double mean_hue = grey ? h1 + h2 : (h1 + h2) / 2;
    if (!grey && std::abs(h2 - h1) > opposite) {
        turn += turn > 0 ? -360 : 360;
        mean_hue += h1 + h2 < 360 ? 180 : -180;
    }
    const double dl = second.l - first.l, dc = c2 - c1;
    const double dh = 2 * std::sqrt(c1 * c2) * std::sin(turn / 2 * degree);

    const double l50 = (first.l + second.l) / 2 - 50;
    const double chroma = (c1 + c2) / 2;
    const double t = 1 - 0.17 * std::cos((mean_hue - 30) * degree) + 0.24 * std::cos(2 * mean_hue * degree)
        + 0.32 * std::cos((3 * mean_hue + 6) * degree) - 0.20 * std::cos((4 * mean_hue - 63) * degree);
    const double sl = 1 + 0.015 * l50 * l50 / std::sqrt(20 + l50 * l50);
    const double sc = 1 + 0.045 * chroma, sh = 1 + 0.015 * chroma * t;
    const double bend = (mean_hue - 275) / 25;
    const double rt = -2 * seventh(chroma) * std::sin(60 * std::exp(-bend * bend) * degree);
    const double x = dl / sl, y = dc / sc, z = dh / sh;
    return std::sqrt(std::max(0.0, x * x + y * y + z * z + rt * y * z));
}

std::array<int, 3> labD50ToSrgb8(const Lab& lab)
{
    static const Matrix3 from_xyz = *inverse(srgbToXyzD50());
    const Triple linear = multiply(from_xyz, labToXyz(lab, whiteD50));
    std::array<int, 3> code {};
    for (std::size_t i = 0; i < 3; ++i)
        code[i] = int(std::lround(255 * std::clamp(linearToSrgb(std::max(0.0, linear[i])), 0.0, 1.0)));
    return code;
}

} // namespace washfast::density
