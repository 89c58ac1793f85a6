#include "core/density/signs.h"

#include <algorithm>
#include <cmath>

namespace washfast::density {

namespace {

constexpr double leastMottle = 0.02, leastFog = 0.03, leastStain = 2.0, leastCentre = 0.05;

/// Means of squares of so many pixels a side.
SheetPicture coarser(const SheetPicture& sheet, int side)
{
    SheetPicture out;
    out.width = sheet.width / side;
    out.height = sheet.height / side;
    out.mm_per_pixel = sheet.mm_per_pixel * side;
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x)
            out.values.push_back(sheet.part(x * side, y * side, side, side).mean());
    return out;
}

} // namespace

std::optional<ProposedSign> findMottle(const SheetPicture& sheet)
{
    const auto detail = sheet.withoutSlow(8);
    const int side = std::max(1, int(std::lround(0.7 / sheet.mm_per_pixel)));
    const auto blotches = coarser(detail, side);
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

std::optional<ProposedSign> findLoss(const SheetPicture& before, const SheetPicture& after)
{
    if (before.width != after.width || before.height != after.height || before.values.empty())
        return {};
    // The shift that makes the two most alike, up to 3 % of the sheet each way.
    const int reach = std::max(1, std::max(before.width, before.height) * 3 / 100);
    const auto first = before.withoutSlow(10), second = after.withoutSlow(10);
    double best = -2;
    int dx = 0, dy = 0;
    for (int sy = -reach; sy <= reach; ++sy)
        for (int sx = -reach; sx <= reach; ++sx) {
            double ab = 0, aa = 0, bb = 0;
            for (int y = reach; y < before.height - reach; y += 2)
                for (int x = reach; x < before.width - reach; x += 2) {
                    const double a = first.at(x, y), b = second.at(x + sx, y + sy);
                    ab += a * b;
                    aa += a * a;
                    bb += b * b;
                }
            const double alike = aa > 0 && bb > 0 ? ab / std::sqrt(aa * bb) : 0;
            if (alike > best + 1e-9) {
                best = alike;
                dx = sx;
                dy = sy;
            }
        }
    SheetPicture lost = before.part(reach, reach, before.width - 2 * reach, before.height - 2 * reach);
    for (int y = 0; y < lost.height; ++y)
        for (int x = 0; x < lost.width; ++x)
            lost.at(x, y) -= after.at(x + reach + dx, y + reach + dy);
    const double mean = lost.mean();
    if (lost.values.empty() || mean < leastFog)
        return {};
    const double most = *std::max_element(lost.values.begin(), lost.values.end());
    return ProposedSign { SignKind::Loss, mean, {}, {}, lost.picture(0, std::max(most, 0.1)) };
}

} // namespace washfast::density
