#include "core/drying/moisture.h"

#include "core/drying/never.h"
#include "core/drying/words.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::drying {

namespace {

constexpr double knownSolidsWithin = 1.0; // per cent of mass; of a mix that says

/// Masses of the coat's water and of all that can be taken from one print's weighings.
struct Coat {
    double bare_g, coat_g, solids, solids_within; // solids as a share
    Evidence evidence;
    [[nodiscard]] double water_g() const { return coat_g * (1.0 - solids); }
    [[nodiscard]] double moisture_pct(double mass_g) const
    {
        return 100.0 * ((mass_g - bare_g) - coat_g * solids) / water_g();
    }
};

std::optional<Coat> coatOf(const Sheet& sheet, const Assumptions& assumed)
{
    const auto bare = sheet.bare_g.number();
    const auto coated = sheet.coated_g.number();
    if (!bare || !coated || *coated <= *bare)
        return std::nullopt;
    Coat coat { *bare, *coated - *bare, assumed.solids_pct / 100.0, assumed.solids_within_pct / 100.0,
        weaker(sheet.bare_g.evidence, sheet.coated_g.evidence) };
    if (const auto solids = sheet.solids_pct.number()) {
        coat.solids = *solids / 100.0;
        coat.solids_within = knownSolidsWithin / 100.0;
        coat.evidence = weaker(coat.evidence, sheet.solids_pct.evidence);
    } else {
        coat.evidence = Evidence::Assumed;
    }
    if (!(coat.solids >= 0.0 && coat.solids < 1.0))
        return std::nullopt;
    return coat;
}

bool isRedampened(const Sheet& sheet)
{
    return sheet.redampened.yes().value_or(false);
}

bool isNow(const SheetWeighing& weighing)
{
    return weighing.state != QLatin1String("bare") && weighing.state != QLatin1String("coated")
        && weighing.state != QLatin1String("oven_dry");
}

/// The last weighing of the wet or drying sheet in (from, moment].
const SheetWeighing* lastWeighing(const Sheet& sheet, const std::optional<Instant>& from, const Instant& moment)
{
    const SheetWeighing* last = nullptr;
    for (const auto& weighing : sheet.weighings)
        if (isNow(weighing) && weighing.at && *weighing.at <= moment && (!from || *weighing.at > *from))
            last = &weighing;
    return last;
}

const SheetWeighing* weighingNear(
    const Sheet& sheet, const std::optional<Instant>& from, const Instant& moment, const Assumptions& assumed)
{
    const auto* last = lastWeighing(sheet, from, moment);
    return last && minutesBetween(*last->at, moment) <= assumed.counts_for_min ? last : nullptr;
}

std::optional<Moisture> byMass(const Sheet& sheet, const SheetWeighing& weighing, const Assumptions& assumed)
{
    return moistureOfMass(sheet, knownNumber(weighing.mass_g, weighing.evidence), assumed);
}

std::optional<Moisture> byTouch(const Sheet& sheet, const Known& state, const Assumptions& assumed)
{
    const auto text = state.text();
    const auto range = text ? assumed.touch.of(*text) : std::nullopt;
    if (!range)
        return std::nullopt;
    // What was felt is an estimate; what a touch means in water is an assumption.
    return Moisture { *range, Evidence::Assumed, MoistureFrom::Touch, isRedampened(sheet) };
}

Evidence evidenceOf(const Curve& curve, double minutes, const Coat& coat)
{
    // Between weighings the curve only fills in; beyond them, a few weighings say little of its shape.
    const bool inside = minutes <= curve.weighedUntil_min();
    const bool shape_known = curve.model() != CurveModel::FirstOrder;
    return weaker(coat.evidence, inside || shape_known ? Evidence::Estimated : Evidence::Assumed);
}

std::optional<Moisture> byCurve(
    const Sheet& sheet, const Instant& dried_until, const Instant& moment, const Assumptions& assumed)
{
    const auto coat = coatOf(sheet, assumed);
    const auto from = sheet.dryingFrom();
    const auto curve = curveOf(sheet, assumed);
    if (!coat || !from || !curve || moment < *from)
        return std::nullopt;
    const double minutes = minutesBetween(*from, dried_until);
    auto pct = curve->at(minutes);
    // It may have gone on drying after it was taken away: that is the low end.
    pct.low = std::min(pct.low, curve->at(minutesBetween(*from, moment)).low);
    return Moisture { pct, evidenceOf(*curve, minutes, *coat), MoistureFrom::Curve, isRedampened(sheet) };
}

/// Under film no drying is assumed: what was last weighed, else all of the water.
Moisture underFilm(const Sheet& sheet, const Instant& moment, const Assumptions& assumed)
{
    if (const auto* last = lastWeighing(sheet, {}, moment))
        if (auto weighed = byMass(sheet, *last, assumed)) {
            weighed->evidence = Evidence::Assumed;
            weighed->from = MoistureFrom::Covered;
            weighed->pct.low = 0.0;
            weighed->pct.likely = std::clamp(weighed->pct.likely, 0.0, 100.0);
            weighed->pct.high = std::clamp(weighed->pct.high, weighed->pct.likely, 100.0);
            return *weighed;
        }
    return { { 0.0, 100.0, 100.0 }, Evidence::Assumed, MoistureFrom::Covered, isRedampened(sheet) };
}

bool isCovered(const Sheet& sheet)
{
    return sheet.covered.value_or(false);
}

} // namespace

