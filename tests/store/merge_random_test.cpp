// Two copies of one notebook are edited at random, each on its own, and brought together, several times over. What has
// to come out is worked out from the rows by their UUIDs and from a list of what each side touched; histories, notes
// and ids are not looked at here.
#include "core/store/merge.h"
#include "tests/support/outside.h"
#include "tests/support/scratch_notebook.h"

#include <QSet>
#include <gmock/gmock.h>
#include <map>
#include <random>
#include <set>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using store::NotebookFile;
using store::Writer;
using testing::IsEmpty;

namespace {

using Key = std::pair<QString, QString>; // uuid of a row, column

struct Row {
    Entity entity = Entity::Print;
    QString owner; // uuid
    std::map<QString, QString> values; // value and evidence of each column; links by uuid
    friend bool operator==(const Row&, const Row&) = default;
};
using State = std::map<QString, Row>; // by uuid; rows that are seen

/// Read by another program.
State stateOf(const QString& path, const Catalogue& catalogue, bool hidden_too = false)
{
    Outside outside(path);
    State state;
    const auto seen = QString::fromLatin1(hidden_too ? "1" : "removed = 0");
    for (const auto entity : allEntities()) {
        const auto name = entityKey(entity);
        const auto owner = ownerOf(entity);
        const QString owning = owner
            ? QStringLiteral("(SELECT uuid FROM %1 WHERE id = t.%2)").arg(entityKey(owner->entity), owner->column)
            : QStringLiteral("''");
        const auto rows = outside.rows(
            QStringLiteral("SELECT t.uuid, %1 FROM %2 t WHERE %3").arg(owning, name, seen).toUtf8().constData());
        for (const auto& row : rows)
            state[row.section(QLatin1Char('|'), 0, 0)] = { entity, row.section(QLatin1Char('|'), 1), {} };
        for (const auto& field : catalogue.columns(entity)) {
            const auto value = field.kind == Kind::Link
                ? QStringLiteral("(SELECT uuid FROM %1 WHERE id = t.%2)").arg(entityKey(*field.target), field.key)
                : QStringLiteral("quote(t.%1)").arg(field.key);
            for (const auto& row : outside.rows(
                     QStringLiteral("SELECT t.uuid, %1, coalesce(t.not_measured ->> '$.%2', '') FROM %3 t WHERE %4")
                         .arg(value, field.key, name, seen)
                         .toUtf8()
                         .constData()))
                state[row.section(QLatin1Char('|'), 0, 0)].values[field.key] = row.section(QLatin1Char('|'), 1);
        }
    }
    return state;
}

/// All that is seen of a file, row by row, ids too.
QStringList tablesOf(const QString& path)
{
    Outside outside(path);
    QStringList all;
    for (const auto entity : allEntities())
        for (const auto& row : outside.rows(QStringLiteral("SELECT '%1', * FROM %1 WHERE removed = 0 ORDER BY id")
                                                .arg(entityKey(entity))
                                                .toUtf8()
                                                .constData()))
            all << row;
    return all
        + outside.rows("SELECT d.photo, hex(d.data) FROM photo_data d JOIN photo p ON p.id = d.photo WHERE "
                       "p.removed = 0 ORDER BY 1");
}

/// Lines that only one of two lists has.
QStringList apart(const QStringList& one, const QStringList& other)
{
    QStringList lines;
    for (const auto& [a, b, mark] : { std::tuple(&one, &other, '-'), std::tuple(&other, &one, '+') }) {
        const QSet<QString> there(b->begin(), b->end());
        for (const auto& line : *a)
            if (!there.contains(line))
                lines << QLatin1Char(mark) + line;
    }
    return lines;
}

class Side {
public:
    Side(QString path, const Catalogue& catalogue, unsigned seed, const char* letter)
        : path_(std::move(path))
        , letter_(text(letter))
        , random_(seed)
        , file_(must(NotebookFile::open(path_, catalogue)))
    {
        must(file_->connection().script("PRAGMA synchronous = OFF"));
    }
    [[nodiscard]] NotebookFile& file() { return *file_; }
    [[nodiscard]] const QString& path() const { return path_; }
    [[nodiscard]] State state(bool hidden_too = false) const { return stateOf(path_, file_->catalogue(), hidden_too); }

