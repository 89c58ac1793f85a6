// Values as texts and back. Outside values: the number forms of QLocale's Unicode data, QDateTime for the moments of a
// zone, 32 °F = 0 °C and 98.6 °F = 37 °C (NIST Special Publication 811 (2008), appendix B.8).
#include "core/quantity/catalogue.h"
#include "core/quantity/value_text.h"

#include <QTimeZone>
#include <cmath>
#include <gmock/gmock.h>
#include <random>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace Qt::StringLiterals;
using testing::HasSubstr;

namespace {

const QLocale english(QLocale::English, QLocale::UnitedKingdom);
const QLocale german(QLocale::German, QLocale::Germany);

QString wide(const char* text)
{
    return QString::fromUtf8(text);
}

class ValueText : public testing::Test {
protected:
    [[nodiscard]] const Field& field(const char* key) const
    {
        const auto* found = catalogue.findPrintField(wide(key));
        if (!found) {
            ADD_FAILURE() << "no field " << key;
            return catalogue.printFields().front();
        }
        return *found;
    }
    [[nodiscard]] Known typed(
        const char* key, const char* text, const QLocale& locale = english, const QDateTime& now = {}) const
    {
        const auto read = parseTyped(field(key), wide(text), locale, now);
        EXPECT_TRUE(read.ok()) << key << ": " << text << ": "
                               << (read.ok() ? "" : read.error().sentence().toStdString());
        return read.ok() ? *read : Known {};
    }
    [[nodiscard]] std::string refusal(
        const char* key, const char* text, const QLocale& locale = english, const QDateTime& now = {}) const
    {
        const auto read = parseTyped(field(key), wide(text), locale, now);
        EXPECT_FALSE(read.ok()) << key << ": " << text;
        if (read.ok())
            return {};
        EXPECT_EQ(read.error().code, Trouble::BadInput);
        EXPECT_EQ(read.error().where, field(key).label);
        return read.error().says.toStdString();
    }
    [[nodiscard]] std::string shown(const char* key, const Known& known, const QLocale& locale = english) const
    {
        return displayText(field(key), known, locale).toStdString();
    }

    const Catalogue catalogue = standardCatalogue();
    const QDateTime morning { QDate(2026, 5, 4), QTime(9, 0), Qt::OffsetFromUTC, 7200 };
};

Instant at(const char* iso)
{
    const auto time = Instant::fromIso(std::string_view(iso));
    EXPECT_TRUE(time) << iso;
    return time.value_or(Instant {});
}

} // namespace

// ---- For files

TEST_F(ValueText, FilesGetTheShortestDigitsThatReadBack)
{
    struct Pair {
        double value;
        const char* text;
    };
    for (const auto& pair : { Pair { 0.6, "0.6" }, Pair { 0.1 + 0.2, "0.30000000000000004" }, Pair { -5, "-5" },
             Pair { 1e6, "1000000" }, Pair { 1.0 / 3, "0.3333333333333333" }, Pair { 0.0, "0" }, Pair { -0.0, "0" },
             Pair { 5e-7, "5e-07" }, Pair { 1e15, "1e+15" }, Pair { 0.000001, "0.000001" },
             Pair { 123456.75, "123456.75" }, Pair { std::nan(""), "" }, Pair { HUGE_VAL, "" } })
        EXPECT_EQ(isoNumber(pair.value).toStdString(), pair.text);
    std::mt19937_64 random(1);
    for (int i = 0; i < 20'000; ++i) {
        const double value = std::ldexp(double(random()) - 9e18, int(random() % 200) - 140);
        ASSERT_EQ(isoNumber(value).toDouble(), value) << isoNumber(value).toStdString();
    }
}

