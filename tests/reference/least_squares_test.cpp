// Least squares against the Statistical Reference Datasets of NIST, all 27 nonlinear and 11 linear ones: certified
// values to at least six digits, from both starts. tests/reference/data/nist_strd_*/SOURCES.md says where each file
// comes from.
#include "core/stats/least_squares.h"

#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <numbers>
#include <sstream>
#include <string>

namespace WASHFAST_FILE {

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

double lanczos(std::span<const double> b, double x)
{
    return b[0] * std::exp(-b[1] * x) + b[2] * std::exp(-b[3] * x) + b[4] * std::exp(-b[5] * x);
}

double chwirut(std::span<const double> b, double x)
{
    return std::exp(-b[0] * x) / (b[1] + b[2] * x);
}

double gauss(std::span<const double> b, double x)
{
    return b[0] * std::exp(-b[1] * x) + b[2] * std::exp(-std::pow((x - b[3]) / b[4], 2))
        + b[5] * std::exp(-std::pow((x - b[6]) / b[7], 2));
}

double cubics(std::span<const double> b, double x)
{
    return (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) / (1 + x * (b[4] + x * (b[5] + x * b[6])));
}

const Problem problems[] {
    { "Misra1a", [](std::span<const double> b, double x) { return b[0] * (1 - std::exp(-b[1] * x)); } },
    { "Misra1b", [](std::span<const double> b, double x) { return b[0] * (1 - std::pow(1 + b[1] * x / 2, -2)); } },
    { "Misra1c", [](std::span<const double> b, double x) { return b[0] * (1 - std::pow(1 + 2 * b[1] * x, -0.5)); } },
    { "Misra1d", [](std::span<const double> b, double x) { return b[0] * b[1] * x / (1 + b[1] * x); } },
    { "DanWood", [](std::span<const double> b, double x) { return b[0] * std::pow(x, b[1]); } },
    { "Lanczos1", lanczos },
    { "Lanczos2", lanczos },
    { "Lanczos3", lanczos },
    { "MGH09",
        [](std::span<const double> b, double x) { return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]); } },
    { "MGH10", [](std::span<const double> b, double x) { return b[0] * std::exp(b[1] / (x + b[2])); } },
    { "MGH17",
        [](std::span<const double> b, double x) {
            return b[0] + b[1] * std::exp(-x * b[3]) + b[2] * std::exp(-x * b[4]);
        } },
    { "Thurber", cubics },
    { "BoxBOD", [](std::span<const double> b, double x) { return b[0] * (1 - std::exp(-b[1] * x)); } },
    { "Chwirut1", chwirut },
    { "Chwirut2", chwirut },
    { "Gauss1", gauss },
    { "Gauss2", gauss },
    { "Gauss3", gauss },
    { "Kirby2",
        [](std::span<const double> b, double x) {
            return (b[0] + x * (b[1] + x * b[2])) / (1 + x * (b[3] + x * b[4]));
        } },
    { "Hahn1", cubics },
    { "ENSO",
        [](std::span<const double> b, double x) {
            const auto wave = [&](double period, double cosine, double sine) {
                const double phase = 2 * std::numbers::pi * x / period;
                return cosine * std::cos(phase) + sine * std::sin(phase);
            };
            return b[0] + wave(12, b[1], b[2]) + wave(b[3], b[4], b[5]) + wave(b[6], b[7], b[8]);
        } },
    { "Bennett5", [](std::span<const double> b, double x) { return b[0] * std::pow(b[1] + x, -1 / b[2]); } },
    { "Roszman1",
        [](std::span<const double> b, double x) {
            return b[0] - b[1] * x - std::atan(b[2] / (x - b[3])) / std::numbers::pi;
        } },
    { "Rat42", [](std::span<const double> b, double x) { return b[0] / (1 + std::exp(b[1] - b[2] * x)); } },
    { "Rat43",
        [](std::span<const double> b, double x) { return b[0] / std::pow(1 + std::exp(b[1] - b[2] * x), 1 / b[3]); } },
    { "Eckerle4",
        [](std::span<const double> b, double x) {
            return b[0] / b[1] * std::exp(-0.5 * std::pow((x - b[2]) / b[1], 2));
        } },
};

/// Digits that the sum of squares and the standard errors have to share with the certified ones. The residuals of
/// Lanczos1 are near 1e-13 beside values near 1, so that double precision leaves them two or three digits.
double fromResiduals(const std::string& name)
{
    return name == "Lanczos1" ? 2 : 6;
}

