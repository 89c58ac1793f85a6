// Stripes: the power of every plane wave on the sheet (a two-dimensional Fourier sum under a bell), searched for one
// that stands far above its neighbours.
#include "core/density/signs.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace washfast::density {

namespace {

constexpr double leastSpacing = 2.0; // mm
constexpr double falseAlarm = 1e-4; // a sheet
constexpr double leastAmplitude = 0.004;
constexpr int ring = 6; // neighbours that tell the background, without the nearest
constexpr int leak = 2; // cells into which the bell spreads a wave

class Waves {
public:
    explicit Waves(const SheetPicture& sheet)
        : across_(int(sheet.width * sheet.mm_per_pixel / leastSpacing))
        , down_(int(sheet.height * sheet.mm_per_pixel / leastSpacing))
    {
        const auto w = size_t(sheet.width), h = size_t(sheet.height);
        const auto bell
            = [](size_t i, size_t n) { return 1 - std::cos(2 * std::numbers::pi * (double(i) + 0.5) / double(n)); };
        const auto turns = [](size_t n) { // e^(-2 pi i k / n)
            std::vector<std::complex<double>> all(n);
            for (size_t k = 0; k < n; ++k)
                all[k] = std::polar(1.0, -2 * std::numbers::pi * double(k) / double(n));
            return all;
        };
        const auto turn_x = turns(w), turn_y = turns(h);
        const size_t columns = size_t(across_) + 1;
        std::vector<std::complex<double>> rows(columns * h);
        std::vector<double> line(w);
        for (size_t y = 0; y < h; ++y) {
            for (size_t x = 0; x < w; ++x)
                line[x] = sheet.values[y * w + x] * bell(x, w) * bell(y, h);
            for (size_t k = 0; k < columns; ++k) {
                std::complex<double> sum;
                for (size_t x = 0, at = 0; x < w; ++x) {
                    sum += line[x] * turn_x[at];
                    at += k;
                    at = at >= w ? at - w : at;
                }
                rows[k * h + y] = sum;
            }
        }
        powers_.resize(columns * size_t(2 * down_ + 1));
        for (size_t k = 0; k < columns; ++k)
            for (int l = -down_; l <= down_; ++l) {
                const size_t step = size_t(l < 0 ? int(h) + l : l);
                std::complex<double> sum;
                for (size_t y = 0, at = 0; y < h; ++y) {
                    sum += rows[k * h + y] * turn_y[at];
                    at += step;
                    at = at >= h ? at - h : at;
                }
                powers_[index(int(k), l)] = std::norm(sum) * 4 / double(w * w) / double(h * h); // amplitude squared
            }
    }

    [[nodiscard]] int across() const { return across_; }
    [[nodiscard]] int down() const { return down_; }
    /// k waves across and l down; a wave and its opposite are the same.
    [[nodiscard]] double power(int k, int l) const { return k < 0 ? power(-k, -l) : powers_[index(k, l)]; }
    [[nodiscard]] bool holds(int k, int l) const { return std::abs(k) <= across_ && std::abs(l) <= down_; }
    [[nodiscard]] double background(int k, int l) const
    {
        std::vector<double> around;
        for (int i = -ring; i <= ring; ++i)
            for (int j = -ring; j <= ring; ++j)
                if (std::max(std::abs(i), std::abs(j)) > leak && holds(k + i, l + j))
                    around.push_back(power(k + i, l + j));
        if (around.size() < 40)
            return 0;
        std::nth_element(around.begin(), around.begin() + std::ssize(around) / 2, around.end());
        return around[around.size() / 2] / std::numbers::ln2; // the mean of powers whose median this is
    }

private:
    [[nodiscard]] size_t index(int k, int l) const { return size_t(k) * size_t(2 * down_ + 1) + size_t(l + down_); }

    int across_, down_;
    std::vector<double> powers_;
};

} // namespace

std::optional<ProposedSign> findStripes(const SheetPicture& sheet)
{
    if (sheet.width < 32 || sheet.height < 32)
        return {};
    const double width_mm = sheet.width * sheet.mm_per_pixel, height_mm = sheet.height * sheet.mm_per_pixel;
    const auto detail = sheet.withoutSlow(std::max(width_mm, height_mm) / 8);
    const Waves waves(detail);
    double best = 0;
    int across = 0, down = 0, tried = 0;
    const double widest = std::max(width_mm, height_mm) / 4;
    for (int k = 0; k <= waves.across(); ++k)
        for (int l = k == 0 ? 1 : -waves.down(); l <= waves.down(); ++l) {
            const double frequency = std::hypot(k / width_mm, l / height_mm);
            if (frequency > 1 / leastSpacing || frequency < 1 / widest)
                continue;
            ++tried;
            const double power = waves.power(k, l);
            bool top = power > leastAmplitude * leastAmplitude;
            for (int i = -1; i <= 1 && top; ++i)
                for (int j = -1; j <= 1 && top; ++j)
                    top = !waves.holds(k + i, l + j) || waves.power(k + i, l + j) <= power;
            if (!top)
                continue;
            const double background = waves.background(k, l);
            if (background > 0 && power / background > best) {
                best = power / background;
                across = k;
                down = l;
            }
        }
    // The power of noise falls off as exp(-ratio); over this many waves so large a ratio comes by chance in:
    if (best == 0 || tried * std::exp(-best) > falseAlarm)
        return {};
    // The crest lies between the waves that were tried: the middle of the power around it.
    double sum = 0, k = 0, l = 0;
    for (int i = -1; i <= 1; ++i)
        for (int j = -1; j <= 1; ++j)
            if (waves.holds(across + i, down + j)) {
                const double weight = std::sqrt(waves.power(across + i, down + j));
                sum += weight;
                k += weight * (across + i);
                l += weight * (down + j);
            }
    const double fx = k / sum / width_mm, fy = l / sum / height_mm;
    const double amplitude = std::sqrt(waves.power(across, down));
    double along = std::atan2(fx, -fy) * 180 / std::numbers::pi; // at right angles to the wave
    along = along < 0 ? along + 180 : along >= 180 ? along - 180 : along;
    return ProposedSign { SignKind::Stripes, amplitude, 1 / std::hypot(fx, fy), along,
        detail.picture(-3 * amplitude, 3 * amplitude) };
}

} // namespace washfast::density