TEST_F(ValueText, FilesGetIsoFormsAndKeys)
{
    EXPECT_EQ(isoText(field("coat_start"), at("2026-05-04T10:15:00+02:00")), wide("2026-05-04T10:15:00+02:00"));
    EXPECT_EQ(isoText(field("dry_method"), wide("dryer_hot")), wide("dryer_hot"));
    EXPECT_EQ(isoText(field("dry_covered"), true), wide("yes"));
    EXPECT_EQ(isoText(field("dry_covered"), false), wide("no"));
    EXPECT_EQ(isoText(field("print_outcome"), wide("ran_off;kept")), wide("kept; ran_off"));
    EXPECT_EQ(isoText(field("print_outcome"), wide("torn; kept")), wide("kept; torn"))
        << "what is not known is not lost";
    EXPECT_EQ(isoText(field("print_notes"), wide("3,5 ~ rain?")), wide("3,5 ~ rain?"));
    EXPECT_EQ(isoText(catalogue.columnField(Entity::Print, u"print_mix"), Link { 12 }), wide("12"));
    for (const char* key :
        { "coat_volume_ml", "coat_start", "dry_method", "dry_covered", "print_outcome", "print_notes" })
        EXPECT_EQ(isoText(field(key), Value()), QString()) << key;
}

// ---- For the screen

TEST_F(ValueText, TheScreenFollowsTheLocale)
{
    EXPECT_EQ(shown("coat_volume_ml", knownNumber(1234.567)), "1234.57")
        << "no groups, which could be taken for decimals";
    EXPECT_EQ(shown("coat_volume_ml", knownNumber(0.6), german), "0,60");
    EXPECT_EQ(shown("dry_humidity_pct", knownNumber(54.6)), "55");
    EXPECT_EQ(shown("kept", knownNumber(-0.001)), "0.00") << "no minus before nothing";
    EXPECT_EQ(shown("kept", knownNumber(-0.006)), "-0.01");
    EXPECT_EQ(shown("kept", Known {}), "");
    EXPECT_EQ(shown("kept", knownNumber(std::nan(""))), "");
    EXPECT_EQ(shown("dry_method", Known { wide("dryer_hot") }), "hair dryer, hot");
    EXPECT_EQ(shown("print_outcome", Known { wide("ran_off; kept"), Evidence::Estimated }), "kept; ran off");
    EXPECT_EQ(shown("dry_covered", Known { true }), "yes");
}

TEST_F(ValueText, TimesAreShownOnTheClockTheyWereReadFrom)
{
    const auto time = at("2026-05-04T10:15:30+02:00");
    const QDateTime there(QDate(2026, 5, 4), QTime(10, 15, 30), Qt::OffsetFromUTC, 7200);
    for (const auto& locale : { english, german })
        EXPECT_EQ(
            displayText(field("coat_start"), Known { time }, locale), locale.toString(there, QLocale::ShortFormat));
    EXPECT_THAT(shown("coat_start", Known { time }), HasSubstr("10:15"));
}

TEST_F(ValueText, EstimatedAndAssumedAreMarked)
{
    EXPECT_EQ(shown("coat_volume_ml", knownNumber(0.6, Evidence::Estimated)), "≈0.60");
    EXPECT_EQ(shown("coat_volume_ml", knownNumber(0.6, Evidence::Assumed)), "(0.60)");
    EXPECT_EQ(shown("dry_method", Known { wide("flat"), Evidence::Assumed }), "(lying flat)");
    EXPECT_EQ(shown("dry_covered", Known { false, Evidence::Estimated }), "≈no");
    EXPECT_EQ(shown("coat_volume_ml", Known { Value(), Evidence::Assumed }), "") << "no marks around nothing";
    // By eye by nature: numbers say so, words do not.
    ASSERT_EQ(field("cloud_start_eighths").nature, Evidence::Estimated);
    EXPECT_EQ(shown("cloud_start_eighths", knownNumber(3, Evidence::Estimated)), "≈3");
    EXPECT_EQ(shown("print_outcome", Known { wide("kept"), Evidence::Estimated }), "kept");
    EXPECT_EQ(shown("print_outcome", Known { wide("kept"), Evidence::Assumed }), "(kept)");
    EXPECT_EQ(shown("print_notes", Known { wide("rain"), Evidence::Assumed }), "rain");
}

// ---- Numbers as typed

