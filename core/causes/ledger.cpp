#include "core/causes/ledger.h"

#include "core/causes/phrases.h"

#include "core/causes/shapley.h"
#include "core/causes/words.h"
#include "core/stats/ranks.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace washfast::causes {

namespace {

struct Step {
    LedgerStep step;
    const char* key;
    const char* label;
};

constexpr std::array<Step, 13> steps { {
    { LedgerStep::SunHeight, "sun_height", QT_TRANSLATE_NOOP("Causes", "Light: sun height") },
    { LedgerStep::Cloud, "cloud", QT_TRANSLATE_NOOP("Causes", "Light: cloud") },
    { LedgerStep::Cover, "cover", QT_TRANSLATE_NOOP("Causes", "Light: cover") },
    { LedgerStep::SkyShare, "sky_share", QT_TRANSLATE_NOOP("Causes", "Light: share of the sky") },
    { LedgerStep::Tilt, "tilt", QT_TRANSLATE_NOOP("Causes", "Light: tilt") },
    { LedgerStep::Duration, "time", QT_TRANSLATE_NOOP("Causes", "Light: time") },
    { LedgerStep::Light, "light", QT_TRANSLATE_NOOP("Causes", "Light") },
    { LedgerStep::MixAge, "mix_age", QT_TRANSLATE_NOOP("Causes", "Mix: age") },
    { LedgerStep::MixRatio, "mix_ratio", QT_TRANSLATE_NOOP("Causes", "Mix: ratio") },
    { LedgerStep::Formation, "formation", QT_TRANSLATE_NOOP("Causes", "Did not form, unexplained") },
    { LedgerStep::FormationOrRinse, "formation_or_rinse",
        QT_TRANSLATE_NOOP("Causes", "Did not form, or lost in the rinse") },
    { LedgerStep::Rinse, "rinse", QT_TRANSLATE_NOOP("Causes", "Lost in the rinse") },
    { LedgerStep::Drying, "drying", QT_TRANSLATE_NOOP("Causes", "Gain on drying") },
} };

const Step& stepOf(LedgerStep step)
{
    return *std::find_if(steps.begin(), steps.end(), [step](const Step& one) { return one.step == step; });
}

struct LightField {
    LedgerStep step;
    const char* key;
};
constexpr std::array<LightField, 6> light_fields { {
    { LedgerStep::SunHeight, "light_loss_sun_log10" },
    { LedgerStep::Cloud, "light_loss_cloud_log10" },
    { LedgerStep::Cover, "light_loss_cover_log10" },
    { LedgerStep::SkyShare, "light_loss_sky_share_log10" },
    { LedgerStep::Tilt, "light_loss_tilt_log10" },
    { LedgerStep::Duration, "light_loss_time_log10" },
} };

// The published formulas have 2.2 to 2.3 iron for each hexacyanoferrate.
constexpr double published_ratio = 2.25;
// A tone of less than this before the rinse says nothing about what the rinse took.
constexpr double least_tone = 0.05;
constexpr double nothing = 1e-6;
constexpr double much_wetter_pct = 10.0;
constexpr double matters = 0.05; // of the density

/// One part of the product. Parts of the light and of the speed act through the curve, the others multiply.
struct Part {
    LedgerLine line;
    double log10_dose = 0.0;
    double ratio = 1.0;
};

struct Typical {
    std::optional<double> value;
    Evidence evidence = Evidence::Measured;
};

class LedgerMaking {
public:
    LedgerMaking(const PrintReader& prints, int row, const LedgerOptions& options)
        : prints_(prints)
        , row_(row)
        , options_(options)
    {
    }

    Result<Ledger> run()
    {
        const Known net = get("net_density");
        const Known formed = get("formed");
        ledger_.print = nameOf(row_);
        if (!net.has() && !formed.has())
            return Error { Trouble::NotFound,
                Words::tr("no tone of this print was read, neither before the rinse nor a day after"), ledger_.print };
        findGoodPrints();
        begin(net.has());
        addLight();
        addMix();
        addRest(net, formed);
        share();
        close(net, formed);
        return std::move(ledger_);
    }

private:
    [[nodiscard]] Known get(const char* key) const { return prints_.get(row_, QString::fromLatin1(key)); }
    [[nodiscard]] QString nameOf(int row) const
    {
        const Notebook& notebook = prints_.notebook();
        return notebook.nameOf({ Entity::Print, notebook.prints().id(row) });
    }

