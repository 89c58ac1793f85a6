#include "ui/causes/causes_view.h"

#include "core/causes/answer_json.h"
#include "core/causes/changed.h"
#include "core/files/write_aside.h"
#include "ui/causes/answer_panel.h"
#include "ui/causes/factor_model.h"
#include "ui/causes/next_page.h"
#include "ui/causes/picture_pane.h"
#include "ui/causes/reasoning_pdf.h"

#include <QClipboard>
#include <QComboBox>
#include <QFormLayout>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QJsonDocument>
#include <QLabel>
#include <QLineEdit>
#include <QProgressBar>
#include <QPromise>
#include <QPushButton>
#include <QScrollArea>
#include <QSplitter>
#include <QTabWidget>
#include <QTableView>
#include <QTimer>
#include <QVBoxLayout>
#include <QtConcurrent>

namespace washfast::ui {

namespace {
const QString compareKey = QStringLiteral("against");
}

CausesView::CausesView(const Services& services, QWidget* parent)
    : View(services, parent)
{
    auto* column = new QVBoxLayout(this);
    buildQuestion(*column);
    working_ = new QWidget(this);
    auto* waiting = new QHBoxLayout(working_);
    waiting->setContentsMargins(0, 0, 0, 0);
    progress_ = new QProgressBar(working_);
    progress_->setRange(0, 100);
    progress_->setAccessibleName(tr("How far the search is"));
    auto* halt = new QPushButton(tr("S&top"), working_);
    waiting->addWidget(progress_, 1);
    waiting->addWidget(halt);
    working_->hide();
    column->addWidget(working_);
    connect(halt, &QPushButton::clicked, this, &CausesView::stop);
    panel_ = new AnswerPanel(look.theme(), this);
    auto* scrolled = new QScrollArea(this);
    scrolled->setWidget(panel_);
    scrolled->setWidgetResizable(true);
    scrolled->setFrameShape(QFrame::NoFrame);
    scrolled->setFocusPolicy(Qt::NoFocus);
    pages_ = new QTabWidget(this);
    pages_->setDocumentMode(true);
    buildPages();
    auto* split = new QSplitter(Qt::Vertical, this);
    split->setChildrenCollapsible(false);
    split->addWidget(scrolled);
    split->addWidget(pages_);
    split->setStretchFactor(0, 2);
    split->setStretchFactor(1, 3);
    column->addWidget(split, 1);

    connect(panel_, &AnswerPanel::printWanted, this, [this](const QString& code) {
        if (const auto id = desk.notebook().byName(Entity::Print, code))
            Q_EMIT openPrint(*id);
    });
    connect(&watcher_, &QFutureWatcherBase::finished, this, &CausesView::finishSearch);
    connect(&watcher_, &QFutureWatcherBase::progressValueChanged, progress_, &QProgressBar::setValue);
    const auto later = [this] {
        stale_ = true;
        if (isVisible())
            arrive();
    };
    connect(&desk, &Desk::changed, this, later);
    connect(&desk, &Desk::reloaded, this, later);
    connect(&look, &ThemeSource::changed, panel_, &AnswerPanel::setTheme);
}

CausesView::~CausesView()
{
    watcher_.cancel();
    watcher_.waitForFinished();
}

void CausesView::buildPages()
{
    factors_ = new FactorModel(desk.catalogue(), this);
    auto* first = new QWidget(this);
    auto* column = new QVBoxLayout(first);
    column->setContentsMargins(0, 4, 0, 0);
    table_ = new QTableView(first);
    table_->setAccessibleName(tr("Factors and their evidence"));
    table_->setModel(factors_);
    styleTable(*table_);
    table_->horizontalHeader()->setStretchLastSection(true);
    column->addWidget(table_, 1);
    about_ = new QLabel(first);
    about_->setWordWrap(true);
    column->addWidget(about_);
    pages_->addTab(first, tr("All &factors"));

    auto* second = new QWidget(this);
    auto* strip_column = new QVBoxLayout(second);
    strip_column->setContentsMargins(0, 4, 0, 0);
    auto* bar = new QHBoxLayout;
    one_ = new QComboBox(second);
    one_->setAccessibleName(tr("Which factor"));
    one_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    bar->addWidget(one_);
    pointed_ = new QLabel(second);
    bar->addWidget(pointed_, 1);
    strip_column->addLayout(bar);
    strip_ = new PicturePane(look, second);
    strip_->setAccessibleName(tr("Every print along this factor"));
    strip_column->addWidget(strip_, 1);
    pages_->addTab(second, tr("&One factor, every print"));

    effects_ = new PicturePane(look, this);
    effects_->setAccessibleName(tr("Effects of the factors"));
    pages_->addTab(effects_, tr("&Effects"));
    together_ = new PicturePane(look, this);
    together_->setAccessibleName(tr("What moved together"));
    pages_->addTab(together_, tr("&Moved together"));
    next_ = new NextPage(services(), this);
    pages_->addTab(next_, tr("&Next prints"));

    auto* corner = new QWidget(pages_);
    auto* row = new QHBoxLayout(corner);
    row->setContentsMargins(0, 0, 0, 2);
    auto* copy = new QPushButton(tr("Co&py table"), corner);
    auto* keep = new QPushButton(tr("&Save answer..."), corner);
    keep->setToolTip(tr("The whole reasoning as PDF, or JSON."));
    row->addWidget(copy);
    row->addWidget(keep);
    pages_->setCornerWidget(corner);
    connect(copy, &QPushButton::clicked, this, [this] {
        QGuiApplication::clipboard()->setText(factors_->asTable());
        Q_EMIT say(tr("Copied as a table."));
    });
    connect(keep, &QPushButton::clicked, this, &CausesView::save);
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, [this](const QModelIndex& index) {
        about_->setText(index.isValid()
                ? factors_->about(index.row()).replace(QLatin1Char('\n'), QStringLiteral("  ·  "))
                : QString());
        if (index.isValid())
            one_->setCurrentIndex(index.row());
    });
    connect(table_, &QTableView::activated, this, [this](const QModelIndex& index) {
        one_->setCurrentIndex(index.row());
        pages_->setCurrentIndex(1);
    });
    connect(one_, &QComboBox::currentIndexChanged, this, &CausesView::showFactor);
    connect(strip_, &PicturePane::pointedAt, this, [this](const QString& code) {
        pointed_->setText(
            code.isEmpty() ? tr("Point at a print to see which it is; click or press Enter to open it.") : code);
    });
    connect(strip_, &PicturePane::picked, this, [this](const QString& code) {
        if (const auto id = desk.notebook().byName(Entity::Print, code))
            Q_EMIT openPrint(*id);
    });
    connect(next_, &NextPage::say, this, &View::say);
}

