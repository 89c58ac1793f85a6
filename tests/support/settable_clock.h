// A clock that stands still until a test moves it.
#pragma once

#include "ui/common/clock.h"

namespace washfast::test {

class SettableClock final : public ui::Clock {
public:
    explicit SettableClock(const QDateTime& start = QDateTime(QDate(2024, 6, 21), QTime(10, 0), Qt::UTC))
        : now_(start.toUTC())
    {
    }

    [[nodiscard]] QDateTime now() const override { return now_; }
    void set(const QDateTime& now) { now_ = now.toUTC(); }
    void advanceSeconds(qint64 seconds) { now_ = now_.addSecs(seconds); }
    void advanceMinutes(qint64 minutes) { now_ = now_.addSecs(minutes * 60); }

private:
    QDateTime now_;
};

} // namespace washfast::test
