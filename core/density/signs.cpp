#include "core/density/signs.h"

#include "core/density/registration.h"

#include <algorithm>
#include <cmath>

namespace washfast::density {

std::optional<ProposedSign> findMottle(const SheetPicture& sheet)
{
    const auto detail = sheet.withoutSlow(8);
    const int side = std::max(1, int(std::lround(0.7 / sheet.mm_per_pixel)));
    const auto blotches = detail.coarser(side);
    if (blotches.width < 12 || blotches.height < 12)
        return {};
    // Neighbouring squares share a blotch but not their grain.
    double shared = 0;
    int pairs = 0;
    for (int y = 0; y + 1 < blotches.height; ++y)
        for (int x = 0; x + 1 < blotches.width; ++x, pairs += 2)
            shared += blotches.at(x, y) * (blotches.at(x + 1, y) + blotches.at(x, y + 1));
    const double blotch = std::sqrt(std::max(0.0, shared / pairs));
    if (blotch < leastMottle)
        return {};
    return ProposedSign { SignKind::Mottle, blotch, {}, {}, blotches.picture(-4 * blotch, 4 * blotch) };
}

std::optional<ProposedSign> findFog(const RegionReading& covered, const RegionReading& paper)
{
    const auto &here = covered.visual, &there = paper.visual;
    if (!here.density || !there.density)
        return {};
    const double fog = *here.density - *there.density;
    const double error = std::hypot(here.sd.value_or(0), there.sd.value_or(0))
        / std::sqrt(double(std::max<qint64>(1, std::min({ covered.pixels, paper.pixels, qint64(400) }))));
    if (fog < leastFog || fog < 3 * error)
        return {};
    return ProposedSign { SignKind::Fog, fog, {}, {}, {} };
}

std::optional<ProposedSign> findStain(const RegionReading& white, const RegionReading& paper)
{
    if (!white.lab || !paper.lab)
        return {};
    const double yellower = white.lab->b - paper.lab->b;
    if (yellower < leastStain)
        return {};
    return ProposedSign { SignKind::Stain, yellower, {}, {}, {} };
}

std::optional<ProposedSign> findBleedingEdge(const SheetPicture& across, double sharp_mm)
{
    if (across.width < 8 || across.height < 2)
        return {};
    std::vector<double> profile;
    for (int x = 0; x < across.width; ++x)
        profile.push_back(across.part(x, 0, 1, across.height).mean());
    const size_t end = std::max<size_t>(1, profile.size() / 8);
    double first = 0, last = 0;
    for (size_t i = 0; i < end; ++i) {
        first += profile[i] / double(end);
        last += profile[profile.size() - 1 - i] / double(end);
    }
    if (first > last) {
        std::reverse(profile.begin(), profile.end());
        std::swap(first, last);
    }
    if (last - first < 0.1)
        return {}; // no edge
    const auto crossing = [&](double share) {
        const double level = first + share * (last - first);
        for (size_t i = 1; i < profile.size(); ++i)
            if (profile[i] >= level)
                return double(i) - (profile[i] - level) / std::max(1e-9, profile[i] - profile[i - 1]);
        return double(profile.size());
    };
    const double width = (crossing(0.9) - crossing(0.1)) * across.mm_per_pixel;
    if (width < sharp_mm)
        return {};
    return ProposedSign { SignKind::BleedingEdge, width, {}, {}, across.picture(first, last) };
}

std::optional<ProposedSign> findLighterCentre(const SheetPicture& sheet)
{
    const int w = sheet.width / 3, h = sheet.height / 3;
    if (w < 2 || h < 2)
        return {};
    const double centre = sheet.part(w, h, w, h).mean();
    const double middle_share = double(w) * h / (double(sheet.width) * sheet.height);
    const double outer = (sheet.mean() - middle_share * centre) / (1 - middle_share);
    if (outer - centre < leastCentre)
        return {};
    // All four sides have to be darker, or it is a slope and not a light middle.
    const int edge = std::max(1, std::min(sheet.width, sheet.height) / 8);
    for (const double side :
        { sheet.part(0, 0, edge, sheet.height).mean(), sheet.part(sheet.width - edge, 0, edge, sheet.height).mean(),
            sheet.part(0, 0, sheet.width, edge).mean(), sheet.part(0, sheet.height - edge, sheet.width, edge).mean() })
        if (side < centre + leastCentre / 2)
            return {};
    return ProposedSign { SignKind::LighterCentre, outer - centre, {}, {}, sheet.picture(centre - 0.1, outer + 0.1) };
}

std::optional<ProposedSign> findLossThere(const SheetPicture& before, const SheetPicture& after, const LossTerms& terms)
{
    constexpr double partSide = 2; // mm
    constexpr double leastShare = 0.01, leastLost = 0.03;
    if (before.width != after.width || before.height != after.height || before.values.empty())
        return {};
    SheetPicture lost = before;
    std::vector<double> known;
    for (size_t i = 0; i < lost.values.size(); ++i) {
        lost.values[i] -= after.values[i];
        if (std::isfinite(lost.values[i]))
            known.push_back(lost.values[i]);
    }
    if (known.size() < lost.values.size() / 3)
        return {};
    if (!terms.one_zero) {
        std::nth_element(known.begin(), known.begin() + std::ssize(known) / 2, known.end());
        for (auto& value : lost.values)
            value -= known[known.size() / 2];
    }
    const int side = std::max(1, int(std::lround(partSide / lost.mm_per_pixel)));
    const auto parts = lost.coarser(side); // a part that is not whole stays NaN
    double sum = 0, whole = 0, worst = -9;
    size_t there = 0, worst_at = 0;
    for (size_t i = 0; i < parts.values.size(); ++i) {
        const double value = parts.values[i];
        if (!std::isfinite(value))
            continue;
        whole += 1;
        if (value > leastLost) {
            sum += value;
            ++there;
        }
        if (value > worst) {
            worst = value;
            worst_at = i;
        }
    }
    if (whole == 0 || double(there) < leastShare * whole || worst < leastLoss)
        return {};
    SheetPicture shown = lost;
    for (auto& value : shown.values)
        value = std::isfinite(value) ? value : 0;
    ProposedSign sign { SignKind::Loss, sum / double(there), {}, {}, shown.picture(0, std::max(worst, 0.1)) };
    sign.share = double(there) / whole;
    sign.worst = Point { (double(worst_at % size_t(parts.width)) + 0.5) * side / lost.width,
        (double(worst_at / size_t(parts.width)) + 0.5) * side / lost.height };
    return sign;
}

std::optional<ProposedSign> findLoss(const SheetPicture& before, const SheetPicture& after)
{
    const auto placed = registerPictures(before, after).value_or(Registration {});
    return findLossThere(before, placed.resampled(after, before));
}

} // namespace washfast::density
