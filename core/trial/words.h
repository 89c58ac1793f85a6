// The texts of this room that a person reads: one context for translators.
#pragma once

#include <QCoreApplication>

namespace washfast {

class TrialWords {
    Q_DECLARE_TR_FUNCTIONS(Trial)
};

} // namespace washfast
