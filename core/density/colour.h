// Colour arithmetic of the readings.
//
//   sRGB      IEC 61966-2-1:1999: the exact curve and the matrix to XYZ (D65)
//   XYZ, Lab  CIE 15:2004; D50 as in the profile connection space of ICC.1:2010, D65 of IEC 61966-2-1
//   adapted   Bradford matrix of ICC.1:2010 annex E
//   CIEDE2000 Sharma, Wu, Dalal, Color Res. Appl. 30 (2005) 21
//
// XYZ has Y = 1 for the perfect reflecting diffuser.
#pragma once

#include <array>
#include <optional>

namespace washfast::density {

using Triple = std::array<double, 3>;
using Matrix3 = std::array<Triple, 3>; // rows

struct Lab {
    double l = 0, a = 0, b = 0;
    bool operator==(const Lab&) const = default;
};

inline constexpr Triple whiteD50 { 0.9642, 1.0, 0.8249 }; // ICC.1:2010, 7.2.16
inline constexpr Triple whiteD65 { 0.95047, 1.0, 1.08883 }; // x 0.3127, y 0.3290 of IEC 61966-2-1

/// From a code as a share of the largest (0 to 1) to linear light, and back.
[[nodiscard]] double srgbToLinear(double code);
[[nodiscard]] double linearToSrgb(double linear);

[[nodiscard]] Triple multiply(const Matrix3& matrix, const Triple& value);
[[nodiscard]] Matrix3 multiply(const Matrix3& left, const Matrix3& right);
/// Nothing when it has no inverse.
[[nodiscard]] std::optional<Matrix3> inverse(const Matrix3& matrix);

/// Linear sRGB to XYZ under D65.
[[nodiscard]] const Matrix3& srgbToXyzD65();
/// The same, adapted to D50.
[[nodiscard]] const Matrix3& srgbToXyzD50();
/// From one white to another.
[[nodiscard]] Matrix3 bradford(const Triple& from, const Triple& to);

[[nodiscard]] Lab xyzToLab(const Triple& xyz, const Triple& white);
[[nodiscard]] Triple labToXyz(const Lab& lab, const Triple& white);

/// Difference of two colours; about 1 is just seen side by side. Weights kL = kC = kH = 1.
[[nodiscard]] double ciede2000(const Lab& first, const Lab& second);

/// 8-bit sRGB code of a Lab colour under D50, for showing it; colours out of reach are cut.
[[nodiscard]] std::array<int, 3> labD50ToSrgb8(const Lab& lab);

} // namespace washfast::density