QString moistureFromLabel(MoistureFrom from)
{
    switch (from) {
    case MoistureFrom::Weighing:
        return Words::tr("by weighing");
    case MoistureFrom::Curve:
        return Words::tr("by the curve through its weighings");
    case MoistureFrom::Touch:
        return Words::tr("by touch");
    case MoistureFrom::Covered:
        return Words::tr("under film, no drying assumed");
    case MoistureFrom::Learnt:
        return Words::tr("as other sheets dried");
    }
    return {};
}

std::optional<Moisture> moistureOfMass(const Sheet& sheet, const Known& now_g, const Assumptions& assumed)
{
    const auto coat = coatOf(sheet, assumed);
    const auto now = now_g.number();
    if (!coat || !now)
        return std::nullopt;
    const double likely = coat->moisture_pct(*now);
    // Slopes of the moisture by the three masses and by the solids.
    const double share = (*now - coat->bare_g) / coat->coat_g;
    const double by_mass = 100.0 / coat->water_g();
    const double by_solids = 100.0 * (share - 1.0) / std::pow(1.0 - coat->solids, 2.0);
    const double masses
        = assumed.weighing_within_g * by_mass * std::sqrt(1.0 + std::pow(share - 1.0, 2.0) + share * share);
    const double half = std::hypot(masses, by_solids * coat->solids_within);
    return Moisture { { std::max(likely - half, std::min(0.0, likely)), likely,
                          std::min(likely + half, std::max(100.0, likely)) },
        weaker(coat->evidence, now_g.evidence), MoistureFrom::Weighing, isRedampened(sheet) };
}

std::vector<Weighed> weighingsOf(const Sheet& sheet, const Assumptions& assumed)
{
    const auto coat = coatOf(sheet, assumed);
    const auto from = sheet.dryingFrom();
    std::vector<Weighed> points;
    if (!coat || !from)
        return points;
    for (const auto& weighing : sheet.weighings) {
        const bool dries
            = weighing.state == QLatin1String("drying") || weighing.state == QLatin1String("before_expose");
        auto at = weighing.at;
        if (!at && weighing.state == QLatin1String("before_expose"))
            at = sheet.dry_end; // weighed when it was taken away
        if (dries && at && !(sheet.expose_start && *at > *sheet.expose_start))
            points.push_back({ minutesBetween(*from, sheet.dryingUntil(*at)), coat->moisture_pct(weighing.mass_g) });
    }
    return points;
}

std::optional<Curve> curveOf(const Sheet& sheet, const Assumptions& assumed)
{
    const auto coat = coatOf(sheet, assumed);
    const auto points = weighingsOf(sheet, assumed);
    if (!coat || points.empty())
        return std::nullopt;
    CurveOptions options;
    options.residual_pct = assumed.residual_pct;
    options.residual_within_pct = assumed.residual_within_pct;
    options.weighing_within_pct = 100.0 * std::sqrt(2.0) * assumed.weighing_within_g / coat->water_g();
    const auto fitted = fitCurve(points, options);
    if (const auto* curve = std::get_if<Curve>(&fitted))
        return *curve;
    return std::nullopt;
}

