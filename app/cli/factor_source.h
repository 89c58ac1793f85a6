// The table of prints that the verbs causes and next look at: from a notebook or from any table with headings.
#pragma once

#include "app/cli/arguments.h"
#include "core/causes/factor_table.h"

namespace washfast::cli {

/// From a table it is read once, and may come from a pipe or from standard input ("-").
/// Reads --outcome, --larger-is-worse, --factors, --model, --block, --batch, --same-as, --where and --against.
[[nodiscard]] Result<causes::FactorTable> factorTable(const Arguments& arguments);

/// What is wrong with the question itself, before any file is read; empty when nothing is.
[[nodiscard]] QString questionFault(const Arguments& arguments);

/// Those options, but --model, for the shape of a verb.
[[nodiscard]] std::vector<Option> factorOptions();

} // namespace washfast::cli
