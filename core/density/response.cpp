#include "core/density/response.h"

#include "core/density/words.h"
#include "core/stats/least_squares.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::density {

namespace {

constexpr double leastSpan = 0.15; // density between the lightest and the darkest reference
constexpr double goodResidual = 0.015;
constexpr double worstResidual = 0.15;

double flooredDensity(double reflectance)
{
    return -std::log10(std::max(reflectance, 1e-9));
}

double mean(const ChannelDensities& density)
{
    return (density[0] + density[1] + density[2]) / 3;
}

/// Weighted straight line R = a + b L, each reflectance weighted as its density counts.
std::optional<ChannelResponse> straightLine(std::span<const double> light, std::span<const double> density)
{
    double s = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (std::size_t i = 0; i < light.size(); ++i) {
        const double r = std::pow(10, -density[i]), w = 1 / (r * r);
        s += w;
        sx += w * light[i];
        sy += w * r;
        sxx += w * light[i] * light[i];
        sxy += w * light[i] * r;
    }
    const double determinant = s * sxx - sx * sx;
    if (!(determinant > 0))
        return {};
    const double b = (s * sxy - sx * sy) / determinant;
    if (!(b > 0))
        return {};
    ChannelResponse response;
    response.a = (sy - b * sx) / s;
    response.c = std::log(b);
    return response;
}

bool rises(const ChannelResponse& response, std::span<const double> light)
{
    const auto [least, most] = std::minmax_element(light.begin(), light.end());
    for (const double at : { 0.3 * *least, 1.3 * *most })
        if (response.g + 2 * response.h * std::log(at / response.middle) < 0.05)
            return false;
    return true;
}

double sumOfSquares(const Response& response, const std::vector<Reference>& references)
{
    double sum = 0;
    for (const auto& reference : references)
        for (std::size_t k = 0; k < 3; ++k) {
            const double off
                = reference.density[k] - flooredDensity(response.channels[k].reflectance(reference.light[k]));
            sum += off * off;
        }
    return sum;
}

/// How implausible the flare of a straight response is: its square in units of what is usual. Light that is missing in
/// the shadows (a > 0) is hardly possible with a true curve; flare up to a tenth is common.
double implausible(const Response& response, const std::vector<Reference>& references)
{
    double worst = 0;
    for (std::size_t k = 0; k < 3; ++k) {
        double lightest = 0;
        for (const auto& reference : references)
            lightest = std::max(lightest, std::pow(10, -reference.density[k]));
        const double share = response.channels[k].a / lightest;
        const double size = share > 0 ? share / 0.02 : -share / 0.05;
        worst += size * size / 3;
    }
    return worst;
}

} // namespace

double ChannelResponse::reflectance(double light) const
{
    if (!(light > 0))
        return a;
    const double x = std::log(light / middle);
    return a + std::exp(c + g * x + h * x * x);
}

double ChannelResponse::slope(double light) const
{
    const double at = std::max(light, 1e-6 * middle);
    const double x = std::log(at / middle);
    return std::exp(c + g * x + h * x * x) * (g + 2 * h * x) / at;
}

double ChannelResponse::flare() const
{
    if (g != 1 || h != 0)
        return 0;
    return std::max(0.0, -a / slope(middle));
}

std::optional<ChannelResponse> fitChannel(std::span<const double> light, std::span<const double> density, int terms)
{
    const std::size_t n = light.size();
    if (n == 0 || std::size_t(terms) > n)
        return {};
    for (const double value : light)
        if (!(value > 0))
            return {};
    ChannelResponse response;
    if (terms == 1) {
        double sum = 0;
        for (std::size_t i = 0; i < n; ++i)
            sum += -density[i] * std::log(10.0) - std::log(light[i]);
        response.c = sum / double(n);
        return response;
    }
    const auto line = straightLine(light, density);
    if (!line)
        return {};
    if (n == 2)
        return line; // exact
    double logs = 0;
    for (const double value : light)
        logs += std::log(value) / double(n);
    const double middle = std::exp(logs);

    // Parameters c, a, g, h; what is not fitted stays. Weak expectations keep the bends from running away.
    const auto shaped = [&](std::span<const double> p) {
        ChannelResponse shape;
        shape.middle = middle;
        shape.c = p[0];
        shape.a = p[1];
        shape.g = terms > 2 ? p[2] : 1;
        shape.h = terms > 3 ? p[3] : 0;
        return shape;
    };
    const auto residuals = [&](std::span<const double> p, std::span<double> r) {
        const auto shape = shaped(p);
        for (std::size_t i = 0; i < n; ++i) {
            const double reflectance = shape.reflectance(light[i]);
            r[i] = reflectance > 0 ? (density[i] + std::log10(reflectance)) / 0.01
                                   : std::numeric_limits<double>::quiet_NaN();
        }
        if (terms > 2) {
            r[n] = p[1] / 0.05;
            r[n + 1] = (p[2] - 1) / 0.7;
        }
        if (terms > 3)
            r[n + 2] = p[3] / 0.2;
    };
    const std::size_t count = n + (terms > 2 ? 2u : 0u) + (terms > 3 ? 1u : 0u);
    std::optional<ChannelResponse> best;
    double least = std::numeric_limits<double>::infinity();
    for (const double a : { line->a, 0.0 }) {
        std::vector<double> start { line->c + logs, a, 1, 0 };
        start.resize(std::size_t(terms));
        stats::LeastSquaresOptions options;
        options.iterations = 200;
        options.step_tolerance = 1e-10;
        const auto fit = stats::fitLeastSquares(start, count, residuals, options);
        if (fit.end == stats::FitEnd::BadStart || fit.sum_of_squares >= least)
            continue;
        const auto shape = shaped(fit.parameters);
        if (!rises(shape, light))
            continue;
        least = fit.sum_of_squares;
        best = shape;
    }
    return best;
}