void meets(const LeastSquaresFit& fit, const Certified& certified, double from_residuals)
{
    EXPECT_TRUE(fit.ok()) << fit.iterations;
    ASSERT_TRUE(fit.hasErrors());
    ASSERT_EQ(fit.parameters.size(), certified.values.size());
    for (std::size_t k = 0; k < certified.values.size(); ++k) {
        EXPECT_GE(digits(fit.parameters[k], certified.values[k]), 6) << "b" << k + 1 << " = " << fit.parameters[k];
        EXPECT_GE(digits(fit.standardError(k), certified.errors[k]), from_residuals) << "b" << k + 1;
    }
    EXPECT_GE(digits(fit.sum_of_squares, certified.sum_of_squares), from_residuals) << fit.sum_of_squares;
}

double sumOfSquares(const Certified& certified, const std::vector<double>& parameters, Model model)
{
    double sum = 0;
    for (std::size_t i = 0; i < certified.y.size(); ++i)
        sum += std::pow(certified.y[i] - model(parameters, certified.x[i]), 2);
    return sum;
}

class NonlinearReference : public testing::TestWithParam<std::tuple<Problem, int>> { };

} // namespace

TEST_P(NonlinearReference, MeetsTheCertifiedValues)
{
    const auto& [problem, start] = GetParam();
    const auto certified = read(std::string("nonlinear/") + problem.name);
    LeastSquaresOptions options;
    options.iterations = 50'000;
    const auto fit = fitLeastSquares(
        certified.start[start], certified.y.size(),
        [&, model = problem.model](std::span<const double> p, std::span<double> r) {
            for (std::size_t i = 0; i < r.size(); ++i)
                r[i] = certified.y[i] - model(p, certified.x[i]);
        },
        options);
    meets(fit, certified, fromResiduals(problem.name));
}

INSTANTIATE_TEST_SUITE_P(Nist, NonlinearReference, testing::Combine(testing::ValuesIn(problems), testing::Values(0, 1)),
    [](const auto& about) {
        return std::string(std::get<0>(about.param).name) + "_start" + std::to_string(std::get<1>(about.param) + 1);
    });

// The data are as they were published: the certified parameters give the certified sum of squares.
TEST(NonlinearData, GivesTheCertifiedSumOfSquares)
{
    for (const auto& problem : problems) {
        const auto certified = read(std::string("nonlinear/") + problem.name);
        // The parameters of Lanczos1 are printed to eleven digits; its data were made by these.
        if (std::string(problem.name) == "Lanczos1")
            EXPECT_LT(sumOfSquares(certified, { 0.0951, 1, 0.8607, 3, 1.5576, 5 }, problem.model), 1e-24);
        else
            EXPECT_GE(digits(sumOfSquares(certified, certified.values, problem.model), certified.sum_of_squares), 7)
                << problem.name;
    }
}

// Two predictors, and the logarithm of the observed value.
class NelsonReference : public testing::TestWithParam<int> { };

TEST_P(NelsonReference, MeetsTheCertifiedValues)
{
    const auto certified = read("nonlinear/Nelson");
    const auto residuals = [&](std::span<const double> b, std::span<double> r) {
        for (std::size_t i = 0; i < r.size(); ++i) {
            const auto& x = certified.all_x[i];
            r[i] = std::log(certified.y[i]) - (b[0] - b[1] * x[0] * std::exp(-b[2] * x[1]));
        }
    };
    std::vector<double> left(certified.y.size());
    residuals(certified.values, left);
    double sum = 0;
    for (const double one : left)
        sum += one * one;
    EXPECT_GE(digits(sum, certified.sum_of_squares), 7);
    meets(fitLeastSquares(certified.start[GetParam()], left.size(), residuals), certified, 6);
}

INSTANTIATE_TEST_SUITE_P(Nist, NelsonReference, testing::Values(0, 1),
    [](const auto& about) { return "start" + std::to_string(about.param + 1); });

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
                design(i, k) = std::pow(static_cast<long double>(x[0]), name.starts_with("NoInt") ? 1 : int(k));
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
    if (certified.sum_of_squares > 0)
        EXPECT_GE(digits(fit.sum_of_squares, certified.sum_of_squares), 6);
}

INSTANTIATE_TEST_SUITE_P(Nist, LinearReference,
    testing::Values("Norris", "Pontius", "Longley", "Filip", "NoInt1", "NoInt2", "Wampler1", "Wampler2", "Wampler3",
        "Wampler4", "Wampler5"),
    [](const auto& about) { return std::string(about.param); });

} // namespace WASHFAST_FILE
