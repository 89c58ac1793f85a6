// A photo on the Reading desk with what was marked in it: outlines of prints, regions with what each is for, and rows
// of patches or steps. A region or a row belongs to the print whose outline holds its middle, and to the only print
// when nothing is outlined.
#pragma once

#include "core/density/measure.h"
#include "core/quantity/value.h"

#include <memory>

namespace washfast::ui {

/// What is drawn next; the last two are rows, the others regions.
enum class MarkRole { White, Grey, Paper, Deepest, Middle, OpenBorder, Covered, PatchRow, WedgeRow, markRoles };

struct PhotoMark {
    MarkRole role = MarkRole::Deepest;
    density::Corners corners {}; // photo pixels
    bool operator==(const PhotoMark&) const = default;
};

struct PrintOutline {
    density::Corners corners {};
    qint64 print = 0; // 0: not assigned yet
    bool operator==(const PrintOutline&) const = default;
};

/// A row of even places between two ends: patches of a card, or steps of a wedge.
struct MarkedRow {
    enum class Kind { Patches, Wedge };
    Kind kind = Kind::Wedge;
    density::Corners corners {}; // the side between the first and the last corner is the start of the row
    int count = 0; // as typed in; 0: of a card its patches, else found in the photo
    bool turned = false; // number 1 (lightest patch, clearest step) lies at the end instead
    int found = 0; // what was found in the photo; 0: nothing (yet)
    bool operator==(const MarkedRow&) const = default;
};

/// Density of each patch of a card from the lightest on; nothing for a patch that nobody knows.
using CardPatches = std::vector<std::optional<density::ChannelDensities>>;

/// What the densities of a photo are measured against.
struct References {
    qint64 card = 0; // a stored card, whose row is marked; 0: white and grey
    QString card_name;
    CardPatches patches;
    Evidence card_evidence = Evidence::Assumed;
    double white = 0.05, grey = 0.75; // start values only; the person gives those of their own cards
    bool measured = false; // those two, for these very cards
    [[nodiscard]] Evidence evidence() const
    {
        return card ? card_evidence : measured ? Evidence::Measured : Evidence::Assumed;
    }
    bool operator==(const References&) const = default;
};

/// All that the person said about a photo.
struct Marked {
    std::vector<PhotoMark> marks;
    std::vector<PrintOutline> outlines;
    std::vector<MarkedRow> rows;
    References references;
    bool level = false; // the light is evened out by the paper
    QString when; // key of reading_when; empty: not chosen
    int channel = 0; // of density::ReadChannel
    bool operator==(const Marked&) const = default;
};

/// One measured place: a region, or a place of a row.
struct Spot {
    enum class Kind { Region, Patch, Step };
    Kind kind = Kind::Region;
    size_t of = 0; // index of the region or the row
    int number = 0; // of the patch or step, from 1
    density::Corners corners {};
    QString name;
};

struct MarkedPhoto : Marked {
    QString name;
    qint64 stored = 0; // the notebook's photo; 0: a file that is not stored
    std::shared_ptr<const density::Photo> photo; // empty while it is being opened, or refused
    QString trouble; // why it was refused
    QStringList notes; // about what was marked earlier, a sentence each
    QStringList marks_seen; // as the notebook kept them when they were read, and when they were written from here
    bool kept_marks_unread = false; // what was marked earlier is not understood, and is left as it is
    QImage shown; // what the canvas paints
    std::vector<Spot> spots; // of what stands in `measured`, in the same order
    std::optional<density::Measurement> measured; // of the marks as they stand
    QString refusal; // why they could not be measured
    QStringList row_refusals; // why a row has no places
};

[[nodiscard]] QString roleLabel(MarkRole role);
/// The choice of reading_where; empty for references and rows.
[[nodiscard]] QString whereKey(MarkRole role);
/// The number of the mark in the list is its name's number, so that every name is told apart: "3 deepest".
[[nodiscard]] QString markName(const Marked& photo, size_t mark);
[[nodiscard]] QString rowName(size_t row); // "row 2"
/// The outline that holds a point, or the middle of the mark; nothing when none does.
[[nodiscard]] std::optional<size_t> outlineAt(const Marked& photo, density::Point point);
[[nodiscard]] std::optional<size_t> outlineOf(const Marked& photo, size_t mark);
[[nodiscard]] qint64 printAt(const Marked& photo, density::Point point, qint64 only);
[[nodiscard]] qint64 printOf(const Marked& photo, size_t mark, qint64 only);
/// All steps of a row belong to the print that holds the middle of the row.
[[nodiscard]] qint64 printOf(const Marked& photo, const Spot& spot, qint64 only);
/// A rectangle between two points, along the sides of the outline that holds both, else along those of the photo.
[[nodiscard]] density::Corners drawnBetween(const Marked& photo, density::Point from, density::Point to);
/// Whether a point lies inside four corners.
[[nodiscard]] bool holds(const density::Corners& corners, density::Point point);

} // namespace washfast::ui
