#include "app/demo/scenario.h"

#include "app/demo/chance.h"
#include "app/demo/words.h"

namespace washfast::demo {

namespace {

QString text(const char* latin)
{
    return QString::fromUtf8(latin);
}

/// In 2026, summer time of central Europe.
Instant moment(int month, int day, int hour, int minute)
{
    const QDateTime local(QDate(2026, month, day), QTime(hour, minute), Qt::OffsetFromUTC, 2 * 3600);
    return Instant::from(local);
}

std::vector<PaperKind> papers()
{
    return {
        { Words::tr("Cotton rag 300"), 300, "gelatine", false, "cotton", 0.058, 1.36,
            Words::tr("Heavy, dries slowly at the edges.") },
        { Words::tr("Drawing block 190"), 190, "surface", false, "wood", 0.071, 1.24, {} },
        { Words::tr("School cartridge 150"), 150, "internal", std::nullopt, "wood", 0.086, 1.10,
            Words::tr("From the art room; packet lost.") },
    };
}

std::vector<CoverKind> covers()
{
    return {
        { Words::tr("Glass 4 mm"), "glass", 4.0, 0.744, true },
        { Words::tr("Low-iron glass 3 mm"), "low_iron_glass", 3.0, 0.87, true },
        { Words::tr("Acetate sheet"), "acetate", 0.3, 0.84, false },
    };
}

std::vector<NegativeKind> negatives()
{
    std::vector<double> steps;
    steps.reserve(12);
    for (int i = 0; i < 12; ++i)
        steps.push_back(0.05 + 0.15 * i);
    return {
        { Words::tr("Film: plane tree"), "film", 0.09, {}, {} },
        { Words::tr("Film: stairwell"), "film", 0.11, {}, {} },
        { Words::tr("Film: map of the yard"), "film", 0.08, {}, Words::tr("Ink side down.") },
        { Words::tr("Leaves and grass"), "objects", 0.0, {}, {} },
        { Words::tr("Wedge W, 12 steps"), "wedge", steps.front(), steps,
            Words::tr("Ultraviolet densities measured with the light meter.") },
        { Words::tr("Card strips"), "strips", 0.0, {}, {} },
    };
}

std::vector<MixMade> mixes(quint32 seed)
{
    struct Row {
        const char* code;
        Instant made;
        double water_ml;
        const char* stored;
        int formula;
        bool solids_noted;
    };
    const Row rows[] = {
        { "M1", moment(4, 13, 15, 40), 30, "dark_bottle", 0, true },
        { "M2", moment(4, 20, 8, 10), 20, "dark_bottle", 0, true },
        { "M3", moment(4, 21, 8, 50), 20, "used_at_once", 0, false },
        { "M4", moment(4, 28, 9, 30), 30, "used_at_once", 0, true },
        { "M5", moment(5, 5, 7, 45), 40, "dark_bottle", 0, true },
        { "M6", moment(5, 11, 17, 10), 30, "fridge", 0, true },
        { "M7", moment(5, 19, 9, 10), 30, "dark_bottle", 0, true },
        { "M8", moment(6, 2, 9, 35), 20, "used_at_once", 0, true },
        { "M9", moment(6, 2, 9, 20), 20, "clear_bottle", 1, false },
        { "M10", moment(6, 8, 14, 0), 30, "fridge", 0, true },
    };
    std::vector<MixMade> made;
    quint32 number = 0;
    for (const auto& row : rows) {
        Chance scale(seed, 100, number++);
        const double litres = row.water_ml / 1000.0;
        const auto weighed = [&](double g_l) { return g_l * litres * (1.0 + scale.normal(0.008)); };
        MixMade mix { text(row.code), row.formula, row.made, row.water_ml, 0, row.stored, 0, row.solids_noted, 0, {} };
        if (row.formula == 0) {
            // 25 g and 10 g in 200 mL: Ware, "The new cyanotype", alternativephotography.com, which also gives this
            // older recipe.
            mix.parts.push_back({ text("ammonium iron(III) citrate, green"),
                Words::tr("Ammonium iron(III) citrate, green"), weighed(125) });
            mix.parts.push_back({ text("K3[Fe(CN)6]"), Words::tr("Potassium hexacyanoferrate(III)"), weighed(50) });
            mix.ph = 6.1 + scale.normal(0.1);
            mix.solids = 35.0 / 235.0;
            mix.speed = 1.0;
        } else {
            // The same iron and hexacyanoferrate from iron(III) chloride, neutralised; carbon dioxide leaves.
            mix.parts.push_back({ text("FeCl3.6H2O"), Words::tr("Iron(III) chloride hexahydrate"), weighed(90.8) });
            mix.parts.push_back({ text("C6H8O7.H2O"), Words::tr("Citric acid monohydrate"), weighed(93.9) });
            mix.parts.push_back({ text("(NH4)2CO3"), Words::tr("Ammonium carbonate"), weighed(74.9) });
            mix.parts.push_back({ text("K3[Fe(CN)6]"), Words::tr("Potassium hexacyanoferrate(III)"), weighed(50.0) });
            mix.ph = 5.4;
            mix.solids = 0.20;
            mix.speed = 0.85;
        }
        made.push_back(std::move(mix));
    }
    return made;
}

std::vector<Lesson> lessons()
{
    return {
        { text("S1"), text("A"), moment(4, 14, 10, 5), 20.5, 49, 0.98, 0.75, 0.80,
            Words::tr("First time. Everybody coats as they like. Curtains drawn, tubes on over the back benches.") },
        { text("S2"), text("B"), moment(4, 21, 10, 5), 21.0, 52, 1.00, 0.80, 0.90,
            Words::tr("Yesterday's bottle and a fresh one side by side.") },
        { text("S3"), text("A"), moment(4, 28, 10, 55), 22.0, 42, 1.02, 0.90, 0.95,
            Words::tr("Took our time. Clear sky.") },
        { text("S4"), text("B"), moment(5, 5, 10, 5), 21.5, 48, 0.99, 0.96, 0.96,
            Words::tr(
                "Exposed before the break, rinsed after it. The sheets waited in the blue folder. Half of them ran "
                "off.") },
        { text("S5"), text("A"), moment(5, 12, 10, 5), 22.0, 45, 1.00, 0.92, 0.95,
            Words::tr("Clouds all morning, sun in between. Some could not wait, some forgot theirs outside.") },
        { text("S6"), text("B"), moment(5, 19, 10, 55), 20.5, 50, 0.97, 0.94, 0.0,
            Words::tr(
                "Second table always late. No photos before the rinse, the camera was at another school. Half of the "
                "prints are lost.") },
        { text("S7"), text("A"), moment(6, 2, 10, 5), 24.0, 44, 1.00, 0.80, 0.92,
            Words::tr("Four trays, two recipes. The pH strips at last.") },
        { text("S8"), text("B"), moment(6, 9, 10, 5), 25.0, 43, 0.96, 0.10, 0.92,
            Words::tr("Sheets cut in two after coating: one half on the line, the other under the dryer.") },
    };
}

} // namespace

Scenario makeScenario(quint32 seed)
{
    Scenario scenario { papers(), covers(), negatives(), mixes(seed), lessons(), {} };
    scenario.sheets = planSheets(scenario, seed);
    return scenario;
}

std::vector<Planted> plantedBatches()
{
    const auto fields = [](std::initializer_list<const char*> keys) {
        QStringList list;
        for (const char* key : keys)
            list << QString::fromLatin1(key);
        return list;
    };
    return {
        { QStringLiteral("S1"), QStringLiteral("mixed"),
            QStringLiteral("Coat, drying, exposure and room light all varied by chance."),
            fields({ "dose_j_cm2", "moisture_at_rinse_pct", "coat_per_area_ml_m2", "coat_light" }) },
        { QStringLiteral("S2"), QStringLiteral("mixed"),
            QStringLiteral("The mix made the day before veiled the whites and was slower; the fresh one was not."),
            fields({ "mix_age_h", "mix_code" }) },
        { QStringLiteral("S3"), QStringLiteral("good"),
            QStringLiteral("Dry, enough light, fresh mix, short acid rinse: nearly all kept."),
            fields({ "kept", "net_density" }) },
        { QStringLiteral("S4"), QStringLiteral("damp_rinse"),
            QStringLiteral(
                "Dry and well lit at exposure; about half took up water in the folder, were rinsed damp and ran off."),
            fields({ "moisture_at_rinse_pct", "kept" }) },
        { QStringLiteral("S5"), QStringLiteral("light_lost"),
            QStringLiteral(
                "Thick cloud over three of five waves, and a few taken in early: little light, little formed, what "
                "formed was kept."),
            fields({ "dose_j_cm2", "formed" }) },
        { QStringLiteral("S6"), QStringLiteral("tangle"),
            QStringLiteral(
                "Damp and a short exposure went together in every print, and there is no tone before the rinse: "
                "cannot be told apart."),
            fields(
                { "moisture_at_rinse_pct", "moisture_at_expose_pct", "dry_minutes", "expose_minutes", "dose_j_cm2" }) },
        { QStringLiteral("S7"), QStringLiteral("mixed"),
            QStringLiteral("Long rinse and alkaline water, crossed: together they take the most."),
            fields({ "rinse_minutes", "bath2_ph", "kept" }) },
        { QStringLiteral("S8"), QStringLiteral("mixed"),
            QStringLiteral(
                "Halves dried hot at once had a skin and lost much of their blue in the rinse; hung halves did not."),
            fields({ "dry_method", "kept" }) },
    };
}

} // namespace washfast::demo
