// The plan for the next prints, on small tables.
#include "core/causes/next_prints.h"
#include "core/causes/settings.h"

#include <QJsonArray>
#include <gmock/gmock.h>
#include <set>

namespace WASHFAST_FILE {

using namespace washfast::causes;
using testing::HasSubstr;

namespace {

QString s(const char* text)
{
    return QString::fromUtf8(text);
}

const washfast::Catalogue& catalogue()
{
    static const auto standard = washfast::standardCatalogue();
    return standard;
}

/// With the meaning of the field of that key, when there is one.
Factor yesNo(const char* name, const char* values)
{
    Factor out;
    out.name = s(name);
    if (const auto* field = catalogue().findPrintField(out.name))
        out.meaning = meaningOf(*field);
    out.kind = Factor::Kind::YesNo;
    for (const char* c = values; *c != '\0'; ++c)
        if (*c != ' ')
            out.numbers.emplace_back(*c - '0');
    return out;
}

FactorTable twenty(std::vector<Factor> factors)
{
    FactorTable out;
    out.outcome = s("failed");
    for (int i = 0; i < 20; ++i) {
        out.prints.push_back(QStringLiteral("P%1").arg(i + 1));
        out.outcome_values.emplace_back(i < 10 ? 1.0 : 0.0);
    }
    out.factors = std::move(factors);
    return out;
}

NextPrints planFor(const FactorTable& table)
{
    return nextPrints(table, analyse(table));
}

Factor x()
{
    return yesNo("x", "1010101010 1010101010");
}

} // namespace

TEST(NextPrints, ATangleIsTakenApartInFour)
{
    const FactorTable table = twenty(
        { yesNo("dry_covered", "1111111111 0000000000"), yesNo("bath1_running", "1111111111 0000000000"), x() });
    const NextPrints plan = planFor(table);
    EXPECT_EQ(plan.purpose, Purpose::Untangle);
    EXPECT_EQ(plan.trials(), 4);
    EXPECT_EQ(plan.prints_needed_for_power_80, 4);
    EXPECT_GT(*plan.chance, 0.8);
    EXPECT_GT(plan.information_gain, 0.0);
    ASSERT_EQ(plan.prints.size(), 4U) << "two kinds of trial, a known good one and an unexposed one";
    std::set<std::pair<bool, bool>> made;
    for (const PlannedPrint& print : plan.prints)
        if (print.role == PlannedPrint::Role::Trial) {
            EXPECT_TRUE(print.split_sheet);
            EXPECT_EQ(print.count, 2);
            made.insert({ std::get<bool>(print.settings[0].value), std::get<bool>(print.settings[1].value) });
            EXPECT_THAT(print.why.toStdString(), HasSubstr("the first is the cause"));
        }
    EXPECT_EQ(made, (std::set<std::pair<bool, bool>> { { false, true }, { true, false } }));
    EXPECT_EQ(plan.prints[2].role, PlannedPrint::Role::KnownGood);
    EXPECT_EQ(plan.prints[3].role, PlannedPrint::Role::Unexposed);
}

TEST(NextPrints, WhatBelongsToTheSheetIsNotSplit)
{
    const FactorTable table = twenty(
        { yesNo("paper_buffered", "1111111111 0000000000"), yesNo("bath1_running", "1111111111 0000000000"), x() });
    const NextPrints plan = planFor(table);
    for (const PlannedPrint& print : plan.prints)
        EXPECT_FALSE(print.split_sheet);
    EXPECT_THAT(plan.warnings.join(QLatin1Char(' ')).toStdString(), HasSubstr("whole sheets"));
}

// Exact power of Fisher's test, five against five at 0.95 and 0.05: 0.91; four: 0.66 (worked in the science notes).
TEST(NextPrints, ACauseIsConfirmedByFivePairs)
{
    const NextPrints plan = planFor(twenty({ yesNo("dry_covered", "1111111111 0000000000"), x() }));
    EXPECT_EQ(plan.purpose, Purpose::Decide);
    EXPECT_EQ(plan.prints_needed_for_power_80, 10);
    EXPECT_NEAR(*plan.chance, 0.91, 0.005);
    ASSERT_EQ(plan.prints.size(), 4U);
    EXPECT_EQ(plan.prints[0].count, 5);
    EXPECT_EQ(plan.prints[1].count, 5);
}

TEST(NextPrints, NothingStandsOutSoItMaps)
{
    const NextPrints plan = planFor(
        twenty({ yesNo("bath1_running", "1110101010 1010101000"), yesNo("dry_covered", "1100110011 0011001100") }));
    EXPECT_EQ(plan.purpose, Purpose::Map);
    EXPECT_EQ(plan.trials(), 3);
    EXPECT_FALSE(plan.prints_needed_for_power_80);
}

TEST(NextPrints, NothingToSetIsSaid)
{
    const NextPrints plan = planFor(twenty({ yesNo("dry_covered", "1111111111 1111111111") }));
    EXPECT_EQ(plan.trials(), 0);
    EXPECT_THAT(plan.warnings.join(QLatin1Char(' ')).toStdString(), HasSubstr("nothing to plan"));
    EXPECT_EQ(plan.prints.size(), 2U) << "the controls are always worth making";
}

TEST(NextPrints, NumbersAndChoicesKeepTheirValues)
{
    Factor minutes;
    minutes.name = s("expose_minutes");
    minutes.label = s("Exposure time");
    minutes.unit = s("min");
    Factor tool;
    tool.name = s("coat_tool");
    tool.kind = Factor::Kind::Choice;
    tool.level_labels = { { s("rod"), s("glass rod") } };
    for (int i = 0; i < 20; ++i) {
        minutes.numbers.emplace_back((i < 10 ? 4.0 : 11.0) + 0.01 * (i % 3));
        tool.texts.push_back(i < 10 ? s("rod") : s("brush"));
    }
    const NextPrints plan = planFor(twenty({ minutes, tool, x() }));
    ASSERT_EQ(plan.purpose, Purpose::Untangle);
    const auto& settings = plan.prints[0].settings;
    ASSERT_EQ(settings.size(), 2U);
    EXPECT_THAT(plan.prints[0].why.toStdString(), HasSubstr(" min"));
    const auto json = toJson(plan);
    EXPECT_EQ(json.value(s("purpose")).toString(), s("untangle"));
    const auto first = json.value(s("prints")).toArray().at(0)[s("settings")];
    EXPECT_TRUE(first[s("expose_minutes")].isDouble());
    EXPECT_TRUE(first[s("coat_tool")].toString() == s("rod") || first[s("coat_tool")].toString() == s("brush"));
}

TEST(Settings, WhatCanBeChosenAndWhatCanDifferWithinASheet)
{
    const auto meaning = [](const char* key) {
        const auto* field = catalogue().findPrintField(s(key));
        EXPECT_NE(field, nullptr) << key;
        return field == nullptr ? washfast::InCauses {} : meaningOf(*field);
    };
    for (const char* key : { "expose_minutes", "cover_kind", "dry_method", "bath1_ph", "hold_minutes", "dose_j_cm2" })
        EXPECT_TRUE(meaning(key).within_sheet) << key;
    for (const char* key : { "mix_code", "paper_name", "coat_tool", "room_humidity_pct", "cloud_start_eighths" })
        EXPECT_FALSE(meaning(key).within_sheet) << key;
    for (const char* key : { "cloud_start_eighths", "disc_start", "room_temperature_c", "session_code", "print_maker" })
        EXPECT_FALSE(canBeChosen(meaning(key))) << key;
    for (const char* key : { "mix_code", "expose_minutes", "moisture_at_rinse_pct" })
        EXPECT_TRUE(canBeChosen(meaning(key))) << key;
    for (const char* key : { "moisture_at_rinse_pct", "touch_at_expose", "dose_j_cm2", "mix_age_h" })
        EXPECT_TRUE(isMeasuredOnly(meaning(key))) << key;
    for (const char* key : { "expose_minutes", "dry_minutes", "coat_per_area_ml_m2", "dry_method" })
        EXPECT_FALSE(isMeasuredOnly(meaning(key))) << key;
    EXPECT_TRUE(canBeChosen({})) << "of a column of one's own nothing is known";
    EXPECT_FALSE(isMeasuredOnly({}));
}

// Nobody knows whether a column of one's own can be set; of the weather it is known that it cannot.
TEST(NextPrints, SaysWhatIsNotKnownOfAColumnOfOnesOwn)
{
    const auto said = [](const char* name) {
        return planFor(twenty({ yesNo(name, "1111111111 0000000000"), x() }))
            .warnings.join(QLatin1Char(' '))
            .toStdString();
    };
    EXPECT_THAT(said("cloudy"), HasSubstr("Whether “cloudy” can be chosen is not known"));
    EXPECT_THAT(said("dry_covered"), testing::Not(HasSubstr("is not known")));
    EXPECT_THAT(said("cloudy"), testing::Not(HasSubstr("cannot be chosen")));
}

} // namespace WASHFAST_FILE
