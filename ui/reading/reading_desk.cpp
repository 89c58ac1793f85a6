#include "ui/reading/reading_desk.h"

#include "ui/reading/enter_readings.h"
#include "ui/reading/photo_canvas.h"

#include <QCheckBox>
#include <QComboBox>
#include <QDoubleSpinBox>
#include <QFileInfo>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QSettings>
#include <QtConcurrent/QtConcurrentRun>

namespace washfast::ui {

ReadingDesk::~ReadingDesk()
{
    cancel_ = true;
    open_.waitForFinished();
    measure_.waitForFinished();
}

bool ReadingDesk::working() const
{
    return opening_ || !waiting_.empty() || measuring_;
}

void ReadingDesk::addStored(qint64 photo)
{
    const PhotoId id { photo };
    auto made = std::make_unique<MarkedPhoto>();
    made->name = services_.desk.notebook().nameOf(id);
    auto* into = made.get();
    photos_.push_back(std::move(made));
    photo_->addItem(into->name);
    if (auto bytes = services_.desk.file().photo(id))
        await({ into, {}, *bytes });
    else
        into->trouble = bytes.error().sentence();
    photo_->setCurrentIndex(photo_->count() - 1);
    showPhoto();
}

void ReadingDesk::addFiles(const QStringList& paths)
{
    for (const auto& path : paths) {
        photos_.push_back(std::make_unique<MarkedPhoto>());
        photos_.back()->name = QFileInfo(path).fileName();
        photo_->addItem(photos_.back()->name);
        await({ photos_.back().get(), path, {} });
    }
    if (!paths.isEmpty())
        photo_->setCurrentIndex(photo_->count() - int(paths.size()));
    showPhoto();
}

void ReadingDesk::await(Waiting waiting)
{
    waiting_.push_back(std::move(waiting));
    if (!opening_)
        openNext();
}

void ReadingDesk::openNext()
{
    const bool more = !waiting_.empty();
    progress_->setVisible(more);
    stop_->setVisible(more);
    if (!more)
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

void ReadingDesk::takeOpened()
{
    auto* into = std::exchange(opening_, nullptr);
    const auto result = open_.result();
    if (*result) {
        into->photo = std::make_shared<const density::Photo>(std::move(**result));
        into->shown = into->photo->image;
    } else
        into->trouble = result->error().sentence();
    if (into == current())
        showPhoto();
    openNext();
}

void ReadingDesk::stop()
{
    cancel_ = true;
    for (const auto& left : waiting_)
        left.into->trouble = tr("Stopped before it was opened.");
    waiting_.clear();
}

MarkedPhoto* ReadingDesk::current() const
{
    const int i = photo_->currentIndex();
    return i >= 0 && i < int(photos_.size()) ? photos_[size_t(i)].get() : nullptr;
}

void ReadingDesk::showPhoto()
{
    auto* photo = current();
    canvas_->setPhoto(photo,
        !photo                         ? tr("Open a photo that shows the print beside a white and a grey card.")
            : photo->trouble.isEmpty() ? tr("Opening %1 ...").arg(photo->name)
                                       : photo->trouble);
    fillPrints();
    marksChanged();
}

void ReadingDesk::marksChanged()
{
    if (auto* photo = current()) {
        photo->measured.reset(); // what stands beside changed marks would be wrong
        photo->refusal.clear();
    }
    canvas_->update();
    fillTable();
    fillSentences();
    measureNow();
}

void ReadingDesk::measureNow()
{
    auto* photo = current();
    if (measuring_) {
        again_ = true;
        return;
    }
    if (!photo || !photo->photo || photo->marks.empty())
        return;
    measuring_ = true;
    const auto marks = marksOf(*photo, { white_->value(), grey_->value() }, level_->isChecked());
    measure_.setFuture(QtConcurrent::run([photo, pixels = photo->photo, marks] {
        return Measured { photo, std::make_shared<Result<density::Measurement>>(density::measure(*pixels, marks)) };
    }));
}

void ReadingDesk::takeMeasured()
{
    const auto done = measure_.result();
    measuring_ = false;
    if (std::exchange(again_, false)) { // of marks that are no more
        measureNow();
        return;
    }
    if (*done.result)
        done.of->measured = **done.result;
    else
        done.of->refusal = done.result->error().sentence();
    fillTable();
    fillSentences();
    showCorrection();
}

void ReadingDesk::choosePhotos()
{
    addFiles(services_.dialogs.openFiles(
        this, tr("Open photos"), {}, { tr("Pictures (*.jpg *.jpeg *.png *.tif *.tiff *.webp)") }));
}

void ReadingDesk::assign()
{
    auto* photo = current();
    const int corner = photo ? canvas_->chosen() - int(photo->marks.size()) : -1;
    if (corner < 0)
        return;
    photo->outlines[size_t(corner / 4)].print = assigned_->currentData().toLongLong();
    fillTable();
    fillSentences();
}

void ReadingDesk::enter()
{
    const auto* photo = current();
    if (!photo || !photo->measured)
        return;
    QSettings settings;
    settings.setValue(QStringLiteral("reading/white_density"), white_->value());
    settings.setValue(QStringLiteral("reading/grey_density"), grey_->value());
    settings.setValue(QStringLiteral("reading/cards_measured"), cards_measured_->isChecked());
    EnterChoices choices { print_, when_->currentData().toString(),
        static_cast<density::ReadChannel>(channel_->currentData().toInt()),
        cards_measured_->isChecked() ? Evidence::Measured : Evidence::Assumed };
    const auto entered = enterReadings(services_.desk, *photo, choices);
    QStringList all { tr("Readings entered: %1 (%2 density).").arg(entered.rows).arg(channel_->currentText()) };
    if (entered.rows > 0 && choices.cards == Evidence::Assumed)
        all << tr("They count as assumed, because the densities of the cards do.");
    all << entered.refused;
    sentences_->setText(all.join(QLatin1Char('\n')));
}

} // namespace washfast::ui
