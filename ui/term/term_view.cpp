#include "ui/term/term_view.h"

#include "core/report/report_files.h"
#include "ui/common/empty_state.h"
#include "ui/term/import_dialog.h"
#include "ui/term/outcome_bar.h"
#include "ui/term/report_job.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QProgressBar>
#include <QPromise>
#include <QPushButton>
#include <QStackedWidget>
#include <QTableWidget>
#include <QTimer>
#include <QVBoxLayout>
#include <QtConcurrent>

namespace washfast::ui {

namespace {
constexpr int whole = 100;
constexpr int patienceMs = 200; // a short report shows no bar
enum Column { Session, Group, Start, Prints, Failed, NotJudged, Net, Kept, Waiting, Became, columnCount };
}

TermView::TermView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    auto* column = new QVBoxLayout(this);
    auto* bar = new QHBoxLayout;
    column->addLayout(bar);
    terms_ = new QComboBox(this);
    terms_->setAccessibleName(tr("Which term"));
    terms_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    bar->addWidget(terms_);
    sum_ = new QLabel(this);
    bar->addWidget(sum_, 1);
    auto* in = new QPushButton(tr("&Import a table..."), this);
    in->setEnabled(desk.writable());
    export_ = new QPushButton(tr("E&xport this term..."), this);
    export_->setToolTip(tr("As a workbook, a CSV table with its description, JSON, or a report to print. Makers are "
                           "codes, and left out of a report; photos stay here."));
    bar->addWidget(in);
    bar->addWidget(export_);
    waiting_ = new QWidget(this);
    auto* wait = new QHBoxLayout(waiting_);
    wait->setContentsMargins(0, 0, 0, 0);
    progress_ = new QProgressBar(waiting_);
    progress_->setRange(0, whole);
    progress_->setAccessibleName(tr("How far the report is"));
    stop_ = new QPushButton(tr("S&top"), waiting_);
    wait->addWidget(progress_, 1);
    wait->addWidget(stop_);
    waiting_->hide();
    column->addWidget(waiting_);
    pages_ = new QStackedWidget(this);
    column->addWidget(pages_, 1);
    empty_ = new EmptyState(look.theme(), this);
    empty_->setContent(tr("No sessions yet"),
        tr("A term's lessons will stand here with what became of their prints. Old prints can be brought in from a "
           "table."),
        tr("Import a table..."));
    pages_->addWidget(empty_);
    table_ = new QTableWidget(this);
    table_->setAccessibleName(tr("Sessions of the term"));
    table_->setColumnCount(columnCount);
    table_->setHorizontalHeaderLabels({ tr("Session"), tr("Group"), tr("When"), tr("Prints"), tr("Failed"),
        tr("Not judged"), tr("Net density, median"), tr("Kept, median"), tr("Waiting for the day after"),
        tr("✓ kept   ✕ failed   ? not judged") });
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    styleTable(*table_);
    table_->setItemDelegateForColumn(Became, new OutcomeBar(look, this));
    table_->horizontalHeader()->setStretchLastSection(true);
    pages_->addWidget(table_);
    connect(terms_, &QComboBox::activated, this, &TermView::showAgain);
    connect(in, &QPushButton::clicked, this, &TermView::importTable);
    connect(export_, &QPushButton::clicked, this, &TermView::exportTerm);
    connect(stop_, &QPushButton::clicked, this, &TermView::stop);
    connect(&report_, &QFutureWatcherBase::progressValueChanged, progress_, &QProgressBar::setValue);
    connect(&report_, &QFutureWatcherBase::finished, this, &TermView::finishReport);
    connect(empty_, &EmptyState::actionTriggered, this, &TermView::importTable);
    connect(table_, &QTableWidget::cellActivated, this, &TermView::openSession);
    const auto again = [this] {
        if (isVisible())
            showAgain();
    };
    connect(&desk, &Desk::changed, this, again);
    connect(&desk, &Desk::reloaded, this, again);
    connect(&look, &ThemeSource::changed, empty_, &EmptyState::setTheme);
}

void TermView::arrive()
{
    showAgain();
    (shown_.empty() ? static_cast<QWidget*>(empty_->button()) : table_)->setFocus();
}

qint64 TermView::term() const
{
    return terms_->currentData().toLongLong();
}

void TermView::fillTerms()
{
    const auto kept = terms_->count() > 0 ? term() : qint64(-1);
    terms_->clear();
    const auto& table = desk.notebook().table(Entity::Term);
    for (int row = table.rows() - 1; row >= 0; --row)
        terms_->addItem(desk.notebook().nameOf({ Entity::Term, table.id(row) }), table.id(row));
    terms_->addItem(tr("everything"), qint64(0));
    terms_->setCurrentIndex(qMax(0, terms_->findData(kept)));
}

