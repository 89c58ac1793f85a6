// Whole columns: the same values that the reader gives, kept, and brought up to date print by print.
#include "tests/support/small_notebook.h"

#include <cmath>

namespace WASHFAST_FILE {

using namespace washfast;
using test::at;
using test::SmallNotebook;

namespace {

QString wide(const char* text)
{
    return QString::fromUtf8(text);
}

class Columns : public testing::Test {
protected:
    Columns()
    {
        const auto mix = book.add(Entity::Mix, { { "mix_code", "M7" } });
        const auto session = book.add(Entity::Session, { { "session_code", "S3" }, { "session_group", "9b" } });
        a = book.print("A1",
            { { "print_mix", mix }, { "print_session", session }, { "coat_volume_ml", 0.62 }, { "dry_covered", false },
                { "dry_method", "hung" }, { "coat_start", "2026-05-04T10:15:00+02:00" },
                { "print_outcome", "ran_off; stained" }, { "print_notes", "Rain at Noon" },
                { "print_method", "objects" } });
        b = book.print("B2", {});
        book.reading(b, "day_after", "deepest", 0.9);
    }

    [[nodiscard]] int field(const char* key) const
    {
        const int index = book.catalogue().printField(wide(key));
        EXPECT_GE(index, 0) << key;
        return index;
    }
    /// That what is kept is what a fresh look gives.
    void expectFresh(const PrintColumns& columns) const
    {
        const PrintColumns fresh(book.notebook());
        EXPECT_EQ(columns.words(), fresh.words());
        for (int i = 0; i < int(book.catalogue().printFields().size()); ++i) {
            const auto& kept = columns.column(i);
            const auto& wanted = fresh.column(i);
            const auto key = book.catalogue().printFields()[size_t(i)].key.toStdString();
            ASSERT_EQ(kept.numbers.size(), wanted.numbers.size()) << key;
            for (size_t row = 0; row < wanted.numbers.size(); ++row)
                EXPECT_TRUE(kept.numbers[row] == wanted.numbers[row]
                    || (std::isnan(kept.numbers[row]) && std::isnan(wanted.numbers[row])))
                    << key << " of row " << row;
            EXPECT_EQ(kept.texts, wanted.texts) << key;
            EXPECT_EQ(kept.evidence, wanted.evidence) << key;
        }
    }
    static void touchAll(const PrintColumns& columns)
    {
        for (int i = 0; i < int(columns.notebook().catalogue().printFields().size()); ++i)
            (void)columns.column(i);
        (void)columns.words();
    }

