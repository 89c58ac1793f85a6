// The prints of a report: read once, counted and put into tables. Used by report.cpp only.
#pragma once

#include "core/exchange/report.h"
#include "core/trial/print_reader.h"

namespace washfast::exchange {

/// Recorded of so many prints, and how it came to be.
struct FieldWorth {
    const Field* field = nullptr;
    int measured = 0, estimated = 0, assumed = 0;
    [[nodiscard]] int known() const { return measured + estimated + assumed; }
};

class ReportPrints {
public:
    explicit ReportPrints(const ExportSelection& selection);

    struct Tally {
        int prints = 0, kept = 0, failed = 0;
        std::vector<double> net, share; // net density, kept
        [[nodiscard]] int notJudged() const { return prints - kept - failed; }
    };
    [[nodiscard]] Tally tally(std::optional<int> session = std::nullopt) const; // a row of selection.sessions, or all
    /// Rows of selection.prints that belong to this row of the session table; -1: to none.
    [[nodiscard]] std::vector<int> of(int session) const;
    [[nodiscard]] ReportMark mark(int print) const;
    [[nodiscard]] std::optional<double> number(int print, const char* key) const;
    [[nodiscard]] QString code(int print) const;
    /// The cell of a table: a dash when it is not recorded.
    [[nodiscard]] QString cell(int print, const Field& field) const;

    /// One row for each of these prints; `columns` from columns().
    [[nodiscard]] ReportTable table(
        const QString& caption, const std::vector<int>& prints, const std::vector<const Field*>& columns) const;
    /// The main fields that any print has.
    [[nodiscard]] std::vector<const Field*> columns(bool makers) const;
    /// All main fields, those that no print has too.
    [[nodiscard]] std::vector<FieldWorth> worth() const;
    [[nodiscard]] const ExportSelection& selection() const { return selection_; }

private:
    const ExportSelection& selection_;
    PrintReader reader_;
};

/// 2026-05-04 10:15, on the clock that it was read from.
[[nodiscard]] QString reportTime(const std::optional<Instant>& time);
[[nodiscard]] std::optional<double> medianOf(std::vector<double> values);
[[nodiscard]] QString reportNumber(const std::optional<double>& value, int decimals); // a dash for nothing
[[nodiscard]] QString notRecorded(); // a dash

} // namespace washfast::exchange
