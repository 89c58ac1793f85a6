// The sessions as a list, the latest first. A text is made when it is asked for: a notebook of many years has thousands
// of lessons, and the box that shows them is open on one.
#pragma once

#include "core/trial/notebook.h"
#include "ui/common/desk.h"

#include <QAbstractListModel>

namespace washfast::ui {

class SessionList : public QAbstractListModel {
    Q_OBJECT

public:
    explicit SessionList(const Desk& desk, QObject* parent = nullptr);

    /// Reads the sessions again.
    void readAgain();
    [[nodiscard]] int rowOf(qint64 session) const; // -1 when it is not there
    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    /// The text, and the session's id in Qt::UserRole.
    [[nodiscard]] QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;

private:
    const Desk& desk_;
    QVector<qint64> ids_;
};

} // namespace washfast::ui
