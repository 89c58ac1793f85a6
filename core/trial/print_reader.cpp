#include "core/trial/print_reader.h"

namespace washfast {

PrintReader::PrintReader(const Notebook& notebook)
    : notebook_(&notebook)
{
    for (const auto& field : notebook.catalogue().printFields())
        plans_.push_back(planFor(field));
}

PrintReader::Plan PrintReader::planFor(const Field& field) const
{
    const auto& catalogue = notebook_->catalogue();
    Plan plan;
    if (field.derivation) {
        plan.derivation = &*field.derivation;
        for (const auto& key : field.derivation->inputs)
            plan.inputs.push_back(catalogue.printField(key));
        plan.child = field.derivation->rows_of;
        if (plan.child)
            for (const auto& key : field.derivation->row_columns)
                plan.row_columns.push_back(catalogue.column(*plan.child, key));
        return plan;
    }
    const auto& source = *field.source;
    const auto addSteps = [&](const QStringList& links, std::vector<Step>& steps, Entity& entity) {
        for (const auto& key : links) {
            const auto& link = catalogue.columnField(entity, key);
            steps.push_back({ link.ordinal, *link.target });
            entity = *link.target;
        }
    };
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
            if (fits) { // the last one wins: a later reading of the same spot replaces an earlier one
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

Known PrintReader::work(const Plan& plan, int print_row) const
{
    std::vector<Known> inputs;
    inputs.reserve(plan.inputs.size());
    for (const int input : plan.inputs)
        inputs.push_back(input < 0 ? Known {} : get(print_row, input));
    ChildRows rows;
    if (plan.child) {
        const auto& table = notebook_->table(*plan.child);
        for (const int row : notebook_->children(*plan.child, notebook_->prints().id(print_row))) {
            auto& values = rows.emplace_back();
            for (const int column : plan.row_columns)
                values.push_back(column < 0 ? Known {} : table.at(row, column));
        }
    }
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
