#include "core/exchange/import_records.h"

#include "core/exchange/import_known.h"
#include "core/exchange/words.h"
#include "core/quantity/value_text.h"

namespace washfast::exchange {

int LinkedRecords::load(Entity entity, qint64 id)
{
    if (const auto it = by_id_.find({ entity, id }); it != by_id_.end())
        return it->second;
    const auto& table = notebook_->table(entity);
    const int row = table.find(id);
    if (row < 0)
        return -1;
    const int index = count();
    by_id_[{ entity, id }] = index;
    const auto& columns = notebook_->catalogue().columns(entity);
    auto& record = records_.emplace_back();
    record.entity = entity;
    record.id = id;
    record.name = notebook_->nameOf({ entity, id });
    record.held.resize(columns.size());
    by_name_[{ entity, foldedName(record.name) }] = index;
    for (const auto& field : columns) {
        auto& held
            = record.held[size_t(field.ordinal)]; // stays where it is: loading more does not move a deque's elements
        if (field.kind == Kind::Link)
            held.link = load(*field.target, table.link(row, field.ordinal));
        else
            held.value = table.at(row, field.ordinal);
    }
    return index;
}

int LinkedRecords::named(Entity entity, const QString& name)
{
    const auto wanted = foldedName(name);
    if (const auto it = by_name_.find({ entity, wanted }); it != by_name_.end())
        return it->second;
    auto& ids = ids_[size_t(entity)];
    if (!ids) {
        ids.emplace();
        const auto& table = notebook_->table(entity);
        for (int row = table.rows() - 1; row >= 0; --row) // the first of equal names stays
            ids->insert(foldedName(notebook_->nameOf({ entity, table.id(row) })), table.id(row));
    }
    if (const auto it = ids->constFind(wanted); it != ids->constEnd())
        return load(entity, *it);
    const int index = count();
    auto& record = records_.emplace_back();
    record.entity = entity;
    record.name = name.trimmed();
    record.held.resize(notebook_->catalogue().columns(entity).size());
    record.held[size_t(notebook_->catalogue().identity(entity)->ordinal)].value = Known { record.name };
    by_name_[{ entity, wanted }] = index;
    return index;
}

std::optional<QString> LinkedRecords::disagreement(const Wish& wish) const
{
    const auto& record = at(wish.record);
    const auto& field = notebook_->catalogue().columns(record.entity)[size_t(wish.column)];
    const auto& held = record.held[size_t(wish.column)];
    QString there;
    QString here;
    if (field.kind == Kind::Link) {
        if (held.link < 0 || held.link == wish.link)
            return std::nullopt;
        there = at(held.link).name;
        here = at(wish.link).name;
    } else {
        if (!held.value.has() || held.value.value == wish.value.value)
            return std::nullopt;
        const auto a = held.value.time();
        const auto b = wish.value.time();
        if ((wish.day_only || held.day_only) && a && b && a->toDateTime().date() == b->toDateTime().date())
            return std::nullopt;
        there = isoText(field, held.value.value);
        here = wish.day_only && b ? b->toDateTime().date().toString(Qt::ISODate) : isoText(field, wish.value.value);
    }
    const QString unit = field.unit.isEmpty() ? QString() : QLatin1Char(' ') + field.unit;
    const QString who = QStringLiteral("%1 %2").arg(entityLabel(record.entity), record.name);
    if (held.line > 0)
        return Words::tr("“%1” of the %2 is %3 in line %4 and %5 here.")
            .arg(field.label, who, there + unit, QString::number(held.line), here + unit);
    return Words::tr("“%1” of the %2 is %3 in the notebook and %4 here.")
        .arg(field.label, who, there + unit, here + unit);
}

void LinkedRecords::grant(const Wish& wish, qsizetype line)
{
    auto& held = records_[size_t(wish.record)].held[size_t(wish.column)];
    const bool better = held.day_only && !wish.day_only;
    if (held.link >= 0 || (held.value.has() && !better))
        return;
    held = { wish.value, wish.link, line, wish.day_only };
}

void LinkedRecords::use(int record)
{
    auto& wanted = records_[size_t(record)];
    if (wanted.used)
        return;
    wanted.used = true;
    for (const auto& held : wanted.held)
        if (held.link >= 0)
            use(held.link);
}

} // namespace washfast::exchange
