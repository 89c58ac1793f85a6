// How long lies between the two times of a station, and whether that can be right: a wrong year makes an exposure of
// decades. The longest plausible time stands in the catalogue, with the end (Field::began).
#pragma once

#include "core/quantity/field.h"

namespace washfast {

/// "36 years", "3 days", "30 hours", "40 minutes": the largest unit of which there are at least two.
[[nodiscard]] QString spanText(double minutes);

/// Whether the end is further behind its start than the field's longest plausible time. False when one is not known.
[[nodiscard]] bool endsTooLate(
    const Field& end_field, const std::optional<Instant>& start, const std::optional<Instant>& end);

/// What is wrong with such times, in one sentence with both of them in ISO form.
[[nodiscard]] QString tooLateSentence(
    const Field& end_field, const QString& start_label, const Instant& start, const Instant& end);

} // namespace washfast
