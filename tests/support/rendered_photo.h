// A photo of a sheet rendered from known densities: perspective, a lighting gradient, flare, noise, JPEG. What a
// measurement makes of it can be held against the truth.
#pragma once

#include "core/density/measure.h"

#include <QBuffer>
#include <QImage>
#include <cmath>
#include <functional>
#include <random>

namespace washfast::test {

struct RenderedPatch {
    const char* name;
    double u, v, width, height; // in 0..1 of the sheet
    density::ChannelDensities density;
};

struct Scene {
    int width = 900, height = 700;
    density::Corners corners { density::Point { 90, 70 }, { 830, 95 }, { 800, 640 }, { 60, 610 } };
    double paper_density = 0.06;
    std::vector<RenderedPatch> patches;
    double exposure = 0.85; // linear light of the perfect diffuser
    double gradient = 0.0; // relative change of the lighting from left to right
    double flare = 0.0; // linear light added everywhere
    double noise = 0.0; // standard deviation in 8-bit codes
    std::function<double(double u, double v)> extra; // density added on the sheet
};

inline QImage render(const Scene& scene, unsigned seed)
{
    using namespace density;
    const auto perspective = *Perspective::ontoCorners(scene.corners);
    std::mt19937 draw(seed);
    // Drawn from a store of normal numbers: the tests render hundreds of sheets.
    static const std::vector<double> normals = [] {
        std::mt19937 source(12345);
        std::normal_distribution<double> normal;
        std::vector<double> all(1 << 20);
        for (auto& value : all)
            value = normal(source);
        return all;
    }();
    ChannelDensities last {};
    Triple reflected { 1, 1, 1 };
    QImage image(scene.width, scene.height, QImage::Format_RGB32);
    for (int y = 0; y < scene.height; ++y)
        for (int x = 0; x < scene.width; ++x) {
            ChannelDensities density { 0.9, 0.9, 0.9 }; // the table
            const auto own = perspective.toOwn({ x + 0.5, y + 0.5 });
            if (own && own->x >= 0 && own->x <= 1 && own->y >= 0 && own->y <= 1) {
                density.fill(scene.paper_density);
                for (const auto& patch : scene.patches)
                    if (own->x >= patch.u && own->x <= patch.u + patch.width && own->y >= patch.v
                        && own->y <= patch.v + patch.height)
                        density = patch.density;
                if (scene.extra)
                    for (auto& value : density)
                        value += scene.extra(own->x, own->y);
            }
            if (density != last) {
                last = density;
                for (size_t k = 0; k < 3; ++k)
                    reflected[k] = std::pow(10, -density[k]);
            }
            const double light = scene.exposure * (1 + scene.gradient * ((x + 0.5) / scene.width - 0.5));
            std::array<int, 3> code {};
            for (size_t k = 0; k < 3; ++k) {
                const double linear = light * reflected[k] + scene.flare;
                const double value = 255 * linearToSrgb(linear) + scene.noise * normals[draw() & ((1u << 20) - 1)];
                code[k] = int(std::lround(std::clamp(value, 0.0, 255.0)));
            }
            reinterpret_cast<QRgb*>(image.scanLine(y))[x] = qRgb(code[0], code[1], code[2]);
        }
    return image;
}

inline QByteArray encode(const QImage& image, const char* format, int quality = -1)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    if (!image.save(&buffer, format, quality))
        throw std::runtime_error(std::string("cannot write ") + format);
    return bytes;
}

/// The inner part of a patch as a region in 0..1 of the sheet.
inline density::Region inner(const RenderedPatch& patch, double margin = 0.2)
{
    density::Region region;
    region.name = QLatin1String(patch.name);
    region.corners = density::rectangle(patch.u + margin * patch.width, patch.v + margin * patch.height,
        patch.width * (1 - 2 * margin), patch.height * (1 - 2 * margin));
    return region;
}

} // namespace washfast::test
