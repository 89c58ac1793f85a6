// Site, term, session.
#include "core/quantity/fields.h"

namespace washfast::fields {

void addPlaces(Catalogue& c)
{
    using enum Entity;
    c.add(textField(Site, "site_name", "Site", "Where the sheets are exposed, for example the yard.").names());
    c.add(numberField(Site, "site_latitude_deg", "Latitude", "°", "Degrees north of the equator, south is negative.")
              .range(-90, 90)
              .digits(4));
    c.add(numberField(Site, "site_longitude_deg", "Longitude", "°", "Degrees east of Greenwich, west is negative.")
              .range(-180, 180)
              .digits(4));
    c.add(
        numberField(Site, "site_height_m", "Height above sea level", "m", "Thinner air lets more ultraviolet through.")
            .range(-400, 6000)
            .digits(0));
    c.add(textField(Site, "site_zone", "Time zone", "An IANA name such as Europe/Lisbon."));
    c.add(choiceField(Site, "site_ground", "Ground",
        { option("grass", "grass"), option("soil", "bare soil"), option("concrete", "concrete or paving"),
            option("sand", "sand"), option("water", "water"), option("snow", "snow") },
        "What lies around the sheets; it throws light back."));

    c.add(textField(Term, "term_name", "Term", "The stretch of lessons that is reported together.").names());
    c.add(timeField(Term, "term_start", "Term starts", "The first day."));
    c.add(timeField(Term, "term_end", "Term ends", "The last day."));

    c.add(textField(Session, "session_code", "Session", "A lesson or an outing; a short code.").names());
    c.add(timeField(Session, "session_start", "Session starts", "When the lesson began."));
    c.add(linkField(Session, "session_site", "Site", Site, "Where it took place."));
    c.add(linkField(Session, "session_term", "Term", Term, "The term it belongs to."));
    c.add(textField(Session, "session_group", "Group", "The class or group, as a code.").cause());
    c.add(numberField(
        Session, "room_temperature_c", "Room temperature", "°C", "Air where the sheets are coated and dried.")
              .range(-5, 45)
              .digits(1)
              .cause());
    c.add(numberField(Session, "room_humidity_pct", "Room humidity", "%",
        "Relative humidity there. Cheap hygrometers can be wrong by 20 %.")
              .range(0, 100)
              .digits(0)
              .cause()
              .sign("damp", ""));
    c.add(textField(Session, "session_notes", "Session notes", "Anything else about the lesson."));
}

} // namespace washfast::fields
