// Band, lines, error bars and marks of a curve over the plot area of a chart, and the title with the legend above it.
// Parts of the chart, so that they are saved with it.
#pragma once

#include "ui/common/plot_item.h"
#include "ui/common/point_glyph.h"
#include "ui/common/theme.h"
#include "ui/curves/curve_picture.h"

namespace washfast::ui::curves {

class CurveLayer : public PlotItem {
    Q_OBJECT

public:
    CurveLayer(QChart* chart, const Theme& theme);

    void setPicture(CurvePicture picture);
    void setTheme(const Theme& theme);
    /// Outline of the band in the chart's coordinates, as it is painted.
    [[nodiscard]] QPolygonF bandOutline() const;
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    void paintMarks(QPainter& painter, const PlotFrame& plot) const;
    void paintWanted(QPainter& painter, const PlotFrame& plot) const;

    CurvePicture picture_;
    Theme theme_;
};

/// Title and what the signs stand for.
class CurveHeading : public QGraphicsObject {
    Q_OBJECT

public:
    struct Entry {
        PointShape shape = PointShape::Circle;
        QColor colour;
        QString words;
    };

    explicit CurveHeading(QChart* chart);

    void set(const QString& title, std::vector<Entry> entries, const Theme& theme);
    [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }
    /// With so much room at the top of the chart; it depends on the entries and on the width.
    [[nodiscard]] double heightFor(double width) const;
    [[nodiscard]] QRectF boundingRect() const override;
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    /// Places of the entries' words in lines of this width; those beyond the last line are counted.
    struct Laid {
        std::vector<QPointF> at; // left end, line number
        int beyond = 0;
        int lines = 0;
    };
    [[nodiscard]] Laid lay(double width) const;
    [[nodiscard]] QFont small() const;

    QChart* chart_;
    QString title_;
    std::vector<Entry> entries_;
    Theme theme_;
};

} // namespace washfast::ui::curves
