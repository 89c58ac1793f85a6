#include "core/trial/same_reading.h"

#include "core/quantity/fields.h"
#include "core/trial/preferred.h"

namespace washfast {

namespace {

bool mayBeSame(const QString& a, const QString& b)
{
    return a.isEmpty() || b.isEmpty() || a == b;
}

Rank rankOfReading(const ReadingThere& reading)
{
    return rankOf(fields::countedReading(), reading.density, [&](const QString& column) {
        return Known { Value(column == QLatin1String("reading_method") ? reading.kind.method : reading.kind.channel) };
    });
}

} // namespace

QString nothingToReadKey()
{
    return QStringLiteral("nothing");
}

std::vector<ReadingThere> readingsOf(const Notebook& notebook, qint64 print)
{
    std::vector<ReadingThere> all;
    const auto& table = notebook.table(Entity::Reading);
    for (const int row : notebook.children(Entity::Reading, print)) {
        const Ref ref { Entity::Reading, table.id(row) };
        all.push_back(readingThere(ref.id, [&](QStringView key) { return notebook.get(ref, key); }));
    }
    return all;
}

const ReadingThere* sameReading(const std::vector<ReadingThere>& there, const ReadingKind& kind)
{
    const ReadingThere* best = nullptr;
    bool exact = false;
    for (const auto& one : there) {
        const bool spot = one.kind.when == kind.when && one.kind.where == kind.where && one.kind.step == kind.step;
        const bool none = one.kind.method == nothingToReadKey();
        if (!spot || none != (kind.method == nothingToReadKey()) || !mayBeSame(one.kind.method, kind.method)
            || !mayBeSame(one.kind.channel, kind.channel))
            continue;
        const bool same = one.kind.method == kind.method && one.kind.channel == kind.channel;
        if (best && (same != exact ? exact : countsBefore(*best, one)))
            continue;
        best = &one;
        exact = same;
    }
    return best;
}

bool countsBefore(const ReadingThere& earlier, const ReadingThere& later)
{
    return rankOfReading(earlier) < rankOfReading(later);
}

QString sourceWords(const Catalogue& catalogue, const ReadingKind& kind)
{
    QStringList words;
    if (!kind.method.isEmpty())
        words << catalogue.columnField(Entity::Reading, u"reading_method").choiceLabel(kind.method);
    if (!kind.channel.isEmpty())
        words << catalogue.columnField(Entity::Reading, u"reading_channel").choiceLabel(kind.channel);
    return words.join(QStringLiteral(", "));
}

} // namespace washfast
