// How long it takes until the window is there, with an empty notebook and with a large one. The driver starts this very
// program again and again, in turn with one notebook and the other, so that each start is a whole process; the child
// says on one line what it measured.
#pragma once

#include <QString>

namespace washfast::bench {

/// Monotonic time in milliseconds, the same for all processes of the machine.
[[nodiscard]] double monotonicMs();

/// Opens the window on a notebook as the program does, and writes one JSON object with milliseconds: `painted` from
/// `started` (monotonicMs() of whoever started the process) to the first picture on the screen, `complete` to all
/// prints being there, and memory in MB. With `work` also what then happens: the table of prints, keystrokes in its
/// filter, a plot, moving over it, one logged step.
int runChild(int argc, char** argv, const QString& notebook, double started, bool work);

/// Writes a notebook with lessons of thirty prints, each with thirteen rows of its own; with no prints, an empty one.
/// One step a lesson.
[[nodiscard]] bool makeNotebook(const QString& path, int prints);

} // namespace washfast::bench
