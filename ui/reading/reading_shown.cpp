// What the Reading desk shows of the current photo.
#include "ui/reading/density_table.h"
#include "ui/reading/marked_rows.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/reference_panel.h"
#include "ui/reading/row_panel.h"
#include "ui/reading/straight_view.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <cmath>

namespace washfast::ui {

void ReadingDesk::showChosen()
{
    const auto* photo = current();
    const auto outline = canvas_->chosenOutline();
    assigned_->setEnabled(outline.has_value());
    if (outline)
        assigned_->setCurrentIndex(std::max(0, assigned_->findData(photo->outlines[*outline].print)));
    const auto row = canvas_->chosenRow();
    row_->showRow(photo, row);
    const int chosen = canvas_->chosen();
    const int at = row            ? table_->rowOf(Spot::Kind::Step, *row)
        : chosen >= 0 && !outline ? table_->rowOf(Spot::Kind::Region, size_t(chosen))
                                  : -1;
    at < 0 ? table_->clearSelection() : table_->selectRow(at);
}

void ReadingDesk::fillTable()
{
    const auto* photo = current();
    table_->fill(photo, services_.desk.notebook(), print_);
    enter_->setEnabled(photo && photo->measured);
}

QString ReadingDesk::says() const
{
    return sentences_->text();
}

void ReadingDesk::fillSentences()
{
    say({});
}

void ReadingDesk::say(const QStringList& news)
{
    sentences_->setText((news + standingSentences()).join(QLatin1Char('\n')));
}

QStringList ReadingDesk::standingSentences() const
{
    const auto* photo = current();
    if (!photo)
        return {};
    QStringList all = photo->notes;
    if (!photo->trouble.isEmpty())
        all = QStringList { photo->trouble };
    else if (!photo->refusal.isEmpty())
        all << photo->refusal;
    else if (photo->measured) {
        const auto& measured = *photo->measured;
        const density::ReferenceReading* farthest = nullptr;
        for (const auto& reference : measured.references)
            if (reference.residual && (!farthest || std::abs(*reference.residual) > std::abs(*farthest->residual)))
                farthest = &reference;
        if (farthest && int(measured.references.size()) <= measured.response.response.terms)
            all << tr("Measured against %1 references. The response goes through all of them, so nothing checks their "
                      "densities.")
                       .arg(measured.references.size());
        else if (farthest)
            all << tr("Measured against %1 references; the one farthest off the fitted response, by %2, is %3.")
                       .arg(measured.references.size())
                       .arg(QLocale().toString(std::abs(*farthest->residual), 'f', 3), farthest->name);
        all << measured.warnings;
    } else if (photo->photo && photo->marks.empty() && photo->rows.empty())
        all << (photo->references.card
                ? tr("Drag along the card's row of patches, from the middle of its light end to the middle of its dark "
                     "end, then over what is to be measured.")
                : tr("Drag over the white and the grey card, then over what is to be measured."));
    all << photo->row_refusals << doubtsAboutRows(*photo);
    return all;
}

void ReadingDesk::showCorrection()
{
    const auto* photo = current();
    const bool there = photo && photo->measured && photo->measured->lighting;
    references_->offerCorrection(there);
    canvas_->setOverlay(there && references_->showsCorrection() ? photo->measured->lighting->picture() : QImage());
}

void ReadingDesk::showStraight()
{
    const auto* photo = current();
    straight_view_->setVisible(straight_->isChecked());
    if (!straight_->isChecked())
        return;
    if (!photo || !photo->photo || photo->outlines.empty())
        return straight_view_->setSheet({});
    const auto& outline = photo->outlines[canvas_->chosenOutline().value_or(0)];
    StraightSheet sheet { photo->photo, outline.corners, {}, {} };
    if (outline.print) {
        const Ref ref { Entity::Print, outline.print };
        const auto& notebook = services_.desk.notebook();
        const auto width = notebook.get(ref, u"print_width_mm").number();
        const auto height = notebook.get(ref, u"print_height_mm").number();
        if (width && height)
            sheet.size_mm = { *width, *height };
        sheet.name = notebook.nameOf(ref);
    }
    straight_view_->setSheet(sheet);
}

} // namespace washfast::ui