    void edit()
    {
        if (!steps_.empty() && upTo(6) == 0) {
            must(file_->undo());
            steps_.pop_back();
            return;
        }
        std::set<Key> now;
        const auto step = must(file_->perform(text("Edit"), [&](Writer& writer) -> Outcome {
            for (size_t count = 1 + upTo(3); count > 0; --count)
                change(writer, now);
            return Done {};
        }));
        if (step > 0)
            steps_.push_back(now);
    }
    /// Fields that were set since the sides last agreed.
    [[nodiscard]] std::set<Key> touched() const
    {
        auto all = open_;
        for (const auto& step : steps_)
            all.insert(step.begin(), step.end());
        return all;
    }
    /// From now on the sides agree, but for these fields.
    void agreed(const std::set<Key>& open)
    {
        steps_.clear();
        open_ = open;
    }

private:
    size_t upTo(size_t count) { return random_() % count; }

    std::optional<Ref> any(std::optional<Entity> of = std::nullopt)
    {
        const auto entity = of.value_or(kinds[upTo(kinds.size())]);
        auto statement = must(file_->connection().prepare(
            "SELECT id FROM " + entityKey(entity).toStdString() + " WHERE removed = 0 ORDER BY id"));
        std::vector<qint64> ids;
        while (must(statement.step()))
            ids.push_back(statement.integer(0));
        return ids.empty() ? std::nullopt : std::optional(Ref(entity, ids[upTo(ids.size())]));
    }

    void change(Writer& writer, std::set<Key>& now)
    {
        const auto what = upTo(12);
        const auto row = any();
        if (!row || what < 3)
            add(writer);
        else if (what == 3)
            must(writer.remove(*row));
        else
            set(writer, *row, now);
    }
    void add(Writer& writer)
    {
        const auto entity = kinds[upTo(kinds.size())];
        const auto owned = ownerOf(entity);
        const auto owner = owned ? any(owned->entity) : std::nullopt;
        if (owned && !owner)
            return;
        std::vector<store::FieldValue> values;
        for (const auto& field : writer.catalogue().columns(entity))
            if (field.identity || upTo(3) == 0)
                if (const auto known = value(field); known.has())
                    values.emplace_back(field.key, known);
        if (entity == Entity::Photo)
            must(writer.addPhoto(owner->id, QByteArray(200 + int(upTo(500)), char('a' + upTo(26))), values));
        else
            must(writer.add(entity, owner ? owner->id : 0, values));
    }
    void set(Writer& writer, Ref row, std::set<Key>& now)
    {
        const auto& columns = writer.catalogue().columns(row.entity);
        const auto& field = columns[upTo(columns.size())];
        const auto known = upTo(5) == 0 ? Known {} : value(field);
        const auto before = must(file_->connection().integer("SELECT max(id) FROM history"));
        must(writer.set(row, field.key, known));
        if (must(file_->connection().integer("SELECT max(id) FROM history")) > before)
            now.emplace(must(writer.read(row))->uuid, field.key);
    }
    Known value(const Field& field)
    {
        Known known;
        known.evidence = std::array { field.nature, Evidence::Estimated, Evidence::Assumed }[upTo(3)];
        switch (field.kind) {
        case Kind::Number:
            known.value = double(upTo(20)) / 8;
            break;
        case Kind::YesNo:
            known.value = upTo(2) == 1;
            break;
        case Kind::Time:
            known.value = Instant { 1'777'874'400'000 + qint64(upTo(10)) * 1000, 7200 };
            break;
        case Kind::Choice:
            known.value = field.choices[upTo(field.choices.size())].key;
            break;
        case Kind::ChoiceSet:
            known.value = joinSet(field, { field.choices[upTo(field.choices.size())].key });
            break;
        case Kind::Text:
            known.value = QStringLiteral("%1 %2 %3").arg(field.key, letter_).arg(++names_);
            break;
        case Kind::Link:
            if (const auto target = any(field.target))
                known.value = Link { target->id };
            break;
        }
        return known.has() ? known : Known {};
    }

