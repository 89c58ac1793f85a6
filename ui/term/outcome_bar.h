// One session's prints as a bar: kept, failed, not judged, each with its number and told apart by fill and edge too.
#pragma once

#include "ui/common/theme.h"

#include <QStyledItemDelegate>

namespace washfast::ui {

class OutcomeBar : public QStyledItemDelegate {
    Q_OBJECT

public:
    /// The roles of an index: three numbers, and the largest number of prints in any row, to which bars are drawn.
    enum Role { KeptRole = Qt::UserRole + 1, FailedRole, NotJudgedRole, MostRole };

    OutcomeBar(const ThemeSource& look, QObject* parent = nullptr);
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;

private:
    const ThemeSource& look_;
};

} // namespace washfast::ui