void TermView::showAgain()
{
    fillTerms();
    shown_ = summariesOf(desk.columns(), term());
    table_->setRowCount(int(shown_.size()));
    int prints = 0;
    int failed = 0;
    int waiting = 0;
    int most = 0;
    for (const auto& s : shown_)
        most = qMax(most, s.prints);
    for (int row = 0; row < int(shown_.size()); ++row) {
        const auto& s = shown_[size_t(row)];
        prints += s.prints;
        failed += s.failed;
        waiting += s.waiting;
        const auto number
            = [](const std::optional<double>& v) { return v ? QLocale().toString(*v, 'f', 2) : QStringLiteral("–"); };
        const QString texts[columnCount] = { s.code, s.group,
            s.start ? QLocale().toString(s.start->toDateTime(), QLocale::ShortFormat) : QString(),
            QString::number(s.prints), QString::number(s.failed), QString::number(s.prints - s.judged),
            number(s.median_net), number(s.median_kept), QString::number(s.waiting),
            tr("%1 kept, %2 failed, %3 not judged").arg(s.judged - s.failed).arg(s.failed).arg(s.prints - s.judged) };
        for (int column = 0; column < columnCount; ++column) {
            auto* item = new QTableWidgetItem(texts[column]);
            if (column >= Prints && column != Became)
                item->setTextAlignment(figureAlignment);
            if (column == Became) {
                item->setToolTip(texts[column]);
                item->setData(OutcomeBar::KeptRole, s.judged - s.failed);
                item->setData(OutcomeBar::FailedRole, s.failed);
                item->setData(OutcomeBar::NotJudgedRole, s.prints - s.judged);
                item->setData(OutcomeBar::MostRole, most);
            }
            table_->setItem(row, column, item);
        }
    }
    table_->setColumnHidden(Waiting, waiting == 0);
    table_->resizeColumnsToContents();
    for (int column = 0; column < Became; ++column)
        table_->setColumnWidth(column, table_->columnWidth(column) + 16);
    const auto sum = waiting > 0
        ? tr("%n print(s), %1 failed, %2 waiting for the reading a day after", nullptr, prints).arg(failed).arg(waiting)
        : tr("%n print(s), %1 failed", nullptr, prints).arg(failed);
    sum_->setText(desk.complete() ? sum : tr("reading the notebook..."));
    pages_->setCurrentIndex(shown_.empty() ? 0 : 1);
}

void TermView::openSession(int row)
{
    if (row >= 0 && row < int(shown_.size()))
        Q_EMIT showFiltered(QStringLiteral("session_code = \"%1\"").arg(shown_[size_t(row)].code));
}

void TermView::importTable()
{
    ImportDialog dialog(services(), this);
    (void)dialog.exec();
    showAgain();
}

TermView::~TermView()
{
    stop();
    report_.waitForFinished();
}

bool TermView::exportTo(const QString& path)
{
    if (working())
        return false;
    if (report::isReport(path)) {
        begin(path);
        return true;
    }
    desk.waitUntilComplete();
    const auto selection
        = exchange::selectForExport(desk.notebook(), term() == 0 ? std::nullopt : std::optional(terms_->currentText()));
    return tell(selection ? report::exportTerm(*selection, path) : Result<exchange::ExportDone>(selection.error()));
}

void TermView::begin(const QString& path)
{
    export_->setEnabled(false);
    stop_->setEnabled(true);
    progress_->setValue(0);
    stop_wanted_ = std::make_shared<std::atomic_bool>(false);
    const ReportWanted wanted { desk.file().path(), term() == 0 ? std::nullopt : std::optional(terms_->currentText()),
        path, desk.now().toDateTime().date() };
    report_.setFuture(QtConcurrent::run([&catalogue = desk.catalogue(), wanted, stop = stop_wanted_](
                                            QPromise<std::shared_ptr<Result<exchange::ExportDone>>>& promise) {
        promise.setProgressRange(0, whole);
        promise.addResult(std::make_shared<Result<exchange::ExportDone>>(
            makeTermReport(catalogue, wanted, [&promise, &stop](double share) {
                promise.setProgressValue(int(share * whole));
                return !stop->load();
            })));
    }));
    QTimer::singleShot(patienceMs, this, [this] { waiting_->setVisible(working()); });
}

void TermView::stop()
{
    if (!stop_wanted_)
        return;
    *stop_wanted_ = true;
    stop_->setEnabled(false); // finishReport() says how it ended
}

void TermView::finishReport()
{
    waiting_->hide();
    export_->setEnabled(true);
    const auto done = report_.result();
    if (!*done && *stop_wanted_) {
        Q_EMIT say(done->error().says);
        Q_EMIT exported(false);
        return;
    }
    Q_EMIT exported(tell(*done));
}

bool TermView::tell(const Result<exchange::ExportDone>& done)
{
    if (!done) {
        dialogs.error(this, tr("Nothing was exported"), done.error().says, done.error().where);
        return false;
    }
    Q_EMIT say(tr("%n print(s) written to %1", nullptr, done->prints).arg(done->files.join(QStringLiteral(", "))));
    return true;
}

void TermView::exportTerm()
{
    showAgain();
    const auto path = dialogs.saveFile(this, tr("Export"),
        (term() == 0 ? tr("prints") : terms_->currentText()) + QStringLiteral(".xlsx"),
        { tr("Workbook (*.xlsx)"), tr("CSV table (*.csv)"), tr("JSON (*.json)"), tr("Report, a page (*.html)"),
            tr("Report, to print (*.pdf)") });
    if (path)
        exportTo(*path);
}

} // namespace washfast::ui
