#include "core/light/setting.h"

#include "core/light/angles.h"
#include "core/light/words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace washfast::light {

namespace {

struct Kind {
    const char* key;
    const char* name;
    double sky_share; // when none was noted: our assumption, except that open sky is all of it
    double most; // that can be seen from there
};

const Kind& rowOf(PlaceKind kind)
{
    static constexpr std::array<Kind, 5> rows { {
        { "open_sky", QT_TRANSLATE_NOOP("Light", "open sky"), 1.0, 1.0 },
        { "open_shade", QT_TRANSLATE_NOOP("Light", "open shade"), 0.5, 1.0 },
        { "beside_wall", QT_TRANSLATE_NOOP("Light", "beside a wall"), 0.5, 1.0 },
        // An upright pane sees half of the sky at most.
        { "window", QT_TRANSLATE_NOOP("Light", "indoors behind a window"), 0.2, 0.5 },
        { "lamp", QT_TRANSLATE_NOOP("Light", "lamp"), 0.0, 0.0 },
    } };
    return rows[size_t(kind)];
}

} // namespace

std::optional<PlaceKind> placeKindFromKey(const QString& key)
{
    for (const auto kind :
        { PlaceKind::OpenSky, PlaceKind::OpenShade, PlaceKind::BesideWall, PlaceKind::Window, PlaceKind::Lamp })
        if (key == QLatin1String(rowOf(kind).key))
            return kind;
    return std::nullopt;
}

QString placeKindName(PlaceKind kind)
{
    return Words::tr(rowOf(kind).name);
}

double skyShare(const Setting& setting)
{
    const auto& row = rowOf(setting.kind);
    return std::clamp(setting.sky_share.value_or(row.sky_share), 0.0, row.most);
}

bool skyShareAssumed(const Setting& setting)
{
    return !setting.sky_share && setting.kind != PlaceKind::OpenSky;
}

Geometry geometryOf(const Setting& setting, const SunPosition& sun, double ground_albedo, double direct_share_of_level)
{
    Geometry g;
    const double zenith = sun.apparent_zenith_deg * radians;
    const double tilt = setting.tilt_deg * radians;
    const double away = (sun.azimuth_deg - setting.facing_deg) * radians;
    const double mu = std::max(0.0, std::cos(zenith));
    g.cos_incidence
        = std::max(0.0, std::cos(zenith) * std::cos(tilt) + std::sin(zenith) * std::sin(tilt) * std::cos(away));
    if (setting.kind == PlaceKind::Lamp || mu <= 0)
        return g;

    const double sky_of_plane = (1 + std::cos(tilt)) / 2;
    g.ground = ground_albedo * (1 - std::cos(tilt)) / 2;
    // The cap is that of the open sky, whatever hides it here.
    const double gain
        = direct_share_of_level * g.cos_incidence / mu + (1 - direct_share_of_level) * sky_of_plane + g.ground;
    const double cap = gain > tiltGainCap ? tiltGainCap / gain : 1;

    bool reaches = setting.kind != PlaceKind::OpenShade;
    if (setting.kind == PlaceKind::Window) {
        const double cos_pane = std::sin(zenith) * std::cos(away);
        reaches = setting.facing_known && cos_pane > 0;
        if (reaches)
            g.cos_pane = cos_pane;
        g.ground = 0; // no ground outdoors is seen from the sill
    }
    if (setting.sun_reaches)
        reaches = *setting.sun_reaches && (setting.kind != PlaceKind::Window || g.cos_pane);
    g.beam = reaches ? g.cos_incidence * cap : 0;
    g.diffuse = skyShare(setting) * sky_of_plane * cap;
    g.ground *= cap;
    return g;
}

} // namespace washfast::light
