#include "core/light/fields.h"

#include "core/light/explain.h"
#include "core/light/print_light.h"

#include <QHash>
#include <QMutex>
#include <cmath>
#include <memory>

namespace washfast::light {

namespace {

using Inputs = std::span<const Known>;
using Tables = std::span<const ChildRows>;

constexpr int lateGroup = 90; // after what is recorded, as all derived fields

/// What the fields of one print show of its dose.
struct Shown {
    Known zenith, uv_index, clear, at_paper, cloud, cover, dose, low, high, against_goal;
};

/// What they show of the parts that it is explained by. Apart, for it takes many times as long to work out.
using Parts = std::array<Known, lightPartCount>;

/// The dose as the coat absorbs.
Known workWeighted(Inputs inputs, Tables rows)
{
    const auto print = readPrintLight(inputs, rows);
    double sum = 0;
    auto evidence = weaker(print.times, weaker(print.coat, Evidence::Estimated));
    for (const auto& exposure : print.exposures) {
        const auto dose = weightedDose(exposure, print.weighting);
        if (!dose.dose_j_cm2)
            return {};
        sum += *dose.dose_j_cm2;
        evidence = weaker(evidence, weaker(dose.evidence, dose.from_readings ? print.readings : print.site));
    }
    return print.exposures.empty() ? Known {} : knownNumber(sum, evidence);
}

/// A mean over the minutes with light, known when it is for every exposure.
class Mean {
public:
    void add(const std::optional<double>& value, double minutes)
    {
        all_ = all_ && value;
        sum_ += value.value_or(0) * minutes;
        minutes_ += minutes;
    }
    [[nodiscard]] Known known(Evidence evidence) const
    {
        return all_ && minutes_ > 0 ? knownNumber(sum_ / minutes_, evidence) : Known {};
    }

private:
    bool all_ = true;
    double sum_ = 0, minutes_ = 0;
};

Shown workDose(Inputs inputs, Tables rows)
{
    Shown shown;
    const auto print = readPrintLight(inputs, rows);
    if (print.exposures.empty())
        return shown;
    Mean zenith;
    Mean uv_index;
    Mean clear;
    Mean cloud;
    Mean cover;
    double sum = 0;
    double low = 0;
    double high = 0;
    double minutes = 0;
    bool all = true;
    auto evidence = print.times;
    for (const auto& exposure : print.exposures) {
        const auto dose = exposureDose(exposure);
        const double lit = dose.lit_minutes.value_or(0);
        zenith.add(dose.sun_zenith_deg, lit);
        uv_index.add(dose.uv_index, lit);
        clear.add(dose.uva_clear_w_m2, lit);
        cloud.add(dose.cloud_factor, lit);
        cover.add(exposure.covers.empty() && !exposure.cover_unknown ? std::nullopt : dose.cover_transmittance, lit);
        all = all && dose.dose_j_cm2;
        sum += dose.dose_j_cm2.value_or(0);
        low += dose.low_j_cm2.value_or(0);
        high += dose.high_j_cm2.value_or(0);
        minutes += lit;
        evidence = weaker(evidence, weaker(dose.evidence, dose.from_readings ? print.readings : print.site));
    }
    const auto by_model = weaker(weaker(print.times, print.site), Evidence::Estimated);
    shown.zenith = zenith.known(weaker(print.times, print.site));
    shown.uv_index = uv_index.known(by_model);
    shown.clear = clear.known(by_model);
    shown.cloud = cloud.known(by_model);
    shown.cover = cover.known(by_model);
    if (!all)
        return shown;
    shown.dose = knownNumber(sum, evidence);
    shown.low = knownNumber(low, evidence);
    shown.high = knownNumber(high, evidence);
    if (minutes > 0)
        shown.at_paper = knownNumber(sum * 1e4 / (minutes * 60), evidence);
    if (print.goal_j_cm2 && *print.goal_j_cm2 > 0 && sum > 0)
        shown.against_goal = knownNumber(std::log10(sum / *print.goal_j_cm2), weaker(evidence, print.goal));
    return shown;
}

Parts workParts(Inputs inputs, Tables rows)
{
    Parts parts;
    const auto dose = workDose(inputs, rows).dose;
    if (!dose.has())
        return parts;
    const auto print = readPrintLight(inputs, rows);
    Reference reference;
    reference.goal_j_cm2 = print.goal_j_cm2;
    const auto explained = explainLight(print.exposures, reference);
    if (!explained)
        return parts;
    for (size_t i = 0; i < lightPartCount; ++i)
        if (LightPart(i) != LightPart::Duration || explained->duration_compared)
            parts[i] = knownNumber(explained->log10[i], weaker(dose.evidence, Evidence::Estimated));
    return parts;
}

/// Many fields ask for the same work, one after the other for one print, or one for all prints and then the next: what
/// was worked out is kept by what it was worked out from.
template <typename Worked> class Kept {
public:
    using Work = Worked (*)(Inputs, Tables);
    explicit Kept(Work work)
        : work_(work)
    {
    }

    std::shared_ptr<const Worked> of(Inputs inputs, Tables rows)
    {
        QByteArray from;
        for (const auto& input : inputs)
            add(from, input);
        for (const auto& table : rows) {
            from += '/';
            for (const auto& row : table)
                for (const auto& value : row)
                    add(from, value);
        }
        {
            const QMutexLocker lock(&mutex_);
            if (const auto there = kept_.constFind(from); there != kept_.constEnd())
                return *there;
        }
        const auto worked = std::make_shared<const Worked>(work_(inputs, rows));
        const QMutexLocker lock(&mutex_);
        constexpr qsizetype most = 20'000;
        if (kept_.size() >= most)
            kept_.clear();
        kept_.insert(from, worked);
        return worked;
    }

private:
    static void add(QByteArray& to, const Known& known)
    {
        const auto raw
            = [&to](const auto& value) { to.append(reinterpret_cast<const char*>(&value), qsizetype(sizeof value)); };
        to += char('a' + char(known.value.index()) * 3 + char(known.evidence));
        if (const auto* number = std::get_if<double>(&known.value))
            raw(*number);
        else if (const auto* yes = std::get_if<bool>(&known.value))
            raw(*yes);
        else if (const auto* time = std::get_if<Instant>(&known.value))
            raw(time->ms_utc);
        else if (const auto* link = std::get_if<Link>(&known.value))
            raw(link->id);
        else if (const auto* text = std::get_if<QString>(&known.value))
            to += text->toUtf8() + '\0';
    }

    Work work_;
    QMutex mutex_;
    QHash<QByteArray, std::shared_ptr<const Worked>> kept_;
};

} // namespace

void addFields(Catalogue& c)
{
    using enum InCauses::Lever;
    const auto kept = std::make_shared<Kept<Shown>>(workDose);
    const auto kept_parts = std::make_shared<Kept<Parts>>(workParts);
    const auto derive = [&](Field field, std::function<Known(const Shown&)> pick) {
        c.derive(std::move(field), Derivation(printInputs(), printRows(), [kept, pick](Inputs inputs, Tables rows) {
            return pick(*kept->of(inputs, rows));
        }));
    };
    const auto number = [](const char* key, const char* label, const char* unit, int digits, const char* description) {
        return numberField(Entity::Print, key, label, unit, description)
            .in(Station::Expose)
            .digits(digits)
            .inGroup(lateGroup);
    };
    derive(number("sun_zenith_deg", "Sun below the zenith", "°", 1,
               "Zenith angle of the sun at the middle of the exposure: 0 overhead, 90 at the horizon.")
               .cause()
               .lever(Weather)
               .sign("light", "overexposed"),
        [](const Shown& s) { return s.zenith; });
    derive(number("uv_index", "UV Index, clear sky", "", 1,
               "At the middle of the exposure, by its own formula; it says something about skin, not about prints.")
               .lever(Weather),
        [](const Shown& s) { return s.uv_index; });
    derive(number("uva_clear_w_m2", "Ultraviolet of a clear sky", "W/m²", 1,
               "315-400 nm on the level under the clear open sky, mean over the exposure.")
               .lever(Weather)
               .sign("overexposed", "light"),
        [](const Shown& s) { return s.clear; });
    derive(number("cloud_factor", "Cloud factor", "", 2,
               "What the clouds that were noted leave of the clear sky's ultraviolet. Unknown when no sky was noted.")
               .lever(Weather)
               .sign("overexposed", "light"),
        [](const Shown& s) { return s.cloud; });
    derive(number("cover_transmittance", "Cover passes", "", 2,
               "Share of the ultraviolet that the covers let through, at the angles of this sun and sky. Unknown "
               "without a cover.")
               .sign("", "cover"),
        [](const Shown& s) { return s.cover; });
    derive(number("uva_at_paper_w_m2", "Ultraviolet at the paper", "W/m²", 1,
               "315-400 nm, mean over the time of light: from readings where there are any, else reckoned from sun, "
               "sky, place, tilt and covers.")
               .sign("overexposed", "light"),
        [](const Shown& s) { return s.at_paper; });
    derive(number("dose_j_cm2", "Dose", "J/cm²", 2,
               "Ultraviolet dose at the paper, 315-400 nm, all exposures: from readings where there are any, else "
               "reckoned from sun, sky, place, tilt and covers (an assumption where the sky was not noted).")
               .cause()
               .sign("overexposed", "light"),
        [](const Shown& s) { return s.dose; });
    derive(number("dose_low_j_cm2", "Dose, at least", "J/cm²", 2, "Low end of the dose's interval.")
               .sign("overexposed", "light"),
        [](const Shown& s) { return s.low; });
    derive(number("dose_high_j_cm2", "Dose, at most", "J/cm²", 2, "High end of the dose's interval.")
               .sign("overexposed", "light"),
        [](const Shown& s) { return s.high; });
    derive(number("dose_against_goal_log10", "Dose against the wanted", "log10", 2,
               "Logarithm of dose over wanted dose: 0 is right, -0.3 is half. The light's parts add up to it.")
               .sign("overexposed", "light"),
        [](const Shown& s) { return s.against_goal; });

    c.derive(
        number("dose_coat_j_cm2", "Dose, as the coat absorbs", "J/cm²", 2,
            "The dose counted by what a coat takes up of each wavelength, as much as at 365 nm; from the absorbance "
            "noted for the formula, else from one that is assumed (a modelling proposal, not measured).")
            .sign("overexposed", "light"),
        Derivation(printInputs(), printRows(), [](Inputs inputs, Tables rows) { return workWeighted(inputs, rows); }));

    struct Part {
        LightPart part;
        const char* key;
        const char* label;
        const char* description;
        InCauses::Lever lever;
        const char *sign_of_more, *sign_of_less; // below 0 is less light
    };
    static constexpr Part parts[] = {
        { LightPart::SunHeight, "light_loss_sun_log10", "Light by sun height",
            "What the sun's height does, against a sun at 45°; below 0 is less light.", Weather, "", "light" },
        { LightPart::Cloud, "light_loss_cloud_log10", "Light by cloud",
            "What cloud does; where readings gave the dose, whatever else they saw is in it.", Weather, "", "light" },
        { LightPart::Cover, "light_loss_cover_log10", "Light by cover", "What covers and panes do.", Measured, "",
            "cover" },
        { LightPart::SkyShare, "light_loss_sky_share_log10", "Light by share of the sky",
            "What shade, walls and rooms hide.", Measured, "", "light" },
        { LightPart::Tilt, "light_loss_tilt_log10", "Light by tilt", "What tilt and facing do, against a level sheet.",
            Measured, "", "light" },
        { LightPart::Duration, "light_loss_time_log10", "Light by duration",
            "Minutes of light over those that the reference sky takes for the wanted dose; unknown without one.",
            Measured, "overexposed", "light" },
    };
    for (const auto& part : parts)
        c.derive(number(part.key, part.label, "log10", 2, part.description)
                     .lever(part.lever)
                     .sign(part.sign_of_more, part.sign_of_less),
            Derivation(printInputs(), printRows(), [kept_parts, at = size_t(part.part)](Inputs inputs, Tables rows) {
                return (*kept_parts->of(inputs, rows))[at];
            }));
}

} // namespace washfast::light
