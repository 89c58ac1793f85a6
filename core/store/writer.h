// Writes rows inside one step. Only the store makes a Writer; a caller gets one in perform().
#pragma once

#include "core/quantity/catalogue.h"
#include "core/store/connection.h"
#include "core/trial/table.h"

#include <array>

namespace washfast::store {

/// Column and value, for adding a row.
using FieldValue = std::pair<QString, Known>;

/// For each entity, the ordinals of the catalogue's columns that the file has.
using TableColumns = std::array<std::vector<int>, entityCount>;

class Writer {
public:
    Writer(Connection& connection, const Catalogue& catalogue)
        : connection_(connection)
        , catalogue_(catalogue)
    {
    }

    /// Adds a row; `owner` is the row it belongs to (a bath's print), 0 for those that belong to none. Gives its id.
    /// Error BadInput when a name is taken or a value does not fit its column.
    [[nodiscard]] Result<qint64> add(Entity entity, qint64 owner, const std::vector<FieldValue>& values);
    /// Sets one field. With `expected`, only if the field still holds that: otherwise error Conflict and nothing is
    /// written.
    [[nodiscard]] Outcome set(
        Ref row, const QString& column, const Known& value, const std::optional<Known>& expected = std::nullopt);
    /// Hides a row and all that belongs to it.
    [[nodiscard]] Outcome remove(Ref row);
    /// Stores a photo's bytes with its row.
    [[nodiscard]] Result<qint64> addPhoto(qint64 print, const QByteArray& bytes, const std::vector<FieldValue>& values);
    /// For a merge: adds a row that has a uuid already, with bare values; columns that are not named stay unknown.
    [[nodiscard]] Result<qint64> addRaw(Entity entity, const QString& uuid, const QString& not_measured,
        const std::vector<std::pair<QString, Raw>>& values);
    /// The bytes of a photo whose row has none yet.
    [[nodiscard]] Outcome addPhotoBytes(qint64 photo, const QByteArray& bytes);
    /// The row as it stands now, read inside the step; nothing when there is none or it is removed.
    [[nodiscard]] Result<std::optional<Record>> read(Ref row);
    /// Ids of the rows of `child` that belong to `owner`.
    [[nodiscard]] Result<std::vector<qint64>> children(Entity child, qint64 owner);
    /// The id of the record with this name, if there is one.
    [[nodiscard]] Result<std::optional<qint64>> byName(Entity entity, const QString& name);
    [[nodiscard]] const Catalogue& catalogue() const { return catalogue_; }

    /// A bare value, for undo and for a merge.
    [[nodiscard]] Outcome setRaw(Ref row, const QString& column, const Raw& value, const Raw& expected);

private:
    [[nodiscard]] Outcome stepIsOpen() const;
    [[nodiscard]] const std::string& insertStatement(Entity entity);
    [[nodiscard]] QString nameBehind(Ref row, const QString& column, const Raw& value);
    [[nodiscard]] Outcome fits(const Field& field, const Known& value) const;
    [[nodiscard]] Error explain(const Error& error, Entity entity, const std::vector<FieldValue>& values) const;

    Connection& connection_;
    const Catalogue& catalogue_;
    std::array<std::string, entityCount> inserts_;
};

/// How values stand in the file.
[[nodiscard]] Raw toRaw(const Field& field, const Value& value);
[[nodiscard]] std::optional<Value> fromRaw(const Field& field, const Raw& raw); // nothing when it cannot be understood

/// Whether each part of a stored set is a choice of the field.
[[nodiscard]] bool areChoices(const Field& field, const QString& set);

/// Reads one row with all the columns of its entity. What cannot be understood is left unknown and told in
/// `not_understood`.
[[nodiscard]] Result<std::optional<Record>> readRecord(Connection& connection, const Catalogue& catalogue,
    const std::vector<int>& columns, Ref row, std::vector<std::pair<const Field*, QString>>* not_understood = nullptr);

} // namespace washfast::store
