// Fields of rows that both notebooks have, and names that are used once only.
#include "core/store/merge_rows.h"

#include "core/quantity/value_text.h"
#include "core/store/words.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <algorithm>

namespace washfast::store {

namespace {

QString textOf(const Raw& raw)
{
    if (const auto* text = std::get_if<std::string>(&raw))
        return QString::fromStdString(*text);
    if (const auto* integer = std::get_if<qint64>(&raw))
        return QString::number(*integer);
    if (const auto* number = std::get_if<double>(&raw))
        return isoNumber(*number);
    return {};
}

QJsonObject evidenceOf(const MergeRow& row)
{
    return QJsonDocument::fromJson(row.not_measured.toUtf8()).object();
}

Raw evidenceRaw(const QJsonObject& evidence)
{
    if (evidence.isEmpty())
        return {};
    return QJsonDocument(evidence).toJson(QJsonDocument::Compact).toStdString();
}

} // namespace

Result<qint64> RowMerger::nameTaken(Entity entity, const QString& name, qint64 but)
{
    const auto& of = table(entity);
    auto statement = ours_.prepare("SELECT id FROM " + of.name + " WHERE " + of.columns[of.naming].toStdString()
        + " = ? COLLATE NOCASE AND removed = 0 AND id <> ?");
    if (!statement)
        return statement.error();
    const auto row = statement->bind(0, name).bind(1, but).step();
    if (!row)
        return row.error();
    return *row ? statement->integer(0) : qint64(0);
}

Result<QString> RowMerger::freeName(Entity entity, const QString& name, qint64 but)
{
    QString free = name;
    for (int number = 2;; ++number) {
        const auto taken = nameTaken(entity, free, but);
        if (!taken)
            return taken.error();
        if (*taken == 0)
            return free;
        free = QStringLiteral("%1 (%2)").arg(name).arg(number);
    }
}

bool RowMerger::wasRenamed(const QString& uuid, const QString& to) const
{
    const auto says = [&](const MergeNote& note) { return note.renamed.value(uuid) == to; };
    return std::any_of(our_side_.notes.begin(), our_side_.notes.end(), says)
        || std::any_of(their_side_.notes.begin(), their_side_.notes.end(), says);
}

Outcome RowMerger::takeName(Entity entity, const MergeRow& our_row, const MergeRow& their_row)
{
    const auto& of = table(entity);
    const auto& column = of.columns[of.naming];
    const auto& ours = our_row.values[size_t(of.naming)];
    const auto& theirs = their_row.values[size_t(of.naming)];
    if (ours == theirs)
        return Done {};
    const bool by_us = our_side_.hasNews({ entity, our_row.id }, column);
    const bool by_them = their_side_.hasNews({ entity, their_row.id }, column);
    if (by_us && !by_them)
        return Done {};
    if (!by_us && !by_them && (wasRenamed(our_row.uuid, textOf(ours)) || wasRenamed(our_row.uuid, textOf(theirs))))
        return Done {}; // as it had to be on arrival
    if (by_us || !by_them)
        return differ(entity, our_row, their_row, column);
    if (std::holds_alternative<std::monostate>(theirs)) {
        ++report_.changed;
        return writer_.setRaw({ entity, our_row.id }, column, theirs, ours);
    }
    names_.push_back({ entity, our_row.id, our_row.uuid, textOf(ours), textOf(theirs) });
    return Done {};
}

Outcome RowMerger::giveNames()
{
    // Names that are exchanged wait for one another: one of them steps aside.
    auto waiting = std::move(names_);
    bool aside = false;
    while (!waiting.empty()) {
        std::vector<WantedName> still;
        for (auto& name : waiting) {
            const auto taken = nameTaken(name.entity, name.wanted, name.id);
            if (!taken)
                return taken.error();
            const bool waits = *taken > 0 && std::any_of(waiting.begin(), waiting.end(), [&](const WantedName& other) {
                return other.entity == name.entity && other.id == *taken && other.now != other.wanted;
            });
            if (waits && !aside) {
                still.push_back(name);
                continue;
            }
            const auto free = freeName(name.entity, name.wanted, name.id);
            if (!free)
                return free.error();
            const auto& of = table(name.entity);
            const auto as_held = name.now.isNull() ? Raw {} : Raw(name.now.toStdString());
            if (auto done
                = writer_.setRaw({ name.entity, name.id }, of.columns[of.naming], free->toStdString(), as_held);
                !done)
                return done;
            name.now = *free;
            if (*free == name.wanted) {
                ++report_.changed;
            } else if (waits) {
                still.push_back(name);
                aside = false;
            } else {
                ++report_.changed;
                note_.renamed.insert(name.uuid, name.wanted);
                report_.renamed.push_back({ name.entity, name.wanted, *free });
                name.wanted = *free;
            }
        }
        aside = still.size() == waiting.size() && !aside;
        waiting = std::move(still);
    }
    return Done {};
}

Outcome RowMerger::takeFields(Entity entity, const MergeRow& our_row, const MergeRow& their_row)
{
    const auto& of = table(entity);
    const Ref our_ref(entity, our_row.id);
    const Ref their_ref(entity, their_row.id);
    const auto their_evidence = evidenceOf(their_row);
    auto evidence = evidenceOf(our_row);
    const auto before = evidence;
    for (size_t i = 0; i < our_row.values.size(); ++i) {
        const auto& column = of.columns[qsizetype(i)];
        const bool same_evidence = evidence.value(column) == their_evidence.value(column);
        const bool name = int(i) == of.naming; // given by takeName already
        const auto* link = std::get_if<qint64>(&their_row.values[i]);
        const bool is_link = of.targets[i] && link;
        bool same_value = name || our_row.values[i] == their_row.values[i];
        if (!name && is_link) {
            const auto uuid = uuidOf(theirs_, *of.targets[i], *link);
            const auto target = uuid ? find(ours_, *of.targets[i], *uuid) : Result<qint64>(uuid.error());
            if (!target)
                return target.error();
            same_value = *target > 0 && our_row.values[i] == Raw(*target);
        }
        if (same_value && same_evidence)
            continue;
        const bool by_us = our_side_.hasNews(our_ref, column);
        const bool by_them = their_side_.hasNews(their_ref, column);
        if (by_us && !by_them)
            continue;
        if (by_us || (!by_them && !restored_.contains(our_ref))) {
            if (auto done = differ(entity, our_row, their_row, column); !done)
                return done;
            continue;
        }
        if (!same_value) {
            const auto value = here(of, i, their_row.values[i]);
            if (!value)
                return value.error();
            if (auto done = writer_.setRaw(our_ref, column, *value, our_row.values[i]); !done)
                return done;
        }
        if (their_evidence.contains(column))
            evidence.insert(column, their_evidence.value(column));
        else
            evidence.remove(column);
        ++report_.changed;
    }
    if (evidence == before)
        return Done {};
    const auto held = our_row.not_measured.isNull() ? Raw {} : Raw(our_row.not_measured.toStdString());
    return writer_.setRaw(our_ref, QStringLiteral("not_measured"), evidenceRaw(evidence), held);
}

Result<QString> RowMerger::nameOf(Connection& side, Ref row, QString* print)
{
    const auto* identity = writer_.catalogue().identity(row.entity);
    const auto owner = ownerOf(row.entity);
    const auto column = [](const QString& name) { return name.isEmpty() ? std::string("NULL") : name.toStdString(); };
    auto statement = side.prepare("SELECT " + column(identity ? identity->key : QString()) + ", "
        + column(owner ? owner->column : QString()) + " FROM " + table(row.entity).name + " WHERE id = ?");
    if (!statement)
        return statement.error();
    const auto found = statement->bind(0, row.id).step();
    if (!found)
        return found.error();
    if (!*found)
        return entityLabel(row.entity);
    const auto known = identity ? fromRaw(*identity, statement->raw(0)) : std::nullopt;
    const auto name = known ? isoText(*identity, *known) : QString();
    if (print && row.entity == Entity::Print)
        *print = name;
    auto says = name.isEmpty() ? entityLabel(row.entity) : QStringLiteral("%1 %2").arg(entityLabel(row.entity), name);
    if (!owner)
        return says;
    const auto of = nameOf(side, { owner->entity, statement->integer(1) }, print);
    if (!of)
        return of.error();
    return Words::tr("%1 of %2").arg(says, *of);
}

Result<QString> RowMerger::spoken(Connection& side, Entity entity, size_t column, const Raw& value)
{
    const auto& of = table(entity);
    if (of.targets[column])
        if (const auto* id = std::get_if<qint64>(&value)) {
            const auto* identity = writer_.catalogue().identity(*of.targets[column]);
            if (!identity)
                return nameOf(side, { *of.targets[column], *id });
            auto statement = side.prepare(
                "SELECT " + identity->key.toStdString() + " FROM " + table(*of.targets[column]).name + " WHERE id = ?");
            if (!statement)
                return statement.error();
            const auto found = statement->bind(0, *id).step();
            if (!found)
                return found.error();
            return *found ? statement->text(0) : QString();
        }
    const int ordinal = writer_.catalogue().column(entity, of.columns[qsizetype(column)]);
    if (ordinal >= 0) {
        const auto& field = writer_.catalogue().columns(entity)[size_t(ordinal)];
        if (const auto known = fromRaw(field, value))
            return isoText(field, *known);
    }
    return textOf(value);
}

Outcome RowMerger::differ(Entity entity, const MergeRow& our_row, const MergeRow& their_row, const QString& column)
{
    const auto at = size_t(table(entity).at(column));
    MergeDifference difference;
    difference.row = Ref(entity, our_row.id);
    difference.column = column;
    const int ordinal = writer_.catalogue().column(entity, column);
    const auto* field = ordinal < 0 ? nullptr : &writer_.catalogue().columns(entity)[size_t(ordinal)];
    difference.label = field ? field->labelWithUnit() : column;
    const auto record = nameOf(ours_, difference.row, &difference.print);
    const auto ours = spoken(ours_, entity, at, our_row.values[at]);
    const auto theirs = spoken(theirs_, entity, at, their_row.values[at]);
    if (!record || !ours || !theirs)
        return !record ? record.error() : !ours ? ours.error() : theirs.error();
    difference.record = *record;
    difference.ours_text = *ours;
    difference.theirs_text = *theirs;
    const auto value = [&](const Raw& raw, const QString& says) {
        if (std::holds_alternative<std::monostate>(raw))
            return Value {};
        const auto known = field && field->kind != Kind::Link ? fromRaw(*field, raw) : std::nullopt;
        return known.value_or(Value(says));
    };
    difference.ours = value(our_row.values[at], *ours);
    difference.theirs = value(their_row.values[at], *theirs);
    const auto mark = [&](const MergeRow& row, QString& text) {
        if (const auto weak = evidenceOf(row).value(column).toString(); !weak.isEmpty() && !text.isEmpty())
            text += QStringLiteral(" (%1)").arg(weak);
    };
    mark(our_row, difference.ours_text);
    mark(their_row, difference.theirs_text);
    report_.differences.push_back(std::move(difference));
    note_.unsettled.emplace(our_row.uuid, column);
    return Done {};
}

} // namespace washfast::store
