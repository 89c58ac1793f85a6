#include "core/density/sampling.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace washfast::density {

namespace {

constexpr int grid = 8;

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

/// How often each code stands in a block: red, green, blue, and their sum in the proportions of Y.
template <std::size_t codes> struct Counts {
    std::array<std::array<quint32, codes>, 4> of {};
};

/// What is collected of a sample before its means are taken.
struct Sums {
    Triple light {}, squares {};
};

/// Share of a step's error that is left in the mean when noise of so many steps (standard deviation) lies over it.
/// Noise that was there before packing would take the error away altogether (Schuchman, IEEE Transactions on
/// Communication Technology 12 (1964) 162; from memory); packing takes part of it away first, so that much less is
/// counted on: our own choice, held against rendered photos of all qualities.
double leftBy(double noise)
{
    const double counted = 0.35 * noise;
    return std::max(0.3, std::exp(-2 * std::numbers::pi * std::numbers::pi * counted * counted));
}

class Sampling {
public:
    Sampling(const Photo& photo, const Corners& corners)
        : photo_(photo)
        , corners_(corners)
        , largest_(photo.largestCode())
    {
        for (const auto& corner : corners) {
            top_ = std::min(top_, corner.y);
            bottom_ = std::max(bottom_, corner.y);
            left_ = std::min(left_, corner.x);
            right_ = std::max(right_, corner.x);
        }
        straight_.resize(size_t(largest_) + 1);
        for (int i = 0; i <= largest_; ++i)
            straight_[size_t(i)] = double(i) / largest_;
    }

    BothSamples run()
    {
        const int first = clamped(top_, photo_.height()), last = clamped(bottom_, photo_.height());
        for (int row = first; row < last; ++row)
            spans_.push_back(span(corners_, row, photo_.width()));
        first_row_ = first;
        for (int j = 0; j < grid; ++j)
            for (int i = 0; i < grid; ++i) {
                const int x0 = clamped(left_ + (right_ - left_) * i / grid, photo_.width());
                const int x1 = clamped(left_ + (right_ - left_) * (i + 1) / grid, photo_.width());
                const int y0 = std::clamp(clamped(top_ + (bottom_ - top_) * j / grid, photo_.height()), first, last);
                const int y1
                    = std::clamp(clamped(top_ + (bottom_ - top_) * (j + 1) / grid, photo_.height()), first, last);
                if (photo_.bits == 8)
                    countBlock(x0, x1, y0, y1);
                else
                    sumBlock(x0, x1, y0, y1);
            }
        finish(out_.file, file_, { photo_.linear[0].data(), photo_.linear[1].data(), photo_.linear[2].data() });
        finish(out_.linear, linear_, { straight_.data(), straight_.data(), straight_.data() });
        return std::move(out_);
    }

private:
    static int clamped(double at, int most) { return int(std::clamp(std::ceil(at - 0.5), 0.0, double(most))); }

    void countBlock(int x0, int x1, int y0, int y1);
    void sumBlock(int x0, int x1, int y0, int y1);
    void addBlock(double pixels, double x, double y, const Sums& file, const Sums& linear);
    void finish(Sample& sample, const Sums& sums, const std::array<const double*, 3>& table) const;

