// What can fail returns a Result: the value, or an error with a code, a sentence for the person and the place it is
// about.
#pragma once

#include <QString>
#include <utility>
#include <variant>

namespace washfast {

enum class Trouble {
    BadInput, // what the person gave cannot be used
    NotFound, // the thing asked for is not there
    NotANotebook, // the file is something else
    TooNew, // written by a newer version
    ReadOnly, // the place or the file cannot be written
    NoSpace, // the disk is full
    Busy, // another program holds the file
    Conflict, // somebody else changed the same field meanwhile
    Damaged, // the file is not sound
    Lost, // the file was moved, removed, replaced or cut off from its log while it was open
    Failed // anything else; the sentence says what
};

struct Error {
    Trouble code = Trouble::Failed;
    QString says; // one plain sentence
    QString where; // file, line, field or print it is about; may be empty

    [[nodiscard]] QString sentence() const { return where.isEmpty() ? says : where + QStringLiteral(": ") + says; }
};

/// Holds a T or an Error. `value()` may be called only when it holds a T.
template <typename T> class [[nodiscard]] Result {
public:
    Result(T value)
        : held_(std::in_place_index<0>, std::move(value))
    {
    }
    Result(Error error)
        : held_(std::in_place_index<1>, std::move(error))
    {
    }
    [[nodiscard]] bool ok() const { return held_.index() == 0; }
    explicit operator bool() const { return ok(); }
    [[nodiscard]] const T& value() const& { return std::get<0>(held_); }
    [[nodiscard]] T& value() & { return std::get<0>(held_); }
    [[nodiscard]] T&& value() && { return std::get<0>(std::move(held_)); }
    [[nodiscard]] const Error& error() const { return std::get<1>(held_); }
    const T& operator*() const { return value(); }
    T& operator*() { return value(); }
    const T* operator->() const { return &value(); }
    T* operator->() { return &value(); }

private:
    std::variant<T, Error> held_;
};

struct Done { };
using Outcome = Result<Done>;

} // namespace washfast
