// A whole photo with its marks, to densities.
//
//     const auto photo = openPhoto(path);
//     const auto measured = measure(*photo, marks);
//     measured->regions[3].red.density      // "scan red density": the channel is the camera's, not status A
//
// Red, green and blue are the camera's channels brought to the reflectance of the references; visual is their sum in
// the proportions of Y of the photo's colour space. Neither is the spectral product of ISO 5-3. Densities are absolute
// (perfect diffuser = 0) with references, relative to the paper without.
#pragma once

#include "core/density/flat_field.h"
#include "core/density/marks.h"
#include "core/density/photo.h"
#include "core/density/response.h"

#include <QJsonObject>

namespace washfast::density {

struct ChannelReading {
    std::optional<double> density; // the bound itself when at_least
    std::optional<double> sd; // over the pixels
    std::optional<double> standard_error; // of the density, references and lighting included
    bool at_least = false; // too dark to tell: reflectance below three standard errors
};

struct RegionReading {
    QString name;
    qint64 pixels = 0;
    double clipped_share = 0; // pixels with a channel at its largest or smallest code
    ChannelReading red, green, blue, visual;
    std::optional<Lab> lab; // D50
};

struct ReferenceReading {
    QString name;
    bool used = true; // false: clipped, and enough others are there
    std::optional<double> fitted_density; // mean of the three channels
    std::optional<double> residual; // given minus fitted
    std::array<std::optional<double>, 3> channel_residuals;
};

struct Measurement {
    QString photo;
    int width = 0, height = 0;
    QString taken_at;
    std::vector<ReferenceReading> references;
    std::vector<RegionReading> regions; // all marked ones, in their order
    QStringList warnings;
    bool relative_to_paper = false;
    ChosenResponse response;
    std::optional<LightingPlane> lighting;
};

[[nodiscard]] Result<Measurement> measure(const Photo& photo, const Marks& marks, const Watch& watch = {});

/// The object that `washfast density --json` prints.
[[nodiscard]] QJsonObject toJson(const Measurement& measurement);

/// One photo of a batch.
struct Job {
    QString path;
    Marks marks;
};

/// Opens and measures all of them on as many threads as the machine has; the results keep the order of the jobs. After
/// a cancel the rest are errors that say so.
[[nodiscard]] std::vector<Result<Measurement>> measureAll(const std::vector<Job>& jobs, const Watch& watch = {});

} // namespace washfast::density
