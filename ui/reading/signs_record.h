// What the person decided about a proposed sign, in the notebook: one row a sign and photo, accepted or rejected.
#pragma once

#include "core/density/propose_signs.h"
#include "ui/common/desk.h"

namespace washfast::ui {

enum class Verdict { None, Accepted, Rejected };

struct Judged {
    qint64 row = 0;
    Verdict verdict = Verdict::None;
};

/// What stands on record of the same sign from the same photo. Stripes are the same when spacing and direction are
/// near (a fifth, 15 degrees).
[[nodiscard]] Judged judgedBefore(const Notebook& notebook, qint64 print, qint64 photo, const density::Proposal& sign);

/// Writes it as one step that can be undone; a row that is there is changed. False when it could not be written.
bool judge(Desk& desk, qint64 print, qint64 photo, const QString& stage, const density::Proposal& sign, bool accept);

[[nodiscard]] QString verdictWords(Verdict verdict);

} // namespace washfast::ui
