#include "ui/common/child_table.h"

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
#include <QTimer>
#include <QVBoxLayout>
#include <algorithm>
#include <limits>

namespace washfast::ui {

namespace {
constexpr int widestColumn = 260;
constexpr int idRole = Qt::UserRole;
}

const Field* numberColumn(const Catalogue& catalogue, Entity entity)
{
    if (!ownerOf(entity))
        return nullptr;
    const auto& columns = catalogue.columns(entity);
    const auto found = std::find_if(columns.begin(), columns.end(), [](const Field& field) {
        return field.kind == Kind::Number
            && (field.key.endsWith(QLatin1String("_number")) || field.key.endsWith(QLatin1String("_position")));
    });
    return found == columns.end() ? nullptr : &*found;
}

std::vector<int> childrenInOrder(const Notebook& notebook, Entity entity, qint64 owner)
{
    const auto children = notebook.children(entity, owner);
    std::vector<int> rows(children.begin(), children.end());
    if (const auto* number = numberColumn(notebook.catalogue(), entity)) {
        const auto& table = notebook.table(entity);
        const auto at = [&](int row) { // what has no number comes last
            return table.at(row, number->ordinal).number().value_or(std::numeric_limits<double>::infinity());
        };
        std::stable_sort(rows.begin(), rows.end(), [&](int a, int b) { return at(a) < at(b); });
    }
    return rows;
}

ChildTable::ChildTable(const Services& services, Entity entity, const QString& heading, QWidget* parent)
    : QWidget(parent)
    , services_(services)
    , entity_(entity)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 8);
    bar_ = new QHBoxLayout;
    column->addLayout(bar_);
    heading_ = new QLabel(heading, this);
    auto bold = heading_->font();
    bold.setBold(true);
    heading_->setFont(bold);
    bar_->addWidget(heading_);
    bar_->addStretch(1);
    const auto button = [&](const QString& text, void (ChildTable::*slot)()) {
        auto* made = new QPushButton(text, this);
        made->setAccessibleName(heading + QStringLiteral(": ") + text);
        connect(made, &QPushButton::clicked, this, slot);
        bar_->addWidget(made);
        return made;
    };
    add_ = button(tr("Add..."), &ChildTable::add);
    add_->setVisible(services.desk.writable());
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
    setTabOrder(table_, add_); // a row is chosen before it is changed
    setTabOrder(add_, change_);
    setTabOrder(change_, remove_);
    connect(table_, &QTableWidget::cellDoubleClicked, this, &ChildTable::change);
    connect(table_, &QTableWidget::itemSelectionChanged, this, &ChildTable::tellButtons);
}

void ChildTable::setOwner(qint64 owner)
{
    owner_ = owner;
    refresh();
}

void ChildTable::setMostRows(int rows)
{
    most_rows_ = rows;
    table_->setVerticalScrollBarPolicy(Qt::ScrollBarAsNeeded);
    fitHeight();
}

void ChildTable::setChangeable(bool changeable)
{
    changeable_ = changeable;
    refresh();
}

QPushButton* ChildTable::addButton(const QString& text, const QString& tip, const std::function<void()>& does)
{
    auto* made = new QPushButton(text, this);
    made->setAccessibleName(heading_->text() + QStringLiteral(": ") + text);
    made->setToolTip(tip);
    made->setVisible(services_.desk.writable());
    connect(made, &QPushButton::clicked, this, does);
    bar_->addWidget(made);
    setTabOrder(remove_, made);
    return made;
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
        for (const int row : services_.desk.notebook().children(entity_, owner_))
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
    const auto rows = childrenInOrder(notebook, entity_, owner_);
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
            auto text = known.link() ? notebook.nameOf({ *columns[c]->target, *known.link() })
                                     : displayText(*columns[c], known, QLocale());
            if (columns[c]->key == QLatin1String("sign_kind")
                && notebook.get({ entity_, table.id(rows[r]) }, u"sign_found").text() == QLatin1String("rejected"))
                text = tr("%1 (rejected: no sign)").arg(text); // stays on record
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
    QTimer::singleShot(0, this, &ChildTable::fitHeight); // when the heading knows on how many lines it stands
    const bool change = rows() > 0 && changeable();
    add_->setVisible(changeable());
    change_->setVisible(change);
    remove_->setVisible(change);
    tellButtons();
}

void ChildTable::fitHeight()
{
    auto* header = table_->horizontalHeader();
    const bool bar = header->length() > table_->viewport()->width() && table_->width() > 0;
    const int shown = most_rows_ > 0 ? qMin(rows(), most_rows_) : rows();
    const int height = qMax(header->minimumHeight(), header->sizeHint().height())
        + shown * table_->verticalHeader()->defaultSectionSize() + 2 * table_->frameWidth()
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
    if (owner_ == 0 || !changeable())
        return;
    RecordDialog dialog(services_, entity_, 0, this, owner_);
    dialog.setAfterwards(afterwards_);
    const auto now = services_.desk.now();
    const auto* number = numberColumn(services_.desk.catalogue(), entity_);
    if (number)
        dialog.suggest(number->key, { double(rows() + 1) });
    for (const auto& field : services_.desk.catalogue().columns(entity_))
        if (field.kind == Kind::Time) {
            dialog.suggest(field.key, { now });
            break;
        }
    if (prepare_)
        prepare_(dialog);
    (void)dialog.exec();
}

void ChildTable::change()
{
    if (const auto id = current(); id != 0 && changeable()) {
        RecordDialog dialog(services_, entity_, id, this);
        dialog.setAfterwards(afterwards_);
        if (prepare_)
            prepare_(dialog);
        (void)dialog.exec();
    }
}

void ChildTable::remove()
{
    if (const auto id = current(); id != 0 && changeable())
        services_.desk.perform(tr("Remove %1").arg(entityLabel(entity_)), [&](store::Writer& writer) -> Outcome {
            if (auto removed = writer.remove({ entity_, id }); !removed)
                return removed;
            return afterwards_ ? afterwards_(writer) : Outcome(Done {});
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
