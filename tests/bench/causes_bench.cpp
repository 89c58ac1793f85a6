// The search for causes beside a raw baseline: Firth's regression with all profile intervals against one plain Newton
// step over the same matrix, and permutations against bare shuffles of the same numbers.
#include "core/causes/answer.h"
#include "core/stats/draw.h"
#include "core/stats/firth.h"
#include "core/stats/permutation.h"
#include "tests/bench/ratio_table.h"
#include "tests/causes/made_up_terms.h"

#include <ctime>

using namespace washfast;

namespace {

constexpr int prints = 2'000;
constexpr int factors = 12;

/// Wall time is Google Benchmark's; the processor's is kept beside it.
class Processor {
public:
    explicit Processor(benchmark::State& state)
        : state_(state)
        , start_(std::clock())
    {
    }
    ~Processor()
    {
        state_.counters[bench::processorCounter] = 1e3 * static_cast<double>(std::clock() - start_)
            / static_cast<double>(CLOCKS_PER_SEC) / static_cast<double>(state_.iterations());
    }
    Processor(const Processor&) = delete;
    Processor& operator=(const Processor&) = delete;

private:
    benchmark::State& state_;
    std::clock_t start_;
};

struct Term {
    Eigen::MatrixXd columns { prints, factors };
    Eigen::VectorXd failed { prints };
    Term()
    {
        stats::Draw draw(7);
        for (int i = 0; i < prints; ++i) {
            double odds = -0.5;
            for (int j = 0; j < factors; ++j) {
                columns(i, j) = causes::made_up::bell(draw);
                odds += 0.1 * j * columns(i, j);
            }
            failed(i) = draw.unit() < 1.0 / (1.0 + std::exp(-odds)) ? 1.0 : 0.0;
        }
    }
};

void firthProfiles(benchmark::State& state)
{
    const Term term;
    const Processor processor(state);
    for (auto _ : state)
        benchmark::DoNotOptimize(stats::firth(term.columns, term.failed));
}

/// As many weighted normal matrices, factored, as the profiles need at the least: 13 terms, 2 ends, 3 steps each.
void bareNormalMatrices(benchmark::State& state)
{
    const Term term;
    Eigen::MatrixXd design(prints, factors + 1);
    design << Eigen::VectorXd::Ones(prints), term.columns;
    const Eigen::VectorXd weights = Eigen::VectorXd::Constant(prints, 0.2);
    const Processor processor(state);
    for (auto _ : state)
        for (int k = 0; k < (factors + 1) * 2 * 3; ++k) {
            const Eigen::MatrixXd normal = design.transpose() * weights.asDiagonal() * design;
            benchmark::DoNotOptimize(normal.ldlt().solve(design.transpose() * term.failed).eval());
        }
}

constexpr std::uint64_t draws = 10'000;
constexpr std::size_t permuted = 200;

std::vector<double> someValues()
{
    stats::Draw draw(9);
    std::vector<double> out;
    for (std::size_t i = 0; i < permuted; ++i)
        out.push_back(causes::made_up::bell(draw));
    return out;
}

void permutations(benchmark::State& state)
{
    const std::vector<double> values = someValues();
    std::vector<int> group;
    for (std::size_t i = 0; i < permuted; ++i)
        group.push_back(i % 2 == 0 ? 1 : 0);
    const Processor processor(state);
    for (auto _ : state)
        benchmark::DoNotOptimize(stats::differenceOfMeansTest(values, group, {}, { 1, draws, 3, 0 }));
}

void permutationsOfPairs(benchmark::State& state)
{
    const std::vector<double> x = someValues();
    std::vector<double> y = x;
    std::reverse(y.begin(), y.end());
    const Processor processor(state);
    for (auto _ : state)
        benchmark::DoNotOptimize(stats::correlationTest(x, y, {}, { 1, draws, 3, 0 }));
}

void bareShuffles(benchmark::State& state)
{
    std::vector<double> values = someValues();
    std::mt19937_64 engine(3);
    const Processor processor(state);
    for (auto _ : state)
        for (std::uint64_t i = 0; i < draws; ++i) {
            std::shuffle(values.begin(), values.end(), engine);
            benchmark::DoNotOptimize(values.data());
        }
}

/// The whole answer on 200 prints, as the view asks for it.
void answerOf200(benchmark::State& state)
{
    stats::Draw draw(11);
    causes::FactorTable table = causes::made_up::term(draw, 200, 0.3);
    causes::made_up::plant(table, draw, 5, 0.9, 0.2);
    const Processor processor(state);
    for (auto _ : state)
        benchmark::DoNotOptimize(causes::analyse(table));
}

BENCHMARK(firthProfiles)->Unit(benchmark::kMillisecond);
BENCHMARK(bareNormalMatrices)->Unit(benchmark::kMillisecond);
BENCHMARK(permutations)->Unit(benchmark::kMillisecond);
BENCHMARK(permutationsOfPairs)->Unit(benchmark::kMillisecond);
BENCHMARK(bareShuffles)->Unit(benchmark::kMillisecond);
BENCHMARK(answerOf200)->Unit(benchmark::kMillisecond);

} // namespace

int main(int count, char** words)
{
    return bench::runAndCompare({ words, words + count },
        { { "Firth, 12 factors x 2,000 prints, all profile intervals", "firthProfiles", "", 1'000 },
            { "the same beside bare normal matrices", "firthProfiles", "bareNormalMatrices", 0 },
            { "10,000 permutations of 200 prints, two groups", "permutations", "", 200 },
            { "10,000 permutations of 200 prints, two numbers", "permutationsOfPairs", "", 200 },
            { "two groups beside bare shuffles", "permutations", "bareShuffles", 0 },
            { "two numbers beside bare shuffles", "permutationsOfPairs", "bareShuffles", 0 },
            { "the whole answer, 12 factors, 200 prints", "answerOf200", "", 100 } },
        5);
}
