// Tables into a notebook: a teacher's table with its mistakes, and one row after the other of what may stand in a cell.
// Invented data throughout.
#include "tests/support/import_desk.h"

#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::exchange;
using namespace washfast::test;
using testing::ElementsAre;
using testing::IsEmpty;

namespace {

/// 52 prints as a teacher writes them down: semicolons, decimal commas, local dates, units in the headings; seven of
/// the rows have a mistake each, of seven kinds.
QByteArray springTerm()
{
    return bytesOf(QStringLiteral(WASHFAST_TEST_DATA "/tables/spring_term.csv"));
}

const QStringList& mistakes()
{
    static const QStringList lines {
        text("Line 7, Mix on the sheet [µL]: “3O0” is not a number."),
        text("Line 14, Tool: “sponge” is none of the choices, which are: brush; foam brush; rod; spray; dip."),
        text("Line 21, Density, a day after, deepest: 11.2 is outside of what is plausible, which is -0.1 to 3."),
        text("Line 26, Date: In “4/5/2026” the day and the month can be taken for one another. Write the year first: "
             "2026-05-04."),
        text("Line 32, Exposure ends: “Exposure ends” (2026-04-27T09:02:00+02:00) is before “Exposure starts” "
             "(2026-04-27T10:17:00+02:00)."),
        text("Line 40, Print: The code F3-04 stands in line 39 already."),
        text("Line 46, Room humidity [%]: “Room humidity” of the session F3 is 61 % in line 36 and 16 % here."),
    };
    return lines;
}

} // namespace

TEST(ImportTable, EveryMistakeIsNamedWithItsLineAndReason)
{
    const ImportDesk desk;
    EXPECT_EQ(desk.refused(springTerm()), mistakes());
    const auto preview = desk.look(springTerm());
    EXPECT_EQ(preview.rows.size(), 52U);
    EXPECT_EQ(preview.count(ImportRow::State::New), 45);
    EXPECT_THAT(preview.faults, IsEmpty());
    EXPECT_THAT(preview.mapping.notImported(),
        ElementsAre(text("“Bemerkung” is the name of no field. Map it by hand to have it read."),
            text("Worked out by the program, so not read from the table: Drying time [min].")));
    EXPECT_THAT(preview.warnings,
        ElementsAre(
            text("“Density, before the rinse, deepest” has decimal points and decimal commas; what can be read in two "
                 "ways is refused.")));
}

TEST(ImportTable, AllOrNothing)
{
    ImportDesk desk;
    const auto error = fails(desk.take(springTerm()));
    EXPECT_EQ(error.says, text("Nothing was imported, because 7 of 52 rows cannot be taken as they are."));
    EXPECT_EQ(desk.prints(), 0);
    EXPECT_EQ(desk.notebook().table(Entity::Session).rows(), 0) << "not even a session is left behind";
    EXPECT_FALSE(must(desk.file().nextUndo()).has_value());
}

