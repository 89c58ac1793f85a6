#include "core/density/region_density.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace washfast::density {

namespace {

double densityOfReflectance(double reflectance)
{
    return -std::log10(reflectance);
}

Triple reflectances(const Response& response, const Triple& light)
{
    Triple out {};
    for (size_t k = 0; k < 3; ++k)
        out[k] = response.channels[k].reflectance(light[k]);
    return out;
}

double dot(const Triple& a, const Triple& b)
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

ChannelReading reading(double reflectance, double error, double pixel_sd)
{
    ChannelReading out;
    out.at_least = reflectance < 3 * error;
    const double used = out.at_least ? std::max(3 * error, 1e-9) : std::max(reflectance, 1e-9);
    out.density = densityOfReflectance(used);
    if (!out.at_least) { // sigma_D = 0.4343 sigma_R / R
        out.standard_error = std::numbers::log10e * error / used;
        out.sd = std::numbers::log10e * pixel_sd / used;
    }
    return out;
}

} // namespace

Levelled levelled(const Sample& sample, const LightingPlane* lighting)
{
    Levelled out;
    std::vector<Triple> blocks;
    double pixels = 0, square = 0;
    for (const auto& block : sample.blocks) {
        blocks.push_back(lighting ? lighting->level(block.light, block.middle) : block.light);
        pixels += block.pixels;
        square += block.pixels * block.pixels;
        for (size_t k = 0; k < 3; ++k)
            out.light[k] += block.pixels * blocks.back()[k];
    }
    if (pixels == 0)
        return out;
    const double blocks_worth = pixels * pixels / square; // as many as they would be if all had one size
    for (size_t k = 0; k < 3; ++k) {
        out.light[k] /= pixels;
        double spread = 0;
        for (size_t i = 0; i < blocks.size(); ++i) {
            const double off = blocks[i][k] - out.light[k];
            spread += sample.blocks[i].pixels / pixels * off * off;
        }
        const double between
            = blocks_worth > 1.5 ? spread / (blocks_worth - 1) : sample.light_sd[k] * sample.light_sd[k];
        // Rounding does not average out where there is little noise: 1/sqrt(12) of a step.
        const double rounding = 0.289 * sample.code_step[k];
        double variance = between + rounding * rounding;
        if (lighting) {
            Point middle;
            for (const auto& block : sample.blocks)
                middle = { middle.x + block.pixels / pixels * block.middle.x,
                    middle.y + block.pixels / pixels * block.middle.y };
            const double share = lighting->shareError(k, middle) * out.light[k];
            variance += share * share;
        }
        out.error[k] = std::sqrt(variance);
    }
    return out;
}

std::vector<Response> nudgedResponses(const std::vector<Reference>& references, const Response& response)
{
    std::vector<Response> all;
    const auto refit = [&](const std::vector<Reference>& moved) {
        if (auto other = fitResponse(moved, response.terms))
            all.push_back(*other);
    };
    for (size_t i = 0; i < references.size(); ++i) {
        const double sd = std::max(references[i].density_sd, response.residual_sd);
        if (sd > 0) { // what is said about a patch is wrong in all channels alike
            auto moved = references;
            for (auto& density : moved[i].density)
                density += sd;
            refit(moved);
        }
        auto moved = references;
        for (size_t k = 0; k < 3; ++k)
            moved[i].light[k] += moved[i].light_error[k];
        refit(moved);
    }
    return all;
}

RegionReading readRegion(const QString& name, const Sample& sample, const Levelled& light, const Response& response,
    const std::vector<Response>& nudged, const Matrix3& to_xyz_d50)
{
    RegionReading out;
    out.name = name;
    out.pixels = sample.pixels;
    if (sample.pixels == 0)
        return out;
    out.clipped_share = double(sample.clipped) / double(sample.pixels);
    const Triple& weights = to_xyz_d50[1];
    const Triple r = reflectances(response, light.light);
    Triple error {}, pixel_sd {}, own {};
    for (size_t k = 0; k < 3; ++k) {
        const double slope = response.channels[k].slope(light.light[k]);
        own[k] = slope * light.error[k];
        error[k] = own[k] * own[k];
        pixel_sd[k] = slope * sample.light_sd[k];
    }
    double visual_error = std::pow(dot(weights, own), 2); // noise of the channels may go together: taken as if it did
    for (const auto& other : nudged) {
        const Triple moved = reflectances(other, light.light);
        Triple off {};
        for (size_t k = 0; k < 3; ++k) {
            off[k] = moved[k] - r[k];
            error[k] += off[k] * off[k];
        }
        visual_error += std::pow(dot(weights, off), 2);
    }
    std::array<ChannelReading*, 3> channels { &out.red, &out.green, &out.blue };
    for (size_t k = 0; k < 3; ++k)
        *channels[k] = reading(r[k], std::sqrt(error[k]), pixel_sd[k]);
    const double slope = response.channels[1].slope(light.light[1]);
    out.visual = reading(dot(weights, r), std::sqrt(visual_error), slope * sample.luminance_sd);
    Triple whole = r;
    for (auto& value : whole)
        value = std::max(value, 0.0);
    out.lab = xyzToLab(multiply(to_xyz_d50, whole), whiteD50);
    return out;
}

} // namespace washfast::density
