#include "core/light/exposure_light.h"

#include "core/light/meter.h"
#include "core/light/uv_index.h"
#include "core/light/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::light {

namespace {

constexpr double step_s = 60;
constexpr double perSquareCentimetre = 1e-4; // of a square metre

/// The stretches with light, in order and without overlap: from start to end without the pauses that have times.
std::vector<Span> litSpans(const ExposureCase& exposure)
{
    auto pauses = exposure.pauses;
    std::sort(pauses.begin(), pauses.end(), [](const Span& a, const Span& b) { return a.from < b.from; });
    std::vector<Span> lit;
    Instant at = *exposure.start;
    for (const auto& pause : pauses) {
        if (at < pause.from)
            lit.push_back({ at, std::min(pause.from, *exposure.end) });
        at = std::max(at, pause.to);
        if (!(at < *exposure.end))
            return lit;
    }
    lit.push_back({ at, *exposure.end });
    return lit;
}

double minutesOf(const std::vector<Span>& spans)
{
    double minutes = 0;
    for (const auto& span : spans)
        minutes += std::max(0.0, minutesBetween(span.from, span.to));
    return minutes;
}

Instant middleOf(const Span& span)
{
    return { span.from.ms_utc + (span.to.ms_utc - span.from.ms_utc) / 2, span.from.offset_s };
}

/// Light of a lamp at the sheet, under the covers.
struct LampLight {
    double w_m2 = 0, low = 0, high = 0;
    double passes = 1; // share that the covers let through
    bool moved = false; // measured at another distance
};

std::optional<LampLight> lampLight(const ExposureCase& exposure)
{
    if (exposure.setting.kind != PlaceKind::Lamp || !exposure.lamp || exposure.cover_unknown)
        return std::nullopt;
    const auto& lamp = *exposure.lamp;
    if (!lamp.uva_w_m2)
        return std::nullopt;
    LampLight light;
    double nearer = 1;
    if (lamp.at_distance_m && lamp.distance_m && *lamp.distance_m > 0)
        nearer = *lamp.at_distance_m / *lamp.distance_m;
    else if (lamp.at_distance_m || lamp.distance_m)
        return std::nullopt; // measured somewhere else, or nobody knows where
    light.moved = nearer != 1;
    if (!exposure.covers.empty() || exposure.actinic) {
        if (!lamp.spectrum)
            return std::nullopt;
        const auto bands = lamp.spectrum->averagedOnBands();
        const auto& weights = exposure.actinic ? exposure.actinic->weights : uvaWeights;
        const double uva = integral(bands, uvaWeights);
        if (!(uva > 0))
            return std::nullopt;
        light.passes = exposure.covers.diffuseShare(bands, weights);
        light.w_m2 = *lamp.uva_w_m2 * light.passes * integral(bands, weights) / uva;
    } else {
        light.w_m2 = *lamp.uva_w_m2;
    }
    // Near a row of tubes light falls with the distance, far from a lamp with its square; a fifth for ageing and the
    // exact place (our assumption).
    const auto covers = exposure.covers.interval();
    light.low = light.w_m2 * std::min(nearer, nearer * nearer) * 0.8 * covers.low;
    light.high = light.w_m2 * std::max(nearer, nearer * nearer) * 1.2 * covers.high;
    light.w_m2 *= nearer * nearer;
    return light;
}

struct Sum {
    double seconds = 0, paper = 0, low = 0, high = 0; // W s/m2
    double before = 0, modelled = 0, level = 0, clouded = 0;

