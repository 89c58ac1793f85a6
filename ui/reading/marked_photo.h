// A photo on the Reading desk with what was marked in it: outlines of prints, and regions with what each is for. A
// region belongs to the print whose outline holds its middle, and to the only print when nothing is outlined.
#pragma once

#include "core/density/measure.h"

#include <QCoreApplication>
#include <memory>

namespace washfast::ui {

enum class MarkRole { White, Grey, Paper, Deepest, Middle, OpenBorder, Covered, markRoles };

struct PhotoMark {
    MarkRole role = MarkRole::Deepest;
    density::Corners corners {}; // photo pixels
};

struct PrintOutline {
    density::Corners corners {};
    qint64 print = 0; // 0: not assigned yet
};

struct CardDensities {
    double white = 0.05, grey = 0.75; // start values only; the person gives those of their own card
};

struct MarkedPhoto {
    QString name;
    std::shared_ptr<const density::Photo> photo; // empty while it is being opened, or refused
    QString trouble; // why it was refused
    QImage shown; // what the canvas paints
    std::vector<PhotoMark> marks;
    std::vector<PrintOutline> outlines;
    std::optional<density::Measurement> measured; // of the marks as they stand
    QString refusal; // why they could not be measured
};

[[nodiscard]] QString roleLabel(MarkRole role);
/// The choice of reading_where; empty for references.
[[nodiscard]] QString whereKey(MarkRole role);
/// The number of the mark in the list is its name's number, so that every name is told apart: "3 deepest".
[[nodiscard]] QString markName(const MarkedPhoto& photo, size_t mark);
/// The outline that holds the middle of the mark; nothing when none does.
[[nodiscard]] std::optional<size_t> outlineOf(const MarkedPhoto& photo, size_t mark);
[[nodiscard]] qint64 printOf(const MarkedPhoto& photo, size_t mark, qint64 only);
/// What is measured: densities for the references, the lighting from the paper when asked for.
[[nodiscard]] density::Marks marksOf(const MarkedPhoto& photo, const CardDensities& card, bool level);
/// A rectangle between two points, along the sides of the outline that holds both, else along those of the photo.
[[nodiscard]] density::Corners drawnBetween(const MarkedPhoto& photo, density::Point from, density::Point to);
/// Whether a point lies inside four corners.
[[nodiscard]] bool holds(const density::Corners& corners, density::Point point);

} // namespace washfast::ui
