#include "core/store/guard.h"

#include <QByteArray>
#include <QJsonArray>
#include <QJsonDocument>
#include <chrono>
#include <ctime>
#include <sqlite3.h>

namespace washfast::store {

namespace {

/// SQLite asks every so many of its own instructions: some hundred times a second.
constexpr int instructionsBetween = 50'000;
constexpr std::chrono::milliseconds looksEvery { 5 };

double processorSeconds()
{
    timespec time {};
    ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return double(time.tv_sec) + double(time.tv_nsec) * 1e-9;
}

/// Stands in for SQLite's own json_valid, which our tables' checks use: 3.40 counts its JSON functions among those that
/// a schema which is not trusted may not use (a slip, put right in later versions).
void jsonValid(sqlite3_context* context, int /*count*/, sqlite3_value** values)
{
    const auto* text = reinterpret_cast<const char*>(sqlite3_value_text(values[0]));
    if (!text)
        return; // NULL
    // Any JSON value may stand alone; Qt reads one within an array.
    const QByteArray array = '[' + QByteArray(text, sqlite3_value_bytes(values[0])) + ']';
    const auto document = QJsonDocument::fromJson(array);
    sqlite3_result_int(context, document.isArray() && document.array().size() == 1 ? 1 : 0);
}

} // namespace

void guard(sqlite3* handle)
{
    (void)sqlite3_create_function_v2(handle, "json_valid", 1, SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS,
        nullptr, &jsonValid, nullptr, nullptr, nullptr);
    (void)sqlite3_db_config(handle, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr); // NOLINT
    (void)sqlite3_db_config(handle, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr); // NOLINT
    (void)sqlite3_exec(handle, "PRAGMA cell_size_check = ON", nullptr, nullptr, nullptr);
}

TrustedSchema::TrustedSchema(sqlite3* handle)
    : handle_(handle)
{
    (void)sqlite3_db_config(handle_, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 1, nullptr); // NOLINT
}

TrustedSchema::~TrustedSchema()
{
    (void)sqlite3_db_config(handle_, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr); // NOLINT
}

Patience::Patience(sqlite3* handle)
    : handle_(handle)
{
    sqlite3_progress_handler(handle_, instructionsBetween, &Patience::asked, this);
}

Patience::~Patience()
{
    sqlite3_progress_handler(handle_, 0, nullptr, nullptr);
}

int Patience::asked(void* patience)
{
    auto& self = *static_cast<Patience*>(patience);
    if (!self.most_s_)
        return 0;
    const double now = processorSeconds();
    if (!self.since_s_)
        self.since_s_ = now;
    self.ran_out_ = now - *self.since_s_ > *self.most_s_;
    return self.ran_out_ ? 1 : 0;
}

BreakOff::BreakOff(sqlite3* handle, std::optional<int> most_ms, std::stop_token stop)
    : handle_(handle)
    , thread_([this, most_ms, token = std::move(stop)] { watch(most_ms, token); })
{
}

BreakOff::~BreakOff()
{
    {
        const std::lock_guard lock(mutex_);
        over_ = true;
    }
    wake_.notify_one();
    thread_.join();
}

bool BreakOff::happened() const
{
    const std::lock_guard lock(mutex_);
    return happened_;
}

void BreakOff::watch(std::optional<int> most_ms, const std::stop_token& stop)
{
    const auto began = std::chrono::steady_clock::now();
    std::unique_lock lock(mutex_);
    while (!over_) {
        const auto now = std::chrono::steady_clock::now();
        if (stop.stop_requested() || (most_ms && now - began >= std::chrono::milliseconds(*most_ms))) {
            happened_ = true;
            sqlite3_interrupt(handle_); // again and again: the next statement is to end as well
        }
        wake_.wait_for(lock, looksEvery);
    }
}

} // namespace washfast::store
