#include "ui/reading/reading_desk.h"

#include "ui/reading/density_table.h"
#include "ui/reading/enter_readings.h"
#include "ui/reading/kept_marks.h"
#include "ui/reading/marked_rows.h"
#include "ui/reading/new_card.h"
#include "ui/reading/opening_bar.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reference_panel.h"
#include "ui/reading/session_references.h"
#include "ui/reading/stored_cards.h"

#include <QCheckBox>
#include <QComboBox>
#include <QFileInfo>
#include <QLabel>
#include <QtConcurrent/QtConcurrentRun>

namespace washfast::ui {

struct ReadingDesk::Measured {
    MarkedPhoto* of = nullptr;
    PlacedSpots placed;
    std::optional<Result<density::Measurement>> result; // nothing when there is nothing to measure
};

ReadingDesk::~ReadingDesk()
{
    measure_.waitForFinished();
}

bool ReadingDesk::working() const
{
    return opening_->working() || measuring_;
}

QCheckBox* ReadingDesk::cardsMeasuredBox() const
{
    return references_->measuredBox();
}

MarkedPhoto* ReadingDesk::addPhoto(const QString& name)
{
    photos_.push_back(std::make_unique<MarkedPhoto>());
    auto* photo = photos_.back().get();
    photo->name = name;
    photo->references = last_;
    photo->when = when_->currentData().toString();
    photo->channel = channel_->currentData().toInt();
    photo_->addItem(name);
    return photo;
}

void ReadingDesk::addStored(qint64 photo)
{
    addStored(QVector<qint64> { photo });
}

void ReadingDesk::addStored(const QVector<qint64>& photos)
{
    const int first = photo_->count();
    const auto& notebook = services_.desk.notebook();
    for (const auto id : photos) {
        const Ref ref { Entity::Photo, id };
        auto* into = addPhoto(notebook.nameOf(ref));
        into->stored = id;
        if (const auto stage = notebook.get(ref, u"photo_stage").text(); stage && when_->findData(*stage) >= 0)
            into->when = *stage;
        if (auto bytes = services_.desk.file().photo(PhotoId { id }))
            opening_->add(into, {}, *bytes);
        else
            into->trouble = bytes.error().sentence();
    }
    if (!photos.isEmpty())
        photo_->setCurrentIndex(first);
    showPhoto();
}

void ReadingDesk::addFiles(const QStringList& paths)
{
    const int first = photo_->count();
    for (const auto& path : paths)
        opening_->add(addPhoto(QFileInfo(path).fileName()), path, {});
    if (!paths.isEmpty())
        photo_->setCurrentIndex(first);
    showPhoto();
}

void ReadingDesk::choosePhotos()
{
    addFiles(services_.dialogs.openFiles(
        this, tr("Open photos"), {}, { tr("Pictures (*.jpg *.jpeg *.png *.tif *.tiff *.webp)") }));
}

void ReadingDesk::restoreMarks(MarkedPhoto& photo)
{
    const auto& notebook = services_.desk.notebook();
    const Ref ref { Entity::Photo, photo.stored };
    const auto json = photo.photo && photo.stored ? notebook.get(ref, u"photo_marks").text() : std::nullopt;
    if (!json) {
        if (const auto card = cardOf(notebook, notebook.get(ref, u"photo_card").link().value_or(0)))
            photo.references = against(*card, photo.references);
        return;
    }
    photo.marks_seen << *json;
    auto kept = readKeptMarks(
        *json, photo.photo->image.size(), notebook, notebook.get(ref, u"photo_card").link().value_or(0));
    if (kept) {
        static_cast<Marked&>(photo) = kept->marked;
        photo.notes = kept->notes;
    } else {
        photo.kept_marks_unread = true;
        photo.notes = QStringList { kept.error().sentence() };
    }
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
        !photo                         ? tr("Open a photo that shows the print beside a card of known density.")
            : photo->trouble.isEmpty() ? tr("Opening %1 ...").arg(photo->name)
                                       : photo->trouble);
    if (photo) {
        references_->showReferences(photo->references, photo->level);
        when_->setCurrentIndex(std::max(0, when_->findData(photo->when)));
        channel_->setCurrentIndex(std::max(0, channel_->findData(photo->channel)));
    }
    showChosen();
    marksChanged();
}

void ReadingDesk::followCards()
{
    const auto& notebook = services_.desk.notebook();
    const auto now = [&](const References& before) {
        const auto card = cardOf(notebook, before.card);
        return card ? against(*card, before) : before.card ? References {} : before;
    };
    last_ = now(last_);
    const auto* shown = current();
    bool changed = false;
    for (const auto& photo : photos_) {
        const auto before = std::exchange(photo->references, now(photo->references));
        if (photo.get() == shown)
            changed = photo->references != before;
        else if (photo->references != before)
            photo->measured.reset();
    }
    references_->showReferences(shown ? shown->references : last_, references_->level());
    if (changed)
        marksChanged();
}

