#include "ui/shelf/record_order.h"

#include "ui/common/natural_order.h"
#include "ui/shelf/record_model.h"

namespace washfast::ui {

RecordOrder::RecordOrder(QObject* parent)
    : QSortFilterProxyModel(parent)
{
    setSortRole(RecordModel::sortRole);
}

bool RecordOrder::lessThan(const QModelIndex& left, const QModelIndex& right) const
{
    const auto a = left.data(sortRole());
    const auto b = right.data(sortRole());
    const bool a_known = a.isValid();
    const bool b_known = b.isValid();
    if (a_known != b_known) // last in both directions: the base turns the answer round when descending
        return a_known == (sortOrder() == Qt::AscendingOrder);
    if (!a_known)
        return false;
    if (a.userType() == QMetaType::Double && b.userType() == QMetaType::Double)
        return a.toDouble() < b.toDouble();
    return compareNaturally(a.toString(), b.toString()) < 0;
}

} // namespace washfast::ui
