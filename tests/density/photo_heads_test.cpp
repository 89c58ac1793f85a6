// Picture files that are cut off anywhere, or whose segments lie about their length: they are refused or read, and no
// byte beyond the end is looked at. The bytes end where a page ends that is followed by one which may not be read, so
// that a look beyond ends the process.
#include "core/density/photo.h"
#include "core/density/photo_file.h"
#include "tests/support/child_process.h"

#include <QBuffer>
#include <QImage>
#include <gmock/gmock.h>
#include <random>
#include <sys/mman.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::density;
using namespace washfast::test;

namespace {

/// Memory whose last byte is the last that may be read.
class Edge {
public:
    explicit Edge(size_t most)
        : size_((most + page - 1) / page * page)
        , start_(static_cast<char*>(
              mmap(nullptr, size_ + page, PROT_READ | PROT_WRITE, MAP_PRIVATE | MAP_ANONYMOUS, -1, 0)))
    {
        if (start_ == MAP_FAILED || mprotect(start_ + size_, page, PROT_NONE) != 0)
            throw std::runtime_error("no memory with an edge");
    }
    ~Edge() { munmap(start_, size_ + page); }
    Edge(const Edge&) = delete;
    Edge& operator=(const Edge&) = delete;

    /// The same bytes, just before the edge; until the next call.
    [[nodiscard]] QByteArray place(const QByteArray& bytes)
    {
        char* const to = start_ + size_ - bytes.size();
        std::copy(bytes.begin(), bytes.end(), to);
        return QByteArray::fromRawData(to, bytes.size());
    }

private:
    static constexpr size_t page = 4096;
    size_t size_;
    char* start_;
};

QByteArray picture(const char* format)
{
    QImage image(24, 16, QImage::Format_RGB32);
    for (int y = 0; y < image.height(); ++y)
        for (int x = 0; x < image.width(); ++x)
            image.setPixel(x, y, qRgb(10 * x, 15 * y, (x * y) % 256));
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    EXPECT_TRUE(image.save(&buffer, format, 90)) << format;
    return bytes;
}

/// How many of them are read; what is refused has a sentence.
std::string readAll(const std::vector<QByteArray>& files)
{
    return inChild([&]() -> std::string {
        qsizetype most = 1;
        for (const auto& file : files)
            most = std::max(most, file.size());
        Edge edge(size_t(most) + 1);
        int read = 0, mute = 0;
        for (const auto& file : files) {
            const auto at_edge = edge.place(file);
            (void)lookAtPhoto(at_edge);
            const auto photo = readPhoto(at_edge, QStringLiteral("p"));
            read += photo.ok();
            mute += !photo.ok() && photo.error().says.isEmpty();
        }
        return std::to_string(read) + " read, " + std::to_string(mute) + " mute";
    });
}

std::vector<QByteArray> cutOff(const QByteArray& whole)
{
    std::vector<QByteArray> files;
    for (qsizetype size = 0; size < whole.size(); ++size)
        files.push_back(whole.left(size));
    return files;
}

} // namespace

TEST(PhotoHeads, AFrameOfAJpegThatEndsBeforeItsSize)
{
    const QByteArray frame = QByteArray::fromHex("ffd8ffc000110800100018030122000211010311ff");
    std::vector<QByteArray> files = cutOff(frame);
    files.push_back(QByteArray::fromHex("ffd8ffc00011")); // 6 bytes
    for (const char* marker : { "c0", "c1", "c2", "db", "ee", "da", "e1" })
        for (const char* rest : { "", "00", "0002", "0011", "0011ff", "ffff", "ffff41646f6265" })
            files.push_back(QByteArray::fromHex(QByteArray("ffd8ff") + marker + rest));
    EXPECT_EQ(readAll(files), "0 read, 0 mute");
}

TEST(PhotoHeads, CutOffAnywhere)
{
    for (const char* format : { "jpeg", "png", "tiff", "webp" }) {
        const auto whole = picture(format);
        EXPECT_EQ(readAll({ whole }), "1 read, 0 mute") << format;
        EXPECT_THAT(readAll(cutOff(whole)), testing::EndsWith("read, 0 mute")) << format;
    }
    EXPECT_EQ(readAll(cutOff(picture("jpeg"))), "0 read, 0 mute");
    EXPECT_EQ(readAll(cutOff(picture("png"))), "0 read, 0 mute");
    EXPECT_EQ(readAll(cutOff(picture("webp"))), "0 read, 0 mute");
}

TEST(PhotoHeads, ChangedAndCutOff)
{
    std::mt19937 random(11);
    for (const char* format : { "jpeg", "png", "webp" }) {
        const auto whole = picture(format);
        std::vector<QByteArray> files;
        for (int n = 0; n < 400; ++n) {
            QByteArray file = whole.left(qsizetype(1 + random() % size_t(whole.size())));
            for (int k = 0; k < 3; ++k)
                file[qsizetype(random() % std::min<size_t>(size_t(file.size()), 200))] = char(random());
            files.push_back(file);
        }
        EXPECT_THAT(readAll(files), testing::EndsWith("read, 0 mute")) << format;
    }
}

} // namespace WASHFAST_FILE
