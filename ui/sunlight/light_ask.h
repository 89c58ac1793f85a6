// What is asked of the light, the same for the day, the year and the lesson plan: where, when, under which sky, behind
// which pane, for which dose.
#pragma once

#include "core/light/exposure_light.h"
#include "ui/sunlight/sun_site.h"

namespace washfast::ui::sunlight {

/// Something to compare the open sheet with: a cover of the notebook laid over it, or a sill behind a window.
struct Pane {
    QString name;
    bool window = false;
    light::CoverStack stack; // over the sheet; of a window, its panes (empty: as the model assumes)
};
/// The covers of the notebook of which is known what they pass, then a window.
[[nodiscard]] std::vector<Pane> paneChoices(const Notebook& notebook);

/// The dose that a print should get, J/cm2, and where the number comes from.
struct DoseWanted {
    double j_cm2 = 3.0;
    QString from; // a few words
    bool assumed = false;
};
/// The middle of the doses wanted for this session's prints, else for all prints, else our assumption.
[[nodiscard]] DoseWanted doseWanted(const Notebook& notebook, qint64 session);

struct LightAsk {
    SunSite site;
    QDate date;
    light::Sky sky; // nothing noted: any sky may be
    std::optional<Pane> pane; // switched on
    DoseWanted dose;
};

/// A level sheet in the open, nothing over it, under the sky that is asked for.
[[nodiscard]] light::ExposureCase openSheet(const LightAsk& ask);
/// The same sheet behind the pane; as openSheet without one.
[[nodiscard]] light::ExposureCase sheetBehindPane(const LightAsk& ask);
/// "3 of 8 clouded, disc shows", or that any sky may be.
[[nodiscard]] QString skyWords(const light::Sky& sky);

} // namespace washfast::ui::sunlight
