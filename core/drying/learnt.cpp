#include "core/drying/learnt.h"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

namespace washfast::drying {

namespace {

constexpr double usualCoat_ml_m2 = 20.0;
// Before any print was weighed, rates of sheets of one paper and method are taken to lie within a factor of two of
// one another, of several papers within a factor of three, with the weight of three prints: an assumption.
constexpr double priorWeight = 3.0;
constexpr double paperLogSd = 0.35;
constexpr double methodLogSd = 0.55;
// A wet surface loses water at a rate that is known to 40 %; that paper is not a pond, to a factor of 1.5.
constexpr double notAPond = 1.5;
constexpr double heatedAir_c = 50.0; // over a sheet under a hot dryer or on a warm plate: an assumption

double coatOf(const std::optional<double>& coat_ml_m2)
{
    return coat_ml_m2 && *coat_ml_m2 > 0 ? *coat_ml_m2 : usualCoat_ml_m2;
}

/// Rate of a sheet of the usual coat in air that falls 1 kPa short of saturation.
double normalised(const DriedSheet& sheet)
{
    return sheet.rate_per_min * coatOf(sheet.coat_ml_m2) / usualCoat_ml_m2 / sheet.deficit_kpa;
}

Rate pooled(const std::vector<double>& logarithms, double prior_sd, RateFrom from, double scale)
{
    const auto n = double(logarithms.size());
    double mean = 0.0;
    for (const double value : logarithms)
        mean += value / n;
    double squares = priorWeight * prior_sd * prior_sd;
    for (const double value : logarithms)
        squares += std::pow(value - mean, 2.0);
    const double freedom = priorWeight + n - 1.0;
    const double sd = std::sqrt(squares / freedom * (1.0 + 1.0 / n)); // of the next sheet
    const double half = boost::math::quantile(boost::math::students_t(freedom), 0.975) * sd;
    const double likely = std::exp(mean) * scale;
    return { { likely * std::exp(-half), likely, likely * std::exp(half) }, half / 1.96, from, int(n) };
}

Rate ofWetSurface(const Air& air, const QString& method, double coat_ml_m2)
{
    Air over = air;
    if (isHeated(method) && over.temperature_c < heatedAir_c) {
        over.humidity_pct = 100.0 * 1000.0 * vapourPressure_kpa(air) / saturation_pa(heatedAir_c);
        over.temperature_c = heatedAir_c;
    }
    const auto lost = evaporation_g_m2_h(over, airSpeed_m_s(method));
    // A millilitre of mix holds about a gram of water; at the constant rate 1 - 1/e of it is gone after 1 / rate.
    const double per_min = 1.0 / 60.0 / (coat_ml_m2 * (1.0 - std::exp(-1.0)));
    const Bracket rate { lost.low * per_min / notAPond, lost.likely * per_min, lost.high * per_min * notAPond };
    return { rate, std::log(rate.high / rate.low) / (2.0 * 1.96), RateFrom::WetSurface, 0 };
}

} // namespace

Curve Rate::curve(const Assumptions& assumed) const
{
    CurveOptions options;
    options.residual_pct = assumed.residual_pct;
    options.residual_within_pct = assumed.residual_within_pct;
    return Curve::ofRate(per_min.likely, log_sd, options);
}

LearntRates::LearntRates(std::vector<DriedSheet> sheets)
    : sheets_(std::move(sheets))
{
    std::erase_if(sheets_, [](const DriedSheet& sheet) { return !(sheet.rate_per_min > 0 && sheet.deficit_kpa > 0); });
}

LearntRates LearntRates::of(const PrintReader& reader)
{
    std::vector<DriedSheet> sheets;
    for (int row = 0; row < reader.notebook().prints().rows(); ++row) {
        if (reader.get(row, u"dry_covered").yes().value_or(false))
            continue;
        const auto rate = reader.get(row, u"drying_rate_per_min").number();
        const auto method = reader.get(row, u"dry_method").text().value_or(QString());
        auto deficit = reader.get(row, u"dry_vpd_kpa").number();
        if (isHeated(method)) { // the room's air is what there will be to go by the next time
            const auto temperature = reader.get(row, u"room_temperature_c").number();
            const auto humidity = reader.get(row, u"room_humidity_pct").number();
            deficit = temperature && humidity ? std::optional(vapourPressureDeficit_kpa({ *temperature, *humidity }))
                                              : std::nullopt;
        }
        if (rate && deficit)
            sheets.push_back({ reader.get(row, u"paper_name").text().value_or(QString()), method, *rate, *deficit,
                reader.get(row, u"coat_per_area_ml_m2").number() });
    }
    return LearntRates(std::move(sheets));
}

std::optional<Rate> LearntRates::rateAt(const QString& paper, const QString& method, double deficit_kpa,
    std::optional<double> coat_ml_m2, const Assumptions& assumed) const
{
    if (!(deficit_kpa > 0))
        return std::nullopt;
    std::vector<double> same_paper, same_method;
    for (const auto& sheet : sheets_) {
        if (sheet.method != method)
            continue;
        const double logarithm = std::log(normalised(sheet))
            + (1.0 - assumed.deficit_power) * std::log(sheet.deficit_kpa); // the power is 1 unless it was changed
        same_method.push_back(logarithm);
        if (sheet.paper == paper)
            same_paper.push_back(logarithm);
    }
    const double scale = std::pow(deficit_kpa, assumed.deficit_power) * usualCoat_ml_m2 / coatOf(coat_ml_m2);
    if (!same_paper.empty())
        return pooled(same_paper, paperLogSd, RateFrom::PaperAndMethod, scale);
    if (!same_method.empty())
        return pooled(same_method, methodLogSd, RateFrom::Method, scale);
    return std::nullopt;
}

std::optional<Rate> LearntRates::rate(const QString& paper, const QString& method, const Air& air,
    std::optional<double> coat_ml_m2, const Assumptions& assumed) const
{
    const double deficit = vapourPressureDeficit_kpa(air);
    if (!(deficit > 0))
        return std::nullopt;
    if (auto learnt = rateAt(paper, method, deficit, coat_ml_m2, assumed))
        return learnt;
    return ofWetSurface(air, method, coatOf(coat_ml_m2));
}

} // namespace washfast::drying
