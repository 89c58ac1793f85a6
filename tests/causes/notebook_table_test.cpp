// What the table of a notebook, or of a file, brings along for the sentences: labels, units, tones, batches.
#include "core/causes/from_notebook.h"
#include "tests/support/small_notebook.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::causes;
using testing::ElementsAre;
using washfast::test::SmallNotebook;

namespace {

QString s(const char* text)
{
    return QString::fromUtf8(text);
}

const Factor& factor(const FactorTable& table, const char* name)
{
    for (const auto& one : table.factors)
        if (one.name == QLatin1String(name))
            return one;
    throw std::runtime_error(std::string("no factor ") + name);
}

} // namespace

TEST(NotebookTable, LabelsUnitsTonesAndBatches)
{
    SmallNotebook book;
    const auto session = book.add(Entity::Session, { { "session_code", "S1" } });
    const auto mix = book.add(Entity::Mix, { { "mix_code", "M7" }, { "mix_stored", "dark_bottle" } });
    const auto paper = book.add(Entity::Paper, { { "paper_name", "A" }, { "paper_base_density", 0.1 } });
    const auto one = book.print("P1",
        { { "print_mix", mix }, { "print_paper", paper }, { "print_session", session }, { "rinse_tray", "left" },
            { "dry_temperature_c", 30 }, { "print_outcome", "ran_off" } });
    book.reading(one, "before_rinse", "deepest", 1.1);
    book.reading(one, "day_after", "deepest", 0.6);
    book.print("P2", { { "print_mix", mix }, { "print_outcome", "kept" } });
    NotebookChoices choices;
    choices.outcome = s("is_ran_off");
    const auto made = fromNotebook(PrintColumns(book.notebook()), choices);
    ASSERT_TRUE(made) << made.error().says.toStdString();
    EXPECT_EQ(factor(*made, "dry_temperature_c").unit, s("°C"));
    EXPECT_EQ(factor(*made, "mix_stored").level_labels.value(s("dark_bottle")), s("dark bottle"));
    EXPECT_EQ(made->outcome_label, s("Outcome: ran off"));
    ASSERT_EQ(made->formed.size(), 2U);
    EXPECT_NEAR(*made->formed[0], 1.0, 1e-12);
    EXPECT_NEAR(*made->kept[0], 0.5, 1e-12);
    EXPECT_FALSE(made->formed[1]);
    ASSERT_EQ(made->batches.size(), 3U);
    EXPECT_EQ(made->batches[0].name, s("session_code"));
    EXPECT_THAT(made->batches[1].of, ElementsAre(s("M7"), s("M7")));
    EXPECT_THAT(made->batches[2].of, ElementsAre(s("left/S1"), QString())) << "a tray of one lesson";
    EXPECT_TRUE(made->batches[2].of[1].isNull());
}

TEST(FileTable, TonesAreNoCausesUnlessNamed)
{
    const QStringList headings { s("code"), s("failed"), s("damp"), s("formed"), s("kept"), s("tray") };
    const std::vector<QStringList> rows { { s("A"), s("1"), s("yes"), s("1.1"), s("0.2"), s("left") },
        { s("B"), s("0"), s("no"), s("1.2"), s("0.9"), s("right") }, { s("C"), s("0"), s("no"), {}, s("0.8"), {} } };
    TableChoices choices;
    choices.outcome = s("failed");
    choices.batches = { s("tray") };
    const auto table = readFactorTable(headings, rows, choices);
    ASSERT_TRUE(table) << table.error().says.toStdString();
    ASSERT_EQ(table->factors.size(), 2U);
    EXPECT_EQ(table->factors[0].name, s("damp"));
    EXPECT_EQ(table->formed[0], 1.1);
    EXPECT_FALSE(table->formed[2]);
    EXPECT_EQ(table->kept[2], 0.8);
    EXPECT_EQ(table->warnings.size(), 1);
    EXPECT_THAT(table->batches[0].of, ElementsAre(s("left"), s("right"), QString()));

    choices.factors = { s("formed") };
    EXPECT_EQ(readFactorTable(headings, rows, choices)->factors[0].name, s("formed"));
    choices.batches = { s("moon") };
    EXPECT_FALSE(readFactorTable(headings, rows, choices));
    // A yes/no column of that name is what it says, not a tone.
    const std::vector<QStringList> yes_no { { s("A"), s("1"), s("yes"), s("1"), s("0"), {} },
        { s("B"), s("0"), s("no"), s("0"), s("1"), {} } };
    TableChoices plain;
    plain.outcome = s("failed");
    EXPECT_EQ(readFactorTable(headings, yes_no, plain)->factors.size(), 4U);
}

} // namespace WASHFAST_FILE
