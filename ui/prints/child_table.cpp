#include "ui/prints/child_table.h"

#include "core/quantity/value_text.h"
#include "ui/common/fit_columns.h"
#include "ui/common/record_dialog.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QScrollBar>
#include <QTableWidget>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {
constexpr int widestColumn = 260;
constexpr int idRole = Qt::UserRole;
}

ChildTable::ChildTable(const Services& services, Entity entity, const QString& heading, QWidget* parent)
    : QWidget(parent)
    , services_(services)
    , entity_(entity)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 8);
    auto* bar = new QHBoxLayout;
    column->addLayout(bar);
    heading_ = new QLabel(heading, this);
    auto bold = heading_->font();
    bold.setBold(true);
    heading_->setFont(bold);
    bar->addWidget(heading_);
    bar->addStretch(1);
    const auto button = [&](const QString& text, void (ChildTable::*slot)()) {
        auto* made = new QPushButton(text, this);
        made->setAccessibleName(heading + QStringLiteral(": ") + text);
        connect(made, &QPushButton::clicked, this, slot);
        bar->addWidget(made);
        return made;
    };
    auto* add = button(tr("Add..."), &ChildTable::add);
    add->setVisible(services.desk.writable());
    change_ = button(tr("Change..."), &ChildTable::change);
    remove_ = button(tr("Remove"), &ChildTable::remove);
    table_ = new QTableWidget(this);
    table_->setAccessibleName(heading);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    table_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    table_->installEventFilter(this);
    styleTable(*table_);
    column->addWidget(table_);
    setTabOrder(table_, add); // a row is chosen before it is changed
    setTabOrder(add, change_);
    setTabOrder(change_, remove_);
    connect(table_, &QTableWidget::cellDoubleClicked, this, &ChildTable::change);
    connect(table_, &QTableWidget::itemSelectionChanged, this, &ChildTable::tellButtons);
}

void ChildTable::setPrint(qint64 print)
{
    print_ = print;
    refresh();
}

int ChildTable::rows() const
{
    return table_->rowCount();
}

qint64 ChildTable::current() const
{
    const auto* item = table_->selectionModel()->hasSelection() ? table_->item(table_->currentRow(), 0) : nullptr;
    return item ? item->data(idRole).toLongLong() : 0;
}

std::vector<const Field*> ChildTable::shownColumns() const
{
    const auto& table = services_.desk.notebook().table(entity_);
    std::vector<const Field*> shown;
    const Field* first = nullptr;
    for (const auto& field : services_.desk.catalogue().columns(entity_)) {
        if (field.hidden)
            continue;
        first = first ? first : &field;
        for (const int row : services_.desk.notebook().children(entity_, print_))
            if (table.at(row, field.ordinal).has()) {
                shown.push_back(&field);
                break;
            }
    }
    if (shown.empty() && first)
        shown.push_back(first); // a row in which nothing stands can be chosen all the same
    return shown;
}

void ChildTable::fill(const std::vector<const Field*>& columns)
{
    const auto& notebook = services_.desk.notebook();
    const auto& table = notebook.table(entity_);
    const auto rows = notebook.children(entity_, print_);
    table_->clear();
    table_->setRowCount(int(rows.size()));
    table_->setColumnCount(int(columns.size()));
    for (size_t c = 0; c < columns.size(); ++c) {
        auto* heading = new QTableWidgetItem(columns[c]->labelWithUnit());
        heading->setToolTip(columns[c]->description);
        if (columns[c]->kind == Kind::Number)
            heading->setTextAlignment(figureAlignment | Qt::Alignment(Qt::TextWordWrap));
        table_->setHorizontalHeaderItem(int(c), heading);
    }
    for (size_t r = 0; r < rows.size(); ++r)
        for (size_t c = 0; c < columns.size(); ++c) {
            const auto known = table.at(rows[r], columns[c]->ordinal);
            const auto text = known.link() ? notebook.nameOf({ *columns[c]->target, *known.link() })
                                           : displayText(*columns[c], known, QLocale());
            auto* item = new QTableWidgetItem(text);
            item->setData(idRole, table.id(rows[r]));
            item->setToolTip(text);
            if (columns[c]->kind == Kind::Number)
                item->setTextAlignment(figureAlignment);
            table_->setItem(int(r), int(c), item);
        }
}

void ChildTable::refresh()
{
    const auto chosen = current();
    fill(shownColumns());
    fitColumns(*table_, widestColumn);
    for (int row = 0; chosen != 0 && row < rows(); ++row)
        if (table_->item(row, 0)->data(idRole).toLongLong() == chosen)
            table_->selectRow(row);
    table_->setVisible(rows() > 0);
    fitHeight();
    const bool change = rows() > 0 && services_.desk.writable();
    change_->setVisible(change);
    remove_->setVisible(change);
    tellButtons();
}

void ChildTable::fitHeight()
{
    auto* header = table_->horizontalHeader();
    const bool bar = header->length() > table_->viewport()->width() && table_->width() > 0;
    const int height = qMax(header->minimumHeight(), header->sizeHint().height())
        + rows() * table_->verticalHeader()->defaultSectionSize() + 2 * table_->frameWidth()
        + (bar ? table_->horizontalScrollBar()->sizeHint().height() : 0);
    if (height != table_->height())
        table_->setFixedHeight(height);
}

void ChildTable::resizeEvent(QResizeEvent* event)
{
    QWidget::resizeEvent(event);
    fitHeight();
}

void ChildTable::tellButtons()
{
    change_->setEnabled(current() != 0);
    remove_->setEnabled(current() != 0);
}

void ChildTable::add()
{
    RecordDialog dialog(services_, entity_, 0, this, print_);
    const auto now = services_.desk.now();
    for (const auto& field : services_.desk.catalogue().columns(entity_)) {
        if (field.kind == Kind::Time) {
            dialog.suggest(field.key, { now });
            break;
        }
        if (field.key.endsWith(QLatin1String("_number")) || field.key == QLatin1String("bath_position"))
            dialog.suggest(field.key, { double(rows() + 1) });
    }
    (void)dialog.exec();
}

void ChildTable::change()
{
    if (const auto id = current(); id != 0 && services_.desk.writable()) {
        RecordDialog dialog(services_, entity_, id, this);
        (void)dialog.exec();
    }
}

void ChildTable::remove()
{
    if (const auto id = current(); id != 0 && services_.desk.writable())
        services_.desk.perform(tr("Remove %1").arg(entityLabel(entity_)), [&](store::Writer& writer) {
            return writer.remove({ entity_, id });
        });
}

bool ChildTable::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == table_ && event->type() == QEvent::KeyPress) {
        const auto& key = *static_cast<QKeyEvent*>(event);
        if (key.key() == Qt::Key_Return || key.key() == Qt::Key_Enter)
            return change(), true;
        if (key.key() == Qt::Key_Delete)
            return remove(), true;
    }
    // Whoever comes in by the keyboard stands on a row.
    if (watched == table_ && event->type() == QEvent::FocusIn && rows() > 0 && current() == 0)
        table_->selectRow(qMax(0, table_->currentRow()));
    return QWidget::eventFilter(watched, event);
}

void ChildTable::setTheme(const Theme&)
{
    table_->viewport()->update();
}

} // namespace washfast::ui
