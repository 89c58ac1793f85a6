// A page of chemistry about the lesson's actual mix for pupils to work through, and its answers, as plain data.
#pragma once

#include "core/chemistry/teaching.h"

namespace washfast::chemistry {

struct TeachingTask {
    QString asks;
    QString answer; // with the working
};

struct TeachingSheet {
    QString title;
    QStringList given; // what pupils need: masses, volume, molar masses, coat
    QStringList equations; // with an arrow, balanced
    std::vector<TeachingTask> tasks;
    QString footing; // what is assumed
};

/// The error says what is not known of the mix. `sheet_mm`: width and height.
[[nodiscard]] Result<TeachingSheet> teachingSheet(
    const QString& mix, const Audit& audit, double coat_ml_m2, std::pair<double, double> sheet_mm);

} // namespace washfast::chemistry
