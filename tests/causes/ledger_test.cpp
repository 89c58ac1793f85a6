// Where the blue went: the lines add up whatever is missing, name what they came from, and fall where they should.
// Invented prints.
#include "core/causes/ledger.h"
#include "core/causes/shapley.h"
#include "tests/support/small_notebook.h"

#include <gmock/gmock.h>
#include <numeric>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::causes;
using testing::HasSubstr;
using washfast::test::Cells;
using washfast::test::SmallNotebook;

namespace {

/// A catalogue in which a tenth of the passes stands in for a model of light, and a tenth of the degrees for the mix.
Catalogue catalogueWithLight()
{
    Catalogue catalogue = standardCatalogue();
    const auto field = [](const char* key) { return numberField(Entity::Print, key, key, "log10", ""); };
    catalogue.derive(field("light_loss_cloud_log10"),
        { { QStringLiteral("coat_passes") }, {}, {}, [](Derivation::Inputs in, const ChildRows&) -> Known {
             return in[0].has() ? knownNumber(-0.1 * *in[0].number(), Evidence::Estimated) : Known {};
         } });
    catalogue.derive(numberField(Entity::Print, "iron_to_hexacyanoferrate", "Iron : hexacyanoferrate", "mol/mol", ""),
        { { QStringLiteral("coat_temperature_c") }, {}, {}, [](Derivation::Inputs in, const ChildRows&) -> Known {
             return in[0].has() ? knownNumber(*in[0].number() / 10, Evidence::Measured) : Known {};
         } });
    return catalogue;
}

class LedgerTest : public testing::Test {
protected:
    LedgerTest()
        : book(catalogueWithLight())
        , mix(book.add(Entity::Mix, { { "mix_code", "M1" } }))
        , paper(book.add(Entity::Paper, { { "paper_name", "A" }, { "paper_base_density", 0.10 } }))
    {
    }

    /// Densities are above the paper's 0.10; below 0: not read.
    qint64 print(const char* code, double formed, double net, const char* outcome, double wet = -1.0)
    {
        const qint64 id
            = book.print(code, { { "print_mix", mix }, { "print_paper", paper }, { "print_outcome", outcome } });
        if (formed >= 0.0)
            book.reading(id, "before_rinse", "deepest", formed + 0.10);
        if (wet >= 0.0)
            book.reading(id, "wet", "deepest", wet + 0.10);
        if (net >= 0.0)
            book.reading(id, "day_after", "deepest", net + 0.10);
        return id;
    }
    void threeGood()
    {
        print("G1", 1.25, 1.20, "kept");
        print("G2", 1.20, 1.15, "kept");
        print("G3", 1.30, 1.25, "kept");
    }
    Ledger of(qint64 id, const LedgerOptions& options = {})
    {
        const auto ledger = whereTheBlueWent(PrintReader(book.notebook()), book.row(id), options);
        if (!ledger)
            throw std::runtime_error(ledger.error().sentence().toStdString());
        double sum = 0.0;
        for (const LedgerLine& line : ledger->lines) {
            sum += line.density;
            EXPECT_FALSE(line.fields.isEmpty());
            for (const QString& key : line.fields)
                EXPECT_NE(book.catalogue().findPrintField(key), nullptr) << key.toStdString();
        }
        EXPECT_NEAR(sum, ledger->end - ledger->start, 1e-12) << "the lines add up";
        return *ledger;
    }
    static double line(const Ledger& ledger, LedgerStep step)
    {
        for (const LedgerLine& one : ledger.lines)
            if (one.step == step)
                return one.density;
        return 0.0;
    }
    static const LedgerLine& at(const Ledger& ledger, LedgerStep step)
    {
        for (const LedgerLine& one : ledger.lines)
            if (one.step == step)
                return one;
        throw std::runtime_error("no line " + ledgerStepKey(step).toStdString());
    }

    SmallNotebook book;
    qint64 mix, paper;
};

} // namespace

// Two players who are worth 1 and 2 alone and 6 together share what they make together equally: 2.5 and 3.5.
TEST(Shapley, TwoPlayersByHand)
{
    const double worth[] = { 0.0, 1.0, 2.0, 6.0 };
    const auto shares = shapleyShares(2, [&](std::uint32_t set) { return worth[set]; });
    EXPECT_NEAR(shares[0], 2.5, 1e-12);
    EXPECT_NEAR(shares[1], 3.5, 1e-12);
}

// The glove game: one left glove, two right ones, a pair is worth 1. The left one's owner gets 2/3 (Shapley's own
// weights: left is pivotal unless it comes first).
TEST(Shapley, GloveGame)
{
    const auto shares = shapleyShares(3, [](std::uint32_t set) { return (set & 1U) != 0 && set > 1U ? 1.0 : 0.0; });
    EXPECT_NEAR(shares[0], 2.0 / 3.0, 1e-12);
    EXPECT_NEAR(shares[1], 1.0 / 6.0, 1e-12);
    EXPECT_NEAR(shares[2], 1.0 / 6.0, 1e-12);
}

