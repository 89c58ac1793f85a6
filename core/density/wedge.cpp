#include "core/density/wedge.h"

#include "core/density/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::density {

namespace {

constexpr int fewest = 2, most = 41;

struct Axes {
    double length = 0, ux = 0, uy = 0;
};

Axes axesOf(const WedgeEnds& ends)
{
    const double dx = ends.end.x - ends.start.x, dy = ends.end.y - ends.start.y;
    const double length = std::hypot(dx, dy);
    return { length, length > 0 ? dx / length : 0, length > 0 ? dy / length : 0 };
}

Corners between(const WedgeEnds& ends, const Axes& axes, double from, double to, double half)
{
    const auto at = [&](double along, double across) {
        return Point { ends.start.x + along * axes.ux - across * axes.uy,
            ends.start.y + along * axes.uy + across * axes.ux };
    };
    return { at(from, -half), at(to, -half), at(to, half), at(from, half) };
}

} // namespace

std::optional<int> countSteps(const Photo& photo, const WedgeEnds& ends)
{
    const auto axes = axesOf(ends);
    constexpr int bins = 840;
    if (axes.length < 4 * fewest || !(ends.width > 1))
        return {};
    // Density along the row, and how steep it is.
    std::vector<double> profile;
    for (int i = 0; i < bins; ++i) {
        const double from = axes.length * i / bins, to = axes.length * (i + 1) / bins;
        const double reach = std::max(0.0, 1.0 - (to - from)) / 2; // at least a pixel long
        const auto sample = sampleRegion(photo, between(ends, axes, from - reach, to + reach, 0.3 * ends.width));
        const double light = sample.light[0] + sample.light[1] + sample.light[2];
        profile.push_back(sample.pixels > 0 ? -std::log10(std::max(light, 1e-4))
                : profile.empty()           ? 0
                                            : profile.back());
    }
    constexpr int reach = 3;
    std::vector<double> steep(bins);
    for (int i = reach; i + reach < bins; ++i)
        steep[size_t(i)] = std::abs(profile[size_t(i + reach)] - profile[size_t(i - reach)]);
    double total = 0;
    for (const double value : steep)
        total += value;
    if (!(total > 0))
        return {};
    // The largest count whose edges all stand out: a row of 10 is also even at 5, with half of its edges unexplained.
    double best = 0;
    int found = 0;
    for (int n = fewest; n <= most; ++n) {
        const double step = double(bins) / n;
        if (step < 4 * reach)
            break;
        double on = 0, weakest = 1e9;
        for (int k = 1; k < n; ++k) {
            double edge = 0, here = 0;
            for (int i = -2 * reach; i <= 2 * reach; ++i) {
                const double value = steep[size_t(std::clamp(int(std::lround(k * step)) + i, 0, bins - 1))];
                edge = std::max(edge, value);
                here += value;
            }
            on += here;
            weakest = std::min(weakest, edge);
        }
        const double explained = on / total, covered = double(n - 1) * (4 * reach + 1) / bins;
        const double score = (explained - covered) * (weakest > 0.01 ? 1 : 0.2);
        if (score > best + 1e-3) {
            best = score;
            found = n;
        }
    }
    if (best < 0.3)
        return {};
    return found;
}

Result<std::vector<Region>> wedgeRegions(const Photo& photo, const WedgeEnds& ends)
{
    const auto refuse = [](const char* text) { return Error { Trouble::BadInput, Words::tr(text), {} }; };
    const auto axes = axesOf(ends);
    if (!(axes.length > 0) || !(ends.width > 0))
        return refuse(QT_TRANSLATE_NOOP("Density", "The two ends of the row are the same place."));
    int steps = ends.steps;
    if (steps == 0)
        steps = countSteps(photo, ends).value_or(0);
    if (steps == 0)
        return refuse(QT_TRANSLATE_NOOP("Density", "No even row of steps stands out here; say how many there are."));
    if (steps < fewest || steps > 200)
        return refuse(QT_TRANSLATE_NOOP("Density", "A row has between 2 and 200 steps."));
    std::vector<Region> regions;
    for (int i = 0; i < steps; ++i) {
        Region region;
        region.name = QString::number(i + 1);
        region.corners
            = between(ends, axes, axes.length * (i + 0.2) / steps, axes.length * (i + 0.8) / steps, 0.3 * ends.width);
        regions.push_back(region);
    }
    return regions;
}

} // namespace washfast::density
