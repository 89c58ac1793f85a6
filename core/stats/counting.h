// Counts of arrangements and the hypergeometric distribution they lead to.
#pragma once

#include <vector>

namespace washfast::stats {

/// ln 0! .. ln n!, made once for a test.
class LogFactorials {
public:
    explicit LogFactorials(int largest);
    [[nodiscard]] double of(int n) const { return values_[static_cast<std::size_t>(n)]; }
    /// ln of the number of ways to choose k out of n; needs 0 <= k <= n.
    [[nodiscard]] double choose(int n, int k) const { return of(n) - of(k) - of(n - k); }

private:
    std::vector<double> values_;
};

/// Number of ways to choose k out of n; infinite when too large for a double, 0 outside 0 <= k <= n.
[[nodiscard]] double waysToChoose(int n, int k);

/// A distribution over consecutive whole numbers: P(low + i) = p[i].
struct Discrete {
    int low = 0;
    std::vector<double> p;
};

/// The count of marked items in a draw of `drawn` out of `total` of which `marked` are marked.
[[nodiscard]] Discrete hypergeometric(const LogFactorials& logs, int total, int marked, int drawn);

/// The distribution of the sum of two independent counts.
[[nodiscard]] Discrete convolve(const Discrete& a, const Discrete& b);

} // namespace washfast::stats
