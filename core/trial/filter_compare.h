// Turns a field, an operator and what was typed behind it into a test, by the field's kind.
#pragma once

#include "core/trial/filter_nodes.h"
#include "core/trial/filter_tokens.h"

namespace washfast::filter {

/// The test, or a sentence about the operator or about a value.
struct Comparison {
    enum Blame { Nothing, TheOperator, TheValue, TheSecondValue };
    NodePtr test;
    Blame blame = Nothing;
    QString says;
};

/// `index` is the field's place among the catalogue's print fields.
[[nodiscard]] Comparison compare(const Field& field, int index, Operator op, const QString& value);
/// From a first to a second value, both included.
[[nodiscard]] Comparison compareRange(const Field& field, int index, const QString& first, const QString& second);

} // namespace washfast::filter
