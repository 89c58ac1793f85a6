#include "ui/shelf/shelf_view.h"

#include "ui/common/record_dialog.h"
#include "ui/shelf/record_model.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QListWidget>
#include <QPushButton>
#include <QShortcut>
#include <QSortFilterProxyModel>
#include <QTableView>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui {

namespace {

struct Shelf {
    Entity entity;
    const char* label;
};
constexpr std::array<Shelf, 9> shelves { { { Entity::Mix, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Mixes") },
    { Entity::Paper, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Papers") },
    { Entity::Cover, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Covers") },
    { Entity::Negative, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Negatives and wedges") },
    { Entity::Chemical, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Chemicals") },
    { Entity::Formula, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Formulas") },
    { Entity::Site, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Sites") },
    { Entity::Term, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Terms") },
    { Entity::Session, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Sessions") } } };
constexpr int widestColumn = 260;

} // namespace

ShelfView::ShelfView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    auto* row = new QHBoxLayout(this);
    kinds_ = new QListWidget(this);
    kinds_->setAccessibleName(tr("Kinds of record"));
    kinds_->setMaximumWidth(200);
    for (const auto& shelf : shelves)
        kinds_->addItem(tr(shelf.label));
    row->addWidget(kinds_);

    auto* column = new QVBoxLayout;
    row->addLayout(column, 1);
    model_ = new RecordModel(desk, this);
    sorted_ = new QSortFilterProxyModel(this);
    sorted_->setSourceModel(model_);
    sorted_->setSortRole(RecordModel::sortRole);
    sorted_->setSortCaseSensitivity(Qt::CaseInsensitive);
    table_ = new QTableView(this);
    table_->setAccessibleName(tr("Records"));
    table_->setModel(sorted_);
    table_->setSortingEnabled(true);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    styleTable(*table_);
    column->addWidget(table_, 1);

    auto* buttons = new QHBoxLayout;
    const auto add = [&](const QString& text, const QString& tip, void (ShelfView::*slot)()) {
        auto* button = new QPushButton(text, this);
        button->setToolTip(tip);
        button->setEnabled(desk.writable());
        connect(button, &QPushButton::clicked, this, slot);
        buttons->addWidget(button);
    };
    add(tr("&New..."), tr("Make a new record of this kind."), &ShelfView::make);
    add(tr("&Change..."), tr("Change the chosen record."), &ShelfView::change);
    add(tr("&Put away"), tr("It is no longer offered; what was made with it keeps it. Undo brings it back."), &ShelfView::putAway);
    buttons->addStretch(1);
    column->addLayout(buttons);

    connect(table_, &QTableView::doubleClicked, this, &ShelfView::change);
    auto* enter = new QShortcut(Qt::Key_Return, table_, nullptr, nullptr, Qt::WidgetShortcut);
    connect(enter, &QShortcut::activated, this, &ShelfView::change);
    connect(kinds_, &QListWidget::currentRowChanged, this, [this](int at) {
        if (at < 0)
            return;
        model_->setEntity(shelves[size_t(at)].entity);
        table_->resizeColumnsToContents();
        for (int i = 0; i < model_->columnCount(); ++i)
            table_->setColumnWidth(i, qMin(widestColumn, table_->columnWidth(i) + 12));
        if (sorted_->rowCount() > 0)
            table_->selectRow(0);
    });
    kinds_->setCurrentRow(0);
}

void ShelfView::arrive()
{
    (sorted_->rowCount() > 0 ? static_cast<QWidget*>(table_) : kinds_)->setFocus();
}

void ShelfView::choose(Entity entity)
{
    for (size_t i = 0; i < shelves.size(); ++i)
        if (shelves[i].entity == entity)
            kinds_->setCurrentRow(int(i));
}

qint64 ShelfView::current() const
{
    const auto index = table_->currentIndex();
    return index.isValid() ? index.data(RecordModel::idRole).toLongLong() : 0;
}

void ShelfView::make()
{
    if (const auto id = makeRecord(services(), model_->entity(), this))
        Q_EMIT say(tr("Made: %1 %2").arg(entityLabel(model_->entity()), desk.notebook().nameOf({ model_->entity(), *id })));
}

void ShelfView::change()
{
    if (const auto id = current(); id != 0 && desk.writable()) {
        RecordDialog dialog(services(), model_->entity(), id, this);
        (void)dialog.exec();
    }
}

int ShelfView::printsWith(Ref record) const
{
    int n = 0;
    for (const auto& field : desk.catalogue().columns(Entity::Print))
        if (field.kind == Kind::Link && field.target == record.entity) {
            const auto& links = std::get<LinkColumn>(desk.notebook().prints().column(field.ordinal));
            n += int(std::count(links.begin(), links.end(), record.id));
        }
    return n;
}

void ShelfView::putAway()
{
    const Ref record { model_->entity(), current() };
    if (record.id == 0)
        return;
    const auto name = desk.notebook().nameOf(record);
    if (const int prints = printsWith(record); prints > 0) {
        dialogs.message(this, tr("Put away"), tr("%1 is used by %n print(s) and stays.", nullptr, prints).arg(name));
        return;
    }
    if (desk.perform(tr("Put away %1 %2").arg(entityLabel(record.entity), name), [&](store::Writer& writer) { return writer.remove(record); }))
        Q_EMIT say(tr("Put away: %1. Ctrl+Z brings it back.").arg(name));
}

} // namespace washfast::ui
