// The line that says which prints are shown, in plain words.
//
//     rain M7                            both words stand in the print's texts (see PrintColumns::words)
//     "ran off"                          these words in this order
//     kept < 0.6                         a comparison: = != < <= > >=
//     dose_j_cm2 from 2 to 5             both ends included
//     print_outcome has "ran off"        a text, or the key or label of a choice, contains it
//     is_ran_off = yes and not (mix_code = M7 or paper_name has cotton)
//     coat_start > 2026-05-01            after that day
//     kept is unknown
//
// `and` binds closer than `or`, `not` closer than both; things that only stand side by side are joined by `and`. All
// words of the language, field names and texts count in any case. A field is its catalogue key, or a beginning that
// fits only one key. A name is taken for a field only when an operator follows (= and its kin, has, is known, is
// unknown, from); otherwise it is a word to look for. What stands in quotation marks is never an operator.
//
// Unknown is neither true nor false. A comparison with a value that was not recorded is unknown, `not` of unknown is
// unknown, `and` takes the least and `or` the most true of its parts (no < unknown < yes). Only rows that come out true
// are shown, so neither `kept < 0.6` nor `not kept < 0.6` shows a print whose `kept` is unknown. Words and `is known`
// always know.
//
// Numbers are compared to a billionth of the limit, so that `= 20` finds what was worked out to 19.999999999999996. A
// day is the whole day on the clock of the record, a time given to the minute the whole minute; `>` is after all of it,
// `<=` up to its end. A time without a day is compared with the time of day.
#pragma once

#include "core/quantity/result.h"
#include "core/trial/print_columns.h"

#include <memory>

namespace washfast {

namespace filter {
class Node;
}

/// What is wrong with a filter, and where in its text.
struct FilterFault {
    QString says; // one sentence
    int at = 0; // first character, from 0; the length of the text when something is missing at its end
    int length = 0; // 0 when something is missing

    [[nodiscard]] Error error() const; // for those who cannot point at the place
};

class Filter {
public:
    Filter() = default; // shows everything

    [[nodiscard]] bool showsAll() const { return !root_; }
    /// One entry a print, in the order of the notebook's print table: 1 where it is shown. The columns must be of a
    /// notebook with the catalogue that the filter was read with.
    [[nodiscard]] std::vector<char> matches(const PrintColumns& columns) const;
    [[nodiscard]] bool matchesOne(const PrintColumns& columns, int row) const;

private:
    friend class FilterReading;
    std::shared_ptr<const filter::Node> root_;
};

struct ParsedFilter {
    Filter filter; // shows everything when there is a fault
    std::optional<FilterFault> fault;

    [[nodiscard]] bool ok() const { return !fault; }
};

/// Reads a filter. An empty text shows everything.
[[nodiscard]] ParsedFilter parseFilter(const QString& text, const Catalogue& catalogue);

/// How to write a filter, a few lines of plain text.
[[nodiscard]] QString filterHelp(const Catalogue& catalogue);

} // namespace washfast
