// What a long work is told and tells: how far it is, and whether to stop. Safe to use from several threads.
#pragma once

#include "core/quantity/result.h"

#include <atomic>
#include <functional>

namespace washfast::density {

struct Watch {
    std::function<void(double share)> progress; // 0 to 1; may be empty; called from the working threads
    const std::atomic<bool>* cancel = nullptr; // may be missing

    [[nodiscard]] bool cancelled() const { return cancel && cancel->load(std::memory_order_relaxed); }
    void tell(double share) const
    {
        if (progress)
            progress(share);
    }
    /// For a part of the work, from one share of the whole to another.
    [[nodiscard]] Watch part(double from, double to) const
    {
        if (!progress)
            return *this;
        return { [tell = progress, from, to](double share) { tell(from + (to - from) * share); }, cancel };
    }
};

/// What a work answers that was told to stop; `what`: of which photo.
[[nodiscard]] Error stopped(const QString& what = {});

} // namespace washfast::density
