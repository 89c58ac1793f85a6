#include "ui/bench/bench_view.h"

#include "ui/bench/bench_model.h"
#include "ui/bench/codes.h"
#include "ui/bench/entry_strip.h"
#include "ui/bench/form_panel.h"
#include "ui/bench/key_line.h"
#include "ui/bench/session_strip.h"
#include "ui/bench/station_delegate.h"
#include "ui/bench/words.h"
#include "ui/common/empty_state.h"

#include <QApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QMenu>
#include <QPushButton>
#include <QShortcut>
#include <QSplitter>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace washfast::ui {

namespace {

constexpr int secondMs = 1000;
constexpr int severalAtFirst = 20;
constexpr int formWidth = 380;

} // namespace

BenchView::BenchView(const Services& services, QWidget* parent)
    : View(services, parent)
    , model_(new BenchModel(desk, this))
    , table_(new BenchTable(this))
    , delegate_(new StationDelegate(desk.catalogue(), look.theme(), this))
    , strip_(new SessionStrip(desk, look.theme(), this))
    , entry_(new EntryStrip(desk, dialogs, *model_, look.theme(), this))
    , form_(new FormPanel(desk, look.theme(), this))
    , keys_(new KeyLine(look.theme(), this))
    , empty_(new EmptyState(look.theme(), this))
    , pages_(new QStackedWidget(this))
    , splitter_(new QSplitter(Qt::Horizontal, this))
    , read_only_(new QLabel(this))
{
    buildTable();
    buildTop(buildTools());
    entry_->hide();
    form_->hide();
    form_->form()->setDialogs(dialogs);
    listen();
    setTheme(look.theme());
    refresh();
}

void BenchView::buildTable()
{
    table_->setModel(model_);
    table_->setItemDelegate(delegate_);
    table_->setAccessibleName(tr("Prints of the session by station"));
    auto* header = table_->horizontalHeader();
    header->setSectionResizeMode(QHeaderView::Interactive);
    header->resizeSection(BenchModel::Sheet, fontMetrics().averageCharWidth() * 24);
    splitter_->addWidget(table_);
    splitter_->addWidget(form_);
    splitter_->setStretchFactor(0, 1);
    splitter_->setStretchFactor(1, 0);
    splitter_->setChildrenCollapsible(false);
    splitter_->setSizes({ formWidth * 2, formWidth });
}

QWidget* BenchView::buildTools()
{
    auto* tools = new QWidget(this);
    auto* row = new QHBoxLayout(tools);
    row->setContentsMargins(4, 0, 4, 4);
    row->setSpacing(6);
    const auto button = [&](const QString& text, const QString& hint, auto does) {
        auto* made = new QPushButton(text, tools);
        made->setAutoDefault(false);
        made->setToolTip(hint);
        // A click leaves the focus where the keys are; Tab still comes here.
        made->setFocusPolicy(Qt::TabFocus);
        connect(made, &QPushButton::clicked, this, does);
        made->setEnabled(desk.writable());
        row->addWidget(made);
        return made;
    };
    press_button_ = button({}, tr("Space"), [this] { press(); });
    press_button_->setMinimumWidth(fontMetrics().averageCharWidth() * 30);
    row->addSpacing(8);
    button(tr("&New print..."), tr("N or Ctrl+N"), [this] { newPrints(1); });
    button(
        tr("&Several..."), tr("Several prints from one template, Ctrl+Shift+N"), [this] { newPrints(severalAtFirst); });
    row->addSpacing(8);
    for_rows_.push_back(
        button(tr("&Row by row"), tr("R; weighing is W"), [this] { answer(BenchTable::Ask::RowByRow, {}); }));
    for_rows_.push_back(
        button(tr("&Light"), tr("A light reading for all that are exposed, L"), [this] { readLight(); }));
    auto* make_button = button(tr("&Make"), tr("Make what the prints need without leaving the Bench"), [] {});
    auto* menu = new QMenu(make_button);
    const std::pair<Entity, QString> made[] = { { Entity::Mix, tr("&Mix...") }, { Entity::Paper, tr("&Paper...") },
        { Entity::Cover, tr("&Cover...") }, { Entity::Negative, tr("&Negative or wedge...") },
        { Entity::Site, tr("&Site...") }, { Entity::Term, tr("&Term...") } };
    for (const auto& [entity, text] : made)
        menu->addAction(text, this, [this, what = entity] { make(what); });
    make_button->setMenu(menu);
    row->addStretch(1);
    auto* form = button(tr("F&orm"), tr("Enter or F2"), [this] { openForm(true); });
    form->setEnabled(true);
    for_rows_.push_back(form);
    return tools;
}

