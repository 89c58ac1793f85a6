#include "core/chemistry/formula_parser.h"

#include "core/chemistry/atomic_weights.h"
#include "core/chemistry/words.h"

namespace washfast::chemistry {

namespace {

constexpr int longest = 200, deepest = 20, largest = 9999;

/// Thrown inside this file only; readFormula turns it into a fault.
struct Stop {
    FormulaFault fault;
};

constexpr char16_t smallFigures = u'\u2080', minusSign = u'\u2212', raisedPlus = u'\u207A', raisedMinus = u'\u207B';

int digitOf(QChar c)
{
    const auto u = c.unicode();
    if (u >= u'0' && u <= u'9')
        return u - u'0';
    return u >= smallFigures && u <= smallFigures + 9 ? u - smallFigures : -1;
}

/// Raised figures: the first three have places of their own in Unicode.
int raisedDigitOf(QChar c)
{
    switch (c.unicode()) {
    case u'\u00B9':
        return 1;
    case u'\u00B2':
        return 2;
    case u'\u00B3':
        return 3;
    default:
        break;
    }
    const auto u = c.unicode();
    return u == u'\u2070' || (u >= u'\u2074' && u <= u'\u2079') ? u - u'\u2070' : -1;
}

int signOf(QChar c)
{
    const auto u = c.unicode();
    if (u == u'+')
        return 1;
    return u == u'-' || u == minusSign || u == u'\u2013' ? -1 : 0;
}

int raisedSignOf(QChar c)
{
    return c.unicode() == raisedPlus ? 1 : c.unicode() == raisedMinus ? -1 : 0;
}

bool isDot(QChar c)
{
    static const QString dots = QStringLiteral(".*·•⋅∙");
    return dots.contains(c);
}

QChar closingOf(QChar opening)
{
    switch (opening.unicode()) {
    case u'(':
        return u')';
    case u'[':
        return u']';
    case u'{':
        return u'}';
    default:
        return {};
    }
}

class Reader {
public:
    explicit Reader(QStringView text)
        : text_(text)
    {
    }

    Composition read()
    {
        if (text_.size() > longest)
            stop(longest, Words::tr("A formula has at most %1 characters.").arg(longest));
        skipSpaces();
        if (atEnd())
            stop(at_, Words::tr("A formula is missing here."));
        Composition whole;
        for (;;) {
            const double factor = leadingNumber();
            add(whole, group({}, 0), factor);
            skipSpaces();
            if (atEnd() || chargeBegins())
                break;
            if (!isDot(now()))
                stop(at_, unexpected());
            ++at_;
            skipSpaces();
            if (atEnd())
                stop(at_, Words::tr("Something is missing behind the dot."));
        }
        whole.charge = charge();
        skipSpaces();
        if (!atEnd())
            stop(at_, unexpected());
        return whole;
    }

private:
    [[noreturn]] static void stop(qsizetype at, const QString& says) { throw Stop { { at, says } }; }
    [[nodiscard]] bool atEnd() const { return at_ >= text_.size(); }
    [[nodiscard]] QChar now() const { return text_[at_]; }
    [[nodiscard]] QString unexpected() const
    {
        const QChar c = now();
        if (c == u')' || c == u']' || c == u'}')
            return Words::tr("“%1” closes nothing.").arg(c);
        if (c.isLower())
            return Words::tr("No element begins with “%1”; capitals matter.").arg(c);
        return Words::tr("“%1” does not belong here.").arg(c);
    }
    void skipSpaces()
    {
        while (!atEnd() && now().isSpace())
            ++at_;
    }

    static void add(Composition& to, const Composition& part, double factor)
    {
        for (auto atom = part.atoms.begin(); atom != part.atoms.end(); ++atom)
            to.atoms[atom.key()] += atom.value() * factor;
    }

