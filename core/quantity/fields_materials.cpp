// Chemicals, formulas, mixes, papers, covers, negatives and wedges, lamps, cards.
#include "core/quantity/fields.h"

namespace washfast::fields {

namespace {

void addMixes(Catalogue& c)
{
    using enum Entity;
    c.add(textField(Chemical, "chemical_name", "Chemical", "The substance as its label says.").names());
    c.add(textField(Chemical, "chemical_formula", "Formula", "For example FeCl3.6H2O; hydrate and anhydrous differ."));
    c.add(textField(Chemical, "chemical_lot", "Lot", "The lot number on the label."));
    c.add(numberField(Chemical, "chemical_purity_pct", "Purity", "%", "From the label.").range(1, 100).digits(1));
    c.add(timeField(Chemical, "chemical_opened", "Opened", "When the bottle was first opened."));
    c.add(numberField(Chemical, "chemical_left_g", "Left", "g", "How much is left.").range(0, 5000).digits(1));
    c.add(timeField(Chemical, "chemical_counted", "Left, seen on",
        "When the amount left was looked at; what was weighed out since then is taken off it."));
    c.add(textField(Chemical, "chemical_form", "Form",
        "Hydrate or anhydrous, green or brown, pure or double salt, as the label says."));
    c.add(numberField(Chemical, "chemical_bottle_g", "Bottle held", "g", "What was in it when it was new.")
              .range(0, 5000)
              .digits(1));
    c.add(numberField(Chemical, "chemical_low_g", "Low below", "g", "From here on it is said to be low.")
              .range(0, 5000)
              .digits(1));
    c.add(timeField(Chemical, "chemical_best_before", "Best before", "From the label."));
    c.add(yesNoField(Chemical, "chemical_labelled", "Bottle labelled", "It carries a label with content and date."));
    c.add(yesNoField(Chemical, "chemical_retired", "Bottle retired", "Used up or handed in; kept on record.")
              .keptByProgram());

    c.add(
        textField(Formula, "formula_name", "Formula name", "A published or an own recipe.").names().sign("sensitiser"));
    c.add(textField(Formula, "formula_source", "Source", "Where it was published."));
    c.add(
        numberField(Formula, "formula_iron_mol_l", "Iron(III)", "mol/L", "In the finished mix.").range(0, 2).digits(3));
    c.add(
        numberField(Formula, "formula_hexacyanoferrate_mol_l", "Hexacyanoferrate(III)", "mol/L", "In the finished mix.")
            .range(0, 1.4)
            .digits(3));
    c.add(textField(Formula, "formula_notes", "Notes on the formula", "Order of addition, waiting, storage."));
    c.add(numberField(Formula, "formula_volume_ml", "Amounts are for", "mL", "Volume of finished mix.")
              .range(1, 5000)
              .digits(1));
    c.add(textField(Formula, "formula_steps", "Steps of the formula", "What to do, in order; one step a line."));
    c.add(numberField(
        Formula, "formula_absorbance_365", "Absorbance at 365 nm", "", "Of the dry coat, where it was measured.")
              .range(0.01, 4)
              .digits(2));
    c.add(numberField(Formula, "formula_absorbance_tail_nm", "Absorbance falls by e within", "nm",
        "Towards the blue; how far the coat's sensitivity reaches past 365 nm.")
              .range(5, 100)
              .digits(0));
    c.add(numberField(FormulaPart, "ingredient_position", "Order", "", "Order of addition, from 1.")
              .range(1, 40)
              .digits(0));
    c.add(textField(FormulaPart, "ingredient_substance", "Substance", "A chemical formula, with its water of crystals.")
              .names());
    c.add(numberField(FormulaPart, "ingredient_g", "Amount", "g", "For the formula's volume.")
              .range(0.0001, 2000)
              .digits(3));
    c.add(textField(FormulaPart, "ingredient_solution", "Solution", "The bottle that it is kept in: A, B."));
    c.add(textField(FormulaPart, "ingredient_note", "Note", "Anything to mind when it is added."));
    c.add(yesNoField(Formula, "formula_retired", "Formula retired", "No longer used; kept on record.").keptByProgram());

    c.add(textField(Mix, "mix_code", "Mix", "The code on the bottle.").names().cause().sign("sensitiser"));
    c.add(linkField(Mix, "mix_formula", "Formula", Formula, "The recipe that it follows."));
    c.add(timeField(Mix, "mix_made", "Mix made", "When the parts were put together."));
    c.add(numberField(Mix, "mix_water_ml", "Water in the mix", "mL", "Water that the parts were dissolved in.")
              .range(0.5, 5000)
              .digits(1));
    c.add(numberField(Mix, "mix_ph", "pH of the mix", "", "By strip or meter.")
              .range(0, 14)
              .digits(1)
              .cause()
              .sign("sensitiser"));
    c.add(numberField(Mix, "mix_solids_pct", "Solids in the mix", "%",
        "Dissolved substance, by mass. The rest is water that has to dry off.")
              .range(1, 60)
              .digits(1));
    c.add(choiceField(Mix, "mix_stored", "Mix stored",
        { option("used_at_once", "used at once"), option("dark_bottle", "dark bottle"),
            option("clear_bottle", "clear bottle"), option("fridge", "in the cold, dark") },
        "How it stood until it was used.")
              .cause()
              .sign("sensitiser"));
    c.add(textField(Mix, "mix_notes", "Mix notes", "Anything else about the mix."));
    c.add(numberField(Mix, "mix_left_ml", "Mix left", "mL", "How much was left when it was looked at.")
              .range(0, 5000)
              .digits(1));
    c.add(timeField(Mix, "mix_left_seen", "Mix left, seen on",
        "When the volume left was looked at; what was painted on since then is taken off it."));
    c.add(yesNoField(Mix, "mix_labelled", "Mix labelled", "The bottle carries a label with content and date."));
    c.add(yesNoField(Mix, "mix_retired", "Mix retired", "Used up or handed in; kept on record.").keptByProgram());

    c.add(textField(MixPart, "part_substance", "Substance", "What was weighed, as a chemical formula or a name.")
              .names());
    c.add(linkField(MixPart, "part_chemical", "From bottle", Chemical, "The bottle it came from."));
    c.add(numberField(MixPart, "part_mass_g", "Weighed", "g", "What was really weighed.").range(0.001, 1000).digits(3));
}

void addSheetsAndCovers(Catalogue& c)
{
    using enum Entity;
    c.add(textField(Paper, "paper_name", "Paper", "Kind and make, or an own code.").names().cause());
    c.add(numberField(Paper, "paper_weight_g_m2", "Paper weight", "g/m²", "From the packet.")
              .range(20, 1000)
              .digits(0)
              .cause());
    c.add(choiceField(Paper, "paper_sizing", "Sizing",
        { option("none", "none"), option("internal", "internal"), option("surface", "surface"),
            option("gelatine", "gelatine"), option("starch", "starch") },
        "What keeps the coat from sinking in.")
              .cause()
              .signOf({ "none" }, "coat"));
    c.add(yesNoField(Paper, "paper_buffered", "Buffered paper", "With chalk in it, which is alkaline.")
              .cause()
              .sign("rinse_alkaline", ""));
    c.add(choiceField(Paper, "paper_fibre", "Fibre",
        { option("cotton", "cotton"), option("wood", "wood"), option("mixed", "mixed") }, "What it is made of.")
              .cause());
    c.add(numberField(
        Paper, "paper_base_density", "Density of the bare paper", "", "Scan red density of the uncoated sheet.")
              .range(0, 0.6)
              .digits(3));
    c.add(textField(Paper, "paper_notes", "Paper notes", "Anything else about the paper."));
    c.add(yesNoField(Paper, "paper_retired", "Paper retired", "No longer used; kept on record.").keptByProgram());

    c.add(textField(Cover, "cover_name", "Cover", "What lies between the sky and the sheet.")
              .names()
              .cause()
              .sign("cover"));
    c.add(choiceField(Cover, "cover_kind", "Kind of cover",
        { option("glass", "clear glass"), option("low_iron_glass", "low-iron glass"),
            option("laminated_glass", "laminated glass"), option("acrylic", "acrylic sheet"),
            option("acetate", "acetate film"), option("polyester", "polyester film"), option("other", "another") },
        "Its material.")
              .cause()
              .sign("cover"));
    c.add(numberField(Cover, "cover_thickness_mm", "Thickness", "mm", "Of one layer.")
              .range(0.01, 30)
              .digits(3)
              .cause()
              .sign("cover", ""));
    c.add(numberField(Cover, "cover_uva_transmittance", "Passes ultraviolet", "",
        "Share of 315-400 nm let through, measured, 0 to 1.")
              .range(0, 1)
              .digits(3)
              .sign("", "cover"));
    c.add(textField(Cover, "cover_notes", "Cover notes", "Anything else about the cover."));
    c.add(textField(Cover, "cover_spectrum", "Spectrum of the cover",
        "Wavelength in nm and share let through, in pairs such as 320:0.41 340:0.70."));
    c.add(yesNoField(Cover, "cover_retired", "Cover retired", "No longer used; kept on record.").keptByProgram());

    c.add(textField(Negative, "negative_name", "Negative", "The film, the wedge or the objects.").names());
    c.add(choiceField(Negative, "negative_kind", "Kind of negative",
        { option("film", "film negative"), option("objects", "objects"), option("wedge", "wedge"),
            option("strips", "covering strips"), option("none", "none, open") },
        "What makes the picture.")
              .cause());
    c.add(textField(Negative, "negative_notes", "Negative notes", "Anything else about it."));
    c.add(yesNoField(Negative, "negative_retired", "Negative retired", "No longer used; kept on record.")
              .keptByProgram());
    c.add(numberField(NegativeStep, "step_number", "Step", "", "Counted from the clearest.")
              .range(1, 60)
              .digits(0)
              .names());
    c.add(numberField(
        NegativeStep, "step_uv_density", "Ultraviolet density", "", "Of this step, measured in ultraviolet.")
              .range(0, 6)
              .digits(3));
    c.add(numberField(NegativeStep, "step_value", "Value printed", "",
        "What was sent to the printer for this step, such as per cent of ink; empty for a bought wedge.")
              .range(0, 65535)
              .digits(1));
}

void addLamps(Catalogue& c)
{
    using enum Entity;
    c.add(textField(Lamp, "lamp_name", "Lamp", "What stands in for the sun.").names().cause());
    c.add(choiceField(Lamp, "lamp_kind", "Kind of lamp",
        { option("led_365", "LED, 365 nm"), option("led_385", "LED, 385 nm"), option("led_395", "LED, 395 nm"),
            option("led_405", "LED, 405 nm"), option("tube_dark", "ultraviolet tube, dark glass"),
            option("tube_white", "ultraviolet tube, white glass"), option("mercury", "mercury vapour"),
            option("halide", "metal halide"), option("other", "another") },
        "How it makes its light; a typical spectrum stands in for one that was not measured."));
    c.add(textField(Lamp, "lamp_spectrum", "Spectrum of the lamp",
        "Wavelength in nm and relative strength, in pairs such as 360:0.4 370:1 380:0.5."));
    c.add(numberField(Lamp, "lamp_uva_w_m2", "Lamp's ultraviolet", "W/m²", "315-400 nm, measured without a cover.")
              .range(0, 2000)
              .digits(1));
    c.add(numberField(Lamp, "lamp_measured_at_cm", "Measured at", "cm", "From the lamp, where that was read.")
              .range(0.5, 1000)
              .digits(1));
    c.add(textField(Lamp, "lamp_notes", "Lamp notes", "Hours burnt, tubes changed."));
    c.add(yesNoField(Lamp, "lamp_retired", "Lamp retired", "No longer used; kept on record.").keptByProgram());
}

void addCards(Catalogue& c)
{
    using enum Entity;
    c.add(textField(Card, "card_name", "Card", "A card with patches of known density, for photos.").names());
    c.add(choiceField(Card, "card_known_by", "Known by",
        { option("densitometer", "densitometer"), option("maker", "its maker's figures"),
            option("compared", "comparison with another card"), option("assumed", "assumed") },
        "Where the densities come from; readings cannot be known better."));
    c.add(timeField(Card, "card_known_on", "Known since", "When the densities were found; cards yellow."));
    c.add(textField(Card, "card_notes", "Card notes", "Matt or glossy, where it lies."));
    c.add(yesNoField(Card, "card_retired", "Card retired", "No longer used; kept on record.").keptByProgram());
    c.add(numberField(CardPatch, "patch_position", "Patch", "", "Counted from the lightest.")
              .range(1, 60)
              .digits(0)
              .names());
    c.add(numberField(CardPatch, "patch_density", "Density", "", "Neutral: the same in every channel.")
              .range(0, 3)
              .digits(3));
    c.add(numberField(CardPatch, "patch_red", "Red density", "", "Where it differs from the neutral density.")
              .range(0, 3)
              .digits(3));
    c.add(numberField(CardPatch, "patch_green", "Green density", "", "Where it differs from the neutral density.")
              .range(0, 3)
              .digits(3));
    c.add(numberField(CardPatch, "patch_blue", "Blue density", "", "Where it differs from the neutral density.")
              .range(0, 3)
              .digits(3));
}

} // namespace

void addMaterials(Catalogue& c)
{
    addMixes(c);
    addSheetsAndCovers(c);
    addLamps(c);
    addCards(c);
}

} // namespace washfast::fields
