// The rows of a merge: works inside one step of our notebook, on two connections. Used by merge.cpp only.
#pragma once

#include "core/store/merge.h"
#include "core/store/merge_news.h"

#include <unordered_map>

namespace washfast::store {

/// A table as both files have it.
struct MergeTable {
    std::string name;
    QStringList columns; // but id, uuid, removed and not_measured
    std::vector<std::optional<Entity>> targets; // of each column: what it points at
    int naming = -1; // the column whose text is used once only, or -1
    [[nodiscard]] int at(const QString& column) const { return int(columns.indexOf(column)); }
};

/// One row as it stands in a file.
struct MergeRow {
    qint64 id = 0;
    QString uuid;
    bool removed = false;
    QString not_measured; // null for none
    std::vector<Raw> values; // in the order of the table's columns
};

class RowMerger {
public:
    RowMerger(Connection& ours, Connection& theirs, Writer& writer, MergeSide our_side, MergeSide their_side);

    /// Everything; `keep_going` as in MergeOptions.
    [[nodiscard]] Outcome run(const std::function<bool(double)>& keep_going);
    [[nodiscard]] const MergeReport& report() const { return report_; }
    /// What the note of this merge has to say, but for the step and the mark.
    [[nodiscard]] const MergeNote& note() const { return note_; }

private:
    // merge_rows.cpp
    [[nodiscard]] Outcome readTables();
    [[nodiscard]] Result<std::vector<qint64>> idsOf(Connection& side, Entity entity, bool removed);
    [[nodiscard]] Result<std::optional<MergeRow>> read(Connection& side, Entity entity, qint64 id);
    /// The same for a row that must be there: an index has named it. Error Damaged when it is not.
    [[nodiscard]] Result<MergeRow> mustRead(Connection& side, Entity entity, qint64 id);
    [[nodiscard]] Result<qint64> find(Connection& side, Entity entity, const QString& uuid); // 0: not there
    [[nodiscard]] Result<QString> uuidOf(Connection& side, Entity entity, qint64 id);
    [[nodiscard]] Outcome rowsInBoth(const std::function<Outcome(Entity, const MergeRow&, const MergeRow&)>& work);
    [[nodiscard]] Result<qint64> bring(Entity entity, qint64 theirs); // gives its id here
    [[nodiscard]] Result<Raw> here(const MergeTable& table, size_t column, const Raw& theirs); // a link to our row
    [[nodiscard]] Outcome lateLinks();
    [[nodiscard]] Outcome copyPhoto(qint64 theirs, qint64 ours);

    // merge_fields.cpp
    [[nodiscard]] Outcome takeName(Entity entity, const MergeRow& our_row, const MergeRow& their_row);
    [[nodiscard]] Outcome giveNames();
    [[nodiscard]] Outcome takeFields(Entity entity, const MergeRow& our_row, const MergeRow& their_row);
    [[nodiscard]] Outcome differ(Entity entity, const MergeRow& ours, const MergeRow& theirs, const QString& column);
    [[nodiscard]] Result<qint64> nameTaken(Entity entity, const QString& name, qint64 but);
    [[nodiscard]] Result<QString> freeName(Entity entity, const QString& name, qint64 but);
    [[nodiscard]] Result<QString> spoken(Connection& side, Entity entity, size_t column, const Raw& value);
    [[nodiscard]] Result<QString> nameOf(Connection& side, Ref row, QString* print = nullptr);
    [[nodiscard]] bool wasRenamed(const QString& uuid, const QString& to) const;

    // merge_removed.cpp
    [[nodiscard]] Outcome removeHere(Entity entity, const MergeRow& our_row, const MergeRow& their_row);
    [[nodiscard]] Outcome restoreHere(Entity entity, const MergeRow& our_row, const MergeRow& their_row);
    [[nodiscard]] Outcome showAgain(Entity entity, const MergeRow& our_row, const MergeRow& their_row, bool as_theirs);
    [[nodiscard]] Result<bool> isOwn(Connection& other, Ref row, const QString& uuid);
    [[nodiscard]] Result<bool> touched(Connection& side, const MergeSide& by, Connection& other, Ref row);
    [[nodiscard]] Result<bool> ownerRemovedThere(Entity entity, const MergeRow& their_row);
    [[nodiscard]] Outcome takeKept(Entity entity, const MergeRow& our_row, const MergeRow& their_row);
    [[nodiscard]] Outcome tellKept(Entity entity, const MergeRow& our_row, bool removed_here);

    [[nodiscard]] const MergeTable& table(Entity entity) const { return tables_[size_t(entity)]; }

    struct WantedName {
        Entity entity;
        qint64 id;
        QString uuid, now, wanted;
    };
    struct LateLink {
        Ref row;
        QString column;
        Entity target;
        qint64 theirs;
    };

    Connection& ours_;
    Connection& theirs_;
    Writer& writer_;
    MergeSide our_side_, their_side_;
    std::array<MergeTable, entityCount> tables_;
    std::array<std::unordered_map<qint64, qint64>, entityCount> here_; // their ids and ours
    std::set<Ref> on_the_way_; // their rows that are being brought
    std::set<Ref> brought_; // their rows that are here now
    std::vector<WantedName> names_;
    std::vector<LateLink> late_;
    std::set<Ref> restored_; // ours
    MergeReport report_;
    MergeNote note_;
};

} // namespace washfast::store
