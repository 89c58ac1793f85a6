#include "app/demo/print_notes.h"

#include "app/demo/reading_notes.h"
#include "app/demo/words.h"

#include <algorithm>

namespace washfast::demo {

namespace {

/// As read from the clock on the wall: whole minutes.
Instant clock(const Lesson& lesson, double minute)
{
    const auto exact = lesson.at(minute);
    constexpr qint64 length = 60'000;
    return { (exact.ms_utc + length / 2) / length * length, exact.offset_s };
}

struct Context {
    Pen& pen;
    const Scenario& scenario;
    const Shelf& shelf;
    const SheetPlan& sheet;
    const Truth& truth;
    Chance& pencil;
    qint64 print = 0;

    [[nodiscard]] const Lesson& lesson() const { return scenario.sessions[size_t(sheet.session)]; }
    [[nodiscard]] Instant at(double minute) const { return clock(lesson(), minute); }
    [[nodiscard]] double coatVolumeMl() const { return sheet.coat_ml_m2 * sheet.width_mm * sheet.height_mm * 1e-6; }
};

void noteCoatAndDry(Context& c, Row& row)
{
    auto& pencil = c.pencil;
    const auto& sheet = c.sheet;
    row.noted(pencil, 0.96, "coat_start", c.at(sheet.coatStart()))
        .noted(pencil, 0.75, "coat_end", c.at(sheet.coatEnd()))
        .notedChoice(pencil, 0.93, "coat_tool", sheet.tool)
        .noted(pencil, 0.80, "coat_passes", double(sheet.passes))
        .notedChoice(pencil, 0.86, "coat_light", sheet.coat_light)
        .noted(pencil, 0.94, "dry_start", c.at(sheet.dryStart()))
        .noted(pencil, 0.94, "dry_end", c.at(sheet.dryEnd()))
        .notedChoice(pencil, 0.93, "dry_method", sheet.dry_method)
        .noted(pencil, 0.60, "dry_covered", sheet.dry_covered);
    if (sheet.early_heat)
        row.noted(pencil, 0.5, "dry_temperature_c", rounded(55.0 + pencil.normal(4.0), 1.0));
    // From a syringe; some only say about how much it was.
    const double volume = std::max(0.05, rounded(c.coatVolumeMl() * (1.0 + pencil.normal(0.03)), 0.01));
    if (pencil.happens(0.92))
        row.put("coat_volume_ml", volume, pencil.happens(0.12) ? Evidence::Estimated : Evidence::Measured);
}

qint64 notePrint(Context& c, qint64 session)
{
    auto& pencil = c.pencil;
    const auto& sheet = c.sheet;
    auto row = c.pen.row(Entity::Print);
    row.text("print_code", QStringLiteral("%1-%2").arg(c.lesson().code).arg(sheet.number, 2, 10, QLatin1Char('0')))
        .link("print_session", session)
        .choice("print_method", sheet.method)
        .put("print_width_mm", sheet.width_mm)
        .put("print_height_mm", sheet.height_mm)
        .noted(pencil, 0.98, "print_mix", Link { c.shelf.mixes[size_t(sheet.mix)] })
        .noted(pencil, 0.97, "print_paper", Link { c.shelf.papers[size_t(sheet.paper)] })
        .noted(pencil, 0.95, "print_maker", sheet.maker)
        .text("print_sheet", sheet.sheet)
        .text("print_notes", sheet.notes);
    if (sheet.half)
        row.choice("print_half", sheet.half);
    if (sheet.exposed())
        row.noted(pencil, 0.6, "dose_goal_j_cm2", 2.4);
    noteCoatAndDry(c, row);
    if (sheet.exposed() && (sheet.hold_minutes > 12.0 || pencil.happens(0.35))) {
        row.noted(pencil, 0.9, "hold_start", c.at(sheet.exposeEnd() + 1.0))
            .noted(pencil, 0.9, "hold_end", c.at(sheet.rinseStart() - 1.0));
        row.text("hold_place", sheet.hold_place.isEmpty() ? Words::tr("box") : sheet.hold_place);
        if (sheet.hold_place.isEmpty())
            row.noted(
                pencil, 0.4, "hold_humidity_pct", rounded(c.lesson().room_humidity_pct + pencil.normal(2.0), 1.0));
    }
    row.noted(pencil, 0.93, "rinse_start", c.at(sheet.rinseStart()))
        .noted(pencil, 0.85, "rinse_end", c.at(sheet.rinseEnd()))
        .noted(pencil, 0.8, "rinse_tray", sheet.tray);
    if (std::string_view(sheet.method) != "control") {
        const auto outcomes = judged(sheet, c.truth, pencil);
        row.noted(pencil, 0.93, "print_outcome", outcomes.join(QLatin1String("; ")));
    }
    return c.pen.write(row);
}

void noteWeighings(Context& c)
{
    auto& pencil = c.pencil;
    const auto& sheet = c.sheet;
    const auto& paper = c.scenario.papers[size_t(sheet.paper)];
    const double solids = c.scenario.mixes[size_t(sheet.mix)].solids;
    const double bare = paper.weight_g_m2 * sheet.sheet_area_m2 * (1.0 + pencil.normal(0.015));
    const double coat = c.coatVolumeMl() * 1.07; // g/mL
    const auto weigh = [&](const char* state, double minute, double moisture, double probability) {
        auto row = c.pen.row(Entity::Weighing);
        const double mass = bare + coat * (solids + (1.0 - solids) * moisture) + pencil.normal(0.006);
        row.noted(pencil, 0.85, "weigh_time", c.at(minute))
            .choice("weigh_state", state)
            .put("weigh_mass_g", rounded(mass, 0.01));
        if (pencil.happens(probability))
            c.pen.write(row, c.print);
    };
    weigh("bare", sheet.coatStart() - 1.0, -solids / (1.0 - solids), 0.98);
    weigh("coated", sheet.coatEnd() + 1.0, 0.98, 0.97);
    if (sheet.exposed())
        weigh("before_expose", sheet.dryEnd() + 0.5, c.truth.moisture_expose, 0.93);
    weigh("before_rinse", sheet.rinseStart() - 0.5, c.truth.moisture_rinse, 0.94);
}

const char* touchOf(double moisture, bool skin, Chance& finger)
{
    const double felt = (skin ? 0.025 : moisture) * (1.0 + finger.normal(0.25));
    return felt > 0.65 ? "wet_shine" : felt > 0.32 ? "clings" : felt > 0.14 ? "cool" : felt > 0.03 ? "dry" : "crisp";
}

void noteTouch(Context& c, bool weighed)
{
    const double probability = weighed ? 0.15 : 0.75;
    const auto touch = [&](const char* moment, double minute, double moisture) {
        auto row = c.pen.row(Entity::Touch);
        row.noted(c.pencil, 0.85, "touch_time", c.at(minute))
            .choice("touch_moment", moment)
            .choice("touch_state", touchOf(moisture, c.sheet.early_heat, c.pencil));
        if (c.pencil.happens(probability))
            c.pen.write(row, c.print);
    };
    if (c.sheet.exposed())
        touch("before_expose", c.sheet.dryEnd() + 1.0, c.truth.moisture_expose);
    touch("before_rinse", c.sheet.rinseStart() - 0.5, c.truth.moisture_rinse);
}

void noteSky(Context& c, Row& row)
{
    struct Part {
        const char* cloud;
        const char* disc;
        double probability;
    };
    const Part parts[] = { { "cloud_start_eighths", "disc_start", 0.92 },
        { "cloud_middle_eighths", "disc_middle", 0.35 }, { "cloud_end_eighths", "disc_end", 0.70 } };
    for (size_t i = 0; i < 3; ++i) {
        const auto& sky = c.sheet.sky[i];
        const int slip = c.pencil.happens(0.15) ? (c.pencil.happens(0.5) ? 1 : -1) : 0;
        row.noted(c.pencil, parts[i].probability, parts[i].cloud, double(std::clamp(sky.eighths + slip, 0, 8)));
        row.notedChoice(c.pencil, parts[i].probability, parts[i].disc, sky.disc);
    }
}

void noteExposures(Context& c)
{
    const auto& sheet = c.sheet;
    std::vector<double> parts = sheet.strip_minutes;
    if (parts.empty())
        parts.push_back(sheet.expose_minutes + sheet.pause_minutes);
    double start = sheet.expose_at;
    for (size_t i = 0; i < parts.size(); ++i) {
        auto row = c.pen.row(Entity::Exposure);
        row.put("expose_number", double(i + 1));
        const bool strip = parts.size() > 1; // timed with care, for the steps count on it
        row.noted(c.pencil, strip ? 1.0 : 0.97, "expose_start", c.at(start))
            .noted(c.pencil, strip ? 1.0 : 0.96, "expose_end", c.at(start + parts[i]));
        if (sheet.pause_minutes > 0)
            row.put("expose_pause_min", sheet.pause_minutes);
        row.notedChoice(c.pencil, 0.9, "expose_place", sheet.place);
        if (c.pencil.happens(0.5))
            row.put("expose_sky_share", rounded(sheet.sky_share, 0.1));
        if (sheet.cover)
            row.noted(c.pencil, 0.95, "expose_cover", Link { c.shelf.covers[size_t(*sheet.cover)] });
        if (sheet.negative)
            row.noted(c.pencil, 0.97, "expose_negative", Link { c.shelf.negatives[size_t(*sheet.negative)] });
        row.noted(c.pencil, 0.6, "expose_tilt_deg", 0.0);
        noteSky(c, row);
        c.pen.write(row, c.print);
        start += parts[i];
    }
}

void noteLight(Context& c)
{
    const auto& sheet = c.sheet;
    const auto& uva = c.truth.uva_w_m2;
    const double share = c.pencil.unit(); // mostly two readings
    std::vector<size_t> moments { 0, 2 };
    if (share < 0.07)
        moments.clear();
    else if (share < 0.17)
        moments = { 1 };
    else if (share < 0.25)
        moments = { 0, 1, 2 };
    const auto parts = std::max<size_t>(1, sheet.strip_minutes.size());
    int number = 0;
    for (const size_t i : moments) {
        const double minute = std::lerp(sheet.expose_at + 0.5, sheet.exposeEnd() - 0.5, double(i) / 2.0);
        auto row = c.pen.row(Entity::Meter);
        row.put("meter_number", double(++number))
            .put("meter_exposure", i == 0 ? 1.0 : double(parts))
            .noted(c.pencil, 0.8, "meter_time", c.at(minute))
            .put("meter_uva_w_m2", rounded(uva[i] * (1.0 + c.pencil.normal(0.03)), 0.1))
            .noted(c.pencil, 0.9, "meter_instrument",
                sheet.session == 0 ? Words::tr("UV meter 1") : Words::tr("UV meter 2"));
        c.pen.write(row, c.print);
    }
}

void noteBaths(Context& c)
{
    auto& pencil = c.pencil;
    const double ph_noted = c.sheet.session == 6 ? 0.94 : 0.45;
    for (size_t i = 0; i < c.sheet.baths.size(); ++i) {
        const auto& bath = c.sheet.baths[i];
        auto row = c.pen.row(Entity::Bath);
        row.put("bath_position", double(i + 1))
            .notedChoice(pencil, 0.95, "bath_water", bath.water)
            .notedChoice(pencil, 0.96, "bath_additive", bath.additive)
            .noted(pencil, 0.94, "bath_minutes", rounded(bath.minutes, 0.5))
            .noted(pencil, 0.60, "bath_litres", rounded(bath.litres, 0.5))
            .noted(pencil, 0.65, "bath_temperature_c", rounded(bath.temperature_c + pencil.normal(0.3), 0.5))
            .noted(pencil, ph_noted, "bath_ph", rounded(bath.ph + pencil.normal(0.08), 0.1))
            .noted(pencil, 0.88, "bath_running", bath.running);
        if (bath.additive_g_l)
            row.noted(pencil, 0.9, "bath_additive_g_l", *bath.additive_g_l);
        c.pen.write(row, c.print);
    }
}

void noteSigns(Context& c)
{
    const auto& sheet = c.sheet;
    const auto& truth = c.truth;
    const auto sign = [&](double probability, const char* kind, const char* station, double strength) {
        if (!c.pencil.happens(probability))
            return;
        auto row = c.pen.row(Entity::Sign);
        row.choice("sign_kind", kind)
            .notedChoice(c.pencil, 0.85, "sign_strength",
                strength > 0.66       ? "strong"
                    : strength > 0.33 ? "clear"
                                      : "faint")
            .notedChoice(c.pencil, 0.9, "sign_station", station);
        c.pen.write(row, c.print);
    };
    const bool damp = truth.moisture_rinse > 0.20;
    if (damp && truth.formed > 0.1) {
        sign(0.65, "mottle", "rinse", truth.moisture_rinse * 1.6);
        sign(0.35, "pale_centre", "read", truth.moisture_rinse * 1.4);
        sign(0.25, "flakes", "rinse", 0.5);
    }
    if (sheet.early_heat && truth.kept < 0.7)
        sign(0.8, "flakes", "rinse", 1.3 - truth.kept);
    if (truth.fog > 0.06)
        sign(0.85, "fog", "read", truth.fog * 6.0);
    if (sheet.streaks)
        sign(0.95, "stripes", "coat", 0.6);
    sign(0.03, "specks", "read", 0.2);
    sign(0.02, "soft", "expose", 0.4);
}

} // namespace

QStringList judged(const SheetPlan& sheet, const Truth& truth, Chance& eye)
{
    QStringList outcomes;
    const double net = truth.net + eye.normal(0.03);
    const double kept = truth.kept + eye.normal(0.04);
    if (kept < 0.60 && truth.formed > 0.12)
        outcomes << QStringLiteral("ran_off");
    else if (net < 0.62)
        outcomes << QStringLiteral("pale");
    if (truth.fog + eye.normal(0.012) > 0.065)
        outcomes << QStringLiteral("fogged");
    if (sheet.streaks && eye.happens(0.8))
        outcomes << QStringLiteral("striped");
    if (truth.moisture_rinse > 0.15 && outcomes.isEmpty() && eye.happens(0.5))
        outcomes << QStringLiteral("blotchy");
    if (outcomes.isEmpty())
        outcomes << QStringLiteral("kept");
    return outcomes;
}

void writePrint(Pen& pen, const Scenario& scenario, const Shelf& shelf, qint64 session, const SheetPlan& sheet,
    const Truth& truth, Chance& pencil)
{
    Context context { pen, scenario, shelf, sheet, truth, pencil };
    context.print = notePrint(context, session);
    const bool weighed = pencil.happens(context.lesson().weighed);
    if (weighed)
        noteWeighings(context);
    noteTouch(context, weighed);
    if (sheet.exposed()) {
        noteExposures(context);
        noteLight(context);
    }
    noteBaths(context);
    writeReadings(pen, scenario, sheet, truth, pencil, context.print);
    noteSigns(context);
}

} // namespace washfast::demo
