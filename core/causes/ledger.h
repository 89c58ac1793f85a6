// Where the blue went, for one print: from the net density that this mix and paper reach when all goes well, down to
// the one that was measured a day after.
//
// The model is a product: the density of good prints, times what the light and the age of the mix leave of it (through
// the characteristic curve), times what else was missing before the rinse, times what the rinse left, times the gain on
// drying; each against the good prints. A product has no order, so its parts are shared out by Shapley's value: the
// mean of what each changes over all the orders in which they could be put in place. No order is preferred, and the
// lines add up to the shortfall exactly.
//
// Assumed, not published, unless the person knows better: the curve (a logistic), the loss of speed of a mixed
// sensitiser with age, what a wrong ratio costs. Lines that rest on them say so.
#pragma once

#include "core/quantity/result.h"
#include "core/trial/print_reader.h"

namespace washfast::causes {

enum class LedgerStep {
    SunHeight,
    Cloud,
    Cover,
    SkyShare,
    Tilt,
    Duration,
    Light, // what the dose says and the six above do not, or all of it when they are not known
    MixAge,
    MixRatio,
    Formation, // missing before the rinse, unexplained
    FormationOrRinse, // the rest, when no tone was read before the rinse
    Rinse,
    Drying // gain on drying
};
/// sun_height, cloud, cover, sky_share, tilt, time, light, mix_age, mix_ratio, formation, formation_or_rinse, rinse,
/// drying.
[[nodiscard]] QString ledgerStepKey(LedgerStep step);

struct LedgerLine {
    LedgerStep step = LedgerStep::Formation;
    QString label;
    double density = 0.0; // below 0: lost
    Evidence evidence = Evidence::Measured; // the weakest of all that it rests on
    QStringList fields; // keys of the print fields that it came from
    QString note; // what was assumed, or what else may lie behind it; may be empty
};

struct Ledger {
    QString print;
    double start = 0.0; // net density of good prints
    Evidence start_evidence = Evidence::Measured;
    QString start_says; // which prints it came from
    QStringList good_prints; // codes
    double end = 0.0; // net density of this print; before the rinse when no later tone was read
    QString end_field; // net_density or formed
    std::vector<LedgerLine> lines; // their sum is end - start
    QStringList cannot_say; // questions that a missing tone leaves open
    QString method; // how the shares were made, a sentence
};

struct LedgerOptions {
    std::vector<int> good; // rows of prints that went well; empty: those whose outcome is "kept"
    double assumed_density = 1.2; // net, when there is no good print on this paper; a working value, not published
    // Share of the highest density that good prints reach, and the curve's slope: 0.9 and 4.7 per unit of log10 dose
    // give a range of 1.2 from a net density of 0.04 up, which is an assumption of this program.
    double good_share = 0.9;
    double slope_per_log10 = 4.7;
    bool curve_is_known = false; // the two above come from a fitted curve
    double speed_halves_in_h = 24.0; // of a mixed sensitiser; assumed
};

/// Errors: NotFound when neither tone of the print can be told from its readings.
[[nodiscard]] Result<Ledger> whereTheBlueWent(
    const PrintReader& prints, int print_row, const LedgerOptions& options = {});

} // namespace washfast::causes
