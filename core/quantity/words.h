// The texts of this room that a person reads: one context for translators.
#pragma once

#include <QCoreApplication>

namespace washfast {

class QuantityWords {
    Q_DECLARE_TR_FUNCTIONS(Quantity)
};

} // namespace washfast
