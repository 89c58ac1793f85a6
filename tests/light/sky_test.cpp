// Clear sky, cloud, places and tilt: what must hold whatever the constants.
#include "core/light/clear_sky.h"
#include "core/light/cloud.h"
#include "core/light/setting.h"
#include "core/light/uv_index.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::light;

namespace {

double level(double zenith, const Atmosphere& atmosphere = {}, double pressure = 1013.25)
{
    return uvaOf(clearSpectrum(zenith, 1, atmosphere, pressure)).horizontal(std::cos(zenith * 3.14159265358979 / 180));
}

SunPosition sunIn(double zenith, double azimuth)
{
    SunPosition sun;
    sun.zenith_deg = sun.apparent_zenith_deg = zenith;
    sun.azimuth_deg = azimuth;
    return sun;
}

} // namespace

TEST(ClearSky, FallsWithTheSunAndEndsAtTheHorizon)
{
    for (double zenith = 0; zenith < 90; zenith += 0.5) {
        EXPECT_GT(level(zenith), level(zenith + 0.5)) << zenith;
        EXPECT_GE(level(zenith + 0.5), 0) << zenith;
    }
    EXPECT_EQ(level(90), 0);
    EXPECT_EQ(level(120), 0);
}

TEST(ClearSky, AnswersToTheAir)
{
    Atmosphere hazy;
    hazy.aerosol_500 = 0.5;
    Atmosphere snow;
    snow.ground_albedo = *groundAlbedo(QStringLiteral("snow"));
    Atmosphere ozone;
    ozone.ozone_du = 450;
    EXPECT_LT(level(45, hazy), level(45));
    EXPECT_GT(level(45, snow), level(45));
    EXPECT_LT(level(45, ozone), level(45));
    EXPECT_GT(level(45, {}, pressureAt(2500)), level(45));
    EXPECT_FALSE(groundAlbedo(QStringLiteral("lava")));
}

