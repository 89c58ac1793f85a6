#include "core/trial/print_reader.h"

#include "core/trial/preferred.h"

namespace washfast {

PrintReader::PrintReader(const Notebook& notebook)
    : notebook_(&notebook)
{
    for (const auto& field : notebook.catalogue().printFields())
        plans_.push_back(planFor(field));
}

void PrintReader::addSteps(const QStringList& links, std::vector<Step>& steps, Entity& entity) const
{
    for (const auto& key : links) {
        const auto& link = notebook_->catalogue().columnField(entity, key);
        steps.push_back({ link.ordinal, *link.target });
        entity = *link.target;
    }
}

PrintReader::RowsPlan PrintReader::planFor(const RowsOf& rows) const
{
    RowsPlan plan { rows.entity, {}, {} };
    Entity owner = Entity::Print;
    addSteps(rows.owner, plan.owner, owner);
    for (const auto& path : rows.columns) {
        auto links = path.split(QLatin1Char('.'));
        const auto key = links.takeLast();
        RowColumn column { {}, rows.entity, -1 };
        addSteps(links, column.links, column.entity);
        column.column = notebook_->catalogue().column(column.entity, key);
        plan.columns.push_back(std::move(column));
    }
    return plan;
}

PrintReader::Plan PrintReader::planFor(const Field& field) const
{
    const auto& catalogue = notebook_->catalogue();
    Plan plan;
    if (field.derivation) {
        plan.derivation = &*field.derivation;
        for (const auto& key : field.derivation->inputs)
            plan.inputs.push_back(catalogue.printField(key));
        for (const auto& rows : field.derivation->rows)
            plan.rows.push_back(planFor(rows));
        return plan;
    }
    const auto& source = *field.source;
    Entity entity = Entity::Print;
    addSteps(source.via, plan.via, entity);
    plan.child = source.child;
    if (source.child) {
        entity = *source.child;
        for (const auto& [key, value] : source.match) {
            const auto& column = catalogue.columnField(entity, key);
            const bool choice = column.kind == Kind::Choice;
            plan.match.push_back({ column.ordinal, choice,
                choice ? double(column.choiceIndex(std::get<QString>(value))) : std::get<double>(value) });
        }
    }
    addSteps(source.after, plan.after, entity);
    plan.entity = entity;
    plan.column = catalogue.column(entity, source.column);
    plan.source = source.prefer.empty() ? nullptr : &source;
    return plan;
}

bool PrintReader::follow(const std::vector<Step>& steps, Entity& entity, int& row) const
{
    for (const auto& step : steps) {
        const auto id = notebook_->table(entity).link(row, step.column);
        if (id == 0)
            return false;
        entity = step.target;
        row = notebook_->table(entity).find(id);
        if (row < 0)
            return false;
    }
    return true;
}

/// Of two child rows that fit, whether the first counts and not the second, which is the later one.
bool PrintReader::countsBefore(const Plan& plan, int row, int other) const
{
    if (!plan.source)
        return false; // the last one wins: a later entry replaces an earlier one
    const auto& table = notebook_->table(*plan.child);
    const auto rank = [&](int of) {
        return rankOf(plan.source->prefer, table.at(of, plan.column),
            [&](const QString& column) { return table.at(of, notebook_->catalogue().column(*plan.child, column)); });
    };
    return rank(row) < rank(other);
}

bool PrintReader::locate(const Plan& plan, int print_row, Entity& entity, int& row) const
{
    entity = Entity::Print;
    row = print_row;
    if (!follow(plan.via, entity, row))
        return false;
    if (plan.child) {
        const auto& table = notebook_->table(*plan.child);
        bool found = false;
        for (const int candidate : notebook_->children(*plan.child, notebook_->prints().id(print_row))) {
            bool fits = true;
            for (const auto& match : plan.match) {
                const auto& column = table.column(match.column);
                fits = fits
                    && (match.is_choice ? double(std::get<ChoiceColumn>(column)[size_t(candidate)]) == match.number
                                        : std::get<NumberColumn>(column)[size_t(candidate)] == match.number);
            }
            if (fits && !(found && countsBefore(plan, row, candidate))) {
                row = candidate;
                found = true;
            }
        }
        if (!found)
            return false;
        entity = *plan.child;
    }
    return follow(plan.after, entity, row);
}

ChildRows PrintReader::rowsOf(const RowsPlan& plan, int print_row) const
{
    ChildRows rows;
    Entity owner = Entity::Print;
    int owner_row = print_row;
    if (!follow(plan.owner, owner, owner_row))
        return rows;
    for (const int child : notebook_->children(plan.entity, notebook_->table(owner).id(owner_row))) {
        auto& values = rows.emplace_back();
        for (const auto& column : plan.columns) {
            Entity entity = plan.entity;
            int row = child;
            const bool there = column.column >= 0 && follow(column.links, entity, row);
            values.push_back(there ? notebook_->table(entity).at(row, column.column) : Known {});
        }
    }
    return rows;
}

std::vector<ChildRows> PrintReader::rows(int print_row, const std::vector<RowsOf>& asked) const
{
    std::vector<ChildRows> tables;
    for (const auto& rows : asked)
        tables.push_back(print_row < 0 ? ChildRows {} : rowsOf(planFor(rows), print_row));
    return tables;
}

Known PrintReader::work(const Plan& plan, int print_row) const
{
    std::vector<Known> inputs;
    inputs.reserve(plan.inputs.size());
    for (const int input : plan.inputs)
        inputs.push_back(input < 0 ? Known {} : get(print_row, input));
    std::vector<ChildRows> rows;
    for (const auto& table : plan.rows)
        rows.push_back(rowsOf(table, print_row));
    return plan.derivation->compute(inputs, rows);
}

Known PrintReader::get(int print_row, int field) const
{
    if (field < 0 || field >= int(plans_.size()) || print_row < 0 || print_row >= notebook_->prints().rows())
        return {};
    const auto& plan = plans_[size_t(field)];
    if (plan.derivation)
        return work(plan, print_row);
    Entity entity = Entity::Print;
    int row = -1;
    if (!locate(plan, print_row, entity, row))
        return {};
    return notebook_->table(entity).at(row, plan.column);
}

Known PrintReader::get(int print_row, QStringView key) const
{
    return get(print_row, notebook_->catalogue().printField(key));
}

std::optional<Ref> PrintReader::rowBehind(int print_row, int field) const
{
    if (field < 0 || field >= int(plans_.size()) || print_row < 0 || print_row >= notebook_->prints().rows())
        return std::nullopt;
    const auto& plan = plans_[size_t(field)];
    Entity entity = Entity::Print;
    int row = -1;
    if (plan.derivation || !locate(plan, print_row, entity, row))
        return std::nullopt;
    return Ref(entity, notebook_->table(entity).id(row));
}

} // namespace washfast
