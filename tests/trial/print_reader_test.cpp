// Fields of a print, wherever they are recorded: by links, in child rows that match, behind links of these, or worked
// out.
#include "tests/support/small_notebook.h"

namespace WASHFAST_FILE {

using namespace washfast;
using test::SmallNotebook;

namespace {

QString wide(const char* text)
{
    return QString::fromUtf8(text);
}

std::optional<Ref> behind(const SmallNotebook& book, qint64 print, const char* key)
{
    return PrintReader(book.notebook()).rowBehind(book.row(print), book.catalogue().printField(wide(key)));
}

} // namespace

TEST(PrintReader, FollowsOneLinkAndTwo)
{
    SmallNotebook book;
    const auto site = book.add(Entity::Site, { { "site_name", "yard" } });
    const auto term = book.add(Entity::Term, { { "term_name", "spring" } });
    const auto session
        = book.add(Entity::Session, { { "session_code", "S3" }, { "session_site", site }, { "session_term", term } });
    const auto mix = book.add(Entity::Mix, { { "mix_code", "M7" }, { "mix_ph", 4.5 } });
    const auto print = book.print("P1", { { "print_session", session }, { "print_mix", mix } });
    EXPECT_EQ(book.text(print, "print_code"), "P1");
    EXPECT_EQ(book.text(print, "session_code"), "S3");
    EXPECT_EQ(book.text(print, "site_name"), "yard");
    EXPECT_EQ(book.text(print, "term_name"), "spring");
    EXPECT_EQ(book.number(print, "mix_ph"), 4.5);
    EXPECT_FALSE(book.get(print, "paper_name").has()) << "no paper was linked";
    EXPECT_EQ(behind(book, print, "site_name"), Ref(Entity::Site, site));
    EXPECT_EQ(behind(book, print, "print_code"), Ref(Entity::Print, print));
    EXPECT_FALSE(behind(book, print, "paper_name"));
}

TEST(PrintReader, ALinkToNothingIsUnknown)
{
    SmallNotebook book;
    const auto session = book.add(Entity::Session, { { "session_code", "S3" } });
    const auto print = book.print("P1", { { "print_session", session }, { "print_mix", 77 } });
    EXPECT_FALSE(book.get(print, "mix_code").has()) << "the mix is not in the notebook";
    EXPECT_FALSE(book.get(print, "site_name").has()) << "the session has no site";
    EXPECT_FALSE(behind(book, print, "mix_code"));
}

TEST(PrintReader, ChildRowsAreMatched)
{
    SmallNotebook book;
    const auto print = book.print("P1"), other = book.print("P2");
    book.add(Entity::Bath, { { "bath_position", 2 }, { "bath_minutes", 10 }, { "bath_water", "rain" } }, print);
    const auto first = book.add(Entity::Bath, { { "bath_position", 1 }, { "bath_minutes", 5 } }, print);
    book.add(Entity::Bath, { { "bath_position", 3 }, { "bath_minutes", 99 } }, other);
    EXPECT_EQ(book.number(print, "bath1_minutes"), 5.0);
    EXPECT_EQ(book.number(print, "bath2_minutes"), 10.0);
    EXPECT_EQ(book.text(print, "bath2_water"), "rain");
    EXPECT_FALSE(book.get(print, "bath1_water").has());
    EXPECT_FALSE(book.get(print, "bath3_minutes").has()) << "that is the other print's";
    EXPECT_EQ(behind(book, print, "bath1_minutes"), Ref(Entity::Bath, first));
    EXPECT_EQ(behind(book, print, "bath1_water"), Ref(Entity::Bath, first)) << "the row is there, the value is not";
}

TEST(PrintReader, TwoConditionsMustBothMatch)
{
    SmallNotebook book;
    const auto print = book.print("P1");
    book.reading(print, "before_rinse", "deepest", 1.30);
    book.reading(print, "before_rinse", "covered", 0.10);
    book.reading(print, "day_after", "deepest", 0.90);
    EXPECT_EQ(book.number(print, "density_before_rinse_deepest"), 1.30);
    EXPECT_EQ(book.number(print, "density_before_rinse_covered"), 0.10);
    EXPECT_EQ(book.number(print, "density_day_after_deepest"), 0.90);
    EXPECT_FALSE(book.get(print, "density_day_after_covered").has());
    EXPECT_FALSE(book.get(print, "density_wet_deepest").has());
}

TEST(PrintReader, ARowThatDoesNotSayWhatItIsMatchesNothing)
{
    SmallNotebook book;
    const auto print = book.print("P1");
    book.add(Entity::Reading, { { "reading_density", 1.1 } }, print);
    book.add(Entity::Bath, { { "bath_minutes", 7 } }, print);
    EXPECT_FALSE(book.get(print, "density_before_rinse_deepest").has());
    EXPECT_FALSE(book.get(print, "bath1_minutes").has());
    EXPECT_EQ(book.number(print, "rinse_minutes"), 7.0) << "all baths together, numbered or not";
}

TEST(PrintReader, ALaterReadingReplacesAnEarlierOneUnlessThatIsTheBetterOne)
{
    SmallNotebook book;
    const auto print = book.print("P1");
    book.reading(print, "day_after", "deepest", 0.80, "by_eye");
    EXPECT_EQ(book.get(print, "density_day_after_deepest").evidence, Evidence::Estimated);
    book.reading(print, "day_after", "deepest", 0.70);
    const auto later = book.reading(print, "day_after", "deepest", 0.90);
    book.reading(print, "day_after", "deepest", 0.60, "by_eye");
    EXPECT_EQ(book.number(print, "density_day_after_deepest"), 0.90) << "what was measured before an estimate";
    EXPECT_EQ(book.get(print, "density_day_after_deepest").evidence, Evidence::Measured);
    EXPECT_EQ(behind(book, print, "density_day_after_deepest"), Ref(Entity::Reading, later));
}

TEST(PrintReader, LinksBehindAChildRowAreFollowed)
{
    SmallNotebook book;
    const auto glass
        = book.add(Entity::Cover, { { "cover_name", "pane" }, { "cover_kind", "glass" }, { "cover_thickness_mm", 4 } });
    const auto film = book.add(Entity::Cover, { { "cover_name", "foil" } });
    const auto negative = book.add(Entity::Negative, { { "negative_name", "fern" }, { "negative_kind", "objects" } });
    const auto print = book.print("P1");
    book.add(Entity::Exposure, { { "expose_number", 2 }, { "expose_cover", film } }, print);
    book.add(Entity::Exposure,
        { { "expose_number", 1 }, { "expose_cover", glass }, { "expose_cover2", film }, { "expose_negative", negative },
            { "expose_place", "window" } },
        print);
    EXPECT_EQ(book.text(print, "cover_name"), "pane") << "of the first exposure";
    EXPECT_EQ(book.number(print, "cover_thickness_mm"), 4.0);
    EXPECT_EQ(book.text(print, "cover2_name"), "foil");
    EXPECT_EQ(book.text(print, "negative_kind"), "objects");
    EXPECT_EQ(book.text(print, "expose_place"), "window");
    EXPECT_EQ(behind(book, print, "cover_name"), Ref(Entity::Cover, glass));
}

TEST(PrintReader, WorksOutWhatIsDerived)
{
    SmallNotebook book;
    const auto mix = book.add(Entity::Mix, { { "mix_code", "M7" }, { "mix_made", "2026-05-04T09:00:00+02:00" } });
    const auto print = book.print("P1",
        { { "print_mix", mix }, { "print_width_mm", 148 }, { "print_height_mm", 210 }, { "coat_volume_ml", 0.6216 },
            { "coat_start", "2026-05-04T10:30:00+02:00" } });
    // 0.6216 mL on 0.03108 m2 (A5, ISO 216).
    EXPECT_NEAR(*book.number(print, "coat_per_area_ml_m2"), 20.0, 1e-9);
    EXPECT_DOUBLE_EQ(*book.number(print, "mix_age_h"), 1.5);
    EXPECT_FALSE(behind(book, print, "mix_age_h")) << "worked out, not recorded";

    book.reading(print, "before_rinse", "deepest", 1.30);
    book.reading(print, "before_rinse", "covered", 0.10);
    book.reading(print, "day_after", "deepest", 0.90);
    EXPECT_FALSE(book.get(print, "kept").has());
    book.reading(print, "day_after", "paper", 0.06, "by_eye");
    // (0.90 - 0.06) / (1.30 - 0.10)
    EXPECT_NEAR(*book.number(print, "kept"), 0.70, 1e-12);
    EXPECT_EQ(book.get(print, "kept").evidence, Evidence::Estimated) << "the paper was read by eye";
}

TEST(PrintReader, WorksOutFromChildRows)
{
    SmallNotebook book;
    const auto print = book.print("P1");
    book.add(Entity::Exposure,
        { { "expose_number", 1 }, { "expose_start", "2026-06-21T12:00:00Z" },
            { "expose_end", "2026-06-21T12:10:00Z" } },
        print);
    book.add(Entity::Meter, { { "meter_uva_w_m2", 46.0 } }, print);
    book.add(Entity::Meter, { { "meter_uva_w_m2", 48.0 } }, print);
    EXPECT_DOUBLE_EQ(*book.number(print, "expose_minutes"), 10.0);
    // Mean 47 W/m2 for 600 s: 28,200 J/m2.
    EXPECT_NEAR(*book.number(print, "dose_j_cm2"), 2.82, 1e-12);
    EXPECT_EQ(book.get(print, "dose_j_cm2").evidence, Evidence::Measured);
}

TEST(PrintReader, APrintWithNothingKnowsNothing)
{
    SmallNotebook book;
    book.add(Entity::Print, {});
    const PrintReader reader(book.notebook());
    const auto& fields = book.catalogue().printFields();
    for (int i = 0; i < int(fields.size()); ++i) {
        EXPECT_FALSE(reader.get(0, i).has()) << fields[size_t(i)].key.toStdString();
        EXPECT_FALSE(reader.get(0, i).evidence != Evidence::Measured) << fields[size_t(i)].key.toStdString();
    }
}

TEST(PrintReader, WhatIsNotThereIsUnknown)
{
    SmallNotebook book;
    book.print("P1");
    const PrintReader reader(book.notebook());
    EXPECT_FALSE(reader.get(0, u"no_such_field").has());
    EXPECT_FALSE(reader.get(0, -1).has());
    EXPECT_FALSE(reader.get(0, 100'000).has());
    EXPECT_FALSE(reader.get(-1, 0).has());
    EXPECT_FALSE(reader.get(1, 0).has()) << "there is one print only";
    EXPECT_FALSE(reader.rowBehind(0, -1));
    EXPECT_FALSE(reader.rowBehind(7, 0));
}

} // namespace WASHFAST_FILE
