// A chart of grey steps to print on film: even steps from nothing to full ink, so that the film's own densities can be
// measured and a negative made by them. The first page is the chart, the second says what to do with it.
#pragma once

#include "ui/sheets/page.h"

#include <vector>

namespace washfast::ui::curves {

inline constexpr int fewestChartSteps = 3, mostChartSteps = 41;

struct StepChart {
    int steps = 11;
    bool mirrored = false; // for film that lies with its ink on the paper

    /// Per cent of full ink of each step, from 0 to 100.
    [[nodiscard]] std::vector<double> values() const;
    /// Of one step, upright on the page, in millimetres. The row is as wide as the page allows.
    [[nodiscard]] QRectF cell_mm(int step) const;
};

inline constexpr int stepChartPages = 2;
[[nodiscard]] sheets::PaintPage stepChartPainter(const StepChart& chart);

} // namespace washfast::ui::curves
