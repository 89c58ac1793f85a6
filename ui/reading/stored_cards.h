// The reference cards of the notebook with the densities of their patches.
#pragma once

#include "core/trial/notebook.h"

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

} // namespace washfast::ui
