#include "core/causes/settings.h"

namespace washfast::causes {

namespace {

InCauses::Lever ordinaryLever(const Field& field)
{
    if (field.entity == Entity::Session || field.entity == Entity::Site || field.entity == Entity::Term)
        return InCauses::Lever::Weather;
    return field.derived() ? InCauses::Lever::Measured : InCauses::Lever::Set;
}

bool isAfterCoating(Station station)
{
    return station == Station::Dry || station == Station::Expose || station == Station::Hold
        || station == Station::Rinse;
}

} // namespace

InCauses meaningOf(const Field& field)
{
    InCauses meaning = field.causes;
    if (meaning.lever == InCauses::Lever::Unknown)
        meaning.lever = ordinaryLever(field);
    meaning.within_sheet = canBeChosen(meaning) && (meaning.within_sheet || isAfterCoating(field.station));
    return meaning;
}

bool canBeChosen(const InCauses& meaning)
{
    return meaning.lever != InCauses::Lever::Weather;
}

bool isMeasuredOnly(const InCauses& meaning)
{
    return meaning.lever == InCauses::Lever::Measured;
}

} // namespace washfast::causes