TEST_F(ValueText, NumbersWithPointOrComma)
{
    for (const auto& locale : { english, german }) {
        EXPECT_EQ(typed("coat_volume_ml", "0.62", locale), knownNumber(0.62));
        EXPECT_EQ(typed("coat_volume_ml", " 0,62 ", locale), knownNumber(0.62));
        EXPECT_EQ(typed("coat_volume_ml", "12", locale), knownNumber(12));
        EXPECT_EQ(typed("coat_volume_ml", "", locale), Known {});
        EXPECT_EQ(typed("coat_volume_ml", "   ", locale), Known {});
        EXPECT_EQ(typed("site_latitude_deg", "-38,7223", locale), knownNumber(-38.7223));
    }
}

TEST_F(ValueText, ThreeDecimalsAreReadOnlyWithoutDoubt)
{
    EXPECT_EQ(typed("cover_thickness_mm", "1.250", english).number(), 1.25);
    EXPECT_EQ(typed("cover_thickness_mm", "1,250", german).number(), 1.25);
    EXPECT_THAT(refusal("cover_thickness_mm", "1,250", english), HasSubstr("two ways"));
    EXPECT_THAT(refusal("cover_thickness_mm", "1.250", german), HasSubstr("two ways"));
    EXPECT_EQ(typed("cover_thickness_mm", "0.125", german).number(), 0.125) << "no thousands begin with 0";
    EXPECT_EQ(typed("cover_thickness_mm", "0,125", english).number(), 0.125);
}

TEST_F(ValueText, MarksSayHowItCameToBe)
{
    EXPECT_EQ(typed("coat_volume_ml", "~0.6"), knownNumber(0.6, Evidence::Estimated));
    EXPECT_EQ(typed("coat_volume_ml", "≈ 0.6"), knownNumber(0.6, Evidence::Estimated));
    EXPECT_EQ(typed("coat_volume_ml", "0.6?"), knownNumber(0.6, Evidence::Assumed));
    EXPECT_EQ(typed("coat_volume_ml", "(0.6)"), knownNumber(0.6, Evidence::Assumed));
    EXPECT_EQ(typed("coat_volume_ml", "~0.6 mL?"), knownNumber(0.6, Evidence::Assumed)) << "the weaker of two";
    EXPECT_EQ(typed("coat_volume_ml", "(~0.6)"), knownNumber(0.6, Evidence::Assumed));
    EXPECT_EQ(typed("dry_method", "flat?"), (Known { wide("flat"), Evidence::Assumed }));
    EXPECT_EQ(typed("dry_covered", "~yes"), (Known { true, Evidence::Estimated }));
    EXPECT_EQ(typed("cloud_start_eighths", "3"), knownNumber(3, Evidence::Estimated)) << "by eye by nature";
    EXPECT_EQ(typed("print_notes", "~ wet?"), (Known { wide("~ wet?") })) << "a text is a text";
    EXPECT_THAT(refusal("coat_volume_ml", "~"), HasSubstr("without a value"));
    EXPECT_THAT(refusal("coat_volume_ml", "?"), HasSubstr("without a value"));
    EXPECT_THAT(refusal("coat_volume_ml", "()"), HasSubstr("without a value"));
}

TEST_F(ValueText, UnitsAreTurnedIntoTheFieldsOwn)
{
    EXPECT_DOUBLE_EQ(*typed("coat_volume_ml", "0.62 mL").number(), 0.62);
    EXPECT_DOUBLE_EQ(*typed("coat_volume_ml", "620 µL").number(), 0.62);
    EXPECT_NEAR(*typed("room_temperature_c", "98.6 °F").number(), 37.0, 1e-9);
    EXPECT_NEAR(*typed("room_temperature_c", "32°F").number(), 0.0, 1e-9);
    EXPECT_DOUBLE_EQ(*typed("bath1_minutes", "90 s").number(), 1.5);
    EXPECT_DOUBLE_EQ(*typed("room_humidity_pct", "55 %").number(), 55.0);
    EXPECT_DOUBLE_EQ(*typed("cloud_start_eighths", "3 eighths").number(), 3.0);
    EXPECT_DOUBLE_EQ(*typed("dose_goal_j_cm2", "2,8 J/cm²").number(), 2.8);
    EXPECT_DOUBLE_EQ(*typed("expose_sky_share", "60 %").number(), 0.6) << "a share from 0 to 1";
    EXPECT_THAT(refusal("coat_volume_ml", "5 min"), HasSubstr("mL"));
    EXPECT_THAT(refusal("bath1_ph", "7 %"), HasSubstr("unit"));
    EXPECT_THAT(refusal("coat_volume_ml", "5 drops"), HasSubstr("not a number"));
}

