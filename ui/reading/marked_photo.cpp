#include "ui/reading/marked_photo.h"

namespace washfast::ui {

namespace {
QString tr(const char* text)
{
    return QCoreApplication::translate("Reading", text);
}
}

QString roleLabel(MarkRole role)
{
    switch (role) {
    case MarkRole::White:
        return tr("white of the card");
    case MarkRole::Grey:
        return tr("grey of the card");
    case MarkRole::Paper:
        return tr("paper");
    case MarkRole::Deepest:
        return tr("deepest");
    case MarkRole::Middle:
        return tr("middle");
    case MarkRole::OpenBorder:
        return tr("open border");
    case MarkRole::Covered:
        return tr("covered");
    case MarkRole::markRoles:
        break;
    }
    return {};
}

QString whereKey(MarkRole role)
{
    switch (role) {
    case MarkRole::Paper:
        return QStringLiteral("paper");
    case MarkRole::Deepest:
        return QStringLiteral("deepest");
    case MarkRole::Middle:
        return QStringLiteral("middle");
    case MarkRole::OpenBorder:
        return QStringLiteral("open_border");
    case MarkRole::Covered:
        return QStringLiteral("covered");
    case MarkRole::White:
    case MarkRole::Grey:
    case MarkRole::markRoles:
        break;
    }
    return {};
}

QString markName(const MarkedPhoto& photo, size_t mark)
{
    return QStringLiteral("%1 %2").arg(mark + 1).arg(roleLabel(photo.marks[mark].role));
}

bool holds(const density::Corners& corners, density::Point point)
{
    const auto map = density::Perspective::ontoCorners(corners);
    const auto own = map ? map->toOwn(point) : std::nullopt;
    return own && own->x >= 0 && own->x <= 1 && own->y >= 0 && own->y <= 1;
}

std::optional<size_t> outlineOf(const MarkedPhoto& photo, size_t mark)
{
    const auto at = density::middle(photo.marks[mark].corners);
    for (size_t i = 0; i < photo.outlines.size(); ++i)
        if (holds(photo.outlines[i].corners, at))
            return i;
    return std::nullopt;
}

qint64 printOf(const MarkedPhoto& photo, size_t mark, qint64 only)
{
    if (photo.outlines.empty())
        return only;
    const auto outline = outlineOf(photo, mark);
    return outline ? photo.outlines[*outline].print : 0;
}

density::Marks marksOf(const MarkedPhoto& photo, const CardDensities& card, bool level)
{
    density::Marks marks;
    marks.flat = level ? density::Flat::Plane : density::Flat::None;
    for (size_t i = 0; i < photo.marks.size(); ++i) {
        const auto& mark = photo.marks[i];
        density::Region region;
        region.name = markName(photo, i);
        region.corners = mark.corners;
        region.paper = mark.role == MarkRole::Paper;
        if (mark.role == MarkRole::White || mark.role == MarkRole::Grey) {
            density::ChannelDensities known {};
            known.fill(mark.role == MarkRole::White ? card.white : card.grey);
            region.density = known;
        }
        marks.regions.push_back(region);
    }
    return marks;
}

density::Corners drawnBetween(const MarkedPhoto& photo, density::Point from, density::Point to)
{
    const auto between = [](density::Point a, density::Point b) {
        return density::rectangle(std::min(a.x, b.x), std::min(a.y, b.y), std::abs(b.x - a.x), std::abs(b.y - a.y));
    };
    for (const auto& outline : photo.outlines) {
        const auto map = density::Perspective::ontoCorners(outline.corners);
        const auto a = map ? map->toOwn(from) : std::nullopt, b = map ? map->toOwn(to) : std::nullopt;
        if (!a || !b || !holds(outline.corners, from) || !holds(outline.corners, to))
            continue;
        if (const auto along = map->toPhoto(between(*a, *b)))
            return *along;
    }
    return between(from, to);
}

} // namespace washfast::ui
