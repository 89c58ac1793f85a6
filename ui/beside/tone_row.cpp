#include "ui/beside/tone_row.h"

#include <QHeaderView>
#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QScrollBar>
#include <QTableView>
#include <QToolTip>

namespace washfast::ui {

namespace {
constexpr int rowHeight = 96;
constexpr double inset = 6;
} // namespace

ToneRow::ToneRow(QTableView& table, const Theme& theme, QWidget* parent)
    : QWidget(parent)
    , table_(table)
    , theme_(theme)
{
    setFixedHeight(rowHeight);
    setAccessibleName(tr("Tone pairs: before the rinse, and dry a day after"));
    const auto again = qOverload<>(&QWidget::update);
    connect(table.horizontalHeader(), &QHeaderView::sectionResized, this, again);
    connect(table.horizontalScrollBar(), &QScrollBar::valueChanged, this, again);
    connect(table.verticalHeader(), &QHeaderView::geometriesChanged, this, again);
}

void ToneRow::setTones(const std::vector<PrintTones>& tones)
{
    tones_ = tones;
    QStringList all;
    for (const auto& tone : tones_)
        all << tonePairText(tone.before, tone.after);
    setAccessibleDescription(all.join(QStringLiteral("; ")));
    update();
}

void ToneRow::setTheme(const Theme& theme)
{
    theme_ = theme;
    update();
}

QSize ToneRow::sizeHint() const
{
    return { 400, rowHeight };
}

QRectF ToneRow::areaOf(int column) const
{
    const double left = table_.verticalHeader()->width() + table_.frameWidth() + table_.columnViewportPosition(column);
    return QRectF(left + inset, inset, table_.columnWidth(column) - 2 * inset, height() - 2 * inset);
}

int ToneRow::columnAt(const QPointF& place) const
{
    for (int column = 0; column < int(tones_.size()); ++column)
        if (areaOf(column).contains(place))
            return column;
    return -1;
}

void ToneRow::paintEvent(QPaintEvent*)
{
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    const double left = table_.verticalHeader()->width() + table_.frameWidth();
    painter.setPen(theme_.quiet);
    painter.drawText(QRectF(0, 0, left - 10, height()), Qt::AlignRight | Qt::AlignVCenter | Qt::TextWordWrap,
        tr("before the rinse | a day after"));
    painter.setClipRect(QRectF(left, 0, table_.viewport()->width(), height()));
    for (int column = 0; column < int(tones_.size()); ++column)
        paintTonePair(painter, areaOf(column), tones_[size_t(column)].before, tones_[size_t(column)].after, theme_);
}

void ToneRow::mouseReleaseEvent(QMouseEvent* event)
{
    if (const int column = columnAt(event->position()); column >= 0)
        Q_EMIT picked(column);
}

bool ToneRow::event(QEvent* event)
{
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const int column = columnAt(help->pos());
        if (column >= 0)
            QToolTip::showText(
                help->globalPos(), tonePairText(tones_[size_t(column)].before, tones_[size_t(column)].after), this);
        else
            QToolTip::hideText();
        return true;
    }
    return QWidget::event(event);
}

} // namespace washfast::ui
