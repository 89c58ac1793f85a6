// Reading a table: kinds, what is not known, and clear refusals.
#include "core/causes/factor_table.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::causes;

namespace {

QString s(const char* text)
{
    return QString::fromUtf8(text);
}

QStringList cells(const char* line)
{
    return s(line).split(QLatin1Char(';'));
}

Result<FactorTable> read(const char* headings, const std::vector<const char*>& lines, TableChoices choices)
{
    std::vector<QStringList> rows;
    for (const char* line : lines)
        rows.push_back(cells(line));
    return readFactorTable(cells(headings), rows, choices);
}

TableChoices outcome(const char* name)
{
    TableChoices choices;
    choices.outcome = s(name);
    return choices;
}

std::string refusal(const Result<FactorTable>& result)
{
    return result.ok() ? std::string("accepted") : result.error().sentence().toStdString();
}

} // namespace

TEST(ReadFactorTable, DecidesTheKinds)
{
    const auto table = read("code;failed;damp;minutes;paper;glass",
        { "A1;yes;1;10.5;smooth;TRUE", "A2;No;0;12;rough;false", "A3;YES;;;;True", "A4;no;1;9;smooth;FALSE" },
        outcome("failed"));
    ASSERT_TRUE(table.ok()) << refusal(table);
    EXPECT_EQ(table->prints, (std::vector<QString> { s("A1"), s("A2"), s("A3"), s("A4") }));
    EXPECT_FALSE(table->outcome_is_number);
    EXPECT_THAT(table->outcome_values, testing::ElementsAre(1.0, 0.0, 1.0, 0.0));
    ASSERT_EQ(table->factors.size(), 4U);
    EXPECT_EQ(table->factors[0].kind, Factor::Kind::YesNo);
    EXPECT_THAT(table->factors[0].numbers, testing::ElementsAre(1.0, 0.0, std::nullopt, 1.0));
    EXPECT_EQ(table->factors[1].kind, Factor::Kind::Number);
    EXPECT_THAT(table->factors[1].numbers, testing::ElementsAre(10.5, 12.0, std::nullopt, 9.0));
    EXPECT_EQ(table->factors[2].kind, Factor::Kind::Choice);
    EXPECT_TRUE(table->factors[2].texts[2].isNull());
    EXPECT_EQ(table->factors[3].kind, Factor::Kind::YesNo);
    EXPECT_THAT(table->factors[3].numbers, testing::ElementsAre(1.0, 0.0, 1.0, 0.0));
}

TEST(ReadFactorTable, TakesTheChosenColumnsInTheirOrder)
{
    TableChoices choices = outcome("density");
    choices.factors = { s("b"), s("a") };
    choices.block = s("day");
    const auto table = read("a;b;c;day;density", { "1;2;3;mon;0.9", "2;1;3;tue;1.2", "4;4;4;;" }, choices);
    ASSERT_TRUE(table.ok()) << refusal(table);
    EXPECT_TRUE(table->outcome_is_number);
    EXPECT_EQ(table->factors[0].name, s("b"));
    EXPECT_EQ(table->factors[1].name, s("a"));
    EXPECT_EQ(table->factors.size(), 2U);
    EXPECT_TRUE(table->blocks[2].isNull());
    EXPECT_FALSE(table->outcome_values[2]);
    EXPECT_EQ(table->prints[0], s("line 2"));
}

TEST(ReadFactorTable, ShortRowsAndWordsForUnknownAreNotKnown)
{
    const auto table = read("failed;x", { "1;3", "0", "1;NA", "0; ? ", "1;n/a", "0;2.5" }, outcome("failed"));
    ASSERT_TRUE(table.ok()) << refusal(table);
    EXPECT_EQ(table->factors[0].kind, Factor::Kind::Number);
    EXPECT_THAT(table->factors[0].numbers,
        testing::ElementsAre(3.0, std::nullopt, std::nullopt, std::nullopt, std::nullopt, 2.5));
}

TEST(ReadFactorTable, AWordAmongNumbersIsNamedAndNotKnown)
{
    const auto table = read("failed;x", { "1;3", "0;4", "1;about 5", "0;6.5" }, outcome("failed"));
    ASSERT_TRUE(table.ok()) << refusal(table);
    EXPECT_EQ(table->factors[0].kind, Factor::Kind::Number);
    EXPECT_FALSE(table->factors[0].numbers[2]);
    EXPECT_THAT(table->warnings.join(QLatin1Char(' ')).toStdString(), testing::HasSubstr("\"about 5\" (line 4)"));
}

