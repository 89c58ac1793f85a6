#include "core/density/colour_difference.h"

#include "core/density/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::density {

namespace {

constexpr double spotSide = 4; // mm, of spots that are found

Referenced known(const ComparedSheet& sheet)
{
    return sheet.white && sheet.grey ? Referenced::Cards : sheet.paper ? Referenced::Paper : Referenced::Nothing;
}

/// The response of the photo by what both photos have; none when that is nothing.
Result<std::optional<ChosenResponse>> responseOf(
    const ComparedSheet& sheet, Referenced by, const ColourQuestion& question, QStringList& notes)
{
    if (by == Referenced::Nothing)
        return std::optional<ChosenResponse> {};
    Marks marks;
    const auto card = [&](const QString& name, const Corners& corners, double density) {
        marks.regions.push_back({ name, corners, ChannelDensities { density, density, density }, {}, false });
    };
    if (by == Referenced::Cards) {
        card(QStringLiteral("white"), *sheet.white, question.white_density);
        card(QStringLiteral("grey"), *sheet.grey, question.grey_density);
    } else
        marks.regions.push_back({ QStringLiteral("paper"), *sheet.paper, {}, {}, true });
    auto measurement = measure(*sheet.photo, marks);
    if (!measurement)
        return measurement.error();
    for (const auto& note : sheet.photo->notes)
        if (!notes.contains(note))
            notes << note;
    return std::optional(measurement->response);
}

struct Planes {
    SheetPicture l, a, b;
    explicit Planes(const LabPicture& of)
    {
        for (auto* plane : { &l, &a, &b }) {
            plane->width = of.width;
            plane->height = of.height;
            plane->mm_per_pixel = of.mm_per_pixel;
        }
        for (const auto& lab : of.values) {
            l.values.push_back(lab.l);
            a.values.push_back(lab.a);
            b.values.push_back(lab.b);
        }
    }
};

struct Box {
    int left = 0, top = 0, width = 0, height = 0;
};

std::optional<Lab> averageIn(const LabPicture& picture, const Box& box)
{
    Lab sum;
    double n = 0;
    for (int y = std::max(0, box.top); y < std::min(picture.height, box.top + box.height); ++y)
        for (int x = std::max(0, box.left); x < std::min(picture.width, box.left + box.width); ++x) {
            const auto& lab = picture.at(x, y);
            if (!std::isfinite(lab.l))
                continue;
            sum = { sum.l + lab.l, sum.a + lab.a, sum.b + lab.b };
            n += 1;
        }
    if (n == 0)
        return {};
    return Lab { sum.l / n, sum.a / n, sum.b / n };
}

std::optional<Box> boxAround(const LabPicture& picture, const Perspective& onto, const Corners& corners)
{
    double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
    for (const auto& corner : corners) {
        const auto own = onto.toOwn(corner);
        if (!own)
            return {};
        left = std::min(left, own->x * picture.width);
        right = std::max(right, own->x * picture.width);
        top = std::min(top, own->y * picture.height);
        bottom = std::max(bottom, own->y * picture.height);
    }
    const Box box { int(std::lround(left)), int(std::lround(top)), std::max(1, int(std::lround(right - left))),
        std::max(1, int(std::lround(bottom - top))) };
    if (box.left + box.width <= 0 || box.top + box.height <= 0 || box.left >= picture.width
        || box.top >= picture.height)
        return {};
    return box;
}

class Comparing {
public:
    Comparing(const ColourQuestion& question, const Watch& watch)
        : question_(question)
        , watch_(watch)
    {
    }
    Result<ColourDifference> run();

private:
    [[nodiscard]] Outcome straightenBoth();
    [[nodiscard]] Outcome lay();
    void subtract();
    /// The darkest (or lightest) place of the first that is in the second too.
    [[nodiscard]] std::optional<Box> extreme(bool dark) const;
    [[nodiscard]] std::optional<SpotDifference> spot(
        const std::optional<Corners>& first, const std::optional<Corners>& second, bool dark) const;

