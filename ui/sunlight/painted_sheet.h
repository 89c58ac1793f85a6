// A picture that we paint ourselves and that can be copied and saved like a chart: a view that fills itself with one
// painted item, follows its size and its theme, and hears of pointer and keys.
#pragma once

#include "ui/common/plot_item.h"
#include "ui/common/theme.h"

#include <QGraphicsView>

namespace washfast::ui::sunlight {

class PaintedSheet : public QGraphicsView {
    Q_OBJECT

public:
    explicit PaintedSheet(const Theme& theme, QWidget* parent = nullptr);

    void setTheme(const Theme& theme);
    [[nodiscard]] const Theme& theme() const { return theme_; }
    /// Paints everything into the area; `live`: on the screen, with what pointer and keyboard point at.
    virtual void paintInto(QPainter& painter, const QRectF& area, bool live) const = 0;

protected:
    void again(); // something else is to be seen
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    class Item;
    Item* item_ = nullptr;
    Theme theme_;
};

/// A value and its words on an axis.
struct AxisMark {
    double at = 0;
    QString words;
};

/// One plot of a sheet: where it lies and what its sides stand for. Painting never leaves the frame: data have to lie
/// within.
class PlotPanel {
public:
    PlotPanel(QPainter& painter, const Theme& theme, const PlotFrame& frame)
        : painter_(painter)
        , theme_(theme)
        , frame_(frame)
    {
    }
    [[nodiscard]] const PlotFrame& frame() const { return frame_; }

    /// Lines across at `across` with words at the left, lines up at `up` without; the two axes.
    void grid(const std::vector<AxisMark>& across, const std::vector<AxisMark>& up) const;
    void underline(const std::vector<AxisMark>& up) const; // the words of `up` below the frame
    void caption(const QString& words) const; // above the frame, at its left
    /// A line through points that are values; gaps where y is not a number.
    void line(const QList<QPointF>& values, const QPen& pen) const;
    /// Between two lines of the same x; gaps where either is not a number.
    void band(const QList<QPointF>& low, const QList<QPointF>& high, const QColor& fill) const;

private:
    QPainter& painter_;
    const Theme& theme_;
    PlotFrame frame_;
};

/// A colour that lets the grid show through.
[[nodiscard]] QColor veiled(QColor colour, int alpha);
/// Words on a patch of the sheet, kept within `bounds`; gives the patch.
QRectF paintLabel(QPainter& painter, const Theme& theme, const QPointF& middle, const QString& words,
    const QRectF& bounds, const QColor& ink);

} // namespace washfast::ui::sunlight
