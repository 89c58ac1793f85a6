// Colour arithmetic against published values; tests/reference/data/colour/SOURCES.md says where each comes from.
#include "core/density/colour.h"

#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <lcms2.h>
#include <sstream>

namespace WASHFAST_FILE {

using namespace washfast::density;

namespace {

std::vector<std::vector<std::string>> rowsOf(const char* name)
{
    std::ifstream file(std::string(WASHFAST_REFERENCE "/colour/") + name);
    EXPECT_TRUE(file.is_open()) << name;
    std::vector<std::vector<std::string>> rows;
    for (std::string line; std::getline(file, line);) {
        std::istringstream cells(line);
        auto& row = rows.emplace_back();
        for (std::string cell; std::getline(cells, cell, ',');)
            row.push_back(cell);
    }
    return rows;
}

} // namespace

// Sharma, Wu, Dalal, Color Res. Appl. 30 (2005) 21, table 1: 34 pairs, four decimals.
TEST(PublishedColour, Ciede2000)
{
    const auto rows = rowsOf("ciede2000_sharma_34pairs.csv");
    ASSERT_EQ(rows.size(), 35u);
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const auto v = [&](std::size_t k) { return std::stod(rows[i][k]); };
        const Lab first { v(1), v(2), v(3) }, second { v(4), v(5), v(6) };
        EXPECT_NEAR(ciede2000(first, second), v(7), 5.1e-5) << "pair " << rows[i][0];
        EXPECT_NEAR(ciede2000(second, first), v(7), 5.1e-5) << "pair " << rows[i][0] << " turned round";
    }
}

// XYZ and Lab of sRGB colours under D65, as scikit-image tests them (three decimals; CIE 15:2004 formulas).
TEST(PublishedColour, XyzToLab)
{
    const auto rows = rowsOf("xyz_lab_d65_pairs.csv");
    ASSERT_GE(rows.size(), 5u);
    for (std::size_t i = 1; i < rows.size(); ++i) {
        const auto v = [&](std::size_t k) { return std::stod(rows[i][k]); };
        const Lab lab = xyzToLab({ v(1), v(2), v(3) }, whiteD65);
        // XYZ is given to four digits, which is worth up to 0.03 in a* and b*.
        EXPECT_NEAR(lab.l, v(4), 0.01) << rows[i][0];
        EXPECT_NEAR(lab.a, v(5), 0.03) << rows[i][0];
        EXPECT_NEAR(lab.b, v(6), 0.03) << rows[i][0];
        const Triple back = labToXyz(lab, whiteD65);
        for (std::size_t k = 0; k < 3; ++k)
            EXPECT_NEAR(back[k], v(1 + k), 1e-12);
    }
}

// IEC 61966-2-1: the matrix is printed there with four digits.
TEST(PublishedColour, SrgbMatrix)
{
    const Matrix3 printed { { { 0.4124, 0.3576, 0.1805 }, { 0.2126, 0.7152, 0.0722 }, { 0.0193, 0.1192, 0.9505 } } };
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t k = 0; k < 3; ++k)
            EXPECT_NEAR(srgbToXyzD65()[i][k], printed[i][k], 1e-4);
    const Triple white = multiply(srgbToXyzD50(), Triple { 1, 1, 1 });
    for (std::size_t k = 0; k < 3; ++k)
        EXPECT_NEAR(white[k], whiteD50[k], 1e-9);
}

// The same worked values as in SCIENCE 3.2, from the formulas of IEC 61966-2-1.
TEST(PublishedColour, SrgbCurve)
{
    EXPECT_NEAR(srgbToLinear(60 / 255.0), 0.04519, 5e-6);
    EXPECT_NEAR(srgbToLinear(240 / 255.0), 0.87137, 5e-6);
    EXPECT_NEAR(srgbToLinear(128 / 255.0), 0.21586, 5e-6);
    EXPECT_NEAR(srgbToLinear(188 / 255.0), 0.50289, 5e-6);
    for (int code = 0; code < 256; ++code)
        EXPECT_NEAR(255 * linearToSrgb(srgbToLinear(code / 255.0)), code, 1e-2) << code;
}

// D. Pascale, RGB coordinates of the 24-patch chart (2006), table 2: 8-bit sRGB of the maker's Lab under D50.
TEST(PublishedColour, LabToSrgbOfTheChart)
{
    const auto lab = rowsOf("chart24_reference.csv"), srgb = rowsOf("chart24_srgb_pascale2006.csv");
    const auto column = [](const std::vector<std::string>& heads, const char* name) {
        return std::size_t(std::find(heads.begin(), heads.end(), name) - heads.begin());
    };
    const std::size_t l = column(lab[0], "L_before2014_D50");
    ASSERT_LT(l + 2, lab[0].size());
    int compared = 0;
    for (std::size_t i = 1; i < lab.size() && i < srgb.size(); ++i) {
        const auto code = labD50ToSrgb8({ std::stod(lab[i][l]), std::stod(lab[i][l + 1]), std::stod(lab[i][l + 2]) });
        const std::size_t r = srgb[i].size() - 3;
        for (std::size_t k = 0; k < 3; ++k, ++compared)
            EXPECT_NEAR(code[k], std::stoi(srgb[i][r + k]), 2) << lab[i][1];
    }
    EXPECT_EQ(compared, 72);
}

// LittleCMS as an independent judge: sRGB to Lab (D50) of a grid of colours.
TEST(PublishedColour, LabAgreesWithAColourLibrary)
{
    cmsHPROFILE srgb = cmsCreate_sRGBProfile(), lab = cmsCreateLab4Profile(nullptr);
    cmsHTRANSFORM transform
        = cmsCreateTransform(srgb, TYPE_RGB_DBL, lab, TYPE_Lab_DBL, INTENT_RELATIVE_COLORIMETRIC, cmsFLAGS_NOOPTIMIZE);
    ASSERT_TRUE(transform);
    for (int r = 0; r <= 255; r += 51)
        for (int g = 0; g <= 255; g += 51)
            for (int b = 0; b <= 255; b += 51) {
                const double in[3] { r / 255.0, g / 255.0, b / 255.0 };
                cmsCIELab judged;
                cmsDoTransform(transform, in, &judged, 1);
                const Triple linear { srgbToLinear(in[0]), srgbToLinear(in[1]), srgbToLinear(in[2]) };
                const Lab ours = xyzToLab(multiply(srgbToXyzD50(), linear), whiteD50);
                EXPECT_LT(ciede2000(ours, { judged.L, judged.a, judged.b }), 0.1) << r << ' ' << g << ' ' << b;
            }
    cmsDeleteTransform(transform);
    cmsCloseProfile(srgb);
    cmsCloseProfile(lab);
}

} // namespace WASHFAST_FILE
