// How a print reaches the columns of the other tables.
#include "core/quantity/fields.h"

#include "core/quantity/words.h"

namespace washfast::fields {

namespace {

Route through(Entity entity, QStringList via, int group)
{
    Route route { entity, {}, {}, {}, QStringLiteral("%1"), {}, group, {} };
    route.source.via = std::move(via);
    return route;
}

Route child(Entity entity, std::vector<std::pair<QString, Value>> match, const QString& pattern)
{
    Route route { entity, {}, {}, {}, pattern, {}, 0, {} };
    route.source.child = entity;
    route.source.match = std::move(match);
    return route;
}

void addExposureRoutes(Catalogue& catalogue)
{
    for (int n = 1; n <= 3; ++n) {
        Route meter = child(Entity::Meter, { { QStringLiteral("meter_number"), double(n) } },
            QuantityWords::tr("%2, reading %1").arg(QString::number(n), QStringLiteral("%1")));
        meter.only = { QStringLiteral("meter_uva_w_m2"), QStringLiteral("meter_time") };
        meter.key_from = QStringLiteral("meter_");
        meter.key_to = QStringLiteral("meter%1_").arg(n);
        meter.group = n;
        catalogue.addRoute(meter);
    }
    const std::pair<QString, Value> first { QStringLiteral("expose_number"), 1.0 };
    catalogue.addRoute(child(Entity::Exposure, { first }, QStringLiteral("%1")));
    const auto linked = [&](Entity entity, const QString& link, const QString& from, const QString& to,
                            const QString& pattern, const QStringList& only) {
        Route route = child(Entity::Exposure, { first }, pattern);
        route.entity = entity;
        route.source.after = { link };
        route.key_from = from;
        route.key_to = to;
        route.only = only;
        route.station = Station::Expose;
        catalogue.addRoute(route);
    };
    linked(Entity::Cover, QStringLiteral("expose_cover"), {}, {}, QStringLiteral("%1"), {});
    linked(Entity::Cover, QStringLiteral("expose_cover2"), QStringLiteral("cover_"), QStringLiteral("cover2_"),
        QuantityWords::tr("Second cover: %1"), { QStringLiteral("cover_name") });
    linked(Entity::Lamp, QStringLiteral("expose_lamp"), {}, {}, QStringLiteral("%1"),
        { QStringLiteral("lamp_name"), QStringLiteral("lamp_kind") });
    linked(Entity::Negative, QStringLiteral("expose_negative"), {}, {}, QStringLiteral("%1"),
        { QStringLiteral("negative_name"), QStringLiteral("negative_kind") });
}

void addReadingRoutes(Catalogue& catalogue)
{
    struct Named {
        const char* key;
        const char* label;
    };
    const Named moments[] = { { "coated", "coated" }, { "before_rinse", "before the rinse" }, { "wet", "wet" },
        { "dry", "just dry" }, { "day_after", "a day after" } };
    const Named spots[] = { { "deepest", "deepest" }, { "middle", "middle" }, { "open_border", "open border" },
        { "covered", "covered" }, { "paper", "paper" } };
    for (const auto& moment : moments) {
        for (const auto& spot : spots) {
            Route route = child(Entity::Reading,
                { { QStringLiteral("reading_when"), QString(QLatin1String(moment.key)) },
                    { QStringLiteral("reading_where"), QString(QLatin1String(spot.key)) } },
                QuantityWords::tr("%1, %2, %3")
                    .arg(QStringLiteral("%1"), QuantityWords::tr(moment.label), QuantityWords::tr(spot.label)));
            route.source.prefer = countedReading();
            route.group = 1 + int(&moment - moments);
            const auto stem = QStringLiteral("_%1_%2").arg(QLatin1String(moment.key), QLatin1String(spot.key));
            route.only = { QStringLiteral("reading_density") };
            route.key_from = QStringLiteral("reading_density");
            route.key_to = QStringLiteral("density") + stem;
            catalogue.addRoute(route);
            const bool tone = qstrcmp(spot.key, "deepest") == 0
                && (qstrcmp(moment.key, "before_rinse") == 0 || qstrcmp(moment.key, "day_after") == 0);
            if (!tone)
                continue;
            for (const char* axis : { "l", "a", "b" }) {
                route.only = { QStringLiteral("reading_lab_") + QLatin1String(axis) };
                route.key_from = route.only.first();
                route.key_to = QStringLiteral("lab_%1").arg(QLatin1String(axis)) + stem;
                catalogue.addRoute(route);
            }
        }
    }
}

} // namespace

const std::vector<Preference>& countedReading()
{
    static const std::vector<Preference> prefer {
        { QStringLiteral("reading_channel"),
            { { QStringLiteral("red"), QString() }, { QStringLiteral("visual") }, { QStringLiteral("green") },
                { QStringLiteral("blue") } } },
        {},
        { QStringLiteral("reading_method"),
            { { QStringLiteral("densitometer") }, { QStringLiteral("scan") }, { QStringLiteral("photo") },
                { QString() }, { QStringLiteral("by_eye") } } },
    };
    return prefer;
}

void addRoutes(Catalogue& catalogue)
{
    catalogue.addRoute(through(Entity::Print, {}, 0));
    catalogue.addRoute(through(Entity::Session, { QStringLiteral("print_session") }, 1));
    catalogue.addRoute(through(Entity::Term, { QStringLiteral("print_session"), QStringLiteral("session_term") }, 4));
    catalogue.addRoute(through(Entity::Site, { QStringLiteral("print_session"), QStringLiteral("session_site") }, 5));
    catalogue.addRoute(through(Entity::Mix, { QStringLiteral("print_mix") }, 2));
    catalogue.addRoute(through(Entity::Paper, { QStringLiteral("print_paper") }, 3));
    auto formula = through(Entity::Formula, { QStringLiteral("print_mix"), QStringLiteral("mix_formula") }, 2);
    formula.only = { QStringLiteral("formula_name"), QStringLiteral("formula_absorbance_365"),
        QStringLiteral("formula_absorbance_tail_nm") };
    catalogue.addRoute(formula);
    addExposureRoutes(catalogue);

    for (int n = 1; n <= 4; ++n) {
        Route bath = child(Entity::Bath, { { QStringLiteral("bath_position"), double(n) } },
            QuantityWords::tr("Bath %1: %2").arg(QString::number(n), QStringLiteral("%1")));
        bath.key_from = QStringLiteral("bath_");
        bath.key_to = QStringLiteral("bath%1_").arg(n);
        bath.group = n;
        catalogue.addRoute(bath);
    }

    struct State {
        const char* key;
        const char* label;
        Station station;
    };
    const State states[] = { { "bare", "%1, bare sheet", Station::Coat },
        { "coated", "%1, just coated", Station::Coat }, { "before_expose", "%1, before exposure", Station::Dry },
        { "before_rinse", "%1, before the rinse", Station::Rinse }, { "oven_dry", "%1, fully dry", Station::Dry } };
    for (const auto& state : states) {
        Route route = child(Entity::Weighing, { { QStringLiteral("weigh_state"), QString(QLatin1String(state.key)) } },
            QuantityWords::tr(state.label));
        route.only = { QStringLiteral("weigh_mass_g") };
        route.key_from = QStringLiteral("weigh_mass_g");
        route.key_to = QStringLiteral("mass_%1_g").arg(QLatin1String(state.key));
        route.station = state.station;
        catalogue.addRoute(route);
    }
    for (const bool rinse : { false, true }) {
        const QString moment = rinse ? QStringLiteral("before_rinse") : QStringLiteral("before_expose");
        Route touch = child(Entity::Touch, { { QStringLiteral("touch_moment"), moment } },
            rinse ? QuantityWords::tr("%1 before the rinse") : QuantityWords::tr("%1 before exposure"));
        touch.only = { QStringLiteral("touch_state") };
        touch.key_from = QStringLiteral("touch_state");
        touch.key_to = QStringLiteral("touch_") + moment;
        touch.station = rinse ? Station::Rinse : Station::Dry;
        catalogue.addRoute(touch);
    }
    addReadingRoutes(catalogue);
}

} // namespace washfast::fields