TEST_F(LedgerTest, StartsFromTheGoodPrintsOfTheSameMixAndPaper)
{
    threeGood();
    const Ledger ledger = of(print("X", 1.25, 0.30, "ran_off"));
    EXPECT_NEAR(ledger.start, 1.20, 1e-12);
    EXPECT_EQ(ledger.start_evidence, Evidence::Measured);
    EXPECT_EQ(ledger.good_prints.size(), 3);
    EXPECT_NEAR(ledger.end, 0.30, 1e-12);
}

TEST_F(LedgerTest, ARinsedOutPrintLostItInTheRinse)
{
    threeGood();
    const Ledger ledger = of(print("X", 1.25, 0.30, "ran_off"));
    EXPECT_LT(line(ledger, LedgerStep::Rinse), -0.85);
    EXPECT_NEAR(line(ledger, LedgerStep::Formation), 0.0, 0.01);
    EXPECT_EQ(at(ledger, LedgerStep::Rinse).evidence, Evidence::Measured);
    EXPECT_THAT(at(ledger, LedgerStep::Rinse).note.toStdString(), HasSubstr("gain on drying"));
    EXPECT_TRUE(ledger.cannot_say.isEmpty());
}

TEST_F(LedgerTest, APalePrintDidNotFormIt)
{
    threeGood();
    const Ledger ledger = of(print("X", 0.40, 0.384, "pale"));
    EXPECT_NEAR(line(ledger, LedgerStep::Rinse), 0.0, 0.01);
    EXPECT_LT(line(ledger, LedgerStep::Formation), -0.75);
}

TEST_F(LedgerTest, LightTakesItsPartAndLeavesTheRest)
{
    threeGood();
    for (const qint64 id : { 1, 2, 3 })
        book.set(Ref(Entity::Print, id), "coat_passes", 1);
    const qint64 id = print("X", 0.40, 0.384, "pale");
    book.set(Ref(Entity::Print, id), "coat_passes", 6); // half a log10 unit less light than the good ones
    const Ledger ledger = of(id);
    EXPECT_LT(line(ledger, LedgerStep::Cloud), -0.3);
    EXPECT_EQ(at(ledger, LedgerStep::Cloud).evidence, Evidence::Assumed) << "the curve is assumed";
    LedgerOptions known;
    known.curve_is_known = true;
    EXPECT_EQ(at(of(id, known), LedgerStep::Cloud).evidence, Evidence::Estimated) << "the part itself is estimated";
    // Alone it would leave what the logistic says: odds 9 times 10^(-0.5 x 4.7 / ln 10).
    const double odds = 9.0 * std::exp(-0.5 * 4.7);
    const double left = 1.20 * odds / (1.0 + odds) / 0.9;
    const double rest = line(ledger, LedgerStep::Formation);
    EXPECT_NEAR(line(ledger, LedgerStep::Cloud) + rest + line(ledger, LedgerStep::Rinse), 0.384 - 1.20, 1e-12);
    EXPECT_LT(std::abs(rest), std::abs(1.20 - left)) << "less is left unexplained than the light explains";
}

TEST_F(LedgerTest, WithoutTheToneBeforeTheRinseOneSplitIsGone)
{
    threeGood();
    const Ledger ledger = of(print("X", -1.0, 0.30, "pale"));
    EXPECT_NEAR(line(ledger, LedgerStep::FormationOrRinse), 0.30 - 1.20, 1e-12);
    EXPECT_EQ(ledger.lines.size(), 1U);
    ASSERT_EQ(ledger.cannot_say.size(), 1);
    EXPECT_THAT(ledger.cannot_say[0].toStdString(), HasSubstr("what did not form cannot be told"));
}

TEST_F(LedgerTest, WithoutTheToneADayAfterItEndsBeforeTheRinse)
{
    threeGood();
    const Ledger ledger = of(print("X", 0.40, -1.0, "pale"));
    EXPECT_NEAR(ledger.start, 1.25, 1e-12);
    EXPECT_EQ(ledger.end_field, QStringLiteral("formed"));
    EXPECT_EQ(line(ledger, LedgerStep::Rinse), 0.0);
    EXPECT_THAT(ledger.cannot_say[0].toStdString(), HasSubstr("what the rinse took cannot be said"));
}

TEST_F(LedgerTest, TheWetToneTellsTheGainOnDrying)
{
    print("G1", 1.25, 1.20, "kept", 1.20);
    const Ledger ledger = of(print("X", 1.25, 0.60, "ran_off", 0.50));
    EXPECT_GT(line(ledger, LedgerStep::Drying), 0.1);
    EXPECT_LT(line(ledger, LedgerStep::Rinse), -0.7);
}

