#include "core/density/watch.h"

#include "core/density/words.h"

namespace washfast::density {

Error stopped(const QString& what)
{
    return { Trouble::Failed, Words::tr("Stopped before it was done."), what };
}

} // namespace washfast::density
