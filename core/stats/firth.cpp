#include "core/stats/firth.h"

#include "core/stats/collinearity.h"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <cmath>

namespace washfast::stats {

namespace {

constexpr int most_steps = 200;
constexpr double longest_step = 2.0; // log odds per standard deviation of a column
constexpr double score_is_zero = 1e-8;

struct State {
    double value = 0.0; // l*
    Vector score; // of l*, all terms
    Matrix information;
    bool sound = false;
};

/// The penalised likelihood of one design, in its own scale.
class Likelihood {
public:
    Likelihood(Matrix design, Vector outcome)
        : x_(std::move(design))
        , y_(std::move(outcome))
    {
    }

    [[nodiscard]] Eigen::Index terms() const { return x_.cols(); }

    [[nodiscard]] State at(const Vector& beta) const
    {
        State state;
        const Eigen::ArrayXd eta = product(x_, beta).array();
        // ln(1 + e^eta) without overflow.
        const Eigen::ArrayXd softplus = eta.max(0.0) + (-eta.abs()).exp().log1p();
        const Eigen::ArrayXd pi = (eta - softplus).exp();
        const Eigen::ArrayXd w = (eta - 2.0 * softplus).exp();
        state.information = weightedGram(x_, w.matrix());
        const Symmetric solved = solveSymmetric(state.information, Matrix(x_.transpose())); // I^-1 X'
        if (!solved.ok)
            return state;
        state.value = (y_.array() * eta - softplus).sum() + 0.5 * solved.pivots.array().log().sum();
        const Eigen::ArrayXd h = w * (x_.array() * solved.solution.transpose().array()).rowwise().sum();
        state.score = transposedProduct(x_, Vector((y_.array() - pi + h * (0.5 - pi)).matrix()));
        state.sound = std::isfinite(state.value) && state.score.allFinite();
        return state;
    }

