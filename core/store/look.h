// What a look through a file has found.
#pragma once

#include <QString>

namespace washfast::store {

struct Look {
    bool finished = true; // false: the time was over, or it was stopped; what had been seen until then was right
    QString fault; // what is wrong, in a few words; empty when nothing was found

    [[nodiscard]] bool damaged() const { return !fault.isEmpty(); }
    [[nodiscard]] bool sound() const { return finished && fault.isEmpty(); }
};

} // namespace washfast::store
