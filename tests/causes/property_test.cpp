// What must not change the answer, and what must.
#include "tests/causes/made_up_terms.h"

#include <gtest/gtest.h>
#include <numeric>

namespace WASHFAST_FILE {

using namespace washfast::causes;
using namespace washfast::causes::made_up;

namespace {

FactorTable planted(std::uint64_t seed, int prints = 24, double unknown = 0.0)
{
    Draw draw(seed);
    FactorTable table = term(draw, prints, 0.3, unknown);
    halve(table, 5);
    plant(table, draw, 5, 0.97, 0.03);
    return table;
}

template <typename T> std::vector<T> inOrder(const std::vector<T>& values, const std::vector<std::size_t>& order)
{
    std::vector<T> out;
    if (!values.empty())
        for (const std::size_t i : order)
            out.push_back(values[i]);
    return out;
}

FactorTable reordered(FactorTable table, std::uint64_t seed)
{
    std::vector<std::size_t> order(table.prints.size());
    std::iota(order.begin(), order.end(), std::size_t { 0 });
    Draw(seed).shuffleFront(std::span(order), order.size());
    table.prints = inOrder(table.prints, order);
    table.outcome_values = inOrder(table.outcome_values, order);
    table.blocks = inOrder(table.blocks, order);
    for (Factor& factor : table.factors) {
        factor.numbers = inOrder(factor.numbers, order);
        factor.texts = inOrder(factor.texts, order);
    }
    return table;
}

void expectSameEvidence(const Answer& a, const Answer& b)
{
    EXPECT_EQ(a.verdict, b.verdict);
    ASSERT_EQ(a.factors.size(), b.factors.size());
    for (std::size_t i = 0; i < a.factors.size(); ++i) {
        SCOPED_TRACE(a.factors[i].name.toStdString());
        ASSERT_EQ(a.factors[i].p_exact.has_value(), b.factors[i].p_exact.has_value());
        if (a.factors[i].p_exact) {
            EXPECT_NEAR(*a.factors[i].p_exact, *b.factors[i].p_exact, 1e-12);
            EXPECT_NEAR(*a.factors[i].p_adjusted, *b.factors[i].p_adjusted, 1e-12);
        }
        EXPECT_EQ(a.factors[i].n_known, b.factors[i].n_known);
    }
}

} // namespace

TEST(Property, OrderOfPrintsDoesNotMatter)
{
    for (std::uint64_t seed = 1; seed <= 8; ++seed) {
        FactorTable table = planted(seed, 24, seed % 2 == 0 ? 0.2 : 0.0);
        if (seed % 3 == 0)
            for (std::size_t i = 0; i < table.prints.size(); ++i)
                table.blocks.push_back(QStringLiteral("b%1").arg(i % 3));
        const Answer before = quickly(table);
        const Answer after = quickly(reordered(table, seed + 100));
        expectSameEvidence(before, after);
        EXPECT_EQ(before.factors_named, after.factors_named);
        EXPECT_EQ(before.why, after.why);
    }
}

TEST(Property, NamesDoNotMatter)
{
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        FactorTable table = planted(seed);
        const Answer before = quickly(table);
        for (Factor& factor : table.factors)
            factor.name = QStringLiteral("z ") + factor.name.mid(1) + QStringLiteral(" renamed");
        const Answer after = quickly(table);
        expectSameEvidence(before, after);
        ASSERT_EQ(before.factors_named.size(), after.factors_named.size());
        for (qsizetype i = 0; i < before.factors_named.size(); ++i)
            EXPECT_EQ(after.factors_named[i],
                QStringLiteral("z ") + before.factors_named[i].mid(1) + QStringLiteral(" renamed"));
    }
}

TEST(Property, UnitsDoNotMatter)
{
    FactorTable table = planted(3);
    const Answer before = quickly(table);
    for (auto& value : table.factors[0].numbers)
        value = *value * 25.4 + 1'000.0;
    const Answer after = quickly(table);
    EXPECT_EQ(before.verdict, after.verdict);
    EXPECT_NEAR(*before.factors[0].p_exact, *after.factors[0].p_exact, 1e-12);
    EXPECT_NEAR(*after.factors[0].difference, *before.factors[0].difference * 25.4, 1e-9);
}

TEST(Property, AConstantIsLeftOutAndChangesNothing)
{
    FactorTable table = planted(4);
    const Answer before = quickly(table);
    Factor constant;
    constant.name = QStringLiteral("tool");
    constant.kind = Factor::Kind::Choice;
    constant.texts.assign(table.prints.size(), QStringLiteral("brush"));
    table.factors.insert(table.factors.begin(), constant);
    const Answer after = quickly(table);
    expectSameEvidence(before, after);
    EXPECT_EQ(after.left_out, QStringList { QStringLiteral("tool") });
    EXPECT_TRUE(after.warnings.join(QLatin1Char(' ')).contains(QStringLiteral("tool")));
}

