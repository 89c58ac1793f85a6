#include "ui/prints/prints_view.h"

#include "ui/common/empty_state.h"
#include "ui/common/fit_columns.h"
#include "ui/prints/column_dialog.h"
#include "ui/prints/filter_line.h"
#include "ui/prints/photo_strip.h"
#include "ui/prints/print_page.h"
#include "ui/prints/print_table_model.h"
#include "ui/prints/tone_delegate.h"
#include "ui/sheets/square_code.h"

#include <QClipboard>
#include <QDragEnterEvent>
#include <QFileInfo>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QPushButton>
#include <QSettings>
#include <QShortcut>
#include <QSplitter>
#include <QStackedWidget>
#include <QTableView>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui {

namespace {

constexpr int widestColumn = 220;
const QString columnsKey = QStringLiteral("prints/columns");

} // namespace

PrintsView::PrintsView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    model_ = new PrintTableModel(desk, this);
    if (const auto keys = QSettings().value(columnsKey).toStringList(); !keys.isEmpty())
        model_->setColumns(keys);
    auto* column = new QVBoxLayout(this);
    buildBar(*column);
    split_ = new QSplitter(Qt::Horizontal, this);
    setAcceptDrops(desk.writable());
    split_->setChildrenCollapsible(false);
    column->addWidget(split_, 1);
    left_ = new QStackedWidget(this);
    split_->addWidget(left_);
    empty_ = new EmptyState(look.theme(), this);
    left_->addWidget(empty_);
    buildTable();
    left_->addWidget(table_);
    page_ = new PrintPage(services, this);
    page_->hide();
    split_->addWidget(page_);
    split_->setStretchFactor(0, 3);
    split_->setStretchFactor(1, 2);

    connect(page_, &PrintPage::closed, this, &PrintsView::closePage);
    connect(page_, &PrintPage::say, this, &View::say);
    connect(filter_, &FilterLine::filterChanged, this, [this](const Filter& filter) {
        model_->setFilter(filter);
        tellCounts();
    });
    connect(filter_, &FilterLine::helpWanted, this,
        [this] { dialogs.message(this, tr("How to write a filter"), filterHelp(desk.catalogue())); });
    connect(empty_, &EmptyState::actionTriggered, this, [this] {
        filter_->setText({});
        table_->setFocus();
    });
    connect(filter_->line(), &QLineEdit::returnPressed, table_, qOverload<>(&QWidget::setFocus));
    connect(model_, &QAbstractItemModel::modelAboutToBeReset, this, &PrintsView::rememberPlace);
    connect(model_, &QAbstractItemModel::modelReset, this, &PrintsView::goBackToPlace);
    connect(model_, &QAbstractItemModel::layoutChanged, this, &PrintsView::tellCounts);
    connect(&look, &ThemeSource::changed, this, [this](const Theme& theme) {
        filter_->setTheme(theme);
        empty_->setTheme(theme);
        page_->setTheme(theme);
        table_->viewport()->update();
    });
    auto* find = new QShortcut(QKeySequence::Find, this);
    connect(find, &QShortcut::activated, this, [this] { filter_->line()->setFocus(Qt::ShortcutFocusReason); });
    tellCounts();
    fitColumns(*table_, widestColumn);
}

void PrintsView::buildBar(QVBoxLayout& column)
{
    auto* bar = new QHBoxLayout;
    column.addLayout(bar);
    filter_ = new FilterLine(desk.catalogue(), look.theme(), this);
    bar->addWidget(filter_, 1);
    counts_ = new QLabel(this);
    counts_->setMinimumHeight(
        filter_->line()->sizeHint().height()); // on the line's level, also when it has a complaint below
    bar->addWidget(counts_, 0, Qt::AlignTop);
    const auto add = [&](const QString& text, const QString& tip, void (PrintsView::*slot)()) {
        auto* button = new QPushButton(text, this);
        button->setToolTip(tip);
        connect(button, &QPushButton::clicked, this, slot);
        bar->addWidget(button, 0, Qt::AlignTop);
        return button;
    };
    add(tr("Side &by side"), tr("Compare the two to eight chosen prints."), &PrintsView::compareSelected);
    add(tr("C&olumns..."), tr("Choose what the table shows."), &PrintsView::chooseColumns);
    add(tr("&Remove"), tr("Take the chosen prints out of the notebook. Undo brings them back."),
        &PrintsView::removeSelected)
        ->setEnabled(desk.writable());
}

