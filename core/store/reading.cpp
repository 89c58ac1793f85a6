#include "core/store/reading.h"

#include "core/store/rows.h"
#include "core/store/words.h"

#include <QJsonDocument>
#include <QJsonObject>

namespace washfast::store {

namespace {

/// Takes texts of choices to their positions without making a QString of each.
class ChoiceFinder {
public:
    explicit ChoiceFinder(const Field& field)
    {
        for (const auto& choice : field.choices)
            keys_.push_back(choice.key.toStdString());
    }
    [[nodiscard]] qint16 find(std::string_view key) const
    {
        for (size_t i = 0; i < keys_.size(); ++i)
            if (keys_[i] == key)
                return qint16(i);
        return -1;
    }

private:
    std::vector<std::string> keys_;
};

QString filterFor(Entity entity, std::optional<qint64> session)
{
    if (!session)
        return {};
    if (entity == Entity::Print)
        return QStringLiteral(" AND print_session = %1").arg(*session);
    const auto owner = ownerOf(entity);
    if (owner && owner->entity == Entity::Print)
        return QStringLiteral(" AND print IN (SELECT id FROM print WHERE print_session = %1 AND removed = 0)")
            .arg(*session);
    return {};
}

/// Where one column of the statement goes.
struct Target {
    const Field* field;
    Column* column;
    ChoiceFinder choices;
};

void take(const Statement& row, int at, const Target& target, qint64 id, Notebook& notebook)
{
    if (row.isNull(at))
        return;
    const auto& field = *target.field;
    switch (field.kind) {
    case Kind::Number:
    case Kind::YesNo:
        std::get<NumberColumn>(*target.column).back() = row.real(at);
        break;
    case Kind::Link:
        std::get<LinkColumn>(*target.column).back() = row.integer(at);
        break;
    case Kind::Time:
        if (const auto time = Instant::fromIso(row.bytes(at)))
            std::get<TimeColumn>(*target.column).back() = *time;
        else
            complain(notebook, id, field, row.text(at));
        break;
    case Kind::Choice:
        if (const auto index = target.choices.find(row.bytes(at)); index >= 0)
            std::get<ChoiceColumn>(*target.column).back() = index;
        else
            complain(notebook, id, field, row.text(at));
        break;
    case Kind::ChoiceSet:
        if (const auto text = row.text(at); areChoices(field, text))
            std::get<TextColumn>(*target.column).back() = text;
        else
            complain(notebook, id, field, text);
        break;
    case Kind::Text:
        std::get<TextColumn>(*target.column).back() = row.text(at);
        break;
    }
}

} // namespace

void complain(Notebook& notebook, qint64 id, const Field& field, const QString& found)
{
    constexpr qsizetype most = 200;
    const auto says = Words::tr("%1 %2, %3: \"%4\" is not understood and is shown as unknown.")
                          .arg(entityLabel(field.entity), QString::number(id), field.label, found);
    if (notebook.problems.size() < most && !notebook.problems.contains(says))
        notebook.problems << says;
}

Outcome readTable(Connection& connection, const std::vector<int>& columns, Entity entity, std::optional<qint64> session,
    Notebook& notebook)
{
    const auto& fields = notebook.catalogue().columns(entity);
    const auto owned = ownerOf(entity);
    auto& table = notebook.edit(entity);
    std::string names = "id, " + (owned ? owned->column.toStdString() : std::string("0")) + ", not_measured";
    std::vector<Target> targets;
    for (const int column : columns) {
        const auto& field = fields[size_t(column)];
        names += ", " + field.key.toStdString();
        targets.push_back({ &field, &table.writable(column), ChoiceFinder(field) });
    }
    const auto from
        = " FROM " + entityKey(entity).toStdString() + " WHERE removed = 0" + filterFor(entity, session).toStdString();
    if (!session) {
        const auto count = connection.integer("SELECT count(*)" + from);
        if (!count)
            return count.error();
        table.reserve(size_t(*count));
    }
    return eachRow(connection.prepare("SELECT " + names + from + " ORDER BY id"), [&](const Statement& row) {
        const auto id = row.integer(0);
        table.startRow(id, row.integer(1));
        for (size_t i = 0; i < targets.size(); ++i)
            take(row, int(i) + 3, targets[i], id, notebook);
        if (row.isNull(2))
            return;
        const auto evidence = QJsonDocument::fromJson(row.text(2).toUtf8()).object();
        for (auto it = evidence.begin(); it != evidence.end(); ++it) {
            const int column = notebook.catalogue().column(entity, it.key());
            const auto read = evidenceFromKey(it.value().toString());
            if (column >= 0 && read)
                table.setEvidence(id, column, *read);
        }
    });
}

} // namespace washfast::store
