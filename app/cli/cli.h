// The command line: `washfast VERB ...`, without a window.
#pragma once

#include "core/quantity/result.h"

#include <QStringList>

namespace washfast::cli {

/// The words behind the program's name. The error names the first one that is not UTF-8: as a text it would be another
/// name, and not the file that was meant.
[[nodiscard]] Result<QStringList> wordsOf(int argc, const char* const* argv);

/// True when the words behind the program's name are for the command line: a verb, --help, --version, or anything that
/// is neither nothing nor the path of a notebook.
[[nodiscard]] bool isForCommandLine(const QStringList& words);

/// True when the words ask for a PDF: run() then needs a QGuiApplication.
[[nodiscard]] bool needsFonts(const QStringList& words);

/// Runs it; needs a QCoreApplication. Gives the exit status: 0 done, 1 could not be done, 2 wrong arguments.
[[nodiscard]] int run(const QStringList& words);

} // namespace washfast::cli
