// A whole measurement against rendered photos whose densities are known.
#include "tests/support/rendered_photo.h"

#include <QTemporaryDir>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

constexpr RenderedPatch white { "white", 0.05, 0.05, 0.15, 0.15, { 0.05, 0.05, 0.05 } };
constexpr RenderedPatch grey { "grey", 0.25, 0.05, 0.15, 0.15, { 0.70, 0.70, 0.70 } };
constexpr RenderedPatch deep { "deep", 0.45, 0.35, 0.20, 0.30, { 1.35, 0.95, 0.55 } };
constexpr RenderedPatch pale { "pale", 0.10, 0.35, 0.20, 0.30, { 0.45, 0.30, 0.20 } };

Region known(const RenderedPatch& patch)
{
    auto region = inner(patch);
    region.density = patch.density;
    return region;
}

Region paper(const char* name, double u, double v)
{
    Region region;
    region.name = QLatin1String(name);
    region.corners = rectangle(u, v, 0.08, 0.08);
    region.paper = true;
    return region;
}

Marks usualMarks(const Scene& scene)
{
    Marks marks;
    marks.corners = scene.corners;
    marks.regions = { known(white), known(grey), inner(deep), inner(pale) };
    return marks;
}

Scene usualScene()
{
    Scene scene;
    scene.patches = { white, grey, deep, pale };
    return scene;
}

Photo photoOf(const QByteArray& bytes)
{
    auto photo = readPhoto(bytes, QStringLiteral("rendered"));
    if (!photo)
        throw std::runtime_error(photo.error().sentence().toStdString());
    return std::move(photo).value();
}

Measurement must(Result<Measurement> result)
{
    if (!result)
        throw std::runtime_error(result.error().sentence().toStdString());
    return std::move(result).value();
}

std::string warningsOf(const Measurement& measurement)
{
    return measurement.warnings.join(QLatin1Char('\n')).toStdString();
}

} // namespace

TEST(Measure, TakesFlareAndSlantAway)
{
    auto scene = usualScene();
    scene.flare = 0.02;
    scene.noise = 1.5; // without noise the rounding to codes would not average out
    const auto measured = must(measure(photoOf(encode(render(scene, 1), "png")), usualMarks(scene)));
    EXPECT_NEAR(*measured.regions[2].red.density, 1.35, 0.01);
    EXPECT_NEAR(*measured.regions[2].green.density, 0.95, 0.01);
    EXPECT_NEAR(*measured.regions[2].blue.density, 0.55, 0.01);
    EXPECT_NEAR(*measured.regions[3].red.density, 0.45, 0.01);
    EXPECT_EQ(measured.response.encoding, Encoding::File);
    EXPECT_NEAR(*measured.references[0].residual, 0, 1e-6);
}

TEST(Measure, PlaneTakesTheLightingAway)
{
    auto scene = usualScene();
    scene.flare = 0.015;
    scene.gradient = 0.4;
    auto marks = usualMarks(scene);
    marks.regions.push_back(paper("p1", 0.02, 0.88));
    marks.regions.push_back(paper("p2", 0.88, 0.02));
    marks.regions.push_back(paper("p3", 0.88, 0.88));
    marks.regions.push_back(paper("p4", 0.45, 0.80));
    const auto photo = photoOf(encode(render(scene, 2), "png"));
    const auto uneven = must(measure(photo, marks));
    marks.flat = Flat::Plane;
    const auto level = must(measure(photo, marks));
    EXPECT_GT(std::abs(*uneven.regions[2].red.density - 1.35), 0.03);
    EXPECT_NEAR(*level.regions[2].red.density, 1.35, 0.015);
    EXPECT_NEAR(*level.regions[3].blue.density, 0.20, 0.01);
    ASSERT_TRUE(level.lighting);
    EXPECT_NEAR(level.lighting->unevenness(), 1.2 / 0.8, 0.05);
    const auto picture = level.lighting->picture();
    EXPECT_GT(qGray(picture.pixel(2, 50)), qGray(picture.pixel(picture.width() - 3, 50))); // the darker side is raised
}

TEST(Measure, PlaneNeedsPaperThatSpansOne)
{
    auto scene = usualScene();
    auto marks = usualMarks(scene);
    marks.flat = Flat::Plane;
    const auto refused = measure(photoOf(encode(render(scene, 2), "png")), marks);
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().sentence().toStdString(), HasSubstr("lighting"));
}

