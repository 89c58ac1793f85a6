// The timeline of a planned lesson: a row for each station, from the first sheet's start to the last sheet's end, with
// what happens when things go fast or slowly, and the end of the lesson across all of them.
#pragma once

#include "ui/sunlight/painted_sheet.h"
#include "ui/sunlight/plan_state.h"

#include <memory>

namespace washfast::ui::sunlight {

class PlanSheet : public PaintedSheet {
    Q_OBJECT

public:
    explicit PlanSheet(const Theme& theme, QWidget* parent = nullptr);

    /// `which` of the state's shown plans.
    void setPlan(std::shared_ptr<const PlanState> plan, size_t which);
    [[nodiscard]] const ShownPlan* shown() const { return plan_ ? &plan_->shown()[which_] : nullptr; }
    void paintInto(QPainter& painter, const QRectF& area, bool live) const override;

private:
    void legend(QPainter& painter, const QRectF& line) const;
    void stationRow(QPainter& painter, const PlotFrame& frame, const StationBar& bar, double middle) const;
    void endRow(QPainter& painter, const PlotFrame& frame, double middle) const;

    std::shared_ptr<const PlanState> plan_;
    size_t which_ = 0;
};

} // namespace washfast::ui::sunlight
