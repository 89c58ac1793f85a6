// What stands above a plot of prints: its title, what the signs mean, and what the colours stand for. Part of the
// chart, so that it is saved with it.
#pragma once

#include "ui/common/theme.h"

#include <QGraphicsObject>

class QChart;

namespace washfast::ui {

struct PlotLegend {
    QString title;
    std::array<QColor, 6> stops;
    QString colour_label; // of the ramp
    QString low, high; // its ends; empty when no print has a value
    QString unknown; // what the colour of a print without the value says; empty when there is none such
};

/// A title in bold at the top of the room, cut off with dots when it is too long.
void paintPlotTitle(QPainter& painter, const QRectF& room, QFont font, const QString& title, const Theme& theme);

class PlotHeading : public QGraphicsObject {
    Q_OBJECT

public:
    static constexpr double height = 54;

    explicit PlotHeading(QChart* chart);

    void set(PlotLegend legend, const Theme& theme);
    [[nodiscard]] const PlotLegend& legend() const { return legend_; }
    /// The colour of prints without a value for the ramp.
    [[nodiscard]] static QColor unknownColour(const Theme& theme);

    [[nodiscard]] QRectF boundingRect() const override;
    void paint(QPainter* painter, const QStyleOptionGraphicsItem* option, QWidget* widget) override;

private:
    void paintSigns(QPainter& painter, const QRectF& area) const;

    QChart* chart_;
    PlotLegend legend_;
    Theme theme_;
};

} // namespace washfast::ui