    static constexpr std::array kinds { Entity::Print, Entity::Print, Entity::Paper, Entity::Mix, Entity::MixPart,
        Entity::Bath, Entity::Weighing, Entity::Reading, Entity::Exposure, Entity::Session, Entity::Photo, Entity::Sign,
        Entity::Cover };
    QString path_, letter_;
    std::mt19937 random_;
    std::unique_ptr<NotebookFile> file_;
    std::vector<std::set<Key>> steps_;
    std::set<Key> open_;
    int names_ = 0;
};

struct Expected {
    State rows;
    std::set<Key> conflicts; // fields, and (uuid, "removed")
};

/// Whether a side did something to a row that the other has removed.
bool touchedBy(
    const State& side, const State& other, const State& base, const std::set<Key>& touched, const QString& uuid)
{
    for (const auto& [key, column] : touched) {
        const auto row = side.find(key);
        if (row == side.end())
            continue;
        if (key == uuid || row->second.owner == uuid
            || row->second.values.at(column).section(QLatin1Char('|'), 0, 0) == uuid)
            return true;
    }
    for (const auto& [key, row] : side) {
        if (other.contains(key) || base.contains(key))
            continue; // not a row of its own
        if (row.owner == uuid)
            return true;
        for (const auto& [column, value] : row.values)
            if (value.section(QLatin1Char('|'), 0, 0) == uuid)
                return true;
    }
    return false;
}

/// What `ours` has to be after it took in `theirs`; those with `all_` have the hidden rows too.
Expected expected(const State& base, const State& ours, const State& theirs, const State& all_ours,
    const State& all_theirs, const std::set<Key>& our_touched, const std::set<Key>& their_touched)
{
    Expected result;
    std::set<QString> back; // owners that come back
    for (const bool children : { false, true }) { // owners first
        for (const auto& [uuid, row] : ours) {
            if (row.owner.isEmpty() == children)
                continue;
            if (theirs.contains(uuid) || !base.contains(uuid)) {
                result.rows[uuid] = row;
                continue;
            }
            if (!row.owner.isEmpty() && !theirs.contains(row.owner)) { // goes with what it belongs to
                if (result.rows.contains(row.owner))
                    result.rows[uuid] = row;
            } else if (touchedBy(ours, theirs, base, our_touched, uuid)) {
                result.rows[uuid] = row;
                result.conflicts.emplace(uuid, QStringLiteral("removed"));
            }
        }
        for (const auto& [uuid, row] : theirs) {
            if (row.owner.isEmpty() == children || ours.contains(uuid))
                continue;
            if (!base.contains(uuid) || back.contains(row.owner)) {
                result.rows[uuid] = row;
            } else if (touchedBy(theirs, ours, base, their_touched, uuid)) {
                result.rows[uuid] = row;
                result.conflicts.emplace(uuid, QStringLiteral("removed"));
                back.insert(uuid);
            }
        }
    }
    for (auto& [uuid, row] : result.rows) {
        const auto here = all_ours.find(uuid);
        const auto there = all_theirs.find(uuid);
        if (here == all_ours.end() || there == all_theirs.end() || (!base.contains(uuid) && !ours.contains(uuid)))
            continue;
        for (auto& [column, value] : row.values) {
            const Key key(uuid, column);
            const auto& our_value = here->second.values.at(column);
            const auto& their_value = there->second.values.at(column);
            value = our_touched.contains(key) || !their_touched.contains(key) ? our_value : their_value;
            if (our_touched.contains(key) && their_touched.contains(key) && our_value != their_value)
                result.conflicts.insert(key);
        }
    }
    return result;
}

QStringList differing(const State& wanted, const State& found)
{
    QStringList lines;
    for (const auto& [uuid, row] : wanted)
        if (const auto other = found.find(uuid); other == found.end())
            lines << QStringLiteral("missing %1 %2").arg(entityKey(row.entity), uuid);
        else if (!(other->second == row))
            for (const auto& [column, value] : row.values)
                if (other->second.values.at(column) != value)
                    lines << QStringLiteral("%1 %2 %3: %4, not %5")
                                 .arg(entityKey(row.entity), uuid, column, other->second.values.at(column), value);
    for (const auto& [uuid, row] : found)
        if (!wanted.contains(uuid))
            lines << QStringLiteral("too many %1 %2").arg(entityKey(row.entity), uuid);
    return lines;
}

Key keyOf(const Side& side, const store::MergeDifference& difference)
{
    const auto sql = QStringLiteral("SELECT uuid FROM %1 WHERE id = %2")
                         .arg(entityKey(difference.row.entity))
                         .arg(difference.row.id);
    return { Outside(side.path()).row(sql.toUtf8().constData()), difference.column };
}

class RandomMerge : public testing::TestWithParam<unsigned> {
protected:
    /// Merges and checks; gives the fields where each keeps its own.
    std::set<Key> takeIn(Side& ours, Side& theirs, const State& base)
    {
        const auto before = ours.state();
        const auto other = theirs.state();
        const auto tables = tablesOf(ours.path());
        const auto other_tables = tablesOf(theirs.path());
        const auto wanted
            = expected(base, before, other, ours.state(true), theirs.state(true), ours.touched(), theirs.touched());
        const auto report = must(merge(ours.file(), theirs.path()));
        EXPECT_THAT(differing(wanted.rows, ours.state()), IsEmpty());
        EXPECT_THAT(apart(tablesOf(theirs.path()), other_tables), IsEmpty());

        std::set<Key> told;
        std::set<Key> fields;
        for (const auto& difference : report.differences) {
            const auto key = keyOf(ours, difference);
            told.insert(key);
            EXPECT_FALSE(difference.sentence().isEmpty());
            if (difference.column != QLatin1String("removed"))
                fields.insert(key);
        }
        for (const auto& key : wanted.conflicts)
            EXPECT_TRUE(told.contains(key)) << key.first.toStdString() << ' ' << key.second.toStdString();
        for (const auto& key : told)
            EXPECT_TRUE(wanted.conflicts.contains(key))
                << "told without need: " << key.first.toStdString() << ' ' << key.second.toStdString();
        EXPECT_EQ(report.step > 0, tablesOf(ours.path()) != tables);

        const auto merged = tablesOf(ours.path());
        if (report.step > 0) {
            EXPECT_TRUE(QFile::exists(report.copy));
            EXPECT_THAT(apart(tablesOf(report.copy), tables), IsEmpty()) << "the copy is of the notebook as it was";
            must(ours.file().undo());
            EXPECT_THAT(apart(tablesOf(ours.path()), tables), IsEmpty()) << "undone";
            EXPECT_EQ(must(merge(ours.file(), theirs.path())).addedInAll(), report.addedInAll()) << "again after undo";
            EXPECT_THAT(apart(tablesOf(ours.path()), merged), IsEmpty());
        }
        const auto again = must(merge(ours.file(), theirs.path()));
        EXPECT_EQ(again.step, 0) << "the second time adds nothing";
        EXPECT_EQ(again.copy, QString());
        EXPECT_THAT(apart(tablesOf(ours.path()), merged), IsEmpty());
        EXPECT_EQ(must(ours.file().integrity()), text("ok"));
        EXPECT_THAT(Outside(ours.path()).rows("PRAGMA foreign_key_check"), IsEmpty());
        return fields;
    }
};

} // namespace

