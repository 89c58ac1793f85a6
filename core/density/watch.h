// What a long work is told and tells: how far it is, and whether to stop. Safe to use from several threads.
#pragma once

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
};

} // namespace washfast::density
