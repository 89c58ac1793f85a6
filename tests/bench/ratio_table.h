// Runs the benchmarks in a random order, several times each, and prints a table of medians: what a thing costs here
// beside the baseline of the same run. Times alone say little about another machine; the ratio does.
#pragma once

#include <benchmark/benchmark.h>
#include <cstdio>
#include <ctime>
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

/// The counter in which a benchmark tells its processor time, in milliseconds.
inline constexpr const char* processorCounter = "processor_ms";

/// Processor time of this process so far, ms.
inline double processorMs()
{
    timespec time {};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &time);
    return 1e3 * double(time.tv_sec) + 1e-6 * double(time.tv_nsec);
}

/// Runs a benchmark's work and notes its processor time too.
template <typename Work> void measureWork(benchmark::State& state, const Work& work)
{
    const double begin = processorMs();
    for (auto _ : state)
        work();
    state.counters[processorCounter] = (processorMs() - begin) / double(state.iterations());
}

struct Cost {
    double clock_ms = 0; // 0: not measured
    double processor_ms = 0;
};

/// Keeps the median of every benchmark and shows the runs as usual.
class Medians : public benchmark::ConsoleReporter {
public:
    Medians()
        : ConsoleReporter(OO_Tabular)
    {
    }
    void ReportRuns(const std::vector<Run>& runs) override
    {
        ConsoleReporter::ReportRuns(runs);
        for (const auto& run : runs)
            if (run.aggregate_name == "median")
                medians_[run.run_name.function_name]
                    = { run.GetAdjustedRealTime(), run.counters.at(processorCounter).value };
    }
    [[nodiscard]] Cost of(const std::string& name) const
    {
        const auto found = medians_.find(name);
        return found == medians_.end() ? Cost {} : found->second;
    }

private:
    std::map<std::string, Cost> medians_;
};

inline void printTable(const Medians& medians, const std::vector<Comparison>& comparisons)
{
    std::printf("\n| what | here, ms | baseline, ms | ratio | ratio of processor time | aim | |\n"
                "| --- | --- | --- | --- | --- | --- | --- |\n");
    for (const auto& line : comparisons) {
        const auto ours = medians.of(line.ours);
        const auto base = line.baseline.empty() ? Cost { 1, 1 } : medians.of(line.baseline);
        if (ours.clock_ms == 0 || base.clock_ms == 0)
            continue; // left out by a filter
        std::printf("| %s | %.2f | ", line.what.c_str(), ours.clock_ms);
        const double ratio = ours.clock_ms / base.clock_ms;
        const char* verdict = line.aim == 0 ? "" : ratio <= line.aim ? "met" : "missed";
        if (line.baseline.empty()) {
            std::printf("| | | < %.0f ms | %s |\n", line.aim, verdict);
            continue;
        }
        std::printf("%.2f | %.2f | %.2f | ", base.clock_ms, ratio, ours.processor_ms / base.processor_ms);
        if (line.aim > 0)
            std::printf("<= %.1f ", line.aim);
        std::printf("| %s |\n", verdict);
    }
}

/// Runs what has been registered, each several times in a random order, so that what else the machine does falls on all
/// of them, and prints the table. Gives the exit status.
inline int runAndCompare(
    std::vector<char*> arguments, const std::vector<Comparison>& comparisons, int times = 7, Medians* kept = nullptr)
{
    std::string repetitions = "--benchmark_repetitions=" + std::to_string(times);
    std::string interleaving = "--benchmark_enable_random_interleaving=true";
    std::string aggregates = "--benchmark_report_aggregates_only=true";
    arguments.insert(arguments.begin() + 1, { repetitions.data(), interleaving.data(), aggregates.data() });
    int count = int(arguments.size());
    benchmark::Initialize(&count, arguments.data());
    if (benchmark::ReportUnrecognizedArguments(count, arguments.data()))
        return 2;
    Medians own;
    Medians& medians = kept ? *kept : own;
    benchmark::RunSpecifiedBenchmarks(&medians);
    printTable(medians, comparisons);
    return 0;
}

} // namespace washfast::bench