void CausesView::finishSearch()
{
    working_->hide();
    if (again_) {
        again_ = false;
        search();
        return;
    }
    const bool stopped = watcher_.isCanceled() || watcher_.future().resultCount() == 0;
    if (stopped) {
        panel_->setSentence(QStringLiteral("○ ") + tr("Stopped"), tr("The search was left before it had an answer."));
        Q_EMIT answered();
        return;
    }
    const auto before = found_.answer;
    found_ = watcher_.result();
    showFound();
    if (asked_ == answered_ && before.n != found_.answer.n)
        panel_->setChanged(causes::whatChanged(before, found_.answer));
    answered_ = asked_;
    Q_EMIT answered();
}

void CausesView::stop()
{
    watcher_.cancel();
}

void CausesView::showFound()
{
    panel_->setAnswer(found_.answer);
    factors_->setAnswer(found_.answer);
    table_->resizeColumnsToContents();
    {
        const QSignalBlocker quiet(one_);
        one_->clear();
        for (int row = 0; row < factors_->rowCount(); ++row) {
            const auto& factor = factors_->factor(row);
            one_->addItem(factor.label.isEmpty() ? factor.name : factor.label, factor.name);
        }
    }
    one_->setCurrentIndex(factors_->rowCount() > 0 ? 0 : -1);
    showFactor(one_->currentIndex());
    effects_->setPicture([effects = effectsOf(found_.table, found_.answer)](
                             QPainter& painter, const QRectF& area, const Theme& theme, int) {
        paintEffects(painter, area.adjusted(8, 8, -8, -6), effects, theme);
        return std::vector<QPointF>();
    });
    together_->setPicture(
        [drawn = togetherOf(found_.answer)](QPainter& painter, const QRectF& area, const Theme& theme, int) {
            paintTogether(painter, area.adjusted(8, 6, -8, -4), drawn, theme);
            return std::vector<QPointF>();
        });
    next_->setPlan(found_.next);
}

