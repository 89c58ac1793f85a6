// What the headings of a table mean. Outside value: the inch of NIST Special Publication 811 (2008), appendix B.8.
#include "core/exchange/import_mapping.h"
#include "tests/support/import_desk.h"
#include "tests/support/one_more_field.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::exchange;
using namespace washfast::test;

namespace {

const Catalogue& catalogue()
{
    static const Catalogue made = standardCatalogue();
    return made;
}

MappedColumn one(const char* heading, const char* key = nullptr)
{
    HeadingChoices choices;
    if (key)
        choices.insert(text(heading), text(key));
    return mapHeadings({ text(heading) }, catalogue(), choices).columns.front();
}

std::string keyOf(const MappedColumn& column)
{
    return column.use == ColumnUse::Field ? catalogue().printFields()[size_t(column.field)].key.toStdString() : "";
}

} // namespace

TEST(ImportMapping, EveryKeyAndEveryLabelFindsItsField)
{
    const auto& fields = catalogue().printFields();
    for (const auto& spelt : std::initializer_list<QString (*)(const Field&)> { [](const Field& f) { return f.key; },
             [](const Field& f) { return f.label; }, [](const Field& f) { return f.labelWithUnit(); },
             [](const Field& f) { return f.key.toUpper(); },
             [](const Field& f) { return QString(f.key).replace(QLatin1Char('_'), QLatin1Char(' ')); } }) {
        QStringList headings;
        for (const auto& field : fields)
            headings << spelt(field);
        const auto mapping = mapHeadings(headings, catalogue());
        EXPECT_THAT(mapping.faults(), testing::IsEmpty());
        for (size_t i = 0; i < fields.size(); ++i) {
            const auto& column = mapping.columns[i];
            EXPECT_EQ(column.use, fields[i].derived() ? ColumnUse::WorkedOut : ColumnUse::Field)
                << column.heading.toStdString();
            EXPECT_EQ(column.field, int(i)) << column.heading.toStdString();
        }
    }
}

TEST(ImportMapping, UnitsInHeadingsAreTakenOver)
{
    struct Case {
        const char* heading;
        const char* key;
        const char* unit;
    };
    for (const auto& c : { Case { "Mix on the sheet [µL]", "coat_volume_ml", "µL" },
             Case { "mix on the sheet (µl)", "coat_volume_ml", "µl" }, Case { "coat_volume_l", "coat_volume_ml", "l" },
             Case { "Coated width, in", "print_width_mm", "in" }, Case { "Coated width [″]", "print_width_mm", "″" },
             Case { "Coated height / ″", "print_height_mm", "″" },
             Case { "Room temperature / °F", "room_temperature_c", "°F" },
             Case { "bath1_seconds", "bath1_minutes", "seconds" },
             Case { "Cloud at the start [eighths]", "cloud_start_eighths", "eighths" },
             Case { "Share of the sky seen [%]", "expose_sky_share", "%" } }) {
        const auto column = one(c.heading);
        EXPECT_EQ(keyOf(column), c.key) << c.heading;
        EXPECT_EQ(column.unit, text(c.unit)) << c.heading;
    }
}

TEST(ImportMapping, AUnitThatCannotBeTurnedIsAFault)
{
    const auto column = one("Mix on the sheet [g]");
    EXPECT_TRUE(column.fault);
    EXPECT_THAT(column.says.toStdString(), testing::HasSubstr("cannot be turned into the mL"));
}

TEST(ImportMapping, AnUnknownUnitIsLeftOutUnlessAPersonSaysWhatItIs)
{
    const auto column = one("Mix on the sheet [drops]");
    EXPECT_EQ(column.use, ColumnUse::Unknown);
    EXPECT_FALSE(column.fault);
    EXPECT_EQ(keyOf(one("Mix on the sheet [drops]", "coat_volume_ml")), "coat_volume_ml");
}

