#include "core/causes/phrases.h"

#include "core/causes/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::causes {

namespace {

QString inQuotes(const QString& text)
{
    return QStringLiteral("“%1”").arg(text);
}

QString spokenNumber(double value)
{
    return QString::number(value, 'g', std::fabs(value) >= 1'000.0 ? 5 : 3);
}

QString levelsAgainstFailing(const FactorEvidence& evidence)
{
    std::vector<LevelCount> levels = evidence.levels;
    std::stable_sort(levels.begin(), levels.end(), [](const LevelCount& a, const LevelCount& b) {
        return a.failed * std::max(b.n, 1) > b.failed * std::max(a.n, 1);
    });
    if (levels.size() > 4)
        levels.erase(levels.begin() + 2, levels.end() - 2);
    QStringList parts;
    for (const LevelCount& level : levels)
        parts.append((parts.isEmpty() ? Words::tr("%1 of %2 failed with %3") : Words::tr("%1 of %2 with %3"))
                         .arg(QString::number(level.failed), QString::number(level.n), level.label));
    return parts.join(QStringLiteral(", "));
}

} // namespace

QString quoted(const Factor& factor)
{
    return inQuotes(factor.spoken());
}

QString quoted(const FactorEvidence& evidence)
{
    return inQuotes(evidence.label.isEmpty() ? evidence.name : evidence.label);
}

QString withUnit(double value, const QString& unit)
{
    return unit.isEmpty() ? spokenNumber(value) : spokenNumber(value) + QLatin1Char(' ') + unit;
}

QString levelLabel(const Factor& factor, const QString& level)
{
    if (factor.kind == Factor::Kind::YesNo)
        return level == QLatin1String("yes") ? Words::tr("yes") : Words::tr("no");
    if (factor.kind == Factor::Kind::Number)
        return factor.unit.isEmpty() ? level : level + QLatin1Char(' ') + factor.unit;
    return factor.level_labels.value(level, level);
}

QString listed(const QStringList& names)
{
    if (names.size() < 2)
        return names.value(0);
    return Words::tr("%1 and %2").arg(names.mid(0, names.size() - 1).join(QStringLiteral(", ")), names.last());
}

QString someOf(const QStringList& names, int most)
{
    if (names.size() <= most)
        return listed(names);
    return Words::tr("%1 and %n more", nullptr, int(names.size()) - most)
        .arg(names.mid(0, most).join(QStringLiteral(", ")));
}

QString eitherOf(const QStringList& names)
{
    if (names.size() < 2)
        return names.value(0);
    return Words::tr("%1 or %2").arg(names.mid(0, names.size() - 1).join(QStringLiteral(", ")), names.last());
}

QString printsCount(int count)
{
    return Words::tr("%n prints", nullptr, count);
}

QString spokenOutcome(const FactorTable& table)
{
    return inQuotes(table.outcome_label.isEmpty() ? table.outcome : table.outcome_label);
}

QString capital(QString text)
{
    if (!text.isEmpty())
        text[0] = text[0].toUpper();
    return text;
}

QString spokenP(double p)
{
    if (p < 0.0001)
        return Words::tr("below 0.0001");
    return p >= 0.1 ? QString::number(p, 'f', 2) : QString::number(p, 'g', 2);
}

QString methodLabel(const QString& method)
{
    if (method == QLatin1String("fisher"))
        return Words::tr("Fisher's exact test");
    if (method == QLatin1String("freeman_halton"))
        return Words::tr("exact test of a table with several rows (Freeman and Halton)");
    if (method == QLatin1String("stratified_exact"))
        return Words::tr("exact test within blocks");
    if (method == QLatin1String("permutation"))
        return Words::tr("permutation test");
    return method;
}

QString shownBy(const Prepared& prepared, const FactorEvidence& evidence)
{
    const QString name = quoted(evidence);
    if (prepared.yesNo() && !evidence.levels.empty())
        return Words::tr("%1: %2").arg(name, levelsAgainstFailing(evidence));
    if (prepared.yesNo() && evidence.median_failed && evidence.median_kept)
        return Words::tr("%1: median %2 in the prints that failed, %3 in those that kept")
            .arg(
                name, withUnit(*evidence.median_failed, evidence.unit), withUnit(*evidence.median_kept, evidence.unit));
    const QString outcome = spokenOutcome(*prepared.table);
    if (evidence.correlation)
        return Words::tr("%1 and %2 have a correlation of %3")
            .arg(name, outcome, QString::number(*evidence.correlation, 'f', 2));
    QStringList parts;
    for (const LevelCount& level : evidence.levels)
        if (level.median_outcome)
            parts.append(Words::tr("%1 with %2")
                             .arg(withUnit(*level.median_outcome, prepared.table->outcome_unit), level.label));
    return Words::tr("%1: the median of %2 is %3").arg(name, outcome, listed(parts));
}

} // namespace washfast::causes
