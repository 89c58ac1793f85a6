// The step of one line of a ledger: a bar from the density before it to the density after it.
#pragma once

#include "ui/common/theme.h"

#include <QStyledItemDelegate>

namespace washfast::ui {

class LedgerBar : public QStyledItemDelegate {
    Q_OBJECT

public:
    /// Densities before and after, and the end of the axis, which begins at 0. The first and the last line go from 0.
    enum Role { FromRole = Qt::UserRole + 1, ToRole, MostRole, WholeRole };

    LedgerBar(const ThemeSource& look, QObject* parent = nullptr);
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;

private:
    const ThemeSource& look_;
};

} // namespace washfast::ui
