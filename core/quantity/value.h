// Values as they are recorded: a number, yes/no, a moment, a text (or the key of a choice), a link to another record,
// or nothing. Nothing means not recorded; it is never zero.
#pragma once

#include "core/quantity/instant.h"

#include <QString>
#include <optional>
#include <variant>

namespace washfast {

/// How a value came to be. The weaker of two is the larger.
enum class Evidence : quint8 { Measured, Estimated, Assumed };

[[nodiscard]] constexpr Evidence weaker(Evidence a, Evidence b)
{
    return a < b ? b : a;
}
[[nodiscard]] QString evidenceKey(Evidence evidence); // measured, estimated, assumed
[[nodiscard]] QString evidenceLabel(Evidence evidence);
[[nodiscard]] std::optional<Evidence> evidenceFromKey(QStringView key);

/// The row that another row points at; the field says in which table.
struct Link {
    qint64 id = 0;
    friend constexpr auto operator<=>(const Link&, const Link&) = default;
};

using Value = std::variant<std::monostate, double, bool, Instant, QString, Link>;

[[nodiscard]] inline bool isKnown(const Value& value)
{
    return value.index() != 0;
}

/// A value together with how it came to be.
struct Known {
    Value value;
    Evidence evidence = Evidence::Measured;

    [[nodiscard]] bool has() const { return isKnown(value); }
    explicit operator bool() const { return has(); }
    [[nodiscard]] std::optional<double> number() const; // also yes/no as 1 and 0
    [[nodiscard]] std::optional<bool> yes() const;
    [[nodiscard]] std::optional<Instant> time() const;
    [[nodiscard]] std::optional<QString> text() const;
    [[nodiscard]] std::optional<qint64> link() const;
    friend bool operator==(const Known&, const Known&) = default;
};

/// A known number with its evidence, for derived fields.
[[nodiscard]] inline Known knownNumber(double value, Evidence evidence = Evidence::Measured)
{
    return { Value(value), evidence };
}

} // namespace washfast