    [[nodiscard]] bool wentWell(int row) const
    {
        if (!options_.good.empty())
            return std::find(options_.good.begin(), options_.good.end(), row) != options_.good.end();
        const auto failed = prints_.get(row, u"failed").yes();
        return failed && !*failed;
    }
    [[nodiscard]] bool same(int row, const char* key) const
    {
        const auto here = get(key).text();
        const auto there = prints_.get(row, QString::fromLatin1(key)).text();
        return here && there && *here == *there;
    }

    void findGoodPrints()
    {
        std::vector<int> same_paper;
        for (int row = 0; row < prints_.notebook().prints().rows(); ++row) {
            if (row == row_ || !same(row, "paper_name") || !wentWell(row) || !prints_.get(row, u"net_density").has())
                continue;
            same_paper.push_back(row);
            if (same(row, "mix_code"))
                good_.push_back(row);
        }
        if (!good_.empty()) {
            ledger_.start_says
                = Words::tr("median of the good prints with the same mix on the same paper: %1").arg(good_.size());
        } else if (!same_paper.empty()) {
            good_ = same_paper;
            ledger_.start_evidence = Evidence::Estimated;
            ledger_.start_says
                = Words::tr("no good print of this mix on this paper; median of the good prints on the same "
                            "paper with other mixes: %1")
                      .arg(good_.size());
        } else {
            ledger_.start_evidence = Evidence::Assumed;
            ledger_.start_says = Words::tr("no good print on this paper, so a working value is assumed");
        }
        for (const int row : good_)
            ledger_.good_prints.append(nameOf(row));
    }

    [[nodiscard]] Typical typical(const char* key) const
    {
        Typical out;
        std::vector<double> values;
        for (const int row : good_) {
            const Known known = prints_.get(row, QString::fromLatin1(key));
            if (const auto value = known.number()) {
                values.push_back(*value);
                out.evidence = weaker(out.evidence, known.evidence);
            }
        }
        out.value = stats::median(values);
        return out;
    }

    /// Means add up where medians do not; for the parts of the light, and for the logarithm of the dose.
    [[nodiscard]] Typical meanOf(const char* key, bool as_log10) const
    {
        Typical out;
        double sum = 0.0;
        int count = 0;
        for (const int row : lit_) {
            const Known known = prints_.get(row, QString::fromLatin1(key));
            const auto value = known.number();
            if (!value || (as_log10 && *value <= 0.0))
                continue;
            sum += as_log10 ? std::log10(*value) : *value;
            ++count;
            out.evidence = weaker(out.evidence, known.evidence);
        }
        if (count > 0)
            out.value = sum / count;
        return out;
    }

    void begin(bool with_net)
    {
        const Typical net = typical("net_density");
        const Typical formed = typical("formed");
        const Typical kept = typical("kept");
        const double after = net.value.value_or(options_.assumed_density);
        if (good_.empty())
            good_kept_evidence_ = Evidence::Assumed;
        if (kept.value && *kept.value > 0.0) {
            good_kept_ = *kept.value;
            good_kept_evidence_ = weaker(kept.evidence, ledger_.start_evidence);
        } else {
            good_kept_evidence_ = Evidence::Assumed;
        }
        good_formed_ = after / good_kept_;
        if (!with_net && formed.value)
            good_formed_ = *formed.value;
        if (net.value)
            ledger_.start_evidence = weaker(ledger_.start_evidence, net.evidence);
        ledger_.start = with_net ? after : good_formed_;
    }

    Part& add(LedgerStep step, Evidence evidence, const QStringList& fields, const QString& note = {})
    {
        Part part;
        part.line = { step, Words::tr(stepOf(step).label), 0.0, evidence, fields, note };
        parts_.push_back(std::move(part));
        return parts_.back();
    }

    /// The good prints whose light is known in as much detail as this one's, so that the parts can be compared.
    void findLitPrints()
    {
        QStringList keys { QStringLiteral("dose_j_cm2") };
        for (const LightField& field : light_fields)
            keys.append(QString::fromLatin1(field.key));
        for (const int row : good_)
            if (std::all_of(keys.begin(), keys.end(),
                    [&](const QString& key) { return !prints_.get(row_, key).has() || prints_.get(row, key).has(); }))
                lit_.push_back(row);
        if (lit_.empty())
            lit_ = good_;
    }