TEST(Property, OneBlockIsNoBlock)
{
    FactorTable table = planted(6);
    const Answer before = quickly(table);
    table.blocks.assign(table.prints.size(), QStringLiteral("only"));
    expectSameEvidence(before, quickly(table));
}

// Whatever its kind, a second copy of the cause makes it a tangle of the two.
TEST(Property, ADuplicateMakesATangle)
{
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        FactorTable table = planted(seed);
        ASSERT_EQ(quickly(table).verdict, Verdict::Cause) << seed;
        Factor copy = table.factors[5];
        copy.name = QStringLiteral("copy");
        if (seed % 3 == 1) {
            copy.kind = Factor::Kind::Choice;
            for (const auto& value : copy.numbers)
                copy.texts.push_back(*value > 0.0 ? QStringLiteral("wet") : QStringLiteral("dry"));
            copy.numbers.clear();
        } else if (seed % 3 == 2) {
            copy.kind = Factor::Kind::Number;
            for (std::size_t i = 0; i < copy.numbers.size(); ++i)
                copy.numbers[i] = *copy.numbers[i] * 10.0 + 0.3 * static_cast<double>(i % 7);
        }
        table.factors.push_back(copy);
        const Answer answer = quickly(table);
        EXPECT_EQ(answer.verdict, Verdict::Tangle) << seed;
        EXPECT_TRUE(answer.factors_named.contains(QStringLiteral("copy"))) << seed;
        EXPECT_TRUE(answer.factors_named.contains(name(5))) << seed;
    }
}

TEST(Property, ADuplicatedNumberMakesATangle)
{
    Draw draw(12);
    FactorTable table = term(draw, 30, 0.2);
    for (std::size_t i = 0; i < 30; ++i)
        table.outcome_values[i] = *table.factors[2].numbers[i] > 0.0 ? 1.0 : 0.0;
    ASSERT_EQ(quickly(table).verdict, Verdict::Cause);
    Factor copy = table.factors[2];
    copy.name = QStringLiteral("copy");
    for (auto& value : copy.numbers)
        value = std::exp(*value); // another scale, the same order
    table.factors.push_back(copy);
    const Answer answer = quickly(table);
    EXPECT_EQ(answer.verdict, Verdict::Tangle);
    EXPECT_TRUE(answer.factors_named.contains(QStringLiteral("copy")));
}

TEST(Property, TheSameTableGivesTheSameAnswer)
{
    const FactorTable table = planted(9);
    EXPECT_EQ(quickly(table).why, quickly(table).why);
    expectSameEvidence(quickly(table), quickly(table));
}

TEST(Property, UnitsOfEveryNumberAndTheSetOfLabelsDoNotMatter)
{
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        FactorTable table = planted(seed);
        const Answer before = quickly(table);
        for (std::size_t f = 0; f < 5; ++f)
            for (auto& value : table.factors[f].numbers)
                value = *value * 7.0 + 300.0;
        for (Factor& factor : table.factors) {
            factor.label = QStringLiteral("Label of ") + factor.name;
            factor.unit = QStringLiteral("m");
        }
        const Answer after = quickly(table);
        EXPECT_EQ(before.verdict, after.verdict);
        EXPECT_EQ(before.factors_named, after.factors_named);
        for (std::size_t f = 0; f < table.factors.size(); ++f)
            EXPECT_NEAR(*before.factors[f].p_exact, *after.factors[f].p_exact, 2e-3) << seed << ' ' << f;
        EXPECT_TRUE(after.why.contains(QStringLiteral("“Label of f5”")));
    }
}

TEST(Property, OrderOfFactorsDoesNotMatter)
{
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        FactorTable table = planted(seed, 24, 0.1);
        const Answer before = quickly(table);
        std::reverse(table.factors.begin(), table.factors.end());
        const Answer after = quickly(table);
        EXPECT_EQ(before.verdict, after.verdict) << seed;
        EXPECT_EQ(before.factors_named, after.factors_named) << seed;
        for (std::size_t f = 0; f < table.factors.size(); ++f)
            EXPECT_NEAR(*before.factors[f].p_exact, *after.factors[table.factors.size() - 1 - f].p_exact, 1e-12);
    }
}

// Batches of one print each are sheets.
TEST(Property, BatchesOfOneChangeNothing)
{
    FactorTable table = planted(5);
    const Answer before = quickly(table);
    table.batches.push_back({ QStringLiteral("tray"), QStringLiteral("tray"), table.prints });
    const Answer after = quickly(table);
    expectSameEvidence(before, after);
    EXPECT_EQ(before.why, after.why);
    EXPECT_TRUE(after.unit_says.isEmpty());
}

} // namespace WASHFAST_FILE
