// What a risk sheet for one session says, as plain data: a school completes and signs it. It never stands for the
// school's own assessment, and says so.
#pragma once

#include "core/chemistry/hazards.h"

namespace washfast::chemistry {

struct RiskSubstance {
    QString name, signal;
    QStringList statements; // "H318 Causes serious eye damage"; a star marks what only some suppliers state
    QStringList sources;
    QString note;
    std::vector<Pictogram> pictograms;
};

struct RiskSheet {
    QString session, when, group; // as recorded; empty ones are left to write in
    QString disclaimer; // that it does not replace the school's own assessment
    std::vector<RiskSubstance> substances;
    std::vector<Caution> cautions; // of all work of a session
    QString footing;
};

/// `substances`: keys of substance.h. Without an ultraviolet index the sun's caution is the plain one.
[[nodiscard]] RiskSheet riskSheet(const QStringList& substances, std::optional<double> uv_index = std::nullopt);

} // namespace washfast::chemistry
