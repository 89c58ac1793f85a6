// The verb next: what another program gets from it.
#include "tests/support/scratch_notebook.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

class Next : public testing::Test {
protected:
    int run(const QStringList& words)
    {
        QProcess process;
        process.setWorkingDirectory(folder_.path());
        process.start(QStringLiteral(WASHFAST_PROGRAM), words);
        EXPECT_TRUE(process.waitForFinished(60'000));
        out = process.readAllStandardOutput();
        err = process.readAllStandardError();
        return process.exitCode();
    }
    void put(const QByteArray& bytes) { putBytes(folder_.filePath(text("t.csv")), bytes); }

    QByteArray out, err;

private:
    QTemporaryDir folder_;
};

QByteArray tangled()
{
    QByteArray table = "code,failed,damp,glass,x\n";
    for (int i = 0; i < 20; ++i) {
        const QByteArray bad = i < 10 ? "yes" : "no";
        table += "P" + QByteArray::number(i) + ',' + bad + ',' + bad + ',' + bad + ',' + (i % 2 ? "yes" : "no") + '\n';
    }
    return table;
}

} // namespace

TEST_F(Next, ATangleInATable)
{
    put(tangled());
    ASSERT_EQ(run({ text("next"), text("t.csv"), text("--outcome"), text("failed"), text("--json") }), 0)
        << err.toStdString();
    const auto json = QJsonDocument::fromJson(out).object();
    EXPECT_EQ(json.value(text("purpose")).toString(), text("untangle"));
    EXPECT_EQ(json.value(text("prints_needed_for_power_80")).toInt(), 4);
    EXPECT_GT(json.value(text("information_gain")).toDouble(), 0.0);
    const auto prints = json.value(text("prints")).toArray();
    ASSERT_EQ(prints.size(), 4);
    int differ = 0;
    for (const auto& print : prints) {
        EXPECT_FALSE(print[text("why")].toString().isEmpty());
        const auto settings = print[text("settings")];
        differ += print[text("role")].toString() == text("trial")
            && settings[text("damp")].toBool() != settings[text("glass")].toBool();
    }
    EXPECT_EQ(differ, 2);
}

TEST_F(Next, ReadableTableAndWrongWords)
{
    put(tangled());
    EXPECT_EQ(run({ text("next"), text("t.csv"), text("--outcome"), text("failed") }), 0);
    EXPECT_THAT(out.toStdString(), HasSubstr("Prints needed: 4"));
    EXPECT_THAT(out.toStdString(), HasSubstr("known good"));
    EXPECT_EQ(run({ text("next"), text("t.csv") }), 2);
    EXPECT_EQ(run({ text("next"), text("none.csv"), text("--outcome"), text("failed") }), 1);
    EXPECT_EQ(run({ text("next"), text("t.csv"), text("--outcome"), text("nosuch") }), 1);
    EXPECT_THAT(err.toStdString(), HasSubstr("there is no column \"nosuch\""));
}

// The example notebook's lessons come out as they were planted.
TEST_F(Next, TheExampleComesOutAsPlanted)
{
    ASSERT_EQ(run({ text("demo"), text("n.washfast") }), 0) << err.toStdString();
    const auto asked = [&](const char* outcome, const char* session) {
        EXPECT_EQ(run({ text("causes"), text("n.washfast"), text("--outcome"), text(outcome), text("--where"),
                      text("session_code = ") + text(session), text("--json") }),
            0)
            << err.toStdString();
        return QJsonDocument::fromJson(out).object();
    };
    const auto damp = asked("is_ran_off", "S4");
    EXPECT_EQ(damp.value(text("answer")).toString(), text("cause"));
    EXPECT_EQ(damp.value(text("factors_named")).toArray(), QJsonArray { text("moisture_at_rinse_pct") });
    EXPECT_EQ(damp.value(text("tones"))[text("missing_at")].toString(), text("in_rinse"));
    const auto light = asked("is_pale", "S5");
    EXPECT_EQ(light.value(text("factors_named")).toArray(), QJsonArray { text("dose_j_cm2") });
    EXPECT_EQ(light.value(text("tones"))[text("missing_at")].toString(), text("before_rinse"));
    const auto tangle = asked("failed", "S6");
    EXPECT_EQ(tangle.value(text("answer")).toString(), text("tangle"));
    const auto named = tangle.value(text("factors_named")).toArray();
    EXPECT_TRUE(named.contains(text("expose_minutes")));
    EXPECT_TRUE(named.contains(text("moisture_at_rinse_pct")));
    EXPECT_EQ(tangle.value(text("tones"))[text("missing_at")].toString(), text("unknown"));
    const auto good = asked("failed", "S3");
    EXPECT_EQ(good.value(text("answer")).toString(), text("not_enough"));

    ASSERT_EQ(run({ text("next"), text("n.washfast"), text("--outcome"), text("failed"), text("--where"),
                  text("session_code = S6"), text("--json") }),
        0);
    const auto plan = QJsonDocument::fromJson(out).object();
    EXPECT_EQ(plan.value(text("purpose")).toString(), text("untangle"));
    EXPECT_EQ(plan.value(text("prints_needed_for_power_80")).toInt(), 4);
}

} // namespace WASHFAST_FILE
