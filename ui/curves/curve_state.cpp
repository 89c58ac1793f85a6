#include "ui/curves/curve_state.h"

#include <cmath>

namespace washfast::ui {

const std::vector<PlotChoice>& plotChoices()
{
    static const std::vector<PlotChoice> choices {
        { Plot::DensityDose, QT_TRANSLATE_NOOP("Curves", "Density against dose"), "dose_j_cm2", "net_density",
            "moisture_at_expose_pct", true, false },
        { Plot::DensityMoistureExpose, QT_TRANSLATE_NOOP("Curves", "Density against dryness at exposure"),
            "moisture_at_expose_pct", "net_density", "log_dose", false, false },
        { Plot::DensityMoistureRinse, QT_TRANSLATE_NOOP("Curves", "Density against dryness at the rinse"),
            "moisture_at_rinse_pct", "net_density", "log_dose", false, false },
        { Plot::KeptMoistureRinse, QT_TRANSLATE_NOOP("Curves", "Kept against dryness at the rinse"),
            "moisture_at_rinse_pct", "kept", "log_dose", false, false },
        { Plot::MoistureDoseMap, QT_TRANSLATE_NOOP("Curves", "Map: dryness by dose, with the density that came out"),
            "dose_j_cm2", "moisture_at_expose_pct", "net_density", true, true },
        { Plot::Chosen, QT_TRANSLATE_NOOP("Curves", "Any two things of a print"), "rinse_minutes", "kept",
            "moisture_at_rinse_pct", false, false },
    };
    return choices;
}

const PlotChoice& plotChoice(Plot plot)
{
    return plotChoices()[size_t(plot)];
}

PlotAxes axesOf(Plot plot)
{
    const auto& choice = plotChoice(plot);
    return { QString::fromLatin1(choice.x), QString::fromLatin1(choice.y), QString::fromLatin1(choice.colour),
        choice.x_log, choice.map };
}

std::vector<const Field*> plottable(const Catalogue& catalogue)
{
    std::vector<const Field*> fields;
    for (const auto& field : catalogue.printFields())
        if (field.kind == Kind::Number && !field.hidden)
            fields.push_back(&field);
    return fields;
}

namespace {

QString labelOf(const Catalogue& catalogue, const QString& key)
{
    const auto* field = catalogue.findPrintField(key);
    if (!field)
        return {};
    if (field->key == QLatin1String("log_dose")) // its legend shows doses
        return labelOf(catalogue, QStringLiteral("dose_j_cm2"));
    return field->labelWithUnit();
}

/// For each print whether the outcome filter lets it pass.
class OutcomeGate {
public:
    OutcomeGate(const PrintColumns& columns, const QString& outcome)
        : all_(outcome.isEmpty())
        , wanted_(outcome == QLatin1String("not_failed") ? 0.0 : 1.0)
    {
        if (all_)
            return;
        const bool failed = outcome == QLatin1String("failed") || outcome == QLatin1String("not_failed");
        const int field = columns.notebook().catalogue().printField(
            failed ? QStringLiteral("failed") : QStringLiteral("is_") + outcome);
        flags_ = field < 0 ? nullptr : &columns.column(field).numbers;
    }
    [[nodiscard]] bool passes(size_t row) const { return all_ || (flags_ && (*flags_)[row] == wanted_); }

private:
    bool all_;
    double wanted_;
    const std::vector<double>* flags_ = nullptr;
};

} // namespace

PlottedPrints plottedPrints(
    const PrintColumns& columns, const PlotAxes& choice, const Filter& filter, const QString& outcome)
{
    const auto& catalogue = columns.notebook().catalogue();
    const std::vector<double> none(size_t(columns.notebook().prints().rows()), unknownNumber);
    const auto numbers = [&](const QString& key) -> const std::vector<double>& {
        const int field = catalogue.printField(key);
        return field < 0 ? none : columns.column(field).numbers;
    };
    const auto& x = numbers(choice.x);
    const auto& y = numbers(choice.y);
    const auto& colour = numbers(choice.colour);
    const auto& failed = numbers(QStringLiteral("failed"));
    const OutcomeGate gate(columns, outcome);
    const auto shown = filter.showsAll() ? std::vector<char>(x.size(), 1) : filter.matches(columns);

    PlottedPrints result;
    result.x_label = labelOf(catalogue, choice.x);
    result.y_label = labelOf(catalogue, choice.y);
    result.colour_label = labelOf(catalogue, choice.colour);
    for (size_t row = 0; row < x.size(); ++row) {
        if (!shown[row] || !gate.passes(row))
            continue;
        ++result.considered;
        const double at = choice.x_log ? (x[row] > 0 ? std::log10(x[row]) : unknownNumber) : x[row];
        if (std::isnan(at) || std::isnan(y[row]) || (choice.map && std::isnan(colour[row]))) {
            ++result.lacking;
            continue;
        }
        result.rows.push_back(int(row));
        result.x.push_back(at);
        result.y.push_back(y[row]);
        result.colour.push_back(colour[row]);
        result.fate.push_back(std::isnan(failed[row]) ? Fate::Unknown : failed[row] != 0.0 ? Fate::Failed : Fate::Kept);
    }
    return result;
}

std::optional<std::pair<double, double>> extentOf(const std::vector<double>& values)
{
    std::optional<std::pair<double, double>> extent;
    for (const double value : values) {
        if (std::isnan(value))
            continue;
        if (!extent)
            extent = { value, value };
        extent->first = std::min(extent->first, value);
        extent->second = std::max(extent->second, value);
    }
    return extent;
}

std::vector<double> evenEdges(double low, double high, int count)
{
    std::vector<double> edges;
    for (int i = 0; i <= count; ++i)
        edges.push_back(low + (high - low) * i / count);
    return edges;
}

} // namespace washfast::ui
