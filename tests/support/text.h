// Texts in tests: made from UTF-8, and readable in the output of a failing test.
#pragma once

#include <QString>
#include <ostream>

inline void PrintTo(const QString& text, std::ostream* out)
{
    *out << '"' << text.toStdString() << '"';
}

namespace washfast::test {

inline QString text(const char* utf8)
{
    return QString::fromUtf8(utf8);
}

} // namespace washfast::test
