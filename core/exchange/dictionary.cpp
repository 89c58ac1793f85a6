#include "core/exchange/dictionary.h"

#include "core/exchange/words.h"
#include "core/quantity/value_text.h"

namespace washfast::exchange {

namespace {

QString datatype(Kind kind)
{
    switch (kind) {
    case Kind::Number:
        return QStringLiteral("number");
    case Kind::YesNo:
        return QStringLiteral("boolean");
    case Kind::Time:
        return QStringLiteral("dateTimeStamp"); // XML Schema's name for a moment that has an offset
    case Kind::Choice:
    case Kind::ChoiceSet:
    case Kind::Text:
    case Kind::Link:
        break;
    }
    return QStringLiteral("string");
}

QString plausible(const DictionaryEntry& entry)
{
    if (!entry.low || !entry.high)
        return {};
    return Words::tr("Plausible from %1 to %2.").arg(isoNumber(*entry.low), isoNumber(*entry.high));
}

} // namespace

DictionaryEntry dictionaryEntry(const Field& field)
{
    DictionaryEntry entry;
    entry.key = field.key;
    entry.label = field.label;
    entry.unit = field.unit;
    entry.kind = kindLabel(field.kind);
    entry.station = stationLabel(field.station);
    entry.of = entityLabel(field.entity);
    QStringList choices;
    for (const auto& choice : field.choices)
        choices << choice.key + QStringLiteral(" = ") + choice.label;
    entry.choices = choices.join(QStringLiteral("; "));
    entry.low = field.low;
    entry.high = field.high;
    entry.description = field.description;
    if (!field.derivation) {
        entry.evidence = evidenceLabel(field.nature);
        return entry;
    }
    entry.evidence = Words::tr("that of its weakest input");
    QStringList inputs = field.derivation->inputs;
    for (const auto& table : field.derivation->rows)
        for (const auto& column : table.columns)
            if (!inputs.contains(column))
                inputs << column;
    entry.worked_out_from = inputs.join(QStringLiteral("; "));
    return entry;
}

QStringList dictionaryHeadings()
{
    return { Words::tr("Key"), Words::tr("Name"), Words::tr("Unit"), Words::tr("Kind"), Words::tr("Station"),
        Words::tr("Recorded of"), Words::tr("Choices"), Words::tr("Plausible from"), Words::tr("Plausible to"),
        Words::tr("A plain entry is"), Words::tr("Worked out from"), Words::tr("Description") };
}

CsvwColumn csvwColumn(const Field& field)
{
    const auto entry = dictionaryEntry(field);
    CsvwColumn column;
    column.name = csvwColumnName(field.key);
    column.titles = { field.key, field.labelWithUnit() };
    column.datatype = datatype(field.kind);
    column.unit = field.unit;
    QStringList words { entry.description };
    if (field.kind == Kind::YesNo)
        column.format = QStringLiteral("yes|no");
    for (const auto& choice : field.choices)
        column.choices << choice.key;
    if (!entry.choices.isEmpty())
        words << entry.choices + QLatin1Char('.');
    if (field.kind == Kind::ChoiceSet)
        column.list_separator = QStringLiteral("; ");
    if (const auto range = plausible(entry); !range.isEmpty())
        words << range;
    if (!entry.worked_out_from.isEmpty())
        words << Words::tr("Worked out from %1.").arg(entry.worked_out_from);
    column.description = words.join(QLatin1Char(' '));
    return column;
}

QString notMeasuredHeading()
{
    return QStringLiteral("not_measured");
}

CsvwColumn notMeasuredColumn()
{
    CsvwColumn column;
    column.name = notMeasuredHeading();
    column.titles = { notMeasuredHeading() };
    column.list_separator = QStringLiteral("; ");
    column.description = Words::tr(
        "The fields of this row that were estimated (by eye, or by a rough way) or assumed, each as key:evidence. All "
        "others were "
        "measured, or worked out from what was measured.");
    return column;
}

} // namespace washfast::exchange
