// The verbs of the command line, one file each, and the table of them.
#pragma once

#include "app/cli/arguments.h"
#include "app/cli/output.h"

namespace washfast::cli {

struct Verb {
    const char* name;
    const char* summary; // one line
    Shape shape;
    int (*run)(const Arguments& arguments, const Output& output); // gives the exit status
};

[[nodiscard]] Verb demoVerb();
[[nodiscard]] Verb importVerb();
[[nodiscard]] Verb listVerb();
[[nodiscard]] Verb mergeVerb();
[[nodiscard]] Verb checkVerb();
[[nodiscard]] Verb exportVerb();
[[nodiscard]] Verb causesVerb();
[[nodiscard]] Verb nextVerb();
[[nodiscard]] Verb sunVerb();
[[nodiscard]] Verb mixVerb();
[[nodiscard]] Verb densityVerb();
[[nodiscard]] Verb curveVerb();

/// In the order in which the help lists them.
[[nodiscard]] const std::vector<Verb>& verbs();

} // namespace washfast::cli
