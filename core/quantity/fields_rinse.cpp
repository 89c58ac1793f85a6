// Baths in their order, weighings, touch states.
#include "core/quantity/fields.h"

namespace washfast::fields {

void addRinse(Catalogue& c)
{
    using enum Entity;
    auto at = Station::Rinse;
    c.add(timeField(Print, "rinse_start", "Rinse starts", "When water first touched the sheet.").in(at));
    c.add(timeField(Print, "rinse_end", "Rinse ends", "When it left the last bath.")
              .in(at)
              .endsWithin(24, "rinse_start"));
    c.add(textField(Print, "rinse_tray", "Tray", "Prints that share a tray share its fate.").in(at));

    c.add(numberField(Bath, "bath_position", "Bath", "", "1 for the first.").in(at).range(1, 20).digits(0).names());
    c.add(choiceField(Bath, "bath_water", "water",
        { option("tap", "tap"), option("rain", "rain"), option("distilled", "distilled or deionised"),
            option("sea", "sea") },
        "Where the water comes from.")
              .in(at)
              .cause()
              .signOf({ "tap", "sea" }, "rinse_alkaline"));
    c.add(choiceField(Bath, "bath_additive", "additive",
        { option("none", "none"), option("citric_acid", "citric acid"), option("vinegar", "vinegar"),
            option("peroxide", "hydrogen peroxide"), option("salt", "salt"), option("soda", "washing soda") },
        "What was put into it.")
              .in(at)
              .cause()
              .signOf({ "none", "soda" }, "rinse_alkaline"));
    c.add(numberField(Bath, "bath_additive_g_l", "amount of additive", "g/L", "Per litre of water.")
              .in(at)
              .range(0, 300)
              .digits(1));
    c.add(numberField(Bath, "bath_minutes", "time", "min", "How long the print lay in it.")
              .in(at)
              .range(0, 600)
              .digits(1)
              .cause()
              .sign("rinse_long", "under_rinsed"));
    c.add(numberField(Bath, "bath_litres", "volume", "L", "Water used.").in(at).range(0.02, 500).digits(1));
    c.add(numberField(Bath, "bath_temperature_c", "temperature", "°C", "Of the water.")
              .in(at)
              .range(0, 60)
              .digits(1)
              .cause());
    c.add(numberField(Bath, "bath_ph", "pH", "", "By strip or meter. Alkaline water takes the blue away.")
              .in(at)
              .range(0, 14)
              .digits(1)
              .cause()
              .sign("rinse_alkaline", ""));
    c.add(yesNoField(Bath, "bath_running", "running water", "Running, or standing.").in(at).cause());

    c.add(timeField(Weighing, "weigh_time", "Weighed at", "When it lay on the balance.").in(Station::Dry));
    c.add(choiceField(Weighing, "weigh_state", "State",
        { option("bare", "bare sheet"), option("coated", "just coated"), option("drying", "while drying"),
            option("before_expose", "before exposure"), option("before_rinse", "before the rinse"),
            option("oven_dry", "fully dry") },
        "What was weighed.")
              .in(Station::Dry)
              .names());
    c.add(numberField(Weighing, "weigh_mass_g", "Mass", "g", "The sheet on the balance.")
              .in(Station::Dry)
              .range(0.05, 500)
              .digits(2));

    c.add(timeField(Touch, "touch_time", "Touched at", "When it was felt.").in(Station::Dry));
    c.add(choiceField(Touch, "touch_moment", "Touched",
        { option("drying", "while drying"), option("before_expose", "before exposure"),
            option("before_rinse", "before the rinse") },
        "When it was felt.")
              .in(Station::Dry));
    c.add(choiceField(Touch, "touch_state", "Touch",
        { option("wet_shine", "wet, shines"), option("clings", "clings to the finger"), option("cool", "matt but cool"),
            option("dry", "dry to the touch"), option("crisp", "crisp") },
        "How the coat feels, from wettest to driest.")
              .in(Station::Dry)
              .byEye()
              .names()
              .lever(InCauses::Lever::Measured)
              .signOf({ "wet_shine", "clings", "cool" }, "damp"));
}

} // namespace washfast::fields
