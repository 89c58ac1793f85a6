#include "core/density/measure.h"

#include <QJsonArray>

namespace washfast::density {

namespace {

QJsonValue json(const std::optional<double>& value)
{
    return value ? QJsonValue(*value) : QJsonValue();
}

QJsonObject json(const ChannelReading& reading)
{
    return { { QStringLiteral("density"), json(reading.density) }, { QStringLiteral("sd"), json(reading.sd) },
        { QStringLiteral("standard_error"), json(reading.standard_error) },
        { QStringLiteral("at_least"), reading.at_least } };
}

} // namespace

QJsonObject toJson(const Measurement& measurement)
{
    QJsonArray references, regions;
    for (const auto& reference : measurement.references)
        references.append(
            QJsonObject { { QStringLiteral("name"), reference.name }, { QStringLiteral("used"), reference.used },
                { QStringLiteral("fitted_density"), json(reference.fitted_density) },
                { QStringLiteral("residual"), json(reference.residual) },
                { QStringLiteral("residual_red"), json(reference.channel_residuals[0]) },
                { QStringLiteral("residual_green"), json(reference.channel_residuals[1]) },
                { QStringLiteral("residual_blue"), json(reference.channel_residuals[2]) } });
    for (const auto& region : measurement.regions) {
        const QJsonValue lab
            = region.lab ? QJsonValue(QJsonArray { region.lab->l, region.lab->a, region.lab->b }) : QJsonValue();
        regions.append(
            QJsonObject { { QStringLiteral("name"), region.name }, { QStringLiteral("pixels"), region.pixels },
                { QStringLiteral("clipped_share"), region.clipped_share }, { QStringLiteral("red"), json(region.red) },
                { QStringLiteral("green"), json(region.green) }, { QStringLiteral("blue"), json(region.blue) },
                { QStringLiteral("visual"), json(region.visual) }, { QStringLiteral("lab"), lab } });
    }
    const auto& response = measurement.response;
    return { { QStringLiteral("photo"), measurement.photo }, { QStringLiteral("width"), measurement.width },
        { QStringLiteral("height"), measurement.height },
        { QStringLiteral("taken_at"),
            measurement.taken_at.isEmpty() ? QJsonValue() : QJsonValue(measurement.taken_at) },
        { QStringLiteral("relative_to_paper"), measurement.relative_to_paper },
        { QStringLiteral("codes"),
            response.encoding == Encoding::Linear ? QStringLiteral("linear") : QStringLiteral("file") },
        { QStringLiteral("response_terms"), response.response.terms },
        { QStringLiteral("residual_sd"), response.response.residual_sd },
        { QStringLiteral("unevenness"),
            measurement.lighting ? QJsonValue(measurement.lighting->unevenness()) : QJsonValue() },
        { QStringLiteral("references"), references }, { QStringLiteral("regions"), regions },
        { QStringLiteral("warnings"), QJsonArray::fromStringList(measurement.warnings) } };
}

} // namespace washfast::density
