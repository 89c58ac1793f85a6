#include "ui/reading/opening_bar.h"

#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>
#include <QtConcurrent/QtConcurrentRun>

namespace washfast::ui {

OpeningBar::OpeningBar(QWidget* parent)
    : QWidget(parent)
{
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, 0, 0, 0);
    progress_ = new QProgressBar(this);
    progress_->setAccessibleName(tr("Opening photos"));
    column->addWidget(progress_);
    stop_ = new QPushButton(tr("Stop"), this);
    stop_->setAccessibleName(tr("Stop opening photos"));
    stop_->setAutoDefault(false);
    column->addWidget(stop_);
    connect(stop_, &QPushButton::clicked, this, &OpeningBar::stop);
    connect(&open_, &QFutureWatcherBase::finished, this, &OpeningBar::takeOpened);
    hide();
}

OpeningBar::~OpeningBar()
{
    cancel_ = true;
    open_.waitForFinished();
}

void OpeningBar::add(MarkedPhoto* into, const QString& path, const QByteArray& bytes)
{
    waiting_.push_back({ into, path, bytes });
    if (!opening_)
        openNext();
}

void OpeningBar::openNext()
{
    setVisible(!waiting_.empty());
    if (waiting_.empty())
        return;
    const auto next = std::move(waiting_.front());
    waiting_.pop_front();
    opening_ = next.into;
    cancel_ = false;
    progress_->setValue(0);
    progress_->setFormat(tr("Opening %1").arg(next.into->name));
    density::Watch watch;
    watch.cancel = &cancel_;
    watch.progress = [bar = progress_](double share) {
        QMetaObject::invokeMethod(
            bar, [bar, share] { bar->setValue(int(100 * share)); }, Qt::QueuedConnection);
    };
    open_.setFuture(QtConcurrent::run([next, watch, name = next.into->name] {
        return std::make_shared<Result<density::Photo>>(
            next.path.isEmpty() ? density::readPhoto(next.bytes, name, watch) : density::openPhoto(next.path, watch));
    }));
}

void OpeningBar::takeOpened()
{
    auto* into = std::exchange(opening_, nullptr);
    const auto result = open_.result();
    if (*result) {
        into->photo = std::make_shared<const density::Photo>(std::move(**result));
        into->shown = into->photo->image;
    } else
        into->trouble = result->error().sentence();
    Q_EMIT opened(into);
    openNext();
}

void OpeningBar::stop()
{
    cancel_ = true;
    for (const auto& left : std::exchange(waiting_, {})) {
        left.into->trouble = tr("Stopped before it was opened.");
        Q_EMIT opened(left.into);
    }
}

} // namespace washfast::ui
