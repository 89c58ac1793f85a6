// What is drawn of a curve page, in the values of the axes and without a widget: points with bars, lines, a band,
// marks. Nothing of it lies outside the steps.
#pragma once

#include "ui/curves/curve_page_state.h"

#include <QPointF>
#include <QRectF>

namespace washfast::ui::curves {

struct PictureLine {
    std::vector<QPointF> points;
    int group = -1; // of the print; -1: the common curve, or the only one
};

struct PicturePoint {
    QPointF at;
    double bar = 0; // up and down; 0 for none
    int group = 0; // print, by its place in the state
    int step = 0;
    bool left_out = false; // turned back
};

struct PictureMark {
    double at = 0; // on its axis
    QString words;
    bool wanted = false; // the exposure or density that the person asks for
};

struct CurvePicture {
    std::vector<PicturePoint> points;
    std::vector<PictureLine> lines;
    std::vector<QPointF> band; // a closed outline
    std::vector<PictureMark> across; // on the axis of exposures, log10
    std::vector<PictureMark> up; // on the axis of densities
    QPointF wanted_ends; // interval of the wanted exposure, log10; both 0 when there is none
    QRectF extent; // of the points; no height and width when there are none
    QString x_label, y_label;
};

/// `laid_over`: with the shifts taken off, so that the prints lie on the common curve; else as they were exposed, each
/// with its own curve.
[[nodiscard]] CurvePicture curvePicture(const CurvePageState& state, bool laid_over);

/// The shift of each print against the age of its mix in days: points in the order of the state's prints, those without
/// an age left out, and the line with its band.
[[nodiscard]] CurvePicture driftPicture(const CurvePageState& state);

} // namespace washfast::ui::curves
