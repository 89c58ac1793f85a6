// Numbers, moments, headings and units as typed. Outside values: RFC 3339 section 5.8 for moments, the SI Brochure
// (BIPM, 9th edition 2019) and NIST Special Publication 811 (2008), appendix B, for units.
#include "core/quantity/number_text.h"

#include <QRegularExpression>
#include <cmath>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace Qt::StringLiterals;

namespace {

double value(QStringView text, DecimalMark column = DecimalMark::Undecided)
{
    const NumberText number = parseNumber(text, column);
    EXPECT_EQ(number.fault, NumberFault::None) << number.says.toStdString();
    return number.value.value_or(std::nan(""));
}

NumberFault fault(QStringView text, DecimalMark column = DecimalMark::Undecided)
{
    const NumberText number = parseNumber(text, column);
    EXPECT_EQ(number.value.has_value(), number.fault == NumberFault::None);
    EXPECT_EQ(number.says.isEmpty(), number.fault == NumberFault::None);
    return number.fault;
}

} // namespace

TEST(NumberText, ReadsBothDecimalMarks)
{
    EXPECT_EQ(value(u"0,60"), 0.6);
    EXPECT_EQ(value(u"0.60"), 0.6);
    EXPECT_EQ(value(u".5"), 0.5);
    EXPECT_EQ(value(u",5"), 0.5);
    EXPECT_EQ(value(u"12"), 12);
    EXPECT_EQ(value(u"0012"), 12);
    EXPECT_EQ(value(u"  3.25\t"), 3.25);
    EXPECT_EQ(value(u"1234,567"), 1234.567); // four digits before it, so it does not group
    EXPECT_EQ(value(u"0,250"), 0.25); // nobody groups behind a zero
    EXPECT_EQ(value(u"1e-3"), 1e-3);
    EXPECT_EQ(value(u"2,5E+02"), 250);
    EXPECT_EQ(value(u"1,250e3"), 1250); // grouping and an exponent do not go together
}

TEST(NumberText, ReadsGroupsOfThree)
{
    EXPECT_EQ(value(u"1.250,5"), 1250.5);
    EXPECT_EQ(value(u"1,250.5"), 1250.5);
    EXPECT_EQ(value(u"1 250"), 1250);
    EXPECT_EQ(value(u"1\u00a0250,5"), 1250.5); // no-break space
    EXPECT_EQ(value(u"1\u202f250\u202f000"), 1250000); // narrow no-break space
    EXPECT_EQ(value(u"1\u2009250.25"), 1250.25); // thin space
    EXPECT_EQ(value(u"1'250.5"), 1250.5);
    EXPECT_EQ(value(u"1.250.000"), 1250000);
    EXPECT_EQ(value(u"1,250,000"), 1250000);
}

TEST(NumberText, ReadsSigns)
{
    EXPECT_EQ(value(u"-2.5"), -2.5);
    EXPECT_EQ(value(u"\u22122,5"), -2.5); // minus sign
    EXPECT_EQ(value(u"\u20132,5"), -2.5); // en dash, which word processors put
    EXPECT_EQ(value(u"+4"), 4);
    EXPECT_EQ(value(u"- 4"), -4);
    EXPECT_EQ(value(u"1e\u22123"), 1e-3);
    EXPECT_TRUE(std::signbit(value(u"-0")));
}

TEST(NumberText, MarksEstimatesAndAssumptions)
{
    EXPECT_EQ(parseNumber(u"0.6").flag, NumberFlag::Plain);
    EXPECT_EQ(parseNumber(u"~0,6").flag, NumberFlag::Estimated);
    EXPECT_EQ(parseNumber(u"~ 20").value, 20);
    EXPECT_EQ(parseNumber(u"0,6?").flag, NumberFlag::Assumed);
    EXPECT_EQ(parseNumber(u"20 min ?").flag, NumberFlag::Assumed);
    EXPECT_EQ(parseNumber(u"~0,6?").flag, NumberFlag::Assumed); // the weaker of both
    EXPECT_EQ(fault(u"~"), NumberFault::NotANumber);
    EXPECT_EQ(fault(u"?"), NumberFault::NotANumber);
}

