#include "core/causes/answer_json.h"

#include <QJsonArray>
#include <cmath>

namespace washfast::causes {

namespace {

QJsonValue orNull(const std::optional<double>& value)
{
    return value && std::isfinite(*value) ? QJsonValue(*value) : QJsonValue(QJsonValue::Null);
}

QJsonValue orNull(const std::optional<int>& value)
{
    return value ? QJsonValue(*value) : QJsonValue(QJsonValue::Null);
}

QJsonValue orNull(const QString& text)
{
    return text.isEmpty() ? QJsonValue(QJsonValue::Null) : QJsonValue(text);
}

QJsonObject toObject(const LogOdds& odds)
{
    return { { QStringLiteral("estimate"), odds.estimate }, { QStringLiteral("low"), orNull(odds.low) },
        { QStringLiteral("high"), orNull(odds.high) }, { QStringLiteral("p"), odds.p } };
}

QJsonArray movesWith(const FactorEvidence& factor)
{
    QJsonArray out;
    for (const MovesWith& other : factor.moves_with)
        out.append(
            QJsonObject { { QStringLiteral("name"), other.name }, { QStringLiteral("association"), other.association },
                { QStringLiteral("prints_that_disagree"), orNull(other.prints_that_disagree) } });
    return out;
}

QJsonArray levels(const FactorEvidence& factor, bool yes_no_outcome)
{
    QJsonArray out;
    for (const LevelCount& level : factor.levels) {
        QJsonObject object { { QStringLiteral("level"), level.level }, { QStringLiteral("label"), level.label },
            { QStringLiteral("n"), level.n } };
        if (yes_no_outcome) {
            object.insert(QStringLiteral("failed"), level.failed);
            object.insert(QStringLiteral("kept"), level.kept);
        } else {
            object.insert(QStringLiteral("median_outcome"), orNull(level.median_outcome));
        }
        out.append(object);
    }
    return out;
}

QJsonObject toObject(const FactorEvidence& factor, bool yes_no_outcome)
{
    return { { QStringLiteral("name"), factor.name },
        { QStringLiteral("label"), factor.label.isEmpty() ? factor.name : factor.label },
        { QStringLiteral("unit"), factor.unit }, { QStringLiteral("kind"), kindKey(factor.kind) },
        { QStringLiteral("n_known"), factor.n_known }, { QStringLiteral("difference"), orNull(factor.difference) },
        { QStringLiteral("difference_low"), orNull(factor.difference_low) },
        { QStringLiteral("difference_high"), orNull(factor.difference_high) },
        { QStringLiteral("difference_of"), QJsonArray::fromStringList(factor.difference_of) },
        { QStringLiteral("correlation"), orNull(factor.correlation) },
        { QStringLiteral("p_exact"), orNull(factor.p_exact) }, { QStringLiteral("p_method"), orNull(factor.p_method) },
        { QStringLiteral("p_enumerated"), factor.p_enumerated },
        { QStringLiteral("p_adjusted"), orNull(factor.p_adjusted) },
        { QStringLiteral("p_held_equal"), orNull(factor.p_held_equal) },
        { QStringLiteral("batch"), orNull(factor.batch) },
        { QStringLiteral("batches"), factor.n_batches > 0 ? QJsonValue(factor.n_batches) : QJsonValue() },
        { QStringLiteral("p_batch"), orNull(factor.p_batch) },
        { QStringLiteral("p_if_unknown_against"), orNull(factor.p_if_unknown_against) },
        { QStringLiteral("firth"), factor.firth ? QJsonValue(toObject(*factor.firth)) : QJsonValue(QJsonValue::Null) },
        { QStringLiteral("vif"), orNull(factor.vif) }, { QStringLiteral("moves_with"), movesWith(factor) },
        { QStringLiteral("levels"), levels(factor, yes_no_outcome) },
        { QStringLiteral("median_failed"), orNull(factor.median_failed) },
        { QStringLiteral("median_kept"), orNull(factor.median_kept) } };
}

QJsonObject toObject(const FittedModel& model)
{
    QJsonArray estimates, lows, highs, p;
    for (const LogOdds& value : model.values) {
        estimates.append(value.estimate);
        lows.append(orNull(value.low));
        highs.append(orNull(value.high));
        p.append(value.p);
    }
    QJsonObject object { { QStringLiteral("terms"), QJsonArray::fromStringList(model.terms) },
        { QStringLiteral("estimates"), estimates }, { QStringLiteral("lows"), lows },
        { QStringLiteral("highs"), highs }, { QStringLiteral("p"), p }, { QStringLiteral("n"), model.n },
        { QStringLiteral("note"), orNull(model.note) } };
    if (model.linear)
        object.insert(QStringLiteral("scale"), orNull(model.scale));
    else
        object.insert(QStringLiteral("penalised_log_likelihood"), model.penalised_log_likelihood);
    return object;
}

QJsonValue orNull(const std::optional<FittedModel>& model)
{
    return model ? QJsonValue(toObject(*model)) : QJsonValue(QJsonValue::Null);
}

QJsonObject toObject(const SignMatch& sign)
{
    return { { QStringLiteral("factor"), sign.factor }, { QStringLiteral("sign"), sign.key },
        { QStringLiteral("title"), sign.title }, { QStringLiteral("before_rinse"), orNull(sign.before_rinse) },
        { QStringLiteral("in_rinse"), orNull(sign.in_rinse) }, { QStringLiteral("day_after"), orNull(sign.day_after) },
        { QStringLiteral("test"), sign.test }, { QStringLiteral("evidence"), sign.evidence },
        { QStringLiteral("agrees"), sign.agrees ? QJsonValue(*sign.agrees) : QJsonValue(QJsonValue::Null) },
        { QStringLiteral("seen_failed"), sign.seen_failed }, { QStringLiteral("noted_failed"), sign.noted_failed },
        { QStringLiteral("seen_kept"), sign.seen_kept }, { QStringLiteral("noted_kept"), sign.noted_kept },
        { QStringLiteral("seen_agrees"),
            sign.seen_agrees ? QJsonValue(*sign.seen_agrees) : QJsonValue(QJsonValue::Null) } };
}

QString stageKey(Tones::Stage stage)
{
    switch (stage) {
    case Tones::Stage::Before:
        return QStringLiteral("before_rinse");
    case Tones::Stage::After:
        return QStringLiteral("in_rinse");
    case Tones::Stage::Both:
        return QStringLiteral("both");
    case Tones::Stage::Neither:
        return QStringLiteral("neither");
    case Tones::Stage::Unknown:
        break;
    }
    return QStringLiteral("unknown");
}

QJsonObject toObject(const Tones& tones)
{
    return { { QStringLiteral("missing_at"), stageKey(tones.stage) },
        { QStringLiteral("formed_failed"), orNull(tones.formed_failed) },
        { QStringLiteral("formed_kept"), orNull(tones.formed_kept) },
        { QStringLiteral("share_kept_failed"), orNull(tones.share_failed) },
        { QStringLiteral("share_kept_kept"), orNull(tones.share_kept) },
        { QStringLiteral("says"), orNull(tones.says) } };
}

QJsonObject toObject(const Dependency& one)
{
    QJsonArray proportions;
    for (const double value : one.variance_proportions)
        proportions.append(value);
    return { { QStringLiteral("names"), QJsonArray::fromStringList(one.names) }, { QStringLiteral("exact"), one.exact },
        { QStringLiteral("condition_index"), orNull(one.condition_index) },
        { QStringLiteral("variance_proportions"), proportions }, { QStringLiteral("n"), one.n },
        { QStringLiteral("says"), one.says } };
}

} // namespace

QString verdictKey(Verdict verdict)
{
    switch (verdict) {
    case Verdict::Cause:
        return QStringLiteral("cause");
    case Verdict::Tangle:
        return QStringLiteral("tangle");
    case Verdict::NotEnough:
        break;
    }
    return QStringLiteral("not_enough");
}

QString kindKey(Factor::Kind kind)
{
    switch (kind) {
    case Factor::Kind::YesNo:
        return QStringLiteral("yes_no");
    case Factor::Kind::Choice:
        return QStringLiteral("choice");
    case Factor::Kind::Number:
        break;
    }
    return QStringLiteral("number");
}

QJsonObject toJson(const Answer& answer)
{
    QJsonArray factors, missing, signs, dependencies;
    for (const SignMatch& sign : answer.signs)
        signs.append(toObject(sign));
    for (const Dependency& one : answer.dependencies)
        dependencies.append(toObject(one));
    for (const FactorEvidence& factor : answer.factors)
        factors.append(toObject(factor, answer.n_failed.has_value()));
    for (const Missing& one : answer.missing)
        missing.append(QJsonObject { { QStringLiteral("name"), one.name }, { QStringLiteral("unknown"), one.unknown },
            { QStringLiteral("unknown_failed"), answer.n_failed ? QJsonValue(one.unknown_failed) : QJsonValue() },
            { QStringLiteral("known"), one.known },
            { QStringLiteral("known_failed"), answer.n_failed ? QJsonValue(one.known_failed) : QJsonValue() },
            { QStringLiteral("p_unknown"), orNull(one.p) } });
    return { { QStringLiteral("answer"), verdictKey(answer.verdict) },
        { QStringLiteral("factors_named"), QJsonArray::fromStringList(answer.factors_named) },
        { QStringLiteral("why"), answer.why },
        { QStringLiteral("evidence_for"), QJsonArray::fromStringList(answer.evidence_for) },
        { QStringLiteral("evidence_against"), QJsonArray::fromStringList(answer.evidence_against) },
        { QStringLiteral("signs"), signs }, { QStringLiteral("rival_would_show"), orNull(answer.rival_would_show) },
        { QStringLiteral("tones"), toObject(answer.tones) }, { QStringLiteral("unit"), orNull(answer.unit_says) },
        { QStringLiteral("outcome"), answer.outcome }, { QStringLiteral("n"), answer.n },
        { QStringLiteral("n_failed"), orNull(answer.n_failed) }, { QStringLiteral("factors"), factors },
        { QStringLiteral("firth_model"), orNull(answer.firth_model) },
        { QStringLiteral("linear_model"), orNull(answer.linear_model) },
        { QStringLiteral("dependencies"), dependencies },
        { QStringLiteral("largest_condition_index"), orNull(answer.largest_condition_index) },
        { QStringLiteral("left_out"), QJsonArray::fromStringList(answer.left_out) },
        { QStringLiteral("prints_missing"), orNull(answer.prints_missing) },
        { QStringLiteral("prints_for"), QJsonArray::fromStringList(answer.prints_for) },
        { QStringLiteral("prints_against"), QJsonArray::fromStringList(answer.prints_against) },
        { QStringLiteral("missing"), missing },
        { QStringLiteral("warnings"), QJsonArray::fromStringList(answer.warnings) } };
}

} // namespace washfast::causes
