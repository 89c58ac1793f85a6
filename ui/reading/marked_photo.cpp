#include "ui/reading/marked_photo.h"

#include "ui/reading/words.h"

namespace washfast::ui {

QString roleLabel(MarkRole role)
{
    switch (role) {
    case MarkRole::White:
        return ReadingWords::tr("white of the card");
    case MarkRole::Grey:
        return ReadingWords::tr("grey of the card");
    case MarkRole::Paper:
        return ReadingWords::tr("paper");
    case MarkRole::Deepest:
        return ReadingWords::tr("deepest");
    case MarkRole::Middle:
        return ReadingWords::tr("middle");
    case MarkRole::OpenBorder:
        return ReadingWords::tr("open border");
    case MarkRole::Covered:
        return ReadingWords::tr("covered");
    case MarkRole::PatchRow:
        return ReadingWords::tr("row of a card's patches");
    case MarkRole::WedgeRow:
        return ReadingWords::tr("row of a wedge's steps");
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
    case MarkRole::PatchRow:
    case MarkRole::WedgeRow:
    case MarkRole::markRoles:
        break;
    }
    return {};
}

QString markName(const Marked& photo, size_t mark)
{
    return QStringLiteral("%1 %2").arg(mark + 1).arg(roleLabel(photo.marks[mark].role));
}

QString rowName(size_t row)
{
    return ReadingWords::tr("row %1").arg(row + 1);
}

bool holds(const density::Corners& corners, density::Point point)
{
    const auto map = density::Perspective::ontoCorners(corners);
    const auto own = map ? map->toOwn(point) : std::nullopt;
    return own && own->x >= 0 && own->x <= 1 && own->y >= 0 && own->y <= 1;
}

std::optional<size_t> outlineAt(const Marked& photo, density::Point point)
{
    for (size_t i = 0; i < photo.outlines.size(); ++i)
        if (holds(photo.outlines[i].corners, point))
            return i;
    return std::nullopt;
}

std::optional<size_t> outlineOf(const Marked& photo, size_t mark)
{
    return outlineAt(photo, density::middle(photo.marks[mark].corners));
}

qint64 printAt(const Marked& photo, density::Point point, qint64 only)
{
    if (photo.outlines.empty())
        return only;
    const auto outline = outlineAt(photo, point);
    return outline ? photo.outlines[*outline].print : 0;
}

qint64 printOf(const Marked& photo, size_t mark, qint64 only)
{
    return printAt(photo, density::middle(photo.marks[mark].corners), only);
}

qint64 printOf(const Marked& photo, const Spot& spot, qint64 only)
{
    return spot.kind == Spot::Kind::Region ? printOf(photo, spot.of, only)
                                           : printAt(photo, density::middle(photo.rows[spot.of].corners), only);
}

density::Corners drawnBetween(const Marked& photo, density::Point from, density::Point to)
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
