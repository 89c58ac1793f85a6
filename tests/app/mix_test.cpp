// washfast mix, as another program sees it.
#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <QProcess>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using testing::HasSubstr;

namespace {

struct Ran {
    int status = -1;
    std::string out, err;

    [[nodiscard]] QJsonObject json() const { return QJsonDocument::fromJson(QByteArray::fromStdString(out)).object(); }
};

Ran run(const std::vector<const char*>& words)
{
    QStringList list { QStringLiteral("mix") };
    for (const char* word : words)
        list << QString::fromUtf8(word);
    QProcess process;
    process.start(QStringLiteral(WASHFAST_PROGRAM), list);
    if (!process.waitForFinished(60'000))
        throw std::runtime_error("the program did not come back");
    return { process.exitCode(), process.readAllStandardOutput().toStdString(),
        process.readAllStandardError().toStdString() };
}

double number(const QJsonObject& object, const char* key)
{
    EXPECT_TRUE(object.value(QLatin1String(key)).isDouble()) << key;
    return object.value(QLatin1String(key)).toDouble();
}

} // namespace

// By hand: 0.60 / 270.29 = 2.220 mmol, 0.66 / 210.14 = 3.141 mmol, 0.27 / 329.25 = 0.820 mmol.
TEST(Mix, AuditsWhatWasWeighed)
{
    const auto ran = run({ "--weighed", "FeCl3.6H2O=0.60", "--weighed", "C6H8O7.H2O=0.66", "--weighed",
        "K3[Fe(CN)6]=0.27", "--water", "20", "--json" });
    ASSERT_EQ(ran.status, 0) << ran.err;
    const auto json = ran.json();
    for (const char* key : { "volume_ml", "components", "iron_mol_l", "iron_to_hexacyanoferrate", "citrate_to_iron",
             "ammonium_carbonate_g", "co2_mmol", "co2_l_20c", "closed_bottle_kpa", "coat_volume_ml", "iron_mmol_m2",
             "hexacyanoferrate_mmol_m2", "cautions", "warnings" })
        EXPECT_TRUE(json.contains(QLatin1String(key))) << key;
    EXPECT_EQ(number(json, "volume_ml"), 20);
    EXPECT_NEAR(number(json, "iron_mol_l"), 0.1110, 0.0001);
    EXPECT_NEAR(number(json, "iron_to_hexacyanoferrate"), 2.707, 0.001);
    EXPECT_NEAR(number(json, "citrate_to_iron"), 1.415, 0.001);
    EXPECT_TRUE(json.value(QLatin1String("coat_volume_ml")).isNull());
    const auto first = json.value(QLatin1String("components")).toArray().at(0).toObject();
    EXPECT_EQ(first.value(QLatin1String("substance")).toString(), QStringLiteral("FeCl3.6H2O"));
    EXPECT_NEAR(number(first, "molar_mass_g_mol"), 270.29, 0.01);
    EXPECT_NEAR(number(first, "amount_mmol"), 2.220, 0.001);
}

// 30 x 0.148 x 0.210 m2 x 20 mL/m2 = 18.648 mL on the sheets, 20.513 mL with 10 % to spare.
TEST(Mix, GivesAmountsToWeigh)
{
    const auto ran = run({ "--formula", "traditional", "--sheets", "30", "--size", "148x210", "--coat", "20", "--spare",
        "10", "--json" });
    ASSERT_EQ(ran.status, 0) << ran.err;
    EXPECT_NEAR(number(ran.json(), "coat_volume_ml"), 18.648, 1e-6);
    EXPECT_NEAR(number(ran.json(), "volume_ml"), 20.5128, 1e-6);
    EXPECT_NEAR(number(ran.json(), "iron_mmol_m2"), 0.3358 * 20, 0.05);
    EXPECT_EQ(run({ "--formula", "oxalate", "--sheets", "2", "--size", "100x100" }).status, 0);
}

TEST(Mix, PrintsAMolarMass)
{
    EXPECT_EQ(run({ "--molar-mass", "K3[Fe(CN)6]" }).out.substr(0, 6), "329.24");
    const auto wrong = run({ "--molar-mass", "K3[Fe(CN6]" });
    EXPECT_EQ(wrong.status, 2);
    EXPECT_THAT(wrong.err, HasSubstr("Character 10"));
}

TEST(Mix, WrongWordsAreTwo)
{
    const std::pair<std::vector<const char*>, const char*> wrong[] = { { {}, "--formula NAME" },
        { { "--weighed", "FeCl3=1" }, "--water is missing" }, { { "--weighed", "FeCl3", "--water", "9" }, "grams" },
        { { "--weighed", "FeCl3=-1", "--water", "9" }, "grams" },
        { { "--weighed", "Xx=1", "--water", "9" }, "no element" },
        { { "--weighed", "FeCl3=1", "--water", "much" }, "--water needs a number" },
        { { "--formula", "gold", "--sheets", "1", "--size", "9x9" }, "There is no formula" },
        { { "--formula", "oxalate", "--size", "9x9" }, "--sheets" },
        { { "--formula", "oxalate", "--sheets", "1.5", "--size", "9x9" }, "whole number" },
        { { "--formula", "oxalate", "--sheets", "1", "--size", "9" }, "--size needs" } };
    for (const auto& [words, says] : wrong) {
        const auto ran = run(words);
        EXPECT_EQ(ran.status, 2) << says;
        EXPECT_EQ(ran.out, "") << says;
        EXPECT_THAT(ran.err, HasSubstr(says));
    }
}

} // namespace WASHFAST_FILE
