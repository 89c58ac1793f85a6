#include "ui/causes/causes_view.h"

#include "core/causes/answer_json.h"
#include "ui/causes/answer_panel.h"
#include "ui/causes/factor_model.h"

#include <QClipboard>
#include <QComboBox>
#include <QFormLayout>
#include <QGuiApplication>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QJsonDocument>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSaveFile>
#include <QTableView>
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
    panel_ = new AnswerPanel(look.theme(), this);
    column->addWidget(panel_);
    factors_ = new FactorModel(desk.catalogue(), this);
    table_ = new QTableView(this);
    table_->setAccessibleName(tr("Factors and their evidence"));
    table_->setModel(factors_);
    styleTable(*table_);
    table_->horizontalHeader()->setStretchLastSection(true);
    table_->setWordWrap(false);
    column->addWidget(table_, 1);
    auto* foot = new QHBoxLayout;
    about_ = new QLabel(this);
    about_->setWordWrap(true);
    foot->addWidget(about_, 1);
    auto* copy = new QPushButton(tr("Co&py table"), this);
    auto* keep = new QPushButton(tr("&Save answer..."), this);
    foot->addWidget(copy, 0, Qt::AlignTop);
    foot->addWidget(keep, 0, Qt::AlignTop);
    column->addLayout(foot);

    connect(copy, &QPushButton::clicked, this, [this] {
        QGuiApplication::clipboard()->setText(factors_->asTable());
        Q_EMIT say(tr("Copied as a table."));
    });
    connect(keep, &QPushButton::clicked, this, &CausesView::save);
    connect(table_->selectionModel(), &QItemSelectionModel::currentRowChanged, this, [this](const QModelIndex& index) {
        about_->setText(index.isValid()
                ? factors_->about(index.row()).replace(QLatin1Char('\n'), QStringLiteral("  ·  "))
                : QString());
    });
    connect(panel_, &AnswerPanel::printWanted, this, [this](const QString& code) {
        if (const auto id = desk.notebook().byName(Entity::Print, code))
            Q_EMIT openPrint(*id);
    });
    connect(&watcher_, &QFutureWatcherBase::finished, this, [this] {
        if (again_) {
            again_ = false;
            search();
            return;
        }
        answer_ = watcher_.result();
        panel_->setAnswer(answer_);
        factors_->setAnswer(answer_);
        table_->resizeColumnsToContents();
        Q_EMIT answered();
    });
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
    watcher_.waitForFinished();
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
    second->addStretch(0);
    form->addRow(tr("and &ask"), second);
    block_ = new QComboBox(this);
    block_->setAccessibleName(tr("Compare only within"));
    block_->addItem(tr("all together"), QString());
    block_->addItem(tr("each session"), QStringLiteral("session_code"));
    block_->addItem(tr("each mix"), QStringLiteral("mix_code"));
    block_->addItem(tr("each tray"), QStringLiteral("rinse_tray"));
    auto* third = new QHBoxLayout;
    third->addWidget(block_);
    third->addStretch(1);
    form->addRow(tr("compare &within"), third);
    qobject_cast<QLabel*>(form->labelForField(first))->setBuddy(batch_);
    qobject_cast<QLabel*>(form->labelForField(second))->setBuddy(outcome_);
    qobject_cast<QLabel*>(form->labelForField(third))->setBuddy(block_);

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
        factors_->setAnswer({});
        panel_->setSentence(QStringLiteral("○ ") + tr("Nothing to answer"), table.error().says);
        Q_EMIT answered();
        return;
    }
    panel_->setSentence(tr("Searching..."), tr("Exact tests of %n factor(s).", nullptr, int(table->factors.size())));
    watcher_.setFuture(QtConcurrent::run([table = std::move(*table)] { return causes::analyse(table); }));
}

void CausesView::save()
{
    const auto path
        = dialogs.saveFile(this, tr("Save the answer"), QStringLiteral("answer.json"), { tr("JSON (*.json)") });
    if (!path)
        return;
    const auto bytes = QJsonDocument(causes::toJson(answer_)).toJson();
    QSaveFile file(*path);
    if (!file.open(QIODevice::WriteOnly) || file.write(bytes) != bytes.size() || !file.flush() || !file.commit())
        dialogs.error(this, tr("The answer was not saved"), file.errorString(), *path);
    else
        Q_EMIT say(tr("Saved: %1").arg(*path));
}

} // namespace washfast::ui