TEST(NumberText, KeepsUnitsApart)
{
    const NumberText percent = parseNumber(u"55 %");
    EXPECT_EQ(percent.value, 55);
    EXPECT_TRUE(percent.percent());
    EXPECT_EQ(parseNumber(u"20\u202f°C").unit, u"°C");
    EXPECT_EQ(parseNumber(u"1,5 mL").unit, u"mL");
    EXPECT_EQ(parseNumber(u"3 h").unit, u"h");
    EXPECT_EQ(parseNumber(u"3").unit, QString());
    EXPECT_EQ(fault(u"3 apples"), NumberFault::NotANumber);
    EXPECT_EQ(fault(u"2/1"), NumberFault::NotANumber); // the unit 1 is not typed
}

TEST(NumberText, RefusesWhatIsNoNumber)
{
    for (const char16_t* text :
        { u"abc", u"-", u".", u",", u"5.", u"5,", u"1.2.3", u"1,25,000", u"1 25", u"1.250 000,5", u"1'250 000", u"0x10",
            u"nan", u"inf", u"1e", u"--1", u"10:15", u"2026-05-04", u"\u0663", u"\uff13", u"3-5", u"<0.05" })
        EXPECT_EQ(fault(text), NumberFault::NotANumber) << QString::fromUtf16(text).toStdString();
    EXPECT_EQ(fault(u""), NumberFault::Empty);
    EXPECT_EQ(fault(u" \t"), NumberFault::Empty);
    EXPECT_EQ(fault(u"1e999"), NumberFault::OutOfRange);
    EXPECT_EQ(fault(u"1e-999"), NumberFault::OutOfRange);
    EXPECT_EQ(fault(QString(5000, u'1')), NumberFault::NotANumber);
    EXPECT_LT(parseNumber(QString(5000, u'x')).says.size(), 100);
    EXPECT_TRUE(parseNumber(u"12 parsecs").says.contains(u"12 parsecs"));
}

TEST(NumberText, AsksForTheColumnWhenAmbiguous)
{
    EXPECT_EQ(fault(u"1,250"), NumberFault::Ambiguous);
    EXPECT_EQ(value(u"1,250", DecimalMark::Comma), 1.25);
    EXPECT_EQ(value(u"1,250", DecimalMark::Point), 1250);
    EXPECT_EQ(fault(u"1.250", DecimalMark::Mixed), NumberFault::Ambiguous);
    EXPECT_EQ(value(u"1.250", DecimalMark::Comma), 1250);
    const NumberText point = parseNumber(u"1.250");
    EXPECT_EQ(point.value, 1.25);
    EXPECT_TRUE(point.point_assumed);
    EXPECT_FALSE(parseNumber(u"1.25").point_assumed);
    EXPECT_FALSE(parseNumber(u"1.250", DecimalMark::Point).point_assumed);
    EXPECT_EQ(fault(u"1,250.5", DecimalMark::Comma), NumberFault::AgainstColumn);
    EXPECT_EQ(fault(u"0,60", DecimalMark::Point), NumberFault::AgainstColumn);
    EXPECT_EQ(value(u"17", DecimalMark::Comma), 17);
}

TEST(NumberText, DecidesTheMarkOfAColumn)
{
    const ColumnMark comma = decideDecimalMark({ u""_s, u"1,250"_s, u"7"_s, u"0,60"_s, u"n/a"_s });
    EXPECT_EQ(comma.mark, DecimalMark::Comma);
    EXPECT_EQ(comma.comma_at, 3);
    EXPECT_FALSE(comma.point_at);
    EXPECT_EQ(decideDecimalMark({ u"1,250"_s, u"1,250.5"_s }).mark, DecimalMark::Point);
    EXPECT_EQ(decideDecimalMark({ u"~21.5 °C"_s }).mark, DecimalMark::Point);
    EXPECT_EQ(decideDecimalMark({ u"1,250"_s, u"2.500"_s, u"12"_s }).mark, DecimalMark::Undecided);
    EXPECT_EQ(decideDecimalMark({}).mark, DecimalMark::Undecided);
    const ColumnMark mixed = decideDecimalMark({ u"0.5"_s, u"0,5"_s });
    EXPECT_EQ(mixed.mark, DecimalMark::Mixed);
    EXPECT_EQ(mixed.point_at, 0);
    EXPECT_EQ(mixed.comma_at, 1);
    EXPECT_EQ(decideDecimalMark({ u"0,5 of it"_s }).mark, DecimalMark::Undecided); // no number, no evidence
}

