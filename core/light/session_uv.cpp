#include "core/light/session_uv.h"

#include "core/light/clear_sky.h"
#include "core/light/sun_day.h"
#include "core/light/uv_index.h"

namespace washfast::light {

std::optional<double> highestUvIndex(const Notebook& notebook, SessionId session)
{
    const auto start = notebook.get(session, u"session_start").time();
    const auto site = notebook.get(session, u"session_site").link();
    if (!start || !site)
        return std::nullopt;
    const Ref ref { Entity::Site, *site };
    const auto latitude = notebook.get(ref, u"site_latitude_deg").number();
    const auto longitude = notebook.get(ref, u"site_longitude_deg").number();
    const auto zone = zoneNamed(notebook.get(ref, u"site_zone").text().value_or(QString()));
    if (!latitude || !longitude || !zone)
        return std::nullopt;
    const auto day = sunDay(start->toDateTime().date(), *zone,
        { *latitude, *longitude, notebook.get(ref, u"site_height_m").number().value_or(0) });
    return uvIndex(day.noon_zenith_deg, Atmosphere {}.ozone_du);
}

} // namespace washfast::light
