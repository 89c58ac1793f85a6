#include "ui/prints/print_table_model.h"

#include "core/quantity/value_text.h"
#include "ui/common/natural_order.h"
#include "ui/common/print_tone.h"
#include "ui/common/theme.h"

#include <QHash>
#include <QLocale>
#include <algorithm>
#include <cmath>

namespace washfast::ui {

PrintTableModel::PrintTableModel(Desk& desk, QObject* parent)
    : QAbstractTableModel(parent)
    , desk_(desk)
{
    setColumns(defaultColumns());
    connect(&desk, &Desk::reloaded, this, &PrintTableModel::readAgain);
    connect(&desk, &Desk::changed, this, &PrintTableModel::follow);
}

QStringList PrintTableModel::defaultColumns()
{
    QStringList keys;
    for (const char* key : { "print_code", "session_code", "print_maker", "mix_code", "paper_name", "print_method",
             "expose_minutes", "dose_j_cm2", "moisture_at_expose_pct", "moisture_at_rinse_pct", "rinse_minutes",
             "formed", "kept", "net_density", "print_outcome" })
        keys << QString::fromLatin1(key);
    return keys;
}

void PrintTableModel::setColumns(const QStringList& keys)
{
    beginResetModel();
    const auto* sorted = sort_column_ > 0 ? fieldAt(sort_column_) : nullptr;
    fields_.clear();
    for (const auto& key : keys)
        if (const int field = desk_.catalogue().printField(key); field >= 0)
            fields_.push_back(field);
    sort_column_ = -1;
    for (int column = 1; sorted && column < columnCount(); ++column)
        if (fieldAt(column) == sorted)
            sort_column_ = column;
    endResetModel();
    readAgain();
}

QStringList PrintTableModel::columnKeys() const
{
    QStringList keys;
    for (const int field : fields_)
        keys << desk_.catalogue().printFields()[size_t(field)].key;
    return keys;
}

const Field* PrintTableModel::fieldAt(int column) const
{
    if (column < 1 || column > int(fields_.size()))
        return nullptr;
    return &desk_.catalogue().printFields()[size_t(fields_[size_t(column - 1)])];
}

bool PrintTableModel::comesBefore(const PrintColumn& column, int a, int b) const
{
    // What was not recorded comes last, whichever way.
    const auto& numbers = column.numbers;
    const bool a_known = !std::isnan(numbers[size_t(a)]);
    const bool b_known = !std::isnan(numbers[size_t(b)]);
    if (a_known != b_known)
        return a_known;
    if (!a_known)
        return false;
    const bool up = sort_order_ == Qt::AscendingOrder;
    if (!column.texts.empty()) {
        const int compared = compareNaturally(column.texts[size_t(a)], column.texts[size_t(b)]);
        return up ? compared < 0 : compared > 0;
    }
    return up ? numbers[size_t(a)] < numbers[size_t(b)] : numbers[size_t(a)] > numbers[size_t(b)];
}

void PrintTableModel::order(std::vector<int>& rows) const
{
    if (sort_column_ < 1)
        return;
    const auto& column = desk_.columns().column(fields_[size_t(sort_column_ - 1)]);
    std::stable_sort(rows.begin(), rows.end(), [&](int a, int b) { return comesBefore(column, a, b); });
}

bool PrintTableModel::stayInPlace(const QVector<qint64>& prints) const
{
    for (const auto print : prints) {
        const int row = desk_.notebook().prints().find(print);
        const int at = rowOf(print);
        const bool wanted = row >= 0 && (filter_.showsAll() || filter_.matchesOne(desk_.columns(), row));
        if (wanted != (at >= 0))
            return false;
        if (at < 0 || sort_column_ < 1)
            continue;
        // Equal ones stand in the order of the table, as a stable sort leaves them.
        const auto& column = desk_.columns().column(fields_[size_t(sort_column_ - 1)]);
        const auto inOrder
            = [&](int a, int b) { return comesBefore(column, a, b) || (!comesBefore(column, b, a) && a < b); };
        if ((at > 0 && !inOrder(rows_[size_t(at - 1)], row))
            || (at + 1 < rowCount() && !inOrder(row, rows_[size_t(at + 1)])))
            return false;
    }
    return true;
}

std::vector<int> PrintTableModel::wanted() const
{
    std::vector<int> rows;
    const int all = total();
    if (filter_.showsAll()) {
        rows.resize(size_t(all));
        for (int row = 0; row < all; ++row)
            rows[size_t(row)] = row;
    } else {
        const auto shown = filter_.matches(desk_.columns());
        for (int row = 0; row < all; ++row)
            if (shown[size_t(row)])
                rows.push_back(row);
    }
    order(rows);
    return rows;
}

void PrintTableModel::replaceRows(std::vector<int> rows)
{
    // A layout change, so that what is selected stays selected where it is still shown.
    Q_EMIT layoutAboutToBeChanged();
    const auto old = persistentIndexList();
    QHash<qint64, int> place;
    std::vector<qint64> ids;
    ids.reserve(rows.size());
    for (size_t i = 0; i < rows.size(); ++i) {
        ids.push_back(desk_.notebook().prints().id(rows[i]));
        if (!old.isEmpty())
            place.insert(ids.back(), int(i));
    }
    QModelIndexList moved;
    for (const auto& index : old) {
        const int at = index.row() < int(ids_.size()) ? place.value(ids_[size_t(index.row())], -1) : -1;
        moved << (at < 0 ? QModelIndex() : createIndex(at, index.column()));
    }
    rows_ = std::move(rows);
    ids_ = std::move(ids);
    changePersistentIndexList(old, moved);
    Q_EMIT layoutChanged();
}

void PrintTableModel::readAgain()
{
    beginResetModel();
    rows_ = wanted();
    ids_.clear();
    for (const int row : rows_)
        ids_.push_back(desk_.notebook().prints().id(row));
    endResetModel();
}

void PrintTableModel::setFilter(const Filter& filter)
{
    filter_ = filter;
    auto rows = wanted();
    if (rows.size() == rows_.size())
        replaceRows(std::move(rows));
    else
        readAgain();
}

void PrintTableModel::sort(int column, Qt::SortOrder order)
{
    sort_column_ = fieldAt(column) ? column : -1;
    sort_order_ = order;
    replaceRows(wanted());
}

void PrintTableModel::follow(const QVector<store::Change>& changes)
{
    bool rows_moved = false;
    for (const auto& change : changes)
        rows_moved = rows_moved || (change.row.entity == Entity::Print && change.what != store::Change::What::Set);
    if (rows_moved) {
        readAgain();
        return;
    }
    const auto prints = printsTouched(changes);
    const bool all_shown_unsorted = filter_.showsAll() && sort_column_ < 1;
    constexpr qsizetype fewPrints = 100;
    if (!all_shown_unsorted && !(prints && prints->size() <= fewPrints && stayInPlace(*prints))) {
        auto rows = wanted();
        if (rows.size() != rows_.size()) {
            readAgain();
            return;
        }
        if (rows != rows_)
            replaceRows(std::move(rows));
    }
    if (!prints) {
        if (rowCount() > 0)
            Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, columnCount() - 1));
        return;
    }
    for (const auto print : *prints)
        if (const int row = rowOf(print); row >= 0)
            Q_EMIT dataChanged(index(row, 0), index(row, columnCount() - 1));
}

