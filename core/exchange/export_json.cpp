// The same contents as the workbook, with the catalogue's keys.
#include "core/exchange/dictionary.h"
#include "core/exchange/export_parts.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>

namespace washfast::exchange {

namespace {

void noteEvidence(QJsonObject& object, const QString& key, const Known& known)
{
    if (!known.has() || known.evidence == Evidence::Measured)
        return;
    auto all = object.value(notMeasuredHeading()).toObject();
    all.insert(key, evidenceKey(known.evidence));
    object.insert(notMeasuredHeading(), all);
}

QJsonObject rowObject(
    const ExportSelection& selection, Entity entity, const std::vector<const Field*>& columns, int row)
{
    QJsonObject object;
    for (const auto* field : columns) {
        const auto known = selection.notebook->table(entity).at(row, field->ordinal);
        object.insert(field->key, jsonValue(*selection.notebook, *field, known));
        if (field->kind != Kind::Link)
            noteEvidence(object, field->key, known);
    }
    return object;
}

QJsonArray prints(const ExportSelection& selection)
{
    const PrintReader reader(*selection.notebook);
    QJsonArray all;
    for (const int print : selection.prints) {
        const auto values = printValues(selection, reader, print);
        QJsonObject object;
        for (size_t i = 0; i < values.size(); ++i) {
            object.insert(selection.field(i).key, jsonValue(*selection.notebook, selection.field(i), values[i]));
            noteEvidence(object, selection.field(i).key, values[i]);
        }
        all.append(object);
    }
    return all;
}

QJsonArray rowsOf(const ExportSelection& selection, Entity entity, const std::vector<int>& rows)
{
    const auto columns = shownColumns(selection, entity, rows);
    const auto owner = ownerOf(entity);
    QJsonArray all;
    for (const int row : rows) {
        auto object = rowObject(selection, entity, columns, row);
        if (owner)
            object.insert(selection.catalogue().identity(owner->entity)->key,
                selection.notebook->nameOf({ owner->entity, selection.notebook->table(entity).owner(row) }));
        all.append(object);
    }
    return all;
}

QJsonArray mixes(const ExportSelection& selection)
{
    const auto& notebook = *selection.notebook;
    auto all = rowsOf(selection, Entity::Mix, selection.mixes);
    for (size_t i = 0; i < selection.mixes.size(); ++i) {
        const auto parts = notebook.children(Entity::MixPart, notebook.table(Entity::Mix).id(selection.mixes[i]));
        const std::vector<int> rows(parts.begin(), parts.end());
        auto object = all[qsizetype(i)].toObject();
        QJsonArray list;
        for (const int row : rows)
            list.append(rowObject(selection, Entity::MixPart, shownColumns(selection, Entity::MixPart, rows), row));
        object.insert(QStringLiteral("parts"), list);
        all[qsizetype(i)] = object;
    }
    return all;
}

QJsonArray dictionary(const ExportSelection& selection)
{
    const auto number = [](std::optional<double> value) { return value ? QJsonValue(*value) : QJsonValue(); };
    QJsonArray all;
    for (size_t i = 0; i < selection.fields.size(); ++i) {
        const auto& field = selection.field(i);
        const auto entry = dictionaryEntry(field);
        QJsonArray choices;
        for (const auto& choice : field.choices)
            choices.append(
                QJsonObject { { QStringLiteral("key"), choice.key }, { QStringLiteral("label"), choice.label } });
        all.append(QJsonObject { { QStringLiteral("key"), entry.key }, { QStringLiteral("label"), entry.label },
            { QStringLiteral("unit"), entry.unit }, { QStringLiteral("kind"), entry.kind },
            { QStringLiteral("station"), stationKey(field.station) }, { QStringLiteral("of"), entityKey(field.entity) },
            { QStringLiteral("choices"), choices }, { QStringLiteral("plausible_low"), number(entry.low) },
            { QStringLiteral("plausible_high"), number(entry.high) }, { QStringLiteral("derived"), field.derived() },
            { QStringLiteral("worked_out_from"),
                QJsonArray::fromStringList(entry.worked_out_from.split(QStringLiteral("; "), Qt::SkipEmptyParts)) },
            { QStringLiteral("description"), entry.description } });
    }
    return all;
}

} // namespace

MadeFiles makeJson(const ExportSelection& selection, const QString& path)
{
    const QJsonObject document { { QStringLiteral("term"),
                                     selection.term.isEmpty() ? QJsonValue() : QJsonValue(selection.term) },
        { QStringLiteral("prints"), prints(selection) },
        { QStringLiteral("sessions"), rowsOf(selection, Entity::Session, selection.sessions) },
        { QStringLiteral("mixes"), mixes(selection) },
        { QStringLiteral("readings"), rowsOf(selection, Entity::Reading, selection.readings) },
        { QStringLiteral("dictionary"), dictionary(selection) } };
    return std::vector<files::FileToWrite> { { path, QJsonDocument(document).toJson() } };
}

} // namespace washfast::exchange