// Stated interval: density plus or minus 1.96 standard errors. In 100 photos with slant, gradient, flare, noise and
// JPEG the truth has to lie within in at least 95; references given with their true density.
TEST(Measure, StatedIntervalsHoldInNinetyFiveOfAHundred)
{
    int covered = 0, asked = 0;
    double widest = 0;
    for (unsigned seed = 0; seed < 100; ++seed) {
        std::mt19937 draw(seed);
        const auto uniform = [&](double low, double high) {
            return low + (high - low) * std::uniform_real_distribution<double>()(draw);
        };
        Scene scene;
        scene.width = 600;
        scene.height = 460;
        scene.corners = { Point { uniform(40, 90), uniform(30, 70) }, { uniform(520, 570), uniform(30, 70) },
            { uniform(500, 560), uniform(390, 430) }, { uniform(30, 80), uniform(390, 430) } };
        auto first = deep, second = pale;
        first.density = { uniform(0.8, 1.4), uniform(0.6, 1.1), uniform(0.3, 0.8) };
        second.density = { uniform(0.2, 0.7), uniform(0.2, 0.6), uniform(0.1, 0.5) };
        scene.patches = { white, grey, first, second };
        scene.exposure = uniform(0.7, 0.9);
        scene.gradient = uniform(-0.25, 0.25);
        scene.flare = uniform(0.002, 0.03);
        scene.noise = uniform(0.5, 2.5);
        Marks marks;
        marks.corners = scene.corners;
        marks.flat = Flat::Plane;
        marks.regions = { known(white), known(grey), inner(first), inner(second), paper("p1", 0.02, 0.88),
            paper("p2", 0.88, 0.02), paper("p3", 0.88, 0.88), paper("p4", 0.45, 0.80) };
        const auto measured = must(measure(photoOf(encode(render(scene, seed), "jpeg", 92)), marks));
        for (const auto& [region, truth] : { std::pair(2u, first.density), std::pair(3u, second.density) }) {
            const auto& reading = measured.regions[region];
            const ChannelReading* channels[] { &reading.red, &reading.green, &reading.blue };
            for (size_t k = 0; k < 3; ++k) {
                ++asked;
                const double error = channels[k]->standard_error.value_or(9);
                covered += std::abs(*channels[k]->density - truth[k]) <= 1.96 * error;
                widest = std::max(widest, error);
            }
        }
    }
    EXPECT_GE(covered, asked * 95 / 100) << covered << " of " << asked;
    EXPECT_LT(widest, 0.10); // far beyond the darkest reference; an interval that is always right because it is always
                             // wide would be no measurement
}

TEST(Measure, SaysAtLeastBelowTheFloor)
{
    auto scene = usualScene();
    scene.patches[2].density = { 3.4, 3.4, 3.4 };
    scene.flare = 0.02;
    scene.noise = 2;
    const auto measured = must(measure(photoOf(encode(render(scene, 4), "jpeg", 90)), usualMarks(scene)));
    EXPECT_TRUE(measured.regions[2].red.at_least);
    EXPECT_GT(*measured.regions[2].red.density, 1.2);
    EXPECT_LE(*measured.regions[2].red.density, 3.4);
    EXPECT_FALSE(measured.regions[2].red.standard_error);
    EXPECT_FALSE(measured.regions[3].red.at_least);
}

TEST(Measure, IsRelativeToThePaperWithoutReferences)
{
    auto scene = usualScene();
    Marks marks;
    marks.corners = scene.corners;
    marks.regions = { paper("paper", 0.85, 0.85), inner(pale) };
    const auto measured = must(measure(photoOf(encode(render(scene, 5), "png")), marks));
    EXPECT_TRUE(measured.relative_to_paper);
    EXPECT_NEAR(*measured.regions[0].visual.density, 0, 1e-9);
    EXPECT_NEAR(*measured.regions[1].red.density, 0.45 - scene.paper_density, 0.005);
    EXPECT_THAT(warningsOf(measured), HasSubstr("relative to the paper"));
}

TEST(Measure, RefusesReferencesThatContradictOneAnother)
{
    auto scene = usualScene();
    const auto photo = photoOf(encode(render(scene, 6), "png"));
    auto marks = usualMarks(scene);
    std::swap(marks.regions[0].density, marks.regions[1].density);
    auto refused = measure(photo, marks);
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().sentence().toStdString(), HasSubstr("white"));
    EXPECT_THAT(refused.error().sentence().toStdString(), HasSubstr("contradict"));

    marks = usualMarks(scene);
    marks.regions[1].density = ChannelDensities { 0.10, 0.10, 0.10 };
    refused = measure(photo, marks);
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().sentence().toStdString(), HasSubstr("too alike"));
}

TEST(Measure, MoreReferencesFollowACameraWithItsOwnToneCurve)
{
    // Codes bent after the sRGB curve, as cameras do for looks: a power of 1.25 in light.
    auto scene = usualScene();
    constexpr RenderedPatch dark { "dark", 0.65, 0.05, 0.12, 0.15, { 1.30, 1.30, 1.30 } };
    constexpr RenderedPatch light { "light", 0.50, 0.05, 0.12, 0.15, { 0.35, 0.35, 0.35 } };
    constexpr RenderedPatch middle { "middle", 0.80, 0.05, 0.12, 0.15, { 1.00, 1.00, 1.00 } };
    scene.patches.insert(scene.patches.end(), { dark, light, middle });
    QImage image = render(scene, 7);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x) {
            const auto bend = [](int code) {
                return int(std::lround(255 * linearToSrgb(std::pow(srgbToLinear(code / 255.0), 1.25))));
            };
            const QRgb pixel = image.pixel(x, y);
            image.setPixel(x, y, qRgb(bend(qRed(pixel)), bend(qGreen(pixel)), bend(qBlue(pixel))));
        }
    auto marks = usualMarks(scene);
    marks.regions.insert(marks.regions.end(), { known(dark), known(light), known(middle) });
    const auto measured = must(measure(photoOf(encode(image, "png")), marks));
    EXPECT_NEAR(*measured.regions[2].red.density, 1.35, 0.03);
    EXPECT_NEAR(*measured.regions[2].green.density, 0.95, 0.03);
    EXPECT_NEAR(*measured.regions[3].blue.density, 0.20, 0.03);
}

