// Asks before times are kept that can hardly be right: an exposure that ends years after its start.
#pragma once

#include "core/quantity/field.h"
#include "ui/common/dialogs.h"

#include <functional>
#include <span>

namespace washfast::ui {

/// Looks at each of the fields that ends something when it or its start has just been `entered`; `get` gives what a
/// field holds then. A question for the person when an end is later than is plausible.
[[nodiscard]] std::optional<QString> lateEnd(std::span<const Field> fields,
    const std::function<bool(const QString& key)>& entered, const std::function<Known(const QString& key)>& get);

/// Whether the person wants to keep such times.
[[nodiscard]] bool keepsTimes(Dialogs& dialogs, QWidget* parent, const QString& question);

} // namespace washfast::ui
