// Random draws that are the same on every machine: the generator of the C++ standard with our own bounded integers
// (the standard's distributions differ between libraries). Monte Carlo tests and the example notebook use it, each with
// a fixed seed.
#pragma once

#include <cstdint>
#include <random>
#include <span>
#include <utility>

namespace washfast::stats {

class Draw {
public:
    explicit Draw(std::uint64_t seed)
        : engine_(seed)
    {
    }

    /// A whole number in 0 .. bound-1, each equally likely (multiply and reject). `bound` must be at least 1.
    [[nodiscard]] std::uint32_t below(std::uint32_t bound)
    {
        std::uint64_t product = (engine_() >> 32U) * bound;
        auto low = static_cast<std::uint32_t>(product);
        if (low < bound) {
            const std::uint32_t reject_below = (0U - bound) % bound;
            while (low < reject_below) {
                product = (engine_() >> 32U) * bound;
                low = static_cast<std::uint32_t>(product);
            }
        }
        return static_cast<std::uint32_t>(product >> 32U);
    }

    /// A number in [0, 1).
    [[nodiscard]] double unit() { return static_cast<double>(engine_() >> 11U) * 0x1.0p-53; }

    /// Moves a random choice of `count` items to the front, in random order; the whole span when count is its size.
    template <typename T> void shuffleFront(std::span<T> items, std::size_t count)
    {
        for (std::size_t i = 0; i < count && i + 1 < items.size(); ++i)
            std::swap(items[i], items[i + below(static_cast<std::uint32_t>(items.size() - i))]);
    }

private:
    std::mt19937_64 engine_;
};

} // namespace washfast::stats
