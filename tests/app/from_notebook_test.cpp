// The prints of a notebook as the table that the search for causes reads. Invented prints.
#include "core/causes/from_notebook.h"
#include "tests/support/one_more_field.h"
#include "tests/support/small_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::causes;
using testing::ElementsAre;
using washfast::test::SmallNotebook;

namespace {

class FromNotebook : public testing::Test {
protected:
    FromNotebook()
    {
        const auto mix = book.add(Entity::Mix, { { "mix_code", "M7" } });
        book.print("P1",
            { { "print_mix", mix }, { "coat_passes", 2 }, { "coat_tool", "rod" }, { "print_outcome", "ran_off" } });
        book.print(
            "P2", { { "print_mix", mix }, { "coat_passes", 3 }, { "dry_covered", true }, { "print_outcome", "kept" } });
        book.print("P3", { { "coat_tool", "brush" }, { "dry_covered", false } });
    }

    FactorTable make(const NotebookChoices& choices)
    {
        const auto table = fromNotebook(PrintColumns(book.notebook()), choices);
        if (!table)
            throw std::runtime_error(table.error().says.toStdString());
        return *table;
    }
    std::string refuses(const NotebookChoices& choices)
    {
        const auto table = fromNotebook(PrintColumns(book.notebook()), choices);
        return table ? "nothing" : table.error().says.toStdString();
    }
    static NotebookChoices about(const char* outcome, const QStringList& factors = {})
    {
        NotebookChoices choices;
        choices.outcome = QString::fromLatin1(outcome);
        choices.factors = factors;
        return choices;
    }
    static const Factor& factor(const FactorTable& table, const char* name)
    {
        for (const auto& one : table.factors)
            if (one.name == QLatin1String(name))
                return one;
        throw std::runtime_error(std::string("no factor ") + name);
    }

    SmallNotebook book;
};

} // namespace

TEST_F(FromNotebook, KindsFollowTheCatalogueAndUnknownStaysUnknown)
{
    const auto table = make(about("is_ran_off"));
    EXPECT_THAT(table.prints, ElementsAre(QStringLiteral("P1"), QStringLiteral("P2"), QStringLiteral("P3")));
    EXPECT_THAT(table.outcome_values, ElementsAre(1.0, 0.0, std::nullopt));
    EXPECT_FALSE(table.outcome_is_number);
    EXPECT_EQ(factor(table, "coat_passes").kind, Factor::Kind::Number);
    EXPECT_THAT(factor(table, "coat_passes").numbers, ElementsAre(2.0, 3.0, std::nullopt));
    EXPECT_EQ(factor(table, "dry_covered").kind, Factor::Kind::YesNo);
    EXPECT_THAT(factor(table, "dry_covered").numbers, ElementsAre(std::nullopt, 1.0, 0.0));
    EXPECT_THAT(
        factor(table, "coat_tool").texts, ElementsAre(QStringLiteral("rod"), QString(), QStringLiteral("brush")));
    EXPECT_TRUE(factor(table, "coat_tool").texts[1].isNull());
    EXPECT_THAT(factor(table, "mix_code").texts, ElementsAre(QStringLiteral("M7"), QStringLiteral("M7"), QString()));
    EXPECT_EQ(factor(table, "coat_passes").label, QStringLiteral("Passes"));
    for (const auto& one : table.factors)
        EXPECT_TRUE(book.catalogue().findPrintField(one.name)->factor) << one.name.toStdString();
    EXPECT_THROW(factor(table, "bath1_ph"), std::runtime_error) << "nobody recorded it";
}

TEST_F(FromNotebook, KeptIsTurnedRound)
{
    const auto table = make(about("is_kept"));
    EXPECT_THAT(table.outcome_values, ElementsAre(1.0, 0.0, std::nullopt));
    EXPECT_EQ(table.warnings.size(), 1);
}

TEST_F(FromNotebook, ChosenFactorsBlocksAndRows)
{
    auto choices = about("is_ran_off", { QStringLiteral("coat_tool"), QStringLiteral("bath1_ph") });
    choices.block = QStringLiteral("mix_code");
    choices.shown = { 1, 0, 1 };
    const auto table = make(choices);
    ASSERT_EQ(table.factors.size(), 2U) << "what is asked for is there, known or not";
    EXPECT_THAT(table.prints, ElementsAre(QStringLiteral("P1"), QStringLiteral("P3")));
    EXPECT_THAT(table.blocks, ElementsAre(QStringLiteral("M7"), QString()));
}

TEST_F(FromNotebook, OneGroupAgainstAnother)
{
    NotebookChoices choices;
    choices.shown = { 1, 0, 0 };
    choices.against = { 0, 1, 0 };
    const auto table = make(choices);
    EXPECT_THAT(table.prints, ElementsAre(QStringLiteral("P1"), QStringLiteral("P2")));
    EXPECT_THAT(table.outcome_values, ElementsAre(1.0, 0.0));
    choices.against = { 1, 1, 0 };
    EXPECT_EQ(refuses(choices), "A print cannot be in both groups: P1 is.");
    choices.against = { 0, 0, 0 };
    EXPECT_EQ(refuses(choices), "There are no prints to compare with.");
}

TEST_F(FromNotebook, EstimatesAreMentioned)
{
    book.print("P4", { { "coat_passes", Known { 4.0, Evidence::Estimated } }, { "print_outcome", "kept" } });
    EXPECT_THAT(make(about("is_ran_off")).warnings,
        ElementsAre(QStringLiteral("Estimated or assumed for some prints: Passes (1 of 4).")));
}

TEST_F(FromNotebook, WhatCannotBeUsedIsSaid)
{
    EXPECT_EQ(refuses(about("nosuch")), "There is no field nosuch for the outcome.");
    EXPECT_EQ(refuses(about("coat_tool")), "coat_tool is neither a yes/no nor a number, so it cannot be the outcome.");
    EXPECT_EQ(refuses(about("kept")), "The outcome kept is not known for any of these prints.");
    EXPECT_EQ(refuses(about("is_ran_off", { QStringLiteral("nosuch") })), "There is no field nosuch for a factor.");
    EXPECT_EQ(refuses(about("is_ran_off", { QStringLiteral("coat_start") })),
        "coat_start cannot be a factor: its kind is “time”.");
    EXPECT_EQ(refuses(about("coat_passes", { QStringLiteral("coat_passes") })),
        "coat_passes cannot be the outcome and a factor.");
    auto none = about("is_ran_off");
    none.shown = { 0, 0, 0 };
    EXPECT_EQ(refuses(none), "There are no prints to look at.");
}

TEST_F(FromNotebook, AFieldThatWasAddedToTheCatalogueIsAFactor)
{
    SmallNotebook grown(test::catalogueWithCurl().catalogue);
    grown.print("P1", { { "dry_curl_mm", 3 }, { "print_outcome", "kept" } });
    const auto table = fromNotebook(PrintColumns(grown.notebook()), about("is_ran_off"));
    ASSERT_TRUE(table.ok());
    ASSERT_EQ(table->factors.size(), 1U);
    EXPECT_EQ(table->factors[0].name, test::curlKey());
}

} // namespace WASHFAST_FILE
