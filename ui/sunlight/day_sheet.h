// The picture of a day: UV Index, ultraviolet at the sheet, minutes that a print needs, and the sun's height, one above
// the other on the same clock, with the lesson laid over all of them.
#pragma once

#include "ui/sunlight/day_state.h"
#include "ui/sunlight/painted_sheet.h"

#include <memory>

namespace washfast::ui::sunlight {

class DaySheet : public PaintedSheet {
    Q_OBJECT

public:
    explicit DaySheet(const Theme& theme, QWidget* parent = nullptr);

    void setDay(std::shared_ptr<const DayState> day);
    [[nodiscard]] const DayState* day() const { return day_.get(); }
    /// The moment that is pointed at, in minutes of the day.
    [[nodiscard]] std::optional<double> current() const { return current_; }
    void setCurrent(std::optional<double> minute);
    /// Where a moment stands in the widget, and back; nothing outside of the plots.
    [[nodiscard]] double placeOf(double minute) const;
    [[nodiscard]] std::optional<double> minuteAt(double x) const;

    void paintInto(QPainter& painter, const QRectF& area, bool live) const override;

Q_SIGNALS:
    void pointedAt(const QString& readout); // empty when at nothing

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;

private:
    std::shared_ptr<const DayState> day_;
    std::optional<double> current_;
    bool by_pointer_ = false;
};

} // namespace washfast::ui::sunlight
