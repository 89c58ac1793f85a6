#include "core/quantity/value_text.h"

#include "core/quantity/number_text.h"
#include "core/quantity/words.h"

#include <QTimeZone>
#include <array>
#include <charconv>
#include <cmath>

namespace washfast {

namespace {

constexpr QChar estimatedMark(u'≈');
constexpr QChar estimatedTyped(u'~');
constexpr QChar assumedTyped(u'?');

QString yesNo(bool yes)
{
    return yes ? QuantityWords::tr("yes") : QuantityWords::tr("no");
}

Error bad(const Field& field, const QString& says)
{
    return { Trouble::BadInput, says, field.label };
}

/// Known choices in the order of the catalogue, then whatever else the text holds: nothing is lost on the way out.
QStringList setMembers(const Field& field, const QString& stored)
{
    const QStringList held = splitSet(stored);
    QStringList keys;
    for (const auto& choice : field.choices)
        if (held.contains(choice.key))
            keys << choice.key;
    for (const auto& key : held)
        if (!keys.contains(key))
            keys << key;
    return keys;
}

QString labelsOf(const Field& field, const QString& stored)
{
    QStringList labels;
    for (const auto& key : setMembers(field, stored))
        labels << field.choiceLabel(key);
    return labels.join(QStringLiteral("; "));
}

/// A number on the screen; minus zero is written as zero.
QString rounded(double value, int decimals, QLocale locale)
{
    if (!std::isfinite(value))
        return {};
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    const QString zero = locale.toString(0.0, 'f', decimals);
    return locale.toString(std::abs(value), 'f', decimals) == zero ? zero : locale.toString(value, 'f', decimals);
}

bool commaDecimals(const QLocale& locale)
{
    return locale.decimalPoint() == QLatin1String(",");
}

QString plainDisplay(const Field& field, const Value& value, const QLocale& locale)
{
    if (const auto* number = std::get_if<double>(&value))
        return rounded(*number, field.decimals, locale);
    if (const auto* yes = std::get_if<bool>(&value))
        return yesNo(*yes);
    if (const auto* time = std::get_if<Instant>(&value))
        return locale.toString(time->toDateTime(), QLocale::ShortFormat);
    if (const auto* text = std::get_if<QString>(&value)) {
        if (field.kind == Kind::Choice)
            return field.choiceLabel(*text);
        return field.kind == Kind::ChoiceSet ? labelsOf(field, *text) : *text;
    }
    return isoText(field, value);
}

} // namespace

QString isoNumber(double value)
{
    if (!std::isfinite(value))
        return {};
    if (value == 0)
        return QStringLiteral("0"); // also for minus zero
    const double size = std::abs(value);
    const auto format = size >= 1e-6 && size < 1e15 ? std::chars_format::fixed : std::chars_format::scientific;
    std::array<char, 64> buffer {};
    const auto [end, error] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value, format);
    return error == std::errc() ? QString::fromLatin1(buffer.data(), end - buffer.data()) : QString();
}

QString isoText(const Field& field, const Value& value)
{
    if (const auto* number = std::get_if<double>(&value))
        return isoNumber(*number);
    if (const auto* yes = std::get_if<bool>(&value))
        return *yes ? QStringLiteral("yes") : QStringLiteral("no");
    if (const auto* time = std::get_if<Instant>(&value))
        return time->toIso();
    if (const auto* text = std::get_if<QString>(&value))
        return field.kind == Kind::ChoiceSet ? setMembers(field, *text).join(QStringLiteral("; ")) : *text;
    if (const auto* link = std::get_if<Link>(&value))
        return QString::number(link->id);
    return {};
}

QString displayText(const Field& field, const Known& known, const QLocale& locale)
{
    const QString text = plainDisplay(field, known.value, locale);
    if (text.isEmpty() || field.kind == Kind::Text || field.kind == Kind::Link)
        return text;
    const bool figure = field.kind == Kind::Number || field.kind == Kind::Time;
    if (!figure && known.evidence <= field.nature)
        return text;
    switch (known.evidence) {
    case Evidence::Measured:
        break;
    case Evidence::Estimated:
        return estimatedMark + text;
    case Evidence::Assumed:
        return QLatin1Char('(') + text + QLatin1Char(')');
    }
    return text;
}

QString editText(const Field& field, const Known& known, const QLocale& locale)
{
    QString text;
    if (field.kind == Kind::Number) {
        text = isoText(field, known.value);
        if (commaDecimals(locale))
            text.replace(QLatin1Char('.'), QLatin1Char(','));
    } else if (field.kind == Kind::Time) {
        text = isoText(field, known.value).replace(QLatin1Char('T'), QLatin1Char(' '));
    } else {
        text = plainDisplay(field, known.value, locale);
    }
    if (text.isEmpty() || field.kind == Kind::Text || known.evidence <= field.nature)
        return text;
    return known.evidence == Evidence::Assumed ? text + assumedTyped : estimatedTyped + text;
}

