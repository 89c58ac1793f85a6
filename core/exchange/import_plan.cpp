#include "core/exchange/import_plan.h"

#include "core/exchange/words.h"

#include <algorithm>

namespace washfast::exchange {

ImportPlanner::ImportPlanner(const Catalogue& catalogue, LinkedRecords& records)
    : catalogue_(catalogue)
    , records_(records)
{
    const auto& fields = catalogue.printFields();
    // The print field that names the record at the end of a chain of links.
    const auto nameAt = [&](const Source& source, const QStringList& links, Entity entity) {
        const auto* identity = catalogue.identity(entity);
        for (int i = 0; identity && i < int(fields.size()); ++i) {
            const auto& other = fields[size_t(i)].source;
            if (other && other->column == identity->key && other->match == source.match && other->child == source.child
                && (source.child ? other->after : other->via) == links)
                return i;
        }
        return -1;
    };
    for (const auto& field : fields) {
        auto& way = ways_.emplace_back();
        if (!isImportable(field))
            continue;
        const auto& source = *field.source;
        if (source.child) {
            way.child = childKind(source);
            way.entity = *source.child;
        }
        const auto& links = source.child ? source.after : source.via;
        for (qsizetype i = 0; i < links.size(); ++i) {
            Step step { way.entity, links[i], *catalogue.columnField(way.entity, links[i]).target, -1 };
            step.name_field = nameAt(source, links.mid(0, i + 1), step.to);
            way.entity = step.to;
            way.steps.push_back(std::move(step));
        }
        way.column = catalogue.column(way.entity, source.column);
    }
}

int ImportPlanner::childKind(const Source& source)
{
    const auto same = std::find_if(children_.begin(), children_.end(),
        [&](const ChildKind& kind) { return kind.entity == *source.child && kind.match == source.match; });
    if (same != children_.end())
        return int(same - children_.begin());
    children_.push_back({ *source.child, source.match });
    return int(children_.size()) - 1;
}

QHash<int, QString> ImportPlanner::namesIn(const std::vector<std::pair<int, Known>>& values) const
{
    QHash<int, QString> names;
    for (const auto& [field, known] : values) {
        const auto& way = ways_[size_t(field)];
        if (!way.steps.empty() && way.steps.back().name_field == field)
            names.insert(field, known.text().value_or(QString()));
    }
    return names;
}

int ImportPlanner::recordAt(const Way& way, size_t depth, const QHash<int, QString>& names)
{
    if (depth == 0)
        return -1;
    const auto& step = way.steps[depth - 1];
    if (const auto name = names.constFind(step.name_field); name != names.constEnd())
        return records_.named(step.to, *name);
    const int before = recordAt(way, depth - 1, names);
    return before < 0 ? -1 : records_.behind(before, catalogue_.column(step.from, step.link));
}

QString ImportPlanner::whyNoPlace(int field, const Way& way) const
{
    const auto& wanted = catalogue_.printFields()[size_t(field)];
    // The first record on the way that the row could name.
    for (const auto& step : way.steps)
        if (step.name_field >= 0 && step.name_field != field)
            return Words::tr("“%1” belongs to a %2, and the row names none (column %3).")
                .arg(wanted.label, entityLabel(step.to), catalogue_.printFields()[size_t(step.name_field)].key);
    return Words::tr("“%1” has no place in this row.").arg(wanted.label);
}

PlannedChild& ImportPlanner::childOf(ImportRow& row, int kind)
{
    const auto found = child_rows_.find(kind);
    if (found != child_rows_.end())
        return row.children[found->second];
    child_rows_[kind] = row.children.size();
    const auto& wanted = children_[size_t(kind)];
    auto& child = row.children.emplace_back();
    child.entity = wanted.entity;
    for (const auto& [column, value] : wanted.match)
        child.values.emplace_back(column, Known { value, catalogue_.columnField(wanted.entity, column).nature });
    return child;
}

ImportPlanner::Wishes ImportPlanner::plan(ImportRow& row, bool day_only)
{
    child_rows_.clear();
    Wishes out;
    const auto names = namesIn(row.values);
    for (const auto& [field, known] : row.values) {
        const auto& way = ways_[size_t(field)];
        if (way.steps.empty()) {
            const auto& column = catalogue_.columns(way.entity)[size_t(way.column)].key;
            (way.child < 0 ? row.own : childOf(row, way.child).values).emplace_back(column, known);
            continue;
        }
        const auto depth = way.steps.size();
        const int record = recordAt(way, depth, names);
        const bool is_name = way.steps.back().name_field == field;
        const int before = recordAt(way, depth - 1, names);
        if (record < 0 || (is_name && depth > 1 && before < 0)) {
            out.missing.emplace_back(field, whyNoPlace(field, way));
            continue;
        }
        out.records.push_back(record);
        const auto& link = way.steps.back();
        if (!is_name) {
            const bool day = day_only && catalogue_.printFields()[size_t(field)].key == QLatin1String("session_start");
            out.wishes.push_back({ record, way.column, known, -1, day, field });
        } else if (depth > 1) {
            out.wishes.push_back({ before, catalogue_.column(link.from, link.link), {}, record, false, field });
        } else {
            (way.child < 0 ? row.links : childOf(row, way.child).links).emplace_back(link.link, record);
        }
    }
    return out;
}

Known ImportPlanner::alreadyHeld(const std::vector<std::pair<int, Known>>& values, int field)
{
    if (field < 0 || ways_[size_t(field)].steps.empty())
        return {};
    const auto& way = ways_[size_t(field)];
    const int record = recordAt(way, way.steps.size(), namesIn(values));
    return record < 0 ? Known {} : records_.at(record).held[size_t(way.column)].value;
}

} // namespace washfast::exchange
