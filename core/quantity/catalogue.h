// The field catalogue: every recordable column of every entity, and the flat list of all that can be got from one
// print. It is built once by main (or a test) and passed down as const. To add a recordable thing, add one entry in a
// fields_*.cpp file and one column in a migration; nothing else needs to know.
#pragma once

#include "core/quantity/field.h"

#include <QHash>

namespace washfast {

/// A rule by which the columns of an entity become fields of a print.
struct Route {
    Entity entity; // whose columns
    Source source; // how to get there; `column` is filled in for each
    QString key_from, key_to; // the start of the key that is replaced: bath_ -> bath2_
    QString label_pattern; // "%1", or "Bath 2: %1"
    QStringList only; // these columns only; empty: all but links and owners
    int group = 0; // order within the station
    std::optional<Station> station; // instead of the column's own
};

class Catalogue {
public:
    /// Makes columns added from now on appear as print fields by this rule.
    void addRoute(Route route);
    /// Adds a column of its entity; print fields follow from the routes.
    void add(Field column);
    /// Adds a print field that is worked out; a derived one that is there under the same key is replaced, and hands on
    /// what it says about causes when the new one says nothing.
    void derive(Field field, Derivation derivation);

    [[nodiscard]] const std::vector<Field>& columns(Entity entity) const { return columns_[size_t(entity)]; }
    [[nodiscard]] int column(Entity entity, QStringView key) const; // ordinal, or -1
    [[nodiscard]] const Field& columnField(Entity entity, QStringView key) const; // must exist
    [[nodiscard]] const Field* identity(Entity entity) const; // nullptr when the entity has no name

    /// All that can be got from a print, in the order of the stations.
    [[nodiscard]] const std::vector<Field>& printFields() const { return print_fields_; }
    [[nodiscard]] int printField(QStringView key) const; // index, or -1
    [[nodiscard]] const Field* findPrintField(QStringView key) const;
    /// The recorded print fields of a station that a form shows, in order.
    [[nodiscard]] std::vector<const Field*> recordable(Station station) const;

private:
    void place(Field field);

    std::array<std::vector<Field>, entityCount> columns_;
    std::array<QHash<QString, int>, entityCount> column_by_key_;
    std::vector<Route> routes_;
    std::vector<Field> print_fields_;
    QHash<QString, int> by_key_;
};

/// Every field of the design, recorded and derived, that needs no model of light or drying.
[[nodiscard]] Catalogue standardCatalogue();

} // namespace washfast
