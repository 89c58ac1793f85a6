// The chart of a characteristic curve, or of the shifts against the age of the mix: axes of Qt Charts, everything else
// items of ours in its scene.
#pragma once

#include "ui/common/point_layer.h"
#include "ui/curves/curve_layer.h"

#include <QChartView>

class QCategoryAxis;
class QValueAxis;

namespace washfast::ui::curves {

class CurveChart : public QChartView {
    Q_OBJECT

public:
    /// `logarithmic`: the axis across carries log10 and shows doses.
    CurveChart(const Theme& theme, bool logarithmic, QWidget* parent = nullptr);

    /// `names`: of the prints, by group. `description`: the same in words, for a screen reader.
    void setPicture(CurvePicture picture, const QString& title, const QStringList& names, const QString& description);
    [[nodiscard]] const CurvePicture& picture() const { return picture_; }
    void setTheme(const Theme& theme);
    [[nodiscard]] PointLayer* points() const { return points_; }
    [[nodiscard]] CurveLayer* layer() const { return layer_; }
    [[nodiscard]] CurveHeading* heading() const { return heading_; }
    /// Smaller: no legend, few marks on the axes.
    void setCompact();
    /// Zero has to be on the axis going up.
    void setFromZero(bool from_zero) { from_zero_ = from_zero; }

Q_SIGNALS:
    void hovered(int point); // index into picture().points, -1 for none
    void picked(int point);

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void layAxes();
    void layPoints();
    void style();

    Theme theme_;
    CurvePicture picture_;
    QString title_;
    QStringList names_;
    bool compact_ = false;
    bool from_zero_ = true;
    QValueAxis* x_ = nullptr;
    QCategoryAxis* x_log_ = nullptr;
    QValueAxis* y_ = nullptr;
    CurveLayer* layer_ = nullptr;
    PointLayer* points_ = nullptr;
    CurveHeading* heading_ = nullptr;
};

} // namespace washfast::ui::curves
