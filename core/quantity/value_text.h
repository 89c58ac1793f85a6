// Values as texts: for files (ISO forms, nothing rounded), for the screen (the person's locale, rounded), for an editor
// (the person's locale, nothing rounded), and back from what was typed into a form or a table.
//
// Marks of our own, the same wherever a value is shown or typed:
//     0.60      measured
//     ≈0.60     estimated; typed as ~0.60
//     (0.60)    assumed; typed as 0.60?
// On the screen a choice or a yes/no carries a mark only when it is weaker than what its field always is: an outcome is
// seen by eye, and "≈ran off" on every line would say nothing. Numbers and times always show it. Texts are never
// marked.
#pragma once

#include "core/quantity/field.h"
#include "core/quantity/result.h"

#include <QDateTime>
#include <QLocale>

namespace washfast {

/// The shortest plain digits that read back as the same number, with a point; empty for what is not finite. An exponent
/// is used only below 1e-6 and from 1e15.
[[nodiscard]] QString isoNumber(double value);

/// For files: ISO 8601 times, keys of choices joined by "; ", yes and no, the number of the row for a link (whoever
/// knows the notebook writes its name instead). Empty when unknown.
[[nodiscard]] QString isoText(const Field& field, const Value& value);

/// For the screen: `field.decimals` decimals, labels of choices, date and time on the clock that the moment was read
/// from. Empty when unknown. Never read back.
[[nodiscard]] QString displayText(const Field& field, const Known& known, const QLocale& locale);

/// What an editor shows: parseTyped reads it back as the same value, and with the same evidence unless that is stronger
/// than the field's nature.
[[nodiscard]] QString editText(const Field& field, const Known& known, const QLocale& locale);

/// Reads what was typed. Empty is unknown. Without a mark the evidence is the field's nature.
/// Numbers: decimal point or comma, with or without a unit that can be turned into the field's; "1.250" and "1,250" are
/// read only where the locale's decimal mark leaves no doubt. Choices: key, label or the beginning of one, in any case.
/// Times: ISO 8601, 04.05.2026 10:15, or 10:15 on the day of `now`. A time without an offset is one of the clock of
/// `now`, a day without a time its first moment; when `now` is not valid these are refused. Links cannot be read here.
/// The error's `where` is the field's label.
[[nodiscard]] Result<Known> parseTyped(
    const Field& field, const QString& typed, const QLocale& locale, const QDateTime& now = {});

/// Reads a number in the field's unit, without marks; what parseTyped and the filter share. `comma_decimals`: "1,250"
/// is 1.25 and "1.250" is refused, otherwise the other way round.
[[nodiscard]] Result<double> parseFieldNumber(const Field& field, const QString& text, bool comma_decimals = false);

/// The position of the choice whose key or label this is, in any case; nothing when there is none.
[[nodiscard]] std::optional<int> exactChoice(const Field& field, const QString& text);
/// "brush, foam brush, rod": the labels for a sentence, with the key behind a label that does not show it.
[[nodiscard]] QString choicesForSentence(const Field& field);
/// Yes, no, or nothing for any other word.
[[nodiscard]] std::optional<bool> parseYesNo(const QString& text);

/// One sentence when a number lies outside the field's plausible range. Such a number is kept all the same.
[[nodiscard]] std::optional<QString> outsideRange(
    const Field& field, double value, const QLocale& locale = QLocale::c());

} // namespace washfast