    /// The number in front of a part; 1 when there is none. It may have decimals.
    double leadingNumber()
    {
        const auto start = at_;
        QString digits;
        bool point = false;
        while (!atEnd() && (digitOf(now()) >= 0 || (now() == u'.' && !point && !digits.isEmpty()))) {
            point = point || now() == u'.';
            digits += digitOf(now()) >= 0 ? QString::number(digitOf(now())) : QStringLiteral(".");
            ++at_;
        }
        if (digits.isEmpty())
            return 1.0;
        if (digits.endsWith(u'.'))
            stop(at_ - 1, Words::tr("A number does not end with a dot."));
        const double number = digits.toDouble();
        if (number <= 0)
            stop(start, Words::tr("A part cannot stand there zero times."));
        if (number > largest)
            stop(start, Words::tr("The number %1 is too large.").arg(digits));
        skipSpaces();
        if (atEnd())
            stop(at_, Words::tr("A formula is missing behind the number."));
        return number;
    }

    /// How often the element or bracket before it stands there; 1 when nothing is said.
    int count()
    {
        const auto start = at_;
        int n = 0;
        while (!atEnd() && digitOf(now()) >= 0) {
            if (at_ == start && digitOf(now()) == 0)
                stop(at_, Words::tr("A count does not begin with 0."));
            n = n * 10 + digitOf(now());
            if (n > largest)
                stop(start, Words::tr("The count is too large."));
            ++at_;
        }
        return at_ == start ? 1 : n;
    }

    QString element()
    {
        const auto two = text_.mid(at_, 2);
        if (two.size() == 2 && two[1].isLower()) {
            if (isElement(two)) {
                at_ += 2;
                return two.toString();
            }
            stop(at_, Words::tr("There is no element “%1”.").arg(two));
        }
        const auto one = text_.mid(at_, 1);
        if (!isElement(one))
            stop(at_, Words::tr("There is no element “%1”.").arg(one));
        ++at_;
        return one.toString();
    }

    /// Elements and brackets up to `closing`, or up to the end of the part when that is null.
    Composition group(QChar closing, int depth)
    {
        const auto start = at_;
        Composition whole;
        while (!atEnd()) {
            const QChar c = now();
            if (const QChar close = closingOf(c); !close.isNull()) {
                if (depth == deepest)
                    stop(at_, Words::tr("The brackets are nested too deep."));
                const auto opened = at_++;
                const auto inner = group(close, depth + 1);
                if (atEnd())
                    stop(opened, Words::tr("“%1” is never closed.").arg(c));
                if (now() != close)
                    stop(at_, Words::tr("“%1” is closed by “%2”.").arg(c, now()));
                ++at_;
                closed_square_ = close == u']';
                add(whole, inner, chargeAfterBracket() ? 1 : count());
            } else if (c.isUpper()) {
                const QString symbol = element();
                closed_square_ = false;
                const auto digits = at_;
                whole.atoms[symbol] += count();
                if (at_ > digits && !atEnd() && signOf(now()) != 0)
                    stop(digits,
                        Words::tr(
                            "“%1” can be a count and a charge; write the charge behind ^ or behind a square bracket.")
                            .arg(text_.mid(digits, at_ + 1 - digits)));
            } else if (c == closing && !closing.isNull()) {
                break;
            } else if (isDot(c) || c.isSpace() || c == u'^' || signOf(c) != 0 || raisedSignOf(c) != 0
                || raisedDigitOf(c) >= 0 || (digitOf(c) >= 0 && at_ > 0 && text_[at_ - 1] == u']')) {
                if (closing.isNull())
                    break;
                if (!isDot(c))
                    stop(at_, unexpected());
                stop(at_, Words::tr("A dot cannot stand inside brackets."));
            } else {
                if (c == u')' || c == u']' || c == u'}') {
                    if (!closing.isNull())
                        break; // of the wrong kind: whoever opened it says so
                }
                stop(at_, unexpected());
            }
        }
        if (whole.atoms.isEmpty())
            stop(at_,
                at_ == start && !closing.isNull() ? Words::tr("There is nothing between the brackets.")
                    : atEnd()                     ? Words::tr("A formula is missing here.")
                                                  : unexpected());
        return whole;
    }