TEST(ReadFactorTable, MostlyWordsIsAChoice)
{
    const auto table = read("failed;x", { "1;300", "0;hot press", "1;rough", "0;300" }, outcome("failed"));
    ASSERT_TRUE(table.ok()) << refusal(table);
    EXPECT_EQ(table->factors[0].kind, Factor::Kind::Choice);
}

TEST(ReadFactorTable, InfinityIsNotANumber)
{
    const auto table
        = read("failed;x", { "1;3", "0;4", "1;inf", "0;6.5", "0;nan", "1;7", "1;8", "0;9" }, outcome("failed"));
    ASSERT_TRUE(table.ok()) << refusal(table);
    EXPECT_FALSE(table->factors[0].numbers[2]);
    EXPECT_FALSE(table->factors[0].numbers[4]);
}

TEST(ReadFactorTable, RefusesWithTheReasonAndThePlace)
{
    using testing::HasSubstr;
    EXPECT_THAT(refusal(read("failed;x", { "1;2" }, outcome("fail"))), HasSubstr("no column \"fail\""));
    EXPECT_THAT(refusal(read("failed;x", { "1;2" }, outcome("fail"))), HasSubstr("failed, x"));
    EXPECT_THAT(refusal(read("failed;x;x", { "1;2;3" }, outcome("failed"))), HasSubstr("two columns are called \"x\""));
    EXPECT_THAT(refusal(read("failed;x", { "1;2", "0;1;7" }, outcome("failed"))), HasSubstr("line 3"));
    EXPECT_THAT(refusal(read("failed;x", { "1;2", "maybe;1" }, outcome("failed"))),
        testing::AllOf(HasSubstr("column failed, line 3"), HasSubstr("maybe")));
    EXPECT_THAT(refusal(read("d;x", { "1.1;2", "1.2;1", "pale;3" }, outcome("d"))),
        testing::AllOf(HasSubstr("line 4"), HasSubstr("not a number")));
    EXPECT_THAT(refusal(read("failed;x", { "1;2,500", "0;1,250" }, outcome("failed"))),
        testing::AllOf(HasSubstr("read in two ways"), HasSubstr("column x, line 2")));
    EXPECT_THAT(refusal(read("failed;x", { ";2", ";1" }, outcome("failed"))), HasSubstr("not recorded"));
    EXPECT_THAT(refusal(read("failed", { "1", "0" }, outcome("failed"))), HasSubstr("no column left"));
    TableChoices choices = outcome("failed");
    choices.factors = { s("y") };
    EXPECT_THAT(refusal(read("failed;x", { "1;2" }, choices)), HasSubstr("\"y\" for a factor"));
    choices.factors = { s("failed") };
    EXPECT_THAT(refusal(read("failed;x", { "1;2" }, choices)), HasSubstr("as well as the outcome"));
    choices.factors.clear();
    choices.block = s("day");
    EXPECT_THAT(refusal(read("failed;x", { "1;2" }, choices)), HasSubstr("\"day\" for the block"));
}

// One road for numbers: whatever a table to import may have, this one may have too.
TEST(ReadFactorTable, NumbersAsPeopleWriteThem)
{
    const auto table = read("d;minutes;wait;depth [mm]",
        { "1,10;2,5;5 min;1.5", "1,25;3;90 s;0.2 cm", "~0,9;4,5;1 h;2", "1,3?;1.250,75;;3 h", "0,7;2;3;4" },
        outcome("d"));
    ASSERT_TRUE(table.ok()) << refusal(table);
    EXPECT_TRUE(table->outcome_is_number);
    EXPECT_THAT(table->outcome_values, testing::ElementsAre(1.1, 1.25, 0.9, 1.3, 0.7));
    EXPECT_THAT(table->factors[0].numbers, testing::ElementsAre(2.5, 3.0, 4.5, 1250.75, 2.0));
    EXPECT_THAT(table->factors[1].numbers, testing::ElementsAre(5.0, 1.5, 60.0, std::nullopt, 3.0));
    EXPECT_EQ(table->factors[1].unit, s("min"));
    EXPECT_THAT(table->factors[2].numbers, testing::ElementsAre(1.5, 2.0, 2.0, std::nullopt, 4.0));
    const auto warned = table->warnings.join(QLatin1Char(' ')).toStdString();
    EXPECT_THAT(warned, testing::HasSubstr("Estimated or assumed for some prints: d (2 of 5)"));
    EXPECT_THAT(warned, testing::HasSubstr("\"3 h\" (line 5)")) << "hours are no depth";
}

} // namespace WASHFAST_FILE