    const ColourQuestion& question_;
    const Watch& watch_;
    std::optional<Perspective> onto_first_, onto_second_;
    LabPicture first_, second_, laid_; // laid_: the second as seen from the first
    Registration placed_;
    ColourDifference out_;
};

Outcome Comparing::straightenBoth()
{
    for (const auto* sheet : { &question_.first, &question_.second }) {
        const auto which = sheet == &question_.first ? Words::tr("first photo") : Words::tr("second photo");
        if (!sheet->photo)
            return Error { Trouble::BadInput, Words::tr("There is no photo."), which };
        auto onto = Perspective::ontoCorners(sheet->corners);
        if (!onto)
            return Error { Trouble::BadInput,
                Words::tr(
                    "The four corners must go round the sheet without crossing: top left, top right, bottom right, "
                    "bottom left."),
                which };
        (sheet == &question_.first ? onto_first_ : onto_second_) = onto;
    }
    if (!(question_.width_mm > 0) || !(question_.height_mm > 0))
        return Error { Trouble::BadInput, Words::tr("The size of the sheet is needed."), {} };
    out_.referenced = std::min(known(question_.first), known(question_.second));
    if (out_.referenced == Referenced::Paper && (!question_.first.paper || !question_.second.paper))
        out_.referenced = Referenced::Nothing; // one has cards, the other paper
    for (const auto* sheet : { &question_.first, &question_.second }) {
        const bool one = sheet == &question_.first;
        auto response = responseOf(*sheet, out_.referenced, question_, out_.notes);
        if (!response)
            return response.error();
        (one ? first_ : second_) = straightenColour(*sheet->photo, one ? *onto_first_ : *onto_second_,
            question_.width_mm, question_.height_mm, *response ? &**response : nullptr, 400,
            one ? watch_.part(0, 0.25) : watch_.part(0.25, 0.5));
    }
    return watch_.cancelled() ? Outcome(stopped()) : Outcome(Done {});
}

Outcome Comparing::lay()
{
    out_.laid = LaidBy::Outline;
    if (question_.by == LaidBy::Spot) {
        if (!question_.first.spot || !question_.second.spot)
            return Error { Trouble::BadInput, Words::tr("Mark the common spot in both photos first."), {} };
        const auto here = onto_first_->toOwn(middle(*question_.first.spot));
        const auto there = onto_second_->toOwn(middle(*question_.second.spot));
        if (here && there) {
            placed_ = Registration::shifted((there->x - here->x) * first_.width, (there->y - here->y) * first_.height);
            out_.laid = LaidBy::Spot;
        }
    } else if (question_.by == LaidBy::Details) {
        if (const auto found = registerPictures(first_.lightness(), second_.lightness(), watch_.part(0.5, 0.85))) {
            placed_ = *found;
            out_.alike = found->alike;
            out_.laid = LaidBy::Details;
        } else
            out_.details_failed = true;
    }
    if (watch_.cancelled())
        return stopped();
    const Planes planes(second_);
    const auto seen_from = first_.lightness(); // its size is what counts
    const auto l = placed_.resampled(planes.l, seen_from), a = placed_.resampled(planes.a, seen_from),
               b = placed_.resampled(planes.b, seen_from);
    laid_ = first_;
    for (size_t i = 0; i < laid_.values.size(); ++i)
        laid_.values[i] = { l.values[i], a.values[i], b.values[i] };
    return Done {};
}

void Comparing::subtract()
{
    out_.map = first_.lightness();
    std::vector<double> known;
    double sum = 0;
    for (size_t i = 0; i < laid_.values.size(); ++i) {
        out_.map.values[i] = std::nan("");
        if (!std::isfinite(laid_.values[i].l))
            continue;
        const double difference = ciede2000(first_.values[i], laid_.values[i]);
        out_.map.values[i] = difference;
        known.push_back(difference);
        sum += difference;
    }
    if (known.empty())
        return;
    out_.covered = double(known.size()) / double(laid_.values.size());
    out_.mean = sum / double(known.size());
    out_.largest = *std::max_element(known.begin(), known.end());
    out_.ninety_fifth = quantile(std::move(known), 0.95);
}

std::optional<Box> Comparing::extreme(bool dark) const
{
    const int side = std::max(2, int(std::lround(spotSide / first_.mm_per_pixel)));
    std::optional<Box> best;
    double most = -1e9;
    for (int y = 0; y + side <= first_.height; y += side)
        for (int x = 0; x + side <= first_.width; x += side) {
            bool whole = true;
            double sum = 0;
            for (int i = 0; i < side * side && whole; ++i) {
                const int px = x + i % side, py = y + i / side;
                whole = std::isfinite(laid_.at(px, py).l);
                sum += first_.at(px, py).l;
            }
            if (whole && (dark ? -sum : sum) > most) {
                most = dark ? -sum : sum;
                best = Box { x, y, side, side };
            }
        }
    return best;
}

std::optional<SpotDifference> Comparing::spot(
    const std::optional<Corners>& first, const std::optional<Corners>& second, bool dark) const
{
    SpotDifference out;
    out.marked = first.has_value();
    const auto box = first ? boxAround(first_, *onto_first_, *first) : extreme(dark);
    if (!box)
        return {};
    const auto other = first && second ? boxAround(second_, *onto_second_, *second) : std::nullopt;
    const auto here = averageIn(first_, *box);
    const auto there = other ? averageIn(second_, *other) : averageIn(laid_, *box);
    if (!here || !there)
        return {};
    out.first = *here;
    out.second = *there;
    out.difference = ciede2000(*here, *there);
    out.where = { (box->left + box->width / 2.0) / first_.width, (box->top + box->height / 2.0) / first_.height };
    return out;
}

Result<ColourDifference> Comparing::run()
{
    if (auto done = straightenBoth(); !done)
        return done.error();
    if (auto done = lay(); !done)
        return done.error();
    subtract();
    watch_.tell(0.95);
    if (out_.covered == 0)
        return Error { Trouble::BadInput, Words::tr("The two do not overlap: look at the corners and the common spot."),
            {} };
    out_.deepest = spot(question_.first.deepest, question_.second.deepest, true);
    out_.paper = spot(question_.first.paper, question_.second.paper, false);
    out_.first = first_.picture();
    auto shown = laid_;
    for (auto& lab : shown.values)
        if (!std::isfinite(lab.l))
            lab = { 50, 0, 0 };
    out_.second = shown.picture();
    watch_.tell(1);
    return std::move(out_);
}

} // namespace

double quantile(std::vector<double> values, double share)
{
    std::sort(values.begin(), values.end());
    const double at = share * double(values.size() - 1);
    const auto below = size_t(at);
    const auto above = std::min(below + 1, values.size() - 1);
    return values[below] + (at - double(below)) * (values[above] - values[below]);
}

Result<ColourDifference> compareColours(const ColourQuestion& question, const Watch& watch)
{
    return Comparing(question, watch).run();
}

} // namespace washfast::density