TEST_F(ValueText, WhatIsNoNumberIsRefused)
{
    for (const char* text : { "many", "1.2.3", "--5", "0x10", "1e999", "nan", "inf", "5 5", "1,2,3" })
        EXPECT_FALSE(refusal("coat_volume_ml", text).empty());
}

// ---- Choices, yes and no, texts, links

TEST_F(ValueText, ChoicesByKeyLabelOrBeginning)
{
    EXPECT_EQ(typed("dry_method", "dryer_hot").text(), wide("dryer_hot"));
    EXPECT_EQ(typed("dry_method", "Hair Dryer, HOT").text(), wide("dryer_hot"));
    EXPECT_EQ(typed("dry_method", "hair dryer, h").text(), wide("dryer_hot"));
    EXPECT_EQ(typed("dry_method", "ly").text(), wide("flat"));
    EXPECT_THAT(refusal("dry_method", "hair"),
        testing::AllOf(HasSubstr("several"), HasSubstr("hair dryer, cool; hair dryer, hot")));
    EXPECT_THAT(refusal("dry_method", "sponge"),
        testing::AllOf(HasSubstr("sponge"), HasSubstr("lying flat (flat)"), HasSubstr("hung up")));
    EXPECT_EQ(typed("bath1_additive", "none").text(), wide("none"));
}

TEST_F(ValueText, EveryChoiceOfTheCatalogueCanBeTyped)
{
    for (const auto& field : catalogue.printFields())
        for (const auto& choice : field.choices)
            for (const auto& text : { choice.key, choice.label, choice.label.toUpper() }) {
                const auto read = parseTyped(field, text, english);
                ASSERT_TRUE(read.ok()) << read.error().sentence().toStdString();
                EXPECT_EQ(read->text(), choice.key) << field.key.toStdString() << ": " << text.toStdString();
            }
}

TEST_F(ValueText, SetsAreSplitAtSemicolonsOrCommas)
{
    const Known both { wide("kept; ran_off"), Evidence::Estimated };
    for (const char* text : { "kept; ran off", "ran_off,kept", "Ran Off ; KEPT;", "kept; ran", "kept;kept;ran off" })
        EXPECT_EQ(typed("print_outcome", text), both) << text;
    EXPECT_EQ(typed("print_outcome", "pale").text(), wide("pale"));
    EXPECT_THAT(refusal("print_outcome", "kept; torn"), HasSubstr("torn"));
    EXPECT_THAT(refusal("print_outcome", ";"), HasSubstr("no choice"));
}

TEST_F(ValueText, YesAndNo)
{
    for (const char* yes : { "yes", "Y", "TRUE", "1" })
        EXPECT_EQ(typed("dry_covered", yes).yes(), true) << yes;
    for (const char* no : { "no", "N", "false", "0" })
        EXPECT_EQ(typed("dry_covered", no).yes(), false) << no;
    EXPECT_FALSE(typed("dry_covered", "").has());
    EXPECT_THAT(refusal("dry_covered", "perhaps"), HasSubstr("neither yes nor no"));
}

TEST_F(ValueText, TextsStayAsTheyAre)
{
    EXPECT_EQ(typed("print_notes", "  two  words ").text(), wide("two  words"));
    EXPECT_EQ(typed("mix_code", "007").text(), wide("007"));
    EXPECT_FALSE(typed("print_notes", "  ").has());
}

TEST_F(ValueText, LinksAreLookedUpElsewhere)
{
    const auto read = parseTyped(catalogue.columnField(Entity::Print, u"print_mix"), u"M7"_s, english);
    ASSERT_FALSE(read.ok());
    EXPECT_THAT(read.error().sentence().toStdString(), HasSubstr("M7"));
}

