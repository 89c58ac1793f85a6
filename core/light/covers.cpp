#include "core/light/covers.h"

#include "core/light/words.h"
#include "core/quantity/number_text.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace washfast::light {

namespace {

struct Row {
    Material material;
    const char* key;
    const char* name;
    double usual_mm;
    Factors interval; // of what it passes
    bool grades_differ;
};

// Intervals: glass differs in iron by about this much between the two published spectra of a clear pane (0.67 and 0.62
// at 340 nm); films from one sample each; what lamination and grades of acrylic do is hardly known.
constexpr Row materialRows[] = {
    { Material::Glass, "glass", QT_TRANSLATE_NOOP("Light", "clear glass"), 4, { 0.92, 1.06 }, false },
    { Material::LowIronGlass, "low_iron_glass", QT_TRANSLATE_NOOP("Light", "low-iron glass"), 4, { 0.94, 1.04 },
        false },
    { Material::LaminatedGlass, "laminated_glass", QT_TRANSLATE_NOOP("Light", "laminated glass"), 6.4, { 0.1, 1.6 },
        true },
    { Material::Acrylic, "acrylic", QT_TRANSLATE_NOOP("Light", "acrylic sheet"), 3, { 0.2, 2.5 }, true },
    { Material::Acetate, "acetate", QT_TRANSLATE_NOOP("Light", "acetate film"), 0.115, { 0.85, 1.06 }, false },
    { Material::Polyester, "polyester", QT_TRANSLATE_NOOP("Light", "polyester film"), 0.125, { 0.90, 1.05 }, false },
    { Material::Measured, "measured", QT_TRANSLATE_NOOP("Light", "measured spectrum"), 1, { 0.97, 1.03 }, false },
};

const Row& rowOf(Material material)
{
    return materialRows[size_t(material)];
}

double normalised(double share, const double whole)
{
    return whole > 0 ? share / whole : 1;
}

} // namespace

QString materialKey(Material material)
{
    return QString::fromLatin1(rowOf(material).key);
}

std::optional<Material> materialFromKey(const QString& key)
{
    auto plain = key.trimmed().toLower();
    plain.replace(QLatin1Char('-'), QLatin1Char('_'));
    for (const auto& row : materialRows)
        if (row.material != Material::Measured && plain == QLatin1String(row.key))
            return row.material;
    return std::nullopt;
}

QString materialName(Material material)
{
    return Words::tr(rowOf(material).name);
}

double usualThickness_mm(Material material)
{
    return rowOf(material).usual_mm;
}

Factors Factors::with(const Factors& other) const
{
    return { 1 - std::min(1.0, std::hypot(1 - low, 1 - other.low)), 1 + std::hypot(high - 1, other.high - 1) };
}

Factors Layer::interval() const
{
    if (uva_transmittance || material == Material::Measured)
        return rowOf(Material::Measured).interval;
    auto range = rowOf(material).interval;
    if (!thickness_mm && !rowOf(material).grades_differ)
        range = range.with({ 0.9, 1.1 });
    return range;
}

bool Layer::assumed() const
{
    if (uva_transmittance || material == Material::Measured)
        return false;
    return rowOf(material).grades_differ || !thickness_mm;
}

Result<Layer> readLayer(const QString& text)
{
    const auto wrong = [&](const QString& says) { return Error { Trouble::BadInput, says, text }; };
    const auto colon = text.indexOf(QLatin1Char(':'));
    const QString kind = (colon < 0 ? text : text.left(colon)).trimmed();
    const QString rest = colon < 0 ? QString() : text.mid(colon + 1).trimmed();
    Layer layer;
    if (kind == QLatin1String("file")) {
        if (rest.isEmpty())
            return wrong(Words::tr("file: needs the path of a spectrum, file:PANE.csv."));
        auto spectrum = readSpectrumFile(rest, QLatin1String("transmittance"), 0, 1);
        if (!spectrum)
            return spectrum.error();
        if (!spectrum->covers(315, 400))
            return Error { Trouble::BadInput,
                Words::tr("It reaches from %1 to %2 nm; it has to cover 315 to 400 nm.")
                    .arg(spectrum->nm.front())
                    .arg(spectrum->nm.back()),
                rest };
        layer.material = Material::Measured;
        layer.spectrum = std::move(spectrum).value();
        layer.name = rest;
        return layer;
    }
    const auto material = materialFromKey(kind);
    if (!material)
        return wrong(Words::tr(
            "There is no such cover; known are glass, low-iron-glass, laminated-glass, acrylic, acetate, polyester and "
            "file:SPECTRUM.csv."));
    layer.material = *material;
    if (colon >= 0) {
        const auto number = parseNumber(rest);
        const auto mm
            = number.value && !number.unit.isEmpty() ? convert(*number.value, number.unit, u"mm") : number.value;
        if (!mm || !(*mm > 0) || *mm > 100)
            return wrong(Words::tr("“%1” is no thickness; write it in millimetres, as in %2:%3mm.")
                             .arg(rest, kind)
                             .arg(usualThickness_mm(*material)));
        layer.thickness_mm = *mm;
    }
    layer.name = materialName(*material);
    return layer;
}

