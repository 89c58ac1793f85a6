#include "ui/sunlight/sun_site.h"

#include "core/quantity/value_text.h"
#include "ui/sunlight/words.h"

namespace washfast::ui::sunlight {

namespace {

/// Height and clock where they are known, else what is taken instead.
void fillIn(SunSite& site, std::optional<double> height_m, const QTimeZone* zone)
{
    site.place.height_m = height_m.value_or(0);
    if (!height_m)
        site.assumed << Words::tr("Height above the sea is not recorded: sea level is taken.");
    site.zone = zone ? *zone : QTimeZone::systemTimeZone();
    if (!zone)
        site.assumed << Words::tr("The time zone is not recorded: this computer's (%1) is taken.")
                            .arg(QString::fromUtf8(site.zone.id()));
}

/// Only names that the computer lists: a plain word would be read as the rule of a clock without daylight time.
Result<QTimeZone> listedZone(const QString& name)
{
    auto zone = light::zoneNamed(name);
    if (!zone || name.isEmpty() || QTimeZone::availableTimeZoneIds().contains(name.toUtf8()))
        return zone;
    return Error { Trouble::BadInput,
        Words::tr("“%1” is no time zone that this computer knows; one is written like Europe/Lisbon.").arg(name), {} };
}

} // namespace

std::vector<SiteChoice> siteChoices(const Notebook& notebook)
{
    std::vector<SiteChoice> choices;
    const auto& table = notebook.table(Entity::Site);
    for (int row = 0; row < table.rows(); ++row) {
        const Ref ref { Entity::Site, table.id(row) };
        SiteChoice choice;
        choice.id = ref.id;
        choice.name = notebook.nameOf(ref);
        const auto latitude = notebook.get(ref, u"site_latitude_deg").number();
        const auto longitude = notebook.get(ref, u"site_longitude_deg").number();
        const auto zone_name = notebook.get(ref, u"site_zone").text().value_or(QString());
        const auto zone = listedZone(zone_name);
        if (!latitude || !longitude) {
            choice.lacking = Words::tr("The site “%1” has no latitude and longitude yet.").arg(choice.name);
        } else if (!zone) {
            choice.lacking = Words::tr("The site “%1”: %2").arg(choice.name, zone.error().sentence());
        } else {
            SunSite site;
            site.name = choice.name;
            site.place = { *latitude, *longitude, 0 };
            site.ground = notebook.get(ref, u"site_ground").text().value_or(QString());
            fillIn(site, notebook.get(ref, u"site_height_m").number(), zone_name.isEmpty() ? nullptr : &*zone);
            choice.site = std::move(site);
        }
        choices.push_back(std::move(choice));
    }
    return choices;
}

qint64 siteOfSession(const Notebook& notebook, qint64 session)
{
    return notebook.get({ Entity::Session, session }, u"session_site").link().value_or(0);
}

Result<SunSite> readSite(const Catalogue& catalogue, const TypedSite& typed, const QLocale& locale)
{
    const auto number = [&](QStringView key, const QString& text) -> Result<std::optional<double>> {
        const auto& field = catalogue.columnField(Entity::Site, key);
        const auto known = parseTyped(field, text, locale);
        if (!known)
            return known.error();
        const auto value = known->number();
        if (value && field.low && field.high && (*value < *field.low || *value > *field.high))
            return Error { Trouble::BadInput,
                Words::tr("%1 lies between %2 and %3.").arg(field.label, figure(*field.low, 0), figure(*field.high, 0)),
                field.label };
        return value;
    };
    const auto latitude = number(u"site_latitude_deg", typed.latitude);
    if (!latitude)
        return latitude.error();
    const auto longitude = number(u"site_longitude_deg", typed.longitude);
    if (!longitude)
        return longitude.error();
    const auto height = number(u"site_height_m", typed.height);
    if (!height)
        return height.error();
    if (!*latitude || !*longitude)
        return Error { Trouble::BadInput, Words::tr("Latitude and longitude are needed, in degrees."), {} };
    const auto zone = listedZone(typed.zone.trimmed());
    if (!zone)
        return zone.error();
    SunSite site;
    site.name = Words::tr("typed place");
    site.place = { **latitude, **longitude, 0 };
    fillIn(site, *height, typed.zone.trimmed().isEmpty() ? nullptr : &*zone);
    return site;
}

} // namespace washfast::ui::sunlight
