// One sheet of the example: what was done to it, and what came of it. Both are the truth; what the notebook says about
// them is written elsewhere, rounded, with the errors of instruments and with gaps.
#pragma once

#include <QString>
#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace washfast::demo {

/// The sky at one moment of an exposure.
struct Sky {
    double factor = 1.0; // ultraviolet under this sky over that under a clear one
    int eighths = 0;
    const char* disc = "yes"; // the sun's disc: yes, partly, no
};

struct BathPlan {
    const char* water = "tap";
    const char* additive = "none";
    std::optional<double> additive_g_l;
    double minutes = 5.0;
    double litres = 2.0;
    double temperature_c = 14.0;
    double ph = 7.3;
    bool running = false;
};

/// Moments are minutes from the beginning of the lesson.
struct SheetPlan {
    int session = 0, number = 0; // positions in the scenario
    int mix = 0, paper = 0;
    std::optional<int> cover, negative;
    QString maker, sheet, tray, notes;
    const char* method = "contact";
    const char* half = nullptr;
    double width_mm = 130.0, height_mm = 190.0; // coated
    double sheet_area_m2 = 0.148 * 0.210;

    double coat_ml_m2 = 20.0;
    const char* tool = "brush";
    int passes = 3;
    const char* coat_light = "amber";
    double stray_light = 0.0; // density that light in the room leaves
    bool streaks = false; // an uneven coat

    double coat_minutes = 3.0, dry_minutes = 34.0;
    const char* dry_method = "hung";
    bool dry_covered = false;
    bool early_heat = false; // a skin on a wet coat

    double expose_at = 45.0, expose_minutes = 11.0, pause_minutes = 0.0;
    std::vector<double> strip_minutes; // a stepped strip: one exposure after another
    const char* place = "open_sky";
    double sky_share = 1.0;
    std::array<Sky, 3> sky; // start, middle, end

    double hold_minutes = 3.0;
    QString hold_place;
    double water_taken_up = 0.0; // while held, share of the coat's water
    std::vector<BathPlan> baths;

    [[nodiscard]] bool exposed() const { return expose_minutes > 0; }
    [[nodiscard]] bool stepped() const { return std::string_view(method) == "wedge" || !strip_minutes.empty(); }
    [[nodiscard]] double dryEnd() const { return expose_at - 2.0; }
    [[nodiscard]] double dryStart() const { return dryEnd() - dry_minutes; }
    [[nodiscard]] double coatEnd() const { return dryStart() - 2.0; }
    [[nodiscard]] double coatStart() const { return coatEnd() - coat_minutes; }
    [[nodiscard]] double exposeEnd() const { return expose_at + expose_minutes + pause_minutes; }
    [[nodiscard]] double rinseStart() const { return exposeEnd() + hold_minutes + 2.0; }
    [[nodiscard]] double rinseEnd() const
    {
        double end = rinseStart();
        for (const auto& bath : baths)
            end += bath.minutes + 0.2;
        return end;
    }
};

/// Moisture is the share of the coat's water, 0 to 1; densities are net, red.
struct Truth {
    double mix_age_h = 0.0;
    double moisture_expose = 0.0, moisture_rinse = 0.0;
    std::array<double, 3> uva_w_m2 {}; // at the paper: start, middle, end
    double dose_j_cm2 = 0.0;
    double formed = 0.0, kept = 1.0, net = 0.0, fog = 0.0;
    double border_net = 0.0; // where the sheet had no negative over it
    std::vector<double> step_formed, step_net; // wedge or strip, from the clearest
};

} // namespace washfast::demo
