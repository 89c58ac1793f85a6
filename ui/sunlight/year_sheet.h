// The picture of a year: weeks against hours, coloured by the minutes that a print needs, with an outline around what
// is quick enough; under it the same for the one hour that is chosen.
#pragma once

#include "ui/sunlight/painted_sheet.h"
#include "ui/sunlight/year_state.h"

#include <memory>

namespace washfast::ui::sunlight {

class YearSheet : public PaintedSheet {
    Q_OBJECT

public:
    explicit YearSheet(const Theme& theme, QWidget* parent = nullptr);

    void setYear(std::shared_ptr<const YearState> year);
    void setHour(int row);
    void setWithin(double minutes);
    struct Cell {
        int week = 1, row = 0;
    };
    [[nodiscard]] std::optional<Cell> current() const { return current_; }
    void setCurrent(std::optional<Cell> cell);
    /// Middle of a cell in the widget.
    [[nodiscard]] QPointF placeOf(Cell cell) const;

    void paintInto(QPainter& painter, const QRectF& area, bool live) const override;

Q_SIGNALS:
    void pointedAt(const QString& readout);
    void hourPicked(int row);

protected:
    void keyPressEvent(QKeyEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;

private:
    struct Frames {
        PlotFrame map, hour;
    };
    [[nodiscard]] Frames frames(const QRectF& area) const;
    [[nodiscard]] std::optional<Cell> cellAt(const QPointF& place) const;
    void paintMap(QPainter& painter, const PlotFrame& frame) const;
    void outline(QPainter& painter, const PlotFrame& frame) const;
    void paintHour(QPainter& painter, const PlotFrame& frame) const;
    [[nodiscard]] double shade(double minutes) const; // 0 longest, 1 shortest
    [[nodiscard]] bool quick(int week, int row) const;
    [[nodiscard]] std::vector<AxisMark> months() const;
    void describe();

    std::shared_ptr<const YearState> year_;
    int hour_ = 20;
    double within_ = 30;
    std::optional<Cell> current_;
};

} // namespace washfast::ui::sunlight
