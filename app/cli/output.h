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
    /// A file, as it is.
    void file(const QByteArray& bytes) const;

    /// Says why the work could not be done, and gives the exit status for that.
    int fail(const Error& error) const;
    int misuse(const QString& says) const;

    /// Files were written: should the answer fail, the person has to know that they are there.
    void wroteFiles() const { wrote_files_ = true; }
    /// Puts out what is still held back. When standard output did not take all of it, what was done counts as failed
    /// and the person is told. Gives the exit status.
    [[nodiscard]] int finish(int status) const;

private:
    void put(const QByteArray& bytes) const;
    mutable int trouble_ = 0; // number of the first error on standard output
    mutable bool wrote_files_ = false;
};

} // namespace washfast::cli