TEST(ClearSky, TheTableIsTheModel)
{
    const Instant from { 1'781'913'600'000, 0 }; // the twentieth of June 2026
    const Place place { 52, 10, 80 };
    const ClearSky sky(place, {}, from, { from.ms_utc + 86'400'000, 0 });
    const auto series = sky.series(from, 900, 96);
    ASSERT_EQ(series.size(), 96U);
    for (size_t i = 0; i < series.size(); ++i) {
        const Instant when { from.ms_utc + qint64(i) * 900'000, 0 };
        const auto sun = sunAt(when, place);
        const double model = distanceFactor(dayOfYear(when)) * level(sun.apparent_zenith_deg, {}, pressureAt(80));
        EXPECT_NEAR(series[i], model, 1e-3 * model + 2e-3) << i;
    }
}

TEST(UvIndex, IsNothingAtNightAndNeverWrapsRound)
{
    EXPECT_EQ(uvIndex(95, 300), 0);
    EXPECT_EQ(uvIndex(180, 300), 0);
    EXPECT_FALSE(erythemalMinutes(0));
    for (const auto band : { UvBand::Low, UvBand::Moderate, UvBand::High, UvBand::VeryHigh, UvBand::Extreme }) {
        EXPECT_FALSE(uvBandName(band).isEmpty());
        EXPECT_FALSE(uvCaution(band).isEmpty());
    }
}

// The forecasts' factors (clear, scattered, broken, overcast: 1.0, 0.89, 0.73, 0.31 by tenths of cloud, second-hand).
TEST(Cloud, ForecastFactorsWhereTheDiscWasNotNoted)
{
    const std::pair<double, double> rows[]
        = { { 0, 1.0 }, { 1, 1.0 }, { 2, 0.89 }, { 5, 0.89 }, { 6, 0.73 }, { 7, 0.73 }, { 8, 0.31 } };
    for (const auto& [eighths, factor] : rows)
        EXPECT_DOUBLE_EQ(cloudFactor({ eighths, std::nullopt }).factor, factor) << eighths;
    EXPECT_DOUBLE_EQ(cloudFactor({ 8, Disc::No }).factor, 0.31);
    // The range of overcast skies in Sweden: 0.16 under ragged low cloud to 0.95 (doi 10.1007/s007040050100).
    const auto overcast = cloudFactor({ 8, std::nullopt });
    EXPECT_LE(overcast.low, 0.16);
    EXPECT_GE(overcast.high, 0.95);
}

TEST(Cloud, EveryIntervalHoldsItsPoint)
{
    for (int eighths = 0; eighths <= 8; ++eighths) {
        double before = 2;
        for (const auto disc : { Disc::Yes, Disc::Partly, Disc::No }) {
            const auto cloud = cloudFactor({ double(eighths), disc });
            EXPECT_LE(cloud.low, cloud.factor);
            EXPECT_GE(cloud.high, cloud.factor);
            EXPECT_GT(cloud.low, 0);
            EXPECT_FALSE(cloud.assumed);
            EXPECT_LT(cloud.factor, before) << "a paler disc, less light: " << eighths;
            before = cloud.factor;
            if (disc == Disc::No) {
                EXPECT_EQ(cloud.beam, 0);
            }
        }
    }
    const auto unknown = cloudFactor({});
    EXPECT_TRUE(unknown.assumed);
    EXPECT_LT(unknown.low, 0.2);
    EXPECT_FALSE(cloudFactor({ std::nullopt, Disc::Yes }).assumed);
    EXPECT_FALSE(discFromKey(QStringLiteral("maybe")));
}

TEST(Setting, WhereTheSunReaches)
{
    const auto sun = sunIn(50, 180);
    Setting open;
    const auto level_sheet = geometryOf(open, sun, 0.05, 0.5);
    EXPECT_NEAR(level_sheet.beam, std::cos(50 * 3.14159265358979 / 180), 1e-12);
    EXPECT_DOUBLE_EQ(level_sheet.diffuse, 1);
    EXPECT_DOUBLE_EQ(level_sheet.ground, 0);

    Setting shade;
    shade.kind = PlaceKind::OpenShade;
    EXPECT_EQ(geometryOf(shade, sun, 0.05, 0.5).beam, 0);
    EXPECT_TRUE(skyShareAssumed(shade));

    Setting window;
    window.kind = PlaceKind::Window;
    window.sky_share = 0.9;
    EXPECT_DOUBLE_EQ(skyShare(window), 0.5) << "an upright pane sees half of the sky at most";
    window.facing_deg = 180;
    const auto facing = geometryOf(window, sun, 0.05, 0.5);
    ASSERT_TRUE(facing.cos_pane);
    EXPECT_NEAR(*facing.cos_pane, std::sin(50 * 3.14159265358979 / 180), 1e-12);
    EXPECT_GT(facing.beam, 0);
    window.facing_deg = 0;
    EXPECT_FALSE(geometryOf(window, sun, 0.05, 0.5).cos_pane);
    EXPECT_EQ(geometryOf(window, sun, 0.05, 0.5).beam, 0);
}

TEST(Setting, TiltIsCappedAndNeverNegative)
{
    for (double zenith = 0; zenith < 90; zenith += 10)
        for (double tilt = 0; tilt <= 90; tilt += 15)
            for (double away = 0; away < 360; away += 45) {
                Setting sheet;
                sheet.tilt_deg = tilt;
                sheet.facing_deg = away;
                const auto g = geometryOf(sheet, sunIn(zenith, 0), 0.7, 0.6);
                const double mu = std::cos(zenith * 3.14159265358979 / 180);
                const double gain = 0.6 * g.beam / mu + 0.4 * g.diffuse + g.ground;
                EXPECT_GE(gain, 0);
                EXPECT_LE(gain, tiltGainCap + 1e-9) << zenith << ' ' << tilt << ' ' << away;
            }
}

} // namespace WASHFAST_FILE
