// The tone a day after the rinse: which prints wait for it, and from when it can be read. A print whose tone before the
// rinse was read is not finished without the other one (the two tones decide where the blue went), unless somebody
// looked and recorded that there is nothing to read.
#pragma once

#include "core/trial/print_reader.h"

namespace washfast {

struct ToneAfter {
    enum class State {
        NotAsked, // no tone before the rinse: no second one is waited for
        Waits,
        Read,
        NothingToRead // recorded a day after: there is no tone left
    };
    State state = State::NotAsked;
    /// The start of the day after the rinse, by the clock of the rinse; nothing when no rinse is recorded.
    std::optional<Instant> from;

    [[nodiscard]] bool waits() const { return state == State::Waits; }
    /// It waits, and its day has come.
    [[nodiscard]] bool due(const Instant& now) const { return waits() && from && *from <= now; }
};

[[nodiscard]] ToneAfter toneAfter(const PrintReader& reader, int print_row);

} // namespace washfast
