// Intervals for a share and for the difference of two shares.
#pragma once

namespace washfast::stats {

struct Interval {
    double low = 0.0;
    double high = 0.0;
};

/// Wilson, J. Am. Stat. Assoc. 22 (1927) 209. `total` at least 1.
[[nodiscard]] Interval wilson(int successes, int total, double confidence = 0.95);

/// Clopper and Pearson, Biometrika 26 (1934) 404. `total` at least 1.
[[nodiscard]] Interval clopperPearson(int successes, int total, double confidence = 0.95);

struct Difference {
    double value = 0.0;
    Interval interval;
};

/// First share minus second, with Newcombe's interval from the two Wilson intervals (Stat. Med. 17 (1998) 873, method
/// 10). Both totals at least 1.
[[nodiscard]] Difference riskDifference(
    int first_successes, int first_total, int second_successes, int second_total, double confidence = 0.95);

} // namespace washfast::stats