qint64 PrintTableModel::idAt(int row) const
{
    return row >= 0 && row < rowCount() ? ids_[size_t(row)] : 0;
}

int PrintTableModel::rowOf(qint64 id) const
{
    const auto it = std::find(ids_.begin(), ids_.end(), id);
    return it == ids_.end() ? -1 : int(it - ids_.begin());
}

int PrintTableModel::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(rows_.size());
}

int PrintTableModel::columnCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(fields_.size()) + 1;
}

QVariant PrintTableModel::data(const QModelIndex& index, int role) const
{
    if (!index.isValid() || index.row() >= rowCount() || index.column() >= columnCount())
        return {};
    const int print = rows_[size_t(index.row())];
    if (role == idRole)
        return ids_[size_t(index.row())];
    if (role == failedRole)
        return desk_.reader().get(print, u"failed").yes().value_or(false);
    const auto* field = fieldAt(index.column());
    if (!field) {
        if (role == Qt::AccessibleTextRole || role == Qt::ToolTipRole) {
            const auto tones = tonesOf(desk_.reader(), print);
            return tonePairText(tones.before, tones.after);
        }
        return {};
    }
    if (role == Qt::TextAlignmentRole)
        return QVariant::fromValue(
            field->kind == Kind::Number ? figureAlignment : Qt::Alignment(Qt::AlignLeft | Qt::AlignVCenter));
    if (role != Qt::DisplayRole && role != Qt::ToolTipRole)
        return {};
    const auto known = desk_.reader().get(print, fields_[size_t(index.column() - 1)]);
    if (role == Qt::ToolTipRole)
        return known.has() ? tr("%1: %2").arg(field->label, evidenceLabel(known.evidence))
                           : tr("%1: not recorded").arg(field->label);
    return known.has() ? displayText(*field, known, QLocale()) : QString();
}

QVariant PrintTableModel::headerData(int section, Qt::Orientation orientation, int role) const
{
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount())
        return {};
    const auto* field = fieldAt(section);
    if (role == Qt::DisplayRole)
        return field ? field->labelWithUnit() : tr("Tones");
    if (role == Qt::TextAlignmentRole && field && field->kind == Kind::Number)
        return QVariant::fromValue(figureAlignment | Qt::Alignment(Qt::TextWordWrap));
    if (role == Qt::ToolTipRole)
        return field ? field->description + QStringLiteral(" (") + field->key + QLatin1Char(')')
                     : tr("Before the rinse, and dry a day after.");
    return {};
}

QString PrintTableModel::asTable(const QVector<int>& rows) const
{
    QString text;
    for (int column = 1; column < columnCount(); ++column)
        text += (column > 1 ? QStringLiteral("\t") : QString()) + headerData(column, Qt::Horizontal).toString();
    text += QLatin1Char('\n');
    for (const int row : rows) {
        for (int column = 1; column < columnCount(); ++column)
            text += (column > 1 ? QStringLiteral("\t") : QString()) + data(index(row, column)).toString().simplified();
        text += QLatin1Char('\n');
    }
    return text;
}

} // namespace washfast::ui
