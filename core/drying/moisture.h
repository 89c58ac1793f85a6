// Water left in a print at a moment, in % of the water of its coat, by the best evidence there is: a weighing, else the
// curve through this print's weighings, else the touch state, else what was learnt from other prints.
#pragma once

#include "core/drying/learnt.h"
#include "core/drying/sheet.h"

namespace washfast::drying {

enum class MoistureFrom { Weighing, Curve, Touch, Covered, Learnt };
[[nodiscard]] QString moistureFromLabel(MoistureFrom from); // "by weighing", for people

struct Moisture {
    Bracket pct; // likely value, and an interval of 95 of 100 (of a touch state: its stated range)
    Evidence evidence = Evidence::Measured;
    MoistureFrom from = MoistureFrom::Weighing;
    bool redampened = false; // stood in air that makes the coat take up water
};

/// The mass `now_g` as moisture; nothing without the masses of the bare and the coated sheet. Solids of 100 % leave no
/// water to dry: nothing.
[[nodiscard]] std::optional<Moisture> moistureOfMass(
    const Sheet& sheet, const Known& now_g, const Assumptions& assumed = {});
/// The timed weighings of the drying sheet, up to the exposure: the points of its curve.
[[nodiscard]] std::vector<Weighed> weighingsOf(const Sheet& sheet, const Assumptions& assumed = {});
/// The curve through them; nothing when there are none or they do not fall.
[[nodiscard]] std::optional<Curve> curveOf(const Sheet& sheet, const Assumptions& assumed = {});

[[nodiscard]] std::optional<Moisture> moistureAtExpose(const Sheet& sheet, const Assumptions& assumed = {});
[[nodiscard]] std::optional<Moisture> moistureAtRinse(const Sheet& sheet, const Assumptions& assumed = {});
/// At any moment of a running print. `learnt`, with the air of the room, serves when nothing of this print tells.
[[nodiscard]] std::optional<Moisture> moistureAt(const Sheet& sheet, const Instant& moment,
    const Assumptions& assumed = {}, const LearntRates* learnt = nullptr, std::optional<Air> room = {});

/// Minutes from `now` until the sheet is dry (assumed.dry_pct); 0 when it is. Infinite under film. Nothing when neither
/// this print nor others tell.
[[nodiscard]] std::optional<Bracket> minutesUntilDry(const Sheet& sheet, const Instant& now,
    const Assumptions& assumed = {}, const LearntRates* learnt = nullptr, std::optional<Air> room = {});

enum class NextStep { Exposure, Rinse };
/// What to say when a sheet is started into exposure or rinse while it is still damp, with the number; nothing when it
/// is dry enough. Also when it was dry by its curve but then stood in damp air. A warning, not a ban.
[[nodiscard]] std::optional<QString> dampWarning(
    const Moisture& moisture, NextStep next, const Assumptions& assumed = {});

} // namespace washfast::drying
