// What is marked in a photo: where the print lies, which regions are known, which are paper, which are to be measured.
//
//     {"corners":[[x,y],[x,y],[x,y],[x,y]],     optional: top left, top right, bottom right, bottom left of a flat
//                                               thing; the regions are then in 0..1 of it
//      "flat":"none"|"plane",                   plane: lighting fitted from the regions marked as paper
//      "codes":"auto"|"file"|"linear",          optional: how codes go with light (see response.h); auto without it
//      "regions":[{"name":"white","rect":[x,y,w,h],"density":0.05,"density_sd":0.01},
//                 {"name":"grey","quad":[[x,y],..],"density":{"red":0.7,"green":0.7,"blue":0.69}},
//                 {"name":"paper","rect":[..],"paper":true},
//                 {"name":"deep","rect":[..]}]}
//
// Coordinates are pixels of the upright photo, x right, y down. Whatever is wrong is said with its place, such as
// "regions[2].rect[3]" or "line 4, column 12".
#pragma once

#include "core/density/quadrilateral.h"
#include "core/quantity/result.h"

#include <QByteArray>
#include <QString>
#include <optional>
#include <vector>

namespace washfast::density {

enum class Flat { None, Plane };
enum class Codes { Auto, File, Linear };

/// A density for each of red, green and blue.
using ChannelDensities = std::array<double, 3>;

struct Region {
    QString name;
    Corners corners {}; // in pixels, or in 0..1 of the marked corners
    std::optional<ChannelDensities> density; // known: a reference
    std::optional<double> density_sd; // how well it is known; the usual one of response.h when not given
    bool paper = false;
    bool operator==(const Region&) const = default;
};

struct Marks {
    std::optional<Corners> corners;
    Flat flat = Flat::None;
    Codes codes = Codes::Auto;
    std::vector<Region> regions;
    bool operator==(const Marks&) const = default;
};

[[nodiscard]] Result<Marks> readMarks(const QByteArray& json);
[[nodiscard]] Result<Marks> openMarks(const QString& path);
/// Reads back as the same marks.
[[nodiscard]] QByteArray writeMarks(const Marks& marks);

} // namespace washfast::density
