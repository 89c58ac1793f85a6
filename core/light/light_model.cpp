#include "core/light/light_model.h"
#include "core/light/angles.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace washfast::light {

namespace {

/// The two parts of the light above the sheet's covers, W/m2 on its plane.
struct OnPlane {
    double direct = 0, diffuse = 0;
    [[nodiscard]] double sum() const { return direct + diffuse; }
};

/// What cloud leaves of the two parts: so much of the whole, of that the beam as far as it shows, the rest from the
/// sky.
struct UnderCloud {
    double direct_normal = 0, diffuse = 0, level = 0;
    [[nodiscard]] double directShare() const { return level > 0 ? 1 - diffuse / level : 0; }
};

UnderCloud clouded(const Uva& uva, double mu, const CloudFactor& cloud)
{
    UnderCloud under;
    const double beam = uva.direct_normal * mu;
    under.level = (beam + uva.diffuse) * cloud.factor;
    const double left = std::min(beam * cloud.beam, under.level);
    under.direct_normal = beam > 0 ? uva.direct_normal * left / beam : 0;
    under.diffuse = under.level - left;
    return under;
}

OnPlane onPlane(const UnderCloud& under, const Geometry& geometry)
{
    return { under.direct_normal * geometry.beam, under.diffuse * geometry.diffuse + under.level * geometry.ground };
}

} // namespace

struct LightModel::Light {
    SunPosition sun;
    double mu = 0;
    SkySpectrum spectrum;
    Uva uva;
    double diffuse_share = 1; // through pane and covers
};

LightModel::LightModel(const ExposureCase& exposure, Instant from, Instant to)
    : exposure_(exposure)
    , weights_(exposure.actinic ? exposure.actinic->weights : uvaWeights)
{
    const auto& setting = exposure.setting;
    known_ = exposure.place && !exposure.cover_unknown && setting.kind != PlaceKind::Lamp;
    if (known_) {
        track_.emplace(from, to);
        air_ = { exposure.atmosphere.pressure_hpa.value_or(pressureAt(exposure.place->height_m)), 15 };
        sky_ = SkyModel(exposure.atmosphere, *air_.pressure_hpa);
    }
    Factors share;
    if (setting.kind == PlaceKind::Window) {
        pane_ = exposure.pane;
        if (pane_.empty()) {
            Layer layer;
            layer.thickness_mm = 4;
            layer.name = materialName(Material::Glass);
            pane_ = CoverStack({ layer, layer });
            pane_assumed_ = true;
            share = share.with({ 0.9, 1.25 }); // one pane, or three
        }
    }
    for (size_t i = 0; i < bandCount; ++i)
        diffuse_through_[i] = pane_.diffuse()[i] * exposure.covers.diffuse()[i];
    // By eye to a fifth; not noted at all, anything between half and twice (our assumptions).
    if (skyShareAssumed(setting))
        share = share.with({ 0.5, 2.0 });
    else if (setting.kind != PlaceKind::OpenSky)
        share = share.with({ 0.8, 1.2 });
    steady_ = Factors { 1 - clearSkyUncertainty, 1 + clearSkyUncertainty }
                  .with(exposure.covers.interval())
                  .with(pane_.interval())
                  .with(share);
}

CloudFactor LightModel::cloudAt(Instant when) const
{
    const SkySeen* nearest = nullptr;
    for (const auto& seen : exposure_.skies)
        if (seen.sky.noted()
            && (!nearest || std::abs(seen.when.ms_utc - when.ms_utc) < std::abs(nearest->when.ms_utc - when.ms_utc)))
            nearest = &seen;
    return cloudFactor(nearest ? nearest->sky : Sky {});
}

bool LightModel::skyNoted() const
{
    return std::any_of(exposure_.skies.begin(), exposure_.skies.end(), [](const SkySeen& s) { return s.sky.noted(); });
}

LightModel::Light LightModel::lightOf(const SunPosition& sun, double distance_factor) const
{
    Light light;
    light.sun = sun;
    light.mu = std::max(0.0, std::cos(sun.apparent_zenith_deg * radians));
    light.spectrum = sky_.at(sun.apparent_zenith_deg, distance_factor, &weights_);
    light.uva = uvaOf(light.spectrum, weights_);
    if (!(exposure_.covers.empty() && pane_.empty()) && light.uva.diffuse > 0) {
        double through = 0;
        for (size_t i = 0; i < bandCount; ++i)
            through += light.spectrum.diffuse[i] * weights_[i] * diffuse_through_[i];
        light.diffuse_share = through / light.uva.diffuse;
    }
    return light;
}

