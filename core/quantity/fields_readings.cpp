// Density readings, signs and photos.
#include "core/quantity/fields.h"

namespace washfast::fields {

void addReadings(Catalogue& c)
{
    using enum Entity;
    const auto at = Station::Read;
    const std::vector<Choice> moments { option("coated", "coated"), option("before_rinse", "before the rinse"),
        option("wet", "wet"), option("dry", "just dry"), option("day_after", "a day after") };

    c.add(timeField(Reading, "reading_time", "Read at", "When it was read.").in(at));
    c.add(choiceField(Reading, "reading_when", "When", moments, "State of the print.").in(at).names());
    c.add(choiceField(Reading, "reading_where", "Where",
        { option("deepest", "deepest"), option("middle", "middle"), option("open_border", "open border"),
            option("covered", "covered"), option("paper", "paper"), option("step", "step of a wedge") },
        "Spot on the print.")
              .in(at));
    c.add(numberField(Reading, "reading_step", "Step", "", "Step of the wedge or strip, counted from the clearest.")
              .in(at)
              .range(1, 60)
              .digits(0));
    c.add(choiceField(Reading, "reading_channel", "Channel",
        { option("red", "red"), option("green", "green"), option("blue", "blue"), option("visual", "visual") },
        "A camera's or scanner's channel is not a densitometer's; state it with every number.")
              .in(at));
    c.add(numberField(Reading, "reading_density", "Density", "", "Reflection density, -log10 of the reflectance.")
              .in(at)
              .range(-0.1, 3)
              .digits(2)
              .estimatedWhen(QStringLiteral("reading_method"), QStringLiteral("by_eye")));
    c.add(numberField(Reading, "reading_spread", "Spread", "", "Standard deviation of the density over the spot.")
              .in(at)
              .range(0, 1)
              .digits(3));
    c.add(choiceField(Reading, "reading_method", "Read by",
        { option("photo", "photo with grey card"), option("scan", "scan"), option("densitometer", "densitometer"),
            option("by_eye", "eye, beside a scale"), option("nothing", "nothing to read") },
        "How the density was found; \"nothing to read\" when somebody looked and no tone was left.")
              .in(at));
    c.add(numberField(Reading, "reading_lab_l", "CIE L*", "", "Lightness of the spot (D50, 2 degrees).")
              .in(at)
              .range(0, 100)
              .digits(1));
    c.add(numberField(Reading, "reading_lab_a", "CIE a*", "", "Green to red.").in(at).range(-128, 128).digits(1));
    c.add(numberField(Reading, "reading_lab_b", "CIE b*", "", "Blue to yellow.").in(at).range(-128, 128).digits(1));

    c.add(linkField(Reading, "reading_photo", "Photo read", Photo, "The photo that it was read from.")
              .in(at)
              .keptByProgram());

    c.add(choiceField(Sign, "sign_kind", "Sign",
        { option("stripes", "stripes"), option("mottle", "mottle"), option("fog", "fog in covered parts"),
            option("stain", "stain in the whites"), option("bleeding", "bleeding edges"),
            option("flakes", "blue flakes off"), option("pale_centre", "centre paler than edge"),
            option("loss", "blue lost in the rinse"), option("specks", "specks"),
            option("soft", "soft or double edges") },
        "What is seen.")
              .in(at)
              .names());
    c.add(choiceField(Sign, "sign_strength", "How strong",
        { option("faint", "faint"), option("clear", "clear"), option("strong", "strong") }, "By eye.")
              .in(at)
              .byEye());
    c.add(choiceField(Sign, "sign_station", "Seen at",
        { option("coat", "Coat"), option("dry", "Dry"), option("expose", "Expose"), option("hold", "Hold"),
            option("rinse", "Rinse"), option("read", "Read") },
        "Where it was first seen.")
              .in(at));
    c.add(textField(Sign, "sign_notes", "Notes on the sign", "Direction, spacing, where.").in(at));
    c.add(choiceField(Sign, "sign_found", "How it was found",
        { option("seen", "seen by eye"), option("accepted", "proposed from a photo, accepted"),
            option("rejected", "proposed from a photo, rejected") },
        "A rejected proposal stays on record and counts as no sign.")
              .in(at));
    c.add(numberField(Sign, "sign_measure", "Strength measured", "", "In density, of stains in b*, of edges in mm.")
              .in(at)
              .range(0, 100)
              .digits(3));
    c.add(numberField(Sign, "sign_spacing_mm", "Spacing", "mm", "Of stripes.").in(at).range(0.1, 500).digits(1));
    c.add(numberField(
        Sign, "sign_direction_deg", "Direction", "°", "Along which stripes run: 0 from side to side, 90 up and down.")
              .in(at)
              .range(0, 180)
              .digits(0));
    c.add(linkField(Sign, "sign_photo", "Photo that shows it", Photo, "Where it was proposed from.")
              .in(at)
              .keptByProgram());

    c.add(timeField(Photo, "photo_time", "Photo taken", "From the camera, if it says.").in(at));
    c.add(choiceField(Photo, "photo_stage", "Photo shows", moments, "State of the print in the photo.").in(at));
    c.add(textField(Photo, "photo_name", "File name", "As it was dropped in.").in(at).names());
    c.add(textField(Photo, "photo_format", "Format", "jpeg, png, tiff, webp.").in(at));
    c.add(numberField(Photo, "photo_width_px", "Width", "px", "Upright.").in(at).range(1, 100000).digits(0));
    c.add(numberField(Photo, "photo_height_px", "Height", "px", "Upright.").in(at).range(1, 100000).digits(0));
    c.add(numberField(Photo, "photo_bytes", "Size", "bytes", "Of the file as stored.").in(at).range(1, 1e9).digits(0));
    c.add(textField(Photo, "photo_sha256", "Checksum", "SHA-256 of the stored file.").in(at));
    c.add(textField(Photo, "photo_marks", "Marks in the photo", "Regions and outlines, as the Reading desk keeps them.")
              .in(at)
              .keptByProgram());
    c.add(linkField(Photo, "photo_card", "Card in the photo", Card, "The card that lies beside the print.").in(at));
}

} // namespace washfast::fields
