#include "core/density/propose_signs.h"

#include "core/density/words.h"

#include <QPainter>
#include <algorithm>
#include <cmath>

namespace washfast::density {

namespace {

constexpr double leastSheet = 60; // photo pixels on the shorter side

/// What is measured of a photo: its response, and the marked regions by name.
struct Measured {
    ChosenResponse response;
    std::optional<RegionReading> paper, covered, white;
    QStringList notes;
};

Result<std::optional<Measured>> measured(const SheetPhoto& sheet)
{
    Marks marks;
    const auto add = [&](const char* name, const std::optional<Corners>& corners, bool paper) {
        if (corners)
            marks.regions.push_back({ QLatin1String(name), *corners, {}, {}, paper });
    };
    add("paper", sheet.paper, true);
    add("covered", sheet.covered, false);
    add("white", sheet.white, false);
    if (!sheet.paper)
        return std::optional<Measured> {};
    auto measurement = measure(*sheet.photo, marks);
    if (!measurement)
        return measurement.error();
    Measured out;
    out.response = measurement->response;
    out.notes = sheet.photo->notes;
    for (const auto& region : measurement->regions)
        (region.name == QLatin1String("paper")            ? out.paper
                : region.name == QLatin1String("covered") ? out.covered
                                                          : out.white)
            = region;
    return std::optional(std::move(out));
}

Outcome sound(const SheetPhoto& sheet, const QString& which)
{
    if (!sheet.photo)
        return Error { Trouble::BadInput, Words::tr("There is no photo."), which };
    if (!isConvex(sheet.corners))
        return Error { Trouble::BadInput,
            Words::tr("The four corners must go round the sheet without crossing: top left, top right, bottom right, "
                      "bottom left."),
            which };
    for (size_t i = 0; i < 4; ++i) {
        const auto &a = sheet.corners[i], &b = sheet.corners[(i + 1) % 4];
        if (std::hypot(b.x - a.x, b.y - a.y) < leastSheet)
            return Error { Trouble::BadInput,
                Words::tr("A side of the marked sheet has fewer than %1 pixels: too few to see signs in.")
                    .arg(leastSheet),
                which };
    }
    return Done {};
}

/// Part of the straightened sheet around corners in the photo; all of it without them.
SheetPicture cutOut(const SheetPicture& sheet, const Perspective& onto, const std::optional<Corners>& corners)
{
    if (!corners)
        return sheet;
    double left = 1, top = 1, right = 0, bottom = 0;
    for (const auto& corner : *corners)
        if (const auto own = onto.toOwn(corner)) {
            left = std::min(left, own->x);
            right = std::max(right, own->x);
            top = std::min(top, own->y);
            bottom = std::max(bottom, own->y);
        }
    const int x = int(std::floor(left * sheet.width)), y = int(std::floor(top * sheet.height));
    return sheet.part(x, y, int(std::ceil(right * sheet.width)) - x, int(std::ceil(bottom * sheet.height)) - y);
}

/// The same with across and down changed, for an edge that runs from side to side.
SheetPicture turned(const SheetPicture& sheet)
{
    SheetPicture out = sheet;
    std::swap(out.width, out.height);
    for (int y = 0; y < out.height; ++y)
        for (int x = 0; x < out.width; ++x)
            out.at(x, y) = sheet.at(y, x);
    return out;
}

/// How much the columns differ from one end to the other.
double step(const SheetPicture& sheet)
{
    const int end = std::max(1, sheet.width / 8);
    return std::abs(
        sheet.part(0, 0, end, sheet.height).mean() - sheet.part(sheet.width - end, 0, end, sheet.height).mean());
}

QImage outlined(QImage picture, const Perspective& onto, std::initializer_list<std::optional<Corners>> regions)
{
    picture = picture.convertToFormat(QImage::Format_RGB32);
    QPainter painter(&picture);
    for (const auto& region : regions) {
        if (!region)
            continue;
        QPolygonF outline;
        for (const auto& corner : *region)
            if (const auto own = onto.toOwn(corner))
                outline << QPointF(own->x * picture.width(), own->y * picture.height());
        painter.setPen(QPen(Qt::white, 3));
        painter.drawPolygon(outline);
        painter.setPen(QPen(Qt::black, 1));
        painter.drawPolygon(outline);
    }
    return picture;
}

class Proposing {
public:
    Proposing(const SignQuestion& question, const Watch& watch)
        : question_(question)
        , watch_(watch)
    {
    }
    Result<Proposals> run();

private:
    void looked(SignKind kind, double limit, std::optional<ProposedSign> sign)
    {
        out_.looked.push_back({ kind, NotLooked::No, sign.has_value(), limit });
        if (!sign)
            return;
        const auto brush
            = kind == SignKind::Stripes ? brushWay(sign->direction_deg, question_.brush_deg) : BrushWay::Unknown;
        out_.found.push_back({ std::move(*sign), brush, limit });
    }
    void notLooked(SignKind kind, NotLooked why, double limit) { out_.looked.push_back({ kind, why, false, limit }); }
    void lookInTheSheet(const Perspective& onto);
    void lookAtRegions(const Perspective& onto, const LabPicture& colours);
    [[nodiscard]] Outcome lookForLoss();