TEST_F(LedgerTest, WithoutGoodPrintsTheStartIsAssumed)
{
    const Ledger ledger = of(print("X", 0.40, 0.30, "pale"));
    EXPECT_EQ(ledger.start_evidence, Evidence::Assumed);
    EXPECT_EQ(ledger.start, LedgerOptions {}.assumed_density);
    for (const LedgerLine& one : ledger.lines)
        EXPECT_EQ(one.evidence, Evidence::Assumed) << one.label.toStdString();
}

TEST_F(LedgerTest, AnotherMixOnTheSamePaperIsAnEstimate)
{
    threeGood();
    mix = book.add(Entity::Mix, { { "mix_code", "M2" } });
    const Ledger ledger = of(print("X", 0.40, 0.30, "pale"));
    EXPECT_EQ(ledger.start_evidence, Evidence::Estimated);
    EXPECT_EQ(ledger.good_prints.size(), 3);
    EXPECT_THAT(ledger.start_says.toStdString(), HasSubstr("other mixes"));
}

TEST_F(LedgerTest, NoToneAtAllIsAnError)
{
    threeGood();
    const qint64 id = print("X", -1.0, -1.0, "pale");
    const auto ledger = whereTheBlueWent(PrintReader(book.notebook()), book.row(id));
    ASSERT_FALSE(ledger);
    EXPECT_THAT(ledger.error().sentence().toStdString(), HasSubstr("X: no tone of this print was read"));
}

TEST_F(LedgerTest, APrintBetterThanTheGoodOnesGains)
{
    threeGood();
    const Ledger ledger = of(print("X", 1.40, 1.40, "kept"));
    EXPECT_GT(ledger.end, ledger.start);
}

TEST_F(LedgerTest, HardlyAnyToneBeforeTheRinse)
{
    threeGood();
    const Ledger ledger = of(print("X", 0.02, 0.01, "pale"));
    EXPECT_EQ(ledger.lines.size(), 1U);
    EXPECT_THAT(ledger.cannot_say[0].toStdString(), HasSubstr("Hardly any tone"));
}

TEST_F(LedgerTest, AnOlderMixTakesItsShareAndIsCalledAssumed)
{
    const auto hours = [&](qint64 id, double h) {
        book.set(Ref(Entity::Print, id), "coat_start", Instant { 1'780'000'000'000 + qint64(h * 3'600'000), 0 });
    };
    book.set(Ref(Entity::Mix, mix), "mix_made", Instant { 1'780'000'000'000, 0 });
    threeGood();
    for (const char* code : { "G1", "G2", "G3" })
        hours(*book.notebook().byName(Entity::Print, QString::fromLatin1(code)), 1);
    const qint64 old = print("X", 0.80, 0.77, "pale");
    hours(old, 25);
    LedgerOptions options;
    options.speed_halves_in_h = 24;
    const Ledger ledger = of(old, options);
    // A day older than the good ones: half the speed, -0.301 of log10 dose, on the curve that the options give.
    EXPECT_LT(line(ledger, LedgerStep::MixAge), -0.02);
    EXPECT_EQ(at(ledger, LedgerStep::MixAge).evidence, Evidence::Assumed);
    EXPECT_EQ(at(ledger, LedgerStep::MixAge).fields, QStringList { QStringLiteral("mix_age_h") });
    options.speed_halves_in_h = 240;
    EXPECT_GT(line(of(old, options), LedgerStep::MixAge), line(ledger, LedgerStep::MixAge))
        << "it keeps longer: less is lost";
    hours(old, 1.2);
    EXPECT_EQ(line(of(old, options), LedgerStep::MixAge), 0.0) << "as old as the good ones";
}

TEST_F(LedgerTest, ARatioOffThePublishedTakesTheShareThatItFallsShort)
{
    threeGood();
    for (const char* code : { "G1", "G2", "G3" })
        book.set(Ref(Entity::Print, *book.notebook().byName(Entity::Print, QString::fromLatin1(code))),
            "coat_temperature_c", 22.5);
    const qint64 off = print("X", 0.625, 0.60, "pale");
    book.set(Ref(Entity::Print, off), "coat_temperature_c",
        45.0); // 4.5, twice the published 2.25: half of the iron finds a partner
    const Ledger ledger = of(off);
    EXPECT_LT(line(ledger, LedgerStep::MixRatio), -0.4);
    EXPECT_EQ(at(ledger, LedgerStep::MixRatio).evidence, Evidence::Assumed);
    EXPECT_NEAR(line(ledger, LedgerStep::Formation), 0.0, 0.005) << "half of what the good prints formed";
    book.set(Ref(Entity::Print, off), "coat_temperature_c", 22.5);
    EXPECT_EQ(line(of(off), LedgerStep::MixRatio), 0.0);
}

} // namespace WASHFAST_FILE