// ---- Back from what was typed

namespace {

struct Marked {
    QStringView text;
    std::optional<Evidence> evidence;
};

/// Takes the marks off: ~ or ≈ before, ? behind, parentheses around. The weakest counts.
Marked takeMarks(QStringView typed)
{
    Marked out { typed.trimmed(), std::nullopt };
    const auto mark = [&](QStringView inner, Evidence evidence) {
        out = { inner.trimmed(), weaker(out.evidence.value_or(Evidence::Measured), evidence) };
    };
    for (bool again = true; again;) {
        again = true;
        if (out.text.startsWith(estimatedTyped) || out.text.startsWith(estimatedMark))
            mark(out.text.mid(1), Evidence::Estimated);
        else if (out.text.endsWith(assumedTyped))
            mark(out.text.chopped(1), Evidence::Assumed);
        else if (out.text.size() >= 2 && out.text.startsWith(u'(') && out.text.endsWith(u')'))
            mark(out.text.mid(1).chopped(1), Evidence::Assumed);
        else
            again = false;
    }
    return out;
}

bool same(const QString& a, const QString& b)
{
    return a.compare(b, Qt::CaseInsensitive) == 0;
}

/// The choice of this key, label or beginning.
Result<int> choiceOf(const Field& field, const QString& text)
{
    if (const auto exact = exactChoice(field, text))
        return *exact;
    std::vector<int> fits;
    for (size_t i = 0; i < field.choices.size() && !text.isEmpty(); ++i)
        if (field.choices[i].key.startsWith(text, Qt::CaseInsensitive)
            || field.choices[i].label.startsWith(text, Qt::CaseInsensitive))
            fits.push_back(int(i));
    if (fits.size() == 1)
        return fits.front();
    if (fits.empty())
        return bad(field,
            QuantityWords::tr("“%1” is none of the choices, which are: %2.").arg(text, choicesForSentence(field)));
    QStringList labels;
    for (const int fit : fits)
        labels << field.choices[size_t(fit)].label;
    return bad(field,
        QuantityWords::tr("“%1” is the beginning of several choices: %2.")
            .arg(text, labels.join(QStringLiteral("; "))));
}

Result<QString> setOf(const Field& field, const QString& text)
{
    if (const auto whole = choiceOf(field, text); whole.ok())
        return field.choices[size_t(*whole)].key;
    const QLatin1Char between(text.contains(QLatin1Char(';')) ? ';' : ',');
    QStringList keys;
    for (const auto& part : text.split(between)) {
        if (part.trimmed().isEmpty())
            continue;
        const auto choice = choiceOf(field, part.trimmed());
        if (!choice)
            return choice.error();
        keys << field.choices[size_t(*choice)].key;
    }
    if (keys.isEmpty())
        return bad(field, QuantityWords::tr("“%1” names no choice.").arg(text));
    return joinSet(field, keys);
}

/// A day and a time on the clock of another moment, with the offset that this clock has then.
QDateTime onClock(const QDateTime& clock, QDate day, QTime time)
{
    if (clock.timeSpec() == Qt::TimeZone)
        return QDateTime(day, time, clock.timeZone());
    return QDateTime(day, time, clock.timeSpec(), clock.offsetFromUtc());
}

/// The first moment of a day; where clocks are put forward at midnight that is not 0:00.
QDateTime dayBegins(const QDateTime& clock, QDate day)
{
    if (clock.timeSpec() == Qt::TimeZone)
        return day.startOfDay(clock.timeZone());
    return day.startOfDay(clock.timeSpec(), clock.offsetFromUtc());
}

/// A reading of a clock as a moment.
Result<Instant> momentOf(const Field& field, const QString& text, const QDateTime& now)
{
    const auto read = parseMoment(text, now.isValid() ? std::optional(now.date()) : std::nullopt);
    if (!read.ok())
        return bad(field, read.says);
    const QDate day = *read.date; // parseMoment refuses a time without a day
    if (read.offset_s)
        return Instant::from(QDateTime(day, read.time.value_or(QTime(0, 0)), Qt::OffsetFromUTC, *read.offset_s));
    if (!now.isValid())
        return bad(
            field, QuantityWords::tr("“%1” does not say of which clock it is: write +02:00 or Z behind it.").arg(text));
    const QDateTime local = read.time ? onClock(now, day, *read.time) : dayBegins(now, day);
    if (!local.isValid() || local.date() != day || (read.time && local.time() != *read.time))
        return bad(field, QuantityWords::tr("There is no %1 on that clock: it was put forward over it.").arg(text));
    return Instant::from(local);
}

} // namespace

