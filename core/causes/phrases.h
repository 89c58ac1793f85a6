// How values, levels and names are said in sentences: labels and units for people, never keys.
#pragma once

#include "core/causes/prepared.h"

namespace washfast::causes {

/// The label in quotation marks.
[[nodiscard]] QString quoted(const Factor& factor);
[[nodiscard]] QString quoted(const FactorEvidence& evidence);

/// Three figures and the unit.
[[nodiscard]] QString withUnit(double value, const QString& unit);

/// The label of a level of this factor; of a number that is taken for levels, with its unit.
[[nodiscard]] QString levelLabel(const Factor& factor, const QString& level);

/// "a, b and c".
[[nodiscard]] QString listed(const QStringList& names);

/// The first few, and how many more.
[[nodiscard]] QString someOf(const QStringList& names, int most);

/// "a, b or c".
[[nodiscard]] QString eitherOf(const QStringList& names);

/// "1 print", "12 prints".
[[nodiscard]] QString printsCount(int count);

/// The outcome for people.
[[nodiscard]] QString spokenOutcome(const FactorTable& table);

[[nodiscard]] QString capital(QString text);

/// A p-value as people read it: 0.031, 0.00042, "below 0.0001".
[[nodiscard]] QString spokenP(double p);

/// The test behind a p-value, from its key in FactorEvidence.
[[nodiscard]] QString methodLabel(const QString& method);

/// What the prints show for one factor: "“Damp”: 9 of 10 failed with yes, 1 of 10 with no".
[[nodiscard]] QString shownBy(const Prepared& prepared, const FactorEvidence& evidence);

} // namespace washfast::causes