void PrintsView::buildTable()
{
    table_ = new QTableView(this);
    table_->setAccessibleName(tr("Table of prints"));
    table_->setModel(model_);
    table_->setItemDelegate(new ToneDelegate(desk, look, this));
    table_->setSelectionMode(QAbstractItemView::ExtendedSelection);
    styleTable(*table_);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    table_->horizontalHeader()->setSectionsMovable(false);
    table_->horizontalHeader()->setSortIndicatorClearable(false);
    table_->horizontalHeader()->setSortIndicator(-1, Qt::AscendingOrder);
    table_->setSortingEnabled(true);
    table_->installEventFilter(this);
    connect(table_, &QTableView::doubleClicked, this, &PrintsView::openCurrent);
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, [this](const QModelIndex& index) {
        if (!page_->isHidden() && index.isValid() && model_->idAt(index.row()) != page_->print())
            page_->setPrint(model_->idAt(index.row()));
    });
}

void PrintsView::arrive()
{
    if (model_->rowCount() > 0 && !table_->currentIndex().isValid())
        table_->setCurrentIndex(model_->index(0, 1));
    (model_->rowCount() > 0 ? static_cast<QWidget*>(table_) : filter_)->setFocus();
}

void PrintsView::setFilter(const QString& text)
{
    filter_->setText(text);
}

void PrintsView::showPrint(qint64 print)
{
    int row = model_->rowOf(print);
    if (row < 0 && !filter_->text().isEmpty()) {
        filter_->setText({});
        row = model_->rowOf(print);
    }
    if (row >= 0) {
        table_->setCurrentIndex(model_->index(row, 1));
        table_->scrollTo(model_->index(row, 1), QAbstractItemView::PositionAtCenter);
    }
    page_->setPrint(print);
    page_->show();
}

QVector<qint64> PrintsView::selected() const
{
    QVector<qint64> ids;
    auto rows = table_->selectionModel()->selectedRows();
    std::sort(rows.begin(), rows.end(), [](const QModelIndex& a, const QModelIndex& b) { return a.row() < b.row(); });
    for (const auto& index : rows)
        ids << model_->idAt(index.row());
    return ids;
}

void PrintsView::openCurrent()
{
    if (table_->currentIndex().isValid())
        showPrint(model_->idAt(table_->currentIndex().row()));
}

void PrintsView::closePage()
{
    page_->hide();
    table_->setFocus();
}

void PrintsView::rememberPlace()
{
    place_.selected = selected();
    place_.current = model_->idAt(table_->currentIndex().row());
    place_.column = table_->currentIndex().column();
    place_.empty = model_->rowCount() == 0;
}

void PrintsView::goBackToPlace()
{
    tellCounts();
    if (place_.empty && model_->rowCount() > 0)
        fitColumns(*table_, widestColumn);
    auto* selection = table_->selectionModel();
    if (const int row = model_->rowOf(place_.current); row >= 0)
        selection->setCurrentIndex(model_->index(row, qMax(0, place_.column)), QItemSelectionModel::NoUpdate);
    QItemSelection rows;
    for (const auto id : place_.selected)
        if (const int row = model_->rowOf(id); row >= 0)
            rows.select(model_->index(row, 0), model_->index(row, model_->columnCount() - 1));
    selection->select(rows, QItemSelectionModel::ClearAndSelect);
}

void PrintsView::tellCounts()
{
    const int shown = model_->rowCount();
    const int all = model_->total();
    counts_->setText(!desk.complete() ? tr("%n print(s); reading the rest...", nullptr, all)
            : shown == all            ? tr("%n print(s)", nullptr, all)
                                      : tr("%1 of %n print(s)", nullptr, all).arg(shown));
    if (all == 0)
        empty_->setContent(tr("No prints yet"),
            tr("Every print that is logged on the Bench or imported from a table will stand here."), {});
    else if (shown == 0)
        empty_->setContent(tr("No print matches"),
            tr("None of the %n print(s) is what the filter asks for.", nullptr, all), tr("Show all prints"));
    left_->setCurrentWidget(shown == 0 ? static_cast<QWidget*>(empty_) : table_);
}