    SmallNotebook book;
    qint64 a = 0, b = 0;
};

} // namespace

TEST_F(Columns, HoldEachKindAsANumber)
{
    const PrintColumns columns(book.notebook());
    EXPECT_EQ(columns.column(field("coat_volume_ml")).numbers[0], 0.62);
    EXPECT_EQ(columns.column(field("dry_covered")).numbers[0], 0.0);
    EXPECT_EQ(columns.column(field("dry_method")).numbers[0], 1.0) << "hung is the second choice";
    EXPECT_EQ(columns.column(field("coat_start")).numbers[0], double(at("2026-05-04T08:15:00Z").ms_utc));
    EXPECT_EQ(columns.column(field("print_outcome")).texts[0], wide("ran_off; stained"));
    EXPECT_EQ(columns.column(field("print_outcome")).numbers[0], 0.0);
    EXPECT_EQ(columns.column(field("print_outcome")).evidence[0], Evidence::Estimated);
    EXPECT_EQ(columns.column(field("is_ran_off")).numbers[0], 1.0);
    EXPECT_EQ(columns.column(field("mix_code")).texts[0], wide("M7"));
    for (const char* key :
        { "coat_volume_ml", "dry_covered", "dry_method", "coat_start", "print_outcome", "mix_code" }) {
        EXPECT_TRUE(std::isnan(columns.column(field(key)).numbers[1])) << key;
        EXPECT_EQ(columns.column(field(key)).numbers.size(), 2u);
    }
}

TEST_F(Columns, AgreeWithTheReader)
{
    const PrintColumns columns(book.notebook());
    const auto& fields = book.catalogue().printFields();
    for (int i = 0; i < int(fields.size()); ++i)
        for (int row = 0; row < 2; ++row) {
            const auto known = columns.reader().get(row, i);
            const auto& column = columns.column(i);
            EXPECT_EQ(known.has(), !std::isnan(column.numbers[size_t(row)])) << fields[size_t(i)].key.toStdString();
            EXPECT_TRUE(!known.has() || known.evidence == column.evidence[size_t(row)])
                << fields[size_t(i)].key.toStdString();
        }
}

TEST_F(Columns, WordsAreLowerCaseAndUseLabels)
{
    const PrintColumns columns(book.notebook());
    const auto& words = columns.words();
    ASSERT_EQ(words.size(), 2u);
    for (const char* word : { "a1", "m7", "s3", "9b", "rain at noon", "ran off", "stained", "objects print" })
        EXPECT_TRUE(words[0].contains(wide(word))) << word << " in " << words[0].toStdString();
    EXPECT_FALSE(words[0].contains(wide("ran_off"))) << "people see labels";
    EXPECT_TRUE(words[1].startsWith(wide("b2")));
}

TEST_F(Columns, RefreshTakesInAChangedPrint)
{
    PrintColumns columns(book.notebook());
    touchAll(columns);
    book.set(Ref(Entity::Print, a), "coat_volume_ml", 0.8);
    book.set(Ref(Entity::Print, a), "print_notes", "Sun");
    book.set(Ref(Entity::Print, a), "print_width_mm", 148);
    book.set(Ref(Entity::Print, a), "print_height_mm", 210);
    EXPECT_EQ(columns.column(field("coat_volume_ml")).numbers[0], 0.62) << "kept until it is told";
    columns.refresh(book.row(a));
    EXPECT_EQ(columns.column(field("coat_volume_ml")).numbers[0], 0.8);
    EXPECT_NEAR(columns.column(field("coat_per_area_ml_m2")).numbers[0], 25.74, 0.005); // 0.8 / 0.03108
    EXPECT_TRUE(columns.words()[0].contains(wide("sun")));
    expectFresh(columns);
}

TEST_F(Columns, RefreshTakesInAChangedChild)
{
    PrintColumns columns(book.notebook());
    touchAll(columns);
    book.reading(b, "day_after", "paper", 0.1);
    columns.refresh(book.row(b));
    EXPECT_NEAR(columns.column(field("net_density")).numbers[1], 0.8, 1e-12);
    expectFresh(columns);
}

TEST_F(Columns, RefreshTakesInANewPrintAtTheEnd)
{
    PrintColumns columns(book.notebook());
    touchAll(columns);
    const auto c = book.print("C3", { { "coat_volume_ml", 1.0 } });
    columns.refresh(book.row(c));
    EXPECT_EQ(columns.column(field("coat_volume_ml")).numbers[2], 1.0);
    expectFresh(columns);
}

TEST_F(Columns, RefreshTakesInSeveralNewPrintsAndAChangedOne)
{
    PrintColumns columns(book.notebook());
    touchAll(columns);
    const auto c = book.print("C3", { { "coat_volume_ml", 1.0 } });
    const auto d = book.print("D4", { { "coat_volume_ml", 2.0 } });
    book.set(Ref(Entity::Print, a), "coat_volume_ml", 0.8);
    columns.refresh({ book.row(d), book.row(a), book.row(c), book.row(c) });
    EXPECT_EQ(columns.column(field("coat_volume_ml")).numbers[0], 0.8);
    EXPECT_EQ(columns.column(field("coat_volume_ml")).numbers[3], 2.0);
    EXPECT_TRUE(columns.words()[2].startsWith(wide("c3")));
    expectFresh(columns);

    touchAll(columns);
    book.print("E5");
    const auto f = book.print("F6");
    columns.refresh(book.row(f)); // one of the two is not told of
    expectFresh(columns);
    columns.refresh(std::vector<int> {});
    expectFresh(columns);
}

TEST_F(Columns, RefreshForgetsWhenRowsHaveMoved)
{
    PrintColumns columns(book.notebook());
    touchAll(columns);
    book.addAs(9, Entity::Print, { { "print_code", "Z9" } });
    columns.refresh(book.row(9));
    book.addAs(5, Entity::Print, { { "print_code", "Y5" } }); // a removed print comes back between two others
    columns.refresh(book.row(5));
    expectFresh(columns);

    touchAll(columns);
    book.notebook().edit(Entity::Print).erase(0);
    columns.refresh(0);
    expectFresh(columns);
}

TEST_F(Columns, RefreshWithWordsAlone)
{
    PrintColumns columns(book.notebook());
    (void)columns.words();
    book.notebook().edit(Entity::Print).erase(1);
    columns.refresh(1); // a row that is no longer there
    EXPECT_EQ(columns.words().size(), 1u);
    columns.refresh(-1);
    expectFresh(columns);
}

TEST_F(Columns, ForgetTakesInEverything)
{
    PrintColumns columns(book.notebook());
    touchAll(columns);
    book.set(Ref(Entity::Mix, 1), "mix_code", "M8");
    columns.forget();
    EXPECT_EQ(columns.column(field("mix_code")).texts[0], wide("M8"));
    expectFresh(columns);
}

} // namespace WASHFAST_FILE
