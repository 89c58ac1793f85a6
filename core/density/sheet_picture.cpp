#include "core/density/sheet_picture.h"

#include <algorithm>
#include <cmath>

namespace washfast::density {

QImage SheetPicture::picture(double low, double high) const
{
    QImage image(width, height, QImage::Format_Grayscale8);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x)
            image.scanLine(y)[x] = uchar(std::clamp(int(std::lround(255 * (high - at(x, y)) / (high - low))), 0, 255));
    return image;
}

double SheetPicture::mean() const
{
    double sum = 0;
    for (const double value : values)
        sum += value;
    return values.empty() ? 0 : sum / double(values.size());
}

SheetPicture SheetPicture::part(int left, int top, int w, int h) const
{
    SheetPicture out;
    const int x0 = std::clamp(left, 0, width), y0 = std::clamp(top, 0, height);
    out.width = std::clamp(left + w, x0, width) - x0;
    out.height = std::clamp(top + h, y0, height) - y0;
    out.mm_per_pixel = mm_per_pixel;
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x)
            out.values.push_back(at(x0 + x, y0 + y));
    return out;
}

SheetPicture SheetPicture::withoutSlow(double reach_mm) const
{
    const int reach = std::max(1, int(std::lround(reach_mm / mm_per_pixel)));
    // Sums over all above and left, so that a mean over a square costs four look-ups.
    const size_t stride = size_t(width) + 1;
    std::vector<double> sums(stride * (size_t(height) + 1));
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const size_t i = size_t(y + 1) * stride + size_t(x + 1);
            sums[i] = at(x, y) + sums[i - 1] + sums[i - stride] - sums[i - stride - 1];
        }
    SheetPicture out = *this;
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            // As far to one side as to the other, so that a slope leaves nothing behind at the edges.
            const int rx = std::min({ reach, x, width - 1 - x }), ry = std::min({ reach, y, height - 1 - y });
            const size_t left = size_t(x - rx), right = size_t(x + rx + 1);
            const size_t top = size_t(y - ry) * stride, bottom = size_t(y + ry + 1) * stride;
            const double sum = sums[bottom + right] - sums[top + right] - sums[bottom + left] + sums[top + left];
            out.at(x, y) -= sum / double((2 * rx + 1) * (2 * ry + 1));
        }
    return out;
}

SheetPicture straighten(const Photo& photo, const Perspective& perspective, double width_mm, double height_mm,
    PictureChannel channel, const ChosenResponse* response, int longest)
{
    SheetPicture out;
    out.mm_per_pixel = std::max(width_mm, height_mm) / longest;
    out.width = std::max(1, int(std::lround(width_mm / out.mm_per_pixel)));
    out.height = std::max(1, int(std::lround(height_mm / out.mm_per_pixel)));
    out.values.assign(size_t(out.width) * size_t(out.height), 0);
    const bool linear = response && response->encoding == Encoding::Linear;
    const auto& weights = photo.to_xyz_d50[1];
    constexpr int fine = 3; // looks a side of each pixel
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x) {
            Triple light {};
            int looks = 0;
            for (int i = 0; i < fine * fine; ++i) {
                const Point own { (x + (i % fine + 0.5) / fine) / out.width,
                    (y + (i / fine + 0.5) / fine) / out.height };
                const auto place = perspective.toPhoto(own);
                if (!place || place->x < 0 || place->y < 0 || place->x >= photo.width() || place->y >= photo.height())
                    continue;
                const auto codes = photo.codes(int(place->x), int(place->y));
                for (size_t k = 0; k < 3; ++k)
                    light[k] += linear ? double(codes[k]) / photo.largestCode() : photo.linear[k][size_t(codes[k])];
                ++looks;
            }
            double value = 0;
            for (size_t k = 0; k < 3; ++k) {
                double one = looks ? light[k] / looks : 0;
                if (response)
                    one = response->response.channels[k].reflectance(one);
                const double share = channel == PictureChannel::Luminance ? weights[k]
                    : size_t(channel) == k                                ? 1.0
                                                                          : 0.0;
                value += share * one;
            }
            out.at(x, y) = -std::log10(std::max(value, 1e-4));
        }
    return out;
}

} // namespace washfast::density
