// What each of two notebooks has written that the other does not know of, told from their histories. A copied file
// shares the beginning of its history with its original; where that ends the two have parted. A merge leaves a note of
// how far it had read the other's history, so that what it brought in is news no longer.
//
// A step that was undone is no news, and neither is its undoing, when both came after the parting.
#pragma once

#include "core/quantity/entity.h"
#include "core/store/connection.h"

#include <QHash>
#include <QSet>
#include <map>
#include <set>
#include <vector>

namespace washfast::store {

/// The note that a merge leaves in the notebook that took in the other; its key is the uuid of the step.
struct MergeNote {
    QString step; // uuid of the step that merged
    QString mark; // the entry of the other's history up to which it was read
    std::set<std::pair<QString, QString>> unsettled; // uuid of a row, and the column where each side kept its own
    QHash<QString, QString> renamed; // uuid of a row that got another name on arrival, and the name it had

    [[nodiscard]] QString toText() const;
    [[nodiscard]] static MergeNote fromText(const QString& step, const QString& text);
};
inline constexpr const char* mergeNoteKey = "merged/"; // the uuid of the step follows

/// Says which entry of a history this is; empty when there is none such. Two histories that agree on the mark of an
/// entry agree on all before it, since entries are only ever added.
[[nodiscard]] Result<QString> markOf(Connection& connection, qint64 entry);

/// What one side did to one row that the other side does not know of.
struct RowNews {
    QStringList columns; // whose value or evidence was set
    bool removed = false, restored = false; // what it was last, if either
};

/// One side of a merge.
struct MergeSide {
    std::map<Ref, RowNews> news;
    std::vector<MergeNote> notes; // of its merges of the other one that were not undone, the oldest first

    [[nodiscard]] bool hasNews(Ref row) const { return news.contains(row); }
    [[nodiscard]] bool hasNews(Ref row, const QString& column) const;
    [[nodiscard]] bool removed(Ref row) const;
};

/// Reads both histories.
[[nodiscard]] Result<std::pair<MergeSide, MergeSide>> newsOfBoth(Connection& ours, Connection& theirs);

} // namespace washfast::store
