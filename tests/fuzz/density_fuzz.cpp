// Feeds damaged marks and pictures to the density room. Nothing may crash, hang or read outside its memory; build it
// with the sanitizers. Each round takes a good file and damages it.
//
//     washfast_fuzz_density [ROUNDS [SEED]]      says what it did, ends with 0
#include "core/density/measure.h"

#include "tests/fuzz/damaged.h"

#include <QBuffer>
#include <QCoreApplication>
#include <chrono>
#include <cstdio>
#include <random>

using namespace washfast;
using namespace washfast::density;
using test::damaged;

namespace {

QByteArray picture(const char* format)
{
    QImage image(48, 36, QImage::Format_RGB32);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            image.setPixel(x, y, qRgb(230 - 4 * x, 220 - 3 * x, 210 - 4 * x + y % 3));
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    image.save(&buffer, format);
    return bytes;
}

const QByteArray goodMarks = R"({"corners":[[1,1],[40,2],[39,30],[2,31]],"flat":"none","codes":"auto","regions":[
{"name":"white","rect":[0.1,0.1,0.2,0.2],"density":0.05},
{"name":"grey","quad":[[0.4,0.1],[0.6,0.1],[0.6,0.3],[0.4,0.3]],"density":{"red":0.7,"green":0.7,"blue":0.69}},
{"name":"paper","rect":[0,0.8,1,0.2],"paper":true},{"name":"deep","rect":[0.3,0.4,0.4,0.3]}]})";

/// One input: marks when it begins with a brace, a picture otherwise. True when it was taken.
bool feed(const QByteArray& bytes, const Photo& photo, const Marks& marks)
{
    if (bytes.startsWith('{')) {
        const auto read = readMarks(bytes);
        if (read)
            static_cast<void>(measure(photo, *read));
        return read.ok();
    }
    PhotoLimits small;
    small.pixels = 4'000'000;
    small.decoded_megabytes = 64;
    const auto read = readPhoto(bytes, QStringLiteral("fuzzed"), {}, small);
    if (read)
        static_cast<void>(measure(*read, marks));
    return read.ok();
}

} // namespace

int main(int argc, char** argv)
{
    const QCoreApplication application(argc, argv);
    qInstallMessageHandler([](QtMsgType, const QMessageLogContext&, const QString&) {}); // decoders complain a lot
    const int rounds = argc > 1 ? std::atoi(argv[1]) : 20'000;
    std::mt19937 draw(argc > 2 ? static_cast<unsigned>(std::atoi(argv[2])) : 1);
    const QByteArray plane = QByteArray(goodMarks).replace("none", "plane");
    const std::vector<QByteArray> seeds { goodMarks, plane, picture("jpeg"), picture("png"), picture("tiff"),
        picture("webp") };
    const auto photo = readPhoto(picture("png"), QStringLiteral("good"));
    const auto marks = readMarks(goodMarks);
    if (!photo || !marks)
        return 1;
    int taken = 0;
    double slowest = 0;
    for (int round = 0; round < rounds; ++round) {
        const auto input = damaged(seeds[draw() % seeds.size()], draw);
        const auto begin = std::chrono::steady_clock::now();
        taken += feed(input, *photo, *marks);
        slowest = std::max(slowest, std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count());
    }
    std::printf("%d inputs, %d taken, the slowest took %.2f s\n", rounds, taken, slowest);
    return slowest < 20 ? 0 : 1;
}