    void addLight()
    {
        findLitPrints();
        const Evidence curve = options_.curve_is_known ? Evidence::Measured : Evidence::Assumed;
        const QString curve_note
            = options_.curve_is_known ? QString() : Words::tr("the curve from dose to density is assumed");
        double known = 0.0;
        bool any = false;
        bool all = true;
        for (const LightField& field : light_fields) {
            const Known here = get(field.key);
            const auto value = here.number();
            all = all && value.has_value();
            if (!value)
                continue;
            const Typical good = meanOf(field.key, false);
            const double change = *value - good.value.value_or(0.0);
            any = true;
            known += change;
            if (std::fabs(change) < nothing)
                continue;
            QString note = curve_note;
            if (!good.value)
                note += QLatin1String(note.isEmpty() ? "" : "; ")
                    + Words::tr("against a reference sky, for the good prints do not say");
            add(field.step, weaker(weaker(curve, here.evidence), good.evidence), { QString::fromLatin1(field.key) },
                note)
                .log10_dose
                = change;
        }
        const Known dose = get("dose_j_cm2");
        const Typical good_dose = meanOf("dose_j_cm2", true);
        const auto value = dose.number();
        if (!value || *value <= 0.0 || !good_dose.value)
            return;
        const double rest = std::log10(*value) - *good_dose.value - (any ? known : 0.0);
        if (std::fabs(rest) < 0.005)
            return;
        QString note = curve_note;
        if (any)
            note += QLatin1String(note.isEmpty() ? "" : "; ")
                + (all ? Words::tr("what the dose says beyond the parts")
                       : Words::tr("what the dose says beyond the parts that are known"));
        add(LedgerStep::Light, weaker(weaker(curve, dose.evidence), good_dose.evidence),
            { QStringLiteral("dose_j_cm2") }, note)
            .log10_dose
            = rest;
    }

    void addMix()
    {
        const Known age = get("mix_age_h");
        const Typical good_age = typical("mix_age_h");
        if (const auto hours = age.number()) {
            const double older = *hours - good_age.value.value_or(0.0);
            if (std::fabs(older) >= 0.5)
                add(LedgerStep::MixAge, Evidence::Assumed, { QStringLiteral("mix_age_h") },
                    Words::tr("assumed: a mixed sensitiser loses half its speed in %1 h")
                        .arg(options_.speed_halves_in_h, 0, 'g', 3))
                    .log10_dose
                    = -older / options_.speed_halves_in_h * std::log10(2.0);
        }
        const Known ratio = get("iron_to_hexacyanoferrate");
        const auto value = ratio.number();
        if (!value || *value <= 0.0)
            return;
        const auto share = [](double r) { return std::min(r / published_ratio, published_ratio / r); };
        const double good = typical("iron_to_hexacyanoferrate").value.value_or(published_ratio);
        const double left = share(*value) / share(std::max(good, nothing));
        if (std::fabs(left - 1.0) > 0.01)
            add(LedgerStep::MixRatio, Evidence::Assumed, { QStringLiteral("iron_to_hexacyanoferrate") },
                Words::tr("assumed: the part that is short of the published ratio limits the blue"))
                .ratio
                = left;
    }

    /// Share of the good prints' density that this change of log10 dose leaves.
    [[nodiscard]] double onCurve(double log10_dose) const
    {
        const double at = std::log(options_.good_share / (1.0 - options_.good_share));
        const double odds = std::exp(at + options_.slope_per_log10 * log10_dose);
        return odds / (1.0 + odds) / options_.good_share;
    }

    [[nodiscard]] double explained() const
    {
        double dose = 0.0;
        double ratio = 1.0;
        for (const Part& part : parts_) {
            dose += part.log10_dose;
            ratio *= part.ratio;
        }
        return onCurve(dose) * ratio;
    }

    /// What is left over rests on all that was taken out before it, as far as that mattered.
    [[nodiscard]] Evidence evidenceSoFar() const
    {
        Evidence out = ledger_.start_evidence;
        for (const Part& part : parts_)
            if (std::fabs(onCurve(part.log10_dose) * part.ratio - 1.0) > matters)
                out = weaker(out, part.line.evidence);
        return out;
    }

    [[nodiscard]] QString wetness() const
    {
        const auto here = get("moisture_at_expose_pct").number();
        const auto good = typical("moisture_at_expose_pct").value;
        if (!here || !good || *here < *good + much_wetter_pct)
            return {};
        return Words::tr("the sheet held %1 % of its water in the light, the good prints %2 %")
            .arg(*here, 0, 'f', 0)
            .arg(*good, 0, 'f', 0);
    }

