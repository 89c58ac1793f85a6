// The texts of this room that a person reads: one context for translators.
#pragma once

#include <QCoreApplication>

namespace washfast::demo {

class Words {
    Q_DECLARE_TR_FUNCTIONS(Demo)
};

} // namespace washfast::demo