    void add(double s, double light, double weak, double strong)
    {
        seconds += s;
        paper += s * light;
        low += s * weak;
        high += s * strong;
    }
};

void warnOfLamp(const ExposureCase& exposure, QStringList& said)
{
    const auto light = lampLight(exposure);
    if (!light) {
        said << Words::tr(
            "Under a lamp only a reading can tell the dose: one at the sheet, or the lamp's own with both distances "
            "(and "
            "its spectrum when something covers the sheet).");
        return;
    }
    if (light->moved)
        said << Words::tr(
            "The lamp was measured at another distance: the square law is taken, which holds only far from the lamp.");
    if (exposure.lamp->spectrum_typical && !exposure.covers.empty())
        said << Words::tr("A spectrum that is typical of this kind of lamp is taken.");
}

void warn(const ExposureCase& exposure, const LightModel& model, bool from_readings, ExposureDose& dose)
{
    auto& said = dose.warnings;
    if (from_readings)
        return;
    if (!exposure.place && exposure.setting.kind != PlaceKind::Lamp)
        said << Words::tr("The site's latitude and longitude are not known: no light can be reckoned.");
    if (exposure.cover_unknown)
        said << Words::tr("What the cover lets through is not known: no light can be reckoned.");
    if (exposure.setting.kind == PlaceKind::Lamp) {
        warnOfLamp(exposure, said);
        return;
    }
    if (!dose.dose_j_cm2)
        return;
    if (!model.skyNoted())
        said << Words::tr("No sky was noted: a clear one is assumed.");
    if (!exposure.kind_noted)
        said << Words::tr("Where the sheet lay was not noted: open sky is assumed.");
    if (skyShareAssumed(exposure.setting))
        said << Words::tr("How much of the sky the sheet saw was not noted: %1 is assumed.")
                    .arg(skyShare(exposure.setting));
    if (model.paneAssumed())
        said << Words::tr("The window is taken as two panes of 4 mm.");
    if (exposure.setting.kind == PlaceKind::Window && !exposure.setting.facing_known)
        said << Words::tr("Where the window looks was not noted: no direct sun is assumed.");
    else if (exposure.setting.tilt_deg > 0 && !exposure.setting.facing_known)
        said << Words::tr("Where the tilted sheet looked was not noted: towards the noon sun is assumed.");
    said << exposure.covers.warnings() << (model.paneAssumed() ? QStringList() : model.pane().warnings());
    if (dose.dose_j_cm2 == 0.0)
        said << Words::tr("The sun was below the horizon.");
}

bool restsOnAssumptions(const ExposureCase& exposure, const LightModel& model)
{
    const auto& setting = exposure.setting;
    const bool facing_counts = setting.kind == PlaceKind::Window || setting.tilt_deg > 0;
    return !model.skyNoted() || !exposure.kind_noted || skyShareAssumed(setting) || model.paneAssumed()
        || (facing_counts && !setting.facing_known) || exposure.covers.assumed() || model.pane().assumed();
}

Evidence lampEvidence(const ExposureCase& exposure, const LampLight& light)
{
    const bool spectrum_counts = !exposure.covers.empty() || exposure.actinic;
    const bool assumed
        = light.moved || exposure.covers.assumed() || (spectrum_counts && exposure.lamp->spectrum_typical);
    return weaker(exposure.lamp->reading, assumed ? Evidence::Assumed : Evidence::Estimated);
}

void addModel(Sum& sum, const ExposureCase& exposure, const LightModel& model, const std::vector<Span>& lit,
    const Meter& meter, const LightModel* carrier)
{
    const auto lamp = lampLight(exposure);
    for (const auto& span : lit) {
        const double seconds = minutesBetween(span.from, span.to) * 60;
        const auto steps = static_cast<qint64>(std::ceil(seconds / step_s));
        for (qint64 i = 0; i < steps; ++i) {
            const double at = static_cast<double>(i) * step_s;
            const double length = std::min(step_s, seconds - at);
            const Instant when { span.from.ms_utc + std::llround((at + length / 2) * 1000), span.from.offset_s };
            LightNow now;
            if (model.known()) {
                now = model.at(when);
                sum.modelled += length * now.at_paper_w_m2;
                sum.before += now.cover_transmittance > 0 ? length * now.at_paper_w_m2 / now.cover_transmittance : 0;
                sum.level += length * now.level_w_m2;
                sum.clouded += length * now.level_w_m2 * now.sky_factor;
            }
            if (!meter.empty()) {
                const auto read = meter.at(when, carrier);
                sum.add(length, read.w_m2, read.low, read.high);
            } else if (lamp) {
                sum.add(length, lamp->w_m2, lamp->low, lamp->high);
            } else {
                sum.add(length, now.at_paper_w_m2, now.low_w_m2, now.high_w_m2);
            }
        }
    }
}

} // namespace

std::optional<double> ExposureCase::litMinutes() const
{
    if (!start || !end || *end < *start || !(pause_min >= 0))
        return std::nullopt;
    const double minutes = minutesOf(litSpans(*this)) - pause_min;
    return minutes >= 0 ? std::optional(minutes) : std::nullopt;
}

