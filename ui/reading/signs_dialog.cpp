#include "ui/reading/signs_dialog.h"

#include "ui/reading/signs_canvas.h"
#include "ui/reading/signs_picture.h"
#include "ui/reading/signs_record.h"
#include "ui/reading/signs_words.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QPushButton>
#include <QTabWidget>
#include <QTableWidget>
#include <QtConcurrent/QtConcurrentRun>

namespace washfast::ui {

SignsDialog::~SignsDialog()
{
    work_->stop();
    watcher_.waitForFinished();
    delete opener_; // waits for its photo, which tells the bar
}

bool SignsDialog::working() const
{
    return opener_->busy() || looking_;
}

QString SignsDialog::says() const
{
    return headline_->text() + QLatin1Char('\n') + not_found_->text();
}

void SignsDialog::chooseBefore()
{
    const auto photo = before_->currentData().toLongLong();
    if (photo == 0)
        earlier_.reset();
    else if (!earlier_ || earlier_->id != photo) {
        earlier_ = storedSheet(services_.desk, photo);
        opener_->open(earlier_);
    }
    shown_->setEnabled(earlier_ != nullptr);
    if (!earlier_)
        shown_->setCurrentIndex(0);
    showSheet();
}

void SignsDialog::showSheet()
{
    const auto& sheet = shown_->currentIndex() == 1 && earlier_ ? earlier_ : now_;
    canvas_->setSheet(
        sheet, sheet->photo || !sheet->trouble.isEmpty() ? QString() : tr("Opening %1 ...").arg(sheet->name));
    marksChanged();
}

void SignsDialog::marksChanged()
{
    const bool ready = now_->photo && (!earlier_ || earlier_->photo);
    look_for_->setEnabled(ready && !working());
    before_->setEnabled(!looking_); // what is found has to go with what is chosen
    if (now_->photo && !size_touched_) {
        const auto size = sheetSize(services_.desk, print_, now_->corners);
        const QSignalBlocker one(width_), two(height_);
        width_->setValue(size.width_mm);
        height_->setValue(size.height_mm);
        size_note_->setText(size.recorded
                ? tr("The size of the print, as recorded.")
                : tr("The print's size is not recorded: 150 mm long is assumed, and every spacing with it."));
    }
    QStringList troubles;
    for (const auto& sheet : { now_, earlier_ })
        if (sheet && !sheet->trouble.isEmpty())
            troubles << sheet->trouble;
    if (!refusal_.isEmpty())
        troubles << refusal_;
    hint_->setText(!troubles.isEmpty()
            ? troubles.join(QLatin1Char('\n'))
            : tr("Drag the four corners onto the sheet. Where you can, draw a bare piece of paper, a covered part, a "
                 "white of the print, an edge, and the part that should be even: a motif looks like mottle."));
}

std::optional<double> SignsDialog::brush() const
{
    switch (brush_->currentIndex()) {
    case 1:
        return 0;
    case 2:
        return 90;
    case 3:
        return angle_->value();
    default:
        return {};
    }
}

density::SignQuestion SignsDialog::question() const
{
    const auto sheet = [](const MarkedSheet& from) {
        density::SheetPhoto out;
        out.photo = from.photo;
        out.corners = from.corners;
        out.paper = from.region(SheetRole::Paper);
        out.covered = from.region(SheetRole::Covered);
        out.white = from.region(SheetRole::White);
        out.even = from.region(SheetRole::Even);
        out.edge = from.region(SheetRole::Edge);
        return out;
    };
    density::SignQuestion question;
    question.now = sheet(*now_);
    if (earlier_)
        question.before = sheet(*earlier_);
    question.width_mm = width_->value();
    question.height_mm = height_->value();
    question.brush_deg = brush();
    // A coat that has seen no light is yellow: its differences are in the blue channel.
    question.channel
        = now_->stage == QLatin1String("coated") ? density::PictureChannel::Blue : density::PictureChannel::Red;
    return question;
}

void SignsDialog::look()
{
    if (!look_for_->isEnabled())
        return;
    refusal_.clear();
    looking_ = true;
    marksChanged();
    const auto watch = work_->begin(tr("Looking for signs"));
    watcher_.setFuture(QtConcurrent::run([asked = question(), watch] {
        return std::make_shared<Result<density::Proposals>>(density::proposeSigns(asked, watch));
    }));
}

void SignsDialog::take()
{
    const auto result = watcher_.result();
    looking_ = false;
    work_->end();
    if (*result) {
        proposals_ = std::move(**result);
        fillTable();
        fillSentences();
        pages_->setTabEnabled(1, true);
        pages_->setCurrentIndex(1);
        QMetaObject::invokeMethod(this, &SignsDialog::fitRows, Qt::QueuedConnection);
        (table_->rowCount() > 0 ? static_cast<QWidget*>(table_) : not_found_)->setFocus();
    } else
        refusal_ = result->error().sentence();
    marksChanged();
}

int SignsDialog::chosenRow() const
{
    const int row = table_->currentRow();
    return proposals_ && row >= 0 && row < int(proposals_->found.size()) ? row : -1;
}

void SignsDialog::decide(bool accept)
{
    const int row = chosenRow();
    if (row < 0 || !services_.desk.writable())
        return;
    judge(services_.desk, print_, now_->id, now_->stage, proposals_->found[size_t(row)], accept);
    fillTable();
    table_->setCurrentCell(row, 0);
}

} // namespace washfast::ui
