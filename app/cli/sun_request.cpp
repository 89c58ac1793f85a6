#include "app/cli/sun_request.h"

#include "app/cli/words.h"
#include "core/light/sun_day.h"

#include <functional>

namespace washfast::cli {

namespace {

Error wrong(const QString& says)
{
    return { Trouble::BadInput, says, {} };
}

/// A moment with an offset, or one of the zone's clock.
Result<Instant> momentOf(
    const Arguments& arguments, const char* option, const std::optional<QTimeZone>& zone, QStringList& warnings)
{
    const auto text = arguments.value(option);
    if (const auto read = Instant::fromIso(text))
        return *read;
    QString plain = text;
    plain.replace(QLatin1Char(' '), QLatin1Char('T'));
    const auto local = QDateTime::fromString(plain, Qt::ISODate);
    if (!local.isValid() || !plain.contains(QLatin1Char('T')))
        return wrong(
            Words::tr("%1: “%2” is no time; write one like 2026-06-20T12:00+02:00.").arg(QLatin1String(option), text));
    if (!zone)
        return wrong(Words::tr("%1: “%2” has no offset; add one such as +02:00, or name a --zone.")
                         .arg(QLatin1String(option), text));
    const QDateTime there(local.date(), local.time(), *zone);
    if (!there.isValid() || there.time() != local.time() || there.date() != local.date())
        return wrong(Words::tr("%1: the clock of %2 skips “%3”.")
                         .arg(QLatin1String(option), QString::fromUtf8(zone->id()), text));
    const auto read = Instant::from(there);
    for (const qint64 hours : { -1, 1 }) {
        const auto other = QDateTime::fromMSecsSinceEpoch(read.ms_utc + hours * 3'600'000, *zone);
        if (other.date() == local.date() && other.time() == local.time())
            warnings << Words::tr("“%1” comes twice on this day; %2 is taken.").arg(text, read.toIso());
    }
    return read;
}

Outcome readTimes(const Arguments& arguments, SunRequest& request)
{
    std::optional<QTimeZone> zone;
    if (arguments.has("--zone")) {
        const auto named = light::zoneNamed(arguments.value("--zone"));
        if (!named)
            return named.error();
        zone = *named;
    }
    const auto at = momentOf(arguments, "--at", zone, request.warnings);
    if (!at)
        return at.error();
    request.at = *at;
    request.zone = zone ? *zone : QTimeZone(at->offset_s);
    request.exposure.start = request.exposure.end = *at;
    if (!arguments.has("--until"))
        return Done {};
    const auto until = momentOf(arguments, "--until", zone, request.warnings);
    if (!until)
        return until.error();
    constexpr double mostMinutes = 366 * 24 * 60;
    if (*until < *at || minutesBetween(*at, *until) > mostMinutes)
        return wrong(Words::tr("--until has to come after --at, within a year."));
    request.until = request.exposure.end = *until;
    request.exposure.longest_h = mostMinutes / 60;
    return Done {};
}

Outcome readSky(const Arguments& arguments, SunRequest& request)
{
    const auto cloud = arguments.number("--cloud", 0, 8);
    if (!cloud)
        return cloud.error();
    light::Sky sky { *cloud, std::nullopt };
    if (arguments.has("--disc")) {
        sky.disc = light::discFromKey(arguments.value("--disc"));
        if (!sky.disc)
            return wrong(Words::tr("--disc is yes, partly or no, not “%1”.").arg(arguments.value("--disc")));
    }
    if (!sky.noted()) {
        sky.eighths = 0;
        request.warnings << Words::tr("Without --cloud this is a clear sky; cloud can take four fifths of it.");
    }
    request.exposure.skies = { { request.at, sky } };
    return Done {};
}

Outcome readGround(const Arguments& arguments, SunRequest& request)
{
    if (!arguments.has("--ground"))
        return Done {};
    const auto named = light::groundAlbedo(arguments.value("--ground"));
    if (named) {
        request.exposure.atmosphere.ground_albedo = *named;
        return Done {};
    }
    const auto number = arguments.number("--ground", 0, 1);
    if (!number)
        return wrong(
            number.error().says + QLatin1Char(' ') + Words::tr("Or one of grass, soil, concrete, sand, water, snow."));
    request.exposure.atmosphere.ground_albedo = **number;
    return Done {};
}

Outcome readCovers(const Arguments& arguments, SunRequest& request)
{
    std::vector<light::Layer> layers;
    for (const auto& text : arguments.values("--cover")) {
        auto layer = light::readLayer(text);
        if (!layer)
            return layer.error();
        layers.push_back(std::move(layer).value());
    }
    request.exposure.covers = light::CoverStack(std::move(layers));
    return Done {};
}

Outcome readWeighting(const Arguments& arguments, SunRequest& request)
{
    if (!arguments.has("--weighting"))
        return Done {};
    const auto text = arguments.value("--weighting");
    const auto unreadable = [&] {
        return wrong(Words::tr("--weighting: “%1” is neither uva, nor coat, nor coat:A,L with the absorbance at 365 nm "
                               "(0.01 to 4) and the nanometres within which it falls by e (5 to 100).")
                         .arg(text));
    };
    request.weighting_said = text;
    if (text == QLatin1String("uva"))
        return Done {};
    double absorbance = light::usualAbsorbance365;
    double tail_nm = light::usualAbsorbanceTailNm;
    const auto parts = text.split(QLatin1Char(':'));
    if (parts[0] != QLatin1String("coat") || parts.size() > 2)
        return unreadable();
    if (parts.size() == 2) {
        // With decimal commas a semicolon stands between the two.
        const auto numbers = parts[1].split(QLatin1Char(parts[1].contains(QLatin1Char(';')) ? ';' : ','));
        absorbance = numberIn(numbers.value(0)).value_or(0);
        tail_nm = numberIn(numbers.value(1)).value_or(0);
        if (numbers.size() != 2 || !(absorbance >= 0.01 && absorbance <= 4) || !(tail_nm >= 5 && tail_nm <= 100))
            return unreadable();
    } else {
        request.warnings << Words::tr(
            "What the coat absorbs is a modelling proposal (absorbance 1 at 365 nm, falling by e within 25 nm), not "
            "measured.");
    }
    request.weighting = light::Actinic::coat(absorbance, tail_nm);
    return Done {};
}

} // namespace

Result<SunRequest> readSunRequest(const Arguments& arguments)
{
    for (const char* option : { "--lat", "--lon", "--at" })
        if (!arguments.has(option))
            return wrong(Words::tr("%1 is missing.").arg(QLatin1String(option)));
    SunRequest request;
    auto& exposure = request.exposure;
    exposure.kind_noted = light::PlaceKind::OpenSky;
    light::Place place;
    struct Number {
        const char* option;
        double low, high;
        const char* unit;
        std::function<void(double)> put;
    };
    const Number numbers[] = {
        { "--lat", -90, 90, "", [&](double v) { place.latitude_deg = v; } },
        { "--lon", -180, 360, "", [&](double v) { place.longitude_deg = v; } },
        { "--elevation", -450, 9000, "m", [&](double v) { place.height_m = v; } },
        { "--pressure", 300, 1100, "hPa", [&](double v) { exposure.atmosphere.pressure_hpa = v; } },
        { "--ozone", 50, 700, "", [&](double v) { exposure.atmosphere.ozone_du = v; } },
        { "--aerosol", 0, 5, "", [&](double v) { exposure.atmosphere.aerosol_500 = v; } },
        { "--tilt", 0, 90, "", [&](double v) { exposure.setting.tilt_deg = v; } },
        { "--facing", 0, 360, "", [&](double v) { exposure.setting.facing_deg = v; } },
    };
    for (const auto& number : numbers) {
        const auto value = arguments.number(number.option, number.low, number.high, number.unit);
        if (!value)
            return value.error();
        if (*value)
            number.put(**value);
    }
    exposure.place = place;
    if (exposure.setting.tilt_deg > 0 && !arguments.has("--facing"))
        return wrong(Words::tr("--tilt needs --facing: where does the sheet look?"));
    for (const auto read : { readTimes, readSky, readGround, readCovers, readWeighting })
        if (const auto outcome = read(arguments, request); !outcome)
            return outcome.error();
    return request;
}

} // namespace washfast::cli
