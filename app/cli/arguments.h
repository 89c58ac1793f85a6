// The words behind a verb: files, and options that the verb knows. Anything else is wrong.
#pragma once

#include "core/quantity/result.h"

#include <QHash>
#include <QStringList>
#include <optional>
#include <vector>

namespace washfast::cli {

struct Option {
    const char* name; // with its dashes
    const char* value; // how its value is shown in the help; nullptr for a switch
    const char* help;
    bool repeats = false;
};

/// What a verb takes.
struct Shape {
    std::vector<const char*> files; // names of the words that have to be there, in order
    std::vector<Option> options;
};

class Arguments {
public:
    [[nodiscard]] bool has(const char* option) const { return values_.contains(QString::fromLatin1(option)); }
    /// The value of an option, or an empty text.
    [[nodiscard]] QString value(const char* option) const
    {
        return values_.value(QString::fromLatin1(option)).value(0);
    }
    [[nodiscard]] QStringList values(const char* option) const { return values_.value(QString::fromLatin1(option)); }
    /// A list written with commas; empty parts are left out.
    [[nodiscard]] QStringList list(const char* option) const;
    /// A number from `low` to `high`, written in any way that parseNumber() reads, without a unit or with one that
    /// becomes `unit`; nothing when the option is not there. The error says what was given.
    [[nodiscard]] Result<std::optional<double>> number(
        const char* option, double low, double high, const char* unit = "") const;
    [[nodiscard]] QString file(int at) const { return files_.value(at); }

private:
    friend Result<Arguments> readArguments(const Shape& shape, const QStringList& words);
    QStringList files_;
    QHash<QString, QStringList> values_; // a switch has one empty text
};

/// A number as an option has it, see Arguments::number(); nothing when it is none or has another unit.
[[nodiscard]] std::optional<double> numberIn(const QString& text, const char* unit = "");

/// `--name value` and `--name=value`; behind `--` nothing is an option. The error is one sentence about what is wrong.
[[nodiscard]] Result<Arguments> readArguments(const Shape& shape, const QStringList& words);

} // namespace washfast::cli
