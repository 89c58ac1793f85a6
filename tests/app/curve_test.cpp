// washfast curve, as another program sees it.
#include <QFile>
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <QTemporaryDir>
#include <cmath>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using testing::HasSubstr;

namespace {

class CurveVerb : public testing::Test {
protected:
    void put(const char* name, const QByteArray& bytes)
    {
        QFile file(folder_.filePath(QLatin1String(name)));
        ASSERT_TRUE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    }

    /// d_min 0.06, d_max 1.36, midpoint 0, slope 4.6052: the worked curve of tests/reference/curve_test.cpp.
    static QByteArray wedge(const char* heading, bool linear, const char* separator = ",", bool comma = false)
    {
        QByteArray table = QByteArray(heading) + '\n';
        for (int i = 0; i <= 20; ++i) {
            const double x = -1.5 + 0.15 * i, d = 0.06 + 1.30 / (1 + std::exp(-4.605170 * x));
            QByteArray line
                = QByteArray::number(linear ? std::pow(10, x) : x, 'f', 8) + separator + QByteArray::number(d, 'f', 8);
            if (comma)
                line.replace('.', ',');
            table += line + '\n';
        }
        return table;
    }

    int run(const char* words)
    {
        QProcess process;
        process.setWorkingDirectory(folder_.path());
        process.start(QStringLiteral(WASHFAST_PROGRAM), QString::fromLatin1(words).split(QLatin1Char(' ')));
        EXPECT_TRUE(process.waitForFinished(60'000));
        out_ = process.readAllStandardOutput();
        err_ = process.readAllStandardError().toStdString();
        return process.exitCode();
    }
    [[nodiscard]] QJsonObject json() const { return QJsonDocument::fromJson(out_).object(); }
    [[nodiscard]] double number(const char* key) const { return json()[QLatin1String(key)].toDouble(std::nan("")); }

    QTemporaryDir folder_;
    QByteArray out_;
    std::string err_;
};

} // namespace

TEST_F(CurveVerb, GivesTheWorkedCurve)
{
    put("wedge.csv", wedge("log_h,density", false));
    ASSERT_EQ(run("curve wedge.csv --json --target 0.66 --target 0.9"), 0) << err_;
    EXPECT_EQ(json()[QLatin1String("model")].toString(), QStringLiteral("logistic"));
    EXPECT_TRUE(json()[QLatin1String("fallback")].isNull());
    EXPECT_EQ(number("n"), 21);
    EXPECT_NEAR(number("d_min"), 0.06, 1e-6);
    EXPECT_NEAR(number("d_max"), 1.36, 1e-6);
    EXPECT_NEAR(number("midpoint_log_h"), 0, 1e-6);
    EXPECT_NEAR(number("slope_per_log_h"), 4.60517, 1e-4);
    EXPECT_NEAR(number("max_gradient"), 1.4967, 1e-4);
    EXPECT_NEAR(number("toe_log_h"), -0.7492, 1e-4);
    EXPECT_NEAR(number("shoulder_log_h"), 0.4771, 1e-4);
    EXPECT_NEAR(number("range_log_h"), 1.2263, 1e-4);
    const auto targets = json()[QLatin1String("targets")].toArray();
    ASSERT_EQ(targets.size(), 2);
    EXPECT_NEAR(targets[0].toObject()[QLatin1String("log_h")].toDouble(), -0.0335, 1e-4);
    EXPECT_TRUE(json()[QLatin1String("standard_errors")].toObject().contains(QLatin1String("slope_per_log_h")));
}

TEST_F(CurveVerb, ReadsExposuresAndDecimalCommas)
{
    put("h.csv", wedge("h,density", true));
    ASSERT_EQ(run("curve h.csv --json"), 0) << err_;
    EXPECT_NEAR(number("midpoint_log_h"), 0, 1e-5);
    put("comma.csv", wedge("log_h;density", false, ";", true));
    ASSERT_EQ(run("curve comma.csv --json"), 0) << err_;
    EXPECT_NEAR(number("d_max"), 1.36, 1e-6);
}

TEST_F(CurveVerb, FixesParametersAndFallsBack)
{
    put("wedge.csv", wedge("log_h,density", false));
    ASSERT_EQ(run("curve wedge.csv --json --fix d_min=0 --fix slope=4"), 0) << err_;
    EXPECT_EQ(number("d_min"), 0);
    EXPECT_EQ(number("slope_per_log_h"), 4);
    put("few.csv", "log_h,density\n-1,0.1\n0,0.7\n1,1.3\n");
    ASSERT_EQ(run("curve few.csv --json --target 2"), 0) << err_;
    EXPECT_EQ(json()[QLatin1String("fallback")].toString(), QStringLiteral("monotone"));
    EXPECT_FALSE(json()[QLatin1String("warnings")].toArray().isEmpty());
    EXPECT_TRUE(json()[QLatin1String("targets")].toArray()[0].toObject()[QLatin1String("log_h")].isNull());
    EXPECT_TRUE(json()[QLatin1String("slope_per_log_h")].isNull());
}

TEST_F(CurveVerb, SaysWhatIsWrong)
{
    put("wedge.csv", wedge("log_h,density", false));
    EXPECT_EQ(run("curve wedge.csv --fix colour=3"), 2);
    EXPECT_THAT(err_, HasSubstr("colour=3"));
    EXPECT_EQ(run("curve wedge.csv --target much"), 2);
    EXPECT_EQ(run("curve missing.csv"), 1);
    put("other.csv", "a,b\n1,2\n");
    EXPECT_EQ(run("curve other.csv"), 1);
    EXPECT_THAT(err_, HasSubstr("log_h"));
    put("bad.csv", "log_h,density\n0,0.5\n1,dark\n");
    EXPECT_EQ(run("curve bad.csv"), 1);
    EXPECT_THAT(err_, HasSubstr("line 3"));
    put("zero.csv", "h,density\n0,0.5\n1,0.6\n");
    EXPECT_EQ(run("curve zero.csv"), 1);
    EXPECT_THAT(err_, HasSubstr("above 0"));
}

} // namespace WASHFAST_FILE
