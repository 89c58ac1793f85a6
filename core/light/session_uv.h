// The day's ultraviolet index of a session, for the caution about skin and eyes.
#pragma once

#include "core/trial/notebook.h"

#include <optional>

namespace washfast::light {

/// Under a clear sky at noon of the session's day at its site, with the ozone that is usually taken; nothing where day,
/// place or time zone is not known.
[[nodiscard]] std::optional<double> highestUvIndex(const Notebook& notebook, SessionId session);

} // namespace washfast::light
