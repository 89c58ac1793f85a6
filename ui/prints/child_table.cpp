#include "ui/prints/child_table.h"

#include "core/quantity/value_text.h"
#include "ui/common/record_dialog.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QPushButton>
#include <QTableWidget>
#include <QVBoxLayout>

namespace washfast::ui {

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
        made->setEnabled(services.desk.writable());
        connect(made, &QPushButton::clicked, this, slot);
        bar->addWidget(made);
        return made;
    };
    button(tr("Add..."), &ChildTable::add);
    change_ = button(tr("Change..."), &ChildTable::change);
    remove_ = button(tr("Remove"), &ChildTable::remove);
    table_ = new QTableWidget(this);
    table_->setAccessibleName(heading);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setSizeAdjustPolicy(QAbstractScrollArea::AdjustToContents);
    table_->setVerticalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    styleTable(*table_);
    column->addWidget(table_);
    connect(table_, &QTableWidget::cellDoubleClicked, this, &ChildTable::change);
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
    const auto* item = table_->item(table_->currentRow(), 0);
    return item ? item->data(Qt::UserRole).toLongLong() : 0;
}

void ChildTable::refresh()
{
    const auto& notebook = services_.desk.notebook();
    const auto rows = notebook.children(entity_, print_);
    // Only the columns in which something stands: thirty empty ones help nobody.
    std::vector<const Field*> shown;
    for (const auto& field : services_.desk.catalogue().columns(entity_))
        for (const int row : rows)
            if (!field.hidden && notebook.table(entity_).at(row, field.ordinal).has()) {
                shown.push_back(&field);
                break;
            }
    table_->clear();
    table_->setRowCount(int(rows.size()));
    table_->setColumnCount(int(shown.size()));
    QStringList headings;
    for (const auto* field : shown)
        headings << field->labelWithUnit();
    table_->setHorizontalHeaderLabels(headings);
    for (size_t r = 0; r < rows.size(); ++r)
        for (size_t c = 0; c < shown.size(); ++c) {
            const auto known = notebook.table(entity_).at(rows[r], shown[c]->ordinal);
            const auto text = known.link() ? notebook.nameOf({ *shown[c]->target, *known.link() }) : displayText(*shown[c], known, QLocale());
            auto* item = new QTableWidgetItem(text);
            item->setData(Qt::UserRole, notebook.table(entity_).id(rows[r]));
            if (shown[c]->kind == Kind::Number)
                item->setTextAlignment(figureAlignment);
            table_->setItem(int(r), int(c), item);
        }
    table_->resizeColumnsToContents();
    table_->setVisible(!rows.empty());
    const int height = table_->horizontalHeader()->sizeHint().height() + int(rows.size()) * table_->verticalHeader()->defaultSectionSize() + 22;
    table_->setFixedHeight(height);
    change_->setVisible(!rows.empty());
    remove_->setVisible(!rows.empty());
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
    if (const auto id = current(); id != 0)
        services_.desk.perform(tr("Remove %1").arg(entityLabel(entity_)), [&](store::Writer& writer) { return writer.remove({ entity_, id }); });
}

void ChildTable::setTheme(const Theme&)
{
    table_->viewport()->update();
}

} // namespace washfast::ui