    /// Behind a square bracket "3-" at the very end is a charge.
    [[nodiscard]] bool chargeAfterBracket() const
    {
        if (!closed_square_)
            return false;
        auto at = at_;
        while (at < text_.size() && digitOf(text_[at]) >= 0)
            ++at;
        return at > at_ && at < text_.size() && signOf(text_[at]) != 0;
    }
    [[nodiscard]] bool chargeBegins() const
    {
        const QChar c = now();
        return c == u'^' || signOf(c) != 0 || raisedSignOf(c) != 0 || raisedDigitOf(c) >= 0
            || (digitOf(c) >= 0 && at_ > 0 && text_[at_ - 1] == u']');
    }

    int charge()
    {
        skipSpaces();
        if (atEnd())
            return 0;
        const auto start = at_;
        if (now() == u'^')
            ++at_;
        int size = 0, sign = 0;
        bool figures = false;
        while (!atEnd()) {
            const int digit = digitOf(now()) >= 0 ? digitOf(now()) : raisedDigitOf(now());
            const int way = signOf(now()) != 0 ? signOf(now()) : raisedSignOf(now());
            if (digit >= 0 && size < 100) {
                size = size * 10 + digit;
                figures = true;
            } else if (way != 0 && sign == 0) {
                sign = way;
            } else {
                break;
            }
            ++at_;
        }
        if (sign == 0)
            stop(start, Words::tr("A charge needs + or -."));
        if (figures && size == 0)
            stop(start, Words::tr("A charge of 0 is left out."));
        if (size > 20)
            stop(start, Words::tr("A charge of %1 is too large.").arg(size));
        return sign * (figures ? size : 1);
    }

    QStringView text_;
    qsizetype at_ = 0;
    bool closed_square_ = false;
};

} // namespace

Error FormulaFault::error(const QString& formula) const
{
    return { Trouble::BadInput,
        at >= formula.size() ? Words::tr("At the end: %1").arg(says)
                             : Words::tr("Character %1: %2").arg(QString::number(at + 1), says),
        formula.size() > 60 ? formula.left(60) + QStringLiteral("…") : formula };
}

FormulaReading readFormula(QStringView formula)
{
    try {
        return { Reader(formula).read(), std::nullopt };
    } catch (const Stop& stop) {
        return { std::nullopt, stop.fault };
    }
}

QString prettyFormula(const QString& formula)
{
    if (!readFormula(formula).ok())
        return formula;
    QString pretty;
    bool part_begins = true, in_charge = false;
    const auto raised = [](int digit) {
        static const QString figures = QStringLiteral("⁰¹²³⁴⁵⁶⁷⁸⁹");
        return figures[digit];
    };
    for (qsizetype i = 0; i < formula.size(); ++i) {
        const QChar c = formula[i];
        const bool ends_with_sign
            = i > 0 && formula[i - 1] == u']' && formula.size() - i <= 3 && signOf(formula.back()) != 0; // [Fe(CN)6]3-
        in_charge = in_charge || c == u'^' || ends_with_sign;
        if (c == u'^' || c.isSpace())
            continue;
        const int digit = digitOf(c);
        if (signOf(c) != 0) {
            pretty += QChar(signOf(c) > 0 ? raisedPlus : raisedMinus);
        } else if (digit >= 0 && in_charge) {
            pretty += raised(digit);
        } else if (isDot(c)) {
            // The point of a decimal number in front of a part stays one.
            const bool decimal = part_begins && i > 0 && digitOf(formula[i - 1]) >= 0;
            pretty += decimal ? QChar(u'.') : QChar(u'·');
            part_begins = true;
        } else if (digit >= 0 && !part_begins) {
            pretty += QChar(char16_t(smallFigures + digit));
        } else {
            part_begins = part_begins && digit >= 0;
            pretty += c;
        }
    }
    return pretty;
}

} // namespace washfast::chemistry
