// What panes and films are made of, from the spectra that the program ships (resources/spectra, sources there).
#pragma once

#include "core/light/covers.h"

namespace washfast::light {

struct MaterialData {
    Bands index {}; // of refraction
    Bands depth_per_mm {}; // absorption
    Bands scale {}; // as in Slab
};

/// Every material but Measured.
[[nodiscard]] const MaterialData& dataOf(Material material);

/// A slab that passes what was measured through this thickness at normal incidence.
[[nodiscard]] MaterialData fromMeasured(const Bands& transmittance, const Bands& index, double thickness_mm);

/// Share that a slab passes: Fresnel at both faces for both polarisations, and absorption along the bent path.
[[nodiscard]] double slabPasses(double index, double depth, double cos_incidence);

/// A shipped lamp, by the name of its file: led_365, led_385, led_395, led_405, tube_dark, tube_white.
[[nodiscard]] std::optional<SpectrumTable> lampSpectrum(const QString& name);
[[nodiscard]] QStringList lampNames();

} // namespace washfast::light
