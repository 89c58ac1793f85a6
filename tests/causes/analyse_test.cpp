// The evidence and the three answers, on small tables that can be counted by hand.
#include "core/causes/answer.h"
#include "core/stats/fisher.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::causes;
using testing::HasSubstr;

namespace {

QString s(const char* text)
{
    return QString::fromUtf8(text);
}

/// One letter a print: 1 and 0, other digits, or ? for not known; letters for a choice.
Factor factor(const char* name, const char* values, Factor::Kind kind = Factor::Kind::YesNo)
{
    Factor out;
    out.name = s(name);
    out.kind = kind;
    for (const char* c = values; *c != '\0'; ++c) {
        if (*c == ' ')
            continue;
        if (kind == Factor::Kind::Choice)
            out.texts.push_back(*c == '?' ? QString() : QString(QLatin1Char(*c)));
        else
            out.numbers.push_back(*c == '?' ? std::nullopt : std::optional(static_cast<double>(*c - '0')));
    }
    return out;
}

FactorTable table(const char* failed, std::vector<Factor> factors, const char* blocks = "")
{
    FactorTable out;
    out.outcome = s("failed");
    out.outcome_values = factor("failed", failed).numbers;
    for (std::size_t i = 0; i < out.outcome_values.size(); ++i)
        out.prints.push_back(QStringLiteral("P%1").arg(i + 1));
    out.factors = std::move(factors);
    if (*blocks != '\0')
        out.blocks = factor("block", blocks, Factor::Kind::Choice).texts;
    return out;
}

std::string said(const Answer& answer)
{
    return answer.why.toStdString();
}

std::string warned(const Answer& answer)
{
    return answer.warnings.join(QLatin1Char('\n')).toStdString();
}

} // namespace

TEST(Analyse, CountsDifferenceAndExactPOfAYesNo)
{
    // 5 of 5 against 1 of 5.
    const Answer answer
        = analyse(table("11111 10000", { factor("damp", "11111 00000"), factor("glass", "10101 01010") }));
    EXPECT_EQ(answer.n, 10);
    EXPECT_EQ(answer.n_failed, 6);
    const FactorEvidence& damp = answer.factors[0];
    EXPECT_EQ(damp.p_method, s("fisher"));
    EXPECT_NEAR(*damp.p_exact, washfast::stats::fisher({ 5, 0, 1, 4 }).two_sided, 1e-12);
    EXPECT_NEAR(*damp.p_adjusted, 2.0 * *damp.p_exact, 1e-12);
    EXPECT_NEAR(*damp.difference, 0.80, 1e-12);
    EXPECT_NEAR(*damp.difference_low, 0.193, 5e-4);
    EXPECT_NEAR(*damp.difference_high, 0.964, 5e-4);
    ASSERT_EQ(damp.levels.size(), 2U);
    EXPECT_EQ(damp.levels[1].level, s("yes"));
    EXPECT_EQ(damp.levels[1].failed, 5);
    EXPECT_EQ(damp.levels[0].kept, 4);
    ASSERT_TRUE(damp.firth);
    EXPECT_GT(damp.firth->estimate, 0.0);
}

TEST(Analyse, NumberHasMediansShiftAndPermutation)
{
    // 7 8 9 against 1 2 3: 2 of the 20 splits are as extreme.
    const Answer answer
        = analyse(table("111 000", { factor("hours", "789 123", Factor::Kind::Number), factor("x", "101 010") }));
    const FactorEvidence& hours = answer.factors[0];
    EXPECT_EQ(hours.p_method, s("permutation"));
    EXPECT_TRUE(hours.p_enumerated);
    EXPECT_NEAR(*hours.p_exact, 0.1, 1e-12);
    EXPECT_EQ(hours.median_failed, 8.0);
    EXPECT_EQ(hours.median_kept, 2.0);
    EXPECT_EQ(hours.difference, 6.0);
    EXPECT_FALSE(hours.difference_low);
    EXPECT_EQ(answer.verdict, Verdict::NotEnough);
    EXPECT_TRUE(answer.prints_missing);
    EXPECT_GT(*answer.prints_missing, 0);
}

TEST(Analyse, ChoiceOfThreeUsesFreemanHalton)
{
    const Answer answer
        = analyse(table("11 00 00", { factor("paper", "aa bb cc", Factor::Kind::Choice), factor("x", "10 10 10") }));
    const FactorEvidence& paper = answer.factors[0];
    EXPECT_EQ(paper.p_method, s("freeman_halton"));
    EXPECT_NEAR(*paper.p_exact, 0.2, 1e-12);
    EXPECT_EQ(paper.levels.size(), 3U);
    EXPECT_FALSE(paper.difference);
}

