#include "ui/prints/history_words.h"

#include "core/quantity/value_text.h"
#include "core/store/writer.h"
#include "ui/prints/words.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QLocale>

namespace washfast::ui {

namespace {

const QString arrow = QStringLiteral(" → ");

QString inWords(const Field* field, const store::Raw& raw, const Notebook& notebook)
{
    if (std::holds_alternative<std::monostate>(raw))
        return PrintsWords::tr("not recorded");
    if (field) {
        const auto value = store::fromRaw(*field, raw);
        if (value) {
            if (const auto* link = std::get_if<Link>(&*value)) {
                const auto name = notebook.nameOf({ *field->target, link->id });
                return name.isEmpty() ? PrintsWords::tr("one that has been put away") : name;
            }
            return displayText(*field, { *value, field->nature }, QLocale());
        }
    }
    if (const auto* text = std::get_if<std::string>(&raw))
        return QString::fromStdString(*text);
    if (const auto* integer = std::get_if<qint64>(&raw))
        return QString::number(*integer);
    return QLocale().toString(std::get<double>(raw));
}

/// What the evidence of each field was, where it is not the field's usual one.
QJsonObject evidenceIn(const store::Raw& raw)
{
    const auto* text = std::get_if<std::string>(&raw);
    return text ? QJsonDocument::fromJson(QByteArray::fromStdString(*text)).object() : QJsonObject();
}

QString evidenceOf(const QJsonObject& all, const Field& field)
{
    return evidenceLabel(evidenceFromKey(all.value(field.key).toString()).value_or(field.nature));
}

const Field* columnOf(const Notebook& notebook, Entity entity, const QString& key)
{
    const int column = notebook.catalogue().column(entity, key);
    return column < 0 ? nullptr : &notebook.catalogue().columns(entity)[size_t(column)];
}

/// "Mix on the sheet" and "measured → estimated".
void tellEvidence(const store::HistoryEntry& entry, const Notebook& notebook, HistoryLine& line)
{
    const auto before = evidenceIn(entry.old_value);
    const auto after = evidenceIn(entry.new_value);
    auto keys = before.keys() + after.keys();
    keys.removeDuplicates();
    QStringList what;
    QStringList change;
    for (const auto& key : keys) {
        const auto* field = columnOf(notebook, entry.row.entity, key);
        if (!field || before.value(key) == after.value(key))
            continue;
        what << field->label;
        change << evidenceOf(before, *field) + arrow + evidenceOf(after, *field);
    }
    line.what = what.join(QStringLiteral(", "));
    line.change = change.join(QStringLiteral(", "));
}

/// A row that came, went or came back, with its name where it has one of its own.
void tellRow(const store::HistoryEntry& entry, const Notebook& notebook, HistoryLine& line)
{
    const auto kind = entityLabel(entry.row.entity);
    const auto* gone = std::get_if<qint64>(&entry.new_value);
    line.what = entry.field.isEmpty() ? PrintsWords::tr("%1 added").arg(kind)
        : gone && *gone != 0          ? PrintsWords::tr("%1 removed").arg(kind)
                                      : PrintsWords::tr("%1 brought back").arg(kind);
    const auto* identity = notebook.catalogue().identity(entry.row.entity);
    if (identity && identity->kind == Kind::Text)
        line.change = notebook.nameOf(entry.row);
}

} // namespace

std::vector<HistoryLine> historyLines(const std::vector<store::HistoryEntry>& entries, const Notebook& notebook)
{
    std::vector<HistoryLine> lines;
    for (auto it = entries.rbegin(); it != entries.rend(); ++it) {
        const auto& entry = *it;
        HistoryLine line;
        line.when = QLocale().toString(
            QDateTime::fromString(entry.at, Qt::ISODateWithMs).toLocalTime(), QLocale::ShortFormat);
        line.step = entry.step == 0 ? PrintsWords::tr("by another program") : entry.step_label;
        if (entry.field.isEmpty() || entry.field == QLatin1String("removed")) {
            tellRow(entry, notebook, line);
        } else if (entry.field == QLatin1String("not_measured")) {
            tellEvidence(entry, notebook, line);
        } else {
            const auto* field = columnOf(notebook, entry.row.entity, entry.field);
            line.what = field ? field->label : entry.field;
            line.change = inWords(field, entry.old_value, notebook) + arrow + inWords(field, entry.new_value, notebook);
        }
        if (entry.row.entity != Entity::Print && !entry.field.isEmpty() && entry.field != QLatin1String("removed"))
            line.what = PrintsWords::tr("%1: %2").arg(entityLabel(entry.row.entity), line.what);
        lines.push_back(std::move(line));
    }
    return lines;
}

} // namespace washfast::ui
