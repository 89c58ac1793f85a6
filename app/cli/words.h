// The texts of this room that a person reads: one context for translators.
#pragma once

#include <QCoreApplication>

namespace washfast::cli {

class Words {
    Q_DECLARE_TR_FUNCTIONS(Cli)
};

} // namespace washfast::cli
