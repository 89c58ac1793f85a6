#include "ui/prints/print_page.h"

#include "ui/common/child_table.h"
#include "ui/common/fit_columns.h"
#include "ui/common/print_form.h"
#include "ui/prints/history_words.h"
#include "ui/prints/ledger_panel.h"
#include "ui/prints/photo_strip.h"
#include "ui/prints/station_section.h"
#include "ui/prints/tone_box.h"

#include <QDragEnterEvent>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QMimeData>
#include <QPushButton>
#include <QScrollArea>
#include <QTabBar>
#include <QTabWidget>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>
#include <iterator>

namespace washfast::ui {

namespace {

constexpr int narrowest = 420;
constexpr int widestHistory = 320;
constexpr int stationsInAll = int(printStations.size()) + 1;

QWidget* scrolled(QWidget* page)
{
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setFocusPolicy(Qt::NoFocus);
    area->setWidget(page);
    return area;
}

} // namespace

PrintPage::PrintPage(const Services& services, QWidget* parent)
    : QWidget(parent)
    , services_(services)
{
    setMinimumWidth(narrowest);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(8, 0, 0, 0);
    buildHeader(*column);
    tabs_ = new QTabWidget(this);
    tabs_->setDocumentMode(true);
    column->addWidget(tabs_, 1);
    buildStations();
    buildRows();
    photos_ = new PhotoStrip(services, this);
    tabs_->addTab(photos_, tr("Photos"));
    connect(photos_, &PhotoStrip::say, this, &PrintPage::say);
    buildLedger();
    buildHistory();
    setAcceptDrops(services.desk.writable());
    connect(&services.desk, &Desk::changed, this, &PrintPage::follow);
    connect(&services.desk, &Desk::reloaded, this, [this] {
        if (print_ != 0)
            setPrint(print_);
    });
}

void PrintPage::buildHeader(QVBoxLayout& column)
{
    auto* head = new QHBoxLayout;
    column.addLayout(head);
    tones_ = new ToneBox(services_.look.theme(), this);
    head->addWidget(tones_, 0, Qt::AlignTop);
    auto* texts = new QVBoxLayout;
    texts->setSpacing(2);
    head->addLayout(texts, 1);
    code_ = new QLabel(this);
    code_->setFont(textFont(font(), TextSize::Title));
    texts->addWidget(code_);
    about_ = new QLabel(this);
    about_->setWordWrap(true);
    texts->addWidget(about_);
    texts->addStretch(1);
    auto* close = new QPushButton(tr("Close"), this);
    close->setToolTip(tr("Back to the table (Esc)"));
    connect(close, &QPushButton::clicked, this, &PrintPage::closed);
    head->addWidget(close, 0, Qt::AlignTop);
    outcome_ = new PrintForm(services_.desk, services_.look.theme(), this);
    outcome_->setFields({ services_.desk.catalogue().findPrintField(u"print_outcome"),
        services_.desk.catalogue().findPrintField(u"print_notes") });
    outcome_->showWhole();
    column.addWidget(outcome_);
}

void PrintPage::buildStations()
{
    auto* page = new QWidget;
    stations_ = new QVBoxLayout(page);
    for (const auto station : { Station::Coat, Station::Dry, Station::Expose, Station::Hold, Station::Rinse,
             Station::Read, Station::About }) {
        auto* section = new StationSection(services_, station, page);
        sections_.push_back(section);
        stations_->addWidget(section);
    }
    stations_->addStretch(1);
    tabs_->addTab(scrolled(page), tr("Stations"));
}

void PrintPage::buildRows()
{
    auto* page = new QWidget;
    auto* column = new QVBoxLayout(page);
    const std::pair<Entity, QString> kinds[] = { { Entity::Reading, tr("Density readings") },
        { Entity::Sign, tr("Signs") }, { Entity::Weighing, tr("Weighings") }, { Entity::Touch, tr("Touch states") },
        { Entity::Exposure, tr("Exposures") }, { Entity::Meter, tr("Light readings") }, { Entity::Bath, tr("Baths") } };
    for (const auto& [entity, heading] : kinds) {
        auto* table = new ChildTable(services_, entity, heading, page);
        tables_.emplace_back(entity, table);
        column->addWidget(table);
    }
    column->addStretch(1);
    tabs_->addTab(scrolled(page), tr("Readings and signs"));
}

void PrintPage::buildLedger()
{
    ledger_ = new LedgerPanel(services_, this);
    tabs_->insertTab(1, ledger_, tr("Where the blue went"));
    connect(ledger_, &LedgerPanel::fieldWanted, this, &PrintPage::showField);
    connect(tabs_, &QTabWidget::currentChanged, this, [this] {
        if (tabs_->currentWidget() == ledger_)
            ledger_->setPrint(print_);
    });
}

void PrintPage::showField(const QString& key)
{
    const auto* field = services_.desk.catalogue().findPrintField(key);
    if (!field)
        return;
    tabs_->setCurrentIndex(field->station == Station::Read ? tabs_->indexOf(ledger_) + 1 : 0);
    if (auto* wanted = section(field->station))
        QMetaObject::invokeMethod(
            wanted,
            [wanted] {
                for (auto* area = wanted->parentWidget(); area; area = area->parentWidget())
                    if (auto* scrolled = qobject_cast<QScrollArea*>(area)) {
                        scrolled->ensureWidgetVisible(wanted, 0, 0);
                        break;
                    }
            },
            Qt::QueuedConnection);
}

void PrintPage::buildHistory()
{
    history_ = new QTableWidget(this);
    history_->setAccessibleName(tr("History of this print"));
    history_->setColumnCount(4);
    history_->setHorizontalHeaderLabels({ tr("When"), tr("What"), tr("Change"), tr("Step") });
    history_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    history_->setHorizontalScrollMode(QAbstractItemView::ScrollPerPixel);
    styleTable(*history_);
    tabs_->addTab(history_, tr("History"));
    connect(tabs_, &QTabWidget::currentChanged, this, [this] {
        if (tabs_->currentWidget() == history_)
            fillHistory();
    });
}

void PrintPage::fillHistory()
{
    const auto entries = services_.desk.file().historyOf(PrintId { print_ });
    const auto lines = entries ? historyLines(*entries, services_.desk.notebook()) : std::vector<HistoryLine> {};
    history_->setRowCount(int(lines.size()));
    for (size_t i = 0; i < lines.size(); ++i) {
        int column = 0;
        for (const auto& text : { lines[i].when, lines[i].what, lines[i].change, lines[i].step })
            history_->setItem(int(i), column++, new QTableWidgetItem(text));
    }
    fitColumns(*history_, widestHistory);
}

void PrintPage::setPrint(qint64 print)
{
    print_ = print;
    outcome_->setPrints({ print });
    for (auto* section : sections_)
        section->setPrint(print);
    for (const auto& [entity, table] : tables_)
        table->setOwner(print);
    photos_->setPrint(print);
    refresh();
}

void PrintPage::refresh()
{
    stale_ = false;
    const int row = services_.desk.notebook().prints().find(print_);
    if (row < 0) {
        Q_EMIT closed();
        return;
    }
    showPrint(row);
    for (auto* section : sections_)
        section->refresh();
    orderStations();
    for (const auto& [entity, table] : tables_)
        table->refresh();
    if (tabs_->currentWidget() == history_)
        fillHistory();
    if (tabs_->currentWidget() == ledger_)
        ledger_->setPrint(print_);
}

void PrintPage::showPrint(int row)
{
    const auto& desk = services_.desk;
    code_->setText(desk.notebook().nameOf(PrintId { print_ }));
    QStringList about;
    const std::pair<const char*, QString> parts[] = { { "session_code", tr("session %1") },
        { "mix_code", tr("mix %1") }, { "paper_name", QStringLiteral("%1") }, { "print_maker", tr("made by %1") } };
    for (const auto& [key, pattern] : parts)
        if (const auto text = desk.reader().get(row, QString::fromLatin1(key)).text())
            about << pattern.arg(*text);
    about_->setText(about.join(QStringLiteral(", ")));
    tones_->setTones(tonesOf(desk.reader(), row));
}

/// In the order of time. A station without a time keeps its usual place, and so do Read, which ends the day after, and
/// About.
void PrintPage::orderStations()
{
    const auto timed
        = [](const StationSection* section) { return section->begins() && section->station() != Station::Read; };
    auto usual = sections_;
    const auto place = [](const StationSection* section) {
        return section->station() == Station::About ? stationsInAll : int(section->station());
    };
    std::sort(usual.begin(), usual.end(), [&](const auto* a, const auto* b) { return place(a) < place(b); });
    std::vector<StationSection*> by_time;
    std::copy_if(usual.begin(), usual.end(), std::back_inserter(by_time), timed);
    std::stable_sort(
        by_time.begin(), by_time.end(), [](const auto* a, const auto* b) { return *a->begins() < *b->begins(); });
    auto next = by_time.begin();
    for (auto& section : usual)
        if (timed(section))
            section = *next++;
    if (usual == sections_)
        return;
    sections_ = usual;
    for (size_t i = 0; i < sections_.size(); ++i)
        stations_->insertWidget(int(i), sections_[i]);
    auto* last = sections_.front()->orderAfter(tabs_->tabBar());
    for (size_t i = 1; i < sections_.size(); ++i)
        last = sections_[i]->orderAfter(last);
}

void PrintPage::follow(const QVector<store::Change>& changes)
{
    if (print_ == 0)
        return;
    const auto prints = printsTouched(changes);
    if (prints && !prints->contains(print_))
        return;
    if (!isVisible() && services_.desk.notebook().prints().find(print_) >= 0) {
        stale_ = true;
        return;
    }
    for (const auto& change : changes)
        if (change.row.entity == Entity::Photo) {
            photos_->refresh();
            break;
        }
    refresh();
}

void PrintPage::setTheme(const Theme& theme)
{
    tones_->setTheme(theme);
    outcome_->setTheme(theme);
    for (auto* section : sections_)
        section->setTheme(theme);
    photos_->setTheme(theme);
    ledger_->setTheme(theme);
    for (const auto& [entity, table] : tables_)
        table->setTheme(theme);
}

StationSection* PrintPage::section(Station station) const
{
    for (auto* section : sections_)
        if (section->station() == station)
            return section;
    return nullptr;
}

ChildTable* PrintPage::childTable(Entity entity) const
{
    for (const auto& [kind, table] : tables_)
        if (kind == entity)
            return table;
    return nullptr;
}

void PrintPage::showEvent(QShowEvent* event)
{
    QWidget::showEvent(event);
    if (stale_ && print_ != 0)
        setPrint(print_);
}

void PrintPage::dragEnterEvent(QDragEnterEvent* event)
{
    if (!PhotoStrip::filesIn(*event->mimeData()).isEmpty())
        event->acceptProposedAction();
}

void PrintPage::dropEvent(QDropEvent* event)
{
    event->setDropAction(Qt::CopyAction);
    event->accept();
    tabs_->setCurrentWidget(photos_);
    photos_->addLater(PhotoStrip::filesIn(*event->mimeData()));
}

void PrintPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

} // namespace washfast::ui
