// Pixels of a region, summed in double through the exact curve of the file.
#pragma once

#include "core/density/photo.h"
#include "core/density/quadrilateral.h"

#include <vector>

namespace washfast::density {

/// A part of a region: the mean light of its pixels and where it lies.
struct Block {
    Point middle; // photo pixels
    double pixels = 0;
    Triple light {};
};

struct Sample {
    qint64 pixels = 0;
    qint64 clipped = 0; // with a channel at its largest or smallest code
    std::array<qint64, 3> at_top {}, at_bottom {}; // by channel
    Triple light {}; // mean linear light
    Triple code {}; // mean code as a share of the largest
    Triple light_sd {}; // over the pixels
    double luminance_sd = 0; // over the pixels, of the channels' sum in the proportions of Y, as light
    Triple code_step {}; // light between neighbouring codes at the mean, wider where lossy packing tells less apart
    std::vector<Block> blocks; // up to 8 x 8, for the spread over the region
};

/// Which codes stand for light: those of the file's curve, or the codes themselves (a camera that writes linear codes).
enum class Encoding { File, Linear };

/// Pixels whose middle lies inside the corners (photo pixels); those outside the photo are left out.
[[nodiscard]] Sample sampleRegion(const Photo& photo, const Corners& corners, Encoding encoding = Encoding::File);

struct BothSamples {
    Sample file, linear;
};
/// The same for both encodings in one pass over the pixels.
[[nodiscard]] BothSamples sampleBoth(const Photo& photo, const Corners& corners);

} // namespace washfast::density
