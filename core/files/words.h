// The texts of this room.
#pragma once

#include <QCoreApplication>

namespace washfast::files {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(Files)
};

} // namespace washfast::files
