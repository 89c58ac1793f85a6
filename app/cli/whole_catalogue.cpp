#include "app/cli/whole_catalogue.h"

#include "core/chemistry/fields.h"
#include "core/drying/fields.h"
#include "core/light/fields.h"

namespace washfast {

Catalogue wholeCatalogue()
{
    auto catalogue = standardCatalogue();
    chemistry::addFields(catalogue);
    light::addFields(catalogue);
    drying::addFields(catalogue);
    return catalogue;
}

} // namespace washfast
