#include "core/store/writer.h"

#include "core/store/rows.h"
#include "core/store/words.h"

#include <QJsonDocument>
#include <QJsonObject>
#include <QUuid>
#include <algorithm>
#include <numeric>

namespace washfast::store {

namespace {

std::vector<int> allColumns(const Catalogue& catalogue, Entity entity)
{
    std::vector<int> columns(catalogue.columns(entity).size());
    std::iota(columns.begin(), columns.end(), 0);
    return columns;
}

/// The JSON of the columns whose evidence is not what a plain entry would have.
QString evidenceJson(const QJsonObject& object)
{
    return object.isEmpty() ? QString() : QString::fromUtf8(QJsonDocument(object).toJson(QJsonDocument::Compact));
}

} // namespace

Raw toRaw(const Field& field, const Value& value)
{
    if (const auto* number = std::get_if<double>(&value))
        return *number;
    if (const auto* yes = std::get_if<bool>(&value))
        return qint64(*yes ? 1 : 0);
    if (const auto* time = std::get_if<Instant>(&value))
        return time->toIsoBytes();
    if (const auto* text = std::get_if<QString>(&value))
        return (field.kind == Kind::ChoiceSet ? joinSet(field, splitSet(*text)) : *text).toStdString();
    if (const auto* link = std::get_if<Link>(&value))
        return link->id;
    return std::monostate {};
}

bool areChoices(const Field& field, const QString& set)
{
    const auto keys = splitSet(set);
    return std::all_of(keys.begin(), keys.end(), [&](const QString& key) { return field.choiceIndex(key) >= 0; });
}

std::optional<Value> fromRaw(const Field& field, const Raw& raw)
{
    if (std::holds_alternative<std::monostate>(raw))
        return Value {};
    const auto* integer = std::get_if<qint64>(&raw);
    const auto* number = std::get_if<double>(&raw);
    const auto* text = std::get_if<std::string>(&raw);
    switch (field.kind) {
    case Kind::Number:
        if (number)
            return Value(*number);
        if (integer)
            return Value(double(*integer));
        return std::nullopt;
    case Kind::YesNo:
        return integer ? std::optional(Value(*integer != 0)) : std::nullopt;
    case Kind::Link:
        return integer ? std::optional(Value(Link { *integer })) : std::nullopt;
    case Kind::Time:
        if (const auto time = text ? Instant::fromIso(std::string_view(*text)) : std::nullopt)
            return Value(*time);
        return std::nullopt;
    case Kind::Choice:
        if (text && field.choiceIndex(QString::fromStdString(*text)) >= 0)
            return Value(QString::fromStdString(*text));
        return std::nullopt;
    case Kind::ChoiceSet:
        if (text && areChoices(field, QString::fromStdString(*text)))
            return Value(QString::fromStdString(*text));
        return std::nullopt;
    case Kind::Text:
        return text ? std::optional(Value(QString::fromStdString(*text))) : std::nullopt;
    }
    return std::nullopt;
}

Outcome Writer::fits(const Field& field, const Known& known) const
{
    const auto& value = known.value;
    if (!isKnown(value))
        return Done {};
    bool good = false;
    switch (field.kind) {
    case Kind::Number:
        good = std::holds_alternative<double>(value);
        break;
    case Kind::YesNo:
        good = std::holds_alternative<bool>(value);
        break;
    case Kind::Time:
        good = std::holds_alternative<Instant>(value) && std::get<Instant>(value).valid();
        break;
    case Kind::Link:
        good = std::holds_alternative<Link>(value);
        break;
    case Kind::Text:
        good = std::holds_alternative<QString>(value);
        break;
    case Kind::Choice:
        good = std::holds_alternative<QString>(value) && field.choiceIndex(std::get<QString>(value)) >= 0;
        break;
    case Kind::ChoiceSet:
        good = std::holds_alternative<QString>(value) && areChoices(field, std::get<QString>(value));
        break;
    }
    if (good)
        return Done {};
    return Error { Trouble::BadInput,
        Words::tr("This value does not fit; the field takes: %1.").arg(kindLabel(field.kind)), field.label };
}

Error Writer::explain(const Error& error, Entity entity, const std::vector<FieldValue>& values) const
{
    if (error.code != Trouble::BadInput)
        return error;
    if (const auto* identity = catalogue_.identity(entity);
        identity && error.says.startsWith(QLatin1String("UNIQUE"))) {
        QString name;
        for (const auto& [column, known] : values)
            if (column == identity->key)
                name = known.text().value_or(QString());
        return { Trouble::BadInput, Words::tr("There is a %1 with the name %2 already.").arg(entityLabel(entity), name),
            identity->label };
    }
    return { Trouble::BadInput, Words::tr("The file does not take this value (%1).").arg(error.says),
        entityLabel(entity) };
}

Outcome Writer::stepIsOpen() const
{
    if (connection_.inTransaction())
        return Done {};
    return Error { Trouble::Failed, Words::tr("The step was broken off; nothing of it was saved."), {} };
}

const std::string& Writer::insertStatement(Entity entity)
{
    auto& sql = inserts_[size_t(entity)];
    if (!sql.empty())
        return sql;
    // Always all columns, so that there is one statement for each kind of record, whatever is known of a row.
    std::string names = "uuid, not_measured";
    std::string marks = "?, ?";
    const auto name = [&](const QString& column) {
        names += ", " + column.toStdString();
        marks += ", ?";
    };
    for (const auto& field : catalogue_.columns(entity))
        name(field.key);
    if (const auto owned = ownerOf(entity))
        name(owned->column);
    sql = "INSERT INTO " + entityKey(entity).toStdString() + "(" + names + ") VALUES (" + marks + ")";
    return sql;
}

Result<qint64> Writer::add(Entity entity, qint64 owner, const std::vector<FieldValue>& values)
{
    if (auto open = stepIsOpen(); !open)
        return open.error();
    auto statement = connection_.prepare(insertStatement(entity));
    if (!statement)
        return statement.error();
    const auto& fields = catalogue_.columns(entity);
    QJsonObject evidence;
    for (const auto& [column, known] : values) {
        const int ordinal = catalogue_.column(entity, column);
        if (ordinal < 0)
            return Error { Trouble::BadInput, Words::tr("A %1 has no field named %2.").arg(entityLabel(entity), column),
                {} };
        if (!known.has())
            continue;
        const auto& field = fields[size_t(ordinal)];
        if (auto good = fits(field, known); !good)
            return good.error();
        statement->bind(ordinal + 2, toRaw(field, known.value));
        if (known.evidence != field.nature)
            evidence.insert(column, evidenceKey(known.evidence));
    }
    statement->bind(0, QUuid::createUuid().toString(QUuid::WithoutBraces)).bind(1, evidenceJson(evidence));
    if (ownerOf(entity))
        statement->bind(int(fields.size()) + 2, owner);
    if (auto done = statement->run(); !done)
        return explain(done.error(), entity, values);
    return connection_.lastId();
}

Outcome Writer::set(Ref row, const QString& column, const Known& value, const std::optional<Known>& expected)
{
    if (auto open = stepIsOpen(); !open)
        return open;
    const int ordinal = catalogue_.column(row.entity, column);
    if (ordinal < 0)
        return Error { Trouble::BadInput, Words::tr("A %1 has no field named %2.").arg(entityLabel(row.entity), column),
            {} };
    const auto& field = catalogue_.columns(row.entity)[size_t(ordinal)];
    if (auto good = fits(field, value); !good)
        return good.error();
    const auto table = entityKey(row.entity).toStdString();
    const auto name = column.toStdString();
    auto current
        = connection_.prepare("SELECT " + name + ", not_measured FROM " + table + " WHERE id = ? AND removed = 0");
    if (!current)
        return current.error();
    current->bind(0, row.id);
    const auto found = current->step();
    if (!found)
        return found.error();
    if (!*found)
        return Error { Trouble::Conflict, Words::tr("This %1 has been removed meanwhile.").arg(entityLabel(row.entity)),
            field.label };
    const Raw held = current->raw(0);
    auto evidence = QJsonDocument::fromJson(current->text(1).toUtf8()).object();
    if (expected
        && fromRaw(field, held).value_or(Value {}) != fromRaw(field, toRaw(field, expected->value)).value_or(Value {}))
        return Error { Trouble::Conflict,
            Words::tr(
                "Somebody else has changed this meanwhile. Their entry stands; look at it and enter yours again if it "
                "is right."),
            field.label };
    const QString before = evidenceJson(evidence);
    if (!value.has() || value.evidence == field.nature)
        evidence.remove(column);
    else
        evidence.insert(column, evidenceKey(value.evidence));
    auto statement = connection_.prepare("UPDATE " + table + " SET " + name + " = ?, not_measured = ? WHERE id = ?");
    if (!statement)
        return statement.error();
    const Raw wanted = toRaw(field, value.value);
    if (wanted == held && before == evidenceJson(evidence))
        return Done {}; // nothing new
    statement->bind(0, wanted).bind(1, evidenceJson(evidence)).bind(2, row.id);
    if (auto done = statement->run(); !done)
        return explain(done.error(), row.entity, { { column, value } });
    return Done {};
}

Outcome Writer::setRaw(Ref row, const QString& column, const Raw& value, const Raw& expected)
{
    if (auto open = stepIsOpen(); !open)
        return open;
    const auto table = entityKey(row.entity).toStdString();
    const auto name = column.toStdString();
    auto statement
        = connection_.prepare("UPDATE " + table + " SET " + name + " = ? WHERE id = ? AND " + name + " IS ?");
    if (!statement)
        return statement.error();
    statement->bind(0, value).bind(1, row.id).bind(2, expected);
    const auto done = statement->run();
    if (!done && done.error().says.startsWith(QLatin1String("UNIQUE")))
        return Error { Trouble::Conflict,
            Words::tr("Another %1 has this name now, so it cannot be brought back.").arg(entityLabel(row.entity)),
            nameBehind(row, column, value) };
    if (!done)
        return explain(done.error(), row.entity, {});
    if (connection_.rowsChanged() == 0) {
        const int ordinal = catalogue_.column(row.entity, column);
        return Error { Trouble::Conflict, Words::tr("This was changed again meanwhile, so it cannot be taken back."),
            ordinal < 0 ? entityLabel(row.entity) : catalogue_.columns(row.entity)[size_t(ordinal)].label };
    }
    return Done {};
}

QString Writer::nameBehind(Ref row, const QString& column, const Raw& value)
{
    const auto* identity = catalogue_.identity(row.entity);
    if (const auto* text = std::get_if<std::string>(&value); text && identity && identity->key == column)
        return QString::fromStdString(*text);
    auto statement = identity ? connection_.prepare("SELECT " + identity->key.toStdString() + " FROM "
                         + entityKey(row.entity).toStdString() + " WHERE id = ?")
                              : Result<Statement>(Error {});
    if (!statement)
        return {};
    const auto found = statement->bind(0, row.id).step();
    return found.ok() && *found ? statement->text(0) : QString();
}

Outcome Writer::remove(Ref row)
{
    if (auto open = stepIsOpen(); !open)
        return open;
    for (const auto child : allEntities()) {
        if (const auto owner = ownerOf(child); !owner || owner->entity != row.entity)
            continue;
        const auto ids = children(child, row.id);
        if (!ids)
            return ids.error();
        for (const auto id : *ids)
            if (auto done = remove({ child, id }); !done)
                return done;
    }
    auto statement = connection_.prepare(
        "UPDATE " + entityKey(row.entity).toStdString() + " SET removed = 1 WHERE id = ? AND removed = 0");
    if (!statement)
        return statement.error();
    statement->bind(0, row.id);
    return statement->run();
}

Result<qint64> Writer::addPhoto(qint64 print, const QByteArray& bytes, const std::vector<FieldValue>& values)
{
    const auto id = add(Entity::Photo, print, values);
    if (!id)
        return id;
    if (auto done = addPhotoBytes(*id, bytes); !done)
        return done.error();
    return id;
}

Outcome Writer::addPhotoBytes(qint64 photo, const QByteArray& bytes)
{
    if (auto open = stepIsOpen(); !open)
        return open;
    auto statement = connection_.prepare("INSERT INTO photo_data(photo, data) VALUES (?, ?)");
    if (!statement)
        return statement.error();
    statement->bind(0, photo).blob(1, bytes);
    return statement->run();
}

Result<qint64> Writer::addRaw(
    Entity entity, const QString& uuid, const QString& not_measured, const std::vector<std::pair<QString, Raw>>& values)
{
    if (auto open = stepIsOpen(); !open)
        return open.error();
    std::string names = "uuid, not_measured";
    std::string marks = "?, ?";
    for (const auto& [column, value] : values) {
        names += ", " + column.toStdString();
        marks += ", ?";
    }
    auto statement = connection_.prepare(
        "INSERT INTO " + entityKey(entity).toStdString() + "(" + names + ") VALUES (" + marks + ")");
    if (!statement)
        return statement.error();
    statement->bind(0, uuid).bind(1, not_measured);
    for (size_t i = 0; i < values.size(); ++i)
        statement->bind(int(i) + 2, values[i].second);
    if (auto done = statement->run(); !done)
        return explain(done.error(), entity, {});
    return connection_.lastId();
}

Result<std::optional<Record>> Writer::read(Ref row)
{
    return readRecord(connection_, catalogue_, allColumns(catalogue_, row.entity), row);
}

Result<std::vector<qint64>> Writer::children(Entity child, qint64 owner)
{
    const auto owned = ownerOf(child);
    auto statement = connection_.prepare("SELECT id FROM " + entityKey(child).toStdString() + " WHERE "
        + owned->column.toStdString() + " = ? AND removed = 0 ORDER BY id");
    if (!statement)
        return statement.error();
    statement->bind(0, owner);
    return integers(std::move(statement));
}

Result<std::optional<qint64>> Writer::byName(Entity entity, const QString& name)
{
    const auto* identity = catalogue_.identity(entity);
    auto statement = connection_.prepare("SELECT id FROM " + entityKey(entity).toStdString() + " WHERE "
        + identity->key.toStdString() + " = ? COLLATE NOCASE AND removed = 0 ORDER BY id LIMIT 1");
    if (!statement)
        return statement.error();
    statement->bind(0, name.trimmed());
    const auto row = statement->step();
    if (!row)
        return row.error();
    return *row ? std::optional(statement->integer(0)) : std::nullopt;
}

Result<std::optional<Record>> readRecord(Connection& connection, const Catalogue& catalogue,
    const std::vector<int>& columns, Ref row, std::vector<std::pair<const Field*, QString>>* not_understood)
{
    const auto owned = ownerOf(row.entity);
    std::string names = "uuid, not_measured, " + (owned ? owned->column.toStdString() : std::string("0"));
    const auto& fields = catalogue.columns(row.entity);
    for (const int column : columns)
        names += ", " + fields[size_t(column)].key.toStdString();
    auto statement = connection.prepare(
        "SELECT " + names + " FROM " + entityKey(row.entity).toStdString() + " WHERE id = ? AND removed = 0");
    if (!statement)
        return statement.error();
    statement->bind(0, row.id);
    const auto found = statement->step();
    if (!found)
        return found.error();
    if (!*found)
        return std::optional<Record> {};
    Record record;
    record.ref = row;
    record.uuid = statement->text(0);
    record.owner = statement->integer(2);
    record.values.resize(fields.size());
    const auto evidence = QJsonDocument::fromJson(statement->text(1).toUtf8()).object();
    for (size_t i = 0; i < columns.size(); ++i) {
        const auto& field = fields[size_t(columns[i])];
        auto& known = record.values[size_t(columns[i])];
        const auto value = fromRaw(field, statement->raw(int(i) + 3));
        if (!value && not_understood)
            not_understood->emplace_back(&field, statement->text(int(i) + 3));
        known.value = value.value_or(Value {});
        known.evidence = evidenceFromKey(evidence.value(field.key).toString()).value_or(field.nature);
    }
    return std::optional(record);
}

} // namespace washfast::store
