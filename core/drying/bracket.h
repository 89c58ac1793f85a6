// A number that is not known exactly: the likely value with a low and a high end.
#pragma once

namespace washfast::drying {

/// low <= likely <= high. An end may be infinite ("never"); the unit stands in the name of whatever holds it.
struct Bracket {
    double low = 0.0;
    double likely = 0.0;
    double high = 0.0;
    friend bool operator==(const Bracket&, const Bracket&) = default;
};

[[nodiscard]] constexpr Bracket operator+(const Bracket& a, const Bracket& b)
{
    return { a.low + b.low, a.likely + b.likely, a.high + b.high };
}

} // namespace washfast::drying
