// The drying curve of one sheet, fitted to its weighings: share of the coat's water left against minutes of drying.
// The moisture ratio is MR = (M - Me) / (M0 - Me); M0 is 100 % by definition of the first weighing, Me the residual
// moisture that stays in the room's air.
//
//   first order   MR = exp(-k t)                                  fewer than five weighings; Lewis 1921
//   Page          MR = exp(-(t / tau)^n)                          five or more; Page 1949 in the modified form
//   two stages    MR = 1 - r t, from MR = c on exponential        five or more; constant rate, then falling rate
//                 with the same slope
//
// With five or more weighings the better of the last two is taken, and the interval holds what the other would say.
// Names of the equations: thin-layer drying literature; Sander, Chem. Eng. Process. 46 (2007) 1324 found modified Page
// to fit paperboard. Fewer than five weighings cannot tell the shape either: the interval of a first-order curve holds
// what Page's with n = 1.25 would say (an assumption). Me cannot be told from a few weighings: it is assumed, and its
// uncertainty goes into the interval.
#pragma once

#include "core/drying/bracket.h"

#include <array>
#include <optional>
#include <span>
#include <variant>
#include <vector>

namespace washfast::drying {

enum class CurveModel { FirstOrder, Page, TwoStage };

/// One weighing after the coated one: minutes since drying began, water left in % of the coat's water.
struct Weighed {
    double minutes = 0.0;
    double moisture_pct = 0.0;
};

struct CurveOptions {
    double residual_pct = 2.0; // Me
    double residual_within_pct = 2.0; // 95 of 100
    double weighing_within_pct = 5.0; // 95 of 100, of one weighing; the least that is believed
    double confidence = 0.95;
};

enum class CurveTrouble {
    NoWeighing, // none after drying began
    NotDrying // the weighings do not fall
};

class Curve {
public:
    /// A first-order curve of a known rate and its standard deviation of the logarithm (rates learnt from other
    /// prints).
    [[nodiscard]] static Curve ofRate(double rate_per_min, double log_sd, const CurveOptions& options = {});

    [[nodiscard]] CurveModel model() const { return shape_.model; }
    [[nodiscard]] int weighings() const { return weighings_; }
    /// The last weighing: beyond it the curve is an extrapolation. 0 for a learnt rate.
    [[nodiscard]] double weighedUntil_min() const { return last_min_; }
    /// Moisture left, %, within 0 to 100; the likely value never rises with time. `minutes` below 0 count as 0.
    [[nodiscard]] Bracket at(double minutes) const;
    /// Minutes from the start of drying until this moisture; ends may be infinite. Never when it is not above Me.
    [[nodiscard]] Bracket minutesUntil(double moisture_pct) const;
    /// Minutes from now on, when `elapsed` have gone; 0 when it is there already.
    [[nodiscard]] Bracket minutesLeft(double moisture_pct, double elapsed_min) const;
    /// 1 / (minutes until MR = 1/e): for a first-order curve its k.
    [[nodiscard]] double rate_per_min() const;
    /// False when the sheet was dry at its first weighing already: the rate is then only a lower limit.
    [[nodiscard]] bool rateKnown() const { return rate_known_; }
    [[nodiscard]] double residual_pct() const { return shape_.residual_pct; }
    /// First order: k. Page: tau (min) and n. Two stages: r (1/min) and c.
    [[nodiscard]] std::array<double, 2> parameters() const;

    /// The same sheet in other air: times go as (fitted / other) ^ power; `power_within` widens the interval (95 of
    /// 100). Both deficits in kPa and above 0.
    [[nodiscard]] Curve inOtherAir(
        double fitted_deficit_kpa, double other_deficit_kpa, double power = 1.0, double power_within = 0.4) const;

private:
    /// A model with its parameters as logarithms (for c the logit), and by how much its answer counts.
    struct Shape {
        CurveModel model = CurveModel::FirstOrder;
        std::array<double, 2> p {};
        double residual_pct = 0.0;
        double weight = 1.0;
    };
    friend std::variant<Curve, CurveTrouble> fitCurve(std::span<const Weighed>, const CurveOptions&);
    friend class CurveFitter;

    [[nodiscard]] static double ratio(const Shape& shape, double minutes); // moisture ratio
    [[nodiscard]] static double moisture(const Shape& shape, double minutes); // %
    [[nodiscard]] static double minutesOf(const Shape& shape, double moisture_pct); // may be infinite
    /// Variance of what `value` says of the shape: from the parameters and from the other shapes.
    template <typename Value> [[nodiscard]] double variance(const Value& value) const;

    Shape shape_;
    std::vector<Shape> others_; // what else may hold: another model, another residual moisture
    std::array<double, 3> covariance_ {}; // of the parameters: 00, 01, 11
    double quantile_ = 1.96; // of Student's t
    double time_factor_ = 1.0, time_log_sd_ = 0.0;
    int weighings_ = 0;
    double last_min_ = 0.0;
    bool rate_known_ = true;
};

/// Points in any order; those not after the start are left out.
[[nodiscard]] std::variant<Curve, CurveTrouble> fitCurve(
    std::span<const Weighed> points, const CurveOptions& options = {});

} // namespace washfast::drying
