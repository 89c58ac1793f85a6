// Rows of patches and steps on a photo: the strip between two ends, its even places, and all that is measured.
#pragma once

#include "ui/reading/marked_photo.h"

namespace washfast::ui {

/// A strip from the middle of one end to the middle of the other, as wide as so many times its length; within an
/// outline that holds both ends its sides follow the outline's slant.
[[nodiscard]] density::Corners stripBetween(
    const Marked& photo, density::Point start, density::Point end, double width_share);
/// Places 1 to `count` of a row in order of their numbers, without a share of each on every side; seen at a slant they
/// stay even on the strip itself. Empty when the corners span no area.
[[nodiscard]] std::vector<density::Corners> placesOf(const MarkedRow& row, int count, double margin);
/// How many places a row has: typed in, of the card, or found; 0 when nobody knows.
[[nodiscard]] int countOf(const MarkedRow& row, const References& references);
/// Whether the row is what the photo is measured against.
[[nodiscard]] bool isReference(const MarkedRow& row, const References& references);

/// What is measured, with the steps of each row counted in the photo where nobody gave them.
struct PlacedSpots {
    std::vector<Spot> spots;
    std::vector<int> found; // of each row
    QStringList refusals; // a sentence for each row that has no places
};
[[nodiscard]] PlacedSpots placeSpots(const Marked& marked, const density::Photo& photo);
/// What is doubtful about the rows as they were measured, a sentence each.
[[nodiscard]] QStringList doubtsAboutRows(const MarkedPhoto& photo);
/// The same as regions: densities for the references, the lighting from the paper when asked for.
[[nodiscard]] density::Marks marksOf(const Marked& marked, const std::vector<Spot>& spots);

} // namespace washfast::ui
