// All signs that a photo of a sheet may show, looked for in one go: what is proposed, and what was looked for in vain
// and how small it could have been. Nothing is decided here.
//
//     SignQuestion question { { photo, corners } };
//     question.width_mm = 148; question.height_mm = 105;
//     const auto proposals = proposeSigns(question, watch);
//
// The sheet's own picture (the motif of a negative) can look like a sign; `even` says where there is none.
#pragma once

#include "core/density/registration.h"
#include "core/density/signs.h"

#include <memory>

namespace washfast::density {

/// A sheet in a photo and what is marked there; all in photo pixels.
struct SheetPhoto {
    std::shared_ptr<const Photo> photo;
    Corners corners {}; // of the sheet
    std::optional<Corners> paper; // bare paper: density 0 of both photos
    std::optional<Corners> covered; // coated, no light
    std::optional<Corners> white; // a white of the print
    std::optional<Corners> even; // where the print should be even; all of the sheet without it
    std::optional<Corners> edge; // a region that an edge goes through
};

struct SignQuestion {
    SheetPhoto now;
    std::optional<SheetPhoto> before; // before the rinse
    double width_mm = 0, height_mm = 0;
    std::optional<double> brush_deg; // along the strokes: 0 from side to side, 90 up and down
    PictureChannel channel = PictureChannel::Red; // blue for a sheet that was not exposed yet
};

enum class BrushWay { Unknown, Along, Across, Aslant };

struct Proposal {
    ProposedSign sign;
    BrushWay brush = BrushWay::Unknown; // of stripes
    double limit = 0; // from which strength it is proposed on this sheet
};

/// Why a sign was not looked for.
enum class NotLooked { No, NoPaper, NoCovered, NoWhite, NoEdge, NoBefore, TooSmall };

struct Looked {
    SignKind kind = SignKind::Stripes;
    NotLooked why = NotLooked::No;
    bool found = false;
    double limit = 0;
};

struct Proposals {
    std::vector<Proposal> found;
    std::vector<Looked> looked; // every kind, once
    QImage sheet; // straightened, in its colours
    bool one_zero = false; // paper is marked in both photos: a loss is a loss of density
    std::optional<double>
        alike; // how well the photo before the rinse lies under the other; nothing: by the corners alone
    QStringList notes; // sentences about what was assumed, from the measurement
};

[[nodiscard]] Result<Proposals> proposeSigns(const SignQuestion& question, const Watch& watch = {});

/// Stripes against the strokes: along within 20 degrees, across within 20 of a right angle (common practice, no
/// source).
[[nodiscard]] BrushWay brushWay(std::optional<double> stripes_deg, std::optional<double> brush_deg);

} // namespace washfast::density
