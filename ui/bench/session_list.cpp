#include "ui/bench/session_list.h"

#include "ui/bench/codes.h"

namespace washfast::ui {

SessionList::SessionList(const Desk& desk, QObject* parent)
    : QAbstractListModel(parent)
    , desk_(desk)
    , ids_(sessionsNewestFirst(desk.notebook()))
{
}

void SessionList::readAgain()
{
    auto ids = sessionsNewestFirst(desk_.notebook());
    if (ids == ids_) {
        if (!ids_.isEmpty())
            Q_EMIT dataChanged(index(0), index(rowCount() - 1));
        return;
    }
    beginResetModel();
    ids_ = std::move(ids);
    endResetModel();
}

int SessionList::rowOf(qint64 session) const
{
    return int(ids_.indexOf(session));
}

int SessionList::rowCount(const QModelIndex& parent) const
{
    return parent.isValid() ? 0 : int(ids_.size());
}

QVariant SessionList::data(const QModelIndex& index, int role) const
{
    if (!checkIndex(index, CheckIndexOption::IndexIsValid))
        return {};
    if (role == Qt::DisplayRole || role == Qt::AccessibleTextRole)
        return sessionText(desk_.notebook(), ids_[index.row()], QLocale());
    if (role == Qt::UserRole)
        return ids_[index.row()];
    return {};
}

} // namespace washfast::ui
