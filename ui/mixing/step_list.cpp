#include "ui/mixing/step_list.h"

#include <QKeyEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QStyledItemDelegate>

namespace washfast::ui::mixing {

namespace {

constexpr int circle = 40; // px, what a wet finger hits
constexpr int gap = 12;
constexpr int leastHeight = 60;

class StepDelegate : public QStyledItemDelegate {
public:
    StepDelegate(const Theme& theme, QListWidget* list)
        : QStyledItemDelegate(list)
        , theme_(theme)
        , list_(list)
    {
    }
    void setTheme(const Theme& theme) { theme_ = theme; }

    [[nodiscard]] QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const int width = list_->viewport()->width() - circle - 3 * gap;
        const auto words = index.data(StepList::textRole).toString();
        const auto box
            = QFontMetrics(option.font).boundingRect(QRect(0, 0, qMax(80, width), 0), Qt::TextWordWrap, words);
        return { list_->viewport()->width(), qMax(leastHeight, box.height() + 2 * gap) };
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override
    {
        const bool done = index.data(StepList::tickedRole).toBool();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        if (option.state.testFlag(QStyle::State_Selected))
            painter->fillRect(option.rect, theme_.selection);
        const QRectF ring(option.rect.left() + gap, option.rect.center().y() - circle / 2.0, circle, circle);
        painter->setPen(QPen(done ? theme_.blue : theme_.edge, 2));
        painter->setBrush(done ? QBrush(theme_.blue) : Qt::NoBrush);
        painter->drawEllipse(ring);
        if (done) {
            painter->setPen(QPen(theme_.onBlue, 3.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
            painter->drawPolyline(QPolygonF({ ring.topLeft() + QPointF(11, 21), ring.topLeft() + QPointF(18, 28),
                ring.topLeft() + QPointF(30, 13) }));
        } else {
            QFont figure = option.font;
            figure.setBold(true);
            painter->setFont(figure);
            painter->setPen(theme_.ink);
            painter->drawText(ring, Qt::AlignCenter, QString::number(index.row() + 1));
        }
        painter->setFont(option.font);
        painter->setPen(done ? theme_.quiet : theme_.ink);
        painter->drawText(option.rect.adjusted(circle + 2 * gap, gap / 2, -gap, -gap / 2),
            Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, index.data(StepList::textRole).toString());
        if (option.state.testFlag(QStyle::State_HasFocus)) {
            painter->setPen(QPen(theme_.blue, 2));
            painter->setBrush(Qt::NoBrush);
            painter->drawRect(QRectF(option.rect).adjusted(1, 1, -1, -1));
        }
        painter->restore();
    }

private:
    Theme theme_;
    QListWidget* list_;
};

} // namespace

StepList::StepList(const Theme& theme, QWidget* parent)
    : QListWidget(parent)
{
    setAccessibleName(tr("Steps"));
    setItemDelegate(new StepDelegate(theme, this));
    setVerticalScrollMode(ScrollPerPixel);
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    auto large = font();
    large.setPointSizeF(large.pointSizeF() * 1.15);
    setFont(large);
}

void StepList::setTheme(const Theme& theme)
{
    static_cast<StepDelegate*>(itemDelegate())->setTheme(theme);
    viewport()->update();
}

void StepList::setSteps(const std::vector<Step>& steps)
{
    QStringList done;
    for (int row = 0; row < count(); ++row)
        if (ticked(row))
            done << item(row)->data(textRole).toString();
    const int at = currentRow();
    clear();
    for (const auto& step : steps) {
        auto* row = new QListWidgetItem(this);
        const QString words = step.wait_min > 0
            ? tr("%1 (wait %2 min)").arg(step.text, QString::number(step.wait_min, 'f', 0))
            : step.text;
        row->setData(textRole, words);
        row->setData(waitRole, step.wait_min);
        row->setData(tickedRole, done.contains(words));
        describe(count() - 1);
    }
    setCurrentRow(at >= 0 && at < count() ? at : 0);
}

void StepList::describe(int row)
{
    item(row)->setData(Qt::AccessibleTextRole,
        tr("Step %1 of %2, %3: %4")
            .arg(QString::number(row + 1), QString::number(count()), ticked(row) ? tr("done") : tr("to do"),
                item(row)->data(textRole).toString()));
}

bool StepList::ticked(int row) const
{
    return row >= 0 && row < count() && item(row)->data(tickedRole).toBool();
}

int StepList::tickedCount() const
{
    int n = 0;
    for (int row = 0; row < count(); ++row)
        n += ticked(row) ? 1 : 0;
    return n;
}

double StepList::waitOf(int row) const
{
    return row >= 0 && row < count() ? item(row)->data(waitRole).toDouble() : 0;
}

void StepList::toggle(int row)
{
    if (row < 0 || row >= count())
        return;
    const bool now = !ticked(row);
    item(row)->setData(tickedRole, now);
    describe(row);
    if (now && row + 1 < count())
        setCurrentRow(row + 1);
    Q_EMIT tickedChanged();
}

void StepList::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Space || event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
        toggle(currentRow());
        return;
    }
    QListWidget::keyPressEvent(event);
}

void StepList::mouseReleaseEvent(QMouseEvent* event)
{
    QListWidget::mouseReleaseEvent(event);
    if (const auto* hit = itemAt(event->position().toPoint()); hit && event->button() == Qt::LeftButton)
        toggle(row(hit));
}

void StepList::resizeEvent(QResizeEvent* event)
{
    QListWidget::resizeEvent(event);
    scheduleDelayedItemsLayout();
}

} // namespace washfast::ui::mixing
