// Writes a field of a print by its catalogue key, wherever it is kept: in the print's row, in a child row (which is
// added when it is missing), or by pointing the print at another record by its name. Forms and import go through here.
#pragma once

#include "core/store/writer.h"

namespace washfast::store {

/// Sets print field `key` of `print`. A linked record's name (mix_code, paper_name, cover_name ...) finds that record
/// or, with `make_missing`, makes it. Other fields of linked records are not written from here: error BadInput.
[[nodiscard]] Outcome setPrintField(Writer& writer, PrintId print, const QString& key, const Known& value,
    bool make_missing = false, const std::optional<Known>& expected = std::nullopt);

/// True when setPrintField can write it.
[[nodiscard]] bool isWritablePrintField(const Catalogue& catalogue, const Field& field);

} // namespace washfast::store
