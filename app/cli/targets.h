// Files that verbs write: an older one is replaced only with --replace, a notebook never.
#pragma once

#include "core/files/write_aside.h"

namespace washfast::cli {

[[nodiscard]] inline files::Existing existing(bool replace)
{
    return replace ? files::Existing::Replace : files::Existing::Refuse;
}

/// Why a verb would not write a file at this path, asked before the work; empty when nothing speaks against it.
[[nodiscard]] std::optional<Error> whyNotWritten(const QString& path, bool replace);

/// The error of writing, with the option that helps when a file stood there already.
[[nodiscard]] Error withAdvice(Error error, bool replace);

} // namespace washfast::cli
