// What is published about each way in which a print fails: what is seen before the rinse, in it and a day after, and
// the test that separates it from the others. Which of them a factor stands for, the catalogue's field says (InCauses);
// a column that is no field stands for none.
#pragma once

#include "core/causes/answer.h"
#include "core/causes/prepared.h"

namespace washfast::causes {

/// Where the blue goes missing when this is the cause.
enum class MissingAt { Formation, Rinse, Either, Elsewhere };

struct PublishedSign {
    const char* key;
    const char* title;
    MissingAt at;
    const char* before_rinse;
    const char* in_rinse;
    const char* day_after;
    const char* test;
    const char* evidence; // published, memory, hypothesis
    const char* seen; // the kinds of sign (keys of sign_kind) that are meant, with a space between; may be empty
};

/// `larger_fails`: whether the prints with the larger values (or with yes) fail; `failing_level`: of a choice, the one
/// that fails most. nullptr when nothing is published that fits.
[[nodiscard]] const PublishedSign* publishedSignFor(
    const InCauses& meaning, Factor::Kind kind, bool larger_fails, const QString& failing_level);

/// The sign with this key, or nullptr.
[[nodiscard]] const PublishedSign* publishedSign(QStringView key);

/// The sign of a factor of this table, compared with the two tones of its prints.
[[nodiscard]] std::optional<SignMatch> matchSign(
    const FactorTable& table, const FactorEvidence& evidence, const Tones& tones);
/// The same, and compared with the signs that were noted on them.
[[nodiscard]] std::optional<SignMatch> matchSign(
    const Prepared& prepared, const FactorEvidence& evidence, const Tones& tones);

} // namespace washfast::causes
