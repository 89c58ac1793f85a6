#include "ui/reading/signs_words.h"

#include "ui/reading/words.h"

#include <QLocale>
#include <cmath>

namespace washfast::ui {

namespace {

using density::SignKind;

QString number(double value, int digits)
{
    return QLocale().toString(value, 'f', digits);
}

int digitsOf(SignKind kind)
{
    return kind == SignKind::Stain || kind == SignKind::BleedingEdge ? 1 : kind == SignKind::Stripes ? 3 : 2;
}

QString directionWords(double degrees)
{
    constexpr double near = 10;
    const auto off = [&](double from) { return std::abs(std::remainder(degrees - from, 180)); };
    return (off(0) <= near    ? ReadingWords::tr("from side to side (%1°)")
            : off(90) <= near ? ReadingWords::tr("up and down (%1°)")
            : degrees < 90    ? ReadingWords::tr("falling to the right (%1°)")
                              : ReadingWords::tr("rising to the right (%1°)"))
        .arg(number(degrees, 0));
}

QString unitOf(SignKind kind)
{
    return kind == SignKind::Stain       ? ReadingWords::tr("b*")
        : kind == SignKind::BleedingEdge ? ReadingWords::tr("mm")
                                         : ReadingWords::tr("density");
}

} // namespace

QString signKey(SignKind kind)
{
    switch (kind) {
    case SignKind::Stripes:
        return QStringLiteral("stripes");
    case SignKind::Mottle:
        return QStringLiteral("mottle");
    case SignKind::Fog:
        return QStringLiteral("fog");
    case SignKind::Stain:
        return QStringLiteral("stain");
    case SignKind::BleedingEdge:
        return QStringLiteral("bleeding");
    case SignKind::LighterCentre:
        return QStringLiteral("pale_centre");
    case SignKind::Loss:
        return QStringLiteral("loss");
    }
    return {};
}

QString signWord(SignKind kind)
{
    switch (kind) {
    case SignKind::Stripes:
        return ReadingWords::tr("Stripes");
    case SignKind::Mottle:
        return ReadingWords::tr("Mottle");
    case SignKind::Fog:
        return ReadingWords::tr("Fog in the covered part");
    case SignKind::Stain:
        return ReadingWords::tr("Stain in the whites");
    case SignKind::BleedingEdge:
        return ReadingWords::tr("Bleeding edge");
    case SignKind::LighterCentre:
        return ReadingWords::tr("Centre paler than edge");
    case SignKind::Loss:
        return ReadingWords::tr("Blue lost in the rinse");
    }
    return {};
}

QString strengthNumber(const density::Proposal& proposal)
{
    const auto& sign = proposal.sign;
    const auto value = number(sign.strength, digitsOf(sign.kind));
    switch (sign.kind) {
    case SignKind::Stripes:
        return ReadingWords::tr("%1 density from the middle to the crest").arg(value);
    case SignKind::Mottle:
        return ReadingWords::tr("%1 density, standard deviation of the blotches").arg(value);
    case SignKind::Fog:
        return ReadingWords::tr("%1 density above the paper").arg(value);
    case SignKind::Stain:
        return ReadingWords::tr("b* %1 above the paper").arg(value);
    case SignKind::BleedingEdge:
        return ReadingWords::tr("%1 mm from 10 to 90 % of the edge").arg(value);
    case SignKind::LighterCentre:
        return ReadingWords::tr("%1 density lighter than the outer part").arg(value);
    case SignKind::Loss:
        return ReadingWords::tr("%1 density lost over %2 % of the sheet")
            .arg(value, number(100 * sign.share.value_or(1), 0));
    }
    return value;
}

QString strengthWords(const density::Proposal& proposal)
{
    const double ratio = proposal.limit > 0 ? proposal.sign.strength / proposal.limit : 1;
    const auto limit
        = QStringLiteral("%1 %2").arg(number(proposal.limit, digitsOf(proposal.sign.kind)), unitOf(proposal.sign.kind));
    return (ratio < 1.5 ? ReadingWords::tr("just above what is proposed (%1)")
            : ratio < 3 ? ReadingWords::tr("clearly above what is proposed (%1)")
                        : ReadingWords::tr("far above what is proposed (%1)"))
        .arg(limit);
}

QString signDetails(const density::Proposal& proposal)
{
    QStringList parts;
    const auto& sign = proposal.sign;
    if (sign.spacing_mm)
        parts << ReadingWords::tr("every %1 mm").arg(number(*sign.spacing_mm, 1));
    if (sign.direction_deg)
        parts << directionWords(*sign.direction_deg);
    if (proposal.brush == density::BrushWay::Along)
        parts << ReadingWords::tr("along the brush strokes");
    if (proposal.brush == density::BrushWay::Across)
        parts << ReadingWords::tr("across the brush strokes");
    if (proposal.brush == density::BrushWay::Aslant)
        parts << ReadingWords::tr("aslant to the brush strokes");
    if (sign.worst)
        parts << ReadingWords::tr("most at %1\u00a0% from the left, %2\u00a0% from the top")
                     .arg(number(100 * sign.worst->x, 0), number(100 * sign.worst->y, 0));
    return parts.join(QStringLiteral(", "));
}

QString pictureWords(SignKind kind)
{
    switch (kind) {
    case SignKind::Stripes:
    case SignKind::Mottle:
        return ReadingWords::tr("Slow changes taken off: black is darker, white is lighter.");
    case SignKind::Fog:
        return ReadingWords::tr("Density above the paper; the two regions are outlined.");
    case SignKind::Stain:
        return ReadingWords::tr("Yellowness (b*) above the paper: black is yellow. The two regions are outlined.");
    case SignKind::BleedingEdge:
        return ReadingWords::tr("The cut across the edge.");
    case SignKind::LighterCentre:
        return ReadingWords::tr("Density: black is dark.");
    case SignKind::Loss:
        return ReadingWords::tr("White: nothing was lost. Black: the most.");
    }
    return {};
}

QString notFoundWords(const density::Looked& looked)
{
    using density::NotLooked;
    const auto name = signWord(looked.kind);
    switch (looked.why) {
    case NotLooked::NoPaper:
        return ReadingWords::tr("%1: not looked for, because no bare paper is marked.").arg(name);
    case NotLooked::NoCovered:
        return ReadingWords::tr("%1: not looked for, because no covered part is marked.").arg(name);
    case NotLooked::NoWhite:
        return ReadingWords::tr("%1: not looked for, because no white of the print is marked.").arg(name);
    case NotLooked::NoEdge:
        return ReadingWords::tr("%1: not looked for, because no edge is marked.").arg(name);
    case NotLooked::NoBefore:
        return ReadingWords::tr("%1: not looked for, because no photo before the rinse is chosen.").arg(name);
    case NotLooked::TooSmall:
        return ReadingWords::tr("%1: not looked for, because the part is too small.").arg(name);
    case NotLooked::No:
        break;
    }
    const auto limit = number(looked.limit, digitsOf(looked.kind));
    switch (looked.kind) {
    case SignKind::Stripes:
        return ReadingWords::tr(
            "%1: none found at spacings of %2 mm to a quarter of the part; from about %3 density (middle to "
            "crest) they would have been.")
            .arg(name, number(density::leastStripeSpacing, 0), limit);
    case SignKind::Mottle:
        return ReadingWords::tr("%1: none found; blotches of 1 to 8 mm are proposed from %2 density.").arg(name, limit);
    case SignKind::Fog:
        return ReadingWords::tr("%1: none found; it is proposed from %2 density above the paper.").arg(name, limit);
    case SignKind::Stain:
        return ReadingWords::tr("%1: none found; it is proposed from b* %2 above the paper.").arg(name, limit);
    case SignKind::BleedingEdge:
        return ReadingWords::tr("%1: none found; it is proposed from %2 mm on.").arg(name, limit);
    case SignKind::LighterCentre:
        return ReadingWords::tr("%1: not so; it is proposed from %2 density.").arg(name, limit);
    case SignKind::Loss:
        return ReadingWords::tr("%1: none found; it is proposed when a part of 2 mm lost %2 density.").arg(name, limit);
    }
    return {};
}

QString stationOf(SignKind kind, const QString& stage)
{
    if (kind == SignKind::Loss)
        return QStringLiteral("rinse");
    if (stage == QLatin1String("coated"))
        return QStringLiteral("coat");
    if (stage == QLatin1String("before_rinse"))
        return QStringLiteral("expose");
    if (stage == QLatin1String("wet"))
        return QStringLiteral("rinse");
    if (stage == QLatin1String("dry") || stage == QLatin1String("day_after"))
        return QStringLiteral("read");
    return {};
}

} // namespace washfast::ui