// ---- Times

TEST_F(ValueText, AClockTimeBelongsToTheDayOfNow)
{
    const auto wanted = at("2026-05-04T10:15:00+02:00");
    for (const char* text : { "10:15", "10:15:00", "2026-05-04 10:15", "2026-05-04T10:15", "04.05.2026 10:15",
             "2026-05-04T10:15:00+02:00", "2026-05-04T08:15Z" })
        EXPECT_EQ(typed("coat_start", text, english, morning).time(), wanted) << text;
    EXPECT_EQ(typed("coat_start", "10:15", english, morning).time()->offset_s, 7200);
    EXPECT_EQ(typed("coat_start", "2026-05-04T08:15Z", english, morning).time()->offset_s, 0)
        << "the clock that was named";
    EXPECT_EQ(typed("coat_start", "10:15?", english, morning).evidence, Evidence::Assumed);
    EXPECT_EQ(typed("coat_start", "~10:15", english, morning).evidence, Evidence::Estimated);
    EXPECT_EQ(typed("coat_start", "2026-05-04", english, morning).time(), at("2026-05-04T00:00:00+02:00"));
}

TEST_F(ValueText, WithoutNowOnlyACompleteTimeIsRead)
{
    EXPECT_EQ(typed("coat_start", "2026-05-04T10:15+02:00").time(), at("2026-05-04T10:15:00+02:00"));
    EXPECT_THAT(refusal("coat_start", "10:15"), HasSubstr("without a date"));
    EXPECT_THAT(refusal("coat_start", "2026-05-04 10:15"), HasSubstr("clock"));
    EXPECT_FALSE(refusal("coat_start", "noon", english, morning).empty());
    EXPECT_FALSE(refusal("coat_start", "4/5/2026 10:15", english, morning).empty()) << "April or May";
    EXPECT_FALSE(refusal("coat_start", "25:00", english, morning).empty());
}

TEST_F(ValueText, AZoneHasTheOffsetOfItsSeason)
{
    const QTimeZone lisbon("Europe/Lisbon");
    ASSERT_TRUE(lisbon.isValid());
    const QDateTime summer(QDate(2026, 7, 1), QTime(9, 0), lisbon);
    EXPECT_EQ(typed("coat_start", "10:15", english, summer).time(), at("2026-07-01T10:15:00+01:00"));
    EXPECT_EQ(typed("coat_start", "2026-01-15 10:15", english, summer).time(), at("2026-01-15T10:15:00+00:00"));
    EXPECT_EQ(typed("coat_start", "2026-01-15", english, summer).time()->offset_s, 0);
    // On 29 March 2026 the clocks go from 1:00 to 2:00 there (last Sunday of March, Directive 2000/84/EC).
    EXPECT_THAT(refusal("coat_start", "2026-03-29 01:30", english, summer), HasSubstr("put forward"));
    EXPECT_EQ(typed("coat_start", "2026-03-29 02:30", english, summer).time(), at("2026-03-29T01:30:00Z"));
    EXPECT_EQ(typed("coat_start", "2026-03-29", english, summer).time(), at("2026-03-29T00:00:00Z"));
    // In the Azores that hour is the one at midnight: the day begins at 1:00.
    const QDateTime azores(QDate(2026, 7, 1), QTime(9, 0), QTimeZone("Atlantic/Azores"));
    EXPECT_EQ(typed("coat_start", "2026-03-29", english, azores).time(), at("2026-03-29T01:00:00+00:00"));
}

// ---- Into an editor and back

