#include "ui/common/natural_order.h"

namespace washfast::ui {

namespace {

bool isDigit(QChar c)
{
    return c >= QLatin1Char('0') && c <= QLatin1Char('9');
}

/// Takes the run of digits at the start, without its leading zeros.
QStringView takeNumber(QStringView& text)
{
    qsizetype end = 0;
    while (end < text.size() && isDigit(text[end]))
        ++end;
    auto number = text.left(end);
    text = text.mid(end);
    while (number.size() > 1 && number.front() == QLatin1Char('0'))
        number = number.mid(1);
    return number;
}

} // namespace

int compareNaturally(QStringView a, QStringView b)
{
    while (!a.isEmpty() && !b.isEmpty()) {
        if (isDigit(a.front()) && isDigit(b.front())) {
            const auto left = takeNumber(a);
            const auto right = takeNumber(b);
            if (left.size() != right.size())
                return left.size() < right.size() ? -1 : 1;
            if (const int order = left.compare(right); order != 0)
                return order;
            continue;
        }
        const auto left = a.front().toCaseFolded();
        const auto right = b.front().toCaseFolded();
        if (left != right)
            return left < right ? -1 : 1;
        a = a.mid(1);
        b = b.mid(1);
    }
    return a.isEmpty() ? (b.isEmpty() ? 0 : -1) : 1;
}

} // namespace washfast::ui