TEST(Analyse, BlocksAreHeldApart)
{
    // Within each day damp prints fail and dry ones keep; between the days nothing differs.
    const Answer answer = analyse(
        table("1100 1100 1100", { factor("damp", "1100 1100 1100"), factor("x", "1010 1001 0110") }, "mmmm tttt wwww"));
    EXPECT_EQ(answer.factors[0].p_method, s("stratified_exact"));
    EXPECT_NEAR(*answer.factors[0].p_exact, 2.0 / (6.0 * 6.0 * 6.0), 1e-12);
}

TEST(Analyse, AFactorThatFollowsTheBlocksSaysNothing)
{
    const Answer answer = analyse(
        table("111111 000000", { factor("cloud", "111111 000000"), factor("x", "101010 101010") }, "mmmmmm tttttt"));
    EXPECT_EQ(*answer.factors[0].p_exact, 1.0);
    EXPECT_EQ(answer.verdict, Verdict::NotEnough);
    EXPECT_THAT(warned(answer), HasSubstr("“cloud” never differed within a block"));
}

TEST(Analyse, CauseIsNamedWithItsNumbers)
{
    const Answer answer = analyse(table("1111111111 0000000000",
        { factor("glass", "1010101010 1010101010"), factor("damp", "1111111111 0000000000"),
            factor("hours", "1324354657 7564534231", Factor::Kind::Number) }));
    EXPECT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_EQ(answer.factors_named, QStringList { s("damp") });
    EXPECT_THAT(said(answer), HasSubstr("“damp”: 10 of 10 failed with yes, 0 of 10 with no"));
    EXPECT_THAT(said(answer), HasSubstr("3 factors looked at"));
    EXPECT_EQ(answer.prints_for.size(), 20);
    EXPECT_TRUE(answer.prints_against.isEmpty());
}

TEST(Analyse, PrintsAgainstAreListed)
{
    const Answer answer = analyse(table("1111111110 0000000001",
        { factor("damp", "1111111111 0000000000"), factor("glass", "1010101010 1010101010") }));
    ASSERT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_EQ(answer.prints_against, (QStringList { s("P10"), s("P20") }));
}

// Nothing else recorded: however strong, it is not named.
TEST(Analyse, ALoneFactorIsNeverACause)
{
    FactorTable lone = table("1111111111 0000000000", { factor("damp", "1111111111 0000000000") });
    EXPECT_EQ(analyse(lone).verdict, Verdict::NotEnough);
    EXPECT_TRUE(analyse(lone).factors_named.isEmpty());
    EXPECT_THAT(said(analyse(lone)), HasSubstr("nothing else that varied was recorded"));
    // A constant and a column of codes do not count as something else.
    lone.factors.push_back(factor("tool", "bbbbbbbbbb bbbbbbbbbb", Factor::Kind::Choice));
    lone.factors.push_back(factor("sheet", "abcdefghij klmnopqrst", Factor::Kind::Choice));
    const Answer answer = analyse(lone);
    EXPECT_EQ(answer.verdict, Verdict::NotEnough);
    EXPECT_EQ(answer.left_out, (QStringList { s("tool"), s("sheet") }));
    EXPECT_THAT(warned(answer), HasSubstr("Left out, the same for every print where it was recorded: “tool”"));
    EXPECT_THAT(warned(answer), HasSubstr("Left out, a different text for every print, which only names it: “sheet”"));
    // Nor does a factor that is known for a few prints only.
    lone.factors.push_back(factor("pH", "7???6????? ?????8????", Factor::Kind::Number));
    EXPECT_EQ(analyse(lone).verdict, Verdict::NotEnough);
}

TEST(Analyse, TwoThatMovedTogetherAreATangle)
{
    const Answer answer = analyse(table("1111111111 0000000000",
        { factor("damp", "1111111111 0000000000"), factor("glass", "1111111111 0000000000"),
            factor("x", "1010101010 1010101010") }));
    EXPECT_EQ(answer.verdict, Verdict::Tangle);
    EXPECT_EQ(answer.factors_named, (QStringList { s("damp"), s("glass") }));
    EXPECT_THAT(said(answer), HasSubstr("changed together in all 20 prints"));
    ASSERT_EQ(answer.factors[0].moves_with.size(), 1U);
    EXPECT_EQ(answer.factors[0].moves_with[0].name, s("glass"));
    EXPECT_NEAR(answer.factors[0].moves_with[0].association, 1.0, 1e-12);
    EXPECT_EQ(answer.factors[0].moves_with[0].prints_that_disagree, 0);
    EXPECT_FALSE(answer.factors[0].vif);
    EXPECT_TRUE(answer.factors[2].vif);
}