// RFC 3339, section 5.8.
TEST(MomentText, ReadsTheExamplesOfRfc3339)
{
    const MomentText first = parseMoment(u"1985-04-12T23:20:50.52Z");
    EXPECT_EQ(first.date, QDate(1985, 4, 12));
    EXPECT_EQ(first.time, QTime(23, 20, 50, 520));
    EXPECT_EQ(first.offset_s, 0);
    const MomentText second = parseMoment(u"1996-12-19T16:39:57-08:00");
    EXPECT_EQ(second.time, QTime(16, 39, 57));
    EXPECT_EQ(second.offset_s, -8 * 3600);
    EXPECT_EQ(parseMoment(u"1937-01-01T12:00:27.87+00:20").offset_s, 1200);
    EXPECT_EQ(parseMoment(u"1990-12-31T23:59:60Z").fault,
        MomentFault::NoSuchTime); // a leap second; clocks of a lab show none
}

TEST(MomentText, ReadsOtherUnmistakableForms)
{
    EXPECT_EQ(parseMoment(u"2026-05-04").iso(), u"2026-05-04");
    EXPECT_FALSE(parseMoment(u"2026-05-04").time);
    EXPECT_EQ(parseMoment(u"2026-05-04 10:15").iso(), u"2026-05-04T10:15:00");
    EXPECT_FALSE(parseMoment(u"2026-05-04 10:15").offset_s);
    EXPECT_EQ(parseMoment(u" 2026-5-4  9:05 ").iso(), u"2026-05-04T09:05:00");
    EXPECT_EQ(parseMoment(u"04.05.2026 10:15").iso(), u"2026-05-04T10:15:00");
    EXPECT_EQ(parseMoment(u"4. 5. 2026, 10:15").iso(), u"2026-05-04T10:15:00");
    EXPECT_EQ(parseMoment(u"2026/05/04").iso(), u"2026-05-04");
    EXPECT_EQ(parseMoment(u"2026-05-04T10:15:30,25+0200").iso(), u"2026-05-04T10:15:30.250+02:00");
    EXPECT_EQ(parseMoment(u"2026-05-04T10:15\u221203:30").iso(), u"2026-05-04T10:15:00-03:30");
    EXPECT_EQ(parseMoment(u"2024-02-29").iso(), u"2024-02-29");
}

TEST(MomentText, RefusesDaysThatCanBeMistaken)
{
    for (const char16_t* text : { u"4/5/2026", u"4/5/2026 10:15", u"13/5/2026", u"04-05-2026", u"4/5/26" }) {
        const MomentText moment = parseMoment(text);
        EXPECT_EQ(moment.fault, MomentFault::AmbiguousDay) << QString::fromUtf16(text).toStdString();
        EXPECT_TRUE(moment.says.contains(u"day")) << moment.says.toStdString();
        EXPECT_TRUE(moment.says.contains(u"month")) << moment.says.toStdString();
        EXPECT_FALSE(moment.date);
        EXPECT_EQ(moment.iso(), QString());
    }
    EXPECT_EQ(parseMoment(u"4.5.26").fault, MomentFault::ShortYear);
}

TEST(MomentText, ATimeNeedsADate)
{
    const MomentText alone = parseMoment(u"10:15");
    EXPECT_EQ(alone.fault, MomentFault::NeedsDate);
    EXPECT_EQ(alone.time, QTime(10, 15)); // what was there is not lost
    const MomentText completed = parseMoment(u"10:15", QDate(2026, 5, 4));
    EXPECT_TRUE(completed.ok());
    EXPECT_TRUE(completed.date_from_context);
    EXPECT_EQ(completed.iso(), u"2026-05-04T10:15:00");
    EXPECT_FALSE(parseMoment(u"2026-05-05 10:15", QDate(2026, 5, 4)).date_from_context);
}

