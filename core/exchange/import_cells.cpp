#include "core/exchange/import_cells.h"

#include "core/exchange/words.h"
#include "core/quantity/value_text.h"

#include <QHash>

namespace washfast::exchange {

namespace {

Error bad(const QString& says)
{
    return { Trouble::BadInput, says, {} };
}

Evidence evidenceOf(NumberFlag flag, const Field& field)
{
    switch (flag) {
    case NumberFlag::Estimated:
        return Evidence::Estimated;
    case NumberFlag::Assumed:
        return Evidence::Assumed;
    case NumberFlag::Plain:
        break;
    }
    return field.nature;
}

Result<Known> readNumber(const Field& field, const QString& cell, const CellReading& how)
{
    QString text = cell.trimmed();
    text.replace(QChar(u'≈'), QLatin1Char('~')); // as the screen shows an estimate
    if (!field.unit.isEmpty() && text.size() > field.unit.size() && text.endsWith(field.unit)
        && canonicalUnit(field.unit).isEmpty())
        text = text.chopped(field.unit.size()).trimmed(); // units that nothing converts to, such as eighths
    const auto read = parseNumber(text, how.mark);
    if (!read.value)
        return bad(read.says);
    const bool share = field.unit.isEmpty() && field.low == 0.0 && field.high == 1.0;
    const QString wanted = share ? QStringLiteral("1") : field.unit;
    const QString given = read.unit.isEmpty() ? how.unit : read.unit;
    double value = *read.value;
    if (!given.isEmpty()) {
        const auto converted = convert(value, given, wanted);
        if (!converted && wanted.isEmpty())
            return bad(Words::tr("“%1” has a unit, and this field has none.").arg(cell.trimmed()));
        if (!converted)
            return bad(Words::tr("The unit of “%1” cannot be turned into %2.").arg(cell.trimmed(), wanted));
        value = *converted;
    }
    const bool below = field.low && value < *field.low;
    const bool above = field.high && value > *field.high;
    if ((below || above) && !how.any_size) {
        const auto shown = [&](double number) {
            return field.unit.isEmpty() ? isoNumber(number) : isoNumber(number) + QLatin1Char(' ') + field.unit;
        };
        return bad(Words::tr("%1 is outside of what is plausible, which is %2 to %3.")
                       .arg(shown(value), isoNumber(field.low.value_or(0)), shown(field.high.value_or(0))));
    }
    return knownNumber(value, evidenceOf(read.flag, field));
}

/// The text without the marks that parseTyped takes off.
QStringView withoutMarks(QStringView text)
{
    text = text.trimmed();
    while (text.startsWith(u'~') || text.startsWith(u'≈'))
        text = text.mid(1).trimmed();
    while (text.endsWith(u'?'))
        text = text.chopped(1).trimmed();
    return text;
}

Result<Known> readTime(const Field& field, const QString& cell, const CellReading& how)
{
    if (!how.day) {
        const auto moment = parseMoment(withoutMarks(cell));
        if (moment.fault == MomentFault::NeedsDate && how.day_refused)
            return Known {};
        if (moment.fault == MomentFault::NeedsDate)
            return bad(Words::tr("“%1” is a time without a date; a column “date” can give the day of the row.")
                           .arg(cell.trimmed()));
    }
    // The clock of the row; its date is used only where the text has none, which was refused above.
    const QDateTime clock(how.day.value_or(QDate(2000, 1, 1)), QTime(12, 0), how.zone);
    const auto known = parseTyped(field, cell, QLocale::c(), clock);
    return known ? known : Result<Known>(bad(known.error().says));
}

} // namespace

bool isBlank(const Field& field, const QString& cell)
{
    const QString text = cell.trimmed();
    if (text.isEmpty())
        return true;
    if (field.kind == Kind::Text)
        return false;
    static const QStringList nothing { QStringLiteral("-"), QStringLiteral("–"), QStringLiteral("—"),
        QStringLiteral("?"), QStringLiteral("na"), QStringLiteral("n/a"), QStringLiteral("unknown") };
    return nothing.contains(text.toLower());
}

Result<Known> readCell(const Field& field, const QString& cell, const CellReading& how)
{
    if (isBlank(field, cell))
        return Known {};
    switch (field.kind) {
    case Kind::Number:
        return readNumber(field, cell, how);
    case Kind::Time:
        return readTime(field, cell, how);
    default:
        break;
    }
    const auto known = parseTyped(field, cell, QLocale::c());
    return known ? known : Result<Known>(bad(known.error().says));
}

Result<std::optional<QDate>> readDay(const QString& cell)
{
    if (cell.trimmed().isEmpty())
        return std::optional<QDate> {};
    const auto moment = parseMoment(cell);
    if (moment.fault == MomentFault::NeedsDate)
        return bad(Words::tr("“%1” is a time; a date is wanted here.").arg(cell.trimmed()));
    if (!moment.ok())
        return bad(moment.says);
    return moment.date;
}

Result<QHash<QString, Evidence>> readNotMeasured(const QString& cell)
{
    QHash<QString, Evidence> all;
    for (const auto& part : cell.split(QLatin1Char(';'), Qt::SkipEmptyParts)) {
        if (part.trimmed().isEmpty())
            continue;
        const QString key = part.section(QLatin1Char(':'), 0, 0).trimmed();
        const auto evidence = evidenceFromKey(part.section(QLatin1Char(':'), 1).trimmed());
        if (key.isEmpty() || !evidence)
            return bad(
                Words::tr("“%1” does not say which field was estimated or assumed; write coat_volume_ml:estimated.")
                    .arg(part.trimmed()));
        all.insert(key, *evidence);
    }
    return all;
}

} // namespace washfast::exchange
