// Uneven lighting, as a plane through the regions marked as paper: each channel's light = c0 + c1 u + c2 v, where u and
// v are 0..1 across the photo. A reading is then brought to what it would be in the mean light of the paper. Veiling
// flare is taken off first, since it does not follow the lighting.
#pragma once

#include "core/density/sampling.h"

#include <Eigen/Core>
#include <QImage>
#include <optional>

namespace washfast::density {

class LightingPlane {
public:
    /// From the blocks of all paper samples; `flare` is the light that is there without any lighting on the paper.
    /// Nothing when the blocks do not span a plane (they lie on a line, or are too few), or the plane reaches zero.
    [[nodiscard]] static std::optional<LightingPlane> fit(
        const std::vector<Sample>& paper, QSize photo, const Triple& flare);

    /// Light at a place as it would be in the mean light of the paper.
    [[nodiscard]] Triple level(const Triple& light, Point at) const;
    /// What the reading is multiplied with at this place.
    [[nodiscard]] double factor(std::size_t channel, Point at) const;
    /// Standard error of that factor, as a share of it.
    [[nodiscard]] double shareError(std::size_t channel, Point at) const;
    /// Largest over smallest lighting within the photo (mean of the channels).
    [[nodiscard]] double unevenness() const;
    /// The correction as a grey picture: middle grey is 1, white is 1.5 and more, black is 0.5 and less.
    [[nodiscard]] QImage picture(int width = 320) const;

private:
    [[nodiscard]] Eigen::Vector3d place(Point at) const;

    QSize photo_;
    Triple flare_ {}, mean_ {}, scatter_ {};
    std::array<Eigen::Vector3d, 3> plane_;
    Eigen::Matrix3d inverse_;
};

} // namespace washfast::density
