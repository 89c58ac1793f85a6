#include "core/drying/fields.h"

#include "core/drying/air.h"
#include "core/drying/moisture.h"

#include <algorithm>
#include <cmath>

namespace washfast::drying {

namespace {

using Inputs = std::span<const Known>;
using Tables = std::span<const ChildRows>;

constexpr int lateGroup = 90; // after what is recorded, as all derived fields
constexpr double waitsFrom_min = 10.0; // a shorter time in damp air does not count

QString key(const char* text)
{
    return QString::fromLatin1(text);
}

Field number(
    const char* name, const char* label, const char* unit, Station station, int digits, const char* description)
{
    return numberField(Entity::Print, name, label, unit, description).in(station).digits(digits).inGroup(lateGroup);
}

/// Own air of the station, else the room's. Inputs: temperature, humidity, room's temperature, room's humidity.
Known deficitOf(Inputs in)
{
    const auto& temperature = in[0].has() ? in[0] : in[2];
    const auto t = temperature.number();
    if (!t)
        return {};
    if (in[1].has() || !in[0].has()) {
        const auto& humidity = in[1].has() ? in[1] : in[3];
        const auto h = humidity.number();
        if (!h)
            return {};
        return knownNumber(vapourPressureDeficit_kpa({ *t, *h }), weaker(temperature.evidence, humidity.evidence));
    }
    // Warmer or cooler than the room, humidity not read there: it holds the vapour of the room's air.
    if (!in[2].number() || !in[3].number())
        return {};
    const double vapour = vapourPressure_kpa({ *in[2].number(), *in[3].number() });
    const double deficit = std::max(0.0, saturation_pa(*t) / 1000.0 - vapour);
    return knownNumber(
        deficit, weaker(Evidence::Estimated, weaker(in[0].evidence, weaker(in[2].evidence, in[3].evidence))));
}

void addDeficits(Catalogue& c)
{
    c.derive(number("coat_vpd_kpa", "Dryness of the air while coating", "kPa", Station::Coat, 2,
                 "Vapour pressure deficit: by how much the air falls short of saturation.")
                 .cause(),
        { { key("coat_temperature_c"), key("coat_humidity_pct"), key("room_temperature_c"), key("room_humidity_pct") },
            {}, {}, [](Inputs in, const ChildRows&) { return deficitOf(in); } });
    c.derive(number("dry_vpd_kpa", "Dryness of the air while drying", "kPa", Station::Dry, 2,
                 "Vapour pressure deficit of the air over the sheet: by how much it falls short of saturation. Of the "
                 "room's air when none was noted for drying; unknown for hot drying whose temperature was not noted.")
                 .cause()
                 .sign("", "damp"),
        { { key("dry_temperature_c"), key("dry_humidity_pct"), key("room_temperature_c"), key("room_humidity_pct"),
              key("dry_method") },
            {}, {}, [](Inputs in, const ChildRows&) -> Known {
                const auto method = in[4].text();
                if (method && isHeated(*method) && !in[0].has())
                    return {};
                return deficitOf(in);
            } });
}

/// Whether the sheet waited in the room between these two, long enough to count; nothing when it is not known.
std::optional<bool> waited(const Known& from, const Known& to)
{
    const auto a = from.time();
    const auto b = to.time();
    if (!a || !b)
        return std::nullopt;
    return minutesBetween(*a, *b) >= waitsFrom_min;
}

void addRedampened(Catalogue& c)
{
    c.derive(yesNoField(Entity::Print, "redampened", "Taken up water again",
                 "Yes when the sheet waited ten minutes or more, between drying and exposure or between exposure and "
                 "rinse, in air above 75 % humidity: the coat takes up water there (an assumption; sure above 80 %).")
                 .in(Station::Hold)
                 .byEye()
                 .inGroup(lateGroup)
                 .cause()
                 .sign("damp", ""),
        { { key("hold_humidity_pct"), key("room_humidity_pct"), key("dry_end"), key("expose_start"), key("expose_end"),
              key("rinse_start"), key("hold_start"), key("hold_end") },
            {}, {}, [](Inputs in, const ChildRows&) -> Known {
                const Assumptions assumed;
                const auto held = waited(in[6], in[7]);
                const bool held_known = in[0].has() && held.value_or(true);
                const auto after = waited(in[4], in[5]);
                const auto before = waited(in[2], in[3]);
                const bool in_room = before.value_or(false) || (after.value_or(false) && !held_known);
                std::optional<double> wettest;
                auto evidence = Evidence::Estimated;
                const auto take = [&](const Known& humidity) {
                    wettest = std::max(wettest.value_or(0.0), *humidity.number());
                    evidence = weaker(evidence, humidity.evidence);
                };
                if (held_known)
                    take(in[0]);
                if (in_room && in[1].has())
                    take(in[1]);
                if (!wettest)
                    return before == false && after == false ? Known { false, evidence } : Known {};
                if (in_room && !in[1].has() && *wettest < assumed.redampens_above_pct)
                    return {}; // it also waited in air that nobody read
                const bool between
                    = *wettest >= assumed.redampens_above_pct && *wettest < assumed.surely_redampens_above_pct;
                return { *wettest >= assumed.redampens_above_pct,
                    between ? weaker(evidence, Evidence::Assumed) : evidence };
            } });
}

using OfSheet = std::function<Known(const Sheet&)>;

void ofSheet(Catalogue& c, const Field& field, OfSheet compute)
{
    c.derive(field, Derivation(sheetFields(), sheetRows(), [compute = std::move(compute)](Inputs in, Tables tables) {
        return compute(sheetFrom(in, tables));
    }));
}

void addMoisture(Catalogue& c)
{
    struct Which {
        std::optional<Moisture> (*moisture)(const Sheet&, const Assumptions&);
        const char* key;
        const char* label;
        const char* low_key;
        const char* low_label;
        const char* high_key;
        const char* high_label;
        Station station;
    };
    const Which which[] = { { moistureAtExpose, "moisture_at_expose_pct", "Moisture left at exposure",
                                "moisture_at_expose_low_pct", "Moisture left at exposure, low end",
                                "moisture_at_expose_high_pct", "Moisture left at exposure, high end", Station::Expose },
        { moistureAtRinse, "moisture_at_rinse_pct", "Moisture left at the rinse", "moisture_at_rinse_low_pct",
            "Moisture left at the rinse, low end", "moisture_at_rinse_high_pct", "Moisture left at the rinse, high end",
            Station::Rinse } };
    for (const auto& w : which) {
        ofSheet(c,
            number(w.key, w.label, "%", w.station, 0,
                "Share of the coat's water still in the sheet: by weighing, else by the curve through this print's "
                "weighings, else by touch (assumed ranges); all of it when dried under film. The solids of the mix are "
                "assumed when it does not say.")
                .cause(),
            [of = w.moisture](const Sheet& sheet) -> Known {
                const auto found = of(sheet, {});
                return found ? knownNumber(found->pct.likely, found->evidence) : Known {};
            });
        ofSheet(c,
            number(w.low_key, w.low_label, "%", w.station, 0,
                "Low end of the interval (95 of 100), or of the range of a touch state."),
            [of = w.moisture](const Sheet& sheet) -> Known {
                const auto found = of(sheet, {});
                return found ? knownNumber(found->pct.low, found->evidence) : Known {};
            });
        ofSheet(c,
            number(w.high_key, w.high_label, "%", w.station, 0,
                "High end of the interval (95 of 100), or of the range of a touch state."),
            [of = w.moisture](const Sheet& sheet) -> Known {
                const auto found = of(sheet, {});
                return found ? knownNumber(found->pct.high, found->evidence) : Known {};
            });
    }
}

/// A curve with few weighings rests on the residual moisture that was assumed.
Known ofCurve(const Sheet& sheet, double value)
{
    auto evidence = sheet.solids_pct.has() ? weaker(Evidence::Estimated, sheet.solids_pct.evidence) : Evidence::Assumed;
    evidence = weaker(evidence, weaker(sheet.bare_g.evidence, sheet.coated_g.evidence));
    return knownNumber(value, evidence);
}

void addRates(Catalogue& c)
{
    ofSheet(c,
        number("drying_rate_per_min", "Drying rate", "1/min", Station::Dry, 3,
            "One over the minutes until 63 % of the water that can leave had left, by the curve through this print's "
            "weighings. Unknown when it was dry at the first weighing, or dried under film.")
            .sign("", "damp"),
        [](const Sheet& sheet) -> Known {
            const auto curve = curveOf(sheet);
            if (!curve || !curve->rateKnown() || sheet.covered.value_or(false))
                return {};
            return ofCurve(sheet, curve->rate_per_min());
        });
    ofSheet(c,
        number("minutes_to_dry", "Minutes until dry", "min", Station::Dry, 0,
            "From the coated sheet to 5 % of the coat's water, by the curve through this print's weighings.")
            .sign("damp", ""),
        [](const Sheet& sheet) -> Known {
            const auto curve = curveOf(sheet);
            if (!curve || !curve->rateKnown() || sheet.covered.value_or(false))
                return {};
            const double minutes = curve->minutesUntil(Assumptions {}.dry_pct).likely;
            return std::isfinite(minutes) ? ofCurve(sheet, minutes) : Known {};
        });
}

} // namespace

void addFields(Catalogue& catalogue)
{
    addDeficits(catalogue);
    addRedampened(catalogue);
    addMoisture(catalogue);
    addRates(catalogue);
}

} // namespace washfast::drying
