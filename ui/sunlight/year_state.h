// A year at one place: for each week and half-hour of the clock the minutes that a print needs, and which weeks can
// print at one hour. The Thursday stands for its week, as in the numbering of ISO 8601.
#pragma once

#include "ui/sunlight/light_ask.h"

#include <vector>

namespace washfast::ui::sunlight {

struct YearCell {
    light::TimeNeeded needed;
    double uva_w_m2 = 0; // under the chosen sky, at its beginning
};

/// One run of weeks in which a print can be made.
struct WeekRun {
    int first = 0, last = 0; // numbers of weeks
};

class YearState {
public:
    static constexpr int rowsPerHour = 2;
    static constexpr int rows = 24 * rowsPerHour;

    /// The ISO year of the ask's date; under its sky, and behind its pane when one is switched on.
    explicit YearState(const LightAsk& ask);

    [[nodiscard]] int year() const { return year_; }
    [[nodiscard]] int weeks() const { return int(cells_.size()); }
    /// Week from 1, row from 0 at midnight. Nothing where the clock leaves the half-hour out, or the sun is down.
    [[nodiscard]] const std::optional<YearCell>& cell(int week, int row) const
    {
        return cells_[size_t(week - 1)][size_t(row)];
    }
    [[nodiscard]] QDate monday(int week) const;
    /// First and last row with a cell; all of them when there is none.
    [[nodiscard]] std::pair<int, int> litRows() const;
    /// The shortest time of the year.
    [[nodiscard]] std::optional<double> quickest_min() const;

    /// Weeks in which a print begun at this row likely gets its dose within so many minutes.
    [[nodiscard]] std::vector<WeekRun> printable(int row, double within_min) const;
    [[nodiscard]] QString printableSentence(int row, double within_min) const;
    [[nodiscard]] QString heading() const;
    [[nodiscard]] QString readout(int week, int row) const;
    [[nodiscard]] QString weekWords(int week) const; // "week 23 (1 to 7 June)"
    [[nodiscard]] static QString hourWords(int row); // 10:30

private:
    LightAsk ask_;
    int year_ = 0;
    std::vector<std::vector<std::optional<YearCell>>> cells_; // by week, by row
};

} // namespace washfast::ui::sunlight
