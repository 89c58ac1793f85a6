// Makes Qt's charts look like the rest of the program (they ignore the palette), and gives axes sensible ticks.
#pragma once

#include "ui/common/theme.h"

#include <QList>
#include <QLocale>
#include <QPen>
#include <QPointF>
#include <vector>

class QCategoryAxis;
class QChart;
class QChartView;
class QValueAxis;

namespace washfast::ui {

// Background, title, legend, and every axis that the chart has now; call it again after adding axes or changing theme.
void styleChart(QChart& chart, const Theme& theme);
// The same for the view around it: no frame, smooth edges, the sheet behind.
void styleChartView(QChartView& view, const Theme& theme);
// Line of a group: colour and dash differ from group to group, so that neither is alone.
[[nodiscard]] QPen groupPen(const Theme& theme, int group, double width = 2.0);

// An axis from `low` to `high` with a tick every `step`, which is 1, 2 or 5 times a power of ten.
struct NiceAxis {
    double low = 0;
    double high = 1;
    double step = 0.2;
    int decimals = 1; // as many as the step needs

    [[nodiscard]] int ticks() const;
};

// After P. Heckbert, "Nice numbers for graph labels", Graphics Gems, 1990: the loose labels of a range. Equal, swapped
// or infinite ends are put right first. `wanted` is about how many ticks there should be, at least 2.
[[nodiscard]] NiceAxis niceAxis(double minimum, double maximum, int wanted = 6);
void applyAxis(QValueAxis& axis, const NiceAxis& nice);

// One tick of an axis that carries log10: where, and the value it stands for as text.
struct LogTick {
    double log10 = 0;
    QString label;
};

// Ticks at 1, 2, 5 or at whole powers of ten, or every second one and so on: the closest set with at most `most` of
// them that still has two. The ends are log10 of the smallest and the largest value.
[[nodiscard]] std::vector<LogTick> logTicks(double logLow, double logHigh, int most, const QLocale& locale);
// Sets range and labels of a category axis, which is a value axis with labels of our own. Data are given as log10.
void applyLogAxis(QCategoryAxis& axis, double logLow, double logHigh, const QLocale& locale, int most = 7);

// A line series joins what is on both sides of a NaN: the runs between the gaps, to be shown as a series each.
[[nodiscard]] std::vector<QList<QPointF>> splitAtGaps(const QList<QPointF>& points);

} // namespace washfast::ui
