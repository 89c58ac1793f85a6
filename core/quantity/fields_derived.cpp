// What is worked out from the record of one print without a model of light or drying. Each takes the evidence of its
// weakest input; one unknown input makes the result unknown.
#include "core/quantity/fields.h"

#include "core/quantity/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::fields {

namespace {

using Inputs = std::span<const Known>;
using enum InCauses::Lever;

/// Solids by mass of the traditional two-solution mix: 25 g + 10 g in 200 mL of water, 35/235. Amounts: Ware, "The new
/// cyanotype", alternativephotography.com (also gives the traditional recipe). Assumed when the mix does not say.
constexpr double assumedSolidsShare = 35.0 / 235.0;

std::optional<Evidence> allKnown(Inputs inputs)
{
    auto evidence = Evidence::Measured;
    for (const auto& input : inputs) {
        if (!input.has())
            return std::nullopt;
        evidence = weaker(evidence, input.evidence);
    }
    return evidence;
}

Known minutesFrom(const Known& start, const Known& end)
{
    const auto a = start.time();
    const auto b = end.time();
    if (!a || !b || *b < *a)
        return {};
    return knownNumber(minutesBetween(*a, *b), weaker(start.evidence, end.evidence));
}

Field derived(
    const char* key, const char* label, const char* unit, Station station, int digits, const char* description)
{
    return numberField(Entity::Print, key, label, unit, description).in(station).digits(digits).inGroup(90);
}

QString key(const char* text)
{
    return QString::fromLatin1(text);
}

void addCoatAndDry(Catalogue& c)
{
    c.derive(
        derived("coat_per_area_ml_m2", "Coat per area", "mL/m²", Station::Coat, 1,
            "Mix on the sheet over the coated area. Below 10 the sheet is starved, above 50 the mix stands in puddles.")
            .cause()
            .lever(Set)
            .sign("skin", ""),
        { { key("coat_volume_ml"), key("print_width_mm"), key("print_height_mm") }, {}, {},
            [](Inputs in, const ChildRows&) -> Known {
                const auto evidence = allKnown(in);
                const double area = evidence ? *in[1].number() * *in[2].number() * 1e-6 : 0.0;
                if (area <= 0)
                    return {};
                return knownNumber(*in[0].number() / area, *evidence);
            } });
    c.derive(derived("mix_age_h", "Age of the mix when coated", "h", Station::Coat, 1,
                 "From when the mix was made to the start of coating.")
                 .cause()
                 .lever(Measured)
                 .sign("sensitiser", ""),
        { { key("mix_made"), key("coat_start") }, {}, {}, [](Inputs in, const ChildRows&) -> Known {
             const auto minutes = minutesFrom(in[0], in[1]);
             return minutes ? knownNumber(*minutes.number() / 60.0, minutes.evidence) : Known {};
         } });
    c.derive(derived("dry_minutes", "Drying time", "min", Station::Dry, 0, "From laying up to taking away.")
                 .cause()
                 .lever(Set)
                 .sign("", "damp"),
        { { key("dry_start"), key("dry_end") }, {}, {},
            [](Inputs in, const ChildRows&) { return minutesFrom(in[0], in[1]); } });
}

/// Share of the coat's water that is left, %. Weighings: bare, just coated, now; solids of the mix.
Known moistureLeft(Inputs in)
{
    const auto bare = in[0].number();
    const auto coated = in[1].number();
    const auto now = in[2].number();
    if (!bare || !coated || !now || *coated <= *bare)
        return {};
    auto evidence = weaker(weaker(in[0].evidence, in[1].evidence), in[2].evidence);
    double solids = assumedSolidsShare;
    if (in.size() > 3 && in[3].has()) {
        solids = *in[3].number() / 100.0;
        evidence = weaker(evidence, in[3].evidence);
    } else {
        evidence = Evidence::Assumed;
    }
    const double coat = *coated - *bare;
    return knownNumber(100.0 * ((*now - *bare) - coat * solids) / (coat * (1.0 - solids)), evidence);
}

void addMoisture(Catalogue& c)
{
    struct Which {
        const char* key;
        const char* mass;
        const char* label;
        Station station;
    };
    const Which which[] = {
        { "moisture_at_expose_pct", "mass_before_expose_g", "Moisture left at exposure", Station::Expose },
        { "moisture_at_rinse_pct", "mass_before_rinse_g", "Moisture left at the rinse", Station::Rinse },
    };
    for (const auto& w : which)
        c.derive(derived(w.key, w.label, "%", w.station, 0,
                     "Share of the coat's water still in the sheet, from weighings. The solids of the mix are assumed "
                     "when it "
                     "does not say.")
                     .cause()
                     .lever(Measured)
                     .sign("damp", ""),
            { { key("mass_bare_g"), key("mass_coated_g"), key(w.mass), key("mix_solids_pct") }, {}, {},
                [](Inputs in, const ChildRows&) { return moistureLeft(in); } });

    for (const bool rinse : { false, true }) {
        auto field = choiceField(Entity::Print, rinse ? "touch_at_rinse" : "touch_at_expose",
            rinse ? "Touch at the rinse" : "Touch at exposure",
            c.columnField(Entity::Touch, QStringLiteral("touch_state")).choices,
            rinse ? "The last touch state after the exposure and before the rinse began."
                  : "The last touch state before it began.")
                         .in(rinse ? Station::Rinse : Station::Expose)
                         .byEye()
                         .inGroup(90)
                         .cause()
                         .lever(Measured);
        field.causes.sign_of_choice = c.columnField(Entity::Touch, QStringLiteral("touch_state")).causes.sign_of_choice;
        c.derive(field,
            { { rinse ? key("rinse_start") : key("expose_start"),
                  rinse ? key("touch_before_rinse") : key("touch_before_expose"), key("expose_start") },
                Entity::Touch, { key("touch_time"), key("touch_state") },
                [rinse](Inputs in, const ChildRows& rows) -> Known {
                    if (in[1].has())
                        return in[1];
                    const auto limit = in[0].time();
                    // What was felt before the light says nothing about a sheet that lay in a folder since.
                    const auto from = rinse ? in[2].time() : std::nullopt;
                    if (!limit)
                        return {};
                    Known last;
                    std::optional<Instant> when;
                    for (const auto& row : rows) {
                        const auto at = row[0].time();
                        if (!at || *at > *limit || (from && *at < *from) || !row[1].has() || (when && *at < *when))
                            continue;
                        when = at;
                        last = row[1];
                    }
                    return last;
                } });
    }
}

/// Minutes of light of one exposure row (start, end, pause); a pause that was not recorded is none.
Known minutesOfLight(const std::vector<Known>& row)
{
    const auto minutes = minutesFrom(row[0], row[1]);
    if (!minutes)
        return {};
    const double lit = *minutes.number() - row[2].number().value_or(0.0);
    const auto evidence = row[2].has() ? weaker(minutes.evidence, row[2].evidence) : minutes.evidence;
    return lit < 0 ? Known {} : knownNumber(lit, evidence);
}

void addLightDerived(Catalogue& c)
{
    const QStringList exposure { key("expose_start"), key("expose_end"), key("expose_pause_min") };
    c.derive(derived("expose_minutes", "Exposure time", "min", Station::Expose, 1,
                 "All exposures together, without the pauses.")
                 .cause()
                 .lever(Set)
                 .sign("overexposed", "light"),
        { {}, Entity::Exposure, exposure, [](Inputs, const ChildRows& rows) -> Known {
             double sum = 0;
             auto evidence = Evidence::Measured;
             for (const auto& row : rows) {
                 const auto lit = minutesOfLight(row);
                 if (!lit)
                     return {};
                 sum += *lit.number();
                 evidence = weaker(evidence, lit.evidence);
             }
             return rows.empty() ? Known {} : knownNumber(sum, evidence);
         } });
    c.derive(derived("uva_mean_w_m2", "Ultraviolet at the paper, mean", "W/m²", Station::Expose, 1,
                 "Mean of the instrument's readings.")
                 .cause()
                 .lever(Measured)
                 .sign("overexposed", "light"),
        { {}, Entity::Meter, { key("meter_uva_w_m2") }, [](Inputs, const ChildRows& rows) -> Known {
             double sum = 0;
             int n = 0;
             auto evidence = Evidence::Measured;
             for (const auto& row : rows) {
                 if (const auto reading = row[0].number()) {
                     sum += *reading;
                     ++n;
                     evidence = weaker(evidence, row[0].evidence);
                 }
             }
             return n == 0 ? Known {} : knownNumber(sum / n, evidence);
         } });
    c.derive(derived("dose_j_cm2", "Dose", "J/cm²", Station::Expose, 2,
                 "Ultraviolet dose at the paper, 315-400 nm: mean instrument reading times the time of light. One "
                 "reading for "
                 "the whole time counts as an estimate.")
                 .cause()
                 .lever(Measured)
                 .sign("overexposed", "light"),
        { { key("uva_mean_w_m2"), key("expose_minutes") }, Entity::Meter, { key("meter_uva_w_m2") },
            [](Inputs in, const ChildRows& rows) -> Known {
                const auto evidence = allKnown(in);
                if (!evidence)
                    return {};
                const auto readings
                    = std::count_if(rows.begin(), rows.end(), [](const auto& row) { return row[0].has(); });
                // W/m2 x s = J/m2; 10,000 cm2 in a square metre.
                const double dose = *in[0].number() * *in[1].number() * 60.0 / 1e4;
                return knownNumber(dose, weaker(*evidence, readings > 1 ? Evidence::Measured : Evidence::Estimated));
            } });
    c.derive(
        derived("log_dose", "Log dose", "log10 J/cm²", Station::Expose, 2, "Logarithm to base 10 of the dose in J/cm².")
            .lever(Measured)
            .sign("overexposed", "light"),
        { { key("dose_j_cm2") }, {}, {}, [](Inputs in, const ChildRows&) -> Known {
             const auto dose = in[0].number();
             return dose && *dose > 0 ? knownNumber(std::log10(*dose), in[0].evidence) : Known {};
         } });
}

void addHoldAndRinse(Catalogue& c)
{
    c.derive(
        derived("hold_minutes", "Hold time", "min", Station::Hold, 0,
            "From the hold's start to its end; when these were not logged, from the end of the first exposure to the "
            "rinse.")
            .cause()
            .lever(Set),
        { { key("hold_start"), key("hold_end"), key("expose_end"), key("rinse_start") }, {}, {},
            [](Inputs in, const ChildRows&) -> Known {
                const auto held = minutesFrom(in[0], in[1]);
                return held ? held : minutesFrom(in[2], in[3]);
            } });
    c.derive(derived("rinse_minutes", "Rinse time", "min", Station::Rinse, 1,
                 "All baths together; else from the rinse's start to its end.")
                 .cause()
                 .lever(Set)
                 .sign("rinse_long", "under_rinsed"),
        { { key("rinse_start"), key("rinse_end") }, Entity::Bath, { key("bath_minutes") },
            [](Inputs in, const ChildRows& rows) -> Known {
                double sum = 0;
                auto evidence = Evidence::Measured;
                bool all = !rows.empty();
                for (const auto& row : rows) {
                    all = all && row[0].has();
                    sum += row[0].number().value_or(0.0);
                    evidence = weaker(evidence, row[0].evidence);
                }
                return all ? knownNumber(sum, evidence) : minutesFrom(in[0], in[1]);
            } });
    c.derive(derived("rinse_litres", "Rinse water", "L", Station::Rinse, 1, "All baths together.").lever(Set),
        { {}, Entity::Bath, { key("bath_litres") }, [](Inputs, const ChildRows& rows) -> Known {
             double sum = 0;
             auto evidence = Evidence::Measured;
             for (const auto& row : rows) {
                 if (!row[0].has())
                     return {};
                 sum += *row[0].number();
                 evidence = weaker(evidence, row[0].evidence);
             }
             return rows.empty() ? Known {} : knownNumber(sum, evidence);
         } });
}

/// The first known of several bases, taken from the deepest tone.
Known netOf(const Known& tone, Inputs bases)
{
    if (!tone.has())
        return {};
    for (const auto& base : bases)
        if (base.has())
            return knownNumber(*tone.number() - *base.number(), weaker(tone.evidence, base.evidence));
    return {};
}

void addTones(Catalogue& c)
{
    c.derive(
        derived("formed", "Formed", "", Station::Read, 2,
            "Net density of the deepest tone before the rinse, above the covered part (else above the bare paper)."),
        { { key("density_before_rinse_deepest"), key("density_before_rinse_covered"), key("density_day_after_paper"),
              key("paper_base_density") },
            {}, {}, [](Inputs in, const ChildRows&) { return netOf(in[0], in.subspan(1)); } });
    c.derive(derived("net_density", "Net density", "", Station::Read, 2,
                 "Density of the deepest tone a day after, above the bare paper."),
        { { key("density_day_after_deepest"), key("density_day_after_paper"), key("paper_base_density") }, {}, {},
            [](Inputs in, const ChildRows&) { return netOf(in[0], in.subspan(1)); } });
    c.derive(
        derived("kept", "Kept", "", Station::Read, 2, "Share of the formed density that is still there a day after."),
        { { key("net_density"), key("formed") }, {}, {}, [](Inputs in, const ChildRows&) -> Known {
             const auto evidence = allKnown(in);
             // A tone of less than 0.05 before the rinse says nothing about what the rinse took.
             if (!evidence || *in[1].number() < 0.05)
                 return {};
             return knownNumber(*in[0].number() / *in[1].number(), *evidence);
         } });
}

void addOutcomes(Catalogue& c)
{
    const auto outcome = c.columnField(Entity::Print, QStringLiteral("print_outcome"));
    for (const auto& choice : outcome.choices) {
        Field field = yesNoField(Entity::Print, "", "", "Yes when this outcome was noted; unknown when none was.")
                          .in(Station::Read)
                          .byEye()
                          .inGroup(95);
        field.key = QStringLiteral("is_") + choice.key;
        field.label = QuantityWords::tr("Outcome: %1").arg(choice.label);
        c.derive(field, { { outcome.key }, {}, {}, [wanted = choice.key](Inputs in, const ChildRows&) -> Known {
                             const auto set = in[0].text();
                             return set ? Known { splitSet(*set).contains(wanted), in[0].evidence } : Known {};
                         } });
    }
    c.derive(yesNoField(
                 Entity::Print, "failed", "Failed", "Yes when any outcome but 'kept' was noted; unknown when none was.")
                 .in(Station::Read)
                 .byEye()
                 .inGroup(95),
        { { outcome.key }, {}, {}, [](Inputs in, const ChildRows&) -> Known {
             const auto set = in[0].text();
             return set ? Known { splitSet(*set) != QStringList { QStringLiteral("kept") }, in[0].evidence } : Known {};
         } });
}

/// A proposal that was rejected is no sign.
void addSigns(Catalogue& c)
{
    const auto kind = c.columnField(Entity::Sign, QStringLiteral("sign_kind"));
    auto field = choiceSetField(Entity::Print, "signs_seen", "Signs seen", kind.choices,
        "Defects that were noted, or proposed from a photo and accepted; unknown when none was noted.")
                     .in(Station::Read)
                     .byEye()
                     .inGroup(96);
    const RowsOf signs { Entity::Sign, { kind.key, QStringLiteral("sign_found") } };
    c.derive(field,
        Derivation({}, std::vector<RowsOf> { signs }, [field](Inputs, std::span<const ChildRows> tables) -> Known {
            QStringList kinds;
            for (const auto& row : tables[0])
                if (row[0].has() && row[1].text() != QLatin1String("rejected"))
                    kinds << *row[0].text();
            return kinds.isEmpty() ? Known {} : Known { joinSet(field, kinds), Evidence::Estimated };
        }));
}

} // namespace

void addDerived(Catalogue& c)
{
    addCoatAndDry(c);
    addMoisture(c);
    addLightDerived(c);
    addHoldAndRinse(c);
    addTones(c);
    addOutcomes(c);
    addSigns(c);
}

} // namespace washfast::fields
