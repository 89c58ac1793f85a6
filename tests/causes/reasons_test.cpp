// What is said: labels and units for people, the two tones, published signs, batches as units, joint dependencies.
#include "core/causes/answer.h"
#include "core/causes/answer_json.h"
#include "core/causes/changed.h"
#include "core/causes/published_signs.h"
#include "core/causes/settings.h"

#include <QJsonArray>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast::causes;
using testing::HasSubstr;
using testing::Not;

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
Factor factor(const char* name, const char* label, const char* values, Factor::Kind kind)
{
    Factor out;
    out.name = s(name);
    if (const auto* field = catalogue().findPrintField(out.name))
        out.meaning = meaningOf(*field);
    out.label = s(label);
    out.kind = kind;
    for (const char* c = values; *c != '\0'; ++c) {
        if (*c == ' ')
            continue;
        if (kind == Factor::Kind::Choice)
            out.texts.push_back(QString(QLatin1Char(*c)));
        else
            out.numbers.push_back(*c == '?' ? std::nullopt : std::optional(static_cast<double>(*c - '0')));
    }
    return out;
}

FactorTable twenty(std::vector<Factor> factors)
{
    FactorTable out;
    out.outcome = s("is_pale");
    out.outcome_label = s("Outcome: pale");
    for (int i = 0; i < 20; ++i) {
        out.prints.push_back(QStringLiteral("P%1").arg(i + 1));
        out.outcome_values.emplace_back(i < 10 ? 1.0 : 0.0);
    }
    out.factors = std::move(factors);
    return out;
}

Factor other()
{
    return factor("x", "Other", "1010101010 1010101010", Factor::Kind::YesNo);
}

/// Half of the prints failed; these are their tones.
void tones(FactorTable& table, double formed_failed, double formed_kept, double share_failed, double share_kept)
{
    for (int i = 0; i < 20; ++i) {
        table.formed.emplace_back(i < 10 ? formed_failed : formed_kept);
        table.kept.emplace_back(i < 10 ? share_failed : share_kept);
    }
}

std::string all(const QStringList& sentences)
{
    return sentences.join(QLatin1Char('\n')).toStdString();
}

} // namespace

TEST(Reasons, LabelsAndUnitsForPeopleKeysInJson)
{
    Factor dose = factor("dose_j_cm2", "Dose", "1111111111 4444444444", Factor::Kind::Number);
    dose.unit = s("J/cm²");
    Factor stored = factor("mix_stored", "Mix stored", "abababababababababab", Factor::Kind::Choice);
    stored.level_labels = { { s("a"), s("dark bottle") }, { s("b"), s("clear bottle") } };
    const Answer answer = analyse(twenty({ dose, stored }));
    ASSERT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_THAT(answer.why.toStdString(), HasSubstr("“Dose”: median 1 J/cm² in the prints that failed, 4 J/cm²"));
    EXPECT_THAT(answer.why.toStdString(), Not(HasSubstr("dose_j_cm2")));
    EXPECT_EQ(answer.factors[1].levels[0].label, s("dark bottle"));
    const QJsonObject json = toJson(answer);
    EXPECT_EQ(json.value(s("factors_named")).toArray().at(0).toString(), s("dose_j_cm2"));
    EXPECT_EQ(json.value(s("factors")).toArray().at(1)[s("levels")][0][s("level")].toString(), s("a"));
}

TEST(Reasons, TonesSayWhereTheBlueIsMissingAndWhetherThatFits)
{
    const Factor dose = factor("dose_j_cm2", "Dose", "1111111111 4444444444", Factor::Kind::Number);
    FactorTable before = twenty({ dose, other() });
    tones(before, 0.3, 1.1, 0.9, 0.9);
    const Answer fits = analyse(before);
    EXPECT_EQ(fits.tones.stage, Tones::Stage::Before);
    EXPECT_THAT(fits.tones.says.toStdString(), HasSubstr("missing before the rinse"));
    ASSERT_EQ(fits.signs.size(), 1U);
    EXPECT_EQ(fits.signs[0].key, s("light"));
    EXPECT_EQ(fits.signs[0].agrees, true);
    EXPECT_THAT(all(fits.evidence_for), HasSubstr("too little light"));

    FactorTable after = twenty({ dose, other() });
    tones(after, 1.1, 1.1, 0.2, 0.9);
    const Answer contradicts = analyse(after);
    EXPECT_EQ(contradicts.tones.stage, Tones::Stage::After);
    EXPECT_EQ(contradicts.signs[0].agrees, false);
    EXPECT_THAT(all(contradicts.evidence_against), HasSubstr("too little light"));
}