TEST(MomentText, SaysWhatIsWrong)
{
    EXPECT_EQ(parseMoment(u"").fault, MomentFault::Empty);
    EXPECT_EQ(parseMoment(u"2026-02-30").fault, MomentFault::NoSuchDay);
    EXPECT_EQ(parseMoment(u"31.04.2026").fault, MomentFault::NoSuchDay);
    EXPECT_EQ(parseMoment(u"2025-02-29").fault, MomentFault::NoSuchDay);
    EXPECT_EQ(parseMoment(u"0206-05-04").fault, MomentFault::NoSuchDay);
    EXPECT_EQ(parseMoment(u"2026-05-04 24:00").fault, MomentFault::NoSuchTime);
    EXPECT_EQ(parseMoment(u"10:75", QDate(2026, 5, 4)).fault, MomentFault::NoSuchTime);
    EXPECT_EQ(parseMoment(u"2026-05-04T10:15+15:00").fault, MomentFault::NoSuchOffset);
    EXPECT_EQ(parseMoment(u"2026-05-04T10:15+02:75").fault, MomentFault::NoSuchOffset);
    for (const char16_t* text : { u"yesterday", u"46146.427", u"2026-05", u"2026-05-04 10:15 pm", u"2026-05-04x10:15",
             u"2026-05-04T", u"2026-05-04 at noon", u"20260504", u"2026-W19-1", u"2026-05/04", u"10.15" }) {
        EXPECT_EQ(parseMoment(text).fault, MomentFault::NotAMoment) << QString::fromUtf16(text).toStdString();
        EXPECT_TRUE(parseMoment(text).says.contains(QString::fromUtf16(text)));
    }
}

TEST(Heading, SplitsBracketsAndSuffixes)
{
    struct Case {
        const char16_t *heading, *name, *unit;
        UnitFrom from;
        bool known;
    };
    const Case cases[] = {
        { u"Rinse time [s]", u"Rinse time", u"s", UnitFrom::Brackets, true },
        { u"room temp (°F)", u"room temp", u"°F", UnitFrom::Brackets, true },
        { u"Dose (J/cm²) ", u"Dose", u"J/cm²", UnitFrom::Brackets, true },
        { u"Outcome (as seen)", u"Outcome", u"as seen", UnitFrom::Brackets, false },
        { u"Sheets []", u"Sheets", u"", UnitFrom::Brackets, false },
        { u"volume_ml", u"volume", u"ml", UnitFrom::Suffix, true },
        { u"uva_w_m2", u"uva", u"w/m2", UnitFrom::Suffix, true },
        { u"coat_ml_per_m2", u"coat", u"ml/m2", UnitFrom::Suffix, true },
        { u"room_deg_c", u"room", u"degc", UnitFrom::Suffix, true },
        { u"DOSE_J_CM2", u"DOSE", u"j/cm2", UnitFrom::Suffix, true },
        { u"Rinse time / min", u"Rinse time", u"min", UnitFrom::Suffix, true },
        { u"Rinse time, min", u"Rinse time", u"min", UnitFrom::Suffix, true },
        { u"conc g/L", u"conc g/L", u"", UnitFrom::Nowhere, false },
        { u"coat_1", u"coat_1", u"", UnitFrom::Nowhere, false },
        { u"[s]", u"[s]", u"", UnitFrom::Nowhere, false },
        { u"code", u"code", u"", UnitFrom::Nowhere, false },
        { u"_ml", u"_ml", u"", UnitFrom::Nowhere, false },
        { u"", u"", u"", UnitFrom::Nowhere, false },
    };
    for (const Case& one : cases) {
        const Heading found = splitHeading(one.heading);
        EXPECT_EQ(found.name, QString::fromUtf16(one.name));
        EXPECT_EQ(found.unit, QString::fromUtf16(one.unit));
        EXPECT_EQ(found.from, one.from) << QString::fromUtf16(one.heading).toStdString();
        EXPECT_EQ(found.unit_known, one.known) << QString::fromUtf16(one.heading).toStdString();
    }
}