ExposureDose exposureDose(const ExposureCase& exposure)
{
    ExposureDose dose;
    dose.lit_minutes = exposure.litMinutes();
    if (!dose.lit_minutes) {
        dose.warnings << (exposure.start && exposure.end
                ? Words::tr("The times of the exposure contradict one another.")
                : Words::tr("The exposure's start or end is not known."));
        return dose;
    }
    if (minutesBetween(*exposure.start, *exposure.end) > exposure.longest_h * 60) {
        dose.warnings << Words::tr(
            "The exposure lasts longer than %n hours, so no dose is calculated: check its times.", nullptr,
            int(exposure.longest_h));
        return dose;
    }
    const auto lit = litSpans(exposure);
    const Instant middle = middleOf({ *exposure.start, *exposure.end });
    const LightModel model(exposure, *exposure.start, *exposure.end);
    const Meter meter(exposure.readings, middle);

    Sum sum;
    addModel(sum, exposure, model, lit, meter, &model);
    // Pauses of unknown times take an even share of all.
    const double minutes = sum.seconds / 60;
    const double share = minutes > 0 ? *dose.lit_minutes / minutes : 0;
    if (exposure.place) {
        const auto sun = SunTrack(middle, middle).at(middle, *exposure.place); // from nodes that are kept
        dose.sun_zenith_deg = sun.zenith_deg;
        dose.uv_index = uvIndex(sun.zenith_deg, exposure.atmosphere.ozone_du);
    }
    if (model.known() && sum.seconds > 0) {
        dose.uva_clear_w_m2 = sum.level / sum.seconds;
        if (model.skyNoted() && sum.level > 0)
            dose.cloud_factor = sum.clouded / sum.level;
        if (sum.before > 0)
            dose.cover_transmittance = sum.modelled / sum.before;
    }
    dose.from_readings = !meter.empty();
    const auto lamp = lampLight(exposure);
    if (lamp && !exposure.covers.empty())
        dose.cover_transmittance = lamp->passes;
    if (dose.from_readings || model.known() || lamp) {
        dose.dose_j_cm2 = sum.paper * share * perSquareCentimetre;
        dose.low_j_cm2 = sum.low * share * perSquareCentimetre;
        dose.high_j_cm2 = sum.high * share * perSquareCentimetre;
        if (sum.seconds > 0)
            dose.uva_at_paper_w_m2 = sum.paper / sum.seconds;
        dose.step_doses_j_cm2 = wedgeDoses(*dose.dose_j_cm2, exposure.step_densities);
    }
    if (dose.from_readings)
        dose.evidence = exposure.readings.size() > 1 ? Evidence::Measured : Evidence::Estimated;
    else
        dose.evidence = lamp ? lampEvidence(exposure, *lamp)
                             : (restsOnAssumptions(exposure, model) ? Evidence::Assumed : Evidence::Estimated);
    warn(exposure, model, dose.from_readings, dose);
    return dose;
}

ExposureDose weightedDose(const ExposureCase& exposure, const Actinic& weighting)
{
    auto weighted = exposure;
    weighted.actinic = weighting;
    if (exposure.readings.empty())
        return exposureDose(weighted);
    auto dose = exposureDose(exposure); // by the readings, in UVA
    auto plain = exposure;
    plain.readings.clear();
    weighted.readings.clear();
    const auto by_uva = exposureDose(plain).dose_j_cm2;
    const auto by_weighting = exposureDose(weighted).dose_j_cm2;
    const bool known = dose.dose_j_cm2 && by_weighting && by_uva.value_or(0) > 0;
    for (auto* value : { &dose.dose_j_cm2, &dose.low_j_cm2, &dose.high_j_cm2, &dose.uva_at_paper_w_m2 })
        *value = known && *value ? std::optional(**value * *by_weighting / *by_uva) : std::nullopt;
    for (auto& step : dose.step_doses_j_cm2)
        step *= known ? *by_weighting / *by_uva : 0;
    if (!known)
        dose.step_doses_j_cm2.clear();
    dose.evidence = weaker(dose.evidence, Evidence::Estimated);
    return dose;
}

std::optional<LightNow> lightAt(const ExposureCase& exposure, Instant when)
{
    const LightModel model(exposure, when, when);
    return model.known() ? std::optional(model.at(when)) : std::nullopt;
}

std::vector<LightNow> lightOver(const ExposureCase& exposure, Instant from, double every_s, size_t count)
{
    std::vector<LightNow> series;
    const auto at = [&](size_t i) {
        return Instant { from.ms_utc + std::llround(every_s * 1000 * static_cast<double>(i)), from.offset_s };
    };
    const LightModel model(exposure, from, at(count));
    if (!model.known())
        return series;
    for (size_t i = 0; i < count; ++i)
        series.push_back(model.at(at(i)));
    return series;
}

std::vector<std::optional<double>> stripDoses(const std::vector<std::optional<double>>& doses_j_cm2, StripWay way)
{
    auto steps = doses_j_cm2;
    const bool covering = way == StripWay::Covering;
    if (!covering)
        std::reverse(steps.begin(), steps.end());
    for (size_t i = 1; i < steps.size(); ++i)
        steps[i] = steps[i] && steps[i - 1] ? std::optional(*steps[i] + *steps[i - 1]) : std::nullopt;
    if (!covering)
        std::reverse(steps.begin(), steps.end());
    return steps;
}

std::vector<double> wedgeDoses(double dose_j_cm2, const std::vector<double>& uv_densities)
{
    std::vector<double> doses;
    for (const double density : uv_densities)
        doses.push_back(dose_j_cm2 * std::pow(10, -density));
    return doses;
}

} // namespace washfast::light