TEST(ImportTable, TheGoodRowsWhenAskedInOneStepThatCanBeUndone)
{
    ImportDesk desk;
    desk.headings.insert(text("Bemerkung"), text("print_notes"));
    const auto report = must(desk.take(springTerm(), true));
    EXPECT_EQ(report.imported, 45);
    EXPECT_EQ(report.refused, 7);
    EXPECT_EQ(desk.prints(), 45);
    EXPECT_EQ(desk.notebook().table(Entity::Session).rows(), 3);
    EXPECT_EQ(desk.notebook().table(Entity::Mix).rows(), 3);
    EXPECT_EQ(desk.notebook().table(Entity::Paper).rows(), 3);
    EXPECT_EQ(desk.notebook().table(Entity::Cover).rows(), 2);

    // Lines 2 and 4 of the table, read by eye.
    EXPECT_EQ(desk.number("F1-01", "print_width_mm"), 105.0);
    EXPECT_EQ(desk.iso("F1-01", "coat_start"), text("2026-04-20T09:22:00+02:00"));
    EXPECT_EQ(desk.iso("F3-01", "mix_made"), text("2026-05-10T16:40:00+02:00"));
    EXPECT_EQ(desk.word("F1-03", "paper_name"), text("Drawing block"));
    EXPECT_EQ(desk.word("F1-03", "print_notes"), text("Rand unten nicht gestrichen; sonst gut"));
    EXPECT_EQ(desk.word("F1-11", "print_notes"), text("Kind hat \"Sonne\" gerufen, dann zog es zu"));
    EXPECT_EQ(desk.get("F2-04", "coat_volume_ml"), (Known { 0.34, Evidence::Assumed })) << "340? of µL";
    EXPECT_EQ(desk.number("F2-17", "coat_volume_ml"), 0.36) << "0,36 mL in a column of µL";
    EXPECT_EQ(desk.get("F1-05", "touch_before_expose"), Known {}) << "a dash is not recorded";
    EXPECT_EQ(desk.number("F2-01", "cover_thickness_mm"), 2.2);
    const auto minutes = desk.number("F1-02", "bath1_minutes");
    EXPECT_TRUE(minutes && *minutes >= 5 && *minutes <= 10) << "seconds became minutes";
    const auto light = desk.number("F1-02", "meter1_uva_w_m2");
    EXPECT_TRUE(light && *light >= 22 && *light <= 34) << "mW/cm2 became W/m2";
    EXPECT_EQ(desk.notebook().byName(Entity::Print, text("F1-06")), std::nullopt) << "line 7 was refused";
    EXPECT_EQ(desk.get("F1-12", "cloud_start_eighths").evidence, Evidence::Estimated);
    EXPECT_EQ(desk.number("F3-14", "density_before_rinse_deepest"), 1.08) << "a point among commas that cannot mislead";

    must(desk.file().undo());
    desk.reread();
    EXPECT_EQ(desk.prints(), 0);
    EXPECT_EQ(desk.notebook().table(Entity::Session).rows(), 0);
    must(desk.file().redo());
    desk.reread();
    EXPECT_EQ(desk.prints(), 45);
}

TEST(ImportTable, NoRowTwice)
{
    ImportDesk desk;
    must(desk.take(springTerm(), true));
    const auto before = must(desk.file().read());
    const auto again = must(desk.take(springTerm(), true));
    EXPECT_EQ(again.imported, 0);
    EXPECT_EQ(again.already_there, 45);
    EXPECT_EQ(again.refused, 7);
    EXPECT_EQ(again.step, 0) << "nothing was written";
    EXPECT_THAT(differences(before, desk.notebook()), IsEmpty());
}

TEST(ImportTable, ARowIsRecognisedAlthoughThePrintWasCorrectedSince)
{
    ImportDesk desk;
    const QByteArray table = "print_code,coat_volume_ml\nA1,0.6\nA2,0.7\n";
    must(desk.take(table));
    const auto id = must(desk.file().read()).byName(Entity::Print, text("A1")).value_or(0);
    must(setField(desk.file(), { Entity::Print, id }, "coat_volume_ml", Known { 0.65 }));
    desk.reread();
    const auto again = must(desk.take(table));
    EXPECT_EQ(again.already_there, 2);
    EXPECT_EQ(desk.number("A1", "coat_volume_ml"), 0.65);
}