void BenchView::buildTop(QWidget* tools)
{
    read_only_->setWordWrap(true);
    read_only_->setText(desk.file().access() == store::Access::ReadOnlyTooNew
            ? tr("✕ This notebook was written by a newer version of the program: it can be read here, not changed.")
            : tr("✕ This notebook lies where nothing can be written: it can be read, not changed."));
    read_only_->setVisible(!desk.writable());
    read_only_->setContentsMargins(4, 0, 4, 0);
    auto* page = new QWidget(this);
    auto* inside = new QVBoxLayout(page);
    inside->setContentsMargins(0, 0, 0, 0);
    inside->setSpacing(2);
    inside->addWidget(tools);
    inside->addWidget(splitter_, 1);
    inside->addWidget(entry_);
    inside->addWidget(keys_);
    pages_->addWidget(page);
    pages_->addWidget(empty_);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(8, 4, 8, 4);
    column->setSpacing(2);
    column->addWidget(read_only_);
    column->addWidget(strip_);
    column->addWidget(pages_, 1);
}

void BenchView::listen()
{
    connect(table_, &BenchTable::asked, this, &BenchView::answer);
    connect(table_, &QTableView::doubleClicked, this, [this](const QModelIndex& index) {
        if (index.column() == BenchModel::Sheet)
            openPage();
        else
            openForm(true);
    });
    connect(table_->selectionModel(), &QItemSelectionModel::currentChanged, this, &BenchView::showWhere);
    connect(table_->selectionModel(), &QItemSelectionModel::selectionChanged, this, &BenchView::showWhere);
    connect(model_, &QAbstractItemModel::modelReset, this, &BenchView::refresh);
    connect(model_, &QAbstractItemModel::rowsInserted, this, &BenchView::refresh);
    connect(model_, &QAbstractItemModel::rowsRemoved, this, &BenchView::refresh);
    connect(&desk, &Desk::changed, this, &BenchView::refresh);
    connect(&desk, &Desk::reloaded, this, &BenchView::refresh);
    connect(&desk, &Desk::sessionChanged, this, [this] {
        entry_->hide();
        refresh();
    });
    connect(strip_, &SessionStrip::newSessionWanted, this, &BenchView::newSession);
    connect(empty_, &EmptyState::actionTriggered, this, [this] {
        if (desk.notebook().table(Entity::Session).find(desk.session().value) < 0)
            newSession();
        else
            newPrints(severalAtFirst);
    });
    connect(entry_, &EntryStrip::say, this, &View::say);
    connect(entry_, &EntryStrip::closed, this, &BenchView::backToTable);
    connect(entry_, &EntryStrip::turned, this, [this](qint64 print) {
        if (const int at = model_->rowOf(print); at >= 0)
            table_->goTo(model_->index(at, qMax(0, table_->currentIndex().column())));
    });
    connect(form_, &FormPanel::left, this, &BenchView::backToTable);
    connect(form_, &FormPanel::closed, this, [this] {
        form_->hide();
        backToTable();
    });
    connect(&look, &ThemeSource::changed, this, &BenchView::setTheme);
    connect(qApp, &QApplication::focusChanged, this, [this] {
        if (isVisible() && table_->currentIndex().isValid())
            showKeys();
    });
    second_.setInterval(secondMs);
    connect(&second_, &QTimer::timeout, model_, &BenchModel::tick);
    connect(model_, &BenchModel::dayBegan, this, &BenchView::refresh);

    const auto shortcut = [this](const QKeySequence& keys, int count) {
        auto* made = new QShortcut(keys, this);
        made->setContext(Qt::WidgetWithChildrenShortcut);
        connect(made, &QShortcut::activated, this, [this, count] { newPrints(count); });
    };
    shortcut(QKeySequence(Qt::CTRL | Qt::Key_N), 1);
    shortcut(QKeySequence(Qt::CTRL | Qt::SHIFT | Qt::Key_N), severalAtFirst);
}

