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
    std::optional<double> share = std::nullopt; // of the sheet, of a loss
    std::optional<Point> worst = std::nullopt; // in 0..1 of the sheet, of a loss
};

/// From which strength a sign is proposed; of stripes it depends on the sheet (findStripes).
inline constexpr double leastMottle = 0.02, leastFog = 0.03, leastStain = 2.0, leastCentre = 0.05, leastLoss = 0.05;
inline constexpr double leastEdge = 1.0; // mm
inline constexpr double leastStripeSpacing = 2.0; // mm

/// Bands at a regular spacing (2 mm to a quarter of the sheet) that run over more than half of it. Strength: amplitude
/// of the wave. Found when a wave stands so far above those around it, and above those in its own direction, that noise
/// would do so in fewer than 1 of 10,000 sheets. `least`, when given, becomes the amplitude from which this wave would
/// have been found; when none is, the one from which any would have been, whatever its direction and spacing (large
/// where the motif has straight edges).
[[nodiscard]] std::optional<ProposedSign> findStripes(const SheetPicture& sheet, double* least = nullptr);

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
[[nodiscard]] std::optional<ProposedSign> findBleedingEdge(const SheetPicture& across, double sharp_mm = leastEdge);

/// The middle ninth against the outer part. Strength: density by which the middle is lighter; found above 0.05.
[[nodiscard]] std::optional<ProposedSign> findLighterCentre(const SheetPicture& sheet);

/// How two photos go with one another in a loss.
struct LossTerms {
    /// Densities of both have one zero. Otherwise the usual difference of the two photos is taken off, and only what
    /// was lost in some places more than in others is seen.
    bool one_zero = true;
};

/// Before the rinse and after it, seen from the first (resampled: NaN where the second has nothing). Strength: mean
/// density lost where some was lost, that is in parts of 2 mm that lost more than 0.03; found when those are at least
/// 1 % of the sheet and one lost 0.05 (common practice, no source). The picture: white nothing lost, black the most.
[[nodiscard]] std::optional<ProposedSign> findLossThere(
    const SheetPicture& before, const SheetPicture& after, const LossTerms& terms = {});

/// The same of two pictures that are not laid over one another yet; as they lie when they cannot be (blank sheets).
[[nodiscard]] std::optional<ProposedSign> findLoss(const SheetPicture& before, const SheetPicture& after);

} // namespace washfast::density
