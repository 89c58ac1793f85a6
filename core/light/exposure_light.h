// The dose of one exposure: ultraviolet at the paper over its time, with an interval.
//
//     ExposureCase one;
//     one.place = Place { 51.5, 0, 20 };
//     one.start = ...; one.end = ...;
//     one.skies = { { one.start, { 2, Disc::Yes } } };
//     const auto dose = exposureDose(one);      // dose.dose_j_cm2, nothing where it cannot be known
#pragma once

#include "core/light/clear_sky.h"
#include "core/light/cloud.h"
#include "core/light/covers.h"
#include "core/light/setting.h"
#include "core/quantity/value.h"

#include <QStringList>
#include <optional>
#include <vector>

namespace washfast::light {

/// What was seen of the sky, and when. Each governs the time that is nearer to it than to any other.
struct SkySeen {
    Instant when;
    Sky sky;
};

/// An instrument at the paper, under the same covers and tilt.
struct MeterReading {
    std::optional<Instant> when;
    double uva_w_m2 = 0;
};

/// A lamp: its spectrum's shape, and what it gives at one distance. At others the square law is taken.
struct Lamp {
    std::optional<SpectrumTable> spectrum; // relative
    bool spectrum_typical = false; // of its kind, not of this very lamp
    Evidence reading = Evidence::Measured; // how uva_w_m2 is known
    std::optional<double> uva_w_m2; // measured, without covers
    std::optional<double> at_distance_m; // there
    std::optional<double> distance_m; // of the sheet
};

struct Span {
    Instant from, to;
};

struct ExposureCase {
    std::optional<Place> place; // unknown without: only readings can tell
    Atmosphere atmosphere;
    std::optional<Instant> start, end;
    double pause_min = 0; // somewhere in between, without light; spread evenly
    std::vector<Span> pauses; // the same where the times are known
    std::optional<PlaceKind> kind_noted; // that nothing was noted leaves setting.kind, as an assumption
    Setting setting;
    CoverStack covers; // over the sheet
    CoverStack pane; // of the window; one that is empty behind a window is taken as two panes of 4 mm (assumed)
    bool cover_unknown = false; // something lay over it, and nobody knows what it passes
    std::vector<SkySeen> skies;
    std::vector<MeterReading> readings;
    std::optional<Lamp> lamp;
    std::vector<double> step_densities; // of a wedge, in ultraviolet
    std::optional<Actinic> actinic; // instead of UVA
    /// From start to end, hours. The light is added up minute by minute, so that a wrong year would take minutes to
    /// work out: of what is longer no dose is calculated. As long as an exposure may last in the catalogue.
    double longest_h = 24;

    /// Minutes with light; nothing without both times, or when they contradict one another.
    [[nodiscard]] std::optional<double> litMinutes() const;
};

/// The light at one moment, as the model has it.
struct LightNow {
    SunPosition sun;
    double level_w_m2 = 0; // clear open sky, on the level, nothing over it
    double sky_factor = 1; // of the cloud, on the level under the open sky
    double direct_w_m2 = 0; // clear sky, on the sheet's plane, nothing over it: beam
    double diffuse_w_m2 = 0; //                                             sky and ground
    double clear_w_m2 = 0; // both together
    double cloud_factor = 1, cloud_low = 1, cloud_high = 1; // on this plane
    double cover_transmittance = 1; // of the light under this sky
    double at_paper_w_m2 = 0, low_w_m2 = 0, high_w_m2 = 0;
};

/// The model's light, whatever was read; nothing without a place, under a lamp, or under an unknown cover.
[[nodiscard]] std::optional<LightNow> lightAt(const ExposureCase& exposure, Instant when);

/// The same at `count` moments from `from`, every `step_s` seconds: a day's curve. Empty where lightAt gives nothing.
[[nodiscard]] std::vector<LightNow> lightOver(const ExposureCase& exposure, Instant from, double step_s, size_t count);

struct ExposureDose {
    std::optional<double> dose_j_cm2, low_j_cm2, high_j_cm2; // known together
    Evidence evidence = Evidence::Estimated; // of the dose
    std::optional<double> uva_at_paper_w_m2; // mean over the minutes with light
    std::optional<double> uva_clear_w_m2; // mean, clear open sky on the level, without covers
    std::optional<double> cloud_factor; // mean, on the level
    std::optional<double> cover_transmittance; // of the sum
    std::optional<double> sun_zenith_deg; // geometric, at the middle
    std::optional<double> uv_index; // clear sky, at the middle
    std::optional<double> lit_minutes;
    bool from_readings = false;
    std::vector<double> step_doses_j_cm2; // behind each of step_densities
    QStringList warnings; // translated sentences
};

[[nodiscard]] ExposureDose exposureDose(const ExposureCase& exposure);
/// The same counted by another weighting than UVA. Instruments read UVA: their dose is brought over by what the model
/// (or the lamp's spectrum) gives for both; unknown where that is.
[[nodiscard]] ExposureDose weightedDose(const ExposureCase& exposure, const Actinic& weighting);

/// Several exposures of one sheet through covering strips: the dose of each step, as many as exposures. Covering: the
/// first step is covered after the first exposure, the last got them all. Uncovering: the first step got them all, the
/// last only the last exposure. Unknown where one of its exposures is.
enum class StripWay { Covering, Uncovering };
[[nodiscard]] std::vector<std::optional<double>> stripDoses(
    const std::vector<std::optional<double>>& doses_j_cm2, StripWay way = StripWay::Covering);

/// Doses behind a wedge: H_i = H * 10^(-D_i).
[[nodiscard]] std::vector<double> wedgeDoses(double dose_j_cm2, const std::vector<double>& uv_densities);

/// How long it takes from a moment until the sheet has had the wanted dose, under the case's sky and readings; start,
/// end and pauses of the case do not count.
struct TimeNeeded {
    std::optional<double> minutes, low, high; // low: at the strong end of the light's interval; nothing: not reached
    bool unknown = false; // the light cannot be known
};
[[nodiscard]] TimeNeeded timeNeeded(const ExposureCase& exposure, double goal_j_cm2, Instant from, double most_h = 14);
/// The same for `count` moments from `from`, every `step_s` seconds, reckoned together.
[[nodiscard]] std::vector<TimeNeeded> timesNeeded(
    const ExposureCase& exposure, double goal_j_cm2, Instant from, double step_s, size_t count, double most_h = 14);

} // namespace washfast::light
