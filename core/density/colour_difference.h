// Two photos of prints compared in colour: both straightened, laid over one another, and the CIEDE2000 difference of
// each place. Colours are CIE Lab under D50 (colour.h).
//
// Photos without a reference in them differ by their light and their camera too: `referenced` says what was known.
#pragma once

#include "core/density/propose_signs.h"

namespace washfast::density {

/// What brings the two photos to one scale, the weaker of the two.
enum class Referenced { Nothing, Paper, Cards };
/// How the second was laid onto the first.
enum class LaidBy { Details, Spot, Outline };

struct ComparedSheet {
    std::shared_ptr<const Photo> photo;
    Corners corners {};
    std::optional<Corners> white, grey; // cards
    std::optional<Corners> paper, deepest;
    std::optional<Corners> spot; // the same thing in both
};

struct ColourQuestion {
    ComparedSheet first, second;
    double width_mm = 0, height_mm = 0; // of the first; the second is brought to it
    LaidBy by = LaidBy::Details;
    double white_density = 0.05, grey_density = 0.75; // of the cards
};

struct SpotDifference {
    bool marked = false; // by the person; otherwise found in the first photo
    Lab first, second;
    double difference = 0;
    Point where; // in 0..1 of the first sheet
};

struct ColourDifference {
    SheetPicture map; // CIEDE2000; NaN where the second photo has nothing
    double mean = 0, ninety_fifth = 0, largest = 0;
    double covered = 0; // share of the first sheet that was compared
    std::optional<SpotDifference> deepest, paper;
    Referenced referenced = Referenced::Nothing;
    LaidBy laid = LaidBy::Outline;
    std::optional<double> alike; // of the details; nothing when they were not used
    bool details_failed = false; // asked for, but the two do not show the same thing
    QImage first, second; // in their colours, the second as laid onto the first
    QStringList notes;
};

[[nodiscard]] Result<ColourDifference> compareColours(const ColourQuestion& question, const Watch& watch = {});

/// By linear interpolation between the sorted values (type 7 of Hyndman and Fan, Am. Stat. 50 (1996) 361).
[[nodiscard]] double quantile(std::vector<double> values, double share);

} // namespace washfast::density
