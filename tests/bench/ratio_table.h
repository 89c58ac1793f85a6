// Runs the benchmarks in a random order, several times each, and prints a table of medians: what a thing costs here
// beside the baseline of the same run. Times alone say little about another machine; the ratio does.
#pragma once

#include <benchmark/benchmark.h>
#include <cstdio>
#include <map>
#include <string>
#include <vector>

namespace washfast::bench {

/// One line of the table. Benchmarks are named as in Google Benchmark's output.
struct Comparison {
    std::string what;
    std::string ours;
    std::string baseline; // empty: compared with a time instead
    double aim = 0; // ratio, or milliseconds when there is no baseline
};

/// Keeps the median of every benchmark, in milliseconds, and shows the runs as usual.
class Medians : public benchmark::ConsoleReporter {
public:
    void ReportRuns(const std::vector<Run>& runs) override
    {
        ConsoleReporter::ReportRuns(runs);
        for (const auto& run : runs)
            if (run.aggregate_name == "median")
                medians_[run.run_name.function_name]
                    = run.GetAdjustedRealTime() / (run.time_unit == benchmark::kMillisecond ? 1 : 1e6);
    }
    [[nodiscard]] double of(const std::string& name) const
    {
        const auto found = medians_.find(name);
        return found == medians_.end() ? 0 : found->second;
    }

private:
    std::map<std::string, double> medians_;
};

inline void printTable(const Medians& medians, const std::vector<Comparison>& comparisons)
{
    std::printf("\n| what | here, ms | baseline, ms | ratio | aim | |\n| --- | --- | --- | --- | --- | --- |\n");
    for (const auto& line : comparisons) {
        const double ours = medians.of(line.ours);
        if (ours == 0)
            continue; // left out by a filter
        if (line.baseline.empty()) {
            std::printf("| %s | %.2f | | | < %.0f ms | %s |\n", line.what.c_str(), ours, line.aim,
                ours < line.aim ? "met" : "missed");
            continue;
        }
        const double base = medians.of(line.baseline);
        if (base == 0)
            continue;
        std::printf("| %s | %.2f | %.2f | %.2f | ", line.what.c_str(), ours, base, ours / base);
        if (line.aim > 0)
            std::printf("<= %.1f | %s |\n", line.aim, ours / base <= line.aim ? "met" : "missed");
        else
            std::printf("| |\n");
    }
}

} // namespace washfast::bench
