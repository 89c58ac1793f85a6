#include "core/quantity/catalogue.h"

#include "core/quantity/fields.h"

#include <algorithm>

namespace washfast {

void Catalogue::addRoute(Route route)
{
    routes_.push_back(std::move(route));
}

void Catalogue::add(Field column)
{
    auto& columns = columns_[size_t(column.entity)];
    column.ordinal = int(columns.size());
    column_by_key_[size_t(column.entity)].insert(column.key, column.ordinal);
    for (const auto& route : routes_) {
        if (route.entity != column.entity || column.kind == Kind::Link || column.hidden)
            continue;
        const auto& match = route.source.match;
        if (std::any_of(match.begin(), match.end(),
                [&](const auto& m) { return m.first == column.key && !route.source.after.size(); }))
            continue; // it is what the row is found by
        if (!route.only.isEmpty() && !route.only.contains(column.key))
            continue;
        Field field = column;
        if (!route.key_from.isEmpty() && field.key.startsWith(route.key_from))
            field.key = route.key_to + field.key.mid(route.key_from.size());
        field.label = route.label_pattern.arg(field.label);
        field.group = route.group;
        if (route.station)
            field.station = *route.station;
        field.source = route.source;
        field.source->column = column.key;
        place(std::move(field));
    }
    columns.push_back(std::move(column));
}

void Catalogue::derive(Field field, Derivation derivation)
{
    field.derivation = std::move(derivation);
    field.ordinal = -1;
    if (const int there = printField(field.key); there >= 0 && print_fields_[size_t(there)].derived()) {
        if (!field.causes.says())
            field.causes = print_fields_[size_t(there)].causes;
        print_fields_.erase(print_fields_.begin() + there);
    }
    place(std::move(field));
}

void Catalogue::place(Field field)
{
    const auto after = std::find_if(print_fields_.begin(), print_fields_.end(), [&](const Field& other) {
        return std::pair(other.station, other.group) > std::pair(field.station, field.group);
    });
    print_fields_.insert(after, std::move(field));
    by_key_.clear();
    for (size_t i = 0; i < print_fields_.size(); ++i)
        by_key_.insert(print_fields_[i].key, int(i));
}

int Catalogue::column(Entity entity, QStringView key) const
{
    return column_by_key_[size_t(entity)].value(key.toString(), -1);
}

const Field& Catalogue::columnField(Entity entity, QStringView key) const
{
    const int ordinal = column(entity, key);
    Q_ASSERT_X(ordinal >= 0, "columnField", "no such column");
    return columns(entity)[size_t(ordinal)];
}

const Field* Catalogue::identity(Entity entity) const
{
    for (const auto& field : columns(entity))
        if (field.identity)
            return &field;
    return nullptr;
}

int Catalogue::printField(QStringView key) const
{
    return by_key_.value(key.toString(), -1);
}

const Field* Catalogue::findPrintField(QStringView key) const
{
    const int index = printField(key);
    return index < 0 ? nullptr : &print_fields_[size_t(index)];
}

std::vector<const Field*> Catalogue::recordable(Station station) const
{
    std::vector<const Field*> fields;
    for (const auto& field : print_fields_)
        if (field.station == station && !field.derived())
            fields.push_back(&field);
    return fields;
}

Catalogue standardCatalogue()
{
    Catalogue catalogue;
    fields::addRoutes(catalogue);
    fields::addPlaces(catalogue);
    fields::addMaterials(catalogue);
    fields::addPrint(catalogue);
    fields::addLight(catalogue);
    fields::addRinse(catalogue);
    fields::addReadings(catalogue);
    fields::addDerived(catalogue);
    return catalogue;
}

} // namespace washfast
