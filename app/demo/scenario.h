// The story of the example notebook. Everything in it is invented: no such school, no such prints, and makers are
// codes.
//
// A school yard at 48 degrees north, one term in spring 2026, two groups that come every other week. The teacher (who
// is learning too) prints with them eight times. About two dozen sheets a lesson go out in four or five waves, because
// there are only so many frames. Sheets are weighed bare, coated, before the light and before the rinse when there is
// time for it; the tone before the rinse is taken from a photo with a grey card, the one a day after from a scan.
//
// S1, group A, 14 April. First tries, everything varies: coat, drying, exposure, and the light in the room while
// coating. Some kept, some pale, some veiled.
//
// S2, group B, 21 April. Two mixes, one made the morning before. The old one is slower and veils the whites; nothing
// else was done differently.
//
// S3, group A, 28 April. The good one: fresh mix, well dried, enough light, a short acid rinse.
//
// S4, group B, 5 May. Rinsed damp. All sheets were dry when exposed and all were exposed well, but they waited over the
// break in a folder that was wet inside in places. About half took up water there, whichever wave they were in, and
// their blue ran off.
//
// S5, group A, 12 May. Light lost. Sheets dry, and thick cloud over three of five waves: after the usual eleven minutes
// those prints are pale, and what had formed was kept. Two in each clouded wave were left in three times as long and
// came out well, and one in each sunny wave was taken in after a few minutes and is pale: it is the dose that counts,
// not the cloud or the clock alone.
//
// S6, group B, 19 May. The tangle. A second table started late each time: its sheets came off the line damp and, taken
// in with the others, had a third of the light. Damp and short go together in every print, and nobody took the tone
// before the rinse, so these prints cannot tell which of the two did it. (In the model both did.)
//
// S7, group A, 2 June. Four trays: tap water near neutral or alkaline, short or long, crossed; and two recipes. Long
// and alkaline together take the most.
//
// S8, group B, 9 June. Split sheets: one half hung, the other under a hot dryer at once, which dries a skin on a wet
// coat. Hardly any weighings.
#pragma once

#include "app/demo/sheet.h"
#include "core/quantity/instant.h"

#include <QString>
#include <QStringList>
#include <vector>

namespace washfast::demo {

inline constexpr double siteLatitudeDeg = 48.0;
inline constexpr double siteLongitudeDeg = 16.0;

struct PaperKind {
    QString name;
    double weight_g_m2;
    const char* sizing;
    std::optional<bool> buffered;
    const char* fibre;
    double base_density, most_net; // red; `most_net` is the highest that a coat of 20 mL/m2 reaches
    QString notes;
};

struct CoverKind {
    QString name;
    const char* kind;
    double thickness_mm, transmittance;
    bool measured; // the notebook has its transmittance
};

struct NegativeKind {
    QString name;
    const char* kind;
    double clearest_density; // in ultraviolet, where the print gets deepest
    std::vector<double> steps; // ultraviolet densities, from the clearest; of a wedge only
    QString notes;
};

struct MixPart {
    QString substance, bottle;
    double mass_g;
};

struct MixMade {
    QString code;
    int formula; // 0 the long-published recipe, 1 the one of our own from iron(III) chloride
    Instant made;
    double water_ml, ph;
    const char* stored;
    double solids; // share of the mass
    bool solids_noted;
    double speed; // against a fresh mix of the long-published recipe
    std::vector<MixPart> parts;
};

struct Lesson {
    QString code, group;
    Instant begin;
    double room_c, room_humidity_pct;
    double clearness; // of a sky without cloud, against the table
    double weighed, tone_before; // chances that a sheet was weighed, and that its tone before the rinse was taken
    QString notes;

    [[nodiscard]] Instant at(double minute) const
    {
        return { begin.ms_utc + qint64(minute * 60'000.0), begin.offset_s };
    }
};

struct Scenario {
    std::vector<PaperKind> papers;
    std::vector<CoverKind> covers;
    std::vector<NegativeKind> negatives;
    std::vector<MixMade> mixes;
    std::vector<Lesson> sessions;
    std::vector<SheetPlan> sheets; // lesson by lesson
};

[[nodiscard]] Scenario makeScenario(quint32 seed);
/// The sheets of all lessons; the rest of the scenario must be there.
[[nodiscard]] std::vector<SheetPlan> planSheets(const Scenario& scenario, quint32 seed);

/// What was planted in a lesson. `cause` is damp_rinse, light_lost, tangle, good or mixed.
struct Planted {
    QString session;
    QString cause;
    QString truth; // in plain words
    QStringList fields; // keys of print fields that show it
};
[[nodiscard]] std::vector<Planted> plantedBatches();

} // namespace washfast::demo
