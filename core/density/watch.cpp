#include "core/density/watch.h"

#include <QCoreApplication>

namespace washfast::density {

Error stopped(const QString& what)
{
    return { Trouble::Failed, QCoreApplication::translate("Density", "Stopped before it was done."), what };
}

} // namespace washfast::density
