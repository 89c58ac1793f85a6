// A notebook's records in memory: all of them, or one session's prints with everything they point at. Read by the
// views, the reports and the search for causes; changed only by applying what the store has written.
#pragma once

#include "core/trial/table.h"

#include <span>

namespace washfast {

class Notebook {
public:
    explicit Notebook(const Catalogue& catalogue);

    [[nodiscard]] const Catalogue& catalogue() const { return *catalogue_; }
    [[nodiscard]] const Table& table(Entity entity) const { return tables_[size_t(entity)]; }
    [[nodiscard]] Table& edit(Entity entity); // also forgets the child index of that table
    [[nodiscard]] const Table& prints() const { return table(Entity::Print); }

    /// Rows of `child` that belong to `owner`, in the order of their ids.
    [[nodiscard]] std::span<const int> children(Entity child, qint64 owner) const;
    /// The code or name of a record, or an empty text.
    [[nodiscard]] QString nameOf(Ref ref) const;
    /// The record with this code or name (spaces at the ends and case do not count), or nothing.
    [[nodiscard]] std::optional<qint64> byName(Entity entity, const QString& name) const;
    /// Value of a column by its key.
    [[nodiscard]] Known get(Ref ref, QStringView column) const;

    bool complete = false; // every print of the file, not only one session's
    std::optional<qint64> only_session; // set when only one session was read
    qint64 last_change = 0; // history entry up to which the file has been read
    QStringList problems; // what could not be understood while reading, a sentence each

private:
    struct Index {
        bool fresh = false;
        std::vector<qint64> owners; // ascending
        std::vector<int> rows;
    };
    void build(Entity child) const;

    const Catalogue* catalogue_;
    std::vector<Table> tables_;
    mutable std::array<Index, entityCount> index_;
};

} // namespace washfast
