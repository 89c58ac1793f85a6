// The density room beside its baselines: a bare decode of the same photo, and a batch on one thread; the fit of a wedge
// beside a time. Run as README.md says.
#include "core/density/characteristic.h"
#include "core/density/measure.h"
#include "tests/bench/ratio_table.h"

#include <QBuffer>
#include <QCoreApplication>
#include <QFile>
#include <QImageReader>
#include <QTemporaryDir>
#include <QThread>
#include <QThreadPool>
#include <cmath>
#include <random>

using namespace washfast;
using namespace washfast::density;

namespace {

/// 12 megapixels with the grain of a camera.
QByteArray largePhoto(int width, int height)
{
    std::mt19937 draw(1);
    QImage image(width, height, QImage::Format_RGB32);
    for (int y = 0; y < height; ++y)
        for (int x = 0; x < width; ++x) {
            const int grain = int(draw() % 9);
            image.setPixel(
                x, y, qRgb(40 + x * 150 / width + grain, 60 + x * 120 / width + grain, 70 + y * 120 / height + grain));
        }
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, "jpeg", 92);
    return bytes;
}

/// Two references and 24 regions that cover most of the photo.
Marks manyRegions(int width, int height)
{
    Marks marks;
    marks.regions.push_back({ QStringLiteral("white"), rectangle(width * 0.9, height * 0.9, 200, 200),
        ChannelDensities { 0.05, 0.05, 0.05 }, {}, false });
    marks.regions.push_back(
        { QStringLiteral("grey"), rectangle(10, 10, 200, 200), ChannelDensities { 0.7, 0.7, 0.7 }, {}, false });
    for (int i = 0; i < 24; ++i)
        marks.regions.push_back({ QString::number(i),
            rectangle(width * (i % 6) / 6.0, height * (i / 6) / 4.0, width / 6.5, height / 4.5), {}, {}, false });
    return marks;
}

CurveRequest wedge()
{
    std::mt19937 draw(2);
    std::normal_distribution<double> normal;
    CurveRequest request;
    for (int i = 0; i < 21; ++i) {
        const double x = -1.5 + 0.15 * i;
        request.points.push_back({ x, 0.06 + 1.3 / (1 + std::exp(-4.6 * x)) + 0.02 * normal(draw), 1 });
    }
    request.targets = { 0.9 };
    return request;
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    constexpr int width = 4000, height = 3000;
    QTemporaryDir folder;
    const QString large = folder.filePath(QStringLiteral("large.jpg")),
                  small = folder.filePath(QStringLiteral("small.jpg"));
    for (const auto& [path, w, h] : { std::tuple(large, width, height), std::tuple(small, 1600, 1200) }) {
        QFile file(path);
        if (!file.open(QIODevice::WriteOnly))
            return 1;
        file.write(largePhoto(w, h));
    }
    const auto marks = manyRegions(width, height);
    const std::vector<Job> batch(24, { small, manyRegions(1600, 1200) });
    if (const auto photo = openPhoto(large); !photo || !measure(*photo, marks)) {
        std::fprintf(
            stderr, "%s\n", qPrintable(!photo ? photo.error().sentence() : measure(*photo, marks).error().sentence()));
        return 1;
    }

    benchmark::RegisterBenchmark("photo_here",
        [&](benchmark::State& state) {
            bench::measureWork(state, [&] { benchmark::DoNotOptimize(measure(*openPhoto(large), marks)); });
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
    benchmark::RegisterBenchmark("photo_decode",
        [&](benchmark::State& state) {
            bench::measureWork(state, [&] { benchmark::DoNotOptimize(QImageReader(large).read()); });
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
    benchmark::RegisterBenchmark("batch_here",
        [&](benchmark::State& state) {
            bench::measureWork(state, [&] { benchmark::DoNotOptimize(measureAll(batch)); });
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
    benchmark::RegisterBenchmark("batch_one_thread",
        [&](benchmark::State& state) {
            // Regions of one photo are measured side by side as well; here nothing is.
            auto& pool = *QThreadPool::globalInstance();
            const int threads = pool.maxThreadCount();
            pool.setMaxThreadCount(1);
            bench::measureWork(state, [&] {
                for (const auto& job : batch)
                    benchmark::DoNotOptimize(measure(*openPhoto(job.path), job.marks));
            });
            pool.setMaxThreadCount(threads);
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();
    benchmark::RegisterBenchmark("wedge_fit",
        [&](benchmark::State& state) {
            const auto request = wedge();
            bench::measureWork(state, [&] { benchmark::DoNotOptimize(fitCurve(request)); });
        })
        ->Unit(benchmark::kMillisecond)
        ->UseRealTime();

    return bench::runAndCompare({ argv, argv + argc },
        { { "a 12-megapixel JPEG from file to 26 regions", "photo_here", "photo_decode", 1.5 },
            { "a batch of 24 photos, beside one thread", "batch_here", "batch_one_thread", 0.7 },
            { "a wedge of 21 steps with all intervals", "wedge_fit", "", 5 } },
        5);
}
