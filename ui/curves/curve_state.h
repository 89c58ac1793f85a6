// What a plot of prints shows, worked out without a widget: which print stands where, coloured by what, and how many
// prints cannot be shown because a value was not recorded.
#pragma once

#include "core/trial/filter.h"
#include "core/trial/print_columns.h"

#include <vector>

namespace washfast::ui {

enum class Plot {
    DensityDose,
    DensityMoistureExpose,
    DensityMoistureRinse,
    KeptMoistureRinse,
    MoistureDoseMap,
    Chosen
};

struct PlotChoice {
    Plot plot;
    const char* title; // for tr() in the context Curves
    const char* x;
    const char* y;
    const char* colour; // print fields by key
    bool x_log; // x carries the field's log10
    bool map; // cells of means instead of axes of density
};
[[nodiscard]] const std::vector<PlotChoice>& plotChoices();
[[nodiscard]] const PlotChoice& plotChoice(Plot plot);

/// What stands on the axes and what colours the points, by the keys of print fields.
struct PlotAxes {
    QString x, y, colour; // colour may be empty: one colour for all
    bool x_log = false; // x carries the field's log10
    bool map = false;
};
[[nodiscard]] PlotAxes axesOf(Plot plot);
/// Print fields that can stand on an axis: numbers, recorded and worked out.
[[nodiscard]] std::vector<const Field*> plottable(const Catalogue& catalogue);

/// How a print turned out, as far as was noted.
enum class Fate : quint8 { Kept, Failed, Unknown };

struct PlottedPrints {
    std::vector<int> rows; // of the notebook's print table
    std::vector<double> x, y, colour; // colour may be NaN: not recorded
    std::vector<Fate> fate;
    int considered = 0; // after the filters
    int lacking = 0; // of these, not shown because x or y was not recorded
    QString x_label, y_label, colour_label;
};

/// Outcome filter: an empty key for all, "failed", "not_failed", or the key of an outcome.
[[nodiscard]] PlottedPrints plottedPrints(
    const PrintColumns& columns, const PlotAxes& axes, const Filter& filter, const QString& outcome);

/// Ends of the known values; nothing when there is none.
[[nodiscard]] std::optional<std::pair<double, double>> extentOf(const std::vector<double>& values);
/// `count` cells of equal width from low to high: count + 1 edges.
[[nodiscard]] std::vector<double> evenEdges(double low, double high, int count);

} // namespace washfast::ui