std::optional<Moisture> moistureAtExpose(const Sheet& sheet, const Assumptions& assumed)
{
    if (auto weighed = moistureOfMass(sheet, sheet.before_expose_g, assumed))
        return weighed;
    if (sheet.expose_start) {
        if (const auto* near = weighingNear(sheet, {}, *sheet.expose_start, assumed))
            if (auto weighed = byMass(sheet, *near, assumed))
                return weighed;
        if (!isCovered(sheet))
            if (auto curve = byCurve(sheet, sheet.dryingUntil(*sheet.expose_start), *sheet.expose_start, assumed))
                return curve;
    }
    if (auto touch = byTouch(sheet, sheet.touch_at_expose, assumed))
        return touch;
    if (isCovered(sheet) && sheet.expose_start)
        return underFilm(sheet, *sheet.expose_start, assumed);
    return std::nullopt;
}

std::optional<Moisture> moistureAtRinse(const Sheet& sheet, const Assumptions& assumed)
{
    if (auto weighed = moistureOfMass(sheet, sheet.before_rinse_g, assumed))
        return weighed;
    if (sheet.rinse_start) {
        if (const auto* near = weighingNear(sheet, sheet.expose_start, *sheet.rinse_start, assumed))
            if (auto weighed = byMass(sheet, *near, assumed))
                return weighed;
        // The curve knows nothing of water that was taken up again. In the frame no drying is assumed; under objects
        // the sheet lies open and goes on drying in the light.
        if (!isCovered(sheet) && !isRedampened(sheet)) {
            const auto taken_away = sheet.dryingUntil(*sheet.rinse_start);
            const bool open = sheet.print_method == QLatin1String("objects") && sheet.expose_start && sheet.expose_end
                && *sheet.expose_start <= *sheet.expose_end;
            const qint64 in_light = open ? sheet.expose_end->ms_utc - sheet.expose_start->ms_utc : 0;
            const Instant dried { taken_away.ms_utc + in_light, taken_away.offset_s };
            if (auto curve = byCurve(sheet, std::min(dried, *sheet.rinse_start), *sheet.rinse_start, assumed))
                return curve;
        }
    }
    if (auto touch = byTouch(sheet, sheet.touch_at_rinse, assumed))
        return touch;
    if (isCovered(sheet) && sheet.rinse_start)
        return underFilm(sheet, *sheet.rinse_start, assumed);
    return std::nullopt;
}

namespace {

std::optional<Rate> rateFor(
    const Sheet& sheet, const Assumptions& assumed, const LearntRates* learnt, const std::optional<Air>& room)
{
    const LearntRates none;
    const auto& rates = learnt ? *learnt : none;
    if (room)
        return rates.rate(sheet.paper, sheet.dry_method, *room, sheet.coat_ml_m2.number(), assumed);
    if (const auto deficit = sheet.deficit_kpa.number())
        return rates.rateAt(sheet.paper, sheet.dry_method, *deficit, sheet.coat_ml_m2.number(), assumed);
    return std::nullopt;
}

/// The last touch up to the moment; when it is older than counts_for_min it may have dried since.
std::optional<Moisture> lastTouch(const Sheet& sheet, const Instant& moment, const Assumptions& assumed)
{
    const SheetTouch* last = nullptr;
    for (const auto& touch : sheet.touches)
        if (touch.at && *touch.at <= moment)
            last = &touch;
    if (!last)
        return std::nullopt;
    auto moisture = byTouch(sheet, Known { last->state, Evidence::Estimated }, assumed);
    if (moisture && minutesBetween(*last->at, moment) > assumed.counts_for_min)
        moisture->pct.low = 0.0;
    return moisture;
}

} // namespace

