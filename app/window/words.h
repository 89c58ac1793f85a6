// The texts of this room that a person reads: one context for translators.
#pragma once

#include <QCoreApplication>

namespace washfast {

class WindowWords {
    Q_DECLARE_TR_FUNCTIONS(Window)
};

} // namespace washfast
