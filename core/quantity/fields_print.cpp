// The print itself, and the stations that each sheet passes once: coat, dry, hold. Their columns stand in the print's
// row.
#include "core/quantity/fields.h"

namespace washfast::fields {

namespace {

void addAbout(Catalogue& c)
{
    using enum Entity;
    c.add(textField(Print, "print_code", "Print", "The code pencilled on the back.").names());
    c.add(linkField(Print, "print_session", "Session", Session, "The lesson it was made in."));
    c.add(linkField(Print, "print_mix", "Mix", Mix, "The sensitiser it was coated with."));
    c.add(linkField(Print, "print_paper", "Paper", Paper, "The paper."));
    c.add(textField(Print, "print_maker", "Maker", "A code for who made it; never a name.")
              .lever(InCauses::Lever::Weather));
    c.add(numberField(Print, "print_width_mm", "Coated width", "mm", "Of the coated area.").range(10, 1500).digits(0));
    c.add(
        numberField(Print, "print_height_mm", "Coated height", "mm", "Of the coated area.").range(10, 1500).digits(0));
    c.add(textField(Print, "print_sheet", "Sheet", "The coated sheet, when several prints share one."));
    c.add(choiceField(Print, "print_half", "Part of the sheet",
        { option("whole", "whole"), option("first_half", "first half"), option("second_half", "second half") },
        "Which part of the shared sheet."));
    c.add(choiceField(Print, "print_method", "Method",
        { option("contact", "contact print"), option("objects", "objects print"), option("wedge", "wedge"),
            option("strip", "stepped strip"), option("control", "control, not exposed") },
        "How the picture is made.")
              .cause());
    c.add(numberField(Print, "dose_goal_j_cm2", "Dose wanted", "J/cm²",
        "Ultraviolet dose (315-400 nm) that this print is meant to get.")
              .in(Station::Expose)
              .range(0.01, 60)
              .digits(2));
    c.add(choiceSetField(Print, "print_outcome", "Outcome",
        { option("kept", "kept"), option("pale", "pale"), option("ran_off", "ran off"), option("fogged", "fogged"),
            option("striped", "striped"), option("stained", "stained"), option("bled", "bled"),
            option("blotchy", "blotchy") },
        "How it turned out; several may hold.")
              .in(Station::Read)
              .byEye());
    c.add(textField(Print, "print_notes", "Notes", "Anything else."));
    c.add(textField(Print, "print_import_mark", "Import mark",
        "Tells a row of a table that was imported before; made by the program.")
              .keptByProgram());
}

void addCoat(Catalogue& c)
{
    using enum Entity;
    const auto at = Station::Coat;
    c.add(timeField(Print, "coat_start", "Coating starts", "When the brush first touched the sheet.").in(at));
    c.add(timeField(Print, "coat_end", "Coating ends", "When the coat was left alone.")
              .in(at)
              .endsWithin(24, "coat_start"));
    c.add(choiceField(Print, "coat_tool", "Tool",
        { option("brush", "brush"), option("foam_brush", "foam brush"), option("rod", "rod"), option("spray", "spray"),
            option("dip", "dip") },
        "What spreads the mix.")
              .in(at)
              .cause()
              .sign("coat"));
    c.add(numberField(Print, "coat_volume_ml", "Mix on the sheet", "mL", "Volume that was really put on.")
              .in(at)
              .range(0.05, 50)
              .digits(2)
              .sign("skin", ""));
    c.add(numberField(Print, "coat_passes", "Passes", "", "How often the tool went over the whole sheet.")
              .in(at)
              .range(1, 30)
              .digits(0)
              .cause()
              .sign("coat"));
    c.add(numberField(
        Print, "coat_temperature_c", "Air temperature while coating", "°C", "If it differs from the room's.")
              .in(at)
              .range(-5, 45)
              .digits(1));
    c.add(numberField(Print, "coat_humidity_pct", "Humidity while coating", "%", "If it differs from the room's.")
              .in(at)
              .range(0, 100)
              .digits(0));
    c.add(choiceField(Print, "coat_light", "Light while coating",
        { option("dim_bulb", "dim bulb"), option("amber", "amber or red lamp"),
            option("curtained", "curtained daylight"), option("tubes", "fluorescent tubes"),
            option("led", "white LED") },
        "Some tubes give off ultraviolet.")
              .in(at)
              .cause()
              .signOf({ "curtained", "tubes" }, "fog"));
}

void addDryAndHold(Catalogue& c)
{
    using enum Entity;
    auto at = Station::Dry;
    c.add(timeField(Print, "dry_start", "Drying starts", "When the sheet was laid or hung up.").in(at));
    c.add(timeField(Print, "dry_end", "Drying ends", "When it was taken away.")
              .in(at)
              .endsWithin(14 * 24, "dry_start")); // coated paper may wait over the holidays
    c.add(choiceField(Print, "dry_method", "Drying method",
        { option("flat", "lying flat"), option("hung", "hung up"), option("fan", "fan, cool"),
            option("dryer_cool", "hair dryer, cool"), option("dryer_hot", "hair dryer, hot"),
            option("warm_plate", "warm plate or oven") },
        "Early heat can dry a skin on top of a wet coat.")
              .in(at)
              .cause()
              .signOf({ "dryer_hot", "warm_plate" }, "skin")
              .signOf({ "flat", "hung", "fan", "dryer_cool" }, "damp"));
    c.add(
        numberField(Print, "dry_temperature_c", "Air temperature while drying", "°C", "If it differs from the room's.")
            .in(at)
            .range(-5, 90)
            .digits(1)
            .cause()
            .sign("skin", "damp"));
    c.add(numberField(Print, "dry_humidity_pct", "Humidity while drying", "%", "If it differs from the room's.")
              .in(at)
              .range(0, 100)
              .digits(0)
              .cause()
              .sign("damp", ""));
    c.add(yesNoField(Print, "dry_covered", "Dried under film", "Under film or glass hardly any water leaves.")
              .in(at)
              .cause()
              .sign("damp_under_film", ""));

    at = Station::Hold;
    c.add(timeField(Print, "hold_start", "Hold starts", "When it was put away in the dark, exposed but not rinsed.")
              .in(at));
    c.add(timeField(Print, "hold_end", "Hold ends", "When it was taken out.")
              .in(at)
              .endsWithin(92 * 24, "hold_start")); // over the longest holidays
    c.add(textField(Print, "hold_place", "Held in", "Folder, drawer, box.").in(at));
    c.add(numberField(
        Print, "hold_humidity_pct", "Humidity while held", "%", "Above about 75-80 % the coat takes up water again.")
              .in(at)
              .range(0, 100)
              .digits(0)
              .cause()
              .sign("damp", ""));
}

} // namespace

void addPrint(Catalogue& c)
{
    addAbout(c);
    addCoat(c);
    addDryAndHold(c);
}

} // namespace washfast::fields
