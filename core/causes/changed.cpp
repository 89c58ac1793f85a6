#include "core/causes/changed.h"

#include "core/causes/phrases.h"
#include "core/causes/words.h"

#include <algorithm>

namespace washfast::causes {

namespace {

const FactorEvidence* find(const Answer& answer, const QString& name)
{
    const auto found = std::find_if(
        answer.factors.begin(), answer.factors.end(), [&](const FactorEvidence& one) { return one.name == name; });
    return found == answer.factors.end() ? nullptr : &*found;
}

QString inWords(const Answer& answer)
{
    QStringList names;
    for (const QString& name : answer.factors_named) {
        const FactorEvidence* one = find(answer, name);
        names.append(one == nullptr ? name : quoted(*one));
    }
    switch (answer.verdict) {
    case Verdict::Cause:
        return Words::tr("a cause, %1").arg(someOf(names, 4));
    case Verdict::Tangle:
        return Words::tr("a tangle of %1").arg(someOf(names, 4));
    case Verdict::NotEnough:
        break;
    }
    return Words::tr("not enough to say");
}

} // namespace

QString whatChanged(const Answer& before, const Answer& after)
{
    const int more = after.n - before.n;
    const QString with = more > 0 ? Words::tr("With %n more prints", nullptr, more)
        : more < 0                ? Words::tr("With %n fewer prints", nullptr, -more)
                                  : Words::tr("With as many prints");
    const bool same = before.verdict == after.verdict && before.factors_named == after.factors_named;
    QString said = same ? Words::tr("%1: the answer is the same, %2.").arg(with, inWords(after))
                        : Words::tr("%1: it was %2; now it is %3.").arg(with, inWords(before), inWords(after));
    const QString lead = after.factors_named.isEmpty() ? before.factors_named.value(0) : after.factors_named.front();
    const FactorEvidence* was = find(before, lead);
    const FactorEvidence* is = find(after, lead);
    if (was != nullptr && is != nullptr && was->p_adjusted && is->p_adjusted)
        said += QLatin1Char(' ')
            + Words::tr("For %1 the p, after allowing for all that was looked at, went from %2 to %3.")
                  .arg(quoted(*is), spokenP(*was->p_adjusted), spokenP(*is->p_adjusted));
    return said;
}

} // namespace washfast::causes
