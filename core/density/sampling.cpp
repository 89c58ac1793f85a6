#include "core/density/sampling.h"

#include <algorithm>
#include <cmath>

namespace washfast::density {

namespace {

constexpr int grid = 8;

struct Sums {
    double pixels = 0, x = 0, y = 0;
    Triple light {};
};

/// First and one past the last pixel of a row whose middle is inside.
std::pair<int, int> span(const Corners& corners, int row, int width)
{
    const double y = row + 0.5;
    double left = 1e300, right = -1e300;
    for (std::size_t i = 0; i < 4; ++i) {
        const Point a = corners[i], b = corners[(i + 1) % 4];
        if ((a.y <= y) == (b.y <= y))
            continue;
        const double x = a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x);
        left = std::min(left, x);
        right = std::max(right, x);
    }
    if (left > right)
        return { 0, 0 };
    const double first = std::clamp(std::ceil(left - 0.5), 0.0, double(width));
    const double last = std::clamp(std::ceil(right - 0.5), 0.0, double(width));
    return { int(first), int(last) };
}

} // namespace

Sample sampleRegion(const Photo& photo, const Corners& corners, Encoding encoding)
{
    Sample sample;
    double top = 1e300, bottom = -1e300, left = 1e300, right = -1e300;
    for (const auto& corner : corners) {
        top = std::min(top, corner.y);
        bottom = std::max(bottom, corner.y);
        left = std::min(left, corner.x);
        right = std::max(right, corner.x);
    }
    const int first_row = int(std::clamp(std::ceil(top - 0.5), 0.0, double(photo.height())));
    const int last_row = int(std::clamp(std::ceil(bottom - 0.5), 0.0, double(photo.height())));
    const int largest = photo.largestCode();
    const auto& y_row = photo.to_xyz_d50[1];

    std::vector<double> straight;
    if (encoding == Encoding::Linear) {
        straight.resize(size_t(largest) + 1);
        for (int i = 0; i <= largest; ++i)
            straight[size_t(i)] = double(i) / largest;
    }
    std::array<const double*, 3> table {};
    for (size_t k = 0; k < 3; ++k)
        table[k] = encoding == Encoding::Linear ? straight.data() : photo.linear[k].data();

    std::array<Sums, grid * grid> parts {};
    Triple squares {};
    double y_sum = 0, y_squares = 0;
    Triple code_sum {};
    for (int row = first_row; row < last_row; ++row) {
        const auto [from, to] = span(corners, row, photo.width());
        const int part_y = std::clamp(int(grid * (row + 0.5 - top) / (bottom - top)), 0, grid - 1);
        const auto* line = photo.image.constScanLine(row);
        for (int x = from; x < to; ++x) {
            std::array<int, 3> codes;
            if (photo.bits == 8) {
                const QRgb pixel = reinterpret_cast<const QRgb*>(line)[x];
                codes = { qRed(pixel), qGreen(pixel), qBlue(pixel) };
            } else {
                const QRgba64 pixel = reinterpret_cast<const QRgba64*>(line)[x];
                codes = { pixel.red(), pixel.green(), pixel.blue() };
            }
            const int part_x = std::clamp(int(grid * (x + 0.5 - left) / (right - left)), 0, grid - 1);
            auto& part = parts[size_t(part_y * grid + part_x)];
            part.pixels += 1;
            part.x += x + 0.5;
            part.y += row + 0.5;
            bool clipped = false;
            double y = 0;
            for (size_t k = 0; k < 3; ++k) {
                const double light = table[k][codes[k]];
                part.light[k] += light;
                squares[k] += light * light;
                code_sum[k] += codes[k];
                y += y_row[k] * light;
                if (codes[k] == largest)
                    clipped = true, ++sample.at_top[k];
                if (codes[k] == 0)
                    clipped = true, ++sample.at_bottom[k];
            }
            sample.clipped += clipped;
            y_sum += y;
            y_squares += y * y;
        }
        sample.pixels += std::max(0, to - from);
    }
    if (sample.pixels == 0)
        return sample;
    const double n = double(sample.pixels);
    for (const auto& part : parts) {
        if (part.pixels == 0)
            continue;
        Block block { { part.x / part.pixels, part.y / part.pixels }, part.pixels, part.light };
        for (size_t k = 0; k < 3; ++k) {
            sample.light[k] += part.light[k] / n;
            block.light[k] /= part.pixels;
        }
        sample.blocks.push_back(block);
    }
    const auto sd = [&](double sum, double square) {
        return n > 1 ? std::sqrt(std::max(0.0, (square - sum * sum / n) / (n - 1))) : 0.0;
    };
    for (size_t k = 0; k < 3; ++k) {
        sample.light_sd[k] = sd(sample.light[k] * n, squares[k]);
        sample.code[k] = code_sum[k] / n / largest;
        const int code = std::clamp(int(std::lround(code_sum[k] / n)), 0, largest - 1);
        sample.code_step[k] = table[k][code + 1] - table[k][code];
    }
    sample.luminance_sd = sd(y_sum, y_squares);
    return sample;
}

} // namespace washfast::density
