// Which reading of a print a new one would replace. A reading is told apart by the state of the print, the spot, the
// step, how it was read and in which channel; what is not said may be either. Readings by another instrument or in
// another channel stand side by side.
#pragma once

#include "core/trial/notebook.h"

namespace washfast {

struct ReadingKind {
    QString when, where; // keys of reading_when and reading_where
    QString method, channel; // keys, or empty when they are not said
    std::optional<double> step {}; // of a wedge or strip
};

struct ReadingThere {
    qint64 id = 0;
    ReadingKind kind;
    Known density;
    qint64 photo = 0; // it was read from this one; 0 for none
};

/// The key of reading_method that says that the spot was looked at and there is nothing to read.
[[nodiscard]] QString nothingToReadKey();

/// From a row, whose columns `get` gives by their keys.
template <typename Get> [[nodiscard]] ReadingThere readingThere(qint64 id, Get get)
{
    const auto text = [&](QStringView key) { return Known(get(key)).text().value_or(QString()); };
    return { id,
        { text(u"reading_when"), text(u"reading_where"), text(u"reading_method"), text(u"reading_channel"),
            Known(get(u"reading_step")).number() },
        get(u"reading_density"), Known(get(u"reading_photo")).link().value_or(0) };
}

/// All readings of a print, in the order of their ids.
[[nodiscard]] std::vector<ReadingThere> readingsOf(const Notebook& notebook, qint64 print);
/// The reading that one of this kind would replace; the one that counts when several may be meant. nullptr for none.
[[nodiscard]] const ReadingThere* sameReading(const std::vector<ReadingThere>& there, const ReadingKind& kind);
/// Of two readings of one spot, whether the earlier counts and not the later.
[[nodiscard]] bool countsBefore(const ReadingThere& earlier, const ReadingThere& later);
/// "scan, red": how and in which channel it was read; empty when neither is recorded.
[[nodiscard]] QString sourceWords(const Catalogue& catalogue, const ReadingKind& kind);

} // namespace washfast