void PrintsView::chooseColumns()
{
    ColumnDialog dialog(desk.catalogue(), model_->columnKeys(), PrintTableModel::defaultColumns(), this);
    if (dialog.exec() != QDialog::Accepted)
        return;
    model_->setColumns(dialog.chosen());
    QSettings().setValue(columnsKey, model_->columnKeys());
    const QSignalBlocker quiet(table_->horizontalHeader()); // the model has sorted already
    table_->horizontalHeader()->setSortIndicator(model_->sortColumn(), model_->sortOrder());
    fitColumns(*table_, widestColumn);
}

void PrintsView::removeSelected()
{
    const auto prints = selected();
    if (prints.isEmpty()) {
        Q_EMIT say(tr("Choose the prints to remove first."));
        return;
    }
    const auto answer = dialogs.question(this, tr("Remove"),
        tr("Remove %n print(s) with all that was logged for them?", nullptr, int(prints.size())),
        { tr("Remove"), tr("Keep") });
    if (answer != 0)
        return;
    if (desk.perform(tr("Remove %n print(s)", nullptr, int(prints.size())), [&](store::Writer& writer) -> Outcome {
            for (const auto print : prints)
                if (auto done = writer.remove({ Entity::Print, print }); !done)
                    return done;
            return Done {};
        }))
        Q_EMIT say(tr("Removed. Ctrl+Z brings them back."));
}

void PrintsView::compareSelected()
{
    const auto prints = selected();
    if (prints.size() < 2)
        Q_EMIT say(tr("Choose two to eight prints first, with Ctrl or Shift."));
    else
        Q_EMIT sideBySide(prints);
}

void PrintsView::copySelected()
{
    QVector<int> rows;
    for (const auto id : selected())
        rows << model_->rowOf(id);
    QGuiApplication::clipboard()->setText(model_->asTable(rows));
    Q_EMIT say(tr("Copied %n row(s).", nullptr, int(rows.size())));
}

bool PrintsView::eventFilter(QObject* watched, QEvent* event)
{
    if (watched == table_ && event->type() == QEvent::KeyPress) {
        const auto* key = static_cast<QKeyEvent*>(event);
        if (key->key() == Qt::Key_Return || key->key() == Qt::Key_Enter)
            return openCurrent(), true;
        if (key->key() == Qt::Key_Escape && !page_->isHidden())
            return closePage(), true;
        if (key->key() == Qt::Key_Delete && desk.writable())
            return removeSelected(), true;
        if (key->matches(QKeySequence::Copy))
            return copySelected(), true;
    }
    return View::eventFilter(watched, event);
}

void PrintsView::dragEnterEvent(QDragEnterEvent* event)
{
    if (desk.writable() && !PhotoStrip::filesIn(*event->mimeData()).isEmpty()
        && !event->mimeData()->text().endsWith(QLatin1String(".washfast")))
        event->acceptProposedAction();
}

void PrintsView::dropEvent(QDropEvent* event)
{
    const auto paths = PhotoStrip::filesIn(*event->mimeData());
    event->setDropAction(Qt::CopyAction);
    event->accept();
    // Once the program that they are dragged from is free again.
    QMetaObject::invokeMethod(
        this, [this, paths] { addLabelledPhotos(paths); }, Qt::QueuedConnection);
}

int PrintsView::addLabelledPhotos(const QStringList& paths)
{
    int stored = 0;
    QStringList without;
    PhotoStrip strip(services());
    for (const auto& photo : sheets::assignByLabel(desk.notebook(), paths)) {
        if (!photo.print) {
            without << QFileInfo(photo.path).fileName() + QStringLiteral(": ") + photo.says;
            continue;
        }
        strip.setPrint(*photo.print);
        stored += strip.addFiles({ photo.path });
    }
    if (!without.isEmpty())
        dialogs.message(this, tr("Photos without a label that can be read"),
            without.join(QLatin1Char('\n')) + QLatin1Char('\n')
                + tr("Open the print's page and drop them there instead."));
    if (stored > 0)
        Q_EMIT say(tr("Stored %n photo(s) with the print on their label.", nullptr, stored));
    return stored;
}

} // namespace washfast::ui