TEST(Reasons, AMissingToneLeavesAQuestionOpen)
{
    FactorTable table
        = twenty({ factor("dose_j_cm2", "Dose", "1111111111 4444444444", Factor::Kind::Number), other() });
    tones(table, 0.3, 1.1, 0.9, 0.9);
    table.formed.assign(20, std::nullopt);
    const Answer answer = analyse(table);
    EXPECT_EQ(answer.tones.stage, Tones::Stage::Unknown);
    EXPECT_THAT(answer.tones.says.toStdString(), HasSubstr("The tone before the rinse was not read"));
    EXPECT_FALSE(answer.signs[0].agrees);
    table.kept.assign(20, std::nullopt);
    EXPECT_THAT(analyse(table).tones.says.toStdString(), HasSubstr("Neither tone was read"));
    table.formed.clear();
    table.kept.clear();
    EXPECT_TRUE(analyse(table).tones.says.isEmpty()) << "a table that knows no tones is not asked for them";
}

// The field says which sign it stands for, and the way it went matters.
TEST(Reasons, SignsFollowTheField)
{
    const auto key = [](const char* name, bool larger, const char* level = "") {
        const auto& field = *catalogue().findPrintField(s(name));
        const auto kind = field.kind == washfast::Kind::Number ? Factor::Kind::Number
            : field.kind == washfast::Kind::YesNo              ? Factor::Kind::YesNo
                                                               : Factor::Kind::Choice;
        const auto* sign = publishedSignFor(meaningOf(field), kind, larger, s(level));
        return sign == nullptr ? std::string("none") : std::string(sign->key);
    };
    EXPECT_EQ(key("moisture_at_expose_pct", true), "damp");
    EXPECT_EQ(key("moisture_at_expose_pct", false), "none") << "that drier prints fail is no sign of damp";
    EXPECT_EQ(key("touch_at_rinse", true, "clings"), "damp");
    EXPECT_EQ(key("touch_at_rinse", true, "crisp"), "none");
    EXPECT_EQ(key("touch_before_rinse", true, "clings"), "damp");
    EXPECT_EQ(key("expose_minutes", false), "light");
    EXPECT_EQ(key("expose_minutes", true), "overexposed");
    EXPECT_EQ(key("cloud_start_eighths", true), "light");
    EXPECT_EQ(key("cover_kind", true, "glass"), "cover");
    EXPECT_EQ(key("mix_code", true, "M7"), "sensitiser");
    EXPECT_EQ(key("mix_age_h", true), "sensitiser");
    EXPECT_EQ(key("rinse_minutes", true), "rinse_long");
    EXPECT_EQ(key("bath2_minutes", false), "under_rinsed");
    EXPECT_EQ(key("bath1_ph", true), "rinse_alkaline");
    EXPECT_EQ(key("bath1_temperature_c", true), "none") << "nothing is published about warm water";
    EXPECT_EQ(key("bath1_water", true, "tap"), "rinse_alkaline");
    EXPECT_EQ(key("bath1_water", true, "distilled"), "none");
    EXPECT_EQ(key("dry_method", true, "dryer_hot"), "skin");
    EXPECT_EQ(key("dry_method", true, "hung"), "damp");
    EXPECT_EQ(key("print_method", true, "contact"), "none");
    EXPECT_EQ(key("density_before_rinse_deepest", true), "none") << "a reading is no cause";
}

