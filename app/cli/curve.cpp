// washfast curve TABLE.csv
#include "core/density/characteristic.h"

#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/exchange/delimited.h"
#include "core/files/read_once.h"
#include "core/quantity/number_text.h"

#include <QJsonArray>
#include <cmath>

namespace washfast::cli {

namespace {

using namespace density;

Error wrongCurve(const QString& says, const QString& where = {})
{
    return { Trouble::BadInput, says, where };
}

/// A column's numbers by row, in this unit; nothing for an empty cell.
Result<std::vector<std::optional<double>>> column(
    const exchange::DelimitedTable& table, qsizetype at, const QString& unit = {})
{
    QStringList cells;
    for (const auto& row : table.rows)
        cells << row.cells.value(at);
    const auto mark = decideDecimalMark(cells).mark;
    std::vector<std::optional<double>> values;
    for (qsizetype i = 0; i < cells.size(); ++i) {
        const auto number = parseNumber(cells[i], mark);
        if (number.fault == NumberFault::Empty) {
            values.emplace_back();
            continue;
        }
        const QString place = Words::tr("line %1, %2").arg(table.rows[size_t(i)].line).arg(table.header[at]);
        if (!number.value)
            return wrongCurve(number.says, place);
        values.push_back(number.unit.isEmpty() ? number.value : convert(*number.value, number.unit, unit));
        if (!values.back())
            return wrongCurve(Words::tr("“%1” has a unit that does not belong here.").arg(cells[i].trimmed()), place);
    }
    return values;
}

Result<std::vector<CurvePoint>> readPoints(const QString& path, QStringList& warnings)
{
    const auto bytes = files::readOnce(path, exchange::DelimitedLimits().bytes);
    if (!bytes)
        return bytes.error();
    const auto table = exchange::readDelimited(*bytes);
    for (const auto& note : table.notes)
        if (note.weight() != exchange::TableNoteWeight::Warning)
            return wrongCurve(note.sentence(), files::spokenName(path));
    const auto find = [&](const char* name) {
        for (qsizetype i = 0; i < table.header.size(); ++i)
            if (table.header[i].trimmed().compare(QLatin1String(name), Qt::CaseInsensitive) == 0)
                return i;
        return qsizetype(-1);
    };
    const auto density = find("density"), log_h = find("log_h"), h = find("h"), weight = find("weight"),
               sd = find("sd");
    if (density < 0 || (log_h < 0 && h < 0))
        return wrongCurve(Words::tr("The table needs a column density and a column log_h (or h, in J/cm2)."),
            files::spokenName(path));
    const auto x = log_h >= 0 ? column(table, log_h) : column(table, h, QStringLiteral("J/cm2"));
    const auto y = column(table, density);
    if (!x)
        return x.error();
    if (!y)
        return y.error();
    std::optional<std::vector<std::optional<double>>> spread;
    if (weight >= 0 || sd >= 0) {
        auto read = column(table, weight >= 0 ? weight : sd);
        if (!read)
            return read.error();
        spread = std::move(read).value();
    }
    std::vector<CurvePoint> points;
    int incomplete = 0;
    for (size_t i = 0; i < table.rows.size(); ++i) {
        const QString place = Words::tr("line %1").arg(table.rows[i].line);
        if (!(*x)[i] || !(*y)[i] || (spread && !(*spread)[i])) {
            ++incomplete;
            continue;
        }
        CurvePoint point;
        point.density = *(*y)[i];
        if (log_h < 0 && !(*(*x)[i] > 0))
            return wrongCurve(Words::tr("An exposure has to be above 0."), place);
        point.log_h = log_h >= 0 ? *(*x)[i] : std::log10(*(*x)[i]);
        if (spread) {
            const double value = *(*spread)[i];
            if (!(value > 0))
                return wrongCurve(Words::tr("A weight or a spread has to be above 0."), place);
            point.weight = weight >= 0 ? value : 1 / (value * value);
        }
        points.push_back(point);
    }
    if (incomplete > 0)
        warnings << Words::tr("%n rows have an empty cell and were left out.", nullptr, incomplete);
    return points;
}

std::optional<Error> readRequest(const Arguments& arguments, CurveRequest& request)
{
    for (const auto& text : arguments.values("--fix")) {
        const auto equals = text.indexOf(QLatin1Char('='));
        const auto value = numberIn(text.mid(equals + 1));
        constexpr std::pair<const char*, CurveParameter> names[] { { "d_min", DMin }, { "d_max", DMax },
            { "midpoint", Midpoint }, { "midpoint_log_h", Midpoint }, { "slope", Slope },
            { "slope_per_log_h", Slope } };
        bool known = false;
        for (const auto& [name, parameter] : names)
            if (equals > 0 && text.left(equals).trimmed() == QLatin1String(name)) {
                request.fixed[size_t(parameter)] = value.value_or(0);
                known = true;
            }
        if (!known || !value)
            return wrongCurve(
                Words::tr("“%1” cannot be fixed: write d_min, d_max, midpoint or slope, = and a number.").arg(text));
    }
    for (const auto& text : arguments.values("--target")) {
        const auto density = numberIn(text);
        request.targets.push_back(density.value_or(0));
        if (!density)
            return wrongCurve(Words::tr("“%1” is no density.").arg(text));
    }
    return {};
}

QJsonValue json(const std::optional<double>& value)
{
    return value ? QJsonValue(*value) : QJsonValue();
}

constexpr const char* parameterKeys[] { "d_min", "d_max", "midpoint_log_h", "slope_per_log_h" };

QJsonObject toJson(const CurveFit& fit)
{
    const bool logistic = fit.model == CurveModel::Logistic;
    QJsonObject errors, intervals;
    QJsonArray targets;
    for (size_t k = 0; k < curveParameters; ++k) {
        const QString key = QLatin1String(parameterKeys[k]);
        errors.insert(key, json(fit.standard_errors[k]));
        const auto& interval = fit.intervals[k];
        intervals.insert(key,
            interval.low || interval.high ? QJsonValue(QJsonArray { json(interval.low), json(interval.high) })
                                          : QJsonValue());
    }
    for (const auto& target : fit.targets)
        targets.append(QJsonObject { { QStringLiteral("density"), target.density },
            { QStringLiteral("log_h"), json(target.log_h) }, { QStringLiteral("log_h_low"), json(target.log_h_low) },
            { QStringLiteral("log_h_high"), json(target.log_h_high) } });
    return { { QStringLiteral("model"), logistic ? QStringLiteral("logistic") : QStringLiteral("monotone") },
        { QStringLiteral("n"), qint64(fit.used.size()) }, { QStringLiteral("left_out"), qint64(fit.left_out.size()) },
        { QStringLiteral("d_min"), fit.curve.d_min }, { QStringLiteral("d_max"), fit.curve.d_max },
        { QStringLiteral("midpoint_log_h"), fit.curve.midpoint },
        { QStringLiteral("slope_per_log_h"), logistic ? QJsonValue(fit.curve.slope) : QJsonValue() },
        { QStringLiteral("max_gradient"), fit.max_gradient }, { QStringLiteral("residual_sd"), fit.residual_sd },
        { QStringLiteral("residual_sum_of_squares"), fit.sum_of_squares },
        { QStringLiteral("degrees_of_freedom"), fit.degrees_of_freedom }, { QStringLiteral("standard_errors"), errors },
        { QStringLiteral("intervals"), intervals }, { QStringLiteral("toe_log_h"), json(fit.toe_log_h) },
        { QStringLiteral("shoulder_log_h"), json(fit.shoulder_log_h) },
        { QStringLiteral("range_log_h"), json(fit.range()) }, { QStringLiteral("contrast"), json(fit.contrast()) },
        { QStringLiteral("targets"), targets },
        { QStringLiteral("fallback"), logistic ? QJsonValue() : QJsonValue(QStringLiteral("monotone")) },
        { QStringLiteral("warnings"), QJsonArray::fromStringList(fit.warnings) } };
}

QString number(const std::optional<double>& value)
{
    return value ? QString::number(*value, 'f', 4) : QStringLiteral("–");
}

void asText(const CurveFit& fit, const Output& output)
{
    const bool logistic = fit.model == CurveModel::Logistic;
    const int steps = int(fit.used.size());
    output.line(logistic ? Words::tr("Logistic through %n steps", nullptr, steps)
                         : Words::tr("Rising curve through %n steps", nullptr, steps));
    output.line({});
    std::vector<QStringList> rows;
    const double values[] { fit.curve.d_min, fit.curve.d_max, fit.curve.midpoint, fit.curve.slope };
    for (size_t k = 0; k < curveParameters; ++k)
        if (logistic || k != Slope)
            rows.push_back({ QLatin1String(parameterKeys[k]), number(values[k]), number(fit.standard_errors[k]),
                number(fit.intervals[k].low), number(fit.intervals[k].high) });
    rows.push_back({ QStringLiteral("max_gradient"), number(fit.max_gradient) });
    rows.push_back({ QStringLiteral("toe_log_h"), number(fit.toe_log_h) });
    rows.push_back({ QStringLiteral("shoulder_log_h"), number(fit.shoulder_log_h) });
    rows.push_back({ QStringLiteral("range_log_h"), number(fit.range()) });
    for (const auto& target : fit.targets)
        rows.push_back({ Words::tr("log_h for %1").arg(target.density), number(target.log_h), {},
            number(target.log_h_low), number(target.log_h_high) });
    output.table(
        { QString(), Words::tr("value"), Words::tr("standard error"), Words::tr("95 % from"), Words::tr("to") }, rows);
    output.line({});
    output.line(Words::tr(
        "Toe and shoulder are the points of ISO 6846 for silver-halide papers, used by analogy; log_h is the logarithm "
        "of "
        "J/cm2."));
}

int runCurve(const Arguments& arguments, const Output& output)
{
    CurveRequest request;
    if (const auto error = readRequest(arguments, request))
        return output.misuse(error->says);
    QStringList warnings;
    auto points = readPoints(arguments.file(0), warnings);
    if (!points)
        return output.fail(points.error());
    request.points = std::move(points).value();
    auto fit = fitCurve(request);
    if (!fit)
        return output.fail(fit.error());
    fit->warnings = warnings + fit->warnings;
    for (const auto& warning : fit->warnings)
        output.say(warning);
    if (arguments.has("--json"))
        output.json(toJson(*fit));
    else
        asText(*fit, output);
    return done;
}

} // namespace

Verb curveVerb()
{
    return { "curve",
        QT_TRANSLATE_NOOP("Cli", "density against log exposure: its curve, its points, exposures to give"),
        { { "TABLE.csv" },
            { { "--fix", "NAME=VALUE", QT_TRANSLATE_NOOP("Cli", "holds d_min, d_max, midpoint or slope"), true },
                { "--target", "DENSITY", QT_TRANSLATE_NOOP("Cli", "the exposure for this density"), true },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } },
        runCurve };
}

} // namespace washfast::cli
