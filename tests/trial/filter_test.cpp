// The filter line: what it shows, and what it says when it cannot be read.
#include "core/trial/filter.h"

#include "tests/support/small_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using test::SmallNotebook;
using testing::AllOf;
using testing::HasSubstr;
using testing::Not;

namespace {

using Codes = std::vector<std::string>;

class FilterTest : public testing::Test {
protected:
    FilterTest()
    {
        const auto m7 = book.add(Entity::Mix, { { "mix_code", "M7" } });
        const auto m8 = book.add(Entity::Mix, { { "mix_code", "M8 old" } });
        const auto cotton = book.add(Entity::Paper, { { "paper_name", "Cotton 300" } });
        // A: kept 0.84 / 1.20 = 0.7; B: 0.30 / 1.20 = 0.25; C: nothing measured; D: nothing at all.
        a = book.print("A",
            { { "print_mix", m7 }, { "print_paper", cotton }, { "coat_volume_ml", 0.62 }, { "dry_covered", true },
                { "dry_method", "hung" }, { "coat_start", "2026-05-01T23:30:00+02:00" }, { "print_outcome", "kept" },
                { "print_notes", "light rain, then sun" } });
        b = book.print("B",
            { { "print_mix", m8 }, { "coat_volume_ml", 1.25 }, { "dry_covered", false }, { "dry_method", "dryer_hot" },
                { "coat_start", "2026-05-02T10:15:30+02:00" }, { "print_outcome", "ran_off; stained" } });
        c = book.print("C",
            { { "print_mix", m7 }, { "dry_method", "dryer_cool" }, { "coat_start", "2026-05-01T23:30:00-03:00" },
                { "print_notes", "It ran off and on" } });
        d = book.print("D");
        for (const auto& [print, after] : { std::pair(a, 0.90), std::pair(b, 0.36) }) {
            book.reading(print, "before_rinse", "deepest", 1.30);
            book.reading(print, "before_rinse", "covered", 0.10);
            book.reading(print, "day_after", "deepest", after);
            book.reading(print, "day_after", "paper", 0.06);
        }
        columns = std::make_unique<PrintColumns>(book.notebook());
    }

    /// Codes of the prints shown; also looks at each print alone.
    [[nodiscard]] Codes shown(const char* text) const
    {
        const auto parsed = parseFilter(QString::fromUtf8(text), book.catalogue());
        EXPECT_TRUE(parsed.ok()) << text << ": " << (parsed.ok() ? "" : parsed.fault->says.toStdString());
        const auto all = parsed.filter.matches(*columns);
        EXPECT_EQ(all.size(), 4u);
        Codes codes;
        for (int row = 0; row < int(all.size()); ++row) {
            EXPECT_EQ(parsed.filter.matchesOne(*columns, row), all[size_t(row)] != 0) << text << " alone, row " << row;
            if (all[size_t(row)] != 0)
                codes.push_back(std::string(1, char('A' + row)));
        }
        return codes;
    }
    [[nodiscard]] FilterFault fault(const char* text) const
    {
        const QString wide = QString::fromUtf8(text);
        const auto parsed = parseFilter(wide, book.catalogue());
        EXPECT_FALSE(parsed.ok()) << text;
        if (parsed.ok())
            return {};
        EXPECT_FALSE(parsed.fault->says.isEmpty());
        EXPECT_TRUE(parsed.filter.showsAll()) << text;
        EXPECT_GE(parsed.fault->at, 0) << text;
        EXPECT_GE(parsed.fault->length, 0) << text;
        EXPECT_LE(parsed.fault->at + parsed.fault->length, wide.size()) << text;
        return *parsed.fault;
    }
    /// The sentence, after the place has been compared with the part of the text that is to blame.
    [[nodiscard]] std::string says(const char* text, const char* blamed) const
    {
        const auto found = fault(text);
        const QString wide = QString::fromUtf8(text);
        EXPECT_EQ(wide.mid(found.at, found.length).toStdString(), blamed) << text << ": " << found.says.toStdString();
        return found.says.toStdString();
    }