    const SignQuestion& question_;
    const Watch& watch_;
    std::optional<Measured> measured_;
    SheetPicture density_;
    Proposals out_;
};

void Proposing::lookInTheSheet(const Perspective& onto)
{
    const auto even = cutOut(density_, onto, question_.now.even);
    constexpr int leastPixels = 32;
    const bool small = even.width < leastPixels || even.height < leastPixels;
    if (small)
        notLooked(SignKind::Stripes, NotLooked::TooSmall, 0);
    else {
        double least = 0;
        auto stripes = findStripes(even, &least);
        looked(SignKind::Stripes, least, std::move(stripes));
    }
    // Mottle is told from squares of 0.7 mm, twelve a side at least.
    if (small || std::min(even.width, even.height) * even.mm_per_pixel < 9)
        notLooked(SignKind::Mottle, NotLooked::TooSmall, leastMottle);
    else
        looked(SignKind::Mottle, leastMottle, findMottle(even));
    if (small)
        notLooked(SignKind::LighterCentre, NotLooked::TooSmall, leastCentre);
    else
        looked(SignKind::LighterCentre, leastCentre, findLighterCentre(even));
    if (!question_.now.edge)
        notLooked(SignKind::BleedingEdge, NotLooked::NoEdge, leastEdge);
    else {
        auto across = cutOut(density_, onto, question_.now.edge);
        auto down = turned(across);
        auto& cut = step(down) > step(across) ? down : across;
        if (cut.width < 8 || cut.height < 2)
            notLooked(SignKind::BleedingEdge, NotLooked::TooSmall, leastEdge);
        else
            looked(SignKind::BleedingEdge, leastEdge, findBleedingEdge(cut));
    }
}

void Proposing::lookAtRegions(const Perspective& onto, const LabPicture& colours)
{
    const auto& now = question_.now;
    if (!measured_ || !measured_->paper)
        notLooked(SignKind::Fog, NotLooked::NoPaper, leastFog);
    else if (!measured_->covered)
        notLooked(SignKind::Fog, NotLooked::NoCovered, leastFog);
    else {
        auto fog = findFog(*measured_->covered, *measured_->paper);
        if (fog)
            fog->picture
                = outlined(density_.picture(-0.02, std::max(0.2, 3 * fog->strength)), onto, { now.paper, now.covered });
        looked(SignKind::Fog, leastFog, std::move(fog));
    }
    if (!measured_ || !measured_->paper)
        notLooked(SignKind::Stain, NotLooked::NoPaper, leastStain);
    else if (!measured_->white)
        notLooked(SignKind::Stain, NotLooked::NoWhite, leastStain);
    else {
        auto stain = findStain(*measured_->white, *measured_->paper);
        if (stain) {
            SheetPicture yellow;
            yellow.width = colours.width;
            yellow.height = colours.height;
            yellow.mm_per_pixel = colours.mm_per_pixel;
            for (const auto& lab : colours.values)
                yellow.values.push_back(lab.b - measured_->paper->lab->b);
            stain->picture
                = outlined(yellow.picture(0, std::max(10.0, 2 * stain->strength)), onto, { now.paper, now.white });
        }
        looked(SignKind::Stain, leastStain, std::move(stain));
    }
}

Outcome Proposing::lookForLoss()
{
    if (!question_.before) {
        notLooked(SignKind::Loss, NotLooked::NoBefore, leastLoss);
        return Done {};
    }
    const auto& before = *question_.before;
    const auto onto = Perspective::ontoCorners(before.corners);
    auto measurement = measured(before);
    if (!measurement)
        return measurement.error();
    out_.one_zero = measured_ && *measurement;
    const auto* response = out_.one_zero ? &(*measurement)->response : nullptr;
    const auto first = straighten(*before.photo, *onto, question_.width_mm, question_.height_mm, question_.channel,
        response, 400, watch_.part(0.5, 0.65));
    if (watch_.cancelled())
        return stopped();
    const auto placed = registerPictures(first, density_, watch_.part(0.65, 0.95));
    if (watch_.cancelled())
        return stopped();
    if (placed)
        out_.alike = placed->alike;
    looked(SignKind::Loss, leastLoss,
        findLossThere(first, placed.value_or(Registration {}).resampled(density_, first), { out_.one_zero }));
    return Done {};
}

Result<Proposals> Proposing::run()
{
    if (auto good = sound(question_.now, Words::tr("photo")); !good)
        return good.error();
    if (question_.before)
        if (auto good = sound(*question_.before, Words::tr("photo before the rinse")); !good)
            return good.error();
    if (!(question_.width_mm > 0) || !(question_.height_mm > 0))
        return Error { Trouble::BadInput, Words::tr("The size of the sheet is needed."), {} };
    const auto onto = Perspective::ontoCorners(question_.now.corners);
    auto measurement = measured(question_.now);
    if (!measurement)
        return measurement.error();
    measured_ = std::move(*measurement);
    if (measured_)
        out_.notes = measured_->notes;
    const auto* response = measured_ ? &measured_->response : nullptr;
    density_ = straighten(*question_.now.photo, *onto, question_.width_mm, question_.height_mm, question_.channel,
        response, 400, watch_.part(0, 0.2));
    const auto colours = straightenColour(
        *question_.now.photo, *onto, question_.width_mm, question_.height_mm, response, 400, watch_.part(0.2, 0.4));
    if (watch_.cancelled())
        return stopped();
    out_.sheet = colours.picture();
    lookInTheSheet(*onto);
    lookAtRegions(*onto, colours);
    watch_.tell(0.5);
    if (watch_.cancelled())
        return stopped();
    if (auto done = lookForLoss(); !done)
        return done.error();
    watch_.tell(1);
    return std::move(out_);
}

} // namespace

BrushWay brushWay(std::optional<double> stripes_deg, std::optional<double> brush_deg)
{
    if (!stripes_deg || !brush_deg)
        return BrushWay::Unknown;
    const double off = std::abs(std::remainder(*stripes_deg - *brush_deg, 180));
    return off <= 20 ? BrushWay::Along : off >= 70 ? BrushWay::Across : BrushWay::Aslant;
}

Result<Proposals> proposeSigns(const SignQuestion& question, const Watch& watch)
{
    return Proposing(question, watch).run();
}

} // namespace washfast::density