TEST(Analyse, OppositesAreATangleToo)
{
    const Answer answer = analyse(table("1111111111 0000000000",
        { factor("damp", "1111111111 0000000000"), factor("shade", "0000000000 1111111111"),
            factor("x", "1010101010 1010101010") }));
    EXPECT_EQ(answer.verdict, Verdict::Tangle);
}

TEST(Analyse, TwoDisagreeingPrintsAreTooFewToTellApart)
{
    const Answer answer = analyse(table("1111111111 0000000000",
        { factor("damp", "1111111111 0000000000"), factor("glass", "1111111110 1000000000"),
            factor("x", "1010101010 1010101010") }));
    EXPECT_EQ(answer.verdict, Verdict::Tangle);
    EXPECT_THAT(said(answer), HasSubstr("disagree in only 2 of 20 prints"));
}

TEST(Analyse, ManyDisagreeingPrintsTellThemApart)
{
    const Answer answer = analyse(table("1111111111 0000000000",
        { factor("damp", "1111111111 0000000000"), factor("glass", "1111111000 1110000000"),
            factor("x", "1010101010 1010101010") }));
    EXPECT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_EQ(answer.factors_named, QStringList { s("damp") });
}

// A day on which everything changed: the days give damp exactly, and there are only two of them.
TEST(Analyse, AChoiceThatGivesTheFactorIsATangle)
{
    const Answer answer = analyse(table("1111111111 0000000000",
        { factor("damp", "1111111111 0000000000"), factor("day", "mmmmmttttt wwwwwhhhhh", Factor::Kind::Choice),
            factor("x", "1010101010 1010101010") }));
    EXPECT_EQ(answer.verdict, Verdict::Tangle);
    EXPECT_THAT(answer.factors_named, testing::Contains(s("day")));
}

// Ten makers, five of whom made damp prints only: the makers are the units, and five against five is enough.
TEST(Analyse, ManyLevelsAreTakenAsUnits)
{
    const Answer answer = analyse(table("1111111111 0000000000",
        { factor("damp", "1111111111 0000000000"), factor("maker", "aabbccddee ffgghhiijj", Factor::Kind::Choice),
            factor("x", "1010101010 1010101010") }));
    EXPECT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_EQ(answer.factors_named, QStringList { s("damp") });
}

// cloud or window gives dim exactly: yes in the first, in the second, or in neither.
TEST(Analyse, AFactorMadeOfTwoOthersIsATangle)
{
    const Answer answer = analyse(table("111111111111 000000000000",
        { factor("dim", "111111111111 000000000000"), factor("cloud", "111111000000 000000000000"),
            factor("window", "000000111111 000000000000"), factor("x", "101010101010 101010101010") }));
    EXPECT_EQ(answer.verdict, Verdict::Tangle);
    EXPECT_THAT(answer.factors_named, testing::UnorderedElementsAre(s("dim"), s("cloud"), s("window")));
    EXPECT_THAT(said(answer), HasSubstr("follows exactly from"));
}

TEST(Analyse, TwoCausesAreBothNamed)
{
    // Fails when damp or when glass; both vary freely.
    const Answer answer = analyse(table("1111111111 1111111111 1111111111 0000000000",
        { factor("damp", "1111111111 1111111111 0000000000 0000000000"),
            factor("glass", "0000000000 1111111111 1111111111 0000000000"),
            factor("x", "1010101010 1010101010 1010101010 1010101010") }));
    EXPECT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_THAT(answer.factors_named, testing::UnorderedElementsAre(s("damp"), s("glass")));
}

TEST(Analyse, ThreeAgainstThreeCannotConclude)
{
    const Answer answer = analyse(table("111 000", { factor("damp", "111 000"), factor("x", "101 010") }));
    EXPECT_EQ(answer.verdict, Verdict::NotEnough);
    EXPECT_NEAR(*answer.factors[0].p_exact, 0.1, 1e-12);
    EXPECT_THAT(said(answer), HasSubstr("more prints would be needed"));
    EXPECT_GT(answer.prints_missing.value_or(0), 0);
}

TEST(Analyse, FewerThanFourOnASideCannotConclude)
{
    const Answer answer = analyse(table("111 000000000000000000000",
        { factor("damp", "111 000000000000000000000"), factor("x", "101 010101010101010101010") }));
    EXPECT_LT(*answer.factors[0].p_adjusted, 0.04);
    EXPECT_EQ(answer.verdict, Verdict::NotEnough);
    EXPECT_THAT(said(answer), HasSubstr("rests on 3 prints on one side"));
    EXPECT_EQ(answer.prints_missing, 1);
}

