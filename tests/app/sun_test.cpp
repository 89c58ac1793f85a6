// The verb `sun`: the keys and units that scripts rely on, and what it says of wrong words.
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTemporaryDir>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace testing;

namespace {

struct Ran {
    int status = -1;
    QByteArray out, err;
    [[nodiscard]] QJsonObject json() const { return QJsonDocument::fromJson(out).object(); }
};

Ran run(const QString& words)
{
    QProcess program;
    program.start(QStringLiteral(WASHFAST_PROGRAM), words.split(QLatin1Char(' '), Qt::SkipEmptyParts));
    EXPECT_TRUE(program.waitForFinished(60'000));
    return { program.exitCode(), program.readAllStandardOutput(), program.readAllStandardError() };
}

const QString noon = QStringLiteral("sun --lat 52 --lon 10 --elevation 80 --at 2026-06-20T13:00:00+02:00 --json");

} // namespace

TEST(Sun, GivesEveryKey)
{
    const auto now
        = run(noon + QStringLiteral(" --until 2026-06-20T13:12:00+02:00 --cloud 2 --disc yes --cover glass:4mm"));
    ASSERT_EQ(now.status, 0) << now.err.toStdString();
    const auto object = now.json();
    for (const char* key : { "zenith_deg", "apparent_elevation_deg", "azimuth_deg", "air_mass", "uva_direct_w_m2",
             "uva_diffuse_w_m2", "uva_w_m2", "uvi", "cloud_factor", "cloud_factor_low", "cloud_factor_high",
             "cover_transmittance", "uva_at_paper_w_m2", "dose_j_cm2", "dose_low_j_cm2", "dose_high_j_cm2" })
        EXPECT_TRUE(object[QLatin1String(key)].isDouble()) << key;
    for (const char* key : { "at", "sunrise", "solar_noon", "sunset" })
        EXPECT_TRUE(object[QLatin1String(key)].toString().endsWith(QLatin1String("+02:00"))) << key;
    EXPECT_TRUE(object[QStringLiteral("warnings")].isArray());
    const auto number = [&](const char* key) { return object[QLatin1String(key)].toDouble(); };
    EXPECT_NEAR(number("uva_direct_w_m2") + number("uva_diffuse_w_m2"), number("uva_w_m2"), 1e-9);
    EXPECT_LT(number("dose_low_j_cm2"), number("dose_j_cm2"));
    EXPECT_GT(number("dose_high_j_cm2"), number("dose_j_cm2"));
    // W/m2 over twelve minutes: 720 s, 10,000 cm2 in a square metre; the sun hardly moves near noon.
    EXPECT_NEAR(number("dose_j_cm2"), number("uva_at_paper_w_m2") * 720 / 1e4, 0.03);
    EXPECT_LT(number("uva_at_paper_w_m2"), number("uva_w_m2") * 0.75);
}

TEST(Sun, ANightAndAPolarDay)
{
    const auto night = run(QStringLiteral("sun --lat 52 --lon 10 --at 2026-12-21T02:00:00+01:00 --json")).json();
    EXPECT_EQ(night[QStringLiteral("uva_w_m2")].toDouble(-1), 0);
    EXPECT_EQ(night[QStringLiteral("uvi")].toDouble(-1), 0);
    const auto polar = run(QStringLiteral("sun --lat 70 --lon 25 --at 2026-06-20T12:00:00 --zone Europe/Oslo --json"));
    ASSERT_EQ(polar.status, 0) << polar.err.toStdString();
    EXPECT_TRUE(polar.json()[QStringLiteral("sunset")].isNull());
    EXPECT_TRUE(polar.json()[QStringLiteral("sunrise")].isNull());
    EXPECT_GT(polar.json()[QStringLiteral("uva_w_m2")].toDouble(), 10);
}

TEST(Sun, ASpectrumFileIsRead)
{
    QTemporaryDir folder;
    const auto path = folder.filePath(QStringLiteral("half.csv"));
    {
        QFile file(path);
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write("wavelength_nm,transmittance\n300,0.5\n350,0.5\n400,0.5\n500,0.5\n");
    }
    const auto plain = run(noon).json();
    const auto half = run(noon + QStringLiteral(" --cover file:") + path);
    ASSERT_EQ(half.status, 0) << half.err.toStdString();
    EXPECT_LT(half.json()[QStringLiteral("cover_transmittance")].toDouble(), 0.51);
    EXPECT_GT(half.json()[QStringLiteral("cover_transmittance")].toDouble(), 0.35);
    const auto out = folder.filePath(QStringLiteral("sky.csv"));
    ASSERT_EQ(run(noon + QStringLiteral(" --spectrum ") + out).status, 0);
    QFile file(out);
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    const auto lines = file.readAll().split('\n');
    EXPECT_EQ(lines.front().trimmed(), "wavelength_nm,direct_normal_w_m2_nm,diffuse_w_m2_nm,global_w_m2_nm");
    EXPECT_GT(lines.size(), 20);
    EXPECT_GT(plain[QStringLiteral("uva_w_m2")].toDouble(), 30);
}

TEST(Sun, CountsAlsoAsACoatAbsorbs)
{
    const auto until = noon + QStringLiteral(" --until 2026-06-20T13:12:00+02:00");
    const auto plain = run(until).json();
    EXPECT_FALSE(plain.contains(QStringLiteral("weighted_dose_j_cm2")));
    const auto ran = run(until + QStringLiteral(" --weighting coat:1,40 --cover low-iron-glass:4mm"));
    ASSERT_EQ(ran.status, 0) << ran.err.toStdString();
    const auto object = ran.json();
    const auto number = [&](const char* key) { return object[QLatin1String(key)].toDouble(); };
    EXPECT_GT(number("weighted_dose_j_cm2"), 1.4 * number("dose_j_cm2"));
    EXPECT_LT(number("weighted_dose_low_j_cm2"), number("weighted_dose_j_cm2"));
    EXPECT_GT(number("weighted_dose_high_j_cm2"), number("weighted_dose_j_cm2"));
    EXPECT_GT(number("weighted_cover_transmittance"), number("cover_transmittance")) << "blue passes better";
    EXPECT_EQ(run(until + QStringLiteral(" --weighting coat:1")).status, 2);
    EXPECT_EQ(run(until + QStringLiteral(" --weighting lux")).status, 2);
}

TEST(Sun, WrongWordsAreToldApart)
{
    for (const char* words : { "sun", "sun --lat 52", "sun --lat 95 --lon 10 --at 2026-06-20T12:00:00Z",
             "sun --lat 52 --lon 10 --at yesterday", "sun --lat 52 --lon 10 --at 2026-06-20T12:00:00",
             "sun --lat 52 --lon 10 --at 2026-06-20T12:00:00 --zone Atlantis/West",
             "sun --lat 52 --lon 10 --at 2026-06-20T12:00:00Z --cover brick:4mm",
             "sun --lat 52 --lon 10 --at 2026-06-20T12:00:00Z --cloud 9",
             "sun --lat 52 --lon 10 --at 2026-06-20T12:00:00Z --until 2026-06-20T11:00:00Z" }) {
        const auto ran = run(QString::fromLatin1(words));
        EXPECT_EQ(ran.status, 2) << words << ": " << ran.err.toStdString();
        EXPECT_FALSE(ran.err.isEmpty()) << words;
        EXPECT_TRUE(ran.out.isEmpty()) << words;
    }
    const auto missing = run(noon + QStringLiteral(" --cover file:/nowhere/at/all.csv"));
    EXPECT_NE(missing.status, 0);
    EXPECT_THAT(missing.err.toStdString(), HasSubstr("all.csv"));
}

} // namespace WASHFAST_FILE
