// washfast sun: where the sun stands, what its ultraviolet is, and what of it reaches the paper.
#include "app/cli/sun_request.h"
#include "app/cli/targets.h"
#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/files/read_once.h"
#include "core/light/exposure_light.h"
#include "core/light/sun_day.h"
#include "core/light/uv_index.h"

#include <QJsonArray>
#include <cmath>
#include <numbers>

namespace washfast::cli {

namespace {

/// All that is answered.
struct Answer {
    light::LightNow now;
    light::ExposureDose dose;
    light::SunDay day;
    std::optional<light::LightNow> weighted; // where a weighting was asked for
    light::ExposureDose weighted_dose;
    QStringList warnings;
};

Answer answer(const SunRequest& request)
{
    Answer found;
    found.now = *light::lightAt(request.exposure, request.at);
    if (request.until)
        found.dose = light::exposureDose(request.exposure);
    if (request.weighting) {
        auto weighted = request.exposure;
        weighted.actinic = request.weighting;
        found.weighted = light::lightAt(weighted, request.at);
        if (request.until)
            found.weighted_dose = light::weightedDose(request.exposure, *request.weighting);
    }
    found.day = light::sunDay(
        light::inZone(request.at, request.zone).toDateTime().date(), request.zone, *request.exposure.place);
    found.warnings = request.warnings + found.dose.warnings;
    if (!request.until)
        found.warnings += request.exposure.covers.warnings();
    if (found.day.kind == light::DayKind::AlwaysUp)
        found.warnings << Words::tr("The sun does not set on this day.");
    if (found.day.kind == light::DayKind::AlwaysDown)
        found.warnings << Words::tr("The sun does not rise on this day.");
    if (found.day.clock_changes)
        found.warnings << Words::tr("The clock changes on this day.");
    found.warnings.removeDuplicates();
    return found;
}

QJsonValue orNull(const std::optional<double>& value)
{
    return value ? QJsonValue(*value) : QJsonValue(QJsonValue::Null);
}

QJsonValue orNull(const std::optional<Instant>& value)
{
    return value ? QJsonValue(value->toIso()) : QJsonValue(QJsonValue::Null);
}

/// Whole seconds: more is not known.
std::optional<Instant> rounded(const std::optional<Instant>& when)
{
    if (!when)
        return when;
    return Instant { (when->ms_utc + 500) / 1000 * 1000, when->offset_s };
}

std::optional<double> ifLight(const light::LightNow& now, double value)
{
    return now.clear_w_m2 > 0 ? std::optional(value) : std::nullopt;
}

QJsonObject toJson(const SunRequest& request, const Answer& found)
{
    const auto& now = found.now;
    QJsonObject json;
    const auto put = [&json](const char* key, const QJsonValue& value) { json[QLatin1String(key)] = value; };
    const bool up = now.sun.apparent_zenith_deg < 90;
    put("at", light::inZone(request.at, request.zone).toIso());
    put("zenith_deg", now.sun.zenith_deg);
    put("apparent_elevation_deg", now.sun.apparent_elevation_deg());
    put("azimuth_deg", now.sun.azimuth_deg);
    put("distance_au", now.sun.distance_au);
    put("air_mass", orNull(up ? std::optional(light::airMass(now.sun.apparent_zenith_deg)) : std::nullopt));
    put("uva_direct_w_m2", now.direct_w_m2);
    put("uva_diffuse_w_m2", now.diffuse_w_m2);
    put("uva_w_m2", now.clear_w_m2);
    put("uvi", light::uvIndex(now.sun.zenith_deg, request.exposure.atmosphere.ozone_du));
    put("cloud_factor", now.cloud_factor);
    put("cloud_factor_low", now.cloud_low);
    put("cloud_factor_high", now.cloud_high);
    put("cover_transmittance",
        orNull(request.exposure.covers.empty() ? std::optional(1.0) : ifLight(now, now.cover_transmittance)));
    put("uva_at_paper_w_m2", now.at_paper_w_m2);
    if (request.until) {
        put("until", light::inZone(*request.until, request.zone).toIso());
        put("dose_j_cm2", orNull(found.dose.dose_j_cm2));
        put("dose_low_j_cm2", orNull(found.dose.low_j_cm2));
        put("dose_high_j_cm2", orNull(found.dose.high_j_cm2));
    }
    if (found.weighted) {
        put("weighting", request.weighting_said);
        put("weighted_w_m2", found.weighted->clear_w_m2);
        put("weighted_cover_transmittance",
            orNull(request.exposure.covers.empty() ? std::optional(1.0)
                                                   : ifLight(*found.weighted, found.weighted->cover_transmittance)));
        put("weighted_at_paper_w_m2", found.weighted->at_paper_w_m2);
        if (request.until) {
            put("weighted_dose_j_cm2", orNull(found.weighted_dose.dose_j_cm2));
            put("weighted_dose_low_j_cm2", orNull(found.weighted_dose.low_j_cm2));
            put("weighted_dose_high_j_cm2", orNull(found.weighted_dose.high_j_cm2));
        }
    }
    put("sunrise", orNull(rounded(found.day.sunrise)));
    put("solar_noon", orNull(rounded(found.day.solar_noon)));
    put("sunset", orNull(rounded(found.day.sunset)));
    put("warnings", QJsonArray::fromStringList(found.warnings));
    return json;
}

void asText(const SunRequest& request, const Answer& found, const Output& output)
{
    const auto& now = found.now;
    std::vector<QStringList> rows;
    const auto row = [&rows](const char* name, const QString& value) { rows.push_back({ Words::tr(name), value }); };
    const auto number = [](double value, int digits) { return QString::number(value, 'f', digits); };
    const auto range = [&](double low, double high, int digits) {
        return QStringLiteral(" (%1 - %2)").arg(number(low, digits), number(high, digits));
    };
    const auto clock
        = [](const std::optional<Instant>& when) { return when ? rounded(when)->toIso() : QStringLiteral("-"); };
    const double uvi = light::uvIndex(now.sun.zenith_deg, request.exposure.atmosphere.ozone_du);
    row(QT_TRANSLATE_NOOP("Cli", "at"), light::inZone(request.at, request.zone).toIso());
    row(QT_TRANSLATE_NOOP("Cli", "height of the sun"), number(now.sun.apparent_elevation_deg(), 2) + QChar(0x00b0));
    row(QT_TRANSLATE_NOOP("Cli", "azimuth"), number(now.sun.azimuth_deg, 2) + QChar(0x00b0));
    row(QT_TRANSLATE_NOOP("Cli", "UVA, clear"),
        Words::tr("%1 W/m² (%2 direct, %3 diffuse)")
            .arg(number(now.clear_w_m2, 2), number(now.direct_w_m2, 2), number(now.diffuse_w_m2, 2)));
    row(QT_TRANSLATE_NOOP("Cli", "UV Index, clear"),
        QStringLiteral("%1, %2").arg(number(uvi, 1), light::uvBandName(light::uvBand(uvi))));
    row(QT_TRANSLATE_NOOP("Cli", "cloud factor"),
        number(now.cloud_factor, 2) + range(now.cloud_low, now.cloud_high, 2));
    if (!request.exposure.covers.empty())
        row(QT_TRANSLATE_NOOP("Cli", "cover passes"),
            now.clear_w_m2 > 0 ? number(now.cover_transmittance, 3) : QStringLiteral("-"));
    row(QT_TRANSLATE_NOOP("Cli", "UVA at the paper"),
        number(now.at_paper_w_m2, 2) + QStringLiteral(" W/m²") + range(now.low_w_m2, now.high_w_m2, 2));
    if (found.dose.dose_j_cm2)
        row(QT_TRANSLATE_NOOP("Cli", "dose"),
            number(*found.dose.dose_j_cm2, 3) + QStringLiteral(" J/cm²")
                + range(*found.dose.low_j_cm2, *found.dose.high_j_cm2, 3));
    if (found.weighted) {
        row(QT_TRANSLATE_NOOP("Cli", "at the paper, as the coat absorbs"),
            number(found.weighted->at_paper_w_m2, 2) + QStringLiteral(" W/m²"));
        if (found.weighted_dose.dose_j_cm2)
            row(QT_TRANSLATE_NOOP("Cli", "dose, as the coat absorbs"),
                number(*found.weighted_dose.dose_j_cm2, 3) + QStringLiteral(" J/cm²")
                    + range(*found.weighted_dose.low_j_cm2, *found.weighted_dose.high_j_cm2, 3));
    }
    row(QT_TRANSLATE_NOOP("Cli", "sunrise"), clock(found.day.sunrise));
    row(QT_TRANSLATE_NOOP("Cli", "solar noon"), clock(found.day.solar_noon));
    row(QT_TRANSLATE_NOOP("Cli", "sunset"), clock(found.day.sunset));
    output.table({ Words::tr("what"), Words::tr("value") }, rows);
}

/// The clear sky's spectrum of the moment, as a table.
QByteArray spectrumTable(const SunRequest& request, const light::SunPosition& sun)
{
    const auto& atmosphere = request.exposure.atmosphere;
    const double pressure = atmosphere.pressure_hpa.value_or(light::pressureAt(request.exposure.place->height_m));
    const auto spectrum = light::clearSpectrum(
        sun.apparent_zenith_deg, light::distanceFactor(light::dayOfYear(request.at)), atmosphere, pressure);
    const double mu = std::max(0.0, std::cos(sun.apparent_zenith_deg * std::numbers::pi / 180));
    QByteArray text("wavelength_nm,direct_normal_w_m2_nm,diffuse_w_m2_nm,global_w_m2_nm\n");
    for (size_t i = 0; i < light::bandCount; ++i) {
        const double direct = spectrum.direct_normal[i];
        const double diffuse = spectrum.diffuse[i];
        text += QByteArray::number(light::wavelengths_nm[i]);
        for (const double value : { direct, diffuse, direct * mu + diffuse })
            text += ',' + QByteArray::number(value, 'g', 9);
        text += '\n';
    }
    return text;
}

/// What is wrong with the words about the spectrum's file; empty when nothing is.
QString spectrumFault(const Arguments& arguments)
{
    if (arguments.value("--spectrum") == QLatin1String("-") && arguments.has("--json"))
        return Words::tr("--spectrum - and --json would both write to standard output.");
    if (arguments.values("--cover").count(QStringLiteral("file:-")) > 1)
        return Words::tr("Standard input can be read only once, for one --cover.");
    return {};
}

int runSun(const Arguments& arguments, const Output& output)
{
    if (const auto fault = spectrumFault(arguments); !fault.isEmpty())
        return output.misuse(fault);
    const auto request = readSunRequest(arguments);
    if (!request)
        return request.error().code == Trouble::BadInput ? output.misuse(request.error().sentence())
                                                         : output.fail(request.error());
    const auto spectrum = arguments.value("--spectrum");
    const bool to_output = files::isStandardStream(spectrum), replace = arguments.has("--replace");
    if (!spectrum.isEmpty() && !to_output)
        if (const auto wrong = whyNotWritten(spectrum, replace))
            return output.fail(*wrong);
    const auto found = answer(*request);
    if (!spectrum.isEmpty() && !to_output) {
        const files::FileToWrite file { spectrum, spectrumTable(*request, found.now.sun) };
        if (const auto written = files::writeFiles({ file }, existing(replace)); !written)
            return output.fail(withAdvice(written.error(), replace));
        output.wroteFiles();
    }
    for (const auto& warning : found.warnings)
        output.say(warning);
    if (to_output)
        output.file(spectrumTable(*request, found.now.sun));
    else if (arguments.has("--json"))
        output.json(toJson(*request, found));
    else
        asText(*request, found, output);
    return done;
}

} // namespace

Verb sunVerb()
{
    return { "sun", QT_TRANSLATE_NOOP("Cli", "where the sun stands, and the ultraviolet that reaches the paper"),
        { {},
            { { "--lat", "DEGREES", QT_TRANSLATE_NOOP("Cli", "latitude, north is positive; needed") },
                { "--lon", "DEGREES", QT_TRANSLATE_NOOP("Cli", "longitude, east is positive; needed") },
                { "--at", "TIME",
                    QT_TRANSLATE_NOOP(
                        "Cli", "such as 2026-06-20T12:00+02:00; without the offset with --zone; needed") },
                { "--until", "TIME", QT_TRANSLATE_NOOP("Cli", "adds up the dose from --at until then") },
                { "--zone", "NAME", QT_TRANSLATE_NOOP("Cli", "the clock of the times, such as Europe/Lisbon") },
                { "--elevation", "M", QT_TRANSLATE_NOOP("Cli", "metres above the sea; 0 without it") },
                { "--pressure", "HPA", QT_TRANSLATE_NOOP("Cli", "of the air; from the elevation without it") },
                { "--ozone", "DU", QT_TRANSLATE_NOOP("Cli", "Dobson units; 300 without it") },
                { "--aerosol", "T", QT_TRANSLATE_NOOP("Cli", "optical depth at 500 nm; 0.1 without it") },
                { "--ground", "A",
                    QT_TRANSLATE_NOOP("Cli",
                        "ultraviolet albedo 0 to 1, or grass, soil, concrete, sand, water, snow; 0.05 without it") },
                { "--tilt", "DEGREES", QT_TRANSLATE_NOOP("Cli", "of the sheet; 0 is level, 90 upright") },
                { "--facing", "DEGREES",
                    QT_TRANSLATE_NOOP("Cli", "where a tilted sheet looks, from north through east") },
                { "--cover", "COVER",
                    QT_TRANSLATE_NOOP("Cli",
                        "glass:4mm, low-iron-glass:4mm, laminated-glass:6.4mm, acrylic:3mm, "
                        "acetate:0.115mm, polyester:0.125mm or file:SPECTRUM.csv (- is standard input); from the sky "
                        "down"),
                    true },
                { "--cloud", "EIGHTHS", QT_TRANSLATE_NOOP("Cli", "of the sky; a clear one without it") },
                { "--disc", "yes/partly/no", QT_TRANSLATE_NOOP("Cli", "whether the sun's disc shows") },
                { "--weighting", "uva/coat",
                    QT_TRANSLATE_NOOP("Cli",
                        "coat or coat:A,L: also counted by what a coat absorbs (absorbance A at 365 nm, by e less "
                        "every L "
                        "nm)") },
                { "--spectrum", "FILE.csv",
                    QT_TRANSLATE_NOOP("Cli", "writes the clear sky's spectrum, 300-500 nm; - is standard output") },
                { "--replace", nullptr, QT_TRANSLATE_NOOP("Cli", "writes it over a file that is there") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } },
        runSun };
}

} // namespace washfast::cli