void BenchView::setTheme(const Theme& theme)
{
    delegate_->setTheme(theme);
    strip_->setTheme(theme);
    entry_->setTheme(theme);
    form_->setTheme(theme);
    keys_->setTheme(theme);
    empty_->setTheme(theme);
    auto colours = palette();
    colours.setColor(QPalette::WindowText, theme.rust);
    read_only_->setPalette(colours);
    table_->viewport()->update();
}

bool BenchView::showsTable() const
{
    return pages_->currentIndex() == 0;
}

void BenchView::refresh()
{
    const bool session = desk.notebook().table(Entity::Session).find(desk.session().value) >= 0;
    if (!session && desk.notebook().table(Entity::Session).rows() > 0)
        QMetaObject::invokeMethod(this, &BenchView::takeNewestSession, Qt::QueuedConnection);
    const bool rows = session && model_->rowCount() > 0;
    const bool had_focus = table_->hasFocus() || empty_->button()->hasFocus();
    if (!session)
        empty_->setContent(tr("No session yet"),
            tr("A session is a lesson or an outing. Its prints stand here as rows, and each of them is followed "
               "through the six stations: "
               "Coat, Dry, Expose, Hold, Rinse, Read."),
            desk.writable() ? tr("New session...") : QString());
    else if (!rows)
        empty_->setContent(tr("No prints in this session yet"),
            tr("Make one print, or twenty at once from one template. Then Space starts and ends a station, for one row "
               "or for many."),
            desk.writable() ? tr("New prints...") : QString());
    pages_->setCurrentIndex(rows ? 0 : 1);
    if (!rows)
        entry_->hide();
    if (rows && !table_->currentIndex().isValid())
        table_->goTo(model_->index(0, BenchModel::Coat));
    if (had_focus && isVisible())
        arrive();
    strip_->setVisible(desk.notebook().table(Entity::Session).rows() > 0);
    strip_->setCounts(session ? model_->counts() : BenchCounts {});
    showWhere();
    watchTime();
}

void BenchView::takeNewestSession()
{
    const auto ids = sessionsNewestFirst(desk.notebook());
    if (!ids.isEmpty() && !ids.contains(desk.session().value))
        desk.setSession(SessionId { ids.first() });
}

void BenchView::showWhere()
{
    const auto now = table_->currentIndex();
    for (auto* tool : for_rows_)
        tool->setEnabled(now.isValid() && (desk.writable() || tool == for_rows_.back()));
    if (!now.isValid()) {
        press_button_->setText(tr("Start"));
        press_button_->setEnabled(false);
        return;
    }
    const auto what = plan();
    const auto station = stationNow();
    const auto label = pressLabel(what.press, station, int(what.prints.size()),
        what.prints.size() == 1 ? model_->code(what.prints.front()) : QString());
    const bool read = station == Station::Read;
    press_button_->setText(read ? tr("Type readings") : label.isEmpty() ? tr("Start or end") : label);
    press_button_->setAccessibleName(press_button_->text());
    press_button_->setEnabled(desk.writable() && (read || what.press != Press::Nothing));
    showKeys();
    strip_->setCounts(model_->counts());
    if (form_->isVisible() && !form_->isAncestorOf(QApplication::focusWidget()))
        openForm(false);
}

void BenchView::showKeys()
{
    const auto* focus = QApplication::focusWidget();
    if (entry_->isVisible() && entry_->isAncestorOf(focus))
        keys_->setHints(entryHints(entry_->print() > 0));
    else if (form_->isVisible() && form_->isAncestorOf(focus))
        keys_->setHints(formHints());
    else
        keys_->setHints(keyHints(stationNow(), leadingState(), desk.writable()));
}

void BenchView::watchTime()
{
    const bool ticking = isVisible() && (model_->anyRunning() || model_->anyWaitsForNextDay());
    if (ticking && !second_.isActive())
        second_.start();
    else if (!ticking)
        second_.stop();
}

void BenchView::showEvent(QShowEvent* event)
{
    View::showEvent(event);
    model_->tick();
    watchTime();
}

void BenchView::hideEvent(QHideEvent* event)
{
    View::hideEvent(event);
    watchTime();
}

void BenchView::arrive()
{
    if (entry_->isVisible())
        entry_->line()->setFocus();
    else if (showsTable())
        table_->setFocus();
    else
        empty_->button()->setFocus();
}

} // namespace washfast::ui
