// Cells of the table of prints: the tone pair in its column; a failed print has its outcome in rust with a cross before
// it.
#pragma once

#include "ui/common/theme.h"

#include <QStyledItemDelegate>

namespace washfast::ui {

class Desk;

class ToneDelegate : public QStyledItemDelegate {
    Q_OBJECT

public:
    ToneDelegate(const Desk& desk, const ThemeSource& look, QObject* parent = nullptr);

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

protected:
    void initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const override;

private:
    const Desk& desk_;
    const ThemeSource& look_;
};

} // namespace washfast::ui
