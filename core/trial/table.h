// The rows of one kind of record in memory, held column by column so that 100,000 prints stay small and quick to
// search. Unknown is NaN, an invalid moment, choice -1, a null text or link 0 inside; outside it is always a Known
// without a value.
#pragma once

#include "core/quantity/catalogue.h"

#include <limits>
#include <unordered_map>
#include <variant>
#include <vector>

namespace washfast {

using NumberColumn = std::vector<double>; // Number, YesNo (1 and 0)
using TimeColumn = std::vector<Instant>;
using ChoiceColumn = std::vector<qint16>; // position in Field::choices
using TextColumn = std::vector<QString>; // Text, ChoiceSet
using LinkColumn = std::vector<qint64>;
using Column = std::variant<NumberColumn, TimeColumn, ChoiceColumn, TextColumn, LinkColumn>;

inline constexpr double unknownNumber = std::numeric_limits<double>::quiet_NaN();

/// One row on its own: what the store gives and takes.
struct Record {
    Ref ref;
    qint64 owner = 0; // the row it belongs to, 0 for none
    QString uuid;
    std::vector<Known> values; // one for each column of the entity
};

class Table {
public:
    Table(const Catalogue& catalogue, Entity entity);

    [[nodiscard]] Entity entity() const { return entity_; }
    [[nodiscard]] int rows() const { return int(ids_.size()); }
    [[nodiscard]] qint64 id(int row) const { return ids_[size_t(row)]; }
    [[nodiscard]] qint64 owner(int row) const { return owners_[size_t(row)]; }
    /// Row of an id, or -1.
    [[nodiscard]] int find(qint64 id) const;

    [[nodiscard]] Known at(int row, int column) const;
    [[nodiscard]] qint64 link(int row, int column) const
    {
        return std::get<LinkColumn>(columns_[size_t(column)])[size_t(row)];
    }
    [[nodiscard]] const Column& column(int ordinal) const { return columns_[size_t(ordinal)]; }
    [[nodiscard]] const std::vector<qint64>& owners() const { return owners_; }

    void insert(const Record& record); // keeps the ids ascending
    void erase(int row);
    void set(int row, int column, const Known& value);
    [[nodiscard]] Record record(int row) const;

    // For the store's bulk reading: rows in ascending order of id.
    void reserve(size_t rows);
    void startRow(qint64 id, qint64 owner); // appends a row of unknowns
    [[nodiscard]] Column& writable(int ordinal) { return columns_[size_t(ordinal)]; }
    void setEvidence(qint64 id, int column, Evidence evidence);

private:
    [[nodiscard]] const Field& field(int column) const;
    [[nodiscard]] Evidence evidenceAt(int row, int column) const;

    const Catalogue* catalogue_;
    Entity entity_;
    std::vector<qint64> ids_;
    std::vector<qint64> owners_;
    std::vector<Column> columns_;
    std::unordered_map<qint64, Evidence> evidence_; // id * 1024 + column, only where it differs from the field's nature
};

} // namespace washfast
