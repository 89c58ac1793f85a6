// What a file from anywhere may not do to the program: run code of its own that is not trusted, or keep a statement
// going for ever by a view or a trigger that does not come to an end.
#pragma once

#include <condition_variable>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>

struct sqlite3;

namespace washfast::store {

/// Sets a fresh connection so that the file's schema is not trusted (sqlite.org/security.html): SQLite's defensive
/// mode, functions of views and triggers only as far as they are harmless, and a closer look at each page.
void guard(sqlite3* handle);

/// While it lives the schema is trusted, for a VACUUM: that runs no triggers and no views, and takes SQLite's own
/// functions only, of which 3.40 counts json_valid as one that may not be used otherwise.
class TrustedSchema {
public:
    explicit TrustedSchema(sqlite3* handle);
    ~TrustedSchema();
    TrustedSchema(const TrustedSchema&) = delete;
    TrustedSchema& operator=(const TrustedSchema&) = delete;

private:
    sqlite3* handle_;
};

/// Breaks a step off that has kept the processor busy for too long. Waiting for the disk or for a lock does not count.
class Patience {
public:
    explicit Patience(sqlite3* handle);
    ~Patience();
    Patience(const Patience&) = delete;
    Patience& operator=(const Patience&) = delete;

    /// Seconds of the processor that one step may take; nothing: as long as it takes.
    void allow(std::optional<double> most_s) { most_s_ = most_s; }
    [[nodiscard]] std::optional<double> allowed() const { return most_s_; }
    /// A step begins.
    void begin()
    {
        since_s_.reset();
        ran_out_ = false;
    }
    [[nodiscard]] bool ranOut() const { return ran_out_; }

private:
    static int asked(void* patience);

    sqlite3* handle_;
    std::optional<double> most_s_ = 5; // no step of ours takes a tenth of that on 100,000 prints
    std::optional<double> since_s_; // when SQLite first asked in this step
    bool ran_out_ = false;
};

/// While it lives, whatever runs on the connection is broken off once the time is over or somebody asks to stop.
class BreakOff {
public:
    BreakOff(sqlite3* handle, std::optional<int> most_ms, std::stop_token stop);
    ~BreakOff();
    BreakOff(const BreakOff&) = delete;
    BreakOff& operator=(const BreakOff&) = delete;

    [[nodiscard]] bool happened() const;

private:
    void watch(std::optional<int> most_ms, const std::stop_token& stop);

    sqlite3* handle_;
    mutable std::mutex mutex_;
    std::condition_variable wake_;
    bool over_ = false;
    bool happened_ = false;
    std::thread thread_;
};

} // namespace washfast::store
