// Exposures and light readings. A print may have several exposures (a stepped strip); the first is number 1.
#include "core/quantity/fields.h"

namespace washfast::fields {

void addLight(Catalogue& c)
{
    using enum Entity;
    const auto at = Station::Expose;
    c.add(numberField(Exposure, "expose_number", "Exposure", "", "1 for the first, 2 for the next.")
              .in(at)
              .range(1, 60)
              .digits(0)
              .names());
    c.add(timeField(Exposure, "expose_start", "Exposure starts", "When the light reached the sheet.").in(at));
    c.add(timeField(Exposure, "expose_end", "Exposure ends", "When it was covered or taken in.")
              .in(at)
              .endsWithin(24, "expose_start"));
    c.add(numberField(Exposure, "expose_pause_min", "Pauses", "min", "Minutes in between without light.")
              .in(at)
              .range(0, 600)
              .digits(1));
    c.add(choiceField(Exposure, "expose_place", "Place",
        { option("open_sky", "open sky"), option("open_shade", "open shade"), option("beside_wall", "beside a wall"),
            option("window", "indoors behind a window"), option("lamp", "lamp") },
        "Where the sheet lay.")
              .in(at)
              .cause()
              .signOf({ "open_shade", "beside_wall", "lamp" }, "light")
              .signOf({ "window" }, "cover"));
    c.add(numberField(Exposure, "expose_sky_share", "Share of the sky seen", "", "0 to 1, from where the sheet lies.")
              .in(at)
              .range(0, 1)
              .digits(2)
              .byEye()
              .sign("", "light"));
    c.add(linkField(Exposure, "expose_cover", "Cover", Cover, "What lay over the sheet.").in(at));
    c.add(linkField(Exposure, "expose_cover2", "Second cover", Cover, "What lay over that.").in(at));
    c.add(linkField(Exposure, "expose_negative", "Negative", Negative, "Film, wedge or objects.").in(at));
    c.add(numberField(Exposure, "expose_tilt_deg", "Tilt", "°", "0 is level, 90 upright.")
              .in(at)
              .range(0, 90)
              .digits(0)
              .sign("light", ""));
    c.add(numberField(
        Exposure, "expose_facing_deg", "Facing", "°", "From north through east; where a tilted sheet looks.")
              .in(at)
              .range(0, 360)
              .digits(0));
    c.add(linkField(Exposure, "expose_lamp", "Lamp", Lamp, "Where the light came from, when it was a lamp.").in(at));
    c.add(numberField(Exposure, "expose_lamp_distance_cm", "Distance of the lamp", "cm", "From the lamp to the sheet.")
              .in(at)
              .range(0.5, 1000)
              .digits(1)
              .sign("light", "overexposed"));
    const std::vector<Choice> disc { option("yes", "yes"), option("partly", "partly"), option("no", "no") };
    struct Part {
        const char* cloud;
        const char* cloud_label;
        const char* disc;
        const char* disc_label;
    };
    const Part parts[] = {
        { "cloud_start_eighths", "Cloud at the start", "disc_start", "Sun's disc at the start" },
        { "cloud_middle_eighths", "Cloud in the middle", "disc_middle", "Sun's disc in the middle" },
        { "cloud_end_eighths", "Cloud at the end", "disc_end", "Sun's disc at the end" },
    };
    for (const auto& part : parts) {
        const bool start = &part == &parts[0];
        auto cloud = numberField(
            Exposure, part.cloud, part.cloud_label, "eighths", "Eighths of the sky that are clouded, by eye.")
                         .in(at)
                         .range(0, 8)
                         .digits(0)
                         .byEye()
                         .lever(InCauses::Lever::Weather)
                         .sign("light", "overexposed");
        auto seen = choiceField(Exposure, part.disc, part.disc_label, disc, "Whether the sun's disc shows.")
                        .in(at)
                        .byEye()
                        .lever(InCauses::Lever::Weather)
                        .signOf({ "partly", "no" }, "light");
        cloud.factor = seen.factor = start;
        c.add(cloud);
        c.add(seen);
    }

    c.add(numberField(Meter, "meter_number", "Reading", "", "1 for the first of this print.")
              .in(at)
              .range(1, 200)
              .digits(0));
    c.add(numberField(Meter, "meter_exposure", "For exposure", "", "Number of the exposure it belongs to.")
              .in(at)
              .range(1, 60)
              .digits(0));
    c.add(timeField(Meter, "meter_time", "Light read at", "When the instrument was read.").in(at));
    c.add(numberField(Meter, "meter_uva_w_m2", "Ultraviolet at the paper", "W/m²",
        "315-400 nm, under the same cover and tilt as the sheet.")
              .in(at)
              .range(0, 150)
              .digits(2)
              .lever(InCauses::Lever::Measured)
              .sign("overexposed", "light"));
    c.add(textField(Meter, "meter_instrument", "Instrument", "Which one; they differ.").in(at));
}

} // namespace washfast::fields
