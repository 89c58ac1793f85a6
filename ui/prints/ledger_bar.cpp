#include "ui/prints/ledger_bar.h"

#include <QApplication>
#include <QPainter>
#include <algorithm>

namespace washfast::ui {

LedgerBar::LedgerBar(const ThemeSource& look, QObject* parent)
    : QStyledItemDelegate(parent)
    , look_(look)
{
}

void LedgerBar::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    auto cell = option;
    initStyleOption(&cell, index);
    cell.text.clear();
    const auto* style = cell.widget ? cell.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &cell, painter, cell.widget);

    const double most = index.data(MostRole).toDouble();
    if (most <= 0)
        return;
    const auto& theme = look_.theme();
    const double from = index.data(FromRole).toDouble();
    const double to = index.data(ToRole).toDouble();
    const bool whole = index.data(WholeRole).toBool();
    const QRectF room = QRectF(option.rect).adjusted(6, 5, -10, -5);
    const auto at = [&](double density) { return room.left() + room.width() * std::clamp(density / most, 0.0, 1.0); };

    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen(theme.line, 1));
    painter->drawLine(QPointF(at(0), option.rect.top()), QPointF(at(0), option.rect.bottom() + 1));
    const double left = std::min(at(whole ? 0.0 : from), at(to));
    const double right = std::max(at(whole ? 0.0 : from), at(to));
    const QRectF bar(left, room.top(), std::max(1.5, right - left), room.height());
    const bool loss = !whole && to < from;
    painter->fillRect(bar, loss ? theme.rust : theme.blue);
    if (!whole) { // a notch on the side to which it goes, so that it can be told without colour
        const double mid = bar.center().y();
        const double tip = loss ? bar.left() : bar.right();
        const double back = loss ? 5 : -5;
        painter->setPen(Qt::NoPen);
        painter->setBrush(loss ? theme.rust : theme.blue);
        painter->drawPolygon(QPolygonF { QPointF(tip - back, mid), QPointF(tip, mid - 4), QPointF(tip, mid + 4) });
    }
    // From here the next line starts.
    painter->setPen(QPen(theme.edge, 1, Qt::DotLine));
    painter->drawLine(QPointF(at(to), bar.bottom()), QPointF(at(to), option.rect.bottom() + 1));
    painter->restore();
}

} // namespace washfast::ui
