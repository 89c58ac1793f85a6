#include "core/light/materials.h"

#include <QFile>
#include <algorithm>
#include <cmath>

static void initSpectraResource()
{
    Q_INIT_RESOURCE(spectra);
}

namespace washfast::light {

namespace {

// Of refraction, near 370 nm. From memory: handbook values of the sheets.
constexpr double acrylicIndex = 1.51;
constexpr double acetateIndex = 1.49;
// Polyester has 1.7 in handbooks, but the sheet that we have the spectrum of reflects 7.4 % in all.
constexpr double polyesterIndex = 1.51;
constexpr double measuredIndex = 1.52;

Bands flat(double value)
{
    Bands bands {};
    bands.fill(value);
    return bands;
}

SpectrumTable shipped(const char* name, const char* column)
{
    initSpectraResource();
    QFile file(QStringLiteral(":/spectra/%1.csv").arg(QLatin1String(name)));
    if (!file.open(QIODevice::ReadOnly))
        return {};
    auto read = readSpectrum(file.readAll(), QLatin1String(column), 0, 10);
    return read ? std::move(read).value() : SpectrumTable {};
}

/// Clear soda-lime glass: Rubin, Sol. Energy Mater. 12 (1985) 275, formula for the index (wavelength in um).
double glassIndex(double nm)
{
    const double um = nm / 1000;
    return 1.5130 - 0.003169 * um * um + 0.003962 / (um * um);
}

MaterialData glass(const char* file)
{
    const auto extinction = shipped(file, "k");
    MaterialData data;
    data.scale = flat(1);
    for (size_t i = 0; i < bandCount; ++i) {
        const double nm = wavelengths_nm[i];
        data.index[i] = glassIndex(nm);
        // Absorption falls by decades near the edge: lines between the logarithms. Beyond the ends: below 310 nm the
        // slope goes on, above the last it stays.
        const auto log_k = [&](double x) { return std::log(extinction.at(x)); };
        double log = 0;
        if (nm < 310) {
            log = log_k(310) + (log_k(310) - log_k(320)) * (310 - nm) / 10;
        } else {
            const double lower = std::floor(nm / 10) * 10;
            log = log_k(lower) + (log_k(lower + 10) - log_k(lower)) * (nm - lower) / 10;
        }
        data.depth_per_mm[i] = 4e6 * 3.14159265358979 * std::exp(log) / nm; // 4 pi k / wavelength, 1/mm
    }
    return data;
}

/// Glass with a plastic layer: nothing passes up to 375 nm, all that the glass lets through from 380 nm on (a single
/// secondary source, so its interval is wide).
MaterialData laminated()
{
    auto data = glass("glass_clear");
    constexpr double opaqueTo_nm = 375;
    for (size_t i = 0; i < bandCount; ++i)
        if (wavelengths_nm[i] <= opaqueTo_nm)
            data.scale[i] = 0;
    return data;
}

MaterialData film(const char* file, double index, double thickness_mm)
{
    return fromMeasured(shipped(file, "transmittance").onBands(), flat(index), thickness_mm);
}

} // namespace

double slabPasses(double index, double depth, double cos_incidence)
{
    const double c = std::clamp(cos_incidence, 0.0, 1.0);
    if (c < 1e-6)
        return 0;
    const double sine = std::sqrt(1 - c * c) / index;
    const double c_in = std::sqrt(1 - sine * sine);
    const double s = (c - index * c_in) / (c + index * c_in);
    const double p = (index * c - c_in) / (index * c + c_in);
    const double through = std::exp(-depth / c_in);
    const auto passes = [through](double reflected) {
        return (1 - reflected) * (1 - reflected) * through / (1 - reflected * reflected * through * through);
    };
    return (passes(s * s) + passes(p * p)) / 2;
}

MaterialData fromMeasured(const Bands& transmittance, const Bands& index, double thickness_mm)
{
    MaterialData data;
    data.index = index;
    for (size_t i = 0; i < bandCount; ++i) {
        const double measured = std::clamp(transmittance[i], 1e-6, 1.0);
        const double root = (index[i] - 1) / (index[i] + 1);
        const double r = root * root;
        // Solves T = (1-R)^2 x / (1 - R^2 x^2) for x, what one passage leaves.
        const double a = (1 - r) * (1 - r);
        const double x = (std::sqrt(a * a + 4 * r * r * measured * measured) - a) / (2 * r * r * measured);
        data.depth_per_mm[i] = x < 1 ? -std::log(x) / thickness_mm : 0;
        data.scale[i] = x < 1 ? 1 : measured / slabPasses(index[i], 0, 1);
    }
    return data;
}

const MaterialData& dataOf(Material material)
{
    static const std::array<MaterialData, 6> all { glass("glass_clear"), glass("glass_low_iron"), laminated(),
        film("acrylic_3mm", acrylicIndex, 3.0), film("acetate_0.115mm", acetateIndex, 0.115),
        film("polyester_0.125mm", polyesterIndex, 0.125) };
    return all[std::min(size_t(material), all.size() - 1)];
}

double Slab::passes(size_t band, double cos_incidence) const
{
    return scale[band] > 0 ? scale[band] * slabPasses(index[band], depth[band], cos_incidence) : 0;
}

Slab slabOf(const Layer& layer)
{
    MaterialData data;
    double thickness = layer.thickness_mm.value_or(usualThickness_mm(layer.material));
    if (layer.uva_transmittance) {
        data = fromMeasured(flat(*layer.uva_transmittance), flat(measuredIndex), 1);
        thickness = 1;
    } else if (layer.material == Material::Measured) {
        const double at = layer.spectrum_thickness_mm.value_or(layer.thickness_mm.value_or(1));
        data = fromMeasured(layer.spectrum ? layer.spectrum->onBands() : flat(1), flat(measuredIndex), at);
        thickness = layer.thickness_mm.value_or(at);
    } else {
        data = dataOf(layer.material);
    }
    Slab slab { data.index, data.depth_per_mm, data.scale };
    for (auto& depth : slab.depth)
        depth *= thickness;
    return slab;
}

QStringList lampNames()
{
    return { QStringLiteral("led_365"), QStringLiteral("led_385"), QStringLiteral("led_395"), QStringLiteral("led_405"),
        QStringLiteral("tube_dark"), QStringLiteral("tube_white") };
}

std::optional<SpectrumTable> lampSpectrum(const QString& name)
{
    if (!lampNames().contains(name))
        return std::nullopt;
    return shipped(("lamp_" + name.toUtf8()).constData(), "relative_power");
}

} // namespace washfast::light
