// How fast sheets of a paper dry by a method, learnt from prints that were weighed; where there are none, a first
// estimate from the physics of a wet surface.
#pragma once

#include "core/drying/air.h"
#include "core/drying/assumptions.h"
#include "core/drying/curve.h"
#include "core/trial/print_reader.h"

#include <QString>
#include <optional>
#include <vector>

namespace washfast::drying {

/// One print whose rate is known.
struct DriedSheet {
    QString paper, method; // name of the paper; key of dry_method
    double rate_per_min = 0.0; // first order
    double deficit_kpa = 0.0; // of the air it dried in
    std::optional<double> coat_ml_m2;
};

/// Of what the rate was learnt.
enum class RateFrom { PaperAndMethod, Method, WetSurface };

struct Rate {
    Bracket per_min; // 95 of 100 for the next sheet
    double log_sd = 0.0; // of the natural logarithm of a normal spread with the ends of per_min
    RateFrom from = RateFrom::WetSurface;
    int prints = 0; // how many it was learnt from

    /// The curve of a sheet with this rate.
    [[nodiscard]] Curve curve(const Assumptions& assumed = {}) const;
};

class LearntRates {
public:
    LearntRates() = default;
    explicit LearntRates(std::vector<DriedSheet> sheets);
    /// From every print of a notebook with a drying rate and the air that it dried in, not covered.
    [[nodiscard]] static LearntRates of(const PrintReader& reader);

    /// For a sheet of this paper and method in this air. Rates go with the vapour pressure deficit and against the
    /// coat per area (20 mL/m² where it is not known); their logarithms are pooled. Nothing in saturated air.
    [[nodiscard]] std::optional<Rate> rate(const QString& paper, const QString& method, const Air& air,
        std::optional<double> coat_ml_m2, const Assumptions& assumed = {}) const;
    /// The same where only the deficit is known; without any print to learn from: nothing.
    [[nodiscard]] std::optional<Rate> rateAt(const QString& paper, const QString& method, double deficit_kpa,
        std::optional<double> coat_ml_m2, const Assumptions& assumed = {}) const;
    [[nodiscard]] const std::vector<DriedSheet>& sheets() const { return sheets_; }

private:
    std::vector<DriedSheet> sheets_;
};

} // namespace washfast::drying
