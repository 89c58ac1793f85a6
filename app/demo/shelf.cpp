#include "app/demo/shelf.h"

#include "app/demo/words.h"

#include <cmath>
#include <map>

namespace washfast::demo {

namespace {

QString shelfText(const char* words)
{
    return QString::fromUtf8(words);
}

Instant dayOf(int month, int day)
{
    return Instant::from(QDateTime(QDate(2026, month, day), QTime(0, 0), Qt::OffsetFromUTC, 2 * 3600));
}

void writePlaces(Pen& pen, Shelf& shelf)
{
    auto site = pen.row(Entity::Site);
    site.text("site_name", Words::tr("School yard"))
        .put("site_latitude_deg", siteLatitudeDeg)
        .put("site_longitude_deg", siteLongitudeDeg)
        .put("site_height_m", 320.0)
        .text("site_zone", shelfText("Europe/Vienna"))
        .choice("site_ground", "concrete");
    shelf.site = pen.write(site);

    auto term = pen.row(Entity::Term);
    term.text("term_name", Words::tr("Spring 2026")).put("term_start", dayOf(4, 7)).put("term_end", dayOf(6, 26));
    shelf.term = pen.write(term);
}

std::map<QString, qint64> writeBottles(Pen& pen)
{
    struct Bottle {
        QString name;
        const char* formula;
        const char* lot;
        std::optional<double> purity_pct;
        std::optional<Instant> opened;
        std::optional<double> left_g, low_g;
        std::optional<bool> labelled;
    };
    const Bottle bottles[] = {
        { Words::tr("Ammonium iron(III) citrate, green"), "", "C-0417", std::nullopt, dayOf(4, 10), 61.0, 75.0, true },
        { Words::tr("Potassium hexacyanoferrate(III)"), "K3[Fe(CN)6]", "H-22", 99.0, dayOf(4, 10), 83.5, 50.0, true },
        { Words::tr("Iron(III) chloride hexahydrate"), "FeCl3.6H2O", "E-9", 98.0, std::nullopt, 240.0, {}, true },
        { Words::tr("Citric acid monohydrate"), "C6H8O7.H2O", "Z-310", 99.5, std::nullopt, std::nullopt, {}, false },
        { Words::tr("Ammonium carbonate"), "(NH4)2CO3", "A-5", std::nullopt, dayOf(5, 29), 95.0, {}, {} },
        { Words::tr("Hydrogen peroxide 3 %"), "H2O2", "", 3.0, dayOf(6, 8), std::nullopt, {}, {} },
    };
    std::map<QString, qint64> ids;
    for (const auto& bottle : bottles) {
        auto row = pen.row(Entity::Chemical);
        row.text("chemical_name", bottle.name)
            .text("chemical_formula", shelfText(bottle.formula))
            .text("chemical_lot", shelfText(bottle.lot));
        if (bottle.purity_pct)
            row.put("chemical_purity_pct", *bottle.purity_pct);
        if (bottle.opened)
            row.put("chemical_opened", *bottle.opened);
        if (bottle.left_g)
            row.put("chemical_left_g", *bottle.left_g, Evidence::Estimated);
        if (bottle.low_g)
            row.put("chemical_low_g", *bottle.low_g);
        if (bottle.labelled)
            row.put("chemical_labelled", *bottle.labelled);
        ids[bottle.name] = pen.write(row);
    }
    return ids;
}

std::array<qint64, 2> writeFormulas(Pen& pen)
{
    auto older = pen.row(Entity::Formula);
    older.text("formula_name", Words::tr("Traditional, citrate"))
        .text("formula_source", Words::tr("Long-published recipe: 25 g + 10 g in 200 mL"))
        .put("formula_iron_mol_l", 0.336)
        .put("formula_hexacyanoferrate_mol_l", 0.152)
        .text("formula_notes", Words::tr("Two solutions, mixed shortly before use."));
    auto own = pen.row(Entity::Formula);
    own.text("formula_name", Words::tr("From iron(III) chloride"))
        .text("formula_source", Words::tr("Own, after the amounts of the traditional one"))
        .put("formula_iron_mol_l", 0.336)
        .put("formula_hexacyanoferrate_mol_l", 0.152)
        .text("formula_notes",
            Words::tr(
                "Acid first, then the carbonate in small portions in an open beaker, hexacyanoferrate(III) last."));
    const qint64 first = pen.write(older);
    return { first, pen.write(own) };
}

/// A recipe with its ingredients, ready for the balance.
void writeOwnFormula(Pen& pen)
{
    constexpr double volume_ml = 20;
    auto own = pen.row(Entity::Formula);
    own.text("formula_name", Words::tr("Small class batch, 20 mL"))
        .text("formula_source", Words::tr("Own, a tenth of the long-published 200 mL"))
        .put("formula_volume_ml", volume_ml)
        .text("formula_steps",
            Words::tr("Dissolve the green salt in 10 mL of water in the brown bottle A.\n"
                      "Dissolve the hexacyanoferrate(III) in 10 mL of water in bottle B.\n"
                      "Label both bottles.\n"
                      "Pour A and B together in dim warm light, just before the class coats."))
        .put("formula_iron_mol_l", 0.336, Evidence::Estimated)
        .put("formula_hexacyanoferrate_mol_l", 0.152, Evidence::Estimated)
        .text("formula_notes", Words::tr("Enough for thirty quarter sheets."));
    const auto formula = pen.write(own);
    struct Line {
        const char* substance;
        double grams;
        const char* solution;
    };
    const Line lines[] = { { "ammonium iron(III) citrate, green", 2.5, "A" }, { "K3[Fe(CN)6]", 1.0, "B" } };
    double position = 0;
    for (const auto& line : lines) {
        auto part = pen.row(Entity::FormulaPart);
        part.put("ingredient_position", ++position)
            .text("ingredient_substance", shelfText(line.substance))
            .put("ingredient_g", line.grams)
            .text("ingredient_solution", shelfText(line.solution));
        pen.write(part, formula);
    }
}

/// A film with printed steps: what was sent to the printer, and the ultraviolet density that came out.
void writePrintedSteps(Pen& pen)
{
    auto film = pen.row(Entity::Negative);
    film.text("negative_name", Words::tr("Film: printed steps"))
        .choice("negative_kind", "film")
        .text("negative_notes", Words::tr("Eleven fields, 0 to 100 per cent of ink, each read with the light meter."));
    const auto id = pen.write(film);
    constexpr int fields = 11;
    constexpr double clear = 0.08, full = 1.62; // the film itself, and full ink
    for (int i = 0; i < fields; ++i) {
        const double ink = double(i) / (fields - 1);
        auto step = pen.row(Entity::NegativeStep);
        step.put("step_number", double(i + 1))
            .put("step_value", 100 * ink)
            .put("step_uv_density", rounded(clear + full * std::pow(ink, 1.4), 0.01));
        pen.write(step, id);
    }
}

void writeLamp(Pen& pen)
{
    auto lamp = pen.row(Entity::Lamp);
    lamp.text("lamp_name", Words::tr("Tube box, cellar"))
        .choice("lamp_kind", "tube_dark")
        .text("lamp_spectrum", shelfText("340:0.10 350:0.42 360:0.86 370:1 380:0.71 390:0.30 400:0.12 410:0.06"))
        .put("lamp_uva_w_m2", 28.0)
        .put("lamp_measured_at_cm", 20.0)
        .text("lamp_notes", Words::tr("Four tubes, changed last autumn. For days without sun."));
    pen.write(lamp);
}

void writeCard(Pen& pen)
{
    auto card = pen.row(Entity::Card);
    card.text("card_name", Words::tr("Grey card G1"))
        .choice("card_known_by", "compared")
        .put("card_known_on", dayOf(3, 27))
        .text("card_notes",
            Words::tr("Matt, lies in the drawer of the copy stand. Compared with the card of the art room."));
    const auto id = pen.write(card);
    double position = 0;
    for (const double density : { 0.06, 0.22, 0.45, 0.73, 1.04, 1.47 }) {
        auto patch = pen.row(Entity::CardPatch);
        patch.put("patch_position", ++position).put("patch_density", density);
        pen.write(patch, id);
    }
}

void writeMixes(Pen& pen, const Scenario& scenario, Shelf& shelf)
{
    const auto bottles = writeBottles(pen);
    const auto formulas = writeFormulas(pen);
    for (const auto& mix : scenario.mixes) {
        auto row = pen.row(Entity::Mix);
        row.text("mix_code", mix.code)
            .link("mix_formula", formulas[size_t(mix.formula)])
            .put("mix_made", mix.made)
            .put("mix_water_ml", mix.water_ml)
            .choice("mix_stored", mix.stored);
        if (mix.formula == 1 || mix.code.endsWith(QLatin1Char('7')) || mix.code.endsWith(QLatin1Char('8')))
            row.put("mix_ph", rounded(mix.ph, 0.1));
        if (mix.solids_noted)
            row.put("mix_solids_pct", rounded(100.0 * mix.solids, 0.1));
        const auto id = pen.write(row);
        shelf.mixes.push_back(id);
        for (const auto& part : mix.parts) {
            auto weighed = pen.row(Entity::MixPart);
            weighed.text("part_substance", part.substance).put("part_mass_g", rounded(part.mass_g, 0.01));
            if (const auto bottle = bottles.find(part.bottle); bottle != bottles.end())
                weighed.link("part_chemical", bottle->second);
            pen.write(weighed, id);
        }
    }
}

void writeSheetsAndCovers(Pen& pen, const Scenario& scenario, Shelf& shelf)
{
    for (const auto& paper : scenario.papers) {
        auto row = pen.row(Entity::Paper);
        row.text("paper_name", paper.name)
            .put("paper_weight_g_m2", paper.weight_g_m2)
            .choice("paper_sizing", paper.sizing)
            .choice("paper_fibre", paper.fibre)
            .put("paper_base_density", rounded(paper.base_density, 0.001))
            .text("paper_notes", paper.notes);
        if (paper.buffered)
            row.put("paper_buffered", *paper.buffered);
        shelf.papers.push_back(pen.write(row));
    }
    for (const auto& cover : scenario.covers) {
        auto row = pen.row(Entity::Cover);
        row.text("cover_name", cover.name)
            .choice("cover_kind", cover.kind)
            .put("cover_thickness_mm", cover.thickness_mm);
        if (cover.measured)
            row.put("cover_uva_transmittance", rounded(cover.transmittance, 0.01));
        shelf.covers.push_back(pen.write(row));
    }
    for (const auto& negative : scenario.negatives) {
        auto row = pen.row(Entity::Negative);
        row.text("negative_name", negative.name)
            .choice("negative_kind", negative.kind)
            .text("negative_notes", negative.notes);
        const auto id = pen.write(row);
        shelf.negatives.push_back(id);
        for (size_t i = 0; i < negative.steps.size(); ++i) {
            auto step = pen.row(Entity::NegativeStep);
            step.put("step_number", double(i + 1)).put("step_uv_density", rounded(negative.steps[i], 0.01));
            pen.write(step, id);
        }
    }
}

} // namespace

Shelf writeShelf(Pen& pen, const Scenario& scenario)
{
    Shelf shelf;
    writePlaces(pen, shelf);
    writeMixes(pen, scenario, shelf);
    writeSheetsAndCovers(pen, scenario, shelf);
    // Nothing here draws from the chances that the prints are made with.
    writeOwnFormula(pen);
    writePrintedSteps(pen);
    writeLamp(pen);
    writeCard(pen);
    return shelf;
}

qint64 writeLesson(Pen& pen, const Shelf& shelf, const Lesson& lesson)
{
    auto row = pen.row(Entity::Session);
    row.text("session_code", lesson.code)
        .put("session_start", lesson.begin)
        .link("session_site", shelf.site)
        .link("session_term", shelf.term)
        .text("session_group", lesson.group)
        .put("room_temperature_c", rounded(lesson.room_c, 0.5))
        .put("room_humidity_pct", rounded(lesson.room_humidity_pct, 1.0))
        .text("session_notes", lesson.notes);
    return pen.write(row);
}

} // namespace washfast::demo
