// What `washfast sun` was asked, read from its words.
#pragma once

#include "app/cli/arguments.h"
#include "core/light/exposure_light.h"

#include <QTimeZone>

namespace washfast::cli {

struct SunRequest {
    Instant at;
    std::optional<Instant> until;
    QTimeZone zone; // of the times that are written
    light::ExposureCase exposure; // with a place; ends at `until`
    std::optional<light::Actinic> weighting; // also asked for, beside UVA
    QString weighting_said; // as it was written
    QStringList warnings;
};

/// The error is one sentence; NotFound when a file cannot be read, else the words are wrong.
[[nodiscard]] Result<SunRequest> readSunRequest(const Arguments& arguments);

} // namespace washfast::cli