TEST(ImportTable, TheSameCodeWithOtherValuesIsRefusedByTheFirstThatDiffers)
{
    ImportDesk desk;
    must(desk.take("Print,Tool,Passes,Room humidity,Session\nA1,brush,2,45,S1\n"));
    EXPECT_EQ(must(desk.take("Print,Passes\na1 ,2\n")).already_there, 1) << "what is said is there";
    EXPECT_THAT(desk.refused("Print,Tool,Passes\nA1,rod,3\n"),
        ElementsAre(text("Line 2, Tool: The print A1 is in the notebook with brush; here it is rod.")));
    EXPECT_THAT(desk.refused("Print,Light while coating\nA1,amber\n"),
        ElementsAre(
            text("Line 2, Light while coating: The print A1 is in the notebook without it; here it is amber.")));
    EXPECT_THAT(desk.refused("Print,Passes\nA1,2?\n"),
        ElementsAre(
            text("Line 2, Passes: The print A1 is in the notebook with this as measured; here it is assumed.")));
    EXPECT_THAT(desk.refused("Print,Session,Room humidity\nA1,S1,46\n"),
        ElementsAre(text("Line 2, Room humidity: The print A1 is in the notebook with 45; here it is 46.")));
}

TEST(ImportTable, CodesAreMadeWhenThereAreNone)
{
    ImportDesk desk;
    must(desk.take("print_code,session_code\nS1-01,S1\n"));
    const QByteArray table = "session_code,coat_passes\nS1,2\nS1,3\nS1,2\n,4\n";
    const auto preview = desk.look(table);
    ASSERT_EQ(preview.rows.size(), 4U);
    EXPECT_EQ(preview.rows[0].code, text("S1-02")) << "S1-01 is taken";
    EXPECT_EQ(preview.rows[2].code, text("S1-04"));
    EXPECT_EQ(preview.rows[3].code, text("print-01"));
    EXPECT_THAT(
        preview.warnings, ElementsAre(text("Line 4 says the same as line 2; both are taken as prints of their own.")));
    must(desk.take(table));
    EXPECT_EQ(desk.prints(), 5);
    EXPECT_EQ(must(desk.take(table)).already_there, 4) << "also both of the rows that say the same";
    EXPECT_EQ(must(desk.take(table + "S1,5\n")).imported, 1) << "a row that was added to the table since";
    EXPECT_EQ(desk.number("S1-05", "coat_passes"), 5.0);
}

TEST(ImportTable, ARowWithoutItsCodeIsRefused)
{
    const ImportDesk desk;
    EXPECT_THAT(desk.refused("print_code,coat_passes\nA1,2\n,3\n"),
        ElementsAre(text("Line 3, print_code: The row has no code.")));
}

TEST(ImportTable, DecimalMarksFollowTheTable)
{
    const ImportDesk desk;
    const auto number = [&](const QByteArray& table) -> std::optional<double> {
        const auto preview = desk.look(table);
        const int field = desk.catalogue().printField(text("bath1_litres"));
        for (const auto& [index, known] : preview.rows.at(0).values)
            if (index == field)
                return known.number();
        return std::nullopt;
    };
    // "1,250" alone may be 1.25 or 1250; another column or another cell tells.
    EXPECT_EQ(number("print_code;bath1_litres\nA1;1,250\n"), std::nullopt);
    EXPECT_EQ(number("print_code;bath1_litres;bath1_ph\nA1;1,250;6,5\n"), 1.25);
    EXPECT_EQ(number("print_code;bath1_litres\nA1;1,250\nA2;0,5\n"), 1.25);
    EXPECT_EQ(number("print_code;bath1_litres;bath1_ph\nA1;1.250;6.5\n"), 1.25);
    EXPECT_EQ(number("print_code;bath1_litres;bath1_ph\nA1;1.250;6,5\n"), std::nullopt) << "1250 L is not plausible";
    EXPECT_THAT(desk.refused("print_code;bath1_litres\nA1;1,250\n"),
        ElementsAre(
            text("Line 2, bath1_litres: “1,250” can be read in two ways: its mark may stand before the decimals or "
                 "between the thousands.")));
    EXPECT_THAT(desk.refused("print_code;bath1_litres;bath1_ph\nA1;2.5;6,5\nA2;2;7,1\n"), IsEmpty())
        << "each column has its own mark and leaves no doubt";
}

