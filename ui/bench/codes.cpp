#include "ui/bench/codes.h"

#include <algorithm>

namespace washfast::ui {

CodeParts partsOf(const QString& code)
{
    constexpr int mostDigits = 6;
    qsizetype from = code.size();
    while (from > 0 && code[from - 1] >= QLatin1Char('0') && code[from - 1] <= QLatin1Char('9')
        && code.size() - from < mostDigits)
        --from;
    const auto digits = code.mid(from);
    return { code.left(from), digits.toInt(), int(digits.size()) };
}

QString numbered(const QString& stem, int number, int digits)
{
    return stem + QStringLiteral("%1").arg(number, digits, 10, QLatin1Char('0'));
}

QString codeAfter(const QString& code)
{
    const auto parts = partsOf(code);
    if (parts.digits == 0)
        return code + QStringLiteral("-01");
    return numbered(parts.stem, parts.number + 1, parts.digits);
}

QStringList codesFrom(const QString& first, int count, const QStringList& taken)
{
    QStringList codes;
    QString code = first.trimmed();
    if (code.isEmpty())
        return codes;
    if (count > 1 && partsOf(code).digits == 0)
        code = codeAfter(code);
    while (codes.size() < count) {
        if (!taken.contains(code, Qt::CaseInsensitive))
            codes << code;
        code = codeAfter(code);
    }
    return codes;
}

QString nextPrintCode(const Notebook& notebook, SessionId session, const QVector<qint64>& prints)
{
    const auto own = notebook.nameOf(session);
    QString stem = own.isEmpty() ? QString() : own + QLatin1Char('-');
    int highest = 0;
    int digits = 2;
    if (!prints.isEmpty()) {
        const auto last = partsOf(notebook.nameOf({ Entity::Print, prints.last() }));
        if (last.digits > 0) {
            stem = last.stem;
            digits = last.digits;
        }
    }
    for (const auto id : prints)
        if (const auto parts = partsOf(notebook.nameOf({ Entity::Print, id })); parts.digits > 0 && parts.stem == stem)
            highest = std::max(highest, parts.number);
    return numbered(stem, highest + 1, digits);
}

QVector<qint64> sessionsNewestFirst(const Notebook& notebook)
{
    const auto& table = notebook.table(Entity::Session);
    const int start = notebook.catalogue().column(Entity::Session, u"session_start");
    QVector<int> rows;
    for (int row = 0; row < table.rows(); ++row)
        rows << row;
    std::stable_sort(rows.begin(), rows.end(), [&](int a, int b) {
        const auto left = table.at(a, start).time();
        const auto right = table.at(b, start).time();
        if (left.has_value() != right.has_value())
            return left.has_value();
        if (left && *left != *right)
            return *left > *right;
        return table.id(a) > table.id(b);
    });
    QVector<qint64> ids;
    for (const int row : rows)
        ids << table.id(row);
    return ids;
}

QString sessionText(const Notebook& notebook, qint64 session, const QLocale& locale)
{
    const Ref ref { Entity::Session, session };
    QStringList parts { notebook.nameOf(ref) };
    if (const auto start = notebook.get(ref, u"session_start").time())
        parts << locale.toString(start->toDateTime().date(), QLocale::ShortFormat);
    if (const auto group = notebook.get(ref, u"session_group").text(); group && !group->isEmpty())
        parts << *group;
    return parts.join(QStringLiteral(" · "));
}

QString nextSessionCode(const Notebook& notebook, const Instant& now)
{
    const auto ids = sessionsNewestFirst(notebook);
    const auto latest = ids.isEmpty() ? QString() : notebook.nameOf({ Entity::Session, ids.first() });
    const bool dated = QDate::fromString(latest.left(10), Qt::ISODate).isValid();
    if (!dated && partsOf(latest).digits > 0) {
        auto code = codeAfter(latest);
        while (notebook.byName(Entity::Session, code))
            code = codeAfter(code);
        return code;
    }
    const auto day = now.toDateTime().date().toString(Qt::ISODate);
    auto code = day;
    for (int n = 2; notebook.byName(Entity::Session, code); ++n)
        code = day + QLatin1Char('-') + QString::number(n);
    return code;
}

} // namespace washfast::ui
