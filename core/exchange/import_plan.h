// Where the values of a row go: into the print's row, into rows of its own (baths, readings), or into records it points
// at.
#pragma once

#include "core/exchange/import.h"

namespace washfast::exchange {

class ImportPlanner {
public:
    ImportPlanner(const Catalogue& catalogue, LinkedRecords& records);

    struct Wishes {
        std::vector<Wish> wishes; // about linked records
        std::vector<int> records; // that the row points at, directly or through others
        std::vector<std::pair<int, QString>> missing; // print field, and why it has no place
    };
    /// Fills what is written for the row. `day_only`: the session's start stands for its day.
    [[nodiscard]] Wishes plan(ImportRow& row, bool day_only);

    /// What a record that the row points at holds already.
    [[nodiscard]] Known alreadyHeld(const std::vector<std::pair<int, Known>>& values, int field);

private:
    /// One link on the way from the print to a field.
    struct Step {
        Entity from = Entity::Print; // whose column the link is
        QString link;
        Entity to = Entity::Session;
        int name_field = -1; // print field that names the record there
    };
    struct Way {
        int child = -1; // index into children_, -1 for the print itself
        std::vector<Step> steps;
        Entity entity = Entity::Print; // of the row that holds the value
        int column = -1;
    };
    struct ChildKind {
        Entity entity;
        std::vector<std::pair<QString, Value>> match;
    };
    [[nodiscard]] int childKind(const Source& source);
    /// The record at the end of the way, or -1; `depth` steps of it.
    [[nodiscard]] int recordAt(const Way& way, size_t depth, const QHash<int, QString>& names);
    [[nodiscard]] QHash<int, QString> namesIn(const std::vector<std::pair<int, Known>>& values) const;
    [[nodiscard]] PlannedChild& childOf(ImportRow& row, int kind);
    [[nodiscard]] QString whyNoPlace(int field, const Way& way) const;

    const Catalogue& catalogue_;
    LinkedRecords& records_;
    std::vector<ChildKind> children_;
    std::vector<Way> ways_; // one a print field
    std::map<int, size_t> child_rows_; // of the row at hand: kind, and place in ImportRow::children
};

} // namespace washfast::exchange
