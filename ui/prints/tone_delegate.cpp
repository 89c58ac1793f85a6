#include "ui/prints/tone_delegate.h"

#include "ui/common/desk.h"
#include "ui/common/print_tone.h"
#include "ui/prints/print_table_model.h"

#include <QApplication>
#include <QPainter>

namespace washfast::ui {

ToneDelegate::ToneDelegate(const Desk& desk, const ThemeSource& look, QObject* parent)
    : QStyledItemDelegate(parent)
    , desk_(desk)
    , look_(look)
{
}

void ToneDelegate::initStyleOption(QStyleOptionViewItem* option, const QModelIndex& index) const
{
    QStyledItemDelegate::initStyleOption(option, index);
    const auto* model = qobject_cast<const PrintTableModel*>(index.model());
    const auto* field = model ? model->fieldAt(index.column()) : nullptr;
    if (field && field->key == QLatin1String("print_outcome") && index.data(PrintTableModel::failedRole).toBool()) {
        option->text = QStringLiteral("✕ ") + option->text;
        option->palette.setColor(QPalette::Text, look_.theme().rust);
        option->palette.setColor(QPalette::HighlightedText, look_.theme().rust);
    }
}

void ToneDelegate::paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    if (index.column() != PrintTableModel::toneColumn) {
        QStyledItemDelegate::paint(painter, option, index);
        return;
    }
    auto background = option;
    initStyleOption(&background, index);
    background.text.clear();
    const auto* style = option.widget ? option.widget->style() : QApplication::style();
    style->drawControl(QStyle::CE_ItemViewItem, &background, painter, option.widget);
    const auto tones
        = tonesOf(desk_.reader(), desk_.notebook().prints().find(index.data(PrintTableModel::idRole).toLongLong()));
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    paintTonePair(*painter, QRectF(option.rect).adjusted(5, 4, -5, -4), tones.before, tones.after, look_.theme());
    painter->restore();
}

QSize ToneDelegate::sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const
{
    return index.column() == PrintTableModel::toneColumn ? tonePairSize(option.fontMetrics)
                                                         : QStyledItemDelegate::sizeHint(option, index);
}

} // namespace washfast::ui
