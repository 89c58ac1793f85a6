#include "ui/prints/history_words.h"

#include "core/quantity/value_text.h"
#include "core/store/writer.h"

#include <QCoreApplication>
#include <QLocale>

namespace washfast::ui {

namespace {

QString tr(const char* text)
{
    return QCoreApplication::translate("History", text);
}

QString inWords(const Field* field, const store::Raw& raw, const Notebook& notebook)
{
    if (std::holds_alternative<std::monostate>(raw))
        return tr("not recorded");
    if (field) {
        const auto value = store::fromRaw(*field, raw);
        if (value) {
            if (const auto* link = std::get_if<Link>(&*value))
                return notebook.nameOf({ *field->target, link->id });
            return displayText(*field, { *value, field->nature }, QLocale());
        }
    }
    if (const auto* text = std::get_if<std::string>(&raw))
        return QString::fromStdString(*text);
    if (const auto* integer = std::get_if<qint64>(&raw))
        return QString::number(*integer);
    return QLocale().toString(std::get<double>(raw));
}

} // namespace

std::vector<HistoryLine> historyLines(const std::vector<store::HistoryEntry>& entries, const Notebook& notebook)
{
    std::vector<HistoryLine> lines;
    for (auto it = entries.rbegin(); it != entries.rend(); ++it) {
        const auto& entry = *it;
        HistoryLine line;
        line.when = QLocale().toString(QDateTime::fromString(entry.at, Qt::ISODateWithMs).toLocalTime(), QLocale::ShortFormat);
        line.step = entry.step == 0 ? tr("by another program") : entry.step_label;
        const auto kind = entityLabel(entry.row.entity);
        if (entry.field.isEmpty()) {
            line.what = tr("%1 added").arg(kind);
        } else if (entry.field == QLatin1String("removed")) {
            line.what = std::get_if<qint64>(&entry.new_value) && std::get<qint64>(entry.new_value) != 0 ? tr("%1 removed").arg(kind) : tr("%1 brought back").arg(kind);
        } else if (entry.field == QLatin1String("not_measured")) {
            line.what = tr("%1: measured, estimated or assumed").arg(kind);
            line.change = inWords(nullptr, entry.old_value, notebook) + QStringLiteral(" → ") + inWords(nullptr, entry.new_value, notebook);
        } else {
            const int column = notebook.catalogue().column(entry.row.entity, entry.field);
            const auto* field = column < 0 ? nullptr : &notebook.catalogue().columns(entry.row.entity)[size_t(column)];
            line.what = field ? field->label : entry.field;
            line.change = inWords(field, entry.old_value, notebook) + QStringLiteral(" → ") + inWords(field, entry.new_value, notebook);
        }
        lines.push_back(std::move(line));
    }
    return lines;
}

} // namespace washfast::ui
