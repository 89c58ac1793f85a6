// A place under the sun with its clock: a site of the notebook, or one that was typed.
#pragma once

#include "core/light/sun_day.h"
#include "core/trial/notebook.h"

#include <QLocale>
#include <QStringList>

namespace washfast::ui::sunlight {

struct SunSite {
    QString name;
    light::Place place;
    QTimeZone zone;
    QString ground; // key of site_ground; empty when not recorded
    QStringList assumed; // what was not recorded and taken for granted, a sentence each
};

/// A site to choose from; without `site` its record lacks what `lacking` says.
struct SiteChoice {
    qint64 id = 0;
    QString name;
    std::optional<SunSite> site;
    QString lacking;
};

[[nodiscard]] std::vector<SiteChoice> siteChoices(const Notebook& notebook);
/// The site of a session's record; 0 when there is none.
[[nodiscard]] qint64 siteOfSession(const Notebook& notebook, qint64 session);

/// What a person types for a place; latitude and longitude are needed.
struct TypedSite {
    QString latitude, longitude, height, zone;
};
/// The error is a sentence that says which of them and why.
[[nodiscard]] Result<SunSite> readSite(const Catalogue& catalogue, const TypedSite& typed, const QLocale& locale);

} // namespace washfast::ui::sunlight