    const Photo& photo_;
    const Corners& corners_;
    const int largest_;
    double top_ = 1e300, bottom_ = -1e300, left_ = 1e300, right_ = -1e300;
    int first_row_ = 0;
    std::vector<std::pair<int, int>> spans_;
    std::vector<double> straight_;
    BothSamples out_;
    Sums file_, linear_;
    Triple code_sum_ {};
    double luma_pixels_ = 0, luma_sum_ = 0, luma_squares_ = 0; // in codes
    qint64 clipped_ = 0;
    std::array<qint64, 3> at_top_ {}, at_bottom_ {};
};

/// 8 bits: counting codes is quicker than adding light, and no less exact.
void Sampling::countBlock(int x0, int x1, int y0, int y1)
{
    // Two sets in turn: neighbours often have the same code, and one count would wait for the other.
    std::array<Counts<256>, 2> sets;
    std::array<quint32, 3> weights {}; // of Y, in 1/65536; together at most 1
    const auto& y_row = photo_.to_xyz_d50[1];
    const double whole = std::max(1.0, std::abs(y_row[0]) + std::abs(y_row[1]) + std::abs(y_row[2]));
    for (size_t k = 0; k < 3; ++k)
        weights[k] = quint32(65536 * std::max(0.0, y_row[k]) / whole);
    const auto count = [&](QRgb pixel, Counts<256>& counts, bool luma) {
        const quint32 r = quint32(qRed(pixel)), g = quint32(qGreen(pixel)), b = quint32(qBlue(pixel));
        ++counts.of[0][r];
        ++counts.of[1][g];
        ++counts.of[2][b];
        if (luma) // of every second pixel: it is for the spread only
            ++counts.of[3][(weights[0] * r + weights[1] * g + weights[2] * b) >> 16];
        return unsigned(r - 1 >= 254u) | unsigned(g - 1 >= 254u) | unsigned(b - 1 >= 254u);
    };
    double pixels = 0, x_sum = 0, y_sum = 0;
    qint64 clipped = 0;
    for (int row = y0; row < y1; ++row) {
        const auto& inside = spans_[size_t(row - first_row_)];
        const int from = std::max(x0, inside.first), to = std::min(x1, inside.second);
        if (from >= to)
            continue;
        const auto* line = reinterpret_cast<const QRgb*>(photo_.image.constScanLine(row));
        int x = from;
        unsigned at_end = 0;
        for (; x + 1 < to; x += 2)
            at_end += count(line[x], sets[0], true) + count(line[x + 1], sets[1], false);
        if (x < to)
            at_end += count(line[x], sets[0], true);
        clipped += at_end;
        const double n = to - from;
        pixels += n;
        x_sum += n * (from + to) / 2.0;
        y_sum += n * (row + 0.5);
    }
    if (pixels == 0)
        return;
    clipped_ += clipped;
    auto& counts = sets[0];
    for (size_t k = 0; k < 4; ++k)
        for (size_t code = 0; code < 256; ++code)
            counts.of[k][code] += sets[1].of[k][code];
    Sums file, linear;
    for (size_t k = 0; k < 3; ++k) {
        for (size_t code = 0; code < 256; ++code) {
            const double n = counts.of[k][code];
            if (n == 0)
                continue;
            const double light = photo_.linear[k][code], plain = straight_[code];
            file.light[k] += n * light;
            file.squares[k] += n * light * light;
            linear.light[k] += n * plain;
            linear.squares[k] += n * plain * plain;
            code_sum_[k] += n * double(code);
        }
        at_bottom_[k] += counts.of[k][0];
        at_top_[k] += counts.of[k][255];
    }
    for (size_t code = 0; code < 256; ++code) {
        luma_pixels_ += counts.of[3][code];
        luma_sum_ += counts.of[3][code] * double(code);
        luma_squares_ += counts.of[3][code] * double(code) * double(code);
    }
    addBlock(pixels, x_sum, y_sum, file, linear);
}

/// 16 bits.
void Sampling::sumBlock(int x0, int x1, int y0, int y1)
{
    Sums file, linear;
    double pixels = 0, x_sum = 0, y_sum = 0;
    for (int row = y0; row < y1; ++row) {
        const auto& inside = spans_[size_t(row - first_row_)];
        const auto* line = reinterpret_cast<const QRgba64*>(photo_.image.constScanLine(row));
        for (int x = std::max(x0, inside.first); x < std::min(x1, inside.second); ++x) {
            const std::array<quint16, 3> codes { line[x].red(), line[x].green(), line[x].blue() };
            bool clipped = false;
            double luma = 0;
            for (size_t k = 0; k < 3; ++k) {
                const double light = photo_.linear[k][codes[k]], plain = straight_[codes[k]];
                file.light[k] += light;
                file.squares[k] += light * light;
                linear.light[k] += plain;
                linear.squares[k] += plain * plain;
                code_sum_[k] += codes[k];
                luma += photo_.to_xyz_d50[1][k] * codes[k];
                at_bottom_[k] += codes[k] == 0;
                at_top_[k] += codes[k] == largest_;
                clipped = clipped || codes[k] == 0 || codes[k] == largest_;
            }
            luma_pixels_ += 1;
            luma_sum_ += luma;
            luma_squares_ += luma * luma;
            clipped_ += clipped;
            pixels += 1;
            x_sum += x + 0.5;
            y_sum += row + 0.5;
        }
    }
    if (pixels > 0)
        addBlock(pixels, x_sum, y_sum, file, linear);
}

void Sampling::addBlock(double pixels, double x, double y, const Sums& file, const Sums& linear)
{
    const auto add = [&](Sample& sample, Sums& whole, const Sums& part) {
        Block block { { x / pixels, y / pixels }, pixels, {} };
        for (size_t k = 0; k < 3; ++k) {
            block.light[k] = part.light[k] / pixels;
            whole.light[k] += part.light[k];
            whole.squares[k] += part.squares[k];
        }
        sample.blocks.push_back(block);
        sample.pixels += qint64(pixels);
    };
    add(out_.file, file_, file);
    add(out_.linear, linear_, linear);
}

void Sampling::finish(Sample& sample, const Sums& sums, const std::array<const double*, 3>& table) const
{
    if (sample.pixels == 0)
        return;
    const double n = double(sample.pixels);
    const auto sd = [](double sum, double square, double count) {
        return count > 1 ? std::sqrt(std::max(0.0, (square - sum * sum / count) / (count - 1))) : 0.0;
    };
    sample.clipped = clipped_;
    sample.at_top = at_top_;
    sample.at_bottom = at_bottom_;
    double step = 0; // of Y
    for (size_t k = 0; k < 3; ++k) {
        sample.light[k] = sums.light[k] / n;
        sample.light_sd[k] = sd(sums.light[k], sums.squares[k], n);
        sample.code[k] = code_sum_[k] / n / largest_;
        const int code = std::clamp(int(std::lround(code_sum_[k] / n)), 0, largest_ - 1);
        const double one_code = table[k][code + 1] - table[k][code];
        const double noise = one_code > 0 ? sample.light_sd[k] / one_code : 0;
        const double packed = photo_.grain[k] > 0 ? photo_.grain[k] * leftBy(noise / (8 * photo_.grain[k])) : 0;
        sample.code_step[k] = one_code * std::hypot(photo_.rounding[k] * leftBy(noise), packed);
        step += photo_.to_xyz_d50[1][k] * one_code;
    }
    sample.luminance_sd = sd(luma_sum_, luma_squares_, luma_pixels_) * step;
}

} // namespace

BothSamples sampleBoth(const Photo& photo, const Corners& corners)
{
    return Sampling(photo, corners).run();
}

Sample sampleRegion(const Photo& photo, const Corners& corners, Encoding encoding)
{
    auto both = sampleBoth(photo, corners);
    return encoding == Encoding::Linear ? std::move(both.linear) : std::move(both.file);
}

} // namespace washfast::density