    SmallNotebook book;
    qint64 a = 0, b = 0, c = 0, d = 0;
    std::unique_ptr<PrintColumns> columns;
};

} // namespace

// ---- Words

TEST_F(FilterTest, AnEmptyLineShowsAll)
{
    EXPECT_EQ(shown(""), Codes({ "A", "B", "C", "D" }));
    EXPECT_EQ(shown(" \t "), Codes({ "A", "B", "C", "D" }));
    EXPECT_TRUE(parseFilter(QString(), book.catalogue()).filter.showsAll());
    EXPECT_TRUE(Filter().matchesOne(*columns, 0));
}

TEST_F(FilterTest, WordsAreLookedForInTheTexts)
{
    EXPECT_EQ(shown("m7"), Codes({ "A", "C" }));
    EXPECT_EQ(shown("COTTON"), Codes({ "A" }));
    EXPECT_EQ(shown("rain sun"), Codes({ "A" }));
    EXPECT_EQ(shown("sun rain"), Codes({ "A" }));
    EXPECT_EQ(shown("rain snow"), Codes());
    EXPECT_EQ(shown("ran off"), Codes({ "B", "C" })) << "an outcome's label, and a note";
    EXPECT_EQ(shown("\"ran off and\""), Codes({ "C" }));
    EXPECT_EQ(shown("\"off ran\""), Codes());
    EXPECT_EQ(shown("“ran off and”"), Codes({ "C" })) << "marks as a text program sets them";
    EXPECT_EQ(shown("„ran off and“"), Codes({ "C" }));
}

TEST_F(FilterTest, AKeyWithoutAnOperatorIsAWord)
{
    EXPECT_EQ(shown("kept"), Codes({ "A" })) << "the outcome, not the number";
    EXPECT_EQ(shown("print_outcome"), Codes());
    EXPECT_EQ(shown("not kept"), Codes({ "B", "C", "D" }));
    EXPECT_EQ(shown("it is"), Codes()) << "`is` without known or unknown";
    EXPECT_EQ(shown("to"), Codes({ "A" })) << "cotton";
    EXPECT_EQ(shown("\"and\""), Codes({ "C" }));
}

// ---- Comparisons