// Words inside words say nothing: a column of a free table has a sign only when somebody says which field it is.
TEST(Reasons, WordsInsideAHeadingAreNoSign)
{
    const QStringList names { s("Duration"), s("Environment"), s("Photo"), s("Hot water"), s("mix"), s("coverage") };
    std::vector<QStringList> rows;
    for (int i = 0; i < 20; ++i) {
        QStringList row { i < 10 ? s("yes") : s("no") };
        for (qsizetype k = 0; k < names.size(); ++k)
            row << (i < 10 ? s("9") : s("4"));
        rows.push_back(row << QString::number(i % 2));
    }
    TableChoices choices;
    choices.outcome = s("failed");
    choices.catalogue = &catalogue();
    const auto signsOf = [&](const QString& name) {
        choices.factors = { name, s("x") };
        const auto table = readFactorTable(QStringList { s("failed") } + names + QStringList { s("x") }, rows, choices);
        if (!table)
            return table.error().sentence().toStdString();
        const auto answer = analyse(*table);
        EXPECT_EQ(answer.factors_named, QStringList { name });
        EXPECT_EQ(answer.factors.at(0).meaning.says(), !choices.same_as.empty());
        return answer.signs.empty() ? std::string("none") : answer.signs[0].key.toStdString();
    };
    for (const auto& name : names)
        EXPECT_EQ(signsOf(name), "none") << name.toStdString();
    choices.same_as = { { s("Duration"), s("rinse_minutes") } };
    EXPECT_EQ(signsOf(s("Duration")), "rinse_long") << "it was said";
    choices.same_as = { { s("Duration"), s("rinse_minute") } };
    EXPECT_THAT(signsOf(s("Duration")), HasSubstr("no field \"rinse_minute\""));
    choices.same_as = { { s("Length"), s("rinse_minutes") } };
    EXPECT_THAT(signsOf(s("Duration")), HasSubstr("no column \"Length\""));
}

TEST(Reasons, AHeadingThatIsAKeyIsThatField)
{
    std::vector<QStringList> rows;
    for (int i = 0; i < 20; ++i)
        rows.push_back(
            { i < 10 ? s("yes") : s("no"), i < 10 ? s("hair dryer, hot") : s("lying flat"), QString::number(i % 2) });
    TableChoices choices;
    choices.outcome = s("failed");
    const auto sign = [&] {
        const auto table = readFactorTable({ s("failed"), s("dry_method"), s("x") }, rows, choices);
        const auto answer = analyse(*table);
        return answer.signs.empty() ? std::string("none") : answer.signs[0].key.toStdString();
    };
    EXPECT_EQ(sign(), "none") << "without a catalogue no column is a field";
    choices.catalogue = &catalogue();
    EXPECT_EQ(sign(), "skin") << "by the choice as people write it";
}

// The darker the fog the worse: the sign has to go by the prints that came out worse, not by the smaller numbers.
TEST(Reasons, LargerIsWorseCountsForTheSign)
{
    const auto table = [](bool larger_is_worse) {
        auto out = twenty({ factor("expose_minutes", "Exposure time", "1122112211 8899889988", Factor::Kind::Number),
            factor("dry_method", "Dried by", "hhhhhhhhhh ffffffffff", Factor::Kind::Choice), other() });
        for (auto& text : out.factors[1].texts)
            text = text == s("h") ? s("dryer_hot") : s("hung");
        out.outcome_is_number = true;
        out.larger_is_worse = larger_is_worse;
        for (std::size_t i = 0; i < 20; ++i)
            out.outcome_values[i] = (i < 10 ? 0.2 : 1.0) + 0.001 * static_cast<double>((i * 7) % 11);
        return out;
    };
    const auto sign = [&](bool larger_is_worse, std::size_t factor) {
        const auto made = table(larger_is_worse);
        const auto answer = analyse(made);
        const auto match = matchSign(made, answer.factors.at(factor), answer.tones);
        return match ? match->key.toStdString() : std::string("none");
    };
    EXPECT_EQ(sign(false, 0), "light") << "little density after little light";
    EXPECT_EQ(sign(true, 0), "overexposed") << "the high numbers are the bad ones, and they had much light";
    EXPECT_EQ(sign(false, 1), "skin");
    EXPECT_EQ(sign(true, 1), "damp");
}

