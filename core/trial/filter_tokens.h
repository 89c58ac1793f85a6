// Cuts a filter into words, quoted words, operators and parentheses.
#pragma once

#include "core/trial/filter.h"

namespace washfast::filter {

enum class Operator { Equal, NotEqual, Less, LessOrEqual, Greater, GreaterOrEqual, Has };

struct Token {
    enum Kind { Word, Quoted, Comparison, Open, Close, End };
    Kind kind = End;
    QString text; // without its quotation marks
    int at = 0, length = 0; // with them
    Operator op = Operator::Equal; // of a comparison

    /// A word of the language, in any case; never when quoted.
    [[nodiscard]] bool is(QStringView keyword) const
    {
        return kind == Word && keyword.compare(text, Qt::CaseInsensitive) == 0;
    }
};

/// The tokens with an End behind them, or what is wrong.
[[nodiscard]] std::variant<std::vector<Token>, FilterFault> cut(const QString& text);

} // namespace washfast::filter