    /// Climbs from `beta`, leaving term `held` as it is (-1: none). True when the top was reached.
    bool climb(Vector& beta, State& state, Eigen::Index held) const
    {
        state = at(beta);
        if (!state.sound)
            return false;
        for (int step = 0; step < most_steps; ++step) {
            Vector score = state.score;
            Matrix information = state.information;
            if (held >= 0) {
                score(held) = 0.0;
                information.row(held).setZero();
                information.col(held).setZero();
                information(held, held) = 1.0;
            }
            if (score.cwiseAbs().maxCoeff() < score_is_zero)
                return true;
            Vector move = solveSymmetric(information, score);
            const double longest = move.cwiseAbs().maxCoeff();
            if (!std::isfinite(longest))
                return false;
            if (longest > longest_step)
                move *= longest_step / longest;
            bool better = false;
            for (int half = 0; half < 40 && !better; ++half, move *= 0.5) {
                const State next = at(beta + move);
                if (next.sound && next.value >= state.value - 1e-13 * (1.0 + std::fabs(state.value))) {
                    beta += move;
                    state = next;
                    better = true;
                }
            }
            if (!better || move.cwiseAbs().maxCoeff() < 1e-13)
                return score.cwiseAbs().maxCoeff() < 1e-5; // as far as the arithmetic goes
        }
        return false;
    }

private:
    Matrix x_;
    Vector y_;
};

/// The end of the profile interval on one side: where the profile has fallen by half the chi-squared quantile.
std::optional<double> profileEnd(const Likelihood& likelihood, const Vector& top, double top_value, Eigen::Index term,
    double standard_error, double fall)
{
    Vector from = top;
    bool sound = true;
    const auto above = [&](double value) {
        Vector beta = from;
        beta(term) = value;
        State state;
        if (!likelihood.climb(beta, state, term)) {
            beta = top;
            beta(term) = value;
            sound = likelihood.climb(beta, state, term) && sound;
        }
        if (state.sound)
            from = beta;
        return (top_value - state.value) - fall;
    };
    double inner = top(term);
    double at_inner = -fall;
    double reach = standard_error;
    for (int i = 0; i < 60 && sound; ++i, reach *= 1.6) {
        const double outer = inner + reach;
        const double at_outer = above(outer);
        if (!sound)
            break;
        if (at_outer >= 0.0) {
            std::uintmax_t tries = 100;
            const bool rising = outer > inner;
            const auto ends = boost::math::tools::toms748_solve(above, rising ? inner : outer, rising ? outer : inner,
                rising ? at_inner : at_outer, rising ? at_outer : at_inner,
                boost::math::tools::eps_tolerance<double>(44), tries);
            return sound ? std::optional((ends.first + ends.second) / 2.0) : std::nullopt;
        }
        inner = outer;
        at_inner = at_outer;
    }
    return std::nullopt;
}

/// Estimate, p and interval of one term, in the scale of the design.
std::optional<FirthTerm> describe(
    const Likelihood& likelihood, const Vector& top, const State& state, Eigen::Index term, const FirthOptions& options)
{
    FirthTerm out;
    out.estimate = top(term);
    if (!options.intervals)
        return out;
    const boost::math::chi_squared chi_squared(1.0);
    const double fall = boost::math::quantile(chi_squared, options.confidence) / 2.0;
    const Eigen::Index count = likelihood.terms();
    const double variance = solveSymmetric(state.information, Vector(Vector::Unit(count, term)))(term);
    const double standard_error = std::sqrt(variance);

    Vector without = top;
    without(term) = 0.0;
    State at_zero;
    if (!likelihood.climb(without, at_zero, term))
        return std::nullopt;
    const double ratio = 2.0 * (state.value - at_zero.value);
    out.p = ratio > 0.0 ? boost::math::cdf(boost::math::complement(chi_squared, ratio)) : 1.0;
    out.low = profileEnd(likelihood, top, state.value, term, -standard_error, fall);
    out.high = profileEnd(likelihood, top, state.value, term, standard_error, fall);
    return out;
}

void rescale(FirthTerm& term, double spread)
{
    term.estimate /= spread;
    if (term.low)
        term.low = *term.low / spread;
    if (term.high)
        term.high = *term.high / spread;
}

} // namespace

std::variant<FirthFit, FirthTrouble> firth(const Matrix& columns, const Vector& failed, const FirthOptions& options)
{
    const Eigen::Index rows = columns.rows();
    const Eigen::Index slopes = columns.cols();
    if (rows == 0 || rows < slopes + 1)
        return FirthTrouble::TooFewRows;
    const double failures = failed.sum();
    if (failures < 0.5 || failures > static_cast<double>(rows) - 0.5)
        return FirthTrouble::SameOutcome;

    // All is done on columns of mean 0 and spread 1.
    const Eigen::RowVectorXd means = columns.colwise().mean();
    const Matrix around = centred(columns);
    const Eigen::RowVectorXd spreads = (around.colwise().squaredNorm() / static_cast<double>(rows)).cwiseSqrt();
    Matrix design(rows, slopes + 1);
    design.col(0).setOnes();
    for (Eigen::Index j = 0; j < slopes; ++j) {
        if (spreads(j) <= 1e-12 * std::fabs(means(j)) || spreads(j) == 0.0)
            return FirthTrouble::RankDeficient;
        design.col(j + 1) = around.col(j) / spreads(j);
    }
    if (rankOf(design) < static_cast<int>(slopes + 1))
        return FirthTrouble::RankDeficient;

    const Likelihood likelihood(design, failed);
    Vector top = Vector::Zero(slopes + 1);
    State state;
    if (!likelihood.climb(top, state, -1))
        return FirthTrouble::NotConverged;

    FirthFit fit;
    // |I| in the person's units: the scaling multiplies it by the squares of the spreads, the centring leaves it.
    fit.penalised_log_likelihood = state.value + spreads.array().log().sum();

    // The constant where the columns are 0 is a' beta, which may lie far outside the prints. The design is turned so
    // that this direction is its first term; turning leaves it as well conditioned as it was.
    Vector direction = Vector::Ones(slopes + 1);
    direction.tail(slopes) = -(means.array() / spreads.array()).transpose();
    const double length = direction.norm();
    const Matrix turn = turnTo(direction);
    const double sign = turn.col(0).dot(direction) > 0.0 ? 1.0 : -1.0;
    const Likelihood turned(product(design, Matrix(sign * turn)), failed);
    const Vector turned_top = sign * transposedProduct(turn, top);
    auto constant = describe(turned, turned_top, turned.at(turned_top), 0, options);
    if (!constant)
        return FirthTrouble::NotConverged;
    rescale(*constant, 1.0 / length);
    fit.terms.push_back(*constant);
    for (Eigen::Index j = 1; j <= slopes; ++j) {
        auto term = describe(likelihood, top, state, j, options);
        if (!term)
            return FirthTrouble::NotConverged;
        rescale(*term, spreads(j - 1));
        fit.terms.push_back(*term);
    }
    return fit;
}

} // namespace washfast::stats
