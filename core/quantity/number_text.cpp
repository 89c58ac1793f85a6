#include "core/quantity/number_text.h"

#include "core/quantity/words.h"

#include <QByteArray>
#include <QRegularExpression>
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>

namespace washfast {

namespace {

constexpr qsizetype longest_number = 64;
constexpr int first_year = 1800, last_year = 2199; // a year outside is taken for a slip of the finger

/// The sentence with what was typed in the place of %1; what is long is cut.
QString quoting(QStringView typed, const QString& sentence)
{
    return sentence.arg(typed.size() > 40 ? typed.left(39).toString() + QChar(0x2026) : typed.toString());
}

bool isDigit(QChar c)
{
    return c >= u'0' && c <= u'9';
}

bool isMinus(QChar c)
{
    return c == u'-' || c == QChar(0x2212) || c == QChar(0x2013); // hyphen, minus sign, en dash
}

/// Space, no-break space, figure space, thin space, narrow no-break space: those that group thousands.
bool isGroupSpace(QChar c)
{
    return c == u' ' || c == QChar(0xa0) || c == QChar(0x2007) || c == QChar(0x2009) || c == QChar(0x202f);
}

// ---- Numbers

/// The pieces of a text that begins like a number; `body` has digits and marks, every group space as ' '.
struct Lexed {
    bool negative = false;
    QByteArray body, exponent;
    QString rest;
    NumberFlag flag = NumberFlag::Plain;
};

std::optional<Lexed> lex(QStringView text)
{
    Lexed out;
    if (text.startsWith(u'~')) {
        out.flag = NumberFlag::Estimated;
        text = text.mid(1).trimmed();
    }
    if (text.endsWith(u'?')) {
        out.flag = NumberFlag::Assumed; // the weaker of the two when both are there
        text = text.chopped(1).trimmed();
    }
    qsizetype at = 0;
    const auto here = [&](qsizetype ahead = 0) { return at + ahead < text.size() ? text[at + ahead] : QChar(); };
    if (isMinus(here()) || here() == u'+')
        out.negative = isMinus(text[at++]);
    while (isGroupSpace(here()))
        ++at;
    for (; at < text.size(); ++at) {
        const QChar c = here();
        if (isDigit(c) || c == u'.' || c == u',')
            out.body += char(c.unicode());
        else if (isGroupSpace(c) && isDigit(here(1)))
            out.body += ' ';
        else if ((c == u'\'' || c == QChar(0x2019)) && isDigit(here(1)))
            out.body += '\'';
        else
            break;
    }
    const bool signed_exponent = isMinus(here(1)) || here(1) == u'+';
    if ((here() == u'e' || here() == u'E') && isDigit(here(signed_exponent ? 2 : 1))) {
        if (isMinus(here(1)))
            out.exponent += '-';
        at += signed_exponent ? 2 : 1;
        while (isDigit(here()))
            out.exponent += char(text[at++].unicode());
    }
    out.rest = text.mid(at).trimmed().toString();
    if (out.body.isEmpty())
        return std::nullopt;
    return out;
}

/// The body with a given decimal mark and grouping character as plain digits and a point; nothing if it does not fit.
std::optional<QByteArray> readAs(const QByteArray& body, char decimal, char group, bool groups_allowed = true)
{
    const qsizetype mark = body.indexOf(decimal);
    const QByteArray whole = mark < 0 ? body : body.left(mark);
    const QByteArray decimals = mark < 0 ? QByteArray() : body.mid(mark + 1);
    const auto digits_only = [](const QByteArray& part) {
        return !part.isEmpty() && std::all_of(part.begin(), part.end(), [](char c) { return c >= '0' && c <= '9'; });
    };
    if (mark >= 0 && !digits_only(decimals))
        return std::nullopt;
    if (whole.isEmpty())
        return mark < 0 ? std::nullopt : std::optional(QByteArray("0.") + decimals);
    QByteArray digits = whole;
    if (whole.contains(group)) {
        const QList<QByteArray> parts = whole.split(group);
        if (!groups_allowed || parts.front().isEmpty() || parts.front().size() > 3 || parts.front().startsWith('0'))
            return std::nullopt;
        for (qsizetype i = 1; i < parts.size(); ++i)
            if (parts[i].size() != 3)
                return std::nullopt;
        digits.replace(group, "");
    }
    if (!digits_only(digits))
        return std::nullopt;
    return mark < 0 ? digits : digits + '.' + decimals;
}

/// Both readings of a body, and which of the two marks it proves.
struct Readings {
    std::optional<QByteArray> point, comma;
    DecimalMark proves = DecimalMark::Undecided;
    bool ambiguous = false;
};

Readings readings(const Lexed& lexed)
{
    const QByteArray& body = lexed.body;
    const bool may_group = lexed.exponent.isEmpty();
    const bool spaced = body.contains(' '), quoted = body.contains('\'');
    Readings out;
    if (spaced && quoted)
        return out;
    const char own_group = spaced ? ' ' : '\'';
    out.point = readAs(body, '.', spaced || quoted ? own_group : ',', may_group);
    out.comma = readAs(body, ',', spaced || quoted ? own_group : '.', may_group);
    if (out.point && out.comma)
        out.ambiguous = *out.point != *out.comma;
    else if (out.point)
        out.proves = DecimalMark::Point;
    else if (out.comma)
        out.proves = DecimalMark::Comma;
    return out;
}

NumberText refuse(NumberText number, NumberFault fault, const QString& says)
{
    number.value.reset();
    number.fault = fault;
    number.says = says;
    return number;
}

} // namespace

NumberText parseNumber(QStringView typed, DecimalMark column)
{
    const QStringView text = typed.trimmed();
    NumberText out;
    const auto not_a_number = [&] {
        return refuse(out, NumberFault::NotANumber, quoting(text, QuantityWords::tr("“%1” is not a number.")));
    };
    if (text.isEmpty())
        return refuse(out, NumberFault::Empty, QuantityWords::tr("There is no number: the cell is empty."));
    const std::optional<Lexed> lexed = text.size() > longest_number ? std::nullopt : lex(text);
    if (!lexed)
        return not_a_number();
    out.flag = lexed->flag;
    if (!lexed->rest.isEmpty()) {
        out.unit = canonicalUnit(lexed->rest);
        if (out.unit.isEmpty() || out.unit == u'1')
            return not_a_number();
    }
    const Readings read = readings(*lexed);
    if (!read.point && !read.comma)
        return not_a_number();
    std::optional<QByteArray> digits = read.point ? read.point : read.comma;
    if (column == DecimalMark::Point || column == DecimalMark::Comma) {
        digits = column == DecimalMark::Point ? read.point : read.comma;
        if (!digits)
            return refuse(out, NumberFault::AgainstColumn,
                column == DecimalMark::Point
                    ? quoting(
                        text, QuantityWords::tr("“%1” does not fit its column, where the decimal mark is a point."))
                    : quoting(
                        text, QuantityWords::tr("“%1” does not fit its column, where the decimal mark is a comma.")));
    } else if (read.ambiguous) {
        out.point_assumed = column == DecimalMark::Undecided && lexed->body.contains('.');
        if (!out.point_assumed)
            return refuse(out, NumberFault::Ambiguous,
                quoting(text,
                    QuantityWords::tr(
                        "“%1” can be read in two ways: its mark may stand before the decimals or between the "
                        "thousands.")));
    }
    const QByteArray plain = lexed->exponent.isEmpty() ? *digits : *digits + 'e' + lexed->exponent;
    double value = 0;
    const auto [end, error] = std::from_chars(plain.constData(), plain.constData() + plain.size(), value);
    if (error == std::errc::result_out_of_range)
        return refuse(out, NumberFault::OutOfRange,
            quoting(text, QuantityWords::tr("“%1” is too large or too small to be kept.")));
    if (error != std::errc() || end != plain.constData() + plain.size())
        return not_a_number();
    out.value = lexed->negative ? -value : value;
    return out;
}

ColumnMark decideDecimalMark(const QStringList& cells)
{
    ColumnMark out;
    for (qsizetype i = 0; i < cells.size(); ++i) {
        const QStringView text = QStringView(cells[i]).trimmed();
        const std::optional<Lexed> lexed = text.isEmpty() || text.size() > longest_number ? std::nullopt : lex(text);
        if (!lexed || (!lexed->rest.isEmpty() && canonicalUnit(lexed->rest).isEmpty()))
            continue;
        const DecimalMark proves = readings(*lexed).proves;
        if (proves == DecimalMark::Point && !out.point_at)
            out.point_at = i;
        if (proves == DecimalMark::Comma && !out.comma_at)
            out.comma_at = i;
    }
    if (out.point_at && out.comma_at)
        out.mark = DecimalMark::Mixed;
    else if (out.point_at)
        out.mark = DecimalMark::Point;
    else if (out.comma_at)
        out.mark = DecimalMark::Comma;
    return out;
}

// ---- Moments

namespace {

MomentText refuse(MomentText moment, MomentFault fault, const QString& says)
{
    moment.fault = fault;
    moment.says = says;
    return moment;
}

/// Reads "10:15", "10:15:30.5", "10:15+02:00", "10:15 Z" into the moment; nothing if it has another form.
std::optional<MomentFault> readClock(QStringView text, MomentText& out)
{
    static const QRegularExpression form(
        QStringLiteral("^([0-9]{1,2}):([0-9]{2})(?::([0-9]{2})(?:[.,]([0-9]{1,9}))?)?(?:\\s*([Zz])|\\s*([-+\\x{2212}])("
                       "[0-9]{2})(?::?([0-9]{2}))?)?$"));
    const QRegularExpressionMatch match = form.match(text);
    if (!match.hasMatch())
        return std::nullopt;
    const QString fraction = match.captured(4).left(3).leftJustified(3, u'0');
    const QTime time(match.captured(1).toInt(), match.captured(2).toInt(), match.captured(3).toInt(), fraction.toInt());
    if (!time.isValid())
        return MomentFault::NoSuchTime;
    out.time = time;
    if (!match.captured(5).isEmpty())
        out.offset_s = 0;
    if (!match.captured(6).isEmpty()) {
        const int minutes = match.captured(8).toInt();
        const int offset_s = match.captured(7).toInt() * 3600 + minutes * 60;
        if (minutes > 59 || offset_s > 14 * 3600) // clocks on land run from 12 hours behind to 14 hours ahead of UTC
            return MomentFault::NoSuchOffset;
        out.offset_s = match.captured(6) == u'+' ? offset_s : -offset_s;
    }
    return MomentFault::None;
}

} // namespace

QString MomentText::iso() const
{
    if (!ok())
        return {};
    QString text = date ? date->toString(Qt::ISODate) : QString();
    if (!time)
        return text;
    text += (date ? QStringLiteral("T") : QString())
        + time->toString(time->msec() == 0 ? Qt::ISODate : Qt::ISODateWithMs);
    if (!offset_s)
        return text;
    const int minutes = std::abs(*offset_s) / 60;
    return text
        + QStringLiteral("%1%2:%3")
              .arg(QLatin1Char(*offset_s < 0 ? '-' : '+'))
              .arg(minutes / 60, 2, 10, QLatin1Char('0'))
              .arg(minutes % 60, 2, 10, QLatin1Char('0'));
}

MomentText parseMoment(QStringView typed, std::optional<QDate> day)
{
    static const QRegularExpression year_first(QStringLiteral("^([0-9]{4})([-/])([0-9]{1,2})\\2([0-9]{1,2})(?![0-9])"));
    static const QRegularExpression day_first(
        QStringLiteral("^([0-9]{1,2})\\. ?([0-9]{1,2})\\. ?([0-9]{4}|[0-9]{2})(?![0-9])"));
    static const QRegularExpression either(
        QStringLiteral("^[0-9]{1,2}([-/])[0-9]{1,2}\\1(?:[0-9]{4}|[0-9]{2})(?![0-9])"));
    const QStringView text = typed.trimmed();
    MomentText out;
    if (text.isEmpty())
        return refuse(out, MomentFault::Empty, QuantityWords::tr("There is no date or time: the cell is empty."));
    if (either.match(text).hasMatch())
        return refuse(out, MomentFault::AmbiguousDay,
            quoting(text,
                QuantityWords::tr(
                    "In “%1” the day and the month can be taken for one another. Write the year first: 2026-05-04.")));
    QStringView rest = text;
    int year = 0, month = 0, date = 0;
    if (const QRegularExpressionMatch match = year_first.match(text); match.hasMatch()) {
        year = match.capturedView(1).toInt();
        month = match.capturedView(3).toInt();
        date = match.capturedView(4).toInt();
        rest = text.mid(match.capturedLength());
    } else if (const QRegularExpressionMatch dots = day_first.match(text); dots.hasMatch()) {
        if (dots.capturedLength(3) == 2)
            return refuse(out, MomentFault::ShortYear,
                quoting(text, QuantityWords::tr("The year in “%1” has two digits. Write all four: 04.05.2026.")));
        year = dots.capturedView(3).toInt();
        month = dots.capturedView(2).toInt();
        date = dots.capturedView(1).toInt();
        rest = text.mid(dots.capturedLength());
    }
    const auto no_moment = [&] {
        return refuse(MomentText(), MomentFault::NotAMoment,
            quoting(text,
                QuantityWords::tr("“%1” is not a date or a time. Write 2026-05-04 10:15, with hours from 0 to 23.")));
    };
    const bool dated = rest.size() < text.size();
    if (dated) {
        const QDate found(year, month, date);
        if (!found.isValid() || year < first_year || year > last_year)
            return refuse(
                out, MomentFault::NoSuchDay, quoting(text, QuantityWords::tr("There is no such day as in “%1”.")));
        out.date = found;
        if (rest.isEmpty())
            return out;
        const QChar between = rest.front();
        if (between != u'T' && between != u't' && between != u',' && !between.isSpace())
            return no_moment();
        rest = rest.mid(1).trimmed();
    }
    const std::optional<MomentFault> clock = readClock(rest, out);
    if (!clock)
        return no_moment();
    if (*clock == MomentFault::NoSuchTime)
        return refuse(out, *clock,
            quoting(text,
                QuantityWords::tr("There is no such time as in “%1”: hours run to 23, minutes and seconds to 59.")));
    if (*clock == MomentFault::NoSuchOffset)
        return refuse(out, *clock,
            quoting(text, QuantityWords::tr("No clock is as far from UTC as “%1” says: at most 14 hours.")));
    if (!dated) {
        if (!day)
            return refuse(out, MomentFault::NeedsDate,
                quoting(text, QuantityWords::tr("“%1” is a time without a date. Write 2026-05-04 before it.")));
        out.date = day;
        out.date_from_context = true;
    }
    return out;
}

// ---- Headings and units

namespace {

// Value in the base unit = (value - zero) * times / over. Sources: BIPM, The International System of Units, 9th edition
// (2019), tables 5, 7 and 8 (min, h, d, litre, degree Celsius) and the prefixes of table 7; NIST Special Publication
// 811 (2008), appendix B.8 (inch: 2.54 cm exactly; degree Fahrenheit: (t - 32) / 1.8). Areas: 1 m2 = 10^4 cm2.
struct Unit {
    const char16_t* canonical;
    char kind; // only units of one kind convert
    double times, over, zero;
    const char16_t* spellings; // after `tidied`, separated by spaces
};

constexpr std::array units {
    Unit { u"s", 't', 1, 1, 0, u"s sec secs second seconds" },
    Unit { u"min", 't', 60, 1, 0, u"min mins minute minutes" },
    Unit { u"h", 't', 3600, 1, 0, u"h hr hrs hour hours" },
    Unit { u"d", 't', 86400, 1, 0, u"d day days" },
    Unit { u"µL", 'v', 1, 1, 0, u"uL ul microlitre microlitres microliter microliters" },
    Unit { u"mL", 'v', 1e3, 1, 0, u"mL ml cm3 millilitre millilitres milliliter milliliters" },
    Unit { u"L", 'v', 1e6, 1, 0, u"L l dm3 litre litres liter liters" },
    Unit { u"µg", 'm', 1, 1, 0, u"ug microgram micrograms" },
    Unit { u"mg", 'm', 1e3, 1, 0, u"mg milligram milligrams" },
    Unit { u"g", 'm', 1e6, 1, 0, u"g gram grams" },
    Unit { u"kg", 'm', 1e9, 1, 0, u"kg kilogram kilograms" },
    Unit { u"°C", 'T', 1, 1, 0, u"°C °c C c degC degc celsius" },
    Unit { u"°F", 'T', 5, 9, 32, u"°F °f F f degF degf fahrenheit" },
    Unit { u"K", 'T', 1, 1, 273.15, u"K k kelvin" },
    Unit { u"µm", 'l', 1, 1, 0, u"um micrometre micrometres micrometer micrometers" },
    Unit { u"mm", 'l', 1e3, 1, 0, u"mm millimetre millimetres millimeter millimeters" },
    Unit { u"cm", 'l', 1e4, 1, 0, u"cm centimetre centimetres centimeter centimeters" },
    Unit { u"m", 'l', 1e6, 1, 0, u"m metre metres meter meters" },
    Unit { u"in", 'l', 25400, 1, 0, u"in inch inches \" ″" },
    Unit { u"%", 'r', 1, 1, 0, u"% percent pct" },
    Unit { u"1", 'r', 100, 1, 0, u"1 fraction" },
    Unit { u"µW/cm2", 'E', 1, 1, 0, u"uW/cm2 uw/cm2" },
    Unit { u"mW/cm2", 'E', 1e3, 1, 0, u"mW/cm2 mw/cm2" },
    Unit { u"W/m2", 'E', 100, 1, 0, u"W/m2 w/m2" },
    Unit { u"J/m2", 'H', 1, 1, 0, u"J/m2 j/m2" },
    Unit { u"mJ/cm2", 'H', 10, 1, 0, u"mJ/cm2 mj/cm2" },
    Unit { u"J/cm2", 'H', 1e4, 1, 0, u"J/cm2 j/cm2" },
    Unit { u"kJ/m2", 'H', 1e3, 1, 0, u"kJ/m2 kj/m2" },
    Unit { u"mL/m2", 'c', 1, 1, 0, u"mL/m2 ml/m2" },
    Unit { u"g/m2", 'w', 1, 1, 0, u"g/m2" },
    Unit { u"Pa", 'p', 1, 1, 0, u"Pa pa pascal" },
    Unit { u"hPa", 'p', 100, 1, 0, u"hPa hpa mbar" },
    Unit { u"kPa", 'p', 1000, 1, 0, u"kPa kpa" },
};

/// One way of writing micro, degrees, squares and "per"; no spaces.
QString tidied(QStringView unit)
{
    static const QRegularExpression inverse_area(QStringLiteral("^(.+?)[.*]?(m|cm)-2$"));
    QString text = unit.trimmed().toString();
    text.replace(QStringLiteral(" per "), QStringLiteral("/"));
    QString out;
    for (const QChar c : std::as_const(text)) {
        switch (c.unicode()) {
        case 0xb5: // micro sign
        case 0x3bc: // Greek mu
            out += u'u';
            break;
        case 0xba: // masculine ordinal, often typed for a degree sign
        case 0x2da: // ring above
            out += QChar(0xb0);
            break;
        case 0x2103:
            out += QStringLiteral("°C");
            break;
        case 0x2109:
            out += QStringLiteral("°F");
            break;
        case 0xb2:
            out += u'2';
            break;
        case 0xb3:
            out += u'3';
            break;
        case 0x207b: // superscript minus
        case 0x2212: // minus sign
            out += u'-';
            break;
        case 0xb7: // middle dot
            out += u'.';
            break;
        case u'^':
            break;
        default:
            if (!c.isSpace())
                out += c;
        }
    }
    return out.replace(inverse_area, QStringLiteral("\\1/\\2") + u'2');
}

const Unit* findUnit(QStringView written)
{
    const QString text = tidied(written);
    if (text.isEmpty() || text.size() > 20)
        return nullptr;
    const auto find = [](const QString& spelling) -> const Unit* {
        for (const Unit& unit : units)
            for (const QStringView one : QStringView(unit.spellings).split(u' '))
                if (one == spelling)
                    return &unit;
        return nullptr;
    };
    if (const Unit* unit = find(text))
        return unit;
    // Case tells M (mega) from m (milli) in symbols, not in words.
    const bool word = text.size() >= 3 && std::all_of(text.begin(), text.end(), [](QChar c) { return c.isLetter(); });
    return word ? find(text.toLower()) : nullptr;
}

std::optional<Heading> splitSuffix(const QString& text)
{
    const QStringList words = text.split(u'_');
    for (qsizetype n = std::min<qsizetype>(3, words.size() - 1); n >= 1; --n) {
        QStringList tail = words.mid(words.size() - n);
        const QString written = tail.join(u'_');
        tail.removeAll(QStringLiteral("per"));
        const QString unit
            = tail.join(tail.value(0) == QStringLiteral("deg") ? QString() : QStringLiteral("/")).toLower();
        const QString name = words.mid(0, words.size() - n).join(u'_');
        if (!name.isEmpty() && unit != QStringLiteral("1") && findUnit(unit))
            return Heading { name, unit, UnitFrom::Suffix, true };
    }
    return std::nullopt;
}

} // namespace

QString canonicalUnit(QStringView unit)
{
    const Unit* found = findUnit(unit);
    return found ? QString::fromUtf16(found->canonical) : QString();
}

std::optional<double> convert(double value, QStringView from, QStringView to)
{
    if (from.trimmed() == to.trimmed())
        return value;
    const Unit* source = findUnit(from);
    const Unit* target = findUnit(to);
    if (!source || !target || source->kind != target->kind)
        return std::nullopt;
    if (source == target)
        return value;
    // Whole factors first, so that 15 min is 0.25 h and not a digit beside it.
    const double times = source->times * target->over, over = source->over * target->times;
    const double moved = value - source->zero;
    const double scaled = std::fmod(over, times) == 0 ? moved / (over / times)
        : std::fmod(times, over) == 0                 ? moved * (times / over)
                                                      : moved * times / over;
    return scaled + target->zero;
}

Heading splitHeading(QStringView heading)
{
    const QString text = heading.trimmed().toString();
    const auto with = [](QStringView name, QStringView unit, UnitFrom from) {
        return Heading { name.trimmed().toString(), unit.trimmed().toString(), from, findUnit(unit) != nullptr };
    };
    const QChar last = text.isEmpty() ? QChar() : text.back();
    if (last == u']' || last == u')') {
        const qsizetype open = text.lastIndexOf(last == u']' ? u'[' : u'(');
        if (open > 0 && !QStringView(text).left(open).trimmed().isEmpty())
            return with(QStringView(text).left(open), QStringView(text).mid(open + 1).chopped(1), UnitFrom::Brackets);
    }
    for (const QString& between : { QStringLiteral(" / "), QStringLiteral(", ") }) {
        const qsizetype at = text.lastIndexOf(between);
        const Heading split = at > 0
            ? with(QStringView(text).left(at), QStringView(text).mid(at + between.size()), UnitFrom::Suffix)
            : Heading();
        if (split.unit_known)
            return split;
    }
    if (const std::optional<Heading> split = splitSuffix(text))
        return *split;
    return { text, {}, UnitFrom::Nowhere, false };
}

} // namespace washfast
