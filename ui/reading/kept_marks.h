// What was marked in a stored photo, as the notebook keeps it (photo_marks), so that it is there again when the photo
// is opened the next time and anybody can see where a reading came from.
//
//     {"version":1,
//      "photo":[width,height],                      pixels, upright; other sizes are refused
//      "references":{"white":0.05,"grey":0.75,"measured":true}
//                 or {"card":"C1","patches":[0.05,[0.24,0.23,0.23],null]},   from the lightest; red, green, blue
//      "level":false,                               the light is evened out by the paper
//      "when":"day_after","channel":"red",          of the readings that were entered
//      "regions":[{"role":"deepest","quad":[[x,y],[x,y],[x,y],[x,y]]}],
//      "outlines":[{"quad":[..],"print":"A1-01"}],  without a print: not assigned
//      "rows":[{"kind":"wedge"|"patches","quad":[..],"count":10,"found":10,"turned":false}]}
//
// Coordinates are pixels of the upright photo, x right, y down; the side between a row's first and last corner is its
// start. Roles: white, grey, paper, deepest, middle, open_border, covered. Prints and cards stand by their codes, which
// stay true when two notebooks are merged. Of a count that was not typed in only what was found in the photo is there.
// Anything else is refused with its place, and nothing of it is taken.
#pragma once

#include "core/quantity/result.h"
#include "core/trial/notebook.h"

#include "ui/reading/marked_photo.h"

namespace washfast::ui {

[[nodiscard]] QString writeKeptMarks(const Marked& marked, QSize photo, const Notebook& notebook);

struct KeptMarks {
    Marked marked;
    QStringList notes; // what is not as it was: a print or a card that is gone, densities that were changed
};
/// `card`: the card that the photo says it shows, 0 for none; it goes before the name.
[[nodiscard]] Result<KeptMarks> readKeptMarks(const QString& json, QSize photo, const Notebook& notebook, qint64 card);

} // namespace washfast::ui
