#include "ui/shelf/record_model.h"

#include "core/quantity/value_text.h"

#include <QLocale>

namespace washfast::ui {

RecordModel::RecordModel(Desk& desk, QObject* parent)
    : QAbstractTableModel(parent)
    , desk_(desk)
{
    setEntity(entity_);
    connect(&desk, &Desk::reloaded, this, &RecordModel::readAgain);
    connect(&desk, &Desk::changed, this, [this](const QVector<store::Change>& changes) {
        bool rows = false;
        bool values = false;
        for (const auto& change : changes) {
            rows = rows || (change.row.entity == entity_ && change.what != store::Change::What::Set);
            values = values || !ownerOf(change.row.entity); // a link may show another record's name
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
    shown_.clear();
    for (const auto& field : desk_.catalogue().columns(entity))
        if (!field.hidden)
            shown_.push_back(&field);
    ids_.clear();
    const auto& table = desk_.notebook().table(entity);
    for (int row = 0; row < table.rows(); ++row)
        ids_.push_back(table.id(row));
    endResetModel();
}

void RecordModel::readAgain()
{
    setEntity(entity_);
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
    return parent.isValid() ? 0 : int(shown_.size());
}

QString RecordModel::textOf(const Field& field, const Known& known) const
{
    if (const auto link = known.link())
        return desk_.notebook().nameOf({ *field.target, *link });
    return displayText(field, known, QLocale());
}

QVariant RecordModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= rowCount() || index.column() >= columnCount())
        return {};
    if (role == idRole)
        return ids_[size_t(index.row())];
    const auto& field = *shown_[size_t(index.column())];
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue(
            field.kind == Kind::Number ? Qt::AlignRight | Qt::AlignVCenter : Qt::AlignLeft | Qt::AlignVCenter);
    if (role != Qt::DisplayRole && role != sortRole)
        return {};
    const auto known = desk_.notebook().get({ entity_, ids_[size_t(index.row())] }, field.key);
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
    const auto& field = *shown_[size_t(section)];
    if (role == Qt::DisplayRole)
        return field.labelWithUnit();
    if (role == Qt::TextAlignmentRole && field.kind == Kind::Number)
        return QVariant::fromValue(Qt::AlignRight | Qt::AlignVCenter | Qt::Alignment(Qt::TextWordWrap));
    if (role == Qt::ToolTipRole)
        return field.description;
    return {};
}

} // namespace washfast::ui
