#include "ui/term/bring_in_dialog.h"

#include <QDialogButtonBox>
#include <QFileInfo>
#include <QLabel>
#include <QPlainTextEdit>
#include <QProgressBar>
#include <QPromise>
#include <QPushButton>
#include <QVBoxLayout>
#include <QtConcurrent>

namespace washfast::ui {

namespace {

constexpr int widthPx = 620, heightPx = 420;
constexpr int wholeTable = 100;

QString countsOf(const store::MergeReport& report)
{
    QStringList lines;
    for (const auto entity : allEntities()) {
        const auto label = entityLabel(entity);
        if (const int added = report.added[size_t(entity)]; added > 0)
            lines << BringInDialog::tr("%1: %2 added").arg(label).arg(added);
        if (const int removed = report.removed[size_t(entity)]; removed > 0)
            lines << BringInDialog::tr("%1: %2 removed, as in the other notebook").arg(label).arg(removed);
    }
    return lines.join(QLatin1Char('\n'));
}

} // namespace

BringInDialog::BringInDialog(const Services& services, QWidget* parent)
    : QDialog(parent)
    , services_(services)
{
    setWindowTitle(tr("Bring in another notebook"));
    auto* column = new QVBoxLayout(this);
    heading_ = new QLabel(this);
    heading_->setWordWrap(true);
    column->addWidget(heading_);
    progress_ = new QProgressBar(this);
    progress_->setRange(0, wholeTable);
    progress_->setAccessibleName(tr("How much of the other notebook has been looked at"));
    column->addWidget(progress_);
    told_ = new QPlainTextEdit(this);
    told_->setReadOnly(true);
    told_->setTabChangesFocus(true);
    told_->setAccessibleName(tr("What came of it"));
    column->addWidget(told_, 1);
    auto* buttons = new QDialogButtonBox(this);
    close_ = buttons->addButton(tr("&Stop"), QDialogButtonBox::RejectRole);
    column->addWidget(buttons);
    connect(buttons, &QDialogButtonBox::rejected, this, &BringInDialog::reject);
    connect(&watcher_, &QFutureWatcherBase::progressValueChanged, progress_, &QProgressBar::setValue);
    connect(&watcher_, &QFutureWatcherBase::finished, this, &BringInDialog::finish);
    resize(widthPx, heightPx);
}

BringInDialog::~BringInDialog()
{
    stop_.request_stop();
    watcher_.waitForFinished();
}

bool BringInDialog::choose()
{
    const auto path = services_.dialogs.openFile(parentWidget(), windowTitle(),
        QFileInfo(services_.desk.file().path()).absolutePath(), { tr("Notebooks (*.washfast)"), tr("All files (*)") });
    if (path)
        begin(*path);
    return path.has_value();
}

void BringInDialog::begin(const QString& path)
{
    path_ = path;
    heading_->setText(tr("Bringing in %1. The other notebook is only read; a copy of this one is made before anything "
                         "is written.")
                          .arg(QFileInfo(path).fileName()));
    if (const auto itself = store::isItself(services_.desk.file().path(), path)) {
        refuse(*itself);
        return;
    }
    // On a connection of its own: the desk takes the step in like that of another window.
    watcher_.setFuture(QtConcurrent::run([stop = stop_.get_token(), own = services_.desk.file().path(),
                                             &catalogue = services_.desk.catalogue(), path](QPromise<Answer>& promise) {
        promise.setProgressRange(0, wholeTable);
        store::OpenOptions how;
        how.create = false;
        auto file = store::NotebookFile::open(own, catalogue, how);
        if (!file) {
            promise.addResult(std::make_shared<Result<store::MergeReport>>(file.error()));
            return;
        }
        store::MergeOptions options;
        options.stop = stop;
        options.keep_going = [&promise, &stop](double share) {
            promise.setProgressValue(int(share * wholeTable));
            return !stop.stop_requested();
        };
        promise.addResult(std::make_shared<Result<store::MergeReport>>(store::merge(**file, path, options)));
    }));
}

void BringInDialog::refuse(const Error& error)
{
    progress_->hide();
    close_->setText(tr("&Close"));
    heading_->setText(tr("Nothing was brought in"));
    told_->setPlainText(error.sentence());
}

void BringInDialog::finish()
{
    progress_->hide();
    close_->setText(tr("&Close"));
    services_.desk.lookForChanges();
    const auto came = watcher_.result();
    if (!*came) {
        refuse(came->error());
        return;
    }
    const auto& report = came->value();
    heading_->setText(report.step == 0
            ? tr("%1 has nothing that is not here.").arg(QFileInfo(path_).fileName())
            : tr("%1 was brought in. Ctrl+Z takes it back.").arg(QFileInfo(path_).fileName()));
    const auto counts = countsOf(report);
    told_->setPlainText((report.notes() + (counts.isEmpty() ? QStringList() : QStringList { QString(), counts }))
                            .join(QLatin1Char('\n')));
}

QString BringInDialog::told() const
{
    return heading_->text() + QLatin1Char('\n') + told_->toPlainText();
}

void BringInDialog::reject()
{
    if (watcher_.isRunning()) {
        stop_.request_stop();
        return; // finish() says how it ended
    }
    QDialog::reject();
}

} // namespace washfast::ui