// Twenty sheets, but only two trays: what differed between the trays cannot be told from the trays.
TEST(Reasons, TwoTraysAreTwoUnits)
{
    FactorTable table
        = twenty({ factor("bath1_ph", "Bath 1: pH", "8888888888 6666666666", Factor::Kind::Number), other() });
    Batches trays { s("rinse_tray"), s("tray"), {} };
    for (int i = 0; i < 20; ++i)
        trays.of.push_back(i < 10 ? s("left") : s("right"));
    ASSERT_EQ(analyse(table).verdict, Verdict::Cause) << "without the trays";
    table.batches = { trays };
    const Answer answer = analyse(table);
    EXPECT_EQ(answer.verdict, Verdict::Tangle);
    EXPECT_EQ(answer.factors[0].n_batches, 2);
    EXPECT_NEAR(*answer.factors[0].p_batch, 1.0, 1e-12); // two trays can be exchanged in two ways, both as extreme
    EXPECT_EQ(answer.factors[1].n_batches, 0);
    EXPECT_THAT(answer.unit_says.toStdString(), HasSubstr("the tray and not the sheet is the unit: 2 of them"));
    EXPECT_THAT(answer.why.toStdString(), HasSubstr("cannot be told from whatever else differed between them"));
}

// Ten trays, five of them alkaline: 2 of the 252 exchanges are as extreme.
TEST(Reasons, TenTraysAreEnough)
{
    FactorTable table
        = twenty({ factor("bath1_ph", "Bath 1: pH", "8888888888 6666666666", Factor::Kind::Number), other() });
    Batches trays { s("rinse_tray"), s("tray"), {} };
    for (int i = 0; i < 20; ++i)
        trays.of.push_back(QStringLiteral("tray %1").arg(i / 2));
    table.batches = { trays };
    const Answer answer = analyse(table);
    EXPECT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_NEAR(*answer.factors[0].p_batch, 2.0 / 252.0, 1e-12);
    EXPECT_THAT(all(answer.evidence_against), HasSubstr("10 of them were tried, not 20 prints"));
}

// Of four columns each follows from the other three, though no two go together: none of them is called the cause.
TEST(Reasons, FourThatFollowFromOneAnotherAreATangle)
{
    FactorTable table = twenty({ factor("a", "A", "5678956789 1234512345", Factor::Kind::Number),
        factor("b", "B", "1324135241 2413524135", Factor::Kind::Number),
        factor("c", "C", "2513425134 5243152431", Factor::Kind::Number), other() });
    Factor sum = table.factors[0];
    sum.name = s("d");
    sum.label = s("D");
    for (std::size_t i = 0; i < 20; ++i)
        sum.numbers[i] = *table.factors[0].numbers[i] + *table.factors[1].numbers[i] - *table.factors[2].numbers[i];
    ASSERT_EQ(analyse(table).verdict, Verdict::Cause) << "three of them can be told apart";
    table.factors.push_back(sum);
    const Answer answer = analyse(table);
    ASSERT_FALSE(answer.dependencies.empty());
    EXPECT_TRUE(answer.dependencies[0].exact);
    EXPECT_EQ(answer.dependencies[0].names, (QStringList { s("a"), s("b"), s("c"), s("d") }));
    EXPECT_EQ(answer.verdict, Verdict::Tangle);
    EXPECT_THAT(answer.factors_named, testing::UnorderedElementsAre(s("a"), s("b"), s("c"), s("d")));
}

TEST(Reasons, UnknownValuesAreHeldAgainstTheCause)
{
    const Answer answer
        = analyse(twenty({ factor("damp", "Damp", "11111111?? 0000000000", Factor::Kind::YesNo), other() }));
    ASSERT_EQ(answer.verdict, Verdict::Cause);
    ASSERT_EQ(answer.missing.size(), 1U);
    EXPECT_EQ(answer.missing[0].unknown_failed, 2);
    EXPECT_EQ(answer.missing[0].known_failed, 8);
    ASSERT_TRUE(answer.factors[0].p_if_unknown_against);
    EXPECT_GT(*answer.factors[0].p_if_unknown_against, *answer.factors[0].p_exact);
    EXPECT_THAT(all(answer.evidence_against), HasSubstr("It is not known for 2 prints, of which 2 failed"));
}

