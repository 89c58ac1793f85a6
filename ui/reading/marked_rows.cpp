#include "ui/reading/marked_rows.h"

#include "core/density/wedge.h"
#include "ui/reading/words.h"

#include <cmath>

namespace washfast::ui {

namespace {

constexpr double stepMargin = 0.2; // as core/density/wedge.h leaves out
constexpr double patchMargin = 0.25; // cards have frames and gaps between their patches
constexpr int mostSteps = 60; // of reading_step and patch_position

double distance(density::Point a, density::Point b)
{
    return std::hypot(a.x - b.x, a.y - b.y);
}

density::Point between(density::Point a, density::Point b)
{
    return { (a.x + b.x) / 2, (a.y + b.y) / 2 };
}

density::Corners straightStrip(density::Point start, density::Point end, double width)
{
    const double length = std::max(1e-9, distance(start, end));
    const double ux = (end.x - start.x) / length, uy = (end.y - start.y) / length, half = width / 2;
    return { density::Point { start.x + half * uy, start.y - half * ux }, { end.x + half * uy, end.y - half * ux },
        { end.x - half * uy, end.y + half * ux }, { start.x - half * uy, start.y + half * ux } };
}

} // namespace

density::Corners stripBetween(const Marked& photo, density::Point start, density::Point end, double width_share)
{
    for (const auto& outline : photo.outlines) {
        if (!holds(outline.corners, start) || !holds(outline.corners, end))
            continue;
        const auto map = density::Perspective::ontoCorners(outline.corners);
        const auto a = map ? map->toOwn(start) : std::nullopt, b = map ? map->toOwn(end) : std::nullopt;
        if (!a || !b)
            continue;
        const auto& c = outline.corners;
        const double w = (distance(c[0], c[1]) + distance(c[3], c[2])) / 2;
        const double h = (distance(c[0], c[3]) + distance(c[1], c[2])) / 2;
        const density::Point from { a->x * w, a->y * h }, to { b->x * w, b->y * h };
        auto own = straightStrip(from, to, width_share * distance(from, to));
        for (auto& corner : own)
            corner = { corner.x / w, corner.y / h };
        if (const auto along = map->toPhoto(own))
            return *along;
    }
    return straightStrip(start, end, width_share * distance(start, end));
}

std::vector<density::Corners> placesOf(const MarkedRow& row, int count, double margin)
{
    std::vector<density::Corners> places;
    const auto map = density::Perspective::ontoCorners(row.corners);
    for (int i = 0; map && i < count; ++i) {
        const int at = row.turned ? count - 1 - i : i;
        const auto place
            = map->toPhoto(density::rectangle((at + margin) / count, margin, (1 - 2 * margin) / count, 1 - 2 * margin));
        if (!place)
            return {};
        places.push_back(*place);
    }
    return places;
}

bool isReference(const MarkedRow& row, const References& references)
{
    return row.kind == MarkedRow::Kind::Patches && references.card != 0;
}

int countOf(const MarkedRow& row, const References& references)
{
    if (isReference(row, references))
        return int(references.patches.size());
    return std::min(mostSteps, row.count > 0 ? row.count : row.found);
}

PlacedSpots placeSpots(const Marked& marked, const density::Photo& photo)
{
    PlacedSpots out;
    for (size_t i = 0; i < marked.marks.size(); ++i)
        out.spots.push_back({ Spot::Kind::Region, i, 0, marked.marks[i].corners, markName(marked, i) });
    for (size_t i = 0; i < marked.rows.size(); ++i) {
        auto row = marked.rows[i];
        const auto& c = row.corners;
        if (!isReference(row, marked.references) && row.count == 0)
            row.found = density::countSteps(photo,
                { between(c[0], c[3]), between(c[1], c[2]), (distance(c[0], c[3]) + distance(c[1], c[2])) / 2, 0 })
                            .value_or(0);
        out.found.push_back(row.found);
        const int count = countOf(row, marked.references);
        const bool wedge = row.kind == MarkedRow::Kind::Wedge;
        const auto places = placesOf(row, count, wedge ? stepMargin : patchMargin);
        if (places.size() < 2)
            out.refusals << ReadingWords::tr("%1: no even row of steps stands out here; say how many there are.")
                                .arg(rowName(i));
        for (size_t k = 0; k < places.size() && places.size() >= 2; ++k)
            out.spots.push_back({ wedge ? Spot::Kind::Step : Spot::Kind::Patch, i, int(k) + 1, places[k],
                (wedge ? ReadingWords::tr("%1, step %2") : ReadingWords::tr("%1, patch %2"))
                    .arg(rowName(i))
                    .arg(k + 1) });
    }
    return out;
}

QStringList doubtsAboutRows(const MarkedPhoto& photo)
{
    QStringList doubts;
    for (size_t row = 0; photo.measured && row < photo.rows.size(); ++row) {
        std::optional<double> first, last;
        for (size_t i = 0; i < photo.spots.size() && i < photo.measured->regions.size(); ++i)
            if (photo.spots[i].kind == Spot::Kind::Step && photo.spots[i].of == row)
                (photo.spots[i].number == 1 ? first : last) = photo.measured->regions[i].visual.density;
        if (first && last && *first < *last)
            doubts << ReadingWords::tr(
                "%1: step 1 is paler than the last one. The clearest step of a wedge lets most light through "
                "and gives the deepest blue: does number 1 lie at the other end?")
                          .arg(rowName(row));
    }
    return doubts;
}

density::Marks marksOf(const Marked& marked, const std::vector<Spot>& spots)
{
    density::Marks marks;
    marks.flat = marked.level ? density::Flat::Plane : density::Flat::None;
    const auto& references = marked.references;
    for (const auto& spot : spots) {
        density::Region region;
        region.name = spot.name;
        region.corners = spot.corners;
        if (spot.kind == Spot::Kind::Region) {
            const auto role = marked.marks[spot.of].role;
            region.paper = role == MarkRole::Paper;
            if (!references.card && (role == MarkRole::White || role == MarkRole::Grey)) {
                density::ChannelDensities known {};
                known.fill(role == MarkRole::White ? references.white : references.grey);
                region.density = known;
            }
        } else if (isReference(marked.rows[spot.of], references))
            region.density = references.patches[size_t(spot.number - 1)];
        marks.regions.push_back(region);
    }
    return marks;
}

} // namespace washfast::ui
