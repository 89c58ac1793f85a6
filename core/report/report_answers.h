// What the search for causes says about the prints of a term, for its report: the term as a whole, and each session in
// which several prints failed.
//
//     options.answers = answersTo(questionsFor(columns, selection));
#pragma once

#include "core/causes/factor_table.h"
#include "core/exchange/report.h"
#include "core/trial/print_columns.h"

#include <functional>

namespace washfast::report {

/// Sessions with at least so many failed prints are looked at by themselves.
inline constexpr int failedToAsk = 4;

/// Holds all that the search needs, so that it can be answered while the notebook goes on changing.
struct TermQuestion {
    QString about; // "Session S4, 6 of 8 failed"
    causes::FactorTable table;
    QString cannot; // why it cannot be asked; then there is no table
};

/// None when no print of the selection failed.
[[nodiscard]] std::vector<TermQuestion> questionsFor(
    const PrintColumns& columns, const exchange::ExportSelection& selection);

/// `keep_going` is told the share that is done, 0 .. 1; when it says false the rest is left out.
[[nodiscard]] std::vector<exchange::ReportAnswer> answersTo(
    const std::vector<TermQuestion>& questions, const std::function<bool(double)>& keep_going = {});

} // namespace washfast::report
