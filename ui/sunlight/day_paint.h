// How a DayState is painted: the strips and plots of DaySheet.
#pragma once

#include "ui/sunlight/day_state.h"
#include "ui/sunlight/painted_sheet.h"

namespace washfast::ui::sunlight {

/// From where to where the day reaches across a sheet.
[[nodiscard]] QRectF dayAcross(const QRectF& area);

class DayPaint {
public:
    DayPaint(QPainter& painter, const Theme& theme, const DayState& day, const QRectF& area);
    void paint(std::optional<double> current);

private:
    struct Row; // of the sheet, from top to bottom
    [[nodiscard]] double x(double minute) const;
    [[nodiscard]] QList<QPointF> series(double DaySample::*what) const;
    [[nodiscard]] std::vector<AxisMark> clockMarks() const;
    void layOut();
    void heading();
    void legend();
    void uvStrip();
    void exposures();
    void lessonBand();
    void ultraviolet();
    void needed();
    void neededGaps(const PlotPanel& panel, const QList<QPointF>& likely);
    void sunHeight(std::optional<double> current);
    void clockChange();
    void pointer(double minute);

    QPainter& painter_;
    const Theme& theme_;
    const DayState& day_;
    QRectF area_;
    double text_ = 14; // height of a line
    QRectF legend_, uv_, exposures_;
    PlotFrame light_, needed_, height_;
    QFont body_, small_;
};

} // namespace washfast::ui::sunlight
