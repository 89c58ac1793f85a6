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

SheetPicture SheetPicture::coarser(int side) const
{
    SheetPicture out;
    out.width = width / side;
    out.height = height / side;
    out.mm_per_pixel = mm_per_pixel * side;
    out.values.reserve(size_t(out.width) * size_t(out.height));
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x) {
            double sum = 0;
            for (int i = 0; i < side * side; ++i)
                sum += at(x * side + i % side, y * side + i / side);
            out.values.push_back(sum / (side * side));
        }
    return out;
}

PictureSize pictureSize(double width_mm, double height_mm, int longest)
{
    PictureSize size;
    size.mm_per_pixel = std::max(width_mm, height_mm) / longest;
    size.width = std::max(1, int(std::lround(width_mm / size.mm_per_pixel)));
    size.height = std::max(1, int(std::lround(height_mm / size.mm_per_pixel)));
    return size;
}

namespace {

constexpr int leastFine = 3, mostFine = 6; // looks a side of each pixel
constexpr double darkest = 1e-4; // reflectance

/// Gives the mean reflectance (or light) of each pixel to `take`; false when cancelled.
template <typename Take>
bool eachPixel(const Photo& photo, const Perspective& perspective, const PictureSize& size,
    const ChosenResponse* response, const Watch& watch, const Take& take)
{
    const bool linear = response && response->encoding == Encoding::Linear;
    int fine = leastFine;
    if (const auto sheet = perspective.toPhoto(rectangle(0, 0, 1, 1))) { // as many looks as there are photo pixels
        const double across = std::hypot((*sheet)[1].x - (*sheet)[0].x, (*sheet)[1].y - (*sheet)[0].y);
        fine = std::clamp(int(std::lround(across / size.width)), leastFine, mostFine);
    }
    for (int y = 0; y < size.height; ++y) {
        if (watch.cancelled())
            return false;
        watch.tell(double(y) / size.height);
        for (int x = 0; x < size.width; ++x) {
            Triple light {};
            int looks = 0;
            for (int i = 0; i < fine * fine; ++i) {
                const Point own { (x + (i % fine + 0.5) / fine) / size.width,
                    (y + (i / fine + 0.5) / fine) / size.height };
                const auto place = perspective.toPhoto(own);
                if (!place || place->x < 0 || place->y < 0 || place->x >= photo.width() || place->y >= photo.height())
                    continue;
                const auto codes = photo.codes(int(place->x), int(place->y));
                for (size_t k = 0; k < 3; ++k)
                    light[k] += linear ? double(codes[k]) / photo.largestCode() : photo.linear[k][size_t(codes[k])];
                ++looks;
            }
            for (size_t k = 0; k < 3; ++k) {
                light[k] = looks ? light[k] / looks : 0;
                if (response)
                    light[k] = response->response.channels[k].reflectance(light[k]);
            }
            take(light);
        }
    }
    return true;
}

} // namespace

SheetPicture straighten(const Photo& photo, const Perspective& perspective, double width_mm, double height_mm,
    PictureChannel channel, const ChosenResponse* response, int longest, const Watch& watch)
{
    const auto size = pictureSize(width_mm, height_mm, longest);
    SheetPicture out;
    out.width = size.width;
    out.height = size.height;
    out.mm_per_pixel = size.mm_per_pixel;
    out.values.reserve(size_t(size.width) * size_t(size.height));
    const auto& weights = photo.to_xyz_d50[1];
    const bool whole = eachPixel(photo, perspective, size, response, watch, [&](const Triple& light) {
        double value = 0;
        for (size_t k = 0; k < 3; ++k)
            value += light[k] * (channel == PictureChannel::Luminance ? weights[k] : size_t(channel) == k ? 1.0 : 0.0);
        out.values.push_back(-std::log10(std::max(value, darkest)));
    });
    return whole ? out : SheetPicture {};
}

LabPicture straightenColour(const Photo& photo, const Perspective& perspective, double width_mm, double height_mm,
    const ChosenResponse* response, int longest, const Watch& watch)
{
    const auto size = pictureSize(width_mm, height_mm, longest);
    LabPicture out;
    out.width = size.width;
    out.height = size.height;
    out.mm_per_pixel = size.mm_per_pixel;
    out.values.reserve(size_t(size.width) * size_t(size.height));
    const bool whole = eachPixel(photo, perspective, size, response, watch, [&](Triple light) {
        for (auto& value : light)
            value = std::max(value, 0.0);
        out.values.push_back(xyzToLab(multiply(photo.to_xyz_d50, light), whiteD50));
    });
    return whole ? out : LabPicture {};
}

SheetPicture LabPicture::lightness() const
{
    SheetPicture out;
    out.width = width;
    out.height = height;
    out.mm_per_pixel = mm_per_pixel;
    out.values.reserve(values.size());
    for (const auto& lab : values)
        out.values.push_back((100 - lab.l) / 100);
    return out;
}

QImage LabPicture::picture() const
{
    QImage image(width, height, QImage::Format_RGB32);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const auto code = labD50ToSrgb8(at(x, y));
            reinterpret_cast<QRgb*>(image.scanLine(y))[x] = qRgb(code[0], code[1], code[2]);
        }
    return image;
}

} // namespace washfast::density
