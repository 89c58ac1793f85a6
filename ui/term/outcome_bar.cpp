#include "ui/term/outcome_bar.h"

#include <QApplication>
#include <QPainter>

namespace washfast::ui {

OutcomeBar::OutcomeBar(const ThemeSource& look, QObject* parent)
    : QStyledItemDelegate(parent)
    , look_(look)
{
}

void OutcomeBar::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    auto cell = option;
    initStyleOption(&cell, index);
    cell.text.clear();
    const auto* style = cell.widget ? cell.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &cell, painter, cell.widget);

    const int most = index.data(MostRole).toInt();
    if (most <= 0)
        return;
    const auto& theme = look_.theme();
    const QRectF room = QRectF(option.rect).adjusted(8, 6, -12, -6);
    const double one = room.width() / most;
    struct Part {
        int count;
        QColor fill;
        Qt::BrushStyle pattern;
        const char* sign;
    };
    const Part parts[] = {
        { index.data(KeptRole).toInt(), theme.blue, Qt::SolidPattern, "✓ " },
        { index.data(FailedRole).toInt(), theme.rust, Qt::SolidPattern, "✕ " },
        { index.data(NotJudgedRole).toInt(), theme.quiet, Qt::BDiagPattern, "? " },
    };
    painter->save();
    painter->setClipRect(option.rect);
    double left = room.left();
    for (const auto& part : parts) {
        if (part.count <= 0)
            continue;
        const QRectF box(left, room.top(), one * part.count, room.height());
        left = box.right();
        const auto inner = box.adjusted(0, 0, -1, 0);
        const bool solid = part.pattern == Qt::SolidPattern;
        painter->fillRect(inner, solid ? QBrush(part.fill) : QBrush(theme.sheet));
        if (!solid) {
            auto hatch = part.fill;
            hatch.setAlphaF(0.35F);
            painter->fillRect(inner, QBrush(hatch, part.pattern));
            painter->setPen(part.fill);
            painter->drawRect(inner.adjusted(0.5, 0.5, -0.5, -0.5));
        }
        const auto words = QString::fromUtf8(part.sign) + QString::number(part.count);
        if (cell.fontMetrics.horizontalAdvance(words) + 4 <= inner.width()) {
            painter->setPen(solid ? textOn(part.fill, theme) : theme.ink);
            painter->drawText(inner, Qt::AlignCenter, words);
        }
    }
    painter->restore();
}

} // namespace washfast::ui
