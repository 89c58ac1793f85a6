// From the sample of one region to its densities, with the errors of the region, the lighting and the references.
#pragma once

#include "core/density/measure.h"

namespace washfast::density {

/// Mean light after levelling, and its standard error without the references.
struct Levelled {
    Triple light {}, error {};
};

/// Over the blocks of a sample; blocks, unlike pixels, are nearly independent of one another.
[[nodiscard]] Levelled levelled(const Sample& sample, const LightingPlane* lighting);

/// The responses that come out when one reference is off by its standard error, in light (a channel at a time) or in
/// density; the spread of a reading over them is what the references add to its error.
[[nodiscard]] std::vector<Response> nudgedResponses(const std::vector<Reference>& references, const Response& response);

[[nodiscard]] RegionReading readRegion(const QString& name, const Sample& sample, const Levelled& light,
    const Response& response, const std::vector<Response>& nudged, const Matrix3& to_xyz_d50);

} // namespace washfast::density
