#include "core/light/print_light.h"

#include "core/light/materials.h"

#include <algorithm>
#include <cmath>

namespace washfast::light {

namespace {

QString key(const char* text)
{
    return QString::fromLatin1(text);
}

enum Input : size_t { Latitude, Longitude, Height, Ground, Goal, Absorbance, Tail };

enum Column : size_t {
    Number,
    Start,
    End,
    Pause,
    Where,
    SkyShare,
    Tilt,
    Facing,
    CloudStart,
    DiscStart,
    CloudMiddle,
    DiscMiddle,
    CloudEnd,
    DiscEnd,
    LampLink,
    LampKind,
    LampSpectrum,
    LampLightRead,
    LampReadAt,
    LampDistance,
    FirstCover, // link, kind, thickness, transmittance, name, spectrum
    SecondCover = FirstCover + 6
};

enum MeterColumn : size_t { MeterTime, MeterLight, MeterExposure };

using Row = std::vector<Known>;

void addCover(const Row& row, size_t at, std::vector<Layer>& layers, bool& unknown)
{
    if (!row[at].has())
        return;
    const auto text = [&](size_t column) { return row[at + column].text().value_or(QString()); };
    auto layer = layerOfCover({ text(1), text(4), text(5), row[at + 2].number(), row[at + 3].number() });
    if (layer)
        layers.push_back(std::move(*layer));
    else
        unknown = true;
}

Sky skyOf(const Row& row, size_t cloud, size_t disc)
{
    return { row[cloud].number(), discFromKey(row[disc].text().value_or(QString())) };
}

/// The lamp of a row; nothing when none was noted. A kind's typical spectrum stands in for one that was not measured.
std::optional<Lamp> lampOf(const Row& row)
{
    if (!row[LampLink].has() && !row[LampDistance].has())
        return std::nullopt;
    Lamp lamp;
    lamp.uva_w_m2 = row[LampLightRead].number();
    lamp.reading = row[LampLightRead].evidence;
    const auto metres = [](const Known& cm) {
        return cm.number() && *cm.number() > 0 ? std::optional(*cm.number() / 100) : std::nullopt;
    };
    lamp.at_distance_m = metres(row[LampReadAt]);
    lamp.distance_m = metres(row[LampDistance]);
    if (const auto own = spectrumOfPairs(row[LampSpectrum].text().value_or(QString()), 0, 1e9)) {
        lamp.spectrum = *own;
    } else if (auto typical = lampSpectrum(row[LampKind].text().value_or(QString()))) {
        lamp.spectrum = std::move(typical);
        lamp.spectrum_typical = true;
    }
    return lamp;
}

ExposureCase caseOf(const Row& row, const std::optional<Place>& place, const Atmosphere& atmosphere)
{
    ExposureCase one;
    one.place = place;
    one.atmosphere = atmosphere;
    one.start = row[Start].time();
    one.end = row[End].time();
    one.pause_min = row[Pause].number().value_or(0);
    one.kind_noted = placeKindFromKey(row[Where].text().value_or(QString()));
    one.lamp = lampOf(row);
    if (one.lamp && row[LampLink].has() && !one.kind_noted)
        one.kind_noted = PlaceKind::Lamp;
    auto& setting = one.setting;
    setting.kind = one.kind_noted.value_or(PlaceKind::OpenSky);
    setting.sky_share = row[SkyShare].number();
    setting.tilt_deg = row[Tilt].number().value_or(0);
    setting.facing_known = row[Facing].has();
    setting.facing_deg = row[Facing].number().value_or(place && place->latitude_deg < 0 ? 0 : 180);
    std::vector<Layer> layers;
    addCover(row, SecondCover, layers, one.cover_unknown); // it lies above
    addCover(row, FirstCover, layers, one.cover_unknown);
    one.covers = CoverStack(std::move(layers));
    if (one.start && one.end) {
        const Instant middle { one.start->ms_utc + (one.end->ms_utc - one.start->ms_utc) / 2, one.start->offset_s };
        one.skies = { { *one.start, skyOf(row, CloudStart, DiscStart) },
            { middle, skyOf(row, CloudMiddle, DiscMiddle) }, { *one.end, skyOf(row, CloudEnd, DiscEnd) } };
    }
    return one;
}

/// Minutes between a moment and the exposure; 0 within it.
double minutesAway(const ExposureCase& one, Instant when)
{
    if (!one.start || !one.end)
        return HUGE_VAL;
    return std::max({ 0.0, minutesBetween(when, *one.start), minutesBetween(*one.end, when) });
}

/// A reading goes to the exposure that it names, else to the nearest in time, else to all of them.
void giveReadings(const ChildRows& meter, const std::vector<std::optional<double>>& numbers, PrintLight& print)
{
    std::vector<MeterReading> all;
    for (const auto& row : meter) {
        const auto light = row[MeterLight].number();
        if (!light || !(*light >= 0))
            continue;
        print.readings = weaker(print.readings, row[MeterLight].evidence);
        const MeterReading reading { row[MeterTime].time(), *light };
        all.push_back(reading);
        const auto named = row[MeterExposure].number();
        ExposureCase* nearest = nullptr;
        for (size_t i = 0; i < print.exposures.size(); ++i) {
            auto& one = print.exposures[i];
            if (named && numbers[i] == named) {
                nearest = &one;
                break;
            }
            if (!named && reading.when
                && (!nearest || minutesAway(one, *reading.when) < minutesAway(*nearest, *reading.when)))
                nearest = &one;
        }
        for (auto& one : print.exposures)
            if (!nearest || nearest == &one)
                one.readings.push_back(reading);
    }
    // An exposure without one of its own, whose light cannot be reckoned, takes those of the others.
    for (auto& one : print.exposures)
        if (one.readings.empty() && (!one.place || one.cover_unknown || one.setting.kind == PlaceKind::Lamp))
            for (auto reading : all) {
                reading.when.reset();
                one.readings.push_back(reading);
            }
}

} // namespace

std::optional<Layer> layerOfCover(const CoverRecord& cover)
{
    Layer layer;
    layer.thickness_mm = cover.thickness_mm;
    if (layer.thickness_mm && !(*layer.thickness_mm > 0))
        layer.thickness_mm.reset();
    const auto material = materialFromKey(cover.kind);
    layer.name = cover.name;
    if (auto spectrum = spectrumOfPairs(cover.spectrum, 0, 1); spectrum && spectrum->covers(315, 400)) {
        layer.spectrum = std::move(spectrum).value();
        layer.material = Material::Measured;
    } else if (material || cover.uva_transmittance) {
        layer.uva_transmittance = cover.uva_transmittance;
        layer.material = material.value_or(Material::Measured);
    } else {
        return std::nullopt;
    }
    if (layer.name.isEmpty())
        layer.name = materialName(layer.material);
    return layer;
}

QStringList printInputs()
{
    return { key("site_latitude_deg"), key("site_longitude_deg"), key("site_height_m"), key("site_ground"),
        key("dose_goal_j_cm2"), key("formula_absorbance_365"), key("formula_absorbance_tail_nm") };
}

std::vector<RowsOf> printRows()
{
    QStringList exposure { key("expose_number"), key("expose_start"), key("expose_end"), key("expose_pause_min"),
        key("expose_place"), key("expose_sky_share"), key("expose_tilt_deg"), key("expose_facing_deg"),
        key("cloud_start_eighths"), key("disc_start"), key("cloud_middle_eighths"), key("disc_middle"),
        key("cloud_end_eighths"), key("disc_end") };
    exposure << key("expose_lamp");
    for (const char* column : { "lamp_kind", "lamp_spectrum", "lamp_uva_w_m2", "lamp_measured_at_cm" })
        exposure << key("expose_lamp.") + QLatin1String(column);
    exposure << key("expose_lamp_distance_cm");
    for (const char* cover : { "expose_cover", "expose_cover2" }) {
        exposure << key(cover);
        for (const char* column :
            { "cover_kind", "cover_thickness_mm", "cover_uva_transmittance", "cover_name", "cover_spectrum" })
            exposure << key(cover) + QLatin1Char('.') + QLatin1String(column);
    }
    return { RowsOf { Entity::Exposure, exposure },
        RowsOf { Entity::Meter, { key("meter_time"), key("meter_uva_w_m2"), key("meter_exposure") } } };
}

PrintLight readPrintLight(std::span<const Known> inputs, std::span<const ChildRows> rows)
{
    PrintLight print;
    std::optional<Place> place;
    if (inputs[Latitude].number() && inputs[Longitude].number()) {
        place = Place { *inputs[Latitude].number(), *inputs[Longitude].number(), inputs[Height].number().value_or(0) };
        print.site = weaker(inputs[Latitude].evidence, inputs[Longitude].evidence);
    }
    Atmosphere atmosphere;
    if (const auto albedo = groundAlbedo(inputs[Ground].text().value_or(QString())))
        atmosphere.ground_albedo = *albedo;
    print.goal_j_cm2 = inputs[Goal].number();
    print.goal = inputs[Goal].evidence;
    const auto absorbance = inputs[Absorbance].number();
    const auto tail = inputs[Tail].number();
    print.weighting = Actinic::coat(absorbance.value_or(usualAbsorbance365), tail.value_or(usualAbsorbanceTailNm));
    if (absorbance && tail)
        print.coat = weaker(inputs[Absorbance].evidence, inputs[Tail].evidence);
    std::vector<std::optional<double>> numbers;
    for (const auto& row : rows[0]) {
        print.exposures.push_back(caseOf(row, place, atmosphere));
        numbers.push_back(row[Number].number());
        for (const size_t time : { Start, End, Pause })
            if (row[time].has())
                print.times = weaker(print.times, row[time].evidence);
    }
    giveReadings(rows[1], numbers, print);
    return print;
}

} // namespace washfast::light
