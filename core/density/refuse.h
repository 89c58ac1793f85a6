// A refusal in this room's words.
#pragma once

#include "core/density/words.h"
#include "core/quantity/result.h"

namespace washfast::density {

/// The text is marked for translation with QT_TRANSLATE_NOOP("Density", ...).
[[nodiscard]] inline Error refuse(const char* text, Trouble code = Trouble::BadInput)
{
    return { code, Words::tr(text), {} };
}

} // namespace washfast::density
