// Writes what a preview has planned, as one step.
#include "core/exchange/import.h"

#include "core/exchange/words.h"

#include <algorithm>

namespace washfast::exchange {

namespace {

/// Writes the records that prints point at; `ids` gets the row of each in the file.
Outcome writeRecords(store::Writer& writer, const std::vector<LinkedRecord>& records, std::vector<qint64>& ids)
{
    ids.assign(records.size(), 0);
    std::vector<size_t> order;
    for (size_t i = 0; i < records.size(); ++i) {
        ids[i] = records[i].id;
        if (records[i].used)
            order.push_back(i);
    }
    // What is pointed at comes before what points, as the entities are listed.
    std::stable_sort(
        order.begin(), order.end(), [&](size_t a, size_t b) { return records[a].entity < records[b].entity; });
    for (const size_t i : order) {
        const auto& record = records[i];
        const auto& columns = writer.catalogue().columns(record.entity);
        std::vector<store::FieldValue> values;
        for (const auto& field : columns) {
            const auto& held = record.held[size_t(field.ordinal)];
            Known value = held.value;
            if (held.link >= 0)
                value = Known { Link { ids[size_t(held.link)] }, field.nature };
            if (value.has() && (record.id == 0 || held.line > 0))
                values.emplace_back(field.key, value);
        }
        if (record.id == 0) {
            const auto added = writer.add(record.entity, 0, values);
            if (!added)
                return added.error();
            ids[i] = *added;
            continue;
        }
        for (const auto& [column, value] : values)
            if (auto done = writer.set({ record.entity, record.id }, column, value, Known {}); !done)
                return done;
    }
    return Done {};
}

std::vector<store::FieldValue> withLinks(std::vector<store::FieldValue> values,
    const std::vector<std::pair<QString, int>>& links, const std::vector<qint64>& ids)
{
    for (const auto& [column, record] : links)
        values.emplace_back(column, Known { Link { ids[size_t(record)] } });
    return values;
}

Outcome writeRow(store::Writer& writer, const ImportRow& row, const std::vector<qint64>& ids)
{
    const auto where = [&](Error error) {
        error.where = Words::tr("line %1").arg(row.line);
        return error;
    };
    const auto print = writer.add(Entity::Print, 0, withLinks(row.own, row.links, ids));
    if (!print)
        return where(print.error());
    for (const auto& child : row.children)
        if (const auto added = writer.add(child.entity, *print, withLinks(child.values, child.links, ids)); !added)
            return where(added.error());
    return Done {};
}

} // namespace

QString Refusal::sentence() const
{
    const QString place = heading.isEmpty() ? Words::tr("Line %1").arg(line)
                                            : Words::tr("Line %1, %2").arg(QString::number(line), heading);
    return place + QStringLiteral(": ") + says;
}

int ImportPreview::count(ImportRow::State state) const
{
    return int(std::count_if(rows.begin(), rows.end(), [&](const ImportRow& row) { return row.state == state; }));
}

std::vector<Refusal> ImportPreview::refusals() const
{
    std::vector<Refusal> all;
    for (const auto& row : rows)
        all.insert(all.end(), row.refusals.begin(), row.refusals.end());
    return all;
}

Result<ImportReport> applyImport(
    store::NotebookFile& file, const ImportPreview& preview, bool keep_good, const QString& label)
{
    if (!preview.faults.isEmpty())
        return Error { Trouble::BadInput, preview.faults.join(QLatin1Char('\n')), {} };
    ImportReport report;
    report.refused = preview.count(ImportRow::State::Refused);
    report.already_there = preview.count(ImportRow::State::AlreadyThere);
    if (report.refused > 0 && !keep_good)
        return Error { Trouble::BadInput,
            Words::tr("Nothing was imported, because %1 of %n rows cannot be taken as they are.", nullptr,
                int(preview.rows.size()))
                .arg(report.refused),
            {} };
    const int good = preview.count(ImportRow::State::New);
    if (good == 0)
        return report;
    const auto step = file.perform(label, [&](store::Writer& writer) -> Outcome {
        std::vector<qint64> ids;
        if (auto done = writeRecords(writer, preview.records, ids); !done)
            return done;
        for (const auto& row : preview.rows)
            if (row.state == ImportRow::State::New)
                if (auto done = writeRow(writer, row, ids); !done)
                    return done;
        return Done {};
    });
    if (!step)
        return step.error();
    report.imported = good;
    report.step = *step;
    return report;
}

} // namespace washfast::exchange