void CausesView::showFactor(int row)
{
    if (row < 0 || row >= factors_->rowCount()) {
        strip_->setPicture({});
        pointed_->clear();
        return;
    }
    auto shown = stripOf(found_.table, factors_->factor(row));
    pointed_->setText(shown.unknown > 0
            ? tr("%n print(s) not shown: this or the outcome was not recorded", nullptr, shown.unknown)
            : tr("Point at a print to see which it is; click or press Enter to open it."));
    const auto codes = shown.codes;
    strip_->setPicture(
        [drawn = std::move(shown)](QPainter& painter, const QRectF& area, const Theme& theme, int pointed) {
            return paintStrip(painter, area.adjusted(4, 4, -4, -4), drawn, theme, pointed);
        },
        codes);
}

void CausesView::buildQuestion(QVBoxLayout& column)
{
    auto* form = new QFormLayout;
    column.addLayout(form);
    batch_ = new QComboBox(this);
    batch_->setAccessibleName(tr("Batch"));
    batch_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    filter_ = new QLineEdit(this);
    filter_->setAccessibleName(tr("Filter of the batch"));
    filter_->setPlaceholderText(tr("or any filter, as in the table of prints"));
    filter_->setClearButtonEnabled(true);
    auto* first = new QHBoxLayout;
    first->addWidget(batch_);
    first->addWidget(filter_, 1);
    form->addRow(tr("&Look at"), first);
    outcome_ = new QComboBox(this);
    outcome_->setAccessibleName(tr("Question"));
    outcome_->setSizeAdjustPolicy(QComboBox::AdjustToContents);
    for (const auto& choice : outcomeChoices(desk.catalogue()))
        outcome_->addItem(choice.title, choice.key);
    outcome_->addItem(tr("how do they differ from other prints?"), compareKey);
    against_ = new QLineEdit(this);
    against_->setAccessibleName(tr("Prints to compare with"));
    against_->setPlaceholderText(tr("all the others, or a filter"));
    against_->setClearButtonEnabled(true);
    against_->setVisible(false);
    auto* second = new QHBoxLayout;
    second->addWidget(outcome_);
    second->addWidget(against_, 1);
    block_ = new QComboBox(this);
    block_->setAccessibleName(tr("Compare only within"));
    block_->addItem(tr("all together"), QString());
    block_->addItem(tr("each session"), QStringLiteral("session_code"));
    block_->addItem(tr("each mix"), QStringLiteral("mix_code"));
    block_->addItem(tr("each tray"), QStringLiteral("rinse_tray"));
    auto* within = new QLabel(tr("compare &within"), this);
    within->setBuddy(block_);
    second->addSpacing(16);
    second->addWidget(within);
    second->addWidget(block_);
    second->addStretch(0);
    form->addRow(tr("and &ask"), second);
    qobject_cast<QLabel*>(form->labelForField(first))->setBuddy(batch_);
    qobject_cast<QLabel*>(form->labelForField(second))->setBuddy(outcome_);

    connect(batch_, &QComboBox::activated, this, [this] {
        filter_->setText(batch_->currentData().toString());
        search();
    });
    connect(outcome_, &QComboBox::activated, this, [this] {
        against_->setVisible(outcome_->currentData() == compareKey);
        search();
    });
    connect(block_, &QComboBox::activated, this, &CausesView::search);
    connect(filter_, &QLineEdit::editingFinished, this, [this] {
        if (filter_->isModified()) {
            filter_->setModified(false);
            search();
        }
    });
    connect(against_, &QLineEdit::editingFinished, this, [this] {
        if (against_->isModified()) {
            against_->setModified(false);
            search();
        }
    });
}

