// Made-up terms for the tests: twelve factors of every kind that share some weather, and a cause that is planted or
// not.
#pragma once

#include "core/causes/answer.h"
#include "core/stats/draw.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace washfast::causes::made_up {

using stats::Draw;

inline double bell(Draw& draw)
{
    return std::sqrt(-2.0 * std::log(1.0 - draw.unit())) * std::cos(2.0 * std::numbers::pi * draw.unit());
}

inline QString name(int factor)
{
    return QStringLiteral("f%1").arg(factor);
}

/// f0 to f4 are numbers, f5 to f8 yes/no, f9 to f11 choices of 3, 4 and 7. `shared` is their correlation with the
/// weather.
inline FactorTable term(Draw& draw, int prints, double shared, double unknown = 0.0)
{
    const auto n = static_cast<std::size_t>(prints);
    FactorTable table;
    table.outcome = QStringLiteral("failed");
    table.outcome_values.assign(n, 0.0);
    std::vector<double> weather(n);
    for (std::size_t i = 0; i < n; ++i) {
        weather[i] = bell(draw);
        table.prints.push_back(QStringLiteral("P%1").arg(i + 1));
    }
    for (int f = 0; f < 12; ++f) {
        Factor factor;
        factor.name = name(f);
        factor.kind = f < 5 ? Factor::Kind::Number : (f < 9 ? Factor::Kind::YesNo : Factor::Kind::Choice);
        for (std::size_t i = 0; i < n; ++i) {
            const double z = shared * weather[i] + std::sqrt(1.0 - shared * shared) * bell(draw);
            const bool known = draw.unit() >= unknown;
            if (f < 5) {
                const double value = f == 3 ? std::round(2.0 * z) : (f == 4 ? std::exp(z) : z);
                factor.numbers.push_back(known ? std::optional(value) : std::nullopt);
            } else if (f < 9) {
                factor.numbers.push_back(known ? std::optional(z > 0.4 * (f - 6) ? 1.0 : 0.0) : std::nullopt);
            } else {
                const int levels = f == 9 ? 3 : (f == 10 ? 4 : 7);
                const double rank = 0.5 + 0.5 * std::erf(z / std::numbers::sqrt2);
                const int level = std::clamp(static_cast<int>(rank * levels), 0, levels - 1);
                factor.texts.push_back(known ? QStringLiteral("level %1").arg(level) : QString());
            }
        }
        table.factors.push_back(std::move(factor));
    }
    return table;
}

inline void failAtRandom(FactorTable& table, Draw& draw, double rate)
{
    for (auto& value : table.outcome_values)
        value = draw.unit() < rate ? 1.0 : 0.0;
}

/// Prints with a yes in `factor` fail at the first rate, the others at the second.
inline void plant(FactorTable& table, Draw& draw, int factor, double with, double without)
{
    const auto& values = table.factors[static_cast<std::size_t>(factor)].numbers;
    for (std::size_t i = 0; i < table.outcome_values.size(); ++i)
        table.outcome_values[i] = draw.unit() < (values[i].value_or(0.0) > 0.0 ? with : without) ? 1.0 : 0.0;
}

/// Yes in every second print.
inline void halve(FactorTable& table, int factor)
{
    auto& values = table.factors[static_cast<std::size_t>(factor)].numbers;
    for (std::size_t i = 0; i < values.size(); ++i)
        values[i] = i % 2 == 0 ? 1.0 : 0.0;
}

/// As analyse, with fewer draws and without the fits that these tests do not look at.
inline Answer quickly(const FactorTable& table)
{
    Options options;
    options.firth = false;
    options.draws = 1'999;
    options.enumerate_up_to = 20'000;
    return analyse(table, options);
}

} // namespace washfast::causes::made_up