TEST(Units, HaveOneSpelling)
{
    EXPECT_EQ(canonicalUnit(u"ml"), u"mL");
    EXPECT_EQ(canonicalUnit(u"\u03bcL"), u"µL"); // Greek mu
    EXPECT_EQ(canonicalUnit(u"\u00b5W/cm\u00b2"), u"µW/cm2"); // micro sign, superscript
    EXPECT_EQ(canonicalUnit(u"W m\u207b\u00b2"), u"W/m2");
    EXPECT_EQ(canonicalUnit(u"mJ cm^-2"), u"mJ/cm2");
    EXPECT_EQ(canonicalUnit(u"mL per m2"), u"mL/m2");
    EXPECT_EQ(canonicalUnit(u"Minutes"), u"min");
    EXPECT_EQ(canonicalUnit(u"\u2103"), u"°C");
    EXPECT_EQ(canonicalUnit(u"percent"), u"%");
    EXPECT_EQ(canonicalUnit(u"MJ/m2"), QString()); // mega is not milli
    EXPECT_EQ(canonicalUnit(u"ML"), QString());
    EXPECT_EQ(canonicalUnit(u""), QString());
}

// NIST SP 811, appendix B.8 and B.9 (factors in bold there are exact), and the SI Brochure for the SI's own units.
TEST(Units, ConvertAsPublished)
{
    const auto is = [](double from_value, QStringView from, double to_value, QStringView to) {
        const std::optional<double> there = convert(from_value, from, to);
        ASSERT_TRUE(there) << from.toString().toStdString() << " to " << to.toString().toStdString();
        EXPECT_DOUBLE_EQ(*there, to_value) << from.toString().toStdString() << " to " << to.toString().toStdString();
        const std::optional<double> back = convert(to_value, to, from);
        ASSERT_TRUE(back);
        EXPECT_NEAR(*back, from_value, 1e-12 * std::abs(from_value));
    };
    is(1, u"min", 60, u"s"); // minute to second: 6.0 E+01
    is(1, u"h", 3600, u"s"); // hour to second: 3.6 E+03
    is(1, u"d", 86400, u"s"); // day to second: 8.64 E+04
    is(15, u"min", 0.25, u"h");
    is(1, u"in", 2.54, u"cm"); // inch to centimetre: 2.54 E+00
    is(1, u"in", 0.0254, u"m");
    is(1, u"in", 25.4, u"mm");
    is(1, u"L", 1000, u"mL"); // litre to cubic metre: 1.0 E-03
    is(1, u"mL", 1000, u"uL");
    is(1, u"kg", 1e6, u"mg");
    is(2.5, u"g", 0.0025, u"kg");
    is(32, u"°F", 273.15, u"K"); // T/K = (t/°F + 459.67)/1.8
    is(212, u"°F", (212 + 459.67) / 1.8, u"K");
    is(98.6, u"°F", (98.6 - 32) / 1.8, u"°C"); // t/°C = (t/°F - 32)/1.8
    is(25, u"°C", 298.15, u"K"); // T/K = t/°C + 273.15
    is(-40, u"°C", -40, u"°F"); // where both scales meet
    is(1, u"mbar", 100, u"Pa"); // millibar to pascal: 1.0 E+02
    is(1013.25, u"hPa", 101.325, u"kPa"); // the standard atmosphere, 101 325 Pa
    is(1, u"W/m2", 0.1, u"mW/cm2"); // 1 m2 = 10^4 cm2
    is(1, u"W/m2", 100, u"µW/cm2"); // watt per square centimetre to watt per square metre: 1.0 E+04
    is(1, u"J/cm2", 1000, u"mJ/cm2");
    is(1, u"J/cm2", 10, u"kJ/m2");
    is(45, u"%", 0.45, u"1");
    is(18, u"mL/m2", 18, u"ml/m2");
}

TEST(Units, DoNotConvertAcrossKinds)
{
    EXPECT_FALSE(convert(1, u"s", u"mL"));
    EXPECT_FALSE(convert(1, u"W/m2", u"J/m2"));
    EXPECT_FALSE(convert(1, u"%", u"°C"));
    EXPECT_FALSE(convert(1, u"furlong", u"m"));
    EXPECT_FALSE(convert(1, u"", u"m"));
    EXPECT_EQ(convert(1.5, u"mol/L", u" mol/L"), 1.5); // the same text, known or not
}

} // namespace WASHFAST_FILE