TEST(ImportTable, TimesTakeTheDayOfTheirRowAndTheClockThatIsGiven)
{
    ImportDesk desk;
    must(desk.take("print_code,date,session_code,coat_start,expose_start,expose_end,hold_end\n"
                   "A1,2026-03-28,S1,10:15,2026-03-28 11:00,11:10,\n"
                   "A2,29.03.2026,S2,10:15,11:00:30,2026-03-29T11:10Z,30.03.2026 08:00\n"));
    EXPECT_EQ(desk.iso("A1", "coat_start"), text("2026-03-28T10:15:00+01:00"));
    EXPECT_EQ(desk.iso("A2", "coat_start"), text("2026-03-29T10:15:00+02:00")) << "clocks went forward that night";
    EXPECT_EQ(desk.iso("A2", "expose_start"), text("2026-03-29T11:00:30+02:00"));
    EXPECT_EQ(desk.iso("A2", "expose_end"), text("2026-03-29T11:10:00+00:00"));
    EXPECT_EQ(desk.iso("A2", "hold_end"), text("2026-03-30T08:00:00+02:00"));
    EXPECT_EQ(desk.get("A1", "session_start").evidence, Evidence::Estimated)
        << "the day stands for the session's start";
    EXPECT_EQ(desk.iso("A1", "session_start"), text("2026-03-28T00:00:00+01:00"));

    EXPECT_THAT(desk.refused("print_code,date,coat_start\nB1,29.03.2026,02:30\n"),
        ElementsAre(text("Line 2, coat_start: There is no 02:30 on that clock: it was put forward over it.")));
    EXPECT_THAT(desk.refused("print_code,coat_start\nB1,10:15\n"),
        ElementsAre(text(
            "Line 2, coat_start: “10:15” is a time without a date; a column “date” can give the day of the row.")));
    EXPECT_THAT(desk.refused("print_code,date,coat_start\nB1,10:15,10:20\n"),
        ElementsAre(text("Line 2, date: “10:15” is a time; a date is wanted here.")));
}

TEST(ImportTable, TheDayOfASessionHasToBeThatOfItsStart)
{
    ImportDesk desk;
    must(desk.take("print_code,session_code,session_start\nA1,S1,2026-05-04 10:15\n"));
    EXPECT_EQ(must(desk.take("print_code,session_code,date\nA2,S1,2026-05-04\n")).imported, 1);
    EXPECT_EQ(desk.iso("A2", "session_start"), text("2026-05-04T10:15:00+02:00"));
    EXPECT_THAT(desk.refused("print_code,session_code,date\nA3,S1,2026-05-05\n"),
        ElementsAre(
            text("Line 2, Session starts: “Session starts” of the session S1 is 2026-05-04T10:15:00+02:00 in the "
                 "notebook and 2026-05-05 here.")));
    // A full start in a later row of the same table makes the day of an earlier one exact.
    must(desk.take("print_code,session_code,date,session_start\nC1,S7,2026-06-01,\nC2,S7,2026-06-01,10:30\n"));
    EXPECT_EQ(desk.get("C1", "session_start").evidence, Evidence::Measured);
    EXPECT_EQ(desk.iso("C1", "session_start"), text("2026-06-01T10:30:00+02:00"));
}

TEST(ImportTable, ChoicesYesNoAndSets)
{
    ImportDesk desk;
    must(desk.take("print_code,coat_tool,dry_covered,print_outcome,expose_sky_share\n"
                   "A1,Foam Brush,yes,\"ran off; PALE\",70 %\nA2,foam_brush,0,\"kept, striped\",0.7\n"));
    EXPECT_EQ(desk.word("A1", "coat_tool"), text("foam_brush"));
    EXPECT_EQ(desk.get("A1", "dry_covered").yes(), true);
    EXPECT_EQ(desk.get("A2", "dry_covered").yes(), false);
    EXPECT_EQ(desk.word("A1", "print_outcome"), text("pale; ran_off"));
    EXPECT_EQ(desk.word("A2", "print_outcome"), text("kept; striped"));
    EXPECT_EQ(desk.number("A1", "expose_sky_share"), 0.7);
    EXPECT_THAT(desk.refused("print_code,dry_covered\nB1,perhaps\n"),
        ElementsAre(text("Line 2, dry_covered: “perhaps” is neither yes nor no.")));
    EXPECT_EQ(desk.refused("print_code,coat_volume_ml\nB1,3 g\n"),
        QStringList { text("Line 2, coat_volume_ml: The unit of “3 g” cannot be turned into mL.") });
}

