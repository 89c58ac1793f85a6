#include "core/trial/filter_compare.h"

#include "core/quantity/number_text.h"
#include "core/quantity/value_text.h"
#include "core/trial/words.h"

#include <QRegularExpression>
#include <algorithm>
#include <cmath>

namespace washfast::filter {

namespace {

Comparison test(NodePtr node)
{
    return { std::move(node), Comparison::Nothing, {} };
}

Comparison wrong(Comparison::Blame blame, const QString& says)
{
    return { nullptr, blame, says };
}

bool isEquality(Operator op)
{
    return op == Operator::Equal || op == Operator::NotEqual;
}

/// Whoever writes `kept = unknown` means the other question.
QString hint(const Field& field, const QString& value)
{
    for (const char* word : { "unknown", "known" })
        if (value.compare(QLatin1String(word), Qt::CaseInsensitive) == 0)
            return QLatin1Char(' ')
                + TrialWords::tr("To ask whether it was recorded, write: %1 is %2").arg(field.key, QLatin1String(word));
    return {};
}

QString sentence(const Field& field, const Error& error, const QString& value)
{
    return error.says + hint(field, value);
}

/// The interval that an ordering leaves of what comes before, in and after [from, to]; open ends stay infinite.
Interval side(Operator op, Interval middle)
{
    constexpr double endless = std::numeric_limits<double>::infinity();
    switch (op) {
    case Operator::Less:
        return { -endless, std::nextafter(middle.from, -endless) };
    case Operator::LessOrEqual:
        return { -endless, middle.to };
    case Operator::Greater:
        return { std::nextafter(middle.to, endless), endless };
    case Operator::GreaterOrEqual:
        return { middle.from, endless };
    case Operator::Equal:
    case Operator::NotEqual:
    case Operator::Has:
        break;
    }
    return middle;
}

// ---- Numbers

/// What counts as equal to a limit: a billionth of it to either side.
Interval around(double limit)
{
    const double width = std::abs(limit) * 1e-9;
    return { limit - width, limit + width };
}

Comparison compareNumber(const Field& field, int index, Operator op, const QString& value)
{
    const auto number = parseFieldNumber(field, value);
    if (!number)
        return wrong(Comparison::TheValue, sentence(field, number.error(), value));
    return test(within(index, side(op, around(*number)), op != Operator::NotEqual));
}

// ---- Choices and texts

/// 1 for each choice whose key or label contains the text.
std::vector<char> choicesWith(const Field& field, const QString& text)
{
    std::vector<char> wanted;
    for (const auto& choice : field.choices)
        wanted.push_back(
            choice.key.contains(text, Qt::CaseInsensitive) || choice.label.contains(text, Qt::CaseInsensitive) ? 1 : 0);
    return wanted;
}

QString noSuchChoice(const Field& field, const QString& value)
{
    return TrialWords::tr("“%1” is none of the choices of %2, which are: %3. Several words go in quotes.")
               .arg(value, field.key, choicesForSentence(field))
        + hint(field, value);
}

QStringList keysOf(const Field& field, const std::vector<char>& wanted)
{
    QStringList keys;
    for (size_t i = 0; i < wanted.size(); ++i)
        if (wanted[i] != 0)
            keys << field.choices[i].key;
    return keys;
}

Comparison compareChoice(const Field& field, int index, Operator op, const QString& value)
{
    std::vector<char> wanted(field.choices.size());
    if (op == Operator::Has) {
        wanted = choicesWith(field, value);
    } else if (const auto choice = exactChoice(field, value)) {
        wanted[size_t(*choice)] = 1;
    }
    if (std::count(wanted.begin(), wanted.end(), 1) == 0)
        return wrong(Comparison::TheValue, noSuchChoice(field, value));
    if (op == Operator::NotEqual)
        for (auto& one : wanted)
            one = one == 0 ? 1 : 0;
    return test(oneOf(index, std::move(wanted)));
}

Comparison compareSet(const Field& field, int index, Operator op, const QString& value)
{
    if (op == Operator::Has) {
        const auto keys = keysOf(field, choicesWith(field, value));
        return keys.isEmpty() ? wrong(Comparison::TheValue, noSuchChoice(field, value)) : test(holdsAny(index, keys));
    }
    QStringList keys;
    for (const auto& part : value.split(QLatin1Char(';'), Qt::SkipEmptyParts)) {
        const auto choice = exactChoice(field, part);
        if (!choice)
            return wrong(Comparison::TheValue, noSuchChoice(field, part.trimmed()));
        keys << field.choices[size_t(*choice)].key;
    }
    if (keys.isEmpty())
        return wrong(Comparison::TheValue, noSuchChoice(field, value));
    return test(isSet(index, joinSet(field, keys), op == Operator::Equal));
}

Comparison compareYesNo(const Field& field, int index, Operator op, const QString& value)
{
    const auto yes = parseYesNo(value);
    if (!yes)
        return wrong(Comparison::TheValue,
            TrialWords::tr("%1 is yes or no, and “%2” is neither.").arg(field.key, value) + hint(field, value));
    const double wanted = *yes == (op == Operator::Equal) ? 1 : 0;
    return test(within(index, { wanted, wanted }));
}

// ---- Times

/// A day, a minute, a second or a millisecond, as finely as it was typed: on UTC's clock, on the record's, or as a time
/// of day.
struct Stretch {
    bool of_day = false;
    bool record_clock = false;
    qint64 from = 0, to = 0; // first and last millisecond
};

qint64 lengthTyped(const MomentText& moment, const QString& value)
{
    static const QRegularExpression seconds(QStringLiteral("[0-9]{1,2}:[0-9]{2}:[0-9]{2}([.,][0-9])?"));
    if (!moment.time)
        return 24 * 3600 * 1000;
    const auto match = seconds.match(value);
    if (!match.hasMatch())
        return 60 * 1000;
    return match.capturedLength(1) > 0 ? 1 : 1000;
}

Result<Stretch> stretchOf(const Field& field, const QString& value)
{
    const auto moment = parseMoment(value);
    const bool of_day = moment.fault == MomentFault::NeedsDate && moment.time && !moment.offset_s;
    if (!moment.ok() && !of_day)
        return Error { Trouble::BadInput, moment.says, field.label };
    const qint64 length = lengthTyped(moment, value);
    Stretch stretch { of_day, !moment.offset_s.has_value(), 0, 0 };
    if (of_day)
        stretch.from = moment.time->msecsSinceStartOfDay();
    else
        stretch.from = QDateTime(*moment.date, moment.time.value_or(QTime(0, 0)), Qt::UTC).toMSecsSinceEpoch()
            - moment.offset_s.value_or(0) * qint64(1000);
    stretch.to = stretch.from + length - 1;
    return stretch;
}

Comparison compareTime(const Field& field, int index, Operator op, const QString& value)
{
    const auto stretch = stretchOf(field, value);
    if (!stretch)
        return wrong(Comparison::TheValue, sentence(field, stretch.error(), value));
    const bool inside = op != Operator::NotEqual;
    if (stretch->of_day)
        return test(dayTimeWithin(index, side(op, { double(stretch->from), double(stretch->to) }), inside));
    const auto edge = [&](qint64 ms) { return std::optional(Edge { ms, stretch->record_clock }); };
    switch (op) {
    case Operator::Less:
        return test(between(index, std::nullopt, edge(stretch->from - 1)));
    case Operator::LessOrEqual:
        return test(between(index, std::nullopt, edge(stretch->to)));
    case Operator::Greater:
        return test(between(index, edge(stretch->to + 1), std::nullopt));
    case Operator::GreaterOrEqual:
        return test(between(index, edge(stretch->from), std::nullopt));
    case Operator::Equal:
    case Operator::NotEqual:
    case Operator::Has:
        break;
    }
    return test(between(index, edge(stretch->from), edge(stretch->to), inside));
}

// ---- From, to

QString theOtherWayRound(const QString& first, const QString& second)
{
    return TrialWords::tr("“%1” lies above “%2”: write the smaller one first.").arg(first, second);
}

Comparison timeRange(const Field& field, int index, const QString& first, const QString& second)
{
    const auto from = stretchOf(field, first);
    if (!from)
        return wrong(Comparison::TheValue, sentence(field, from.error(), first));
    const auto to = stretchOf(field, second);
    if (!to)
        return wrong(Comparison::TheSecondValue, sentence(field, to.error(), second));
    if (from->of_day != to->of_day)
        return wrong(Comparison::TheSecondValue,
            TrialWords::tr("“%1” and “%2” do not go together: one of them has no day.").arg(first, second));
    if (from->record_clock == to->record_clock && from->from > to->to)
        return wrong(Comparison::TheSecondValue, theOtherWayRound(first, second));
    if (from->of_day)
        return test(dayTimeWithin(index, { double(from->from), double(to->to) }));
    return test(between(index, Edge { from->from, from->record_clock }, Edge { to->to, to->record_clock }));
}

Comparison numberRange(const Field& field, int index, const QString& first, const QString& second)
{
    const auto from = parseFieldNumber(field, first);
    if (!from)
        return wrong(Comparison::TheValue, sentence(field, from.error(), first));
    const auto to = parseFieldNumber(field, second);
    if (!to)
        return wrong(Comparison::TheSecondValue, sentence(field, to.error(), second));
    if (*from > *to)
        return wrong(Comparison::TheSecondValue, theOtherWayRound(first, second));
    return test(within(index, { around(*from).from, around(*to).to }));
}

QString needsOrder(const Field& field)
{
    return TrialWords::tr("%1 is no number and no time, and has no order: use = or != here.").arg(field.key);
}

} // namespace

Comparison compare(const Field& field, int index, Operator op, const QString& value)
{
    const bool words = field.kind == Kind::Choice || field.kind == Kind::ChoiceSet || field.kind == Kind::Text;
    const bool ordered = field.kind == Kind::Number || field.kind == Kind::Time;
    if (op == Operator::Has && !words)
        return wrong(Comparison::TheOperator,
            TrialWords::tr("“has” looks into texts and choices, and %1 is neither.").arg(field.key));
    if (op != Operator::Has && !isEquality(op) && !ordered)
        return wrong(Comparison::TheOperator, needsOrder(field));
    switch (field.kind) {
    case Kind::Number:
        return compareNumber(field, index, op, value);
    case Kind::Choice:
        return compareChoice(field, index, op, value);
    case Kind::ChoiceSet:
        return compareSet(field, index, op, value);
    case Kind::YesNo:
        return compareYesNo(field, index, op, value);
    case Kind::Time:
        return compareTime(field, index, op, value);
    case Kind::Text:
        return test(op == Operator::Has ? contains(index, value) : isText(index, value, op == Operator::Equal));
    case Kind::Link:
        break;
    }
    return wrong(
        Comparison::TheOperator, TrialWords::tr("%1 points at another record and cannot be compared.").arg(field.key));
}

Comparison compareRange(const Field& field, int index, const QString& first, const QString& second)
{
    if (field.kind == Kind::Number)
        return numberRange(field, index, first, second);
    if (field.kind == Kind::Time)
        return timeRange(field, index, first, second);
    return wrong(Comparison::TheOperator, needsOrder(field));
}

} // namespace washfast::filter
