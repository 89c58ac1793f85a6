// The wanted dose, taken from a curve: for which prints of the running session it can be set, and setting it.
#pragma once

#include "ui/common/desk.h"
#include "ui/common/dialogs.h"
#include "ui/curves/wedge_prints.h"

namespace washfast::ui::curves {

struct GoalPlan {
    QVector<qint64> prints; // of the session, of this formula or mix on this paper, not exposed yet
    int others = 0; // of these, with another wanted dose already
    double j_cm2 = 0; // rounded as the field keeps it
    QString question; // to be asked before anything is written
    QString refusal; // a sentence when there is nothing to set
};
[[nodiscard]] GoalPlan goalPlan(const Desk& desk, const CurveOf& of, std::optional<double> j_cm2);

/// Asks, and sets it in one step as an estimate. The sentence that says what was done; empty when the person turned
/// back or it could not be written (the desk tells of that).
[[nodiscard]] QString takeGoal(Desk& desk, Dialogs& dialogs, QWidget* parent, const GoalPlan& plan);

} // namespace washfast::ui::curves
