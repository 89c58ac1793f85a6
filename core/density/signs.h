// Signs seen in a picture of a sheet. They are proposed with a strength and the picture that shows them; whether they
// are there is for the person to say. Strengths are in density unless said otherwise.
#pragma once

#include "core/density/sheet_picture.h"

#include <QString>
#include <vector>

namespace washfast::density {

enum class SignKind { Stripes, Mottle, Fog, Stain, BleedingEdge, LighterCentre, Loss };

struct ProposedSign {
    SignKind kind = SignKind::Stripes;
    double strength = 0; // see each function
    std::optional<double> spacing_mm; // of stripes
    std::optional<double> direction_deg; // along which the stripes run: 0 from side to side, 90 up and down
    QImage picture;
};

/// Bands at a regular spacing (2 mm to a quarter of the sheet). Strength: amplitude of the wave. Found when a wave
/// stands so far above those around it that noise would do so in fewer than 1 of 10,000 sheets.
[[nodiscard]] std::optional<ProposedSign> findStripes(const SheetPicture& sheet);

/// Blotches of 1 to 8 mm without a direction. Strength: their standard deviation; found from 0.02 (common practice, no
/// source), what the fine grain explains taken off.
[[nodiscard]] std::optional<ProposedSign> findMottle(const SheetPicture& sheet);

/// Covered parts against the paper. Strength: their density above the paper; found above 0.03 and three standard
/// errors.
[[nodiscard]] std::optional<ProposedSign> findFog(const RegionReading& covered, const RegionReading& paper);

/// Whites that turned yellow. Strength: b* above that of the paper; found above 2 (seen side by side from about 1).
[[nodiscard]] std::optional<ProposedSign> findStain(const RegionReading& white, const RegionReading& paper);

/// Blue that ran over an edge: the picture is cut across an upright edge, dark on one side. Strength: width in mm from
/// 10 to 90 % of the step; found above `sharp_mm`.
[[nodiscard]] std::optional<ProposedSign> findBleedingEdge(const SheetPicture& across, double sharp_mm = 1.0);

/// The middle ninth against the outer part. Strength: density by which the middle is lighter; found above 0.05.
[[nodiscard]] std::optional<ProposedSign> findLighterCentre(const SheetPicture& sheet);

/// Before the rinse and after it, both straightened to one size; the second is shifted onto the first. Strength: mean
/// density lost. The picture: white nothing lost, black the most.
[[nodiscard]] std::optional<ProposedSign> findLoss(const SheetPicture& before, const SheetPicture& after);

} // namespace washfast::density
