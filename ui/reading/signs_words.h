// What is said of signs that were looked for: names, strengths, limits and reasons, in words.
#pragma once

#include "core/density/propose_signs.h"

namespace washfast::ui {

/// The choice of sign_kind.
[[nodiscard]] QString signKey(density::SignKind kind);
[[nodiscard]] QString signWord(density::SignKind kind);
/// "0.025 density from the middle to the crest"
[[nodiscard]] QString strengthNumber(const density::Proposal& proposal);
/// "far above the limit (0.006)": how it stands to what can just be told, which says nothing about how it looks.
[[nodiscard]] QString strengthWords(const density::Proposal& proposal);
/// Spacing, direction, place; may be empty.
[[nodiscard]] QString signDetails(const density::Proposal& proposal);
/// What is shown beside the sheet.
[[nodiscard]] QString pictureWords(density::SignKind kind);
/// One sentence for a sign that was not proposed: not found and from where on it would have been, or not looked for
/// and why.
[[nodiscard]] QString notFoundWords(const density::Looked& looked);
/// Where a sign in a photo of that stage was first seen: the choice of sign_station, empty when it is not plain.
[[nodiscard]] QString stationOf(density::SignKind kind, const QString& stage);

} // namespace washfast::ui
