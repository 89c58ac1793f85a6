// The texts of this room that a person reads: one context for translators.
#pragma once

#include <QCoreApplication>

namespace washfast::exchange {

class Words {
    Q_DECLARE_TR_FUNCTIONS(Exchange)

public:
    /// The language of these texts, for files that say theirs.
    [[nodiscard]] static QString language()
    {
        //: Not a word: the code of the language that you translate into, such as de or pt-BR (BCP 47).
        return tr("en");
    }
};

} // namespace washfast::exchange
