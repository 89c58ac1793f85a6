#include "core/store/readings.h"

namespace washfast::store {

Result<std::vector<ReadingThere>> readingsOf(Writer& writer, qint64 print)
{
    const auto ids = writer.children(Entity::Reading, print);
    if (!ids)
        return ids.error();
    std::vector<ReadingThere> all;
    for (const auto id : *ids) {
        const auto record = writer.read({ Entity::Reading, id });
        if (!record)
            return record.error();
        if (!*record)
            continue;
        all.push_back(readingThere(id, [&](QStringView key) {
            return (*record)->values[size_t(writer.catalogue().column(Entity::Reading, key))];
        }));
    }
    return all;
}

} // namespace washfast::store