TEST(Measure, RegionsOutsideThePhotoAreSaid)
{
    auto scene = usualScene();
    auto marks = usualMarks(scene);
    marks.corners.reset();
    marks.regions = { { QStringLiteral("far"), rectangle(5000, 5000, 10, 10), {}, {}, false } };
    const auto measured = must(measure(photoOf(encode(render(scene, 8), "png")), marks));
    EXPECT_EQ(measured.regions[0].pixels, 0);
    EXPECT_FALSE(measured.regions[0].red.density);
    EXPECT_THAT(warningsOf(measured), HasSubstr("far holds no pixel"));
}

TEST(Measure, ABatchKeepsItsOrderAndCanBeStopped)
{
    QTemporaryDir folder;
    const auto scene = usualScene();
    const QString good = folder.filePath(QStringLiteral("good.png"));
    QFile file(good);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    file.write(encode(render(scene, 9), "png"));
    file.close();
    std::vector<Job> jobs(6, { good, usualMarks(scene) });
    jobs[3].path = folder.filePath(QStringLiteral("missing.png"));
    std::atomic<int> told = 0;
    const auto results = measureAll(jobs, { [&](double) { ++told; }, nullptr });
    ASSERT_EQ(results.size(), 6u);
    for (size_t i = 0; i < 6; ++i)
        EXPECT_EQ(results[i].ok(), i != 3) << i;
    EXPECT_EQ(told, 6);

    const std::atomic<bool> cancel = true;
    for (const auto& result : measureAll(jobs, { {}, &cancel })) {
        ASSERT_FALSE(result);
        EXPECT_THAT(result.error().sentence().toStdString(), HasSubstr("Stopped"));
    }
}

// Even patches without noise, strongly packed: the mean of every block is off by the same step, which no averaging
// takes away. The file's own tables say how much; twenty photos of each quality, from none to more noise, both
// references packed as well.
TEST(Measure, StatedIntervalsHoldInStronglyPackedPhotos)
{
    for (const int quality : { 70, 80, 85, 95 }) {
        int covered = 0;
        int asked = 0;
        for (unsigned seed = 0; seed < 20; ++seed) {
            std::mt19937 draw(seed * 31 + unsigned(quality));
            const auto uniform = [&](double low, double high) {
                return low + (high - low) * std::uniform_real_distribution<double>()(draw);
            };
            auto scene = usualScene();
            scene.width = 600;
            scene.height = 460;
            scene.corners = { Point { 60, 50 }, { 550, 45 }, { 540, 410 }, { 55, 415 } };
            scene.noise = seed % 5 * 0.3;
            scene.gradient = 0;
            scene.exposure = uniform(0.7, 0.9);
            scene.patches[2].density = { uniform(0.7, 1.3), uniform(0.6, 1.1), uniform(0.3, 0.8) };
            scene.patches[3].density = { uniform(0.2, 0.7), uniform(0.2, 0.6), uniform(0.1, 0.5) };
            auto marks = usualMarks(scene);
            for (auto& reference : { &marks.regions[0], &marks.regions[1] })
                reference->density_sd = 0.0005; // so that what the packing does is not lost in it
            const auto measured = must(measure(photoOf(encode(render(scene, seed), "jpeg", quality)), marks));
            for (const size_t patch : { 2u, 3u }) {
                const auto& reading = measured.regions[patch];
                const ChannelReading* channels[] { &reading.red, &reading.green, &reading.blue };
                for (size_t k = 0; k < 3; ++k) {
                    ++asked;
                    covered += std::abs(*channels[k]->density - scene.patches[patch].density[k])
                        <= 1.96 * channels[k]->standard_error.value_or(0);
                }
            }
        }
        std::printf("quality %d: %d of %d\n", quality, covered, asked);
        EXPECT_GE(covered, asked * 93 / 100) << "quality " << quality << ": " << covered << " of " << asked;
    }
}

TEST(Photo, SaysHowCoarselyItIsPacked)
{
    auto scene = usualScene();
    const auto image = render(scene, 1);
    const auto fine = photoOf(encode(image, "jpeg", 100)).grain;
    const auto coarse = photoOf(encode(image, "jpeg", 70)).grain;
    const auto png = photoOf(encode(image, "png")).grain;
    for (size_t k = 0; k < 3; ++k) {
        EXPECT_EQ(png[k], 0);
        EXPECT_GT(fine[k], 0.1); // a table's first number is at least 1
        EXPECT_LT(fine[k], 0.3);
        EXPECT_GT(coarse[k], 4 * fine[k]);
    }
}

} // namespace WASHFAST_FILE