TEST(ImportMapping, WhatIsUnknownIsReportedAndNotGuessed)
{
    for (const char* heading : { "Remarks", "x", "coat", "density", "42", "Prints" }) {
        const auto column = one(heading);
        EXPECT_EQ(column.use, ColumnUse::Unknown) << heading;
        EXPECT_THAT(column.says.toStdString(), testing::HasSubstr(heading));
    }
    EXPECT_EQ(one("").use, ColumnUse::LeftOut);
    EXPECT_EQ(one("  ").use, ColumnUse::LeftOut);
}

TEST(ImportMapping, APersonsChoiceCounts)
{
    EXPECT_EQ(keyOf(one("Menge (µL)", "coat_volume_ml")), "coat_volume_ml");
    EXPECT_EQ(one("Menge (µL)", "coat_volume_ml").unit, text("µL"));
    EXPECT_EQ(keyOf(one("Tool", "print_notes")), "print_notes");
    EXPECT_EQ(one("Tool", "").use, ColumnUse::LeftOut);
    EXPECT_EQ(one("Datum", "date").use, ColumnUse::Day);
    EXPECT_TRUE(one("Tool", "no_such_field").fault);
    EXPECT_TRUE(one("Tool", "kept").fault) << "what is worked out cannot be read";
    const auto other_case = mapHeadings({ text("Menge") }, catalogue(), { { text("menge"), text("coat_volume_ml") } });
    EXPECT_EQ(keyOf(other_case.columns.front()), "coat_volume_ml");
}

TEST(ImportMapping, AChoiceForAHeadingThatIsNotThereIsAFault)
{
    const auto mapping = mapHeadings({ text("Tool") }, catalogue(), { { text("Bottle"), text("mix_code") } });
    ASSERT_EQ(mapping.faults().size(), 1);
    EXPECT_THAT(mapping.faults().front().toStdString(), testing::HasSubstr("Bottle"));
}

TEST(ImportMapping, TwoColumnsForOneFieldAreAFault)
{
    const auto mapping = mapHeadings({ text("Tool"), text("coat_tool"), text("date"), text("Day") }, catalogue());
    EXPECT_EQ(mapping.faults().size(), 2);
    EXPECT_FALSE(mapping.columns[0].fault);
    EXPECT_TRUE(mapping.columns[1].fault);
    EXPECT_TRUE(mapping.columns[3].fault);
}

TEST(ImportMapping, ATableWithoutAnyFieldIsAFault)
{
    EXPECT_EQ(mapHeadings({ text("a"), text("b") }, catalogue()).faults().size(), 1);
    EXPECT_EQ(mapHeadings({}, catalogue()).faults().size(), 1);
}

TEST(ImportMapping, WorkedOutHeadingsAreToldInOneSentence)
{
    const auto mapping
        = mapHeadings({ text("print_code"), text("kept"), text("Dose [J/cm²]"), text("x") }, catalogue());
    EXPECT_THAT(mapping.faults(), testing::IsEmpty());
    ASSERT_EQ(mapping.notImported().size(), 2);
    EXPECT_THAT(mapping.notImported()[1].toStdString(), testing::HasSubstr("kept, Dose [J/cm²]"));
}

TEST(ImportMapping, AFieldThatWasAddedToTheCatalogueIsFoundWithoutBeingNamedAnywhere)
{
    const auto grown = catalogueWithCurl();
    for (const char* heading : { "dry_curl_mm", "Curl of the sheet [mm]", "curl of the sheet (in)" }) {
        const auto column = mapHeadings({ text(heading) }, grown.catalogue).columns.front();
        ASSERT_EQ(column.use, ColumnUse::Field) << heading;
        EXPECT_EQ(grown.catalogue.printFields()[size_t(column.field)].key, curlKey());
    }
    ImportDesk desk(grown.catalogue, grown.options());
    must(desk.take("Print;Curl of the sheet (in)\nA1;0,5\nA2;1,5\n"));
    EXPECT_NEAR(desk.number("A1", "dry_curl_mm").value_or(0), 12.7, 1e-12); // 1 in is 25.4 mm exactly
    EXPECT_EQ(desk.refused("Print;Curl of the sheet [mm]\nA3;90,0\n"),
        QStringList {
            text("Line 2, Curl of the sheet [mm]: 90 mm is outside of what is plausible, which is 0 to 80 mm.") });
}

} // namespace WASHFAST_FILE
