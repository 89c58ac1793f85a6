// Stripes: the power of every plane wave on the sheet (a two-dimensional Fourier sum under a bell), searched for one
// that stands far above its neighbours and goes on in step over most of the sheet.
#include "core/density/signs.h"

#include <algorithm>
#include <cmath>
#include <complex>
#include <numbers>

namespace washfast::density {

namespace {

constexpr double leastSpacing = leastStripeSpacing;
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
    /// Mean power that noise or a motif would have here: of the cells around, and of those farther in and out in the
    /// same direction, since a straight edge has power all along the line across it (falling as 1 / frequency squared).
    [[nodiscard]] double background(int k, int l) const
    {
        std::vector<double> around, along;
        for (int i = -ring; i <= ring; ++i)
            for (int j = -ring; j <= ring; ++j)
                if (std::max(std::abs(i), std::abs(j)) > leak && holds(k + i, l + j))
                    around.push_back(power(k + i, l + j));
        if (around.size() < 40)
            return 0;
        const double far = std::hypot(k, l);
        for (int d = -2 * ring; d <= 2 * ring; ++d) {
            const double share = 1 + d / far;
            if (std::abs(d) <= leak || share < 0.3)
                continue;
            for (const double turn : { -0.7 / far, 0.0, 0.7 / far }) { // a cell to each side as well
                const int i = int(std::lround(share * (k - turn * l))), j = int(std::lround(share * (l + turn * k)));
                if (holds(i, j))
                    along.push_back(power(i, j) * share * share);
            }
        }
        return std::max(middle(around), along.size() < 6 ? 0.0 : middle(along));
    }

private:
    [[nodiscard]] size_t index(int k, int l) const { return size_t(k) * size_t(2 * down_ + 1) + size_t(l + down_); }

    /// The mean of powers of noise whose median this is.
    static double middle(std::vector<double>& powers)
    {
        std::nth_element(powers.begin(), powers.begin() + std::ssize(powers) / 2, powers.end());
        return powers[powers.size() / 2] / std::numbers::ln2;
    }

    int across_, down_;
    std::vector<double> powers_;
};

struct Crest {
    double over = 0; // power over the background
    int across = 0, down = 0;
};

/// Between the waves that were tried: the middle of the power around it, in waves a millimetre.
Point frequencyOf(const Crest& crest, const Waves& waves, double width_mm, double height_mm)
{
    double sum = 0, k = 0, l = 0;
    for (int i = -1; i <= 1; ++i)
        for (int j = -1; j <= 1; ++j)
            if (waves.holds(crest.across + i, crest.down + j)) {
                const double weight = std::sqrt(waves.power(crest.across + i, crest.down + j));
                sum += weight;
                k += weight * (crest.across + i);
                l += weight * (crest.down + j);
            }
    return { k / sum / width_mm, l / sum / height_mm };
}

/// Whether the wave goes on in step over the sheet, as stripes do: in more than half of its ninths, or, when it is too
/// long for these, in each of three strips across it. What an edge of the motif adds is in a few parts only.
bool goesOn(const SheetPicture& detail, Point frequency)
{
    constexpr double enough = 0.4; // of the mean amplitude, in step
    const double ninth = std::min(detail.width, detail.height) * detail.mm_per_pixel / 3;
    const bool whole = 1.5 / std::hypot(frequency.x, frequency.y) > ninth;
    const bool across = std::abs(frequency.x) > std::abs(frequency.y);
    const int columns = whole && across ? 1 : 3, rows = whole && !across ? 1 : 3;
    const int w = detail.width / columns, h = detail.height / rows;
    std::vector<std::complex<double>> parts;
    std::complex<double> mean;
    for (int t = 0; t < columns * rows; ++t) {
        const int left = t % columns * w, top = t / columns * h;
        std::complex<double> wave, plain;
        double weights = 0, level = 0;
        for (int y = 0; y < h; ++y)
            for (int x = 0; x < w; ++x) {
                const double weight = (1 - std::cos(2 * std::numbers::pi * (x + 0.5) / w))
                    * (1 - std::cos(2 * std::numbers::pi * (y + 0.5) / h));
                const auto turn = std::polar(weight,
                    -2 * std::numbers::pi * detail.mm_per_pixel * (frequency.x * (left + x) + frequency.y * (top + y)));
                wave += turn * detail.at(left + x, top + y);
                plain += turn;
                level += weight * detail.at(left + x, top + y);
                weights += weight;
            }
        parts.push_back((wave - plain * level / weights) / weights);
        mean += parts.back() / double(columns * rows);
    }
    int in_step = 0;
    for (const auto& part : parts)
        in_step += std::real(part * std::conj(mean)) >= enough * std::norm(mean) ? 1 : 0;
    return whole ? in_step == columns * rows : 2 * in_step > columns * rows;
}

} // namespace

std::optional<ProposedSign> findStripes(const SheetPicture& sheet, double* least)
{
    if (least)
        *least = 0;
    if (sheet.width < 32 || sheet.height < 32)
        return {};
    const double width_mm = sheet.width * sheet.mm_per_pixel, height_mm = sheet.height * sheet.mm_per_pixel;
    const auto detail = sheet.withoutSlow(std::max(width_mm, height_mm) / 8);
    const Waves waves(detail);
    std::vector<Crest> crests;
    std::vector<double> backgrounds;
    int tried = 0;
    const double widest = std::max(width_mm, height_mm) / 4;
    for (int k = 0; k <= waves.across(); ++k)
        for (int l = k == 0 ? 1 : -waves.down(); l <= waves.down(); ++l) {
            const double frequency = std::hypot(k / width_mm, l / height_mm);
            if (frequency > 1 / leastSpacing || frequency < 1 / widest)
                continue;
            ++tried;
            const double power = waves.power(k, l);
            if (least)
                if (const double there = waves.background(k, l); there > 0)
                    backgrounds.push_back(there);
            bool top = power > leastAmplitude * leastAmplitude;
            for (int i = -1; i <= 1 && top; ++i)
                for (int j = -1; j <= 1 && top; ++j)
                    top = !waves.holds(k + i, l + j) || waves.power(k + i, l + j) <= power;
            if (!top)
                continue;
            const double background = waves.background(k, l);
            if (background > 0)
                crests.push_back({ power / background, k, l });
        }
    const auto limit = [&](double background) { // from which amplitude a wave stands out of it
        return std::max(leastAmplitude, std::sqrt(background * std::log(tried / falseAlarm)));
    };
    if (!backgrounds.empty())
        *least = limit(*std::max_element(backgrounds.begin(), backgrounds.end()));
    std::sort(crests.begin(), crests.end(), [](const Crest& a, const Crest& b) { return a.over > b.over; });
    for (const auto& crest : crests) {
        // The power of noise falls off as exp(-ratio); over this many waves so large a ratio comes by chance in:
        if (tried * std::exp(-crest.over) > falseAlarm)
            return {};
        const auto frequency = frequencyOf(crest, waves, width_mm, height_mm);
        if (!goesOn(detail, frequency))
            continue;
        const double power = waves.power(crest.across, crest.down), amplitude = std::sqrt(power);
        if (least)
            *least = limit(power / crest.over);
        double along = std::atan2(frequency.x, -frequency.y) * 180 / std::numbers::pi; // at right angles to the wave
        along = along < 0 ? along + 180 : along >= 180 ? along - 180 : along;
        return ProposedSign { SignKind::Stripes, amplitude, 1 / std::hypot(frequency.x, frequency.y), along,
            detail.picture(-3 * amplitude, 3 * amplitude) };
    }
    return {};
}

} // namespace washfast::density