std::optional<int> exactChoice(const Field& field, const QString& text)
{
    const QString wanted = text.trimmed();
    for (size_t i = 0; i < field.choices.size(); ++i)
        if (same(field.choices[i].key, wanted))
            return int(i);
    for (size_t i = 0; i < field.choices.size(); ++i)
        if (same(field.choices[i].label, wanted))
            return int(i);
    return std::nullopt;
}

QString choicesForSentence(const Field& field)
{
    QStringList all;
    for (const auto& choice : field.choices) {
        const bool shown = same(choice.label, QString(choice.key).replace(QLatin1Char('_'), QLatin1Char(' ')));
        all << (shown ? choice.label : QStringLiteral("%1 (%2)").arg(choice.label, choice.key));
    }
    return all.join(QStringLiteral("; "));
}

std::optional<bool> parseYesNo(const QString& text)
{
    const QString word = text.trimmed();
    for (const char* yes : { "yes", "y", "true", "1" })
        if (same(word, QLatin1String(yes)))
            return true;
    for (const char* no : { "no", "n", "false", "0" })
        if (same(word, QLatin1String(no)))
            return false;
    for (const bool answer : { true, false })
        if (same(word, yesNo(answer)))
            return answer;
    return std::nullopt;
}

Result<double> parseFieldNumber(const Field& field, const QString& text, bool comma_decimals)
{
    QString plain = text.trimmed();
    if (!field.unit.isEmpty() && plain.size() > field.unit.size() && plain.endsWith(field.unit))
        plain = plain.chopped(field.unit.size()).trimmed();
    auto read = parseNumber(plain);
    if (comma_decimals && read.point_assumed)
        return bad(field,
            QuantityWords::tr(
                "“%1” can be read in two ways: its mark may stand before the decimals or between the thousands.")
                .arg(text));
    if (comma_decimals && read.fault == NumberFault::Ambiguous)
        read = parseNumber(plain, DecimalMark::Comma);
    if (!read.value)
        return bad(field, read.says);
    if (read.unit.isEmpty())
        return *read.value;
    const bool share = field.unit.isEmpty() && field.low == 0.0 && field.high == 1.0;
    if (const auto converted = convert(*read.value, read.unit, share ? QStringLiteral("1") : field.unit))
        return *converted;
    if (field.unit.isEmpty())
        return bad(field, QuantityWords::tr("“%1” has a unit, and there is none here.").arg(text));
    return bad(field, QuantityWords::tr("The unit of “%1” cannot be turned into %2.").arg(text, field.unit));
}

Result<Known> parseTyped(const Field& field, const QString& typed, const QLocale& locale, const QDateTime& now)
{
    const QString whole = typed.trimmed();
    if (whole.isEmpty())
        return Known {};
    if (field.kind == Kind::Text)
        return Known { whole, field.nature };
    const Marked marked = takeMarks(whole);
    const QString text = marked.text.toString();
    if (text.isEmpty())
        return bad(field, QuantityWords::tr("“%1” is a mark without a value.").arg(whole));
    const Evidence evidence = marked.evidence.value_or(field.nature);
    switch (field.kind) {
    case Kind::Number: {
        const auto number = parseFieldNumber(field, text, commaDecimals(locale));
        return number ? Result<Known>(knownNumber(*number, evidence)) : number.error();
    }
    case Kind::Choice: {
        const auto choice = choiceOf(field, text);
        return choice ? Result<Known>(Known { field.choices[size_t(*choice)].key, evidence }) : choice.error();
    }
    case Kind::ChoiceSet: {
        const auto set = setOf(field, text);
        return set ? Result<Known>(Known { *set, evidence }) : set.error();
    }
    case Kind::YesNo:
        if (const auto yes = parseYesNo(text))
            return Known { *yes, evidence };
        return bad(field, QuantityWords::tr("“%1” is neither yes nor no.").arg(text));
    case Kind::Time: {
        const auto moment = momentOf(field, text, now);
        return moment ? Result<Known>(Known { *moment, evidence }) : moment.error();
    }
    case Kind::Text:
    case Kind::Link:
        break;
    }
    return bad(field, QuantityWords::tr("“%1” points at another record, which has to be looked up.").arg(whole));
}

std::optional<QString> outsideRange(const Field& field, double value, const QLocale& locale)
{
    const bool below = field.low && value < *field.low;
    const bool above = field.high && value > *field.high;
    if (!below && !above)
        return std::nullopt;
    const auto shown = [&](double number) {
        QString text = isoNumber(number);
        if (commaDecimals(locale))
            text.replace(QLatin1Char('.'), QLatin1Char(','));
        return field.unit.isEmpty() ? text : text + QLatin1Char(' ') + field.unit;
    };
    return (below ? QuantityWords::tr("%1: %2 is less than the %3 that is plausible; is it right?")
                  : QuantityWords::tr("%1: %2 is more than the %3 that is plausible; is it right?"))
        .arg(field.label, shown(value), shown(below ? *field.low : *field.high));
}

} // namespace washfast
