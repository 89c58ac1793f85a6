// How a reference card gets into the notebook from a measured photo.
#pragma once

#include "ui/common/desk.h"
#include "ui/reading/marked_photo.h"

namespace washfast::ui {

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