void CausesView::fillChoices()
{
    const auto kept = batch_->currentData().toString();
    batch_->clear();
    for (const auto& choice : batchChoices(desk.notebook()))
        batch_->addItem(choice.title, choice.filter);
    batch_->setCurrentIndex(qMax(0, batch_->findData(kept)));
}

void CausesView::arrive()
{
    if (stale_) {
        stale_ = false;
        fillChoices();
        search();
    }
    if (!filter_->hasFocus() && !against_->hasFocus())
        batch_->setFocus();
}

Question CausesView::question() const
{
    Question question;
    question.batch = filter_->text();
    question.compare = outcome_->currentData() == compareKey;
    question.outcome = question.compare ? QString() : outcome_->currentData().toString();
    question.against = against_->text();
    question.block = block_->currentData().toString();
    return question;
}

void CausesView::ask(const Question& question)
{
    stale_ = false;
    fillChoices();
    filter_->setText(question.batch);
    batch_->setCurrentIndex(batch_->findData(question.batch));
    outcome_->setCurrentIndex(outcome_->findData(question.compare ? compareKey : question.outcome));
    against_->setText(question.against);
    against_->setVisible(question.compare);
    block_->setCurrentIndex(qMax(0, block_->findData(question.block)));
    search();
}

void CausesView::search()
{
    if (watcher_.isRunning()) {
        again_ = true;
        return;
    }
    if (!desk.complete()) {
        panel_->setSentence(
            tr("Reading the notebook..."), tr("The answer needs all prints; it comes as soon as they are read."));
        return;
    }
    auto table = tableFor(question(), desk.columns());
    if (!table) {
        found_ = {};
        showFound();
        panel_->setSentence(QStringLiteral("○ ") + tr("Nothing to answer"), table.error().says);
        Q_EMIT answered();
        return;
    }
    panel_->setSentence(tr("Searching..."), tr("Exact tests of %n factor(s).", nullptr, int(table->factors.size())));
    const auto now = question();
    asked_ = QStringList { now.batch, now.outcome, now.against, now.block, QString::number(int(now.compare)) }.join(
        QLatin1Char('\n'));
    watcher_.setFuture(QtConcurrent::run([table = std::move(*table)](QPromise<Found>& promise) {
        promise.setProgressRange(0, 100);
        causes::Options options;
        options.keep_going = [&promise](double share) {
            promise.setProgressValue(int(share * 100));
            return !promise.isCanceled();
        };
        Found found { table, causes::analyse(table, options), {} };
        if (promise.isCanceled() || found.answer.stopped)
            return;
        found.next = causes::nextPrints(found.table, found.answer);
        promise.addResult(std::move(found));
    }));
    constexpr int patienceMs = 200;
    QTimer::singleShot(patienceMs, this, [this] { working_->setVisible(watcher_.isRunning()); });
}

void CausesView::save()
{
    const auto path = dialogs.saveFile(
        this, tr("Save the answer"), tr("answer") + QStringLiteral(".pdf"), { tr("PDF (*.pdf)"), tr("JSON (*.json)") });
    if (path)
        saveTo(*path);
}

bool CausesView::saveTo(const QString& path)
{
    QByteArray bytes;
    if (path.endsWith(QLatin1String(".json"), Qt::CaseInsensitive)) {
        auto object = causes::toJson(found_.answer);
        object[QStringLiteral("next")] = causes::toJson(found_.next);
        bytes = QJsonDocument(object).toJson();
    } else {
        constexpr QSize size(760, 330);
        const auto light = lightTheme(); // paper is white, whatever the room
        bytes = reasoningPdf(
            { panel_->heading(), found_.answer, found_.next, next_->sentence(), *factors_,
                { strip_->image(size, light), effects_->image(size, light), together_->image(size, light) } },
            font());
    }
    if (const auto written = files::writeFiles({ { path, bytes } }, files::Existing::Replace); !written) {
        dialogs.error(this, tr("The answer was not saved"), written.error().says, written.error().where);
        return false;
    }
    Q_EMIT say(tr("Saved: %1").arg(path));
    return true;
}

} // namespace washfast::ui
