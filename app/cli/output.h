// Where a verb writes: results to standard output, all that is said to the person to standard error.
#pragma once

#include "core/quantity/result.h"

#include <QJsonObject>
#include <QStringList>
#include <vector>

namespace washfast::cli {

/// Exit statuses: done, could not be done, wrong arguments.
inline constexpr int done = 0, failed = 1, misused = 2;

class Output {
public:
    void line(const QString& text) const;
    void say(const QString& text) const; // to the person
    void json(const QJsonObject& object) const;
    /// Columns as wide as their contents; the headings first, underlined.
    void table(const QStringList& headings, const std::vector<QStringList>& rows) const;

    /// Says why the work could not be done, and gives the exit status for that.
    int fail(const Error& error) const;
    int misuse(const QString& says) const;
};

} // namespace washfast::cli
