// Starts the program with its window.
#pragma once

#include <QString>

namespace washfast {

/// Opens the notebook (asks for one when the path is empty) and runs until the window is closed. Gives the exit status.
int runWindow(int argc, char** argv, const QString& notebook);

} // namespace washfast
