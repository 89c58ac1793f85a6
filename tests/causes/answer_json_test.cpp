// The keys that scripts rely on.
#include "core/causes/answer_json.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast::causes;

namespace {

FactorTable small()
{
    FactorTable table;
    table.outcome = QStringLiteral("failed");
    Factor damp, hours, paper;
    damp.name = QStringLiteral("damp");
    damp.kind = Factor::Kind::YesNo;
    hours.name = QStringLiteral("hours");
    paper.name = QStringLiteral("paper");
    paper.kind = Factor::Kind::Choice;
    for (int i = 0; i < 12; ++i) {
        table.prints.push_back(QString::number(i));
        table.outcome_values.emplace_back(i < 6 ? 1.0 : 0.0);
        damp.numbers.push_back(i == 3 ? std::nullopt : std::optional(i < 6 ? 1.0 : 0.0));
        hours.numbers.emplace_back((i * 5) % 12);
        paper.texts.push_back(QString(QLatin1Char("abc"[i % 3])));
    }
    table.factors = { damp, hours, paper };
    return table;
}

void expectKeys(const QJsonObject& object, const QStringList& keys)
{
    for (const QString& key : keys)
        EXPECT_TRUE(object.contains(key)) << key.toStdString();
}

QStringList words(const char* text)
{
    return QString::fromLatin1(text).split(QLatin1Char(' '));
}

} // namespace

TEST(AnswerJson, HasEveryKey)
{
    Options options;
    options.model = { QStringLiteral("damp"), QStringLiteral("hours") };
    const Answer answer = analyse(small(), options);
    const QJsonObject json = toJson(answer);
    expectKeys(json, words("answer factors_named why outcome n n_failed factors firth_model missing warnings"));
    EXPECT_EQ(json[QStringLiteral("n")].toInt(), 12);
    EXPECT_EQ(json[QStringLiteral("n_failed")].toInt(), 6);
    EXPECT_EQ(json[QStringLiteral("answer")].toString(), verdictKey(answer.verdict));

    const QJsonArray factors = json[QStringLiteral("factors")].toArray();
    ASSERT_EQ(factors.size(), 3);
    for (const auto& factor : factors)
        expectKeys(factor.toObject(),
            words("name kind n_known difference difference_low difference_high p_exact p_method p_adjusted firth vif "
                  "moves_with levels"));
    const QJsonObject damp = factors[0].toObject();
    EXPECT_EQ(damp[QStringLiteral("kind")].toString(), QStringLiteral("yes_no"));
    EXPECT_EQ(damp[QStringLiteral("n_known")].toInt(), 11);
    EXPECT_EQ(damp[QStringLiteral("p_exact")].toDouble(), *answer.factors[0].p_exact);
    expectKeys(damp[QStringLiteral("firth")].toObject(), words("estimate low high p"));
    EXPECT_EQ(factors[1].toObject()[QStringLiteral("kind")].toString(), QStringLiteral("number"));
    EXPECT_EQ(factors[2].toObject()[QStringLiteral("kind")].toString(), QStringLiteral("choice"));
    EXPECT_TRUE(factors[2].toObject()[QStringLiteral("difference")].isNull());
    EXPECT_TRUE(factors[2].toObject()[QStringLiteral("firth")].isNull());

    const QJsonObject model = json[QStringLiteral("firth_model")].toObject();
    expectKeys(model, words("terms estimates lows highs p penalised_log_likelihood"));
    EXPECT_EQ(model[QStringLiteral("terms")].toArray().size(), 3);
    EXPECT_EQ(model[QStringLiteral("estimates")].toArray().size(), 3);

    const QJsonArray missing = json[QStringLiteral("missing")].toArray();
    ASSERT_EQ(missing.size(), 1);
    EXPECT_EQ(missing[0].toObject()[QStringLiteral("name")].toString(), QStringLiteral("damp"));
    EXPECT_EQ(missing[0].toObject()[QStringLiteral("unknown")].toInt(), 1);
}

TEST(AnswerJson, WhatIsNotThereIsNull)
{
    FactorTable table = small();
    table.outcome_is_number = true;
    const QJsonObject json = toJson(analyse(table));
    EXPECT_TRUE(json[QStringLiteral("n_failed")].isNull());
    EXPECT_TRUE(json[QStringLiteral("firth_model")].isNull());
    const QJsonObject hours = json[QStringLiteral("factors")].toArray()[1].toObject();
    EXPECT_TRUE(hours[QStringLiteral("difference")].isNull());
    EXPECT_TRUE(hours[QStringLiteral("firth")].isNull());
    EXPECT_FALSE(QJsonDocument(json).toJson().isEmpty());
}

TEST(AnswerJson, NamesOfTheAnswers)
{
    EXPECT_EQ(verdictKey(Verdict::Cause), QStringLiteral("cause"));
    EXPECT_EQ(verdictKey(Verdict::Tangle), QStringLiteral("tangle"));
    EXPECT_EQ(verdictKey(Verdict::NotEnough), QStringLiteral("not_enough"));
}

TEST(AnswerJson, TheReasoningIsThereToo)
{
    FactorTable table = small();
    table.formed.assign(table.prints.size(), 1.0);
    table.kept.assign(table.prints.size(), 0.9);
    const QJsonObject json = toJson(analyse(table));
    expectKeys(json,
        words("evidence_for evidence_against signs rival_would_show tones unit linear_model dependencies "
              "largest_condition_index"));
    expectKeys(json[QStringLiteral("tones")].toObject(),
        words("missing_at formed_failed formed_kept share_kept_failed share_kept_kept says"));
    EXPECT_EQ(json[QStringLiteral("tones")][QStringLiteral("missing_at")].toString(), QStringLiteral("neither"));
    expectKeys(json[QStringLiteral("factors")].toArray()[0].toObject(),
        words("unit batch batches p_batch p_if_unknown_against"));
    expectKeys(json[QStringLiteral("missing")].toArray()[0].toObject(),
        words("name unknown unknown_failed known known_failed p_unknown"));
}

} // namespace WASHFAST_FILE
