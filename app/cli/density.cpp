// washfast density PHOTO --marks MARKS.json
#include "core/density/measure.h"

#include "app/cli/verb.h"
#include "app/cli/words.h"
#include "core/files/read_once.h"

namespace washfast::cli {

namespace {

QString cell(const density::ChannelReading& reading)
{
    if (!reading.density)
        return {};
    const QString value = QString::number(*reading.density, 'f', 3);
    if (reading.at_least)
        return QStringLiteral("≥ ") + value;
    return reading.standard_error ? value + QStringLiteral(" ± ") + QString::number(*reading.standard_error, 'f', 3)
                                  : value;
}

void asText(const density::Measurement& measurement, const Output& output)
{
    output.line(Words::tr("%1, %2 × %3 pixels").arg(measurement.photo).arg(measurement.width).arg(measurement.height));
    if (!measurement.references.empty()) {
        output.line({});
        std::vector<QStringList> rows;
        for (const auto& reference : measurement.references)
            rows.push_back({ reference.name,
                reference.fitted_density ? QString::number(*reference.fitted_density, 'f', 3) : QString(),
                reference.residual ? QString::number(*reference.residual, 'f', 3) : Words::tr("left out") });
        output.table({ Words::tr("reference"), Words::tr("fitted"), Words::tr("residual") }, rows);
    }
    output.line({});
    std::vector<QStringList> rows;
    for (const auto& region : measurement.regions) {
        QString lab;
        if (region.lab)
            lab = QStringLiteral("%1 %2 %3")
                      .arg(region.lab->l, 0, 'f', 1)
                      .arg(region.lab->a, 0, 'f', 1)
                      .arg(region.lab->b, 0, 'f', 1);
        rows.push_back(
            { region.name, QString::number(region.pixels), QString::number(100 * region.clipped_share, 'f', 1),
                cell(region.red), cell(region.green), cell(region.blue), cell(region.visual), lab });
    }
    output.table({ Words::tr("region"), Words::tr("pixels"), Words::tr("clipped %"), Words::tr("scan red density"),
                     Words::tr("scan green density"), Words::tr("scan blue density"), Words::tr("scan visual density"),
                     Words::tr("Lab (D50)") },
        rows);
}

int runDensity(const Arguments& arguments, const Output& output)
{
    if (!arguments.has("--marks"))
        return output.misuse(Words::tr("--marks is missing: which regions are to be measured?"));
    if (files::isStandardStream(arguments.file(0)) && files::isStandardStream(arguments.value("--marks")))
        return output.misuse(Words::tr("Standard input can be read only once: PHOTO and --marks cannot both be -."));
    const auto marks = density::openMarks(arguments.value("--marks"));
    if (!marks)
        return output.fail(marks.error());
    const auto photo = density::openPhoto(arguments.file(0));
    if (!photo)
        return output.fail(photo.error());
    const auto measurement = density::measure(*photo, *marks);
    if (!measurement)
        return output.fail(measurement.error());
    for (const auto& warning : measurement->warnings)
        output.say(warning);
    if (arguments.has("--json"))
        output.json(density::toJson(*measurement));
    else
        asText(*measurement, output);
    return done;
}

} // namespace

Verb densityVerb()
{
    return { "density", QT_TRANSLATE_NOOP("Cli", "densities and colour of marked regions in a photo"),
        { { "PHOTO" },
            { { "--marks", "MARKS.json",
                  QT_TRANSLATE_NOOP("Cli", "known patches, paper and the regions to be measured") },
                { "--json", nullptr, QT_TRANSLATE_NOOP("Cli", "one JSON object") } } },
        runDensity };
}

} // namespace washfast::cli
