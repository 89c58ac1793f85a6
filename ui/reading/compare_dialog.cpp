#include "ui/reading/compare_dialog.h"

#include "ui/reading/compare_map.h"
#include "ui/reading/signs_canvas.h"
#include "ui/reading/signs_picture.h"

#include <QComboBox>
#include <QDoubleSpinBox>
#include <QLabel>
#include <QPushButton>
#include <QTabWidget>
#include <QtConcurrent/QtConcurrentRun>
#include <cmath>

namespace washfast::ui {

CompareDialog::~CompareDialog()
{
    work_->stop();
    watcher_.waitForFinished();
    delete opener_; // waits for its photo, which tells the bar
}

bool CompareDialog::working() const
{
    return opener_->busy() || comparing_;
}

QString CompareDialog::says() const
{
    return headline_->text() + QLatin1Char('\n') + lines_->text();
}

void CompareDialog::choosePhoto(int which)
{
    const auto id = photo_[which]->currentData().toLongLong();
    auto& sheet = sheets_[which];
    if (sheet && sheet->id == id)
        return;
    sheet.reset();
    if (id != 0) {
        sheet = storedSheet(services_.desk, id);
        opener_->open(sheet);
    }
    showSheets();
}

void CompareDialog::showSheets()
{
    for (const int which : { 0, 1 }) {
        const auto& sheet = sheets_[which];
        canvas_[which]->setSheet(sheet,
            !sheet                                          ? tr("Choose a photo above.")
                : sheet->photo || !sheet->trouble.isEmpty() ? QString()
                                                            : tr("Opening %1 ...").arg(sheet->name));
    }
    marksChanged();
}

void CompareDialog::marksChanged()
{
    const bool ready = sheets_[0] && sheets_[1] && sheets_[0]->photo && sheets_[1]->photo;
    compare_->setEnabled(ready && !working());
    for (auto* box : photo_)
        box->setEnabled(!comparing_); // what is found has to go with what is chosen
    QStringList all;
    for (const auto& sheet : sheets_)
        if (sheet && !sheet->trouble.isEmpty())
            all << sheet->trouble;
    if (!refusal_.isEmpty())
        all << refusal_;
    if (all.isEmpty())
        all << tr("Drag the corners of both sheets into place. Cards or bare paper marked in both photos take their "
                  "light and camera out of the comparison.");
    hint_->setText(all.join(QLatin1Char('\n')));
}

qint64 CompareDialog::printOf(int which) const
{
    const auto& photos = services_.desk.notebook().table(Entity::Photo);
    const int row = photos.find(sheets_[which]->id);
    return row < 0 ? 0 : photos.owner(row);
}

density::ColourQuestion CompareDialog::question() const
{
    density::ColourQuestion question;
    for (const int which : { 0, 1 }) {
        const auto& from = *sheets_[which];
        auto& to = which == 0 ? question.first : question.second;
        to.photo = from.photo;
        to.corners = from.corners;
        to.white = from.region(SheetRole::WhiteCard);
        to.grey = from.region(SheetRole::GreyCard);
        to.paper = from.region(SheetRole::Paper);
        to.deepest = from.region(SheetRole::Deepest);
        to.spot = from.region(SheetRole::CommonSpot);
    }
    const auto size = sheetSize(services_.desk, printOf(0), sheets_[0]->corners);
    question.width_mm = size.width_mm;
    question.height_mm = size.height_mm;
    question.by = static_cast<density::LaidBy>(laid_by_->currentData().toInt());
    question.white_density = white_->value();
    question.grey_density = grey_->value();
    return question;
}

void CompareDialog::compare()
{
    if (!compare_->isEnabled())
        return;
    refusal_.clear();
    comparing_ = true;
    marksChanged();
    const auto watch = work_->begin(tr("Comparing the colours"));
    watcher_.setFuture(QtConcurrent::run([asked = question(), watch] {
        return std::make_shared<Result<density::ColourDifference>>(density::compareColours(asked, watch));
    }));
}

void CompareDialog::take()
{
    const auto result = watcher_.result();
    comparing_ = false;
    work_->end();
    if (*result) {
        difference_ = std::move(**result);
        showResult();
        pages_->setTabEnabled(1, true);
        pages_->setCurrentIndex(1);
        map_->setFocus();
    } else
        refusal_ = result->error().sentence();
    marksChanged();
}

QStringList CompareDialog::resultLines() const
{
    const auto& d = *difference_;
    const QLocale locale;
    const auto number = [&](double value) { return locale.toString(std::abs(value) < 0.05 ? 0.0 : value, 'f', 1); };
    const auto colour = [&](const density::Lab& lab) {
        return tr("L* %1, a* %2, b* %3").arg(number(lab.l), number(lab.a), number(lab.b));
    };
    QStringList all;
    for (const auto& [spot, name, letter] :
        { std::tuple(&d.deepest, tr("Deepest tone"), tr("D")), std::tuple(&d.paper, tr("Paper"), tr("P")) })
        if (*spot)
            all << tr("%1 (%2 on the map, %3): %4; %5 against %6.")
                       .arg(name, letter,
                           (*spot)->marked          ? tr("as marked")
                               : spot == &d.deepest ? tr("the darkest place found in the first photo")
                                                    : tr("the lightest place found in the first photo"),
                           tr("CIEDE2000 %1").arg(number((*spot)->difference)), colour((*spot)->first),
                           colour((*spot)->second));
    if (d.laid == density::LaidBy::Details)
        all << tr("Laid over one another by their details (alike %1 of 1).").arg(locale.toString(*d.alike, 'f', 2));
    else if (d.laid == density::LaidBy::Spot)
        all << tr("Laid over one another by the common spot.");
    else if (d.details_failed)
        all << tr("The two do not show the same details, so they are laid corner onto corner: what is no difference "
                  "of colour but of the picture counts too.");
    else
        all << tr("Laid corner onto corner.");
    if (d.covered < 0.995)
        all << tr("Compared over %1 % of the first sheet; the rest is hatched.")
                   .arg(locale.toString(100 * d.covered, 'f', 0));
    switch (d.referenced) {
    case density::Referenced::Cards:
        all << tr("White and grey card are marked in both: light and camera are taken out.");
        break;
    case density::Referenced::Paper:
        all << tr("Colours are relative to the paper marked in both photos; flare is not taken out.");
        break;
    case density::Referenced::Nothing:
        all << tr("No reference is marked in both photos: they differ by their light and their camera as well, and the "
                  "figures hold that too.");
        break;
    }
    return all + d.notes;
}

void CompareDialog::showResult()
{
    const auto& d = *difference_;
    const QLocale locale;
    headline_->setText(
        tr("Mean difference %1, 95 of 100 places below %2 (CIEDE2000; about 1 is just seen side by side)")
            .arg(locale.toString(d.mean, 'f', 1), locale.toString(d.ninety_fifth, 'f', 1)));
    lines_->setText(resultLines().join(QLatin1Char('\n')));
    map_->setMap(d.map, roundTop(d.ninety_fifth));
    std::vector<std::pair<QPointF, QString>> marks;
    if (d.deepest)
        marks.emplace_back(QPointF(d.deepest->where.x, d.deepest->where.y), tr("D"));
    if (d.paper)
        marks.emplace_back(QPointF(d.paper->where.x, d.paper->where.y), tr("P"));
    map_->setMarks(std::move(marks));
    picture_[0]->setPicture(d.first, sheets_[0]->name);
    picture_[1]->setPicture(d.second, sheets_[1]->name);
}

std::pair<qint64, qint64> photosToCompare(const Notebook& notebook, qint64 first, qint64 second)
{
    const auto photosOf = [&](qint64 print) {
        std::vector<std::pair<QString, qint64>> all; // stage, id
        for (const int row : notebook.children(Entity::Photo, print)) {
            const auto id = notebook.table(Entity::Photo).id(row);
            all.emplace_back(notebook.get({ Entity::Photo, id }, u"photo_stage").text().value_or(QString()), id);
        }
        return all;
    };
    const auto a = photosOf(first), b = photosOf(second);
    for (const char* stage : { "day_after", "dry", "wet", "before_rinse", "coated" }) {
        const auto of = [&](const auto& all) {
            qint64 last = 0;
            for (const auto& [own, id] : all)
                last = own == QLatin1String(stage) ? id : last;
            return last;
        };
        if (of(a) != 0 && of(b) != 0 && of(a) != of(b))
            return { of(a), of(b) };
    }
    return { a.empty() ? 0 : a.back().second, b.empty() ? 0 : b.back().second };
}

} // namespace washfast::ui