double LightModel::directThrough(const Light& light, const Geometry& geometry) const
{
    if (!geometry.cos_pane)
        return exposure_.covers.directShare(light.spectrum.direct_normal, geometry.cos_incidence, weights_);
    auto through_pane = pane_.direct(*geometry.cos_pane);
    double passed = 0;
    double whole = 0;
    for (size_t i = 0; i < bandCount; ++i) {
        const double part = light.spectrum.direct_normal[i] * weights_[i];
        whole += part;
        through_pane[i] *= part;
        passed += through_pane[i];
    }
    if (!(whole > 0) || !(passed > 0))
        return 0;
    Bands plain {};
    plain.fill(1);
    return passed / whole * exposure_.covers.directShare(through_pane, geometry.cos_incidence, plain);
}

LightNow LightModel::at(Instant when) const
{
    LightNow now;
    now.sun = track_->at(when, *exposure_.place, air_);
    const auto cloud = cloudAt(when);
    now.sky_factor = now.cloud_factor = cloud.factor;
    now.cloud_low = cloud.low;
    now.cloud_high = cloud.high;
    const auto light = lightOf(now.sun, distanceFactor(dayOfYear(when)));
    const double albedo = exposure_.atmosphere.ground_albedo;

    const auto clear = clouded(light.uva, light.mu, {});
    now.level_w_m2 = clear.level;
    const auto clear_geometry = geometryOf(exposure_.setting, now.sun, albedo, clear.directShare());
    const auto clear_plane = onPlane(clear, clear_geometry);
    now.direct_w_m2 = clear_plane.direct;
    now.diffuse_w_m2 = clear_plane.diffuse;
    now.clear_w_m2 = clear_plane.sum();

    const auto under = clouded(light.uva, light.mu, cloud);
    const auto geometry = geometryOf(exposure_.setting, now.sun, albedo, under.directShare());
    const auto plane = onPlane(under, geometry);
    const double direct_share = directThrough(light, geometry);
    now.at_paper_w_m2 = plane.direct * direct_share + plane.diffuse * light.diffuse_share;
    if (plane.sum() > 0) {
        now.cover_transmittance = now.at_paper_w_m2 / plane.sum();
        // On this plane; on the level it is the factor of the sky itself.
        now.cloud_factor = plane.sum() / now.clear_w_m2;
        now.cloud_low = now.cloud_factor * cloud.low / cloud.factor;
        now.cloud_high = now.cloud_factor * cloud.high / cloud.factor;
    } else {
        now.cover_transmittance = light.diffuse_share;
    }
    const auto range = steady_.with({ cloud.low / cloud.factor, cloud.high / cloud.factor });
    now.low_w_m2 = now.at_paper_w_m2 * range.low;
    now.high_w_m2 = now.at_paper_w_m2 * range.high;
    return now;
}

std::array<double, 32> LightModel::allCombinations(Instant when, double reference_zenith_deg) const
{
    SunPosition here = track_->at(when, *exposure_.place, air_);
    SunPosition there = here;
    there.apparent_zenith_deg = there.zenith_deg = reference_zenith_deg;
    const std::array<Light, 2> lights { lightOf(there, 1), lightOf(here, distanceFactor(dayOfYear(when))) };
    const std::array<CloudFactor, 2> clouds { CloudFactor {}, cloudAt(when) };

    std::array<double, 32> values {};
    for (unsigned sun = 0; sun < 2; ++sun)
        for (unsigned sky = 0; sky < 2; ++sky)
            for (unsigned tilt = 0; tilt < 2; ++tilt) {
                Setting setting = exposure_.setting;
                if (!sky) {
                    setting.kind = PlaceKind::OpenSky;
                    setting.sky_share.reset();
                    setting.sun_reaches.reset();
                }
                if (!tilt)
                    setting.tilt_deg = 0;
                const auto& light = lights[sun];
                std::optional<double> direct_share; // the angles do not depend on the cloud
                for (unsigned cloud = 0; cloud < 2; ++cloud) {
                    const auto under = clouded(light.uva, light.mu, clouds[cloud]);
                    auto geometry
                        = geometryOf(setting, light.sun, exposure_.atmosphere.ground_albedo, under.directShare());
                    const auto plane = onPlane(under, geometry);
                    if (!direct_share) {
                        // Under the open sky the pane is met as the sheet is.
                        if (!sky && !pane_.empty())
                            geometry.cos_pane = geometry.cos_incidence;
                        direct_share = directThrough(light, geometry);
                    }
                    const unsigned at = sun | cloud << 1 | sky << 3 | tilt << 4;
                    values[at] = plane.sum();
                    values[at | 4U] = plane.direct * *direct_share + plane.diffuse * light.diffuse_share;
                }
            }
    return values;
}

} // namespace washfast::light