std::optional<Moisture> moistureAt(const Sheet& sheet, const Instant& moment, const Assumptions& assumed,
    const LearntRates* learnt, std::optional<Air> room)
{
    if (const auto* near = weighingNear(sheet, {}, moment, assumed))
        if (auto weighed = byMass(sheet, *near, assumed))
            return weighed;
    if (isCovered(sheet)) {
        const auto touch = lastTouch(sheet, moment, assumed);
        return touch ? *touch : underFilm(sheet, moment, assumed);
    }
    if (auto curve = byCurve(sheet, sheet.dryingUntil(moment), moment, assumed))
        return curve;
    if (auto touch = lastTouch(sheet, moment, assumed))
        return touch;
    const auto from = sheet.dryingFrom();
    const auto rate = rateFor(sheet, assumed, learnt, room);
    if (!from || !rate || moment < *from)
        return std::nullopt;
    return Moisture { rate->curve(assumed).at(minutesBetween(*from, sheet.dryingUntil(moment))),
        rate->prints > 0 ? Evidence::Estimated : Evidence::Assumed, MoistureFrom::Learnt, isRedampened(sheet) };
}

std::optional<Bracket> minutesUntilDry(const Sheet& sheet, const Instant& now, const Assumptions& assumed,
    const LearntRates* learnt, std::optional<Air> room)
{
    const auto moisture = moistureAt(sheet, now, assumed, learnt, room);
    if (moisture && moisture->from == MoistureFrom::Weighing && moisture->pct.likely <= assumed.dry_pct)
        return Bracket {};
    if (isCovered(sheet))
        return Bracket { never, never, never };
    const auto from = sheet.dryingFrom();
    if (const auto curve = curveOf(sheet, assumed); curve && from) {
        auto here = *curve;
        const auto deficit = sheet.deficit_kpa.number();
        const double around = room ? vapourPressureDeficit_kpa(*room) : 0.0;
        if (deficit && *deficit > 0 && around > 0 && !isHeated(sheet.dry_method))
            here = curve->inOtherAir(*deficit, around, assumed.deficit_power, assumed.deficit_power_within);
        // From the moisture it has now, not from the clock: the air may have changed in between.
        const double reached = curve->at(minutesBetween(*from, now)).likely;
        return here.minutesLeft(assumed.dry_pct, here.minutesUntil(reached).likely);
    }
    const auto rate = rateFor(sheet, assumed, learnt, room);
    if (!rate || !moisture)
        return std::nullopt;
    const auto minutes = [&](double pct, double per_min) {
        if (pct <= assumed.dry_pct)
            return 0.0;
        if (assumed.dry_pct <= assumed.residual_pct)
            return never;
        return std::log((pct - assumed.residual_pct) / (assumed.dry_pct - assumed.residual_pct)) / per_min;
    };
    return Bracket { minutes(moisture->pct.low, rate->per_min.high),
        minutes(moisture->pct.likely, rate->per_min.likely), minutes(moisture->pct.high, rate->per_min.low) };
}

std::optional<QString> dampWarning(const Moisture& moisture, NextStep next, const Assumptions& assumed)
{
    const auto number = Words::tr("about %1 % of the coat's water is left (%2 to %3 %, %4)")
                            .arg(figure(moisture.pct.likely), figure(moisture.pct.low), figure(moisture.pct.high),
                                moistureFromLabel(moisture.from));
    // A weighing or a finger notices the water that was taken up again; a curve does not.
    const bool unnoticed
        = moisture.redampened && moisture.from != MoistureFrom::Weighing && moisture.from != MoistureFrom::Touch;
    if (moisture.pct.likely <= assumed.damp_pct && !unnoticed)
        return std::nullopt;
    if (moisture.pct.likely <= assumed.damp_pct)
        return Words::tr("Perhaps damp again: %1, but since then the sheet stood in air above %2 % humidity. Feel or "
                         "weigh it.")
            .arg(number, figure(assumed.redampens_above_pct));
    const auto what = next == NextStep::Exposure ? Words::tr("A damp sheet sticks to film and prints weak and striped.")
                                                 : Words::tr("From a damp sheet the blue runs off in the first water.");
    return Words::tr("Still damp: %1. %2").arg(number, what);
}

} // namespace washfast::drying