TEST_F(FilterTest, NumbersAreCompared)
{
    EXPECT_EQ(shown("kept < 0.6"), Codes({ "B" }));
    EXPECT_EQ(shown("kept<0,6"), Codes({ "B" }));
    EXPECT_EQ(shown("KEPT >= 0.6"), Codes({ "A" }));
    EXPECT_EQ(shown("coat_volume_ml = 0.62"), Codes({ "A" }));
    EXPECT_EQ(shown("coat_volume_ml != 0.62"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_volume_ml ≠ 0.62"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_volume_ml <= 0.62"), Codes({ "A" }));
    EXPECT_EQ(shown("coat_volume_ml < 0.62"), Codes());
    EXPECT_EQ(shown("coat_volume_ml ≥ 1.25"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_volume_ml > 1.25"), Codes());
    EXPECT_EQ(shown("coat_volume_ml > -3"), Codes({ "A", "B" }));
}

TEST_F(FilterTest, WhatWasWorkedOutIsEqualToItsRoundValue)
{
    // (0.90 - 0.06) / (1.30 - 0.10) is 0.7, though not to the last bit.
    EXPECT_EQ(shown("kept = 0.7"), Codes({ "A" }));
    EXPECT_EQ(shown("kept <= 0.7"), Codes({ "A", "B" }));
    EXPECT_EQ(shown("kept < 0.7"), Codes({ "B" }));
    EXPECT_EQ(shown("kept >= 0.7"), Codes({ "A" }));
    EXPECT_EQ(shown("kept > 0.7"), Codes());
    EXPECT_EQ(shown("kept != 0.7"), Codes({ "B" }));
    EXPECT_EQ(shown("kept from 0.7 to 0.8"), Codes({ "A" }));
    EXPECT_EQ(shown("kept = 0.7001"), Codes());
}

TEST_F(FilterTest, FromToTakesInBothEnds)
{
    EXPECT_EQ(shown("coat_volume_ml from 0.62 to 1.25"), Codes({ "A", "B" }));
    EXPECT_EQ(shown("coat_volume_ml FROM 0.63 TO 1.24"), Codes());
    EXPECT_EQ(shown("coat_volume_ml from 1 to 1.25 m8"), Codes({ "B" }));
    EXPECT_EQ(shown("not coat_volume_ml from 1 to 2"), Codes({ "A" }));
}

TEST_F(FilterTest, ANumberMayCarryItsUnit)
{
    EXPECT_EQ(shown("coat_volume_ml > 1 mL"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_volume_ml > 1mL"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_volume_ml > 0.001 L"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_volume_ml from 1000 µL to 2 mL"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_volume_ml > 1 M8"), Codes({ "B" })) << "that is a word";
}

TEST_F(FilterTest, TextsAreComparedInAnyCase)
{
    EXPECT_EQ(shown("mix_code = m7"), Codes({ "A", "C" }));
    EXPECT_EQ(shown("mix_code = M8"), Codes()) << "the whole text";
    EXPECT_EQ(shown("mix_code = \"m8 OLD\""), Codes({ "B" }));
    EXPECT_EQ(shown("mix_code has 8"), Codes({ "B" }));
    EXPECT_EQ(shown("mix_code HAS m"), Codes({ "A", "B", "C" }));
    EXPECT_EQ(shown("mix_code != M7"), Codes({ "B" })) << "D has no mix";
    EXPECT_EQ(shown("print_notes has \"ran off\""), Codes({ "C" }));
}

TEST_F(FilterTest, ChoicesByKeyOrLabel)
{
    EXPECT_EQ(shown("dry_method = dryer_hot"), Codes({ "B" }));
    EXPECT_EQ(shown("dry_method = \"Hair dryer, hot\""), Codes({ "B" }));
    EXPECT_EQ(shown("dry_method = HUNG"), Codes({ "A" }));
    EXPECT_EQ(shown("dry_method = \"hung up\""), Codes({ "A" }));
    EXPECT_EQ(shown("dry_method != hung"), Codes({ "B", "C" }));
    EXPECT_EQ(shown("dry_method has dryer"), Codes({ "B", "C" }));
    EXPECT_EQ(shown("dry_method has cool"), Codes({ "C" }));
}

TEST_F(FilterTest, SetsHoldOrAreEqual)
{
    EXPECT_EQ(shown("print_outcome has \"ran off\""), Codes({ "B" }));
    EXPECT_EQ(shown("print_outcome has ran_off"), Codes({ "B" }));
    EXPECT_EQ(shown("print_outcome has stain"), Codes({ "B" }));
    EXPECT_EQ(shown("print_outcome has e"), Codes({ "A", "B" })) << "kept, stained";
    EXPECT_EQ(shown("print_outcome = kept"), Codes({ "A" }));
    EXPECT_EQ(shown("print_outcome = stained"), Codes()) << "not that alone";
    EXPECT_EQ(shown("print_outcome = \"stained; ran off\""), Codes({ "B" }));
    EXPECT_EQ(shown("print_outcome != kept"), Codes({ "B" }));
}

TEST_F(FilterTest, YesAndNo)
{
    EXPECT_EQ(shown("dry_covered = yes"), Codes({ "A" }));
    EXPECT_EQ(shown("dry_covered = NO"), Codes({ "B" }));
    EXPECT_EQ(shown("dry_covered != yes"), Codes({ "B" }));
    EXPECT_EQ(shown("is_ran_off = yes"), Codes({ "B" }));
    EXPECT_EQ(shown("is_ran_off = no"), Codes({ "A" }));
    EXPECT_EQ(shown("failed = true"), Codes({ "B" }));
}

TEST_F(FilterTest, ABeginningThatFitsOneFieldWillDo)
{
    EXPECT_EQ(shown("print_out has ran"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_v > 1"), Codes({ "B" }));
    EXPECT_EQ(shown("kept > 0"), Codes({ "A", "B" })) << "a whole key wins";
}

// ---- Times. A 1 May 23:30 +02:00 = 21:30 UTC; B 2 May 10:15:30 +02:00 = 08:15:30 UTC; C 1 May 23:30 -03:00 = 2 May
// 02:30 UTC.

TEST_F(FilterTest, ADayIsTheWholeDayOnTheRecordsClock)
{
    EXPECT_EQ(shown("coat_start = 2026-05-01"), Codes({ "A", "C" })) << "C though it is 2 May in UTC";
    EXPECT_EQ(shown("coat_start != 2026-05-01"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start > 2026-05-01"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start >= 2026-05-01"), Codes({ "A", "B", "C" }));
    EXPECT_EQ(shown("coat_start < 2026-05-02"), Codes({ "A", "C" }));
    EXPECT_EQ(shown("coat_start <= 2026-05-02"), Codes({ "A", "B", "C" }));
    EXPECT_EQ(shown("coat_start < 2026-05-01"), Codes());
    EXPECT_EQ(shown("coat_start = 02.05.2026"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start from 2026-05-01 to 2026-05-01"), Codes({ "A", "C" }));
    EXPECT_EQ(shown("coat_start from 2026-05-01 to 2026-05-02"), Codes({ "A", "B", "C" }));
    EXPECT_EQ(shown("coat_start from 1999-01-01 to 2026-04-30"), Codes());
}

TEST_F(FilterTest, AMinuteIsTheWholeMinute)
{
    EXPECT_EQ(shown("coat_start = 2026-05-02 10:15"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start = 2026-05-02T10:15"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start = \"2026-05-02 10:15\""), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start > 2026-05-02 10:15"), Codes());
    EXPECT_EQ(shown("coat_start > 2026-05-02 10:15:29"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start <= 2026-05-02 10:15"), Codes({ "A", "B", "C" }));
    EXPECT_EQ(shown("coat_start < 2026-05-02 10:15:30"), Codes({ "A", "C" }));
    EXPECT_EQ(shown("coat_start from 2026-05-02 10:00 to 2026-05-02 10:15"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start = 2026-05-02 10:15 m8"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start = 2026-05-02 10:15 m7"), Codes());
}

TEST_F(FilterTest, AnOffsetNamesTheMoment)
{
    EXPECT_EQ(shown("coat_start = 2026-05-02T08:15Z"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start = 2026-05-01T23:30-03:00"), Codes({ "C" }));
    EXPECT_EQ(shown("coat_start = 2026-05-01T23:30"), Codes({ "A", "C" })) << "each on its own clock";
    EXPECT_EQ(shown("coat_start < 2026-05-02T00:00Z"), Codes({ "A" }));
    EXPECT_EQ(shown("coat_start from 2026-05-01T21:30Z to 2026-05-02"), Codes({ "A", "B", "C" }));
}

TEST_F(FilterTest, ATimeWithoutADayIsATimeOfAnyDay)
{
    EXPECT_EQ(shown("coat_start = 23:30"), Codes({ "A", "C" }));
    EXPECT_EQ(shown("coat_start < 12:00"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start from 10:00 to 11:00"), Codes({ "B" }));
    EXPECT_EQ(shown("coat_start > 10:15"), Codes({ "A", "C" }));
}

// ---- Known and unknown

TEST_F(FilterTest, UnknownIsNeitherTrueNorFalse)
{
    EXPECT_EQ(shown("kept is known"), Codes({ "A", "B" }));
    EXPECT_EQ(shown("kept IS Unknown"), Codes({ "C", "D" }));
    EXPECT_EQ(shown("not kept is unknown"), Codes({ "A", "B" }));
    EXPECT_EQ(shown("not kept < 0.6"), Codes({ "A" })) << "not C and D";
    EXPECT_EQ(shown("kept < 0.6 or kept >= 0.6"), Codes({ "A", "B" }));
    EXPECT_EQ(shown("kept < 0.6 or m7"), Codes({ "A", "B", "C" })) << "true or unknown is true";
    EXPECT_EQ(shown("not (kept < 0.6 and m7)"), Codes({ "A", "B", "D" }))
        << "C: unknown and true is unknown; D: m7 is false";
    EXPECT_EQ(shown("not (kept < 0.6 or m7)"), Codes()) << "D stays unknown";
    EXPECT_EQ(shown("print_notes is unknown"), Codes({ "B", "D" }));
    EXPECT_EQ(shown("dry_method is known"), Codes({ "A", "B", "C" }));
    EXPECT_EQ(shown("coat_start is unknown"), Codes({ "D" }));
}

// ---- and, or, not, parentheses

TEST_F(FilterTest, AndBindsCloserThanOr)
{
    EXPECT_EQ(shown("kept < 0.6 or rain and m7"), Codes({ "A", "B" }));
    EXPECT_EQ(shown("(kept < 0.6 or rain) and m7"), Codes({ "A" }));
    EXPECT_EQ(shown("kept < 0.6 or rain m8"), Codes({ "B" }));
    EXPECT_EQ(shown("m7 OR m8 AND dry_covered = no"), Codes({ "A", "B", "C" }));
    EXPECT_EQ(shown("not m7 m8"), Codes({ "B" })) << "not binds to the next only";
    EXPECT_EQ(shown("not (m7 or m8)"), Codes({ "D" }));
    EXPECT_EQ(shown("NOT not m7"), Codes({ "A", "C" }));
    EXPECT_EQ(shown("((m7)(rain))"), Codes({ "A" }));
}

// ---- What cannot be read

TEST_F(FilterTest, UnknownAndAmbiguousFields)
{
    EXPECT_THAT(says("keppt < 0.6", "keppt"), HasSubstr("There is no field “keppt”"));
    EXPECT_THAT(says("m7 and dry_m_x = flat", "dry_m_x"), HasSubstr("no field"));
    EXPECT_THAT(says("coat_t = brush", "coat_t"),
        AllOf(HasSubstr("beginning of 2 fields"), HasSubstr("coat_tool, coat_temperature_c")));
    EXPECT_THAT(says("print = A", "print"), AllOf(HasSubstr("print_code"), HasSubstr("and more")));
    EXPECT_THAT(says("paper from cotton", "paper"), HasSubstr("beginning"));
    EXPECT_THAT(says("rain from west", "rain"), AllOf(HasSubstr("“from”"), HasSubstr("quotation marks")));
    EXPECT_THAT(says("\"kept\" < 0.6", "\"kept\""), HasSubstr("without quotation marks"));
    EXPECT_THAT(says("print_mix = M7", "print_mix"), HasSubstr("field")) << "a link is no print field";
}

TEST_F(FilterTest, MissingPieces)
{
    EXPECT_THAT(says("kept <", ""), HasSubstr("after “<”"));
    EXPECT_EQ(fault("kept <").at, 6);
    EXPECT_THAT(says("kept < and m7", "and"), HasSubstr("after “<”"));
    EXPECT_THAT(says("kept < < 3", "<"), HasSubstr("after “<”"));
    EXPECT_THAT(says("< 3", "<"), HasSubstr("before “<”"));
    EXPECT_THAT(says("m7 and", ""), HasSubstr("after “and”"));
    EXPECT_THAT(says("m7 or or rain", "or"), HasSubstr("after “or”"));
    EXPECT_THAT(says("and m7", "and"), HasSubstr("before “and”"));
    EXPECT_THAT(says("not", ""), HasSubstr("after “not”"));
    EXPECT_THAT(says("print_notes has", ""), HasSubstr("after “has”"));
    EXPECT_THAT(says("kept from 2", ""), HasSubstr("kept from 2 to 5"));
    EXPECT_THAT(says("kept from 2 m7", "m7"), HasSubstr("“to”"));
    EXPECT_THAT(says("kept from 2 to", ""), HasSubstr("after “to”"));
    EXPECT_THAT(says("kept from 5 to 2", "2"), HasSubstr("smaller one first"));
}

TEST_F(FilterTest, ParenthesesAndQuotationMarks)
{
    EXPECT_THAT(says("(m7 or rain", "("), HasSubstr("never closed"));
    EXPECT_THAT(says("m7 ((rain)", "("), HasSubstr("never closed"));
    EXPECT_EQ(fault("m7 ((rain)").at, 3);
    EXPECT_THAT(says("m7 ) rain", ")"), HasSubstr("closes none"));
    EXPECT_THAT(says(")", ")"), HasSubstr("closes none"));
    EXPECT_THAT(says("m7 and ( )", "( )"), HasSubstr("nothing between these parentheses"));
    EXPECT_THAT(says("m7 \"ran off", "\""), HasSubstr("never closed"));
    EXPECT_THAT(says("m7 \"\"", "\"\""), HasSubstr("nothing between these quotation marks"));
    EXPECT_THAT(says("mix_code = \" \"", "\" \""), HasSubstr("is unknown"));
    const std::string deep = std::string(150, '(') + "m7" + std::string(150, ')');
    EXPECT_THAT(fault(deep.c_str()).says.toStdString(), HasSubstr("too deeply"));
    std::string nots;
    for (int i = 0; i < 150; ++i)
        nots += "not ";
    EXPECT_THAT(fault((nots + "m7").c_str()).says.toStdString(), HasSubstr("too deeply"));
    EXPECT_THAT(fault(std::string(5000, 'x').c_str()).says.toStdString(), HasSubstr("4000"));
}

TEST_F(FilterTest, ValuesThatDoNotFitTheField)
{
    EXPECT_THAT(says("kept < much", "much"), HasSubstr("not a number"));
    EXPECT_THAT(says("kept<0.6or m7", "0.6or"), HasSubstr("not a number"));
    EXPECT_THAT(says("coat_volume_ml > 1,250", "1,250"), HasSubstr("two ways"));
    EXPECT_THAT(says("coat_volume_ml > 5min", "5min"), HasSubstr("mL"));
    EXPECT_THAT(says("kept = unknown", "unknown"), HasSubstr("kept is unknown"));
    EXPECT_THAT(says("dry_method = unknown", "unknown"), HasSubstr("dry_method is unknown"));
    EXPECT_THAT(
        says("dry_method = oven", "oven"), AllOf(HasSubstr("none of the choices"), HasSubstr("hair dryer, hot")));
    EXPECT_THAT(says("dry_method = hair dryer", "hair"), HasSubstr("in quotes"));
    EXPECT_THAT(says("dry_method has oven9", "oven9"), HasSubstr("none of the choices"));
    EXPECT_THAT(says("print_outcome = \"kept; torn\"", "\"kept; torn\""), HasSubstr("“torn”"));
    EXPECT_THAT(says("dry_covered = perhaps", "perhaps"), HasSubstr("yes or no"));
    EXPECT_THAT(says("coat_start > May", "May"), HasSubstr("not a date"));
    EXPECT_THAT(says("coat_start > 2026-02-30", "2026-02-30"), HasSubstr("no such day"));
    EXPECT_THAT(says("coat_start > 4/5/2026", "4/5/2026"), HasSubstr("month"));
    EXPECT_THAT(says("coat_start from 10:00 to 2026-05-01", "2026-05-01"), HasSubstr("no day"));
    EXPECT_THAT(says("coat_start from 2026-05-03 to 2026-05-01", "2026-05-01"), HasSubstr("smaller one first"));
}

TEST_F(FilterTest, OperatorsThatDoNotFitTheField)
{
    EXPECT_THAT(says("mix_code < M7", "<"), HasSubstr("no order"));
    EXPECT_THAT(says("dry_method >= hung", ">="), HasSubstr("no order"));
    EXPECT_THAT(says("dry_covered > no", ">"), HasSubstr("no order"));
    EXPECT_THAT(says("mix_code from a to b", "from"), HasSubstr("no order"));
    EXPECT_THAT(says("kept has 3", "has"), HasSubstr("neither"));
    EXPECT_THAT(says("coat_start has 2026", "has"), HasSubstr("neither"));
}

TEST_F(FilterTest, PositionsCountCharactersOfTheWholeLine)
{
    const auto found = fault("“très long” and keppt < 0.6");
    EXPECT_EQ(found.at, 16);
    EXPECT_EQ(found.length, 5);
    EXPECT_EQ(found.error().where, QStringLiteral("Filter, character 17"));
    EXPECT_EQ(found.error().code, Trouble::BadInput);
    EXPECT_EQ(found.error().says, found.says);
}

// ---- Help, and life with changing prints

TEST_F(FilterTest, TheHelpCanBeFollowed)
{
    const QString help = filterHelp(book.catalogue());
    int examples = 0;
    const QStringList lines = help.split(QLatin1Char('\n'));
    for (int i = 0; i + 1 < lines.size(); ++i)
        if (lines[i + 1].startsWith(QLatin1String("    "))) {
            ++examples;
            EXPECT_TRUE(parseFilter(lines[i], book.catalogue()).ok()) << lines[i].toStdString();
        }
    EXPECT_EQ(examples, 10) << "none was left out: its fields are all there";
    EXPECT_THAT(help.toStdString(), HasSubstr("not recorded"));
    EXPECT_THAT(filterHelp(Catalogue()).toStdString(), Not(HasSubstr("kept < 0.6\n    ")));
}

TEST_F(FilterTest, AFilterSeesWhatHasChanged)
{
    const auto parsed = parseFilter(QStringLiteral("coat_volume_ml > 1 and not m7"), book.catalogue());
    ASSERT_TRUE(parsed.ok());
    const Filter copy = parsed.filter;
    EXPECT_FALSE(copy.matchesOne(*columns, book.row(d)));
    book.set(Ref(Entity::Print, d), "coat_volume_ml", 2.0);
    columns->refresh(book.row(d));
    EXPECT_TRUE(copy.matchesOne(*columns, book.row(d)));
    EXPECT_EQ(copy.matches(*columns), (std::vector<char> { 0, 1, 0, 1 }));
}

TEST(Filter, OfNoPrintsShowsNone)
{
    SmallNotebook book;
    const PrintColumns columns(book.notebook());
    EXPECT_TRUE(parseFilter(QStringLiteral("m7 or kept < 3"), book.catalogue()).filter.matches(columns).empty());
}

TEST(Filter, AStretchOfTimeEndsWithItsLastMillisecond)
{
    SmallNotebook book;
    book.print("A", { { "coat_start", "2026-05-01T23:59:59.999+02:00" } });
    book.print("B", { { "coat_start", "2026-05-02T00:00:00+02:00" } });
    const PrintColumns columns(book.notebook());
    const auto shown = [&](const char* text) {
        const auto parsed = parseFilter(QString::fromUtf8(text), book.catalogue());
        EXPECT_TRUE(parsed.ok()) << text;
        return parsed.filter.matches(columns);
    };
    using Rows = std::vector<char>;
    for (const char* end : { "2026-05-01", "2026-05-01T23:59", "2026-05-01T23:59:59", "2026-05-01T21:59Z" }) {
        const std::string text = end;
        EXPECT_EQ(shown(("coat_start > " + text).c_str()), Rows({ 0, 1 })) << end;
        EXPECT_EQ(shown(("coat_start <= " + text).c_str()), Rows({ 1, 0 })) << end;
        EXPECT_EQ(shown(("coat_start = " + text).c_str()), Rows({ 1, 0 })) << end;
    }
    for (const char* start : { "2026-05-02", "2026-05-02T00:00", "2026-05-02T00:00:00", "2026-05-01T22:00Z" }) {
        const std::string text = start;
        EXPECT_EQ(shown(("coat_start >= " + text).c_str()), Rows({ 0, 1 })) << start;
        EXPECT_EQ(shown(("coat_start < " + text).c_str()), Rows({ 1, 0 })) << start;
    }
}

TEST(Filter, TimesOfDayBefore1970AreTimesOfDayToo)
{
    SmallNotebook book;
    book.print("A", { { "coat_start", "1911-06-21T10:15:00+00:00" } });
    const PrintColumns columns(book.notebook());
    EXPECT_TRUE(parseFilter(QStringLiteral("coat_start = 10:15"), book.catalogue()).filter.matchesOne(columns, 0));
    EXPECT_FALSE(parseFilter(QStringLiteral("coat_start < 10:15"), book.catalogue()).filter.matchesOne(columns, 0));
}

} // namespace WASHFAST_FILE