TEST_P(RandomMerge, BringsTogetherWhatTwoCopiesBecame)
{
    const ScratchNotebook scratch;
    Side ours(scratch.path(), scratch.catalogue(), GetParam(), "a");
    for (int i = 0; i < 40; ++i)
        ours.edit();
    ours.agreed({});
    must(ours.file().copyTo(scratch.inFolder("other.washfast")));
    Side theirs(scratch.inFolder("other.washfast"), scratch.catalogue(), GetParam() + 1000, "b");
    for (int round = 0; round < 3; ++round) {
        const auto base = ours.state();
        for (int i = 0; i < 25; ++i) {
            ours.edit();
            theirs.edit();
        }
        auto open = takeIn(ours, theirs, base);
        if (HasFailure())
            FAIL() << "round " << round;
        // And the other way round, so that both are the same again, but for what each keeps.
        for (const auto& difference : must(merge(theirs.file(), ours.path())).differences)
            if (difference.column != QLatin1String("removed"))
                open.insert(keyOf(theirs, difference));
        ours.agreed(open);
        theirs.agreed(open);
        auto one = ours.state();
        auto other = theirs.state();
        for (const auto& [uuid, column] : open) {
            one[uuid].values.erase(column);
            other[uuid].values.erase(column);
        }
        ASSERT_THAT(differing(one, other), IsEmpty()) << "round " << round;
    }
}

INSTANTIATE_TEST_SUITE_P(Seeds, RandomMerge, testing::Range(1U, 9U));

} // namespace WASHFAST_FILE
