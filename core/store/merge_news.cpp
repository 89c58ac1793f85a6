#include "core/store/merge_news.h"

#include "core/store/rows.h"

#include <QJsonArray>
#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>
#include <functional>

namespace washfast::store {

namespace {

/// Steps of one notebook after a certain one.
struct Steps {
    struct Step {
        bool edit = true;
        qint64 target = 0; // of an undo or a redo
    };
    std::map<qint64, Step> after;

    [[nodiscard]] qint64 original(qint64 id) const
    {
        const auto found = after.find(id);
        return found == after.end() || found->second.edit ? id : found->second.target;
    }
    /// Doing and undoing the same thing come to nothing; of an odd number of turns the last one counts.
    [[nodiscard]] std::set<qint64> thatCount() const
    {
        std::map<qint64, std::vector<qint64>> turns;
        for (const auto& [id, step] : after)
            turns[step.edit ? id : step.target].push_back(id);
        std::set<qint64> count;
        for (const auto& [original, all] : turns)
            if (all.size() % 2 == 1)
                count.insert(all.back());
        return count;
    }
};

Result<Steps> stepsAfter(Connection& connection, qint64 entry)
{
    auto last
        = connection.prepare("SELECT step FROM history WHERE id <= ? AND step IS NOT NULL ORDER BY id DESC LIMIT 1");
    if (!last)
        return last.error();
    const auto row = last->bind(0, entry).step();
    if (!row)
        return row.error();
    const qint64 step = *row ? last->integer(0) : 0;
    auto statement
        = connection.prepare("SELECT id, kind IN ('edit', 'origin'), coalesce(target, 0) FROM step WHERE id > ?");
    if (statement)
        statement->bind(0, step);
    Steps steps;
    auto done = eachRow(std::move(statement), [&](const Statement& found) {
        steps.after[found.integer(0)] = { found.integer(1) != 0, found.integer(2) };
    });
    if (!done)
        return done.error();
    return steps;
}

QStringList columnsOf(const Statement& entry)
{
    const auto field = entry.text(4);
    if (field != QLatin1String("not_measured"))
        return { field };
    // One JSON object holds the evidence of all columns of the row.
    const auto before = QJsonDocument::fromJson(entry.text(5).toUtf8()).object();
    const auto after = QJsonDocument::fromJson(entry.text(6).toUtf8()).object();
    QStringList columns = before.keys() + after.keys();
    columns.removeIf([&](const QString& column) { return before.value(column) == after.value(column); });
    return columns;
}

/// What a side wrote after `since`, but for the steps by which it took in the other side.
Outcome gather(Connection& connection, qint64 since, const std::set<qint64>& from_the_other,
    const std::function<bool(Ref, const QString&)>& wanted, std::map<Ref, RowNews>& news)
{
    const auto steps = stepsAfter(connection, since);
    if (!steps)
        return steps.error();
    const auto count = steps->thatCount();
    auto statement = connection.prepare("SELECT coalesce(step, 0), entity, row, id, field, old, new FROM history WHERE "
                                        "id > ? AND field IS NOT NULL ORDER BY id");
    if (statement)
        statement->bind(0, since);
    return eachRow(std::move(statement), [&](const Statement& entry) {
        const auto step = entry.integer(0);
        const auto entity = entityFromKey(entry.text(1));
        if (!entity || (step != 0 && !count.contains(step)) || from_the_other.contains(steps->original(step)))
            return;
        const Ref row(*entity, entry.integer(2));
        for (const auto& column : columnsOf(entry)) {
            if (wanted && !wanted(row, column))
                continue;
            auto& of_row = news[row];
            if (column == QLatin1String("removed")) {
                of_row.removed = entry.integer(6) != 0;
                of_row.restored = !of_row.removed;
            } else if (!of_row.columns.contains(column)) {
                of_row.columns << column;
            }
        }
    });
}

Result<qint64> lastEntry(Connection& connection)
{
    return connection.integer("SELECT max(id) FROM history");
}

/// The last entry that both histories have.
Result<qint64> partingOf(Connection& ours, Connection& theirs)
{
    const auto our_last = lastEntry(ours);
    const auto their_last = lastEntry(theirs);
    if (!our_last || !their_last)
        return our_last ? their_last.error() : our_last.error();
    qint64 same = 0;
    qint64 low = 1;
    qint64 high = std::min(*our_last, *their_last);
    while (low <= high) {
        const qint64 middle = low + (high - low) / 2;
        const auto one = markOf(ours, middle);
        const auto other = markOf(theirs, middle);
        if (!one || !other)
            return one ? other.error() : one.error();
        if (!one->isEmpty() && *one == *other) {
            same = middle;
            low = middle + 1;
        } else {
            high = middle - 1;
        }
    }
    return same;
}

/// The notes of `side` about merges of `other`, and the ids of the steps that made them.
Outcome readNotes(Connection& side, Connection& other, std::vector<MergeNote>& notes, std::set<qint64>& steps)
{
    std::vector<std::pair<qint64, MergeNote>> all;
    auto statement = side.prepare(
        "SELECT s.id, s.uuid, n.value FROM setting n JOIN step s ON n.key = 'merged/' || s.uuid WHERE (SELECT kind "
        "FROM "
        "step WHERE target = s.id AND kind IN ('undo', 'redo') ORDER BY id DESC LIMIT 1) IS NOT 'undo' ORDER BY s.id");
    auto done = eachRow(std::move(statement),
        [&](const Statement& row) { all.emplace_back(row.integer(0), MergeNote::fromText(row.text(1), row.text(2))); });
    if (!done)
        return done;
    for (auto& [step, note] : all) {
        const auto mark = markOf(other, note.mark.section(QLatin1Char(' '), 0, 0).toLongLong());
        if (!mark)
            return mark.error();
        if (mark->isEmpty() || *mark != note.mark)
            continue; // it took in another notebook
        steps.insert(step);
        notes.push_back(std::move(note));
    }
    return Done {};
}

qint64 readUpTo(const std::vector<MergeNote>& notes, qint64 parting)
{
    for (const auto& note : notes)
        parting = std::max(parting, note.mark.section(QLatin1Char(' '), 0, 0).toLongLong());
    return parting;
}

} // namespace

QString MergeNote::toText() const
{
    QJsonArray open;
    for (const auto& [uuid, column] : unsettled)
        open.append(QJsonArray { uuid, column });
    QJsonObject names;
    for (auto it = renamed.begin(); it != renamed.end(); ++it)
        names.insert(it.key(), it.value());
    return QString::fromUtf8(QJsonDocument(
        QJsonObject { { QStringLiteral("mark"), mark }, { QStringLiteral("unsettled"), open },
            { QStringLiteral("renamed"),
                names } }).toJson(QJsonDocument::Compact));
}

MergeNote MergeNote::fromText(const QString& step, const QString& text)
{
    const auto object = QJsonDocument::fromJson(text.toUtf8()).object();
    MergeNote note;
    note.step = step;
    note.mark = object.value(QStringLiteral("mark")).toString();
    for (const auto& pair : object.value(QStringLiteral("unsettled")).toArray())
        note.unsettled.emplace(pair.toArray().at(0).toString(), pair.toArray().at(1).toString());
    const auto names = object.value(QStringLiteral("renamed")).toObject();
    for (auto it = names.begin(); it != names.end(); ++it)
        note.renamed.insert(it.key(), it.value().toString());
    return note;
}

Result<QString> markOf(Connection& connection, qint64 entry)
{
    auto statement = connection.prepare("SELECT h.id || ' ' || h.at || ' ' || h.entity || ' ' || h.row || ' ' || "
                                        "coalesce(h.field, '') || ' ' || coalesce(s.uuid, '') FROM history h LEFT JOIN "
                                        "step s ON s.id = h.step WHERE h.id = ?");
    if (!statement)
        return statement.error();
    const auto row = statement->bind(0, entry).step();
    if (!row)
        return row.error();
    return *row ? statement->text(0) : QString();
}

bool MergeSide::hasNews(Ref row, const QString& column) const
{
    const auto found = news.find(row);
    return found != news.end() && found->second.columns.contains(column);
}

bool MergeSide::removed(Ref row) const
{
    const auto found = news.find(row);
    return found != news.end() && found->second.removed;
}

Result<std::pair<MergeSide, MergeSide>> newsOfBoth(Connection& ours, Connection& theirs)
{
    const auto parting = partingOf(ours, theirs);
    if (!parting)
        return parting.error();
    std::pair<MergeSide, MergeSide> both;
    std::set<qint64> our_merges;
    std::set<qint64> their_merges;
    for (auto done : { readNotes(ours, theirs, both.first.notes, our_merges),
             readNotes(theirs, ours, both.second.notes, their_merges) })
        if (!done)
            return done.error();
    // Where the last merges left each side its own.
    QHash<QString, std::set<QString>> open;
    for (const auto* side : { &both.first, &both.second })
        if (!side->notes.empty())
            for (const auto& [uuid, column] : side->notes.back().unsettled)
                open[uuid].insert(column);
    const auto one = [&](Connection& side, const std::set<qint64>& merges, const std::vector<MergeNote>& read_by,
                         std::map<Ref, RowNews>& news) -> Outcome {
        if (auto done = gather(side, readUpTo(read_by, *parting), merges, {}, news); !done)
            return done;
        if (open.isEmpty())
            return Done {};
        // There all since the parting is still news.
        std::map<Ref, std::set<QString>> rows;
        for (const auto entity : allEntities()) {
            auto statement = side.prepare("SELECT id FROM " + entityKey(entity).toStdString() + " WHERE uuid = ?");
            if (!statement)
                return statement.error();
            for (auto it = open.begin(); it != open.end(); ++it) {
                statement->reset();
                const auto found = statement->bind(0, it.key()).step();
                if (!found)
                    return found.error();
                if (*found)
                    rows[Ref(entity, statement->integer(0))] = it.value();
            }
        }
        const auto wanted = [&](Ref row, const QString& column) {
            const auto found = rows.find(row);
            return found != rows.end() && found->second.contains(column);
        };
        return gather(side, *parting, merges, wanted, news);
    };
    if (auto done = one(ours, our_merges, both.second.notes, both.first.news); !done)
        return done.error();
    if (auto done = one(theirs, their_merges, both.first.notes, both.second.news); !done)
        return done.error();
    return both;
}

} // namespace washfast::store
