#include "ui/prints/print_page.h"

#include "ui/common/print_form.h"
#include "ui/prints/child_table.h"
#include "ui/prints/history_words.h"
#include "ui/prints/photo_strip.h"
#include "ui/prints/station_section.h"
#include "ui/prints/tone_box.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>
#include <QVBoxLayout>
#include <algorithm>

namespace washfast::ui {

namespace {

constexpr int narrowest = 420;
constexpr int outcomeHeight = 92;

QWidget* scrolled(QWidget* page)
{
    auto* area = new QScrollArea;
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
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
    buildHistory();
    connect(&services.desk, &Desk::changed, this, &PrintPage::follow);
    connect(&services.desk, &Desk::reloaded, this, &PrintPage::refresh);
}

void PrintPage::buildHeader(QVBoxLayout& column)
{
    auto* head = new QHBoxLayout;
    column.addLayout(head);
    tones_ = new ToneBox(services_.look.theme(), this);
    head->addWidget(tones_);
    auto* texts = new QVBoxLayout;
    head->addLayout(texts, 1);
    code_ = new QLabel(this);
    code_->setFont(textFont(font(), TextSize::Title));
    texts->addWidget(code_);
    about_ = new QLabel(this);
    about_->setWordWrap(true);
    texts->addWidget(about_);
    auto* close = new QPushButton(tr("Close"), this);
    close->setToolTip(tr("Back to the table (Esc)"));
    connect(close, &QPushButton::clicked, this, &PrintPage::closed);
    head->addWidget(close, 0, Qt::AlignTop);
    outcome_ = new PrintForm(services_.desk, services_.look.theme(), this);
    outcome_->setFields({ services_.desk.catalogue().findPrintField(u"print_outcome") });
    outcome_->setFixedHeight(outcomeHeight);
    column.addWidget(outcome_);
}

void PrintPage::buildStations()
{
    auto* page = new QWidget;
    stations_ = new QVBoxLayout(page);
    for (const auto station : { Station::About, Station::Coat, Station::Dry, Station::Expose, Station::Hold, Station::Rinse, Station::Read }) {
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
    const std::pair<Entity, QString> kinds[] = { { Entity::Reading, tr("Density readings") }, { Entity::Sign, tr("Signs") },
        { Entity::Weighing, tr("Weighings") }, { Entity::Touch, tr("Touch states") }, { Entity::Exposure, tr("Exposures") },
        { Entity::Meter, tr("Light readings") }, { Entity::Bath, tr("Baths") } };
    for (const auto& [entity, heading] : kinds) {
        auto* table = new ChildTable(services_, entity, heading, page);
        tables_.emplace_back(entity, table);
        column->addWidget(table);
    }
    column->addStretch(1);
    tabs_->addTab(scrolled(page), tr("Readings and signs"));
}

void PrintPage::buildHistory()
{
    history_ = new QTableWidget(this);
    history_->setAccessibleName(tr("History of this print"));
    history_->setColumnCount(4);
    history_->setHorizontalHeaderLabels({ tr("When"), tr("What"), tr("Change"), tr("Step") });
    history_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    styleTable(*history_);
    history_->horizontalHeader()->setStretchLastSection(true);
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
    history_->resizeColumnsToContents();
}

void PrintPage::setPrint(qint64 print)
{
    print_ = print;
    outcome_->setPrints({ print });
    for (auto* section : sections_)
        section->setPrint(print);
    for (const auto& [entity, table] : tables_)
        table->setPrint(print);
    photos_->setPrint(print);
    refresh();
}

void PrintPage::refresh()
{
    const auto& desk = services_.desk;
    const int row = desk.notebook().prints().find(print_);
    if (row < 0) {
        Q_EMIT closed();
        return;
    }
    code_->setText(desk.notebook().nameOf(PrintId { print_ }));
    QStringList about;
    const std::pair<const char*, QString> parts[] = { { "session_code", tr("session %1") }, { "mix_code", tr("mix %1") }, { "paper_name", QStringLiteral("%1") },
        { "print_maker", tr("made by %1") } };
    for (const auto& [key, pattern] : parts)
        if (const auto text = desk.reader().get(row, QString::fromLatin1(key)).text())
            about << pattern.arg(*text);
    about_->setText(about.join(QStringLiteral(", ")));
    tones_->setTones(tonesOf(desk.reader(), row));
    for (auto* section : sections_)
        section->refresh();
    // In the order of time; a station without one keeps its usual place.
    auto ordered = sections_;
    std::stable_sort(ordered.begin(), ordered.end(), [](const StationSection* a, const StationSection* b) {
        return a->begins() && b->begins() && a->station() != Station::Read && b->station() != Station::Read && *a->begins() < *b->begins();
    });
    for (size_t i = 0; i < ordered.size(); ++i)
        stations_->insertWidget(int(i), ordered[i]);
    for (const auto& [entity, table] : tables_)
        table->refresh();
    if (tabs_->currentWidget() == history_)
        fillHistory();
}

void PrintPage::follow(const QVector<store::Change>& changes)
{
    if (print_ == 0 || !isVisible())
        return;
    const auto prints = printsTouched(changes);
    if (prints && !prints->contains(print_))
        return;
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

void PrintPage::keyPressEvent(QKeyEvent* event)
{
    if (event->key() == Qt::Key_Escape)
        Q_EMIT closed();
    else
        QWidget::keyPressEvent(event);
}

} // namespace washfast::ui
