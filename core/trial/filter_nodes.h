// What a filter is made of once it has been read: a tree of tests, each worked out for a run of rows at once.
#pragma once

#include "core/trial/print_columns.h"

#include <memory>

namespace washfast::filter {

/// `and` is the least of its parts, `or` the greatest, `not` is Yes - x (Kleene's strong logic of three values).
enum class Truth : quint8 { No = 0, Unknown = 1, Yes = 2 };

struct Rows {
    int first = 0;
    int count = 0;
};

class Node {
public:
    Node() = default;
    Node(const Node&) = delete;
    Node& operator=(const Node&) = delete;
    virtual ~Node() = default;
    /// Writes `rows.count` truths, that of row `rows.first` first.
    virtual void evaluate(const PrintColumns& columns, Rows rows, Truth* out) const = 0;
};
using NodePtr = std::unique_ptr<const Node>;

/// Every part (and), or any of them (or).
[[nodiscard]] NodePtr allOf(std::vector<NodePtr> parts);
[[nodiscard]] NodePtr anyOf(std::vector<NodePtr> parts);
[[nodiscard]] NodePtr notOf(NodePtr part);
/// The text stands in the print's words.
[[nodiscard]] NodePtr word(const QString& text);
/// Known, or unknown when not `known`.
[[nodiscard]] NodePtr isKnown(int field, bool known);

/// A closed interval of numbers.
struct Interval {
    double from = -std::numeric_limits<double>::infinity();
    double to = std::numeric_limits<double>::infinity();
};
/// The number lies in the interval, or outside of it.
[[nodiscard]] NodePtr within(int field, Interval interval, bool inside = true);

/// The choice is one of those marked with 1.
[[nodiscard]] NodePtr oneOf(int field, std::vector<char> wanted);
/// The set holds at least one of the keys.
[[nodiscard]] NodePtr holdsAny(int field, const QStringList& keys);
/// The set is exactly this one (as joinSet writes it), or is not.
[[nodiscard]] NodePtr isSet(int field, const QString& set, bool equal);
/// The text contains this one, in any case.
[[nodiscard]] NodePtr contains(int field, const QString& text);
/// The text is this one, in any case, spaces at the ends aside; or is not.
[[nodiscard]] NodePtr isText(int field, const QString& text, bool equal);

/// A moment in milliseconds since 1970: on UTC's clock, or on the clock of each record.
struct Edge {
    qint64 ms = 0;
    bool record_clock = false;
};
/// The moment is not before `from` and not after `to`; a missing edge is no limit. Or it is outside.
[[nodiscard]] NodePtr between(int field, std::optional<Edge> from, std::optional<Edge> to, bool inside = true);
/// The same for the time of day on the record's clock, in milliseconds since midnight.
[[nodiscard]] NodePtr dayTimeWithin(int field, Interval ms_of_day, bool inside = true);

} // namespace washfast::filter
