// What lies between the sky and the sheet: panes and films, and what they let through.
//
// A layer is a slab: Fresnel reflection at both faces with the light going to and fro in it, and absorption after
// Beer-Lambert along the real path, so that thickness and angle of incidence both count. A measured spectrum at one
// thickness and normal incidence is turned into such a slab first. Layers are multiplied wavelength by wavelength.
//
//     const auto pane = readLayer(u"glass:4mm"_qs);            // Result<Layer>
//     const CoverStack stack({ *pane, *pane });
//     stack.diffuse(spectrum.diffuse, uvaWeights);             // share of the sky's UVA that passes
#pragma once

#include "core/light/bands.h"
#include "core/light/clear_sky.h"

#include <QStringList>
#include <optional>

namespace washfast::light {

enum class Material { Glass, LowIronGlass, LaminatedGlass, Acrylic, Acetate, Polyester, Measured };
[[nodiscard]] QString materialKey(Material material); // glass, low_iron_glass, ... as cover_kind has it
[[nodiscard]] std::optional<Material> materialFromKey(const QString& key); // also with dashes
[[nodiscard]] QString materialName(Material material); // translated

/// An interval around 1.
struct Factors {
    double low = 1, high = 1;
    /// Both at once, independent of one another: relative widths in quadrature.
    [[nodiscard]] Factors with(const Factors& other) const;
};

struct Layer {
    Material material = Material::Glass;
    std::optional<double> thickness_mm; // the usual one of the material when not given
    std::optional<SpectrumTable> spectrum; // of Material::Measured, at normal incidence
    std::optional<double> spectrum_thickness_mm; // at which it was measured; else it is that of the layer
    std::optional<double> uva_transmittance; // measured over the whole of UVA, normal incidence; replaces the model
    QString name; // for people

    /// Interval of what it passes, as factors of it: narrow for what was measured, wide for grades that differ.
    [[nodiscard]] Factors interval() const;
    [[nodiscard]] bool assumed() const; // a grade or a thickness that nobody stated
};

/// Thickness that is meant when none is stated, mm (common practice, no source).
[[nodiscard]] double usualThickness_mm(Material material);

/// `glass:4mm`, `low-iron-glass:4mm`, `laminated-glass:6.4mm`, `acrylic:3mm`, `acetate:0.115mm`, `polyester:0.125mm`,
/// `glass` alone, `file:SPECTRUM.csv` with columns wavelength_nm and transmittance. The error says what is wrong.
[[nodiscard]] Result<Layer> readLayer(const QString& text);

/// A layer as physics sees it, wavelength by wavelength.
struct Slab {
    Bands index {}; // of refraction
    Bands depth {}; // absorption times thickness
    Bands scale {}; // what was measured over what the slab would pass; 1 mostly

    [[nodiscard]] double passes(size_t band, double cos_incidence) const;
};
[[nodiscard]] Slab slabOf(const Layer& layer);

class CoverStack {
public:
    CoverStack() = default; // nothing there: all passes
    explicit CoverStack(std::vector<Layer> layers);

    [[nodiscard]] bool empty() const { return layers_.empty(); }
    [[nodiscard]] const std::vector<Layer>& layers() const { return layers_; }
    [[nodiscard]] QString name() const; // for people: the layers from the sky down

    /// Share that passes at each wavelength, from one angle of incidence.
    [[nodiscard]] Bands direct(double cos_incidence) const;
    /// The same for light from the whole hemisphere, evenly.
    [[nodiscard]] const Bands& diffuse() const { return diffuse_; }
    /// Share of the weighted light of this spectrum; 1 for darkness.
    [[nodiscard]] double directShare(const Bands& spectrum, double cos_incidence, const Bands& weights) const;
    [[nodiscard]] double diffuseShare(const Bands& spectrum, const Bands& weights) const;

    [[nodiscard]] Factors interval() const; // of all layers together
    [[nodiscard]] bool assumed() const;
    [[nodiscard]] QStringList warnings() const; // translated sentences

private:
    std::vector<Layer> layers_;
    std::vector<Slab> slabs_;
    Bands diffuse_ = unit();

    static constexpr Bands unit()
    {
        Bands all {};
        all.fill(1);
        return all;
    }
};

} // namespace washfast::light
