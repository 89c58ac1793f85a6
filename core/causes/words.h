// The texts of this room that a person reads: one context for translators.
#pragma once

#include <QCoreApplication>

namespace washfast::causes {

class Words {
    Q_DECLARE_TR_FUNCTIONS(Causes)
};

} // namespace washfast::causes