TEST(Analyse, NothingToCompare)
{
    const std::vector<Factor> factors { factor("damp", "1010"), factor("x", "1100") };
    EXPECT_THAT(said(analyse(table("1111", factors))), HasSubstr("All 4 prints failed"));
    EXPECT_THAT(said(analyse(table("0000", factors))), HasSubstr("All 4 prints kept"));
    EXPECT_THAT(said(analyse(table("????", factors))), HasSubstr("No print has “failed” recorded"));
    EXPECT_THAT(said(analyse(table("1010", { factor("damp", "1111") }))), HasSubstr("No recorded factor varied"));
    EXPECT_EQ(analyse(FactorTable {}).verdict, Verdict::NotEnough);
}

TEST(Analyse, UnknownIsCountedAndNamed)
{
    const Answer answer = analyse(table("1111111111 0000000000 ??",
        { factor("damp", "111????111 0000000000 11"), factor("pH", "?????????? 6767676767 66", Factor::Kind::Number),
            factor("x", "1010101010 1010101010 10") }));
    EXPECT_EQ(answer.n, 20);
    EXPECT_THAT(warned(answer), HasSubstr("2 of 22 prints could not be used: “failed” is not known"));
    EXPECT_EQ(answer.factors[0].n_known, 16);
    ASSERT_EQ(answer.missing.size(), 2U);
    EXPECT_EQ(answer.missing[0].name, s("damp"));
    EXPECT_EQ(answer.missing[0].unknown, 4);
    EXPECT_EQ(answer.missing[1].unknown, 10);
    // pH was recorded for the kept prints only.
    EXPECT_NEAR(*answer.missing[1].p, 2.0 / 184'756.0, 1e-12);
    EXPECT_THAT(warned(answer), HasSubstr("Whether “pH” was recorded goes with the outcome"));
    EXPECT_FALSE(answer.factors[1].p_exact); // nothing to test: no failed print has it
}

TEST(Analyse, NumericOutcome)
{
    FactorTable densities = table("00000000 00000000",
        { factor("damp", "11111111 00000000"), factor("hours", "12345678 12345678", Factor::Kind::Number),
            factor("paper", "aabbccaa bbccaabb", Factor::Kind::Choice) });
    densities.outcome = s("density");
    densities.outcome_is_number = true;
    for (std::size_t i = 0; i < 16; ++i)
        densities.outcome_values[i] = (i < 8 ? 0.5 : 1.2) + 0.01 * static_cast<double>((i * 7) % 16);
    const Answer answer = analyse(densities);
    EXPECT_FALSE(answer.n_failed);
    EXPECT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_EQ(answer.factors_named, QStringList { s("damp") });
    EXPECT_NEAR(*answer.factors[0].difference, -0.7, 0.05);
    EXPECT_NEAR(*answer.factors[0].p_exact, 2.0 / 12'870.0, 1e-12);
    EXPECT_TRUE(answer.factors[1].correlation);
    EXPECT_FALSE(answer.factors[1].difference);
    EXPECT_EQ(answer.factors[2].p_method, s("permutation"));
    EXPECT_TRUE(answer.factors[2].levels[0].median_outcome);
    EXPECT_THAT(said(answer), HasSubstr("the median of “density” is"));
}

// The worked example of two factors, with its penalised estimates.
TEST(Analyse, ModelOfChosenFactors)
{
    const FactorTable two = table("1111 1000", { factor("damp", "1111 0000"), factor("glass", "1010 1010") });
    Options options;
    options.model = { s("damp"), s("glass") };
    const Answer answer = analyse(two, options);
    ASSERT_TRUE(answer.firth_model);
    EXPECT_EQ(answer.firth_model->terms, (QStringList { s("(intercept)"), s("damp"), s("glass") }));
    EXPECT_NEAR(answer.firth_model->values[1].estimate, 3.01086, 1e-5);
    EXPECT_NEAR(answer.firth_model->penalised_log_likelihood, -3.547838, 1e-6);

    options.model = { s("damp"), s("moon") };
    const Answer refused = analyse(two, options);
    EXPECT_FALSE(refused.firth_model);
    EXPECT_THAT(warned(refused), HasSubstr("moon is not among the factors"));
}

TEST(Analyse, ColumnsOfTheWrongLengthDoNoHarm)
{
    FactorTable ragged = table("1100", { factor("damp", "11"), factor("paper", "ab", Factor::Kind::Choice) }, "m");
    ragged.outcome_values.pop_back();
    const Answer answer = analyse(ragged);
    EXPECT_EQ(answer.n, 3);
    EXPECT_EQ(answer.verdict, Verdict::NotEnough);
}

} // namespace WASHFAST_FILE
