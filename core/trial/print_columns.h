// Whole columns of print fields, worked out on first use and kept: what sorting, filtering and plotting read.
#pragma once

#include "core/trial/print_reader.h"

#include <memory>
#include <unordered_map>

namespace washfast {

/// One field for every print, in the order of the notebook's print table.
struct PrintColumn {
    // Number and YesNo as they are, Time as milliseconds since 1970 UTC, Choice as its position; NaN where unknown.
    // For texts it only says known (0) or unknown (NaN).
    std::vector<double> numbers;
    std::vector<QString> texts; // Text and ChoiceSet only
    std::vector<Evidence> evidence;
};

class PrintColumns {
public:
    explicit PrintColumns(const Notebook& notebook);

    [[nodiscard]] const PrintReader& reader() const { return reader_; }
    [[nodiscard]] const Notebook& notebook() const { return reader_.notebook(); }
    [[nodiscard]] const PrintColumn& column(int field) const;
    /// Lower-case text of each print in which the words of a filter are looked for: code, mix, paper, session, group,
    /// maker, method, outcome, cover, notes.
    [[nodiscard]] const std::vector<QString>& words() const;

    /// After a change of some prints (or their children): works their rows out again in the columns that are kept. New
    /// prints at the end of the table are taken in when they are among them; anything else that moves rows forgets all.
    void refresh(const std::vector<int>& print_rows);
    void refresh(int print_row) { refresh(std::vector<int> { print_row }); }
    /// After anything else: forgets all.
    void forget();

private:
    void fill(PrintColumn& column, int field, int row) const;
    [[nodiscard]] QString wordsOf(int row) const;

    PrintReader reader_;
    mutable std::unordered_map<int, std::unique_ptr<PrintColumn>> columns_;
    mutable std::vector<QString> words_;
    mutable bool words_fresh_ = false;
};

} // namespace washfast