CoverStack::CoverStack(std::vector<Layer> layers)
    : layers_(std::move(layers))
{
    for (const auto& layer : layers_)
        slabs_.push_back(slabOf(layer));
    // Light from everywhere: 2 sin cos over the angle, which is even in the square of the cosine. Gauss with six points
    // in the cosine, weighted by it twice.
    constexpr std::array<std::pair<double, double>, 6> half { { { 0.0337652428984240, 0.0856622461895852 },
        { 0.1693953067668677, 0.1803807865240693 }, { 0.3806904069584015, 0.2339569672863455 },
        { 0.6193095930415985, 0.2339569672863455 }, { 0.8306046932331323, 0.1803807865240693 },
        { 0.9662347571015760, 0.0856622461895852 } } };
    Bands sum {};
    for (const auto& [cosine, weight] : half) {
        const auto passed = direct(cosine);
        for (size_t i = 0; i < bandCount; ++i)
            sum[i] += passed[i] * weight * 2 * cosine;
    }
    diffuse_ = sum;
}

QString CoverStack::name() const
{
    QStringList names;
    for (const auto& layer : layers_)
        names << (layer.thickness_mm ? QStringLiteral("%1 %2 mm").arg(layer.name).arg(*layer.thickness_mm)
                                     : layer.name);
    return names.join(QStringLiteral(" + "));
}

Bands CoverStack::direct(double cos_incidence) const
{
    Bands passed = unit();
    for (const auto& slab : slabs_)
        for (size_t i = 0; i < bandCount; ++i)
            passed[i] *= slab.passes(i, cos_incidence);
    return passed;
}

double CoverStack::directShare(const Bands& spectrum, double cos_incidence, const Bands& weights) const
{
    if (slabs_.empty())
        return 1;
    double through = 0;
    double whole = 0;
    for (size_t i = 0; i < bandCount; ++i) {
        const double light = spectrum[i] * weights[i];
        if (light == 0)
            continue;
        double passed = 1;
        for (const auto& slab : slabs_)
            passed *= slab.passes(i, cos_incidence);
        through += light * passed;
        whole += light;
    }
    return normalised(through, whole);
}

double CoverStack::diffuseShare(const Bands& spectrum, const Bands& weights) const
{
    if (slabs_.empty())
        return 1;
    double through = 0;
    double whole = 0;
    for (size_t i = 0; i < bandCount; ++i) {
        through += spectrum[i] * weights[i] * diffuse_[i];
        whole += spectrum[i] * weights[i];
    }
    return normalised(through, whole);
}

Factors CoverStack::interval() const
{
    Factors all;
    for (const auto& layer : layers_)
        all = all.with(layer.interval());
    return all;
}

bool CoverStack::assumed() const
{
    return std::any_of(layers_.begin(), layers_.end(), [](const Layer& layer) { return layer.assumed(); });
}

QStringList CoverStack::warnings() const
{
    QStringList said;
    for (const auto& layer : layers_) {
        if (layer.uva_transmittance || layer.material == Material::Measured)
            continue;
        if (rowOf(layer.material).grades_differ)
            said << Words::tr("%1 differs much from grade to grade: measure a bare strip beside a covered one.")
                        .arg(materialName(layer.material));
        else if (!layer.thickness_mm)
            said << Words::tr("%1: no thickness is noted, %2 mm is assumed.")
                        .arg(materialName(layer.material))
                        .arg(usualThickness_mm(layer.material));
    }
    said.removeDuplicates();
    return said;
}

} // namespace washfast::light