    void addRest(const Known& net, const Known& formed)
    {
        const QStringList wet_fields
            = wetness().isEmpty() ? QStringList {} : QStringList { u"moisture_at_expose_pct"_qs };
        const Evidence base = weaker(ledger_.start_evidence, good_kept_evidence_);
        if (!formed.has() || (net.has() && *formed.number() < least_tone)) {
            const double wanted = *net.number() / ledger_.start;
            add(LedgerStep::FormationOrRinse, weaker(evidenceSoFar(), net.evidence),
                QStringList { u"net_density"_qs } + wet_fields, wetness())
                .ratio
                = wanted / explained();
            return;
        }
        const double explained_before = explained();
        add(LedgerStep::Formation, weaker(weaker(base, evidenceSoFar()), formed.evidence),
            QStringList { u"formed"_qs } + wet_fields, wetness())
            .ratio
            = *formed.number() / good_formed_ / explained_before;
        if (!net.has())
            return;
        const double kept = *net.number() / *formed.number();
        const Evidence evidence = weaker(weaker(base, net.evidence), formed.evidence);
        const auto wet = wetNet();
        if (!wet) {
            add(LedgerStep::Rinse, evidence, { u"kept"_qs, u"net_density"_qs, u"formed"_qs },
                Words::tr("with the gain on drying in it: no tone was read while it was wet"))
                .ratio
                = kept / good_kept_;
            return;
        }
        const double gain = *net.number() / *wet;
        const double good_gain = goodGain().value_or(1.0);
        add(LedgerStep::Rinse, evidence, { u"density_wet_deepest"_qs, u"formed"_qs }).ratio
            = kept / gain / (good_kept_ / good_gain);
        add(LedgerStep::Drying, goodGain() ? evidence : Evidence::Assumed,
            { u"density_wet_deepest"_qs, u"net_density"_qs },
            goodGain() ? QString() : Words::tr("assumed: good prints gain nothing, for none was read wet"))
            .ratio
            = gain / good_gain;
    }

    /// Net density of the wet print: above the same base as the tone a day after.
    [[nodiscard]] std::optional<double> wetNetOf(int row) const
    {
        const auto number = [&](const char* key) { return prints_.get(row, QString::fromLatin1(key)).number(); };
        const auto wet = number("density_wet_deepest");
        const auto after = number("density_day_after_deepest");
        const auto net = number("net_density");
        if (!wet || !after || !net || *net < least_tone)
            return std::nullopt;
        const double above = *wet - (*after - *net);
        return above < least_tone ? std::nullopt : std::optional(above);
    }
    [[nodiscard]] std::optional<double> wetNet() const { return wetNetOf(row_); }
    [[nodiscard]] std::optional<double> goodGain() const
    {
        std::vector<double> gains;
        for (const int row : good_)
            if (const auto wet = wetNetOf(row))
                gains.push_back(*prints_.get(row, u"net_density").number() / *wet);
        return stats::median(gains);
    }

    void share()
    {
        const auto shares = shapleyShares(static_cast<int>(parts_.size()), [&](std::uint32_t set) {
            double dose = 0.0;
            double ratio = 1.0;
            for (std::size_t i = 0; i < parts_.size(); ++i)
                if ((set >> i & 1U) != 0) {
                    dose += parts_[i].log10_dose;
                    ratio *= parts_[i].ratio;
                }
            return ledger_.start * onCurve(dose) * ratio;
        });
        for (std::size_t i = 0; i < parts_.size(); ++i) {
            parts_[i].line.density = shares[i];
            ledger_.lines.push_back(parts_[i].line);
        }
    }

    void close(const Known& net, const Known& formed)
    {
        ledger_.end_field = net.has() ? QStringLiteral("net_density") : QStringLiteral("formed");
        ledger_.end = net.has() ? *net.number() : *formed.number();
        if (!net.has())
            ledger_.cannot_say.append(Words::tr("No tone a day after was read, so what the rinse took cannot be "
                                                "said; the lines end before the rinse."));
        else if (!formed.has())
            ledger_.cannot_say.append(Words::tr(
                "No tone before the rinse was read, so what did not form cannot be told from what the rinse took."));
        else if (*formed.number() < least_tone)
            ledger_.cannot_say.append(
                Words::tr("Hardly any tone had formed before the rinse, so what the rinse took of it cannot be said."));
        ledger_.method = Words::tr(
            "Each line is the mean of what it changes over all the orders in which the lines could be put in place "
            "(Shapley's value), so no order is preferred and they add up to the difference exactly.");
    }

    const PrintReader& prints_;
    int row_;
    const LedgerOptions& options_;
    Ledger ledger_;
    std::vector<int> good_, lit_;
    std::vector<Part> parts_;
    double good_kept_ = 1.0;
    double good_formed_ = 1.0;
    Evidence good_kept_evidence_ = Evidence::Measured;
};

} // namespace

QString ledgerStepKey(LedgerStep step)
{
    return QString::fromLatin1(stepOf(step).key);
}

Result<Ledger> whereTheBlueWent(const PrintReader& prints, int print_row, const LedgerOptions& options)
{
    return LedgerMaking(prints, print_row, options).run();
}

} // namespace washfast::causes
