#include "app/window/file_check.h"

#include "core/store/copies.h"
#include "core/store/soundness.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QStatusBar>
#include <QTimer>
#include <QToolButton>
#include <QtConcurrent>

namespace washfast {

namespace {
constexpr int shownAfterMs = 1000;
constexpr int resultMs = 8000;
} // namespace

FileCheck::FileCheck(const ui::Services& services, QStatusBar& foot, QObject* parent)
    : QObject(parent)
    , services_(services)
    , foot_(foot)
    , line_(new QWidget(&foot))
{
    auto* row = new QHBoxLayout(line_);
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(new QLabel(tr("Checking the notebook..."), line_));
    auto* button = new QToolButton(line_);
    button->setText(tr("Stop"));
    button->setAccessibleName(tr("Stop checking the notebook"));
    row->addWidget(button);
    foot.addPermanentWidget(line_);
    line_->hide();
    connect(button, &QToolButton::clicked, this, &FileCheck::stop);
    connect(&watcher_, &QFutureWatcherBase::finished, this, &FileCheck::finish);
}

FileCheck::~FileCheck()
{
    stop();
    watcher_.waitForFinished();
}

void FileCheck::start()
{
    if (running())
        return;
    stop_ = {};
    watcher_.setFuture(QtConcurrent::run([path = services_.desk.file().path(), stop = stop_.get_token()] {
        auto seen = std::make_shared<Seen>(Seen { store::wholeLook(path, stop), {} });
        if (seen->look && seen->look->damaged())
            seen->way_out = store::wayOut(path, stop);
        return seen;
    }));
    QTimer::singleShot(shownAfterMs, line_, [this] { line_->setVisible(running()); });
}

void FileCheck::stop()
{
    stop_.request_stop();
}

void FileCheck::finish()
{
    line_->hide();
    const auto seen = watcher_.result();
    auto& desk = services_.desk;
    if (!seen->look) {
        foot_.showMessage(tr("The notebook could not be checked: %1").arg(seen->look.error().says), resultMs);
        return;
    }
    if (seen->look->damaged()) {
        const bool was_writable = desk.writable();
        auto how = store::damaged(seen->look->fault, desk.file().path());
        how.says += QLatin1Char(' ') + seen->way_out;
        desk.foundDamaged(how);
        if (was_writable) // the person is at work
            services_.dialogs.error(foot_.window(), tr("The notebook is damaged"),
                tr("Nothing more is written into it. %1").arg(how.says), how.where);
        Q_EMIT foundDamaged();
        return;
    }
    foot_.showMessage(seen->look->finished ? tr("The notebook was checked: it is sound.")
                                           : tr("The check of the notebook was stopped before its end."),
        resultMs);
    Q_EMIT passed();
}

} // namespace washfast