TEST_F(ValueText, WhatAnEditorShowsReadsBackTheSame)
{
    std::mt19937_64 random(99);
    const auto draw = [&](const Field& field) -> Value {
        switch (field.kind) {
        case Kind::Number: {
            const double low = field.low.value_or(-5), high = field.high.value_or(5000);
            const double value = low + (high - low) * double(random() % 100'000) / 100'000.0;
            return random() % 3 == 0 ? std::round(value * 1000) / 1000 : random() % 2 == 0 ? std::round(value) : value;
        }
        case Kind::YesNo:
            return random() % 2 == 0;
        case Kind::Time:
            return Instant { qint64(random() % 4'000'000'000'000), int(random() % 105) * 900 - 12 * 3600 };
        case Kind::Choice:
            return field.choices[random() % field.choices.size()].key;
        case Kind::ChoiceSet:
            return joinSet(field,
                { field.choices[random() % field.choices.size()].key,
                    field.choices[random() % field.choices.size()].key });
        case Kind::Text:
        case Kind::Link:
            break;
        }
        return wide("M7 (old), ~3?");
    };
    for (const auto& locale : { english, german, QLocale::c(), QLocale(QLocale::French, QLocale::France) })
        for (const auto& field : catalogue.printFields())
            for (int i = 0; i < 12; ++i) {
                const auto evidence
                    = field.kind == Kind::Text ? field.nature : weaker(field.nature, Evidence(random() % 3));
                const Known known { draw(field), evidence };
                const QString text = editText(field, known, locale);
                const auto read = parseTyped(field, text, locale, morning);
                ASSERT_TRUE(read.ok()) << field.key.toStdString() << ": " << text.toStdString() << ": "
                                       << read.error().sentence().toStdString();
                ASSERT_EQ(*read, known) << field.key.toStdString() << ": " << text.toStdString();
            }
    EXPECT_EQ(editText(field("kept"), Known {}, english), QString());
}

TEST_F(ValueText, WhatTheScreenShowsReadsBackRounded)
{
    for (const auto& locale : { english, german }) {
        const auto text = displayText(field("coat_volume_ml"), knownNumber(0.6234, Evidence::Assumed), locale);
        EXPECT_EQ(*parseTyped(field("coat_volume_ml"), text, locale), knownNumber(0.62, Evidence::Assumed));
    }
}

TEST_F(ValueText, ASeededMuddleOfTextsIsReadOrRefused)
{
    std::mt19937 random(4);
    const QString letters = u"0123456789.,:;~≈?()+-TZ /eyYnoabrush_°%µ\"'"_s;
    int refused = 0, read = 0;
    for (int i = 0; i < 20'000; ++i) {
        const auto& fields = catalogue.printFields();
        const auto& f = fields[random() % fields.size()];
        QString text;
        for (int n = int(random() % 12); n > 0; --n)
            text += letters[int(random() % uint(letters.size()))];
        const auto result = parseTyped(f, text, i % 2 == 0 ? english : german, morning);
        if (!result.ok()) {
            ++refused;
            ASSERT_FALSE(result.error().says.isEmpty()) << text.toStdString();
            continue;
        }
        ++read;
        ASSERT_TRUE(std::isfinite(result->number().value_or(0))) << text.toStdString();
        ASSERT_TRUE(f.kind == Kind::Text || text.trimmed().isEmpty() || result->has()) << text.toStdString();
    }
    EXPECT_GT(refused, 1000);
    EXPECT_GT(read, 1000);
}

// ---- Plausible ranges

TEST_F(ValueText, OutsideTheRangeIsASentenceNotAnError)
{
    const auto& volume = field("coat_volume_ml");
    EXPECT_FALSE(outsideRange(volume, *volume.low));
    EXPECT_FALSE(outsideRange(volume, *volume.high));
    const auto low = outsideRange(volume, 0.02);
    ASSERT_TRUE(low);
    EXPECT_EQ(low->toStdString(), "Mix on the sheet: 0.02 mL is less than the 0.05 mL that is plausible; is it right?");
    EXPECT_THAT(outsideRange(volume, 500, german)->toStdString(), HasSubstr("more than the 50 mL"));
    EXPECT_THAT(outsideRange(volume, 0.02, german)->toStdString(), HasSubstr("0,02 mL"));
    EXPECT_FALSE(outsideRange(field("kept"), 17)) << "no range is known";
    EXPECT_EQ(typed("coat_volume_ml", "500").number(), 500.0);
}

} // namespace WASHFAST_FILE
