// What photos were last measured against, remembered for the running session of the notebook only: another lesson may
// be with other cards.
#pragma once

#include "ui/common/desk.h"
#include "ui/reading/marked_photo.h"

namespace washfast::ui {

[[nodiscard]] References rememberedReferences(Desk& desk);
void rememberReferences(Desk& desk, const References& references);

} // namespace washfast::ui