TEST(ImportTable, WhatCannotBeTrueTogetherIsRefused)
{
    const ImportDesk desk;
    const auto refuses = [&](const char* headings, const char* cells) {
        const auto all = desk.refused(QByteArray("print_code,date,") + headings + "\nA1,2026-05-04," + cells + "\n");
        return all.size() == 1 ? all.front().toStdString() : std::to_string(all.size()) + " refusals";
    };
    using testing::HasSubstr;
    EXPECT_THAT(refuses("coat_start,coat_end", "10:10,10:09"), HasSubstr("“Coating ends” ("));
    EXPECT_THAT(refuses("expose_end,rinse_start", "11:00,10:59"), HasSubstr("Line 2, rinse_start: "));
    EXPECT_THAT(refuses("print_outcome", "kept; ran off"), HasSubstr("The outcome is both “kept” and “ran off”."));
    EXPECT_THAT(refuses("mass_bare_g,mass_coated_g", "6.2,6.1"), HasSubstr("(6.1 g) is less than"));
    EXPECT_THAT(refuses("mix_code,mix_made,coat_start", "M1,2026-05-04 12:00,11:00"), HasSubstr("“Mix made”"));
    EXPECT_THAT(
        refuses("term_name,session_code,term_start,term_end", "T,S1,2026-08-01,2026-02-01"), HasSubstr("Term ends"));
    EXPECT_EQ(refuses("expose_start,expose_end", "11:00,11:00"), "0 refusals");
    EXPECT_EQ(refuses("mass_bare_g,mass_before_expose_g", "6.2,6.19"), "0 refusals") << "dry air can do that";
}

TEST(ImportTable, AMixOfTheNotebookThatWasMadeLaterIsNoticed)
{
    ImportDesk desk;
    must(desk.take("print_code,mix_code,mix_made\nA1,M1,2026-05-04 12:00\n"));
    EXPECT_THAT(desk.refused("print_code,mix_code,coat_start\nA2,M1,2026-05-04 11:00\n"), testing::SizeIs(1));
}

TEST(ImportTable, LinkedRecordsAreWrittenWhereNothingStands)
{
    ImportDesk desk;
    must(desk.take("print_code,session_code,room_humidity_pct\nA1,S1,45\n"));
    must(desk.take("print_code,session_code,room_temperature_c,site_name,site_latitude_deg,term_name\n"
                   "A2,s1,21.5,Yard,53.1,Spring\nA3,S1,21.5,yard,53.1,Spring\nA4,S1,,,,\n"));
    EXPECT_EQ(desk.notebook().table(Entity::Session).rows(), 1);
    EXPECT_EQ(desk.notebook().table(Entity::Site).rows(), 1);
    EXPECT_EQ(desk.number("A1", "room_temperature_c"), 21.5) << "of the session that was there";
    EXPECT_EQ(desk.number("A1", "site_latitude_deg"), 53.1);
    EXPECT_EQ(desk.word("A4", "term_name"), text("Spring"));
    EXPECT_THAT(desk.refused("print_code,session_code,room_humidity_pct\nA5,S1,54\n"),
        ElementsAre(text(
            "Line 2, room_humidity_pct: “Room humidity” of the session S1 is 45 % in the notebook and 54 % here.")));
    EXPECT_THAT(desk.refused("print_code,session_code,site_name\nA5,S1,Roof\n"),
        ElementsAre(text("Line 2, site_name: “Site” of the session S1 is Yard in the notebook and Roof here.")));
    EXPECT_THAT(desk.refused("print_code,room_humidity_pct,site_height_m,cover_kind\nA5,45,12,glass\n"),
        ElementsAre(
            text("Line 2, room_humidity_pct: “Room humidity” belongs to a session, and the row names none (column "
                 "session_code)."),
            text("Line 2, site_height_m: “Height above sea level” belongs to a session, and the row names none (column "
                 "session_code)."),
            text("Line 2, cover_kind: “Kind of cover” belongs to a cover, and the row names none (column "
                 "cover_name).")));
}

