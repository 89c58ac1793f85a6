// Writes the small notebook that is kept in tests/data/notebooks for every schema that was ever released, so that a
// later version is tested on a file that it did not make itself:
//
//     washfast_keep_notebook schema-1.washfast
#include "tests/support/whole_print.h"

#include "core/store/notebook_file.h"

#include <QCoreApplication>
#include <QFile>
#include <cstdio>

using namespace washfast;
using namespace washfast::test;

namespace {

template <typename T> T must(Result<T> result)
{
    if (!result) {
        std::fprintf(stderr, "%s\n", qPrintable(result.error().sentence()));
        std::exit(1);
    }
    return std::move(result).value();
}

store::FieldValue named(const char* column, const char* name)
{
    return { QString::fromLatin1(column), Known { QString::fromUtf8(name) } };
}

Outcome fill(store::Writer& writer)
{
    Shared shared;
    const auto site = must(writer.add(Entity::Site, 0,
        { named("site_name", "Yard"), measured("site_latitude_deg", 47.5), measured("site_longitude_deg", 12.25),
            named("site_zone", "Europe/Vienna"), chosen("site_ground", "grass") }));
    const auto term = must(writer.add(Entity::Term, 0, { named("term_name", "Spring") }));
    shared.session = must(writer.add(Entity::Session, 0,
        { named("session_code", "S1"), moment("session_start", 0), linked("session_site", site),
            linked("session_term", term), measured("room_humidity_pct", 55) }));
    const auto bottle = must(writer.add(
        Entity::Chemical, 0, { named("chemical_name", "Ferric ammonium citrate"), named("chemical_lot", "L3") }));
    const auto formula = must(writer.add(Entity::Formula, 0, { named("formula_name", "Own recipe A") }));
    shared.mix = must(writer.add(
        Entity::Mix, 0, { named("mix_code", "M7"), linked("mix_formula", formula), measured("mix_water_ml", 50) }));
    must(writer.add(Entity::MixPart, shared.mix,
        { named("part_substance", "Ferric ammonium citrate"), linked("part_chemical", bottle),
            measured("part_mass_g", 5) }));
    shared.paper = must(writer.add(Entity::Paper, 0,
        { named("paper_name", "Bütten 200"), { QStringLiteral("paper_buffered"), Known { false } } }));
    shared.cover = must(writer.add(Entity::Cover, 0, { named("cover_name", "G4"), chosen("cover_kind", "glass") }));
    const auto wedge
        = must(writer.add(Entity::Negative, 0, { named("negative_name", "W21"), chosen("negative_kind", "wedge") }));
    must(writer.add(Entity::NegativeStep, wedge, { measured("step_number", 1), measured("step_uv_density", 0.05) }));
    const auto lamp = must(writer.add(Entity::Lamp, 0,
        { named("lamp_name", "Box"), chosen("lamp_kind", "tube_dark"), measured("lamp_uva_w_m2", 18) }));
    const auto card = must(
        writer.add(Entity::Card, 0, { named("card_name", "Two greys"), chosen("card_known_by", "densitometer") }));
    must(writer.add(Entity::CardPatch, card, { measured("patch_position", 1), measured("patch_density", 0.06) }));
    must(writer.add(
        Entity::FormulaPart, formula, { named("ingredient_substance", "K3[Fe(CN)6]"), measured("ingredient_g", 1) }));
    const auto print = must(addRows(writer, wholePrint(QStringLiteral("P1"), 3, shared)));
    must(writer.add(Entity::Touch, print, { chosen("touch_moment", "before_rinse"), chosen("touch_state", "crisp") }));
    must(writer.add(Entity::Sign, print, { chosen("sign_kind", "stripes"), chosen("sign_strength", "faint") }));
    must(writer.addPhoto(print, QByteArray("these bytes stand for a photo"), { named("photo_name", "p1.jpg") }));
    const auto second = must(addRows(writer, wholePrint(QStringLiteral("P2"), 8, shared)));
    must(writer.add(Entity::Exposure, second, { measured("expose_number", 2), linked("expose_lamp", lamp) }));
    must(addRows(writer, wholePrint(QStringLiteral("P3"), 9, shared)));
    return Done {};
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    const auto arguments = QCoreApplication::arguments();
    if (arguments.size() != 2 || QFile::exists(arguments[1])) {
        std::fprintf(stderr, "Usage: washfast_keep_notebook NEW-FILE\n");
        return 2;
    }
    const auto catalogue = standardCatalogue();
    auto file = must(store::NotebookFile::open(arguments[1], catalogue));
    must(file->perform(QStringLiteral("A lesson"), fill));
    must(file->perform(QStringLiteral("Correct the volume"), [](store::Writer& writer) {
        return writer.set(Ref(Entity::Print, 1), QStringLiteral("coat_volume_ml"), Known { 0.75, Evidence::Assumed });
    }));
    must(file->perform(
        QStringLiteral("Remove P3"), [](store::Writer& writer) { return writer.remove(Ref(Entity::Print, 3)); }));
    must(file->perform(QStringLiteral("Note"), [](store::Writer& writer) {
        return writer.set(Ref(Entity::Print, 2), QStringLiteral("print_notes"), Known { QStringLiteral("ran off") });
    }));
    must(file->undo());
    return 0;
}
