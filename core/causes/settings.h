// What can be chosen when a print is made, and what can differ between the halves of one coated sheet.
#pragma once

#include <QString>

namespace washfast::causes {

/// The weather, the room and the people are as they are; nearly all else can be chosen. A column that is not in the
/// catalogue is taken for one that can be.
[[nodiscard]] bool canBeChosen(const QString& factor);

/// Light, cover, hold, rinse, drying and what is felt or weighed in between: a sheet that is cut after coating can have
/// both. Mix, paper and coat belong to the whole sheet. A column that is not in the catalogue is taken for one that
/// cannot.
[[nodiscard]] bool canDifferWithinASheet(const QString& factor);

/// Moisture, touch, dose: they follow from what is set (minutes, drying) and cannot be set themselves.
[[nodiscard]] bool isMeasuredOnly(const QString& factor);

} // namespace washfast::causes