TEST(Reasons, ModelOfAsManyAsThePrintsBear)
{
    const FactorTable table = twenty({ factor("damp", "Damp", "1111111110 1000000000", Factor::Kind::YesNo), other(),
        factor("hours", "Hours", "1324354657 7564534231", Factor::Kind::Number) });
    const Answer answer = analyse(table);
    ASSERT_TRUE(answer.firth_model);
    EXPECT_EQ(answer.firth_model->terms.size(), 3) << "ten failed and ten kept bear two terms";
    EXPECT_EQ(answer.firth_model->terms[1], s("damp"));
    EXPECT_TRUE(answer.firth_model->values[1].low);
    EXPECT_THAT(answer.firth_model->note.toStdString(), HasSubstr("Exploratory"));
    FactorTable number = table;
    number.outcome_is_number = true;
    for (std::size_t i = 0; i < 20; ++i)
        number.outcome_values[i] = 1.2 - 0.5 * *table.factors[0].numbers[i] + 0.01 * static_cast<double>((i * 7) % 11);
    const Answer linear = analyse(number);
    EXPECT_FALSE(linear.firth_model);
    ASSERT_TRUE(linear.linear_model);
    EXPECT_NEAR(linear.linear_model->values[1].estimate, -0.5, 0.03);
}

TEST(Reasons, TheSearchTellsHowFarItIsAndCanBeStopped)
{
    const FactorTable table = twenty({ factor("damp", "Damp", "1111111111 0000000000", Factor::Kind::YesNo), other() });
    std::vector<double> told;
    Options options;
    options.keep_going = [&](double share) {
        told.push_back(share);
        return true;
    };
    EXPECT_FALSE(analyse(table, options).stopped);
    ASSERT_GE(told.size(), 3U);
    EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
    EXPECT_LE(told.back(), 1.0);
    options.keep_going = [](double) { return false; };
    EXPECT_TRUE(analyse(table, options).stopped);
}

TEST(Reasons, WhatNewPrintsChangedIsSaid)
{
    FactorTable table = twenty({ factor("damp", "Damp", "1111111111 0000000000", Factor::Kind::YesNo),
        factor("glass", "Glass", "1111111111 0000000000", Factor::Kind::YesNo), other() });
    const Answer before = analyse(table);
    ASSERT_EQ(before.verdict, Verdict::Tangle);
    for (const bool damp : { true, true, false, false }) {
        table.prints.push_back(s("N"));
        table.outcome_values.emplace_back(damp ? 1.0 : 0.0);
        table.factors[0].numbers.emplace_back(damp ? 1.0 : 0.0);
        table.factors[1].numbers.emplace_back(damp ? 0.0 : 1.0);
        table.factors[2].numbers.emplace_back(table.prints.size() % 2 ? 1.0 : 0.0);
    }
    const Answer after = analyse(table);
    EXPECT_EQ(after.verdict, Verdict::Cause);
    const std::string said = whatChanged(before, after).toStdString();
    EXPECT_THAT(said, HasSubstr("With 4 more prints"));
    EXPECT_THAT(said, HasSubstr("a tangle of “Damp” and “Glass”"));
    EXPECT_THAT(said, HasSubstr("a cause, “Damp”"));
    EXPECT_THAT(whatChanged(before, before).toStdString(), HasSubstr("the answer is the same"));
}

TEST(Reasons, MuchThatIsUnexplainedIsSaid)
{
    FactorTable table = twenty({ factor("damp", "Damp", "1111111111 0000000000", Factor::Kind::YesNo), other() });
    EXPECT_THAT(analyse(table).why.toStdString(), Not(HasSubstr("unexplained")));
    // Sixty prints, of which 18 came out the other way.
    FactorTable many;
    many.outcome = s("failed");
    many.factors = { table.factors[0], table.factors[1] };
    for (Factor& one : many.factors)
        one.numbers.clear();
    for (int i = 0; i < 60; ++i) {
        many.prints.push_back(QStringLiteral("P%1").arg(i));
        const bool damp = i < 30;
        many.factors[0].numbers.emplace_back(damp ? 1.0 : 0.0);
        many.factors[1].numbers.emplace_back(i % 2);
        many.outcome_values.emplace_back((i % 30 < 9) != damp ? 1.0 : 0.0);
    }
    const Answer answer = analyse(many);
    ASSERT_EQ(answer.verdict, Verdict::Cause);
    EXPECT_THAT(answer.why.toStdString(), HasSubstr("It leaves 18 of 60 prints unexplained"));
}

