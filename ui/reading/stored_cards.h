// The reference cards of the notebook with the densities of their patches, and how a new one gets there.
#pragma once

#include "ui/common/desk.h"
#include "ui/reading/marked_photo.h"

namespace washfast::ui {

struct StoredCard {
    qint64 id = 0;
    QString name;
    QString known_by; // key of card_known_by; empty when not recorded
    bool retired = false;
    CardPatches patches; // in order of their positions; a position without a record stays empty
    /// Not better than how the densities are known; when nobody says, they are assumed.
    [[nodiscard]] Evidence evidence() const;
    [[nodiscard]] int known() const; // patches with a density
};

[[nodiscard]] std::optional<StoredCard> cardOf(const Notebook& notebook, qint64 id);
/// In order of their names; without retired ones, but for `also`.
[[nodiscard]] std::vector<StoredCard> cardsOf(const Notebook& notebook, qint64 also = 0);
/// The same references against this card.
[[nodiscard]] References against(const StoredCard& card, References references);

struct NewCard {
    QString known_by; // empty: the person has to say
    CardPatches patches; // from the lightest on
};
/// What can be kept of a measured photo: the first row that was measured against other references, or white and grey as
/// measured against a card, or else the densities that the person gave for white and grey. Error: why there is nothing.
[[nodiscard]] Result<NewCard> cardFrom(const MarkedPhoto& photo);
/// Writes the card with its patches: one step.
bool keepCard(Desk& desk, const QString& name, const NewCard& card);

} // namespace washfast::ui