TEST(ImportTable, ARefusedRowSaysNothingAboutLinkedRecords)
{
    ImportDesk desk;
    must(desk.take("print_code,session_code,room_humidity_pct,coat_tool\nA1,S1,99,sponge\nA2,S1,45,brush\n", true));
    EXPECT_EQ(desk.number("A2", "room_humidity_pct"), 45.0);
    must(desk.take("print_code,mix_code,coat_tool\nB1,M9,sponge\nB2,M1,rod\n", true));
    EXPECT_EQ(desk.notebook().byName(Entity::Mix, text("M9")), std::nullopt);
}

TEST(ImportTable, FieldsForEveryRow)
{
    ImportDesk desk;
    desk.options.every_row = { { text("session_code"), text("S4") }, { text("room_humidity_pct"), text("~50") } };
    must(desk.take("print_code,coat_passes\nA1,2\nA2,3\n"));
    EXPECT_EQ(desk.word("A2", "session_code"), text("S4"));
    EXPECT_EQ(desk.get("A1", "room_humidity_pct"), (Known { 50.0, Evidence::Estimated }));
    desk.options.every_row
        = { { text("coat_passes"), text("2") }, { text("kept"), text("1") }, { text("mix_ph"), text("x") } };
    EXPECT_EQ(desk.look("print_code,coat_passes\nA1,2\n").faults.size(), 3);
    desk.options.every_row = { { text("mix_ph"), text("5") }, { text("mix_ph"), text("6") } };
    EXPECT_EQ(desk.look("print_code,mix_code\nA1,M1\n").faults.size(), 1);
}

TEST(ImportTable, NumbersOfAnySizeWhenAsked)
{
    ImportDesk desk;
    desk.options.any_size = true;
    must(desk.take("print_code,coat_volume_ml\nA1,700\n"));
    EXPECT_EQ(desk.number("A1", "coat_volume_ml"), 700.0);
}

TEST(ImportTable, WhatTheFileItselfHasWrongIsRefusedByLine)
{
    const ImportDesk desk;
    const auto rows = desk.look("print_code,coat_tool\nA1,brush,more\nA2,rod\nA3\n").rows;
    ASSERT_EQ(rows.size(), 3U);
    EXPECT_EQ(rows[0].state, ImportRow::State::Refused);
    EXPECT_EQ(rows[0].refusals.front().line, 2);
    EXPECT_EQ(rows[1].state, ImportRow::State::New);
    EXPECT_FALSE(desk.look(QByteArray("\0\0\0", 3)).faults.isEmpty());
    EXPECT_FALSE(desk.look("").faults.isEmpty());
}

TEST(ImportTable, SomebodyElseInBetweenIsAnErrorAndLosesNothing)
{
    ImportDesk desk;
    const auto preview = desk.look("print_code,session_code\nA1,S1\nA2,S1\n");
    addPrint(desk.file(), "A2");
    const auto error = fails(applyImport(desk.file(), preview, false, text("Import")));
    EXPECT_THAT(
        error.sentence().toStdString(), testing::HasSubstr("line 3: There is a print with the name A2 already."));
    desk.reread();
    EXPECT_EQ(desk.prints(), 1);
    EXPECT_EQ(desk.notebook().table(Entity::Session).rows(), 0);
}

} // namespace WASHFAST_FILE
