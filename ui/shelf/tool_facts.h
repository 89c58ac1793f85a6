// What the shelf has to say about lamps, reference cards and the spectra of covers: what follows from what was
// measured, marked as reckoned, and what makes it doubtful.
#pragma once

#include "core/trial/notebook.h"

#include <QStringList>

namespace washfast::ui {

struct ToolFacts {
    QStringList warnings; // a word or two each, for the table
    QStringList sentences; // for under it
};

/// Densities of a card older than this are doubted: printed and painted greys yellow and fade (our own choice).
inline constexpr double cardKeepsDays = 730;

[[nodiscard]] ToolFacts lampFacts(const Notebook& notebook, qint64 lamp);
[[nodiscard]] ToolFacts cardFacts(const Notebook& notebook, qint64 card, const Instant& now);
[[nodiscard]] ToolFacts coverFacts(const Notebook& notebook, qint64 cover);

/// By the square law, from a reading at one distance; both in the same unit of length.
[[nodiscard]] constexpr double lightAtDistance(double read, double read_at, double distance)
{
    return read * (read_at / distance) * (read_at / distance);
}

/// Why the text of a spectrum (lamp_spectrum, cover_spectrum) cannot be used; empty when it can, or is empty.
[[nodiscard]] QString spectrumProblem(const QString& column, const QString& text);

} // namespace washfast::ui
