// Adjusting p-values for how many things were looked at: Benjamini and Hochberg, J. R. Stat. Soc. B 57 (1995) 289.
#pragma once

#include <span>
#include <vector>

namespace washfast::stats {

/// q_(i) = min over j >= i of p_(j) m / j, at most 1; in the order of the input.
[[nodiscard]] std::vector<double> benjaminiHochberg(std::span<const double> p);

} // namespace washfast::stats