std::optional<Response> fitResponse(const std::vector<Reference>& references, int terms)
{
    Response response;
    response.terms = terms;
    for (std::size_t k = 0; k < 3; ++k) {
        std::vector<double> light, density;
        for (const auto& reference : references) {
            light.push_back(reference.light[k]);
            density.push_back(reference.density[k]);
        }
        const auto channel = fitChannel(light, density, terms);
        if (!channel)
            return {};
        response.channels[k] = *channel;
    }
    const int left = int(references.size()) - terms;
    if (left > 0)
        response.residual_sd = std::sqrt(sumOfSquares(response, references) / (3.0 * left));
    return response;
}

Outcome checkReferences(const std::vector<Reference>& references)
{
    auto sorted = references;
    std::sort(sorted.begin(), sorted.end(),
        [](const Reference& a, const Reference& b) { return mean(a.density) < mean(b.density); });
    for (const auto& reference : sorted)
        for (std::size_t k = 0; k < 3; ++k)
            if (!(reference.light[k] > 0))
                return Error { Trouble::BadInput,
                    Words::tr("The reference %1 has no light in it; it cannot be used.").arg(reference.name), {} };
    for (std::size_t i = 0; i < sorted.size(); ++i)
        for (std::size_t j = i + 1; j < sorted.size(); ++j)
            for (std::size_t k = 0; k < 3; ++k) {
                const auto &light = sorted[i], &dark = sorted[j];
                const double step = dark.density[k] - light.density[k];
                const double seen = std::log10(light.light[k] / dark.light[k]);
                const bool reversed = step > 0.03 && seen <= 0;
                const bool split = std::abs(step) <= 0.03 && std::abs(seen) > 0.12;
                if (reversed || split)
                    return Error { Trouble::BadInput,
                        (reversed ? Words::tr(
                             "The references %1 and %2 contradict one another: %2 is said to be darker but "
                             "is not.")
                                  : Words::tr(
                                      "The references %1 and %2 contradict one another: they are said to be alike but "
                                      "are not. Is the light uneven?"))
                            .arg(light.name, dark.name),
                        {} };
            }
    if (sorted.size() >= 2 && mean(sorted.back().density) - mean(sorted.front().density) < leastSpan)
        return Error { Trouble::BadInput,
            Words::tr("The references %1 and %2 are too alike to measure between; one should be at least %3 denser.")
                .arg(sorted.front().name, sorted.back().name)
                .arg(leastSpan),
            {} };
    return Done {};
}

Result<ChosenResponse> chooseResponse(
    const std::vector<Reference>& file, const std::vector<Reference>& linear, Codes codes)
{
    const std::size_t n = file.size();
    const auto fit = [&](Encoding encoding, int terms) {
        return fitResponse(encoding == Encoding::Linear ? linear : file, terms);
    };
    const Encoding own = codes == Codes::Linear ? Encoding::Linear : Encoding::File;
    const Error cannot { Trouble::BadInput,
        Words::tr("The references contradict one another: no rising response goes through them."), {} };
    if (n < 2) {
        auto gain = fit(own, 1);
        return gain ? Result<ChosenResponse>(ChosenResponse { own, *gain }) : Result<ChosenResponse>(cannot);
    }
    std::vector<ChosenResponse> tried;
    const auto attempt = [&](Encoding encoding, int terms) {
        if (auto response = fit(encoding, terms))
            tried.push_back({ encoding, *response });
    };
    attempt(own, 2);
    if (codes == Codes::Auto)
        attempt(Encoding::Linear, 2);
    if (n == 2) {
        if (tried.empty())
            return cannot;
        double lightest = 9;
        for (const auto& reference : file)
            lightest = std::min(lightest, mean(reference.density));
        const bool choice = tried.size() == 2 && lightest <= 0.5; // from dark patches alone it cannot be told
        const bool linear_codes
            = choice && implausible(tried[0].response, file) > 4 && implausible(tried[1].response, linear) < 4;
        return linear_codes ? tried[1] : tried[0];
    }
    if (n > 3)
        attempt(own, 3);
    if (n > 5)
        attempt(own, 4);
    if (n == 3 && (tried.empty() || std::all_of(tried.begin(), tried.end(), [](const ChosenResponse& t) {
            return t.response.residual_sd > 0.02;
        }))) {
        // A curved camera and three patches: the curve goes through all of them, and half of what a straight one
        // leaves over is kept as its uncertainty.
        const double left = tried.empty() ? 0.05 : tried.front().response.residual_sd;
        if (auto curved = fit(own, 3)) {
            curved->residual_sd = left / 2;
            tried.insert(tried.begin(), { own, *curved });
            tried.resize(1);
        }
    }
    if (tried.empty())
        return cannot;
    auto best = std::find_if(
        tried.begin(), tried.end(), [](const ChosenResponse& t) { return t.response.residual_sd <= goodResidual; });
    if (best == tried.end())
        best = std::min_element(tried.begin(), tried.end(), [&](const ChosenResponse& a, const ChosenResponse& b) {
            const auto score = [&](const ChosenResponse& t) { // generalised cross-validation
                return t.response.residual_sd / std::sqrt(std::max(0.5, double(n) - t.response.terms));
            };
            return score(a) < score(b);
        });
    if (best->response.residual_sd > worstResidual)
        return Error { Trouble::BadInput,
            Words::tr("The references contradict one another: their densities miss the best rising response by %1.")
                .arg(best->response.residual_sd, 0, 'f', 2),
            {} };
    return *best;
}

} // namespace washfast::density
