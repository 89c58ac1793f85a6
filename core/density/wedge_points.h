// From one print to the points of a curve: what dose lay behind each step of its wedge or strip, and what density was
// read there.
//
//     const auto points = wedgePoints(reader, row, doses, { .net = true });
//     if (!points) say(points.error().sentence());    // no wedge, no dose, no readings: which and why
//
// The doses of the exposures come from whoever asks (core/light reckons them). Behind a step of ultraviolet density D
// the paper gets dose * 10^-D. A strip that is covered step by step gets the sums of its exposures: step 1, the
// clearest, had them all, the last only the first. Readings of one state of the print are taken, a day after where
// there are any, else just dry; two states are never mixed. A later reading of a step replaces an earlier one, as
// everywhere in the notebook.
#pragma once

#include "core/quantity/result.h"
#include "core/trial/print_reader.h"

#include <QStringList>

namespace washfast::density {

/// Of one exposure, at the paper, before the wedge; in the order of the exposures' rows.
struct GivenDose {
    std::optional<double> j_cm2, low, high;
    Evidence evidence = Evidence::Estimated;
    QString why_not; // where it is not known: a sentence
};

struct WedgeAsk {
    QString when {}; // choice of reading_when; empty: a day after, else just dry
    QString channel {}; // choice of reading_channel; empty: red where there is any, else the one with most steps
    bool net = false; // above the bare paper, by a reading of that state and channel, else by the paper's record
};

struct StepPoint {
    int step = 0; // counted from the clearest
    double log_h = 0; // log10 of J/cm2
    double density = 0;
    std::optional<double> spread; // over the spot
    Evidence evidence = Evidence::Measured; // of the density
};

struct WedgePoints {
    std::vector<StepPoint> points; // by rising exposure
    QString when, channel; // choices; the channel is empty when it was not recorded
    bool strip = false;
    Evidence dose_evidence = Evidence::Estimated;
    double dose_low_log10 = 0, dose_high_log10 = 0; // ends of the dose's interval, as differences to log_h
    QStringList notes; // what was taken for granted or left out, a sentence each, without the print's code
};

/// Ids of the prints of which the density of a step was read, ascending.
[[nodiscard]] std::vector<qint64> printsWithSteps(const Notebook& notebook);
/// States and channels in which steps of this print were read, in the order of the choices.
[[nodiscard]] QStringList statesRead(const Notebook& notebook, qint64 print);
[[nodiscard]] QStringList channelsRead(const Notebook& notebook, qint64 print, const QString& when);

/// The error's place is the print's code.
[[nodiscard]] Result<WedgePoints> wedgePoints(
    const PrintReader& reader, int print_row, const std::vector<GivenDose>& doses, const WedgeAsk& ask = {});

} // namespace washfast::density
