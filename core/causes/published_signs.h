// What is published about each way in which a print fails: what is seen before the rinse, in it and a day after, and
// the test that separates it from the others. Factors are matched to it by their key or by the words of their label.
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

/// `larger_fails`: whether the prints with the larger values (or with yes) fail; `failing_level`: of a choice, its key.
/// nullptr when nothing is published that fits the factor.
[[nodiscard]] const PublishedSign* publishedSignFor(
    const QString& name, const QString& label, bool larger_fails, const QString& failing_level);

/// The sign with this key, or nullptr.
[[nodiscard]] const PublishedSign* publishedSign(QStringView key);

/// The sign of a factor, compared with the two tones of these prints.
[[nodiscard]] std::optional<SignMatch> matchSign(const FactorEvidence& evidence, const Tones& tones);
/// The same, and compared with the signs that were noted on them.
[[nodiscard]] std::optional<SignMatch> matchSign(
    const Prepared& prepared, const FactorEvidence& evidence, const Tones& tones);

} // namespace washfast::causes
