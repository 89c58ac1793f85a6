// washfast density, as another program sees it.
#include "tests/support/rendered_photo.h"

#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QProcess>
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
constexpr RenderedPatch deep { "deep", 0.45, 0.35, 0.20, 0.30, { 1.10, 0.85, 0.45 } };

class DensityVerb : public testing::Test {
protected:
    void SetUp() override
    {
        Scene scene;
        scene.patches = { white, grey, deep };
        scene.flare = 0.01;
        scene.noise = 1;
        put("photo.jpg", encode(render(scene, 1), "jpeg", 95));
        Marks marks;
        marks.corners = scene.corners;
        for (const auto& patch : scene.patches)
            marks.regions.push_back(inner(patch));
        marks.regions[0].density = white.density;
        marks.regions[1].density = grey.density;
        put("marks.json", writeMarks(marks));
    }

    void put(const char* name, const QByteArray& bytes)
    {
        QFile file(folder_.filePath(QLatin1String(name)));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    }

    int run(const QStringList& words)
    {
        QProcess process;
        process.setWorkingDirectory(folder_.path());
        process.start(QStringLiteral(WASHFAST_PROGRAM), words);
        EXPECT_TRUE(process.waitForFinished(60'000));
        EXPECT_EQ(process.exitStatus(), QProcess::NormalExit);
        out_ = process.readAllStandardOutput();
        err_ = process.readAllStandardError().toStdString();
        return process.exitCode();
    }
    int run(const char* words) { return run(QString::fromLatin1(words).split(QLatin1Char(' '))); }

    QTemporaryDir folder_;
    QByteArray out_;
    std::string err_;
};

} // namespace

TEST_F(DensityVerb, PrintsOneObjectWithTheDocumentedKeys)
{
    ASSERT_EQ(run("density photo.jpg --marks marks.json --json"), 0) << err_;
    const auto object = QJsonDocument::fromJson(out_).object();
    EXPECT_EQ(object[QLatin1String("photo")].toString(), QStringLiteral("photo.jpg"));
    EXPECT_EQ(object[QLatin1String("width")].toInt(), 900);
    EXPECT_EQ(object[QLatin1String("height")].toInt(), 700);
    EXPECT_TRUE(object[QLatin1String("taken_at")].isNull());
    EXPECT_TRUE(object[QLatin1String("warnings")].isArray());
    const auto references = object[QLatin1String("references")].toArray();
    ASSERT_EQ(references.size(), 2);
    EXPECT_NEAR(references[1].toObject()[QLatin1String("fitted_density")].toDouble(), 0.70, 1e-6);
    EXPECT_NEAR(references[1].toObject()[QLatin1String("residual")].toDouble(), 0, 1e-6);
    const auto regions = object[QLatin1String("regions")].toArray();
    ASSERT_EQ(regions.size(), 3);
    const auto region = regions[2].toObject();
    EXPECT_EQ(region[QLatin1String("name")].toString(), QStringLiteral("deep"));
    EXPECT_GT(region[QLatin1String("pixels")].toInt(), 1000);
    EXPECT_EQ(region[QLatin1String("lab")].toArray().size(), 3);
    constexpr std::pair<const char*, double> channels[] { { "red", 1.10 }, { "green", 0.85 }, { "blue", 0.45 } };
    for (const auto& [name, density] : channels) {
        const auto channel = region[QLatin1String(name)].toObject();
        EXPECT_NEAR(channel[QLatin1String("density")].toDouble(), density, 0.02) << name;
        EXPECT_GT(channel[QLatin1String("sd")].toDouble(), 0) << name;
        EXPECT_GT(channel[QLatin1String("standard_error")].toDouble(), 0) << name;
        EXPECT_FALSE(channel[QLatin1String("at_least")].toBool(true)) << name;
    }
    EXPECT_TRUE(region.contains(QLatin1String("visual")));
    EXPECT_TRUE(region.contains(QLatin1String("clipped_share")));
}

TEST_F(DensityVerb, TheTableNamesTheChannel)
{
    ASSERT_EQ(run("density photo.jpg --marks marks.json"), 0);
    EXPECT_THAT(out_.toStdString(), HasSubstr("scan red density"));
    EXPECT_THAT(out_.toStdString(), HasSubstr("deep"));
}

TEST_F(DensityVerb, SaysWhatIsWrong)
{
    EXPECT_EQ(run("density photo.jpg"), 2);
    EXPECT_THAT(err_, HasSubstr("--marks"));
    EXPECT_EQ(run("density missing.jpg --marks marks.json"), 1);
    EXPECT_THAT(err_, HasSubstr("missing.jpg"));
    put("bad.json", R"({"regions":[{"name":"a","rect":[0,0,1]}]})");
    EXPECT_EQ(run("density photo.jpg --marks bad.json"), 1);
    EXPECT_THAT(err_, HasSubstr("bad.json, regions[0].rect"));
    QFile photo(folder_.filePath(QStringLiteral("photo.jpg")));
    ASSERT_TRUE(photo.open(QIODevice::ReadOnly));
    put("half.jpg", photo.readAll().left(photo.size() / 2));
    EXPECT_EQ(run("density half.jpg --marks marks.json --json"), 1);
    EXPECT_THAT(err_, HasSubstr("cut off"));
    EXPECT_TRUE(out_.isEmpty());
}

} // namespace WASHFAST_FILE