namespace {

/// Ten failed and ten kept prints; of each group so many have a sign on record, which is this one.
void signs(FactorTable& table, const char* failed, int n_failed, const char* kept, int n_kept)
{
    table.sign_labels = { { s("flakes"), s("blue flakes off") } };
    for (int i = 0; i < 20; ++i) {
        const bool noted = i < 10 ? i < n_failed : i - 10 < n_kept;
        table.signs.push_back(noted ? QStringList { s(i < 10 ? failed : kept) } : QStringList());
    }
}

Factor hot()
{
    auto out = factor("dry_method", "Dried by", "hhhhhhhhhh ffffffffff", Factor::Kind::Choice);
    for (auto& text : out.texts)
        text = text == s("h") ? s("dryer_hot") : s("flat");
    out.level_labels = { { s("dryer_hot"), s("hot air") }, { s("flat"), s("lying flat") } };
    return out;
}

} // namespace

TEST(Reasons, SignsOnRecordSpeakForAndAgainst)
{
    auto table = twenty({ hot(), other() });
    signs(table, "flakes", 5, "stain", 2);
    auto answer = analyse(table);
    ASSERT_EQ(answer.verdict, Verdict::Cause);
    ASSERT_EQ(answer.signs.size(), 1U);
    EXPECT_EQ(answer.signs[0].key, s("skin"));
    EXPECT_EQ(answer.signs[0].seen_failed, 5);
    EXPECT_EQ(answer.signs[0].noted_failed, 5);
    EXPECT_EQ(answer.signs[0].seen_kept, 0);
    EXPECT_EQ(answer.signs[0].noted_kept, 2);
    EXPECT_EQ(answer.signs[0].seen_agrees, true);
    EXPECT_THAT(
        all(answer.evidence_for), HasSubstr("Recorded on 5 of the 5 failed prints that have signs: blue flakes"));

    table.signs.clear();
    signs(table, "stripes", 6, "stripes", 2);
    answer = analyse(table);
    EXPECT_EQ(answer.signs[0].seen_agrees, false);
    EXPECT_THAT(
        all(answer.evidence_against), HasSubstr("None of the 6 failed prints that have signs shows blue flakes"));
    EXPECT_THAT(all(answer.evidence_for), Not(HasSubstr("signs on record")));
}

TEST(Reasons, FewSignsOrNoneSayNothing)
{
    auto table = twenty({ hot(), other() });
    auto answer = analyse(table);
    EXPECT_FALSE(answer.signs.at(0).seen_agrees);
    signs(table, "stripes", 3, "stripes", 0);
    answer = analyse(table);
    EXPECT_FALSE(answer.signs.at(0).seen_agrees) << "three prints without flakes are too few to speak against a skin";
    table.signs.clear();
    signs(table, "flakes", 4, "flakes", 4);
    answer = analyse(table);
    EXPECT_FALSE(answer.signs.at(0).seen_agrees) << "the good prints show it as well";
}

TEST(Reasons, SignsOfATableAreNoFactor)
{
    std::vector<QStringList> rows;
    for (int i = 0; i < 20; ++i)
        rows.push_back({ QString::number(i < 10 ? 1 : 0), i < 10 ? s("dryer_hot") : s("flat"),
            i % 2 == 0 ? s("yes") : s("no"), i < 10 ? s("flakes; stain") : QString() });
    TableChoices choices;
    choices.outcome = s("failed");
    choices.catalogue = &catalogue();
    const auto table
        = readFactorTable({ s("failed"), s("dry_method"), s("fresh_water"), s("signs_seen") }, rows, choices);
    ASSERT_TRUE(table) << table.error().says.toStdString();
    EXPECT_EQ(table->factors.size(), 2U);
    ASSERT_EQ(table->signs.size(), 20U);
    EXPECT_EQ(table->signs[0], (QStringList { s("flakes"), s("stain") }));
    EXPECT_TRUE(table->signs[10].isEmpty());
    EXPECT_EQ(analyse(*table).signs.at(0).seen_agrees, true);
}

} // namespace WASHFAST_FILE
