#include "ui/shelf/record_model.h"

#include "core/quantity/value_text.h"
#include "ui/common/offered.h"

#include <QLocale>

namespace washfast::ui {

RecordModel::RecordModel(Desk& desk, QObject* parent)
    : QAbstractTableModel(parent)
    , desk_(desk)
    , facts_(desk)
{
    setEntity(entity_);
    connect(&desk, &Desk::reloaded, this, &RecordModel::readAgain);
    connect(&desk, &Desk::changed, this, [this](const QVector<store::Change>& changes) {
        facts_.forget();
        bool rows = false;
        bool values = false;
        for (const auto& change : changes) {
            rows = rows || (change.row.entity == entity_ && change.what != store::Change::What::Set)
                || (change.row.entity == entity_ && change.field == retiredColumn(desk_.catalogue(), entity_));
            const auto owner = ownerOf(change.row.entity);
            values = values || !owner // a link may show another record's name
                || owner->entity == entity_ || change.row.entity == Entity::MixPart;
        }
        if (rows)
            readAgain();
        else if (values && !ids_.empty())
            Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
    });
}

void RecordModel::setEntity(Entity entity)
{
    beginResetModel();
    entity_ = entity;
    facts_.forget();
    shown_facts_ = RecordFacts::factsOf(entity);
    shown_.clear();
    for (const auto& field : desk_.catalogue().columns(entity))
        if (!field.hidden)
            shown_.push_back(&field);
    ids_.clear();
    const auto& table = desk_.notebook().table(entity);
    for (int row = 0; row < table.rows(); ++row)
        if (show_retired_ || !facts_.retired({ entity, table.id(row) }))
            ids_.push_back(table.id(row));
    endResetModel();
}

void RecordModel::readAgain()
{
    setEntity(entity_);
}

void RecordModel::setShowRetired(bool show)
{
    show_retired_ = show;
    readAgain();
}

std::optional<RecordFacts::Fact> RecordModel::factAt(int column) const
{
    return column >= 1 && column <= int(shown_facts_.size()) ? std::optional(shown_facts_[size_t(column - 1)])
                                                             : std::nullopt;
}

const Field& RecordModel::fieldAt(int column) const
{
    return *shown_[size_t(column == 0 ? 0 : column - int(shown_facts_.size()))];
}

qint64 RecordModel::idAt(int row) const
{
    return row >= 0 && row < rowCount() ? ids_[size_t(row)] : 0;
}

int RecordModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(ids_.size());
}

int RecordModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(shown_.size() + shown_facts_.size());
}

QString RecordModel::textOf(const Field& field, const Known& known) const
{
    if (const auto link = known.link())
        return desk_.notebook().nameOf({ *field.target, *link });
    auto text = displayText(field, known, QLocale());
    if (const auto time = known.time(); time && time->toDateTime().time() == QTime(0, 0)) { // a day, without an hour
        const QLocale locale;
        const auto when = time->toDateTime();
        text.replace(locale.toString(when, QLocale::ShortFormat), locale.toString(when.date(), QLocale::ShortFormat));
    }
    return text;
}

QVariant RecordModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= rowCount() || index.column() >= columnCount())
        return {};
    if (role == idRole)
        return ids_[size_t(index.row())];
    const Ref record { entity_, ids_[size_t(index.row())] };
    if (const auto fact = factAt(index.column())) {
        if (role == Qt::DisplayRole)
            return facts_.text(record, *fact);
        if (role == sortRole)
            return facts_.sortValue(record, *fact);
        if (role == Qt::TextAlignmentRole && *fact != RecordFacts::Fact::Warnings)
            return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter);
        return {};
    }
    const auto& field = fieldAt(index.column());
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue(
            field.kind == Kind::Number ? Qt::AlignRight | Qt::AlignVCenter : Qt::AlignLeft | Qt::AlignVCenter);
    if (role != Qt::DisplayRole && role != sortRole)
        return {};
    const auto known = desk_.notebook().get(record, field.key);
    if (role == sortRole) {
        if (!known.has())
            return {};
        if (const auto number = known.number())
            return *number;
        if (const auto time = known.time())
            return double(time->ms_utc);
    }
    return known.has() ? textOf(field, known) : QString();
}

QVariant RecordModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount())
        return {};
    if (const auto fact = factAt(section))
        return role == Qt::DisplayRole ? QVariant(RecordFacts::heading(*fact)) : QVariant();
    const auto& field = fieldAt(section);
    if (role == Qt::DisplayRole)
        return field.labelWithUnit();
    if (role == Qt::TextAlignmentRole && field.kind == Kind::Number)
        return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter | Qt::Alignment(Qt::TextWordWrap));
    if (role == Qt::ToolTipRole)
        return field.description;
    return {};
}

} // namespace washfast::ui