void ReadingDesk::marksChanged()
{
    if (auto* photo = current()) {
        photo->measured.reset(); // what stands beside changed marks would be wrong
        photo->refusal.clear();
        photo->row_refusals.clear();
    }
    canvas_->update();
    fillTable();
    fillSentences();
    showStraight();
    measureNow();
}

void ReadingDesk::measureNow()
{
    auto* photo = current();
    if (measuring_) {
        again_ = true;
        return;
    }
    if (!photo || !photo->photo || (photo->marks.empty() && photo->rows.empty()))
        return;
    measuring_ = true;
    measure_.setFuture(QtConcurrent::run([photo, pixels = photo->photo, marked = Marked(*photo)] {
        auto out = std::make_shared<Measured>();
        out->of = photo;
        out->placed = placeSpots(marked, *pixels);
        if (!out->placed.spots.empty())
            out->result = density::measure(*pixels, marksOf(marked, out->placed.spots));
        return out;
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
    auto& photo = *done->of;
    for (size_t i = 0; i < photo.rows.size() && i < done->placed.found.size(); ++i)
        photo.rows[i].found = done->placed.found[i];
    photo.spots = std::move(done->placed.spots);
    photo.row_refusals = done->placed.refusals;
    if (done->result && *done->result)
        photo.measured = std::move(**done->result);
    else if (done->result)
        photo.refusal = done->result->error().sentence();
    canvas_->update();
    fillTable();
    fillSentences();
    showChosen();
    showCorrection();
    Q_EMIT photoChanged();
}

void ReadingDesk::assign()
{
    const auto outline = canvas_->chosenOutline();
    if (!outline)
        return;
    current()->outlines[*outline].print = assigned_->currentData().toLongLong();
    fillTable();
    fillSentences();
    showStraight();
    Q_EMIT photoChanged();
}

void ReadingDesk::keepAsCard()
{
    const auto* photo = current();
    const auto title = tr("Keep as a card");
    if (!photo)
        return;
    if (measuring_)
        return services_.dialogs.message(this, title, tr("The patches are being measured; try again in a moment."));
    auto card = cardFrom(*photo);
    if (!card)
        return services_.dialogs.message(this, title, card.error().says);
    if (card->known_by.isEmpty()) {
        const auto& known = services_.desk.catalogue().columnField(Entity::Card, u"card_known_by").choices;
        QStringList answers;
        for (const auto& choice : known)
            answers << choice.label;
        const auto answer = services_.dialogs.question(this, title, tr("How are these densities known?"), answers);
        if (!answer)
            return;
        card->known_by = known[size_t(*answer)].key;
    }
    const auto name = services_.dialogs.askText(
        this, title, tr("Name of the card with these %n patch(es)", nullptr, int(card->patches.size())), {});
    if (!name || name->trimmed().isEmpty())
        return;
    if (services_.desk.notebook().byName(Entity::Card, *name))
        return services_.dialogs.message(
            this, title, tr("There is a card %1 already. Give this one another name.").arg(name->trimmed()));
    if (keepCard(services_.desk, name->trimmed(), *card))
        say({ tr("The card %1 is kept, with %n patch(es).", nullptr, int(card->patches.size())).arg(name->trimmed()) });
}

void ReadingDesk::enter()
{
    auto* photo = current();
    if (!photo || !photo->measured)
        return;
    last_ = photo->references;
    rememberReferences(services_.desk, last_);
    ReadingsToEnter readings(services_.desk, *photo, print_);
    bool replace = false;
    if (const auto n = int(readings.replaced().size()); n > 0)
        replace = services_.dialogs.question(this, tr("Readings are there already"), readings.question(),
                      { tr("Keep what is recorded"), tr("Replace") })
            == 1;
    const auto entered = readings.enter(replace);
    if (!entered.marks.isEmpty())
        photo->marks_seen << entered.marks;
    QStringList all { tr("Readings entered: %1 (%2 density).").arg(entered.rows).arg(channel_->currentText()) };
    if (entered.kept > 0)
        all << tr("Recorded readings that were kept: %n.", nullptr, entered.kept);
    if (entered.rows > 0 && photo->references.evidence() == Evidence::Assumed)
        all << tr("They count as assumed, because the densities of the cards do.");
    if (entered.rows > 0 && !photo->stored)
        all << tr("The photo is not stored in the notebook, so what was marked in it is not kept. Drop it on the "
                  "print's page first if it should be.");
    all << entered.refused << entered.beside;
    say(all);
}

} // namespace washfast::ui
