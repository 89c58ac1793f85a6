#include "ui/beside/beside_model.h"

#include "core/quantity/value_text.h"
#include "ui/common/theme.h"

#include <QLocale>
#include <algorithm>

namespace washfast::ui {

namespace {

/// Differences too small to be shown are none.
bool alike(const Field& field, const Known& a, const Known& b)
{
    if (a.has() != b.has())
        return false;
    return displayText(field, { a.value, field.nature }, QLocale::c())
        == displayText(field, { b.value, field.nature }, QLocale::c());
}

} // namespace

BesideModel::BesideModel(Desk& desk, QObject* parent)
    : QAbstractTableModel(parent)
    , desk_(desk)
{
    connect(&desk, &Desk::changed, this, &BesideModel::readAgain);
    connect(&desk, &Desk::reloaded, this, &BesideModel::readAgain);
}

void BesideModel::setPrints(const QVector<qint64>& prints)
{
    prints_ = prints;
    readAgain();
}

void BesideModel::setShowAll(bool all)
{
    if (all == show_all_)
        return;
    show_all_ = all;
    readAgain();
}

void BesideModel::readAgain()
{
    beginResetModel();
    rows_.clear();
    const auto& table = desk_.notebook().prints();
    prints_.erase(
        std::remove_if(prints_.begin(), prints_.end(), [&](qint64 id) { return table.find(id) < 0; }), prints_.end());
    const auto& fields = desk_.catalogue().printFields();
    const int code = desk_.catalogue().printField(u"print_code"); // it is the heading
    for (int field = 0; field < int(fields.size()); ++field) {
        Row row { field, false, {} };
        bool any = false;
        for (const auto print : prints_) {
            row.values.push_back(desk_.reader().get(table.find(print), field));
            any = any || row.values.back().has();
            row.differs = row.differs || !alike(fields[size_t(field)], row.values.front(), row.values.back());
        }
        if (any && field != code && (row.differs || show_all_))
            rows_.push_back(std::move(row));
    }
    std::stable_sort(rows_.begin(), rows_.end(), [](const Row& a, const Row& b) { return a.differs > b.differs; });
    endResetModel();
}

const Field& BesideModel::fieldAt(int row) const
{
    return desk_.catalogue().printFields()[size_t(rows_[size_t(row)].field)];
}

int BesideModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(rows_.size());
}

int BesideModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(prints_.size());
}

QVariant BesideModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= rowCount() || index.column() >= columnCount())
        return {};
    const auto& row = rows_[size_t(index.row())];
    const auto& field = fieldAt(index.row());
    const auto& known = row.values[size_t(index.column())];
    switch (role) {
    case Qt::DisplayRole:
        return known.has() ? displayText(field, known, QLocale()) : QStringLiteral("–");
    case Qt::ToolTipRole:
        return known.has()
            ? tr("%1: %2 (%3)").arg(field.label, displayText(field, known, QLocale()), evidenceLabel(known.evidence))
            : tr("%1: not recorded").arg(field.label);
    case Qt::TextAlignmentRole:
        return QVariant::fromValue(
            field.kind == Kind::Number ? figureAlignment : Qt::Alignment(Qt::AlignLeft | Qt::AlignVCenter));
    case differsRole:
        return row.differs;
    default:
        return {};
    }
}

QVariant BesideModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (section < 0)
        return {};
    if (orientation == Qt::Horizontal) {
        if (role == Qt::DisplayRole && section < prints_.size())
            return desk_.notebook().nameOf({ Entity::Print, prints_[section] });
        return {};
    }
    if (section >= rowCount())
        return {};
    if (role == Qt::DisplayRole)
        return fieldAt(section).labelWithUnit();
    if (role == Qt::ToolTipRole)
        return fieldAt(section).description;
    return {};
}

QString BesideModel::asTable() const
{
    QString text;
    for (int column = 0; column < columnCount(); ++column)
        text += QLatin1Char('\t') + headerData(column, Qt::Horizontal).toString();
    text += QLatin1Char('\n');
    for (int row = 0; row < rowCount(); ++row) {
        text += headerData(row, Qt::Vertical).toString();
        for (int column = 0; column < columnCount(); ++column) {
            const auto& known = rows_[size_t(row)].values[size_t(column)];
            text += QLatin1Char('\t') + displayText(fieldAt(row), known, QLocale()).simplified();
        }
        text += QLatin1Char('\n');
    }
    return text;
}

} // namespace washfast::ui
