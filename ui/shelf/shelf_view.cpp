#include "ui/shelf/shelf_view.h"

#include "ui/common/empty_state.h"
#include "ui/common/fit_columns.h"
#include "ui/common/offered.h"
#include "ui/common/record_dialog.h"
#include "ui/shelf/age_plot.h"
#include "ui/shelf/child_rows.h"
#include "ui/shelf/formula_record.h"
#include "ui/shelf/record_model.h"
#include "ui/shelf/record_order.h"

#include <QCheckBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QListWidget>
#include <QPushButton>
#include <QShortcut>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui {

namespace {

struct Shelf {
    Entity entity;
    const char* label;
};
constexpr std::array<Shelf, 11> shelves { { { Entity::Mix, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Mixes") },
    { Entity::Paper, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Papers") },
    { Entity::Cover, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Covers") },
    { Entity::Negative, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Negatives and wedges") },
    { Entity::Lamp, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Lamps") },
    { Entity::Card, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Reference cards") },
    { Entity::Chemical, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Chemicals") },
    { Entity::Formula, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Formulas") },
    { Entity::Site, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Sites") },
    { Entity::Term, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Terms") },
    { Entity::Session, QT_TRANSLATE_NOOP("washfast::ui::ShelfView", "Sessions") } } };
constexpr int widestColumn = 260;
constexpr int kindsWidth = 200;

} // namespace

ShelfView::ShelfView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    auto* row = new QHBoxLayout(this);
    kinds_ = new QListWidget(this);
    kinds_->setAccessibleName(tr("Kinds of record"));
    kinds_->setMaximumWidth(kindsWidth);
    for (const auto& shelf : shelves) {
        auto* item = new QListWidgetItem(tr(shelf.label), kinds_);
        item->setSizeHint({ 0, comfortableRowHeight(kinds_->fontMetrics()) });
    }
    row->addWidget(kinds_);
    auto* column = new QVBoxLayout;
    row->addLayout(column, 1);
    buildTable();
    empty_ = new EmptyState(look.theme(), this);
    pages_ = new QStackedWidget(this);
    pages_->addWidget(empty_);
    pages_->addWidget(table_);
    column->addWidget(pages_, 1);
    buildFacts(*column);
    buildButtons(*column);

    connect(model_, &QAbstractItemModel::modelAboutToBeReset, this, [this] { place_ = current(); });
    connect(model_, &QAbstractItemModel::modelReset, this, &ShelfView::follow);
    connect(empty_, &EmptyState::actionTriggered, this, &ShelfView::make);
    connect(&look, &ThemeSource::changed, empty_, &EmptyState::setTheme);
    connect(&look, &ThemeSource::changed, trend_, &AgePlot::setTheme);
    connect(table_->selectionModel(), &QItemSelectionModel::currentChanged, this, &ShelfView::tellFacts);
    connect(model_, &QAbstractItemModel::dataChanged, this, &ShelfView::tellFacts);
    connect(model_, &QAbstractItemModel::modelReset, this, &ShelfView::tellFacts);
    connect(kinds_, &QListWidget::currentRowChanged, this, &ShelfView::showKind);
    kinds_->setCurrentRow(0);
}

void ShelfView::buildTable()
{
    model_ = new RecordModel(desk, this);
    sorted_ = new RecordOrder(this);
    sorted_->setSourceModel(model_);
    table_ = new QTableView(this);
    table_->setAccessibleName(tr("Records"));
    table_->setModel(sorted_);
    table_->setSortingEnabled(true);
    table_->sortByColumn(0, Qt::AscendingOrder);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    styleTable(*table_);
    connect(table_, &QTableView::doubleClicked, this, &ShelfView::change);
    for (const auto key : { Qt::Key_Return, Qt::Key_Enter }) {
        auto* enter = new QShortcut(key, table_, nullptr, nullptr, Qt::WidgetShortcut);
        connect(enter, &QShortcut::activated, this, &ShelfView::change);
    }
    auto* away = new QShortcut(Qt::Key_Delete, table_, nullptr, nullptr, Qt::WidgetShortcut);
    connect(away, &QShortcut::activated, this, &ShelfView::putAway);
}

void ShelfView::buildFacts(QVBoxLayout& column)
{
    auto* row = new QHBoxLayout;
    auto* left = new QVBoxLayout;
    row->addLayout(left, 1);
    rows_ = new ChildRows(services(), this);
    left->addWidget(rows_);
    facts_ = new QLabel(this);
    facts_->setWordWrap(true);
    facts_->setAlignment(Qt::AlignLeft | Qt::AlignTop);
    facts_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    facts_->setAccessibleName(tr("About the chosen record"));
    left->addWidget(facts_);
    left->addStretch(1);
    trend_ = new AgePlot(look.theme(), this);
    row->addWidget(trend_, 0, Qt::AlignTop);
    column.addLayout(row);
}

void ShelfView::tellFacts()
{
    const Ref record { model_->entity(), current() };
    const auto sentences = model_->facts().sentences(record);
    facts_->setText(sentences.join(QLatin1Char('\n')));
    facts_->setVisible(!sentences.isEmpty());
    const bool mix = record.entity == Entity::Mix && record.id != 0;
    trend_->setVisible(mix);
    trend_->setPoints(mix ? chemistry::densityWithAge(desk.reader(), record.id) : std::vector<chemistry::AgePoint> {});
    rows_->setRecord(record);
    const bool can_retire = record.id != 0 && !retiredColumn(desk.catalogue(), record.entity).isEmpty();
    retire_->setEnabled(can_retire && desk.writable());
    retire_->setText(can_retire && model_->facts().retired(record) ? tr("&Take back") : tr("&Retire"));
    label_->setVisible(record.entity == Entity::Mix || record.entity == Entity::Chemical);
    label_->setEnabled(record.id != 0);
    copy_->setVisible(record.entity == Entity::Formula);
}

void ShelfView::buildButtons(QVBoxLayout& column)
{
    auto* buttons = new QHBoxLayout;
    const auto add = [&](const QString& text, const QString& tip, void (ShelfView::*slot)()) {
        auto* button = new QPushButton(text, this);
        button->setToolTip(tip);
        button->setEnabled(desk.writable());
        connect(button, &QPushButton::clicked, this, slot);
        buttons->addWidget(button);
        return button;
    };
    add(tr("&New..."), tr("Make a new record of this kind."), &ShelfView::make);
    change_ = add(tr("&Change..."), tr("Change the chosen record."), &ShelfView::change);
    put_away_ = add(tr("&Put away"), tr("It is no longer offered. What is in use stays. Undo brings it back."),
        &ShelfView::putAway);
    retire_ = add(
        tr("&Retire"), tr("Used up or handed in: it stays on record and is no longer shown here."), &ShelfView::retire);
    label_ = add(tr("&Label..."), tr("A label for the bottle, as PDF."), &ShelfView::label);
    copy_ = add(tr("Cop&y a published formula..."), tr("A formula of your own that begins as a published one."),
        &ShelfView::copyFormula);
    buttons->addStretch(1);
    auto* show = new QCheckBox(tr("sh&ow retired"), this);
    connect(show, &QCheckBox::toggled, model_, &RecordModel::setShowRetired);
    buttons->addWidget(show);
    column.addLayout(buttons);
}

void ShelfView::showKind(int at)
{
    if (at < 0)
        return;
    model_->setEntity(shelves[size_t(at)].entity);
    table_->setAccessibleName(tr(shelves[size_t(at)].label));
    fitColumns(*table_, widestColumn);
    table_->sortByColumn(0, Qt::AscendingOrder);
    if (sorted_->rowCount() > 0)
        table_->selectRow(0);
}

void ShelfView::follow()
{
    const bool any = model_->rowCount() > 0;
    if (!any) {
        const auto kind = kinds_->currentItem() ? kinds_->currentItem()->text() : QString();
        empty_->setContent(tr("%1: none yet").arg(kind),
            tr("What is made here can be chosen by its name wherever a print is logged."),
            desk.writable() ? tr("Make the first one") : QString());
    } else if (pages_->currentWidget() != table_) {
        fitColumns(*table_, widestColumn);
    }
    pages_->setCurrentWidget(any ? static_cast<QWidget*>(table_) : empty_);
    change_->setEnabled(any && desk.writable());
    put_away_->setEnabled(any && desk.writable());
    select(place_);
}

void ShelfView::select(qint64 id)
{
    for (int row = 0; row < sorted_->rowCount(); ++row)
        if (sorted_->index(row, 0).data(RecordModel::idRole).toLongLong() == id)
            table_->selectRow(row);
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

void ShelfView::choose(Ref record)
{
    choose(record.entity);
    select(record.id);
}

void ShelfView::prepare(RecordDialog& dialog, qint64 id)
{
    checkWhileTyping(dialog);
    if (model_->entity() == Entity::Formula)
        prepareFormulaForm(dialog, desk, id);
}

void ShelfView::make()
{
    RecordDialog dialog(services(), model_->entity(), 0, this);
    prepare(dialog, 0);
    if (dialog.exec() != QDialog::Accepted)
        return;
    select(dialog.id());
    table_->setFocus();
    Q_EMIT say(tr("Made: %1 %2")
                   .arg(entityLabel(model_->entity()), desk.notebook().nameOf({ model_->entity(), dialog.id() })));
}

void ShelfView::change()
{
    if (const auto id = current(); id != 0 && desk.writable()) {
        RecordDialog dialog(services(), model_->entity(), id, this);
        prepare(dialog, id);
        (void)dialog.exec();
    }
}

} // namespace washfast::ui
