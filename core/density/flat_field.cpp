#include "core/density/flat_field.h"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace washfast::density {

Eigen::Vector3d LightingPlane::place(Point at) const
{
    return { 1, at.x / photo_.width() - 0.5, at.y / photo_.height() - 0.5 };
}

std::optional<LightingPlane> LightingPlane::fit(const std::vector<Sample>& paper, QSize photo, const Triple& flare)
{
    LightingPlane lighting;
    lighting.photo_ = photo;
    lighting.flare_ = flare;
    Eigen::Matrix3d information = Eigen::Matrix3d::Zero();
    std::array<Eigen::Vector3d, 3> right;
    right.fill(Eigen::Vector3d::Zero());
    double pixels = 0;
    int blocks = 0;
    for (const auto& sample : paper)
        for (const auto& block : sample.blocks) {
            const auto p = lighting.place(block.middle);
            information += block.pixels * p * p.transpose();
            for (std::size_t k = 0; k < 3; ++k) {
                right[k] += block.pixels * (block.light[k] - flare[k]) * p;
                lighting.mean_[k] += block.pixels * (block.light[k] - flare[k]);
            }
            pixels += block.pixels;
            ++blocks;
        }
    if (blocks < 4)
        return {};
    information /= pixels;
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> spread(information);
    if (!(spread.eigenvalues()[0] > 1e-6)) // all on a line, or in one small spot
        return {};
    lighting.inverse_ = information.inverse() / blocks;
    for (std::size_t k = 0; k < 3; ++k) {
        lighting.plane_[k] = information.inverse() * right[k] / pixels;
        lighting.mean_[k] /= pixels;
        double squares = 0;
        for (const auto& sample : paper)
            for (const auto& block : sample.blocks) {
                const double off = block.light[k] - flare[k] - lighting.plane_[k].dot(lighting.place(block.middle));
                squares += block.pixels / pixels * off * off;
            }
        lighting.scatter_[k] = std::sqrt(squares * blocks / (blocks - 3));
        for (const double x : { 0.0, 1.0 })
            for (const double y : { 0.0, 1.0 })
                if (lighting.plane_[k].dot(lighting.place({ x * photo.width(), y * photo.height() }))
                    < 0.05 * lighting.mean_[k])
                    return {};
    }
    return lighting;
}

double LightingPlane::factor(std::size_t channel, Point at) const
{
    return mean_[channel] / plane_[channel].dot(place(at));
}

Triple LightingPlane::level(const Triple& light, Point at) const
{
    Triple out {};
    for (std::size_t k = 0; k < 3; ++k)
        out[k] = (light[k] - flare_[k]) * factor(k, at) + flare_[k];
    return out;
}

double LightingPlane::shareError(std::size_t channel, Point at) const
{
    const auto p = place(at);
    return scatter_[channel] * std::sqrt(p.dot(inverse_ * p)) / plane_[channel].dot(p);
}

double LightingPlane::unevenness() const
{
    double least = 1e300, most = 0;
    for (const double x : { 0.0, 1.0 })
        for (const double y : { 0.0, 1.0 }) {
            double light = 0;
            for (std::size_t k = 0; k < 3; ++k)
                light += plane_[k].dot(place({ x * photo_.width(), y * photo_.height() })) / mean_[k] / 3;
            least = std::min(least, light);
            most = std::max(most, light);
        }
    return most / least;
}

QImage LightingPlane::picture(int width) const
{
    const int height = std::max(1, int(std::lround(double(width) * photo_.height() / photo_.width())));
    QImage image(width, height, QImage::Format_Grayscale8);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const Point at { (x + 0.5) / width * photo_.width(), (y + 0.5) / height * photo_.height() };
            const double times = (factor(0, at) + factor(1, at) + factor(2, at)) / 3;
            image.scanLine(y)[x] = uchar(std::clamp(int(std::lround(127.5 + 255 * (times - 1))), 0, 255));
        }
    return image;
}

} // namespace washfast::density
