// The answer as one JSON object, with the keys that scripts rely on. What is not there is null.
#pragma once

#include "core/causes/answer.h"

#include <QJsonObject>

namespace washfast::causes {

[[nodiscard]] QJsonObject toJson(const Answer& answer);

/// cause, tangle or not_enough.
[[nodiscard]] QString verdictKey(Verdict verdict);
/// number, yes_no or choice.
[[nodiscard]] QString kindKey(Factor::Kind kind);

} // namespace washfast::causes
