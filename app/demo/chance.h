// Chance for the example notebook: the same on every machine, and one independent stream for each sheet, so that a
// change to one lesson leaves all the others as they were.
#pragma once

#include "core/stats/draw.h"

#include <QtGlobal>
#include <vector>

namespace washfast::demo {

class Chance {
public:
    Chance(quint32 seed, quint32 stream, quint32 item)
        : draw_((quint64(seed) << 32U) ^ (quint64(stream) * 1'000'003U + item))
    {
    }

    /// A number in [0, 1).
    [[nodiscard]] double unit() { return draw_.unit(); }
    /// A number in [low, high).
    [[nodiscard]] double between(double low, double high) { return low + (high - low) * draw_.unit(); }
    /// About normal with mean 0: twelve uniform numbers added, which needs no logarithm. Never beyond six times `sd`.
    [[nodiscard]] double normal(double sd)
    {
        double sum = -6.0;
        for (int i = 0; i < 12; ++i)
            sum += draw_.unit();
        return sum * sd;
    }
    [[nodiscard]] bool happens(double probability) { return draw_.unit() < probability; }
    [[nodiscard]] int below(int bound) { return int(draw_.below(quint32(bound))); }
    template <typename T> [[nodiscard]] const T& oneOf(const std::vector<T>& items)
    {
        return items[size_t(below(int(items.size())))];
    }
    template <typename T> void shuffle(std::vector<T>& items) { draw_.shuffleFront(std::span<T>(items), items.size()); }

private:
    stats::Draw draw_;
};

} // namespace washfast::demo
