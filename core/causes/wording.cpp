#include "core/causes/wording.h"

#include <algorithm>
#include <cmath>

namespace washfast::causes {

namespace {

QString spokenNumber(double value)
{
    return QString::number(value, 'g', 3);
}

QString spoken(const FactorEvidence& evidence)
{
    return evidence.label.isEmpty() ? evidence.name : evidence.label;
}

QString listed(const QStringList& names)
{
    if (names.size() < 2)
        return names.join(QString());
    return names.mid(0, names.size() - 1).join(QStringLiteral(", ")) + QStringLiteral(" and ") + names.last();
}

QString prints(int count)
{
    return count == 1 ? QStringLiteral("1 print") : QStringLiteral("%1 prints").arg(count);
}

QString ofLevel(const FactorEvidence& evidence, const LevelCount& level)
{
    return QStringLiteral("%1 of %2 with %3 = %4").arg(level.failed).arg(level.n).arg(spoken(evidence), level.level);
}

/// What the prints show for one factor.
QString shown(const Prepared& prepared, const FactorEvidence& evidence)
{
    if (prepared.yesNo() && !evidence.levels.empty()) {
        std::vector<LevelCount> levels = evidence.levels;
        std::stable_sort(levels.begin(), levels.end(), [](const LevelCount& a, const LevelCount& b) {
            return a.failed * std::max(b.n, 1) > b.failed * std::max(a.n, 1);
        });
        QStringList parts;
        for (const LevelCount& level : levels)
            parts.append(ofLevel(evidence, level));
        if (parts.size() > 4)
            parts = parts.mid(0, 2) + parts.mid(parts.size() - 2);
        return QStringLiteral("Of the prints, %1 failed").arg(parts.join(QStringLiteral(", ")));
    }
    if (prepared.yesNo() && evidence.median_failed && evidence.median_kept)
        return QStringLiteral("%1 has a median of %2 in the prints that failed and %3 in those that kept")
            .arg(spoken(evidence), spokenNumber(*evidence.median_failed), spokenNumber(*evidence.median_kept));
    if (evidence.correlation)
        return QStringLiteral("%1 and %2 have a correlation of %3")
            .arg(spoken(evidence), prepared.table->outcome, QString::number(*evidence.correlation, 'f', 2));
    QStringList parts;
    for (const LevelCount& level : evidence.levels)
        if (level.median_outcome)
            parts.append(QStringLiteral("%1 with %2 = %3")
                             .arg(spokenNumber(*level.median_outcome), spoken(evidence), level.level));
    return QStringLiteral("The median %1 is %2").arg(prepared.table->outcome, parts.join(QStringLiteral(", ")));
}

QString withP(const Prepared& prepared, const FactorEvidence& evidence, int tested)
{
    QString text = shown(prepared, evidence)
        + QStringLiteral(" (%1 p %2")
              .arg(evidence.p_enumerated ? QStringLiteral("exact") : QStringLiteral("permutation"),
                  spokenP(*evidence.p_exact));
    if (tested > 1)
        text += QStringLiteral("; %1 after allowing for the %2 factors looked at")
                    .arg(spokenP(*evidence.p_adjusted))
                    .arg(tested);
    return text + QStringLiteral(").");
}

QString tie(const std::vector<FactorEvidence>& evidence, std::size_t candidate, const Rival& rival)
{
    const FactorEvidence& first = evidence[candidate];
    const FactorEvidence& second = evidence[rival.column];
    const QString both = spoken(first) + QStringLiteral(" and ") + spoken(second);
    if (rival.tie.disagree && *rival.tie.disagree == 0)
        return QStringLiteral("%1 changed together in all %2").arg(both, prints(rival.tie.n_both));
    if (rival.tie.disagree && rival.tie.cannot_be_told_apart)
        return QStringLiteral("%1 disagree in only %2 of %3")
            .arg(both, QString::number(*rival.tie.disagree), prints(rival.tie.n_both));
    if (rival.tie.cannot_be_told_apart)
        return QStringLiteral("%1 move exactly together").arg(both);
    if (rival.together_with)
        return QStringLiteral("%1 follows exactly from %2 together with %3")
            .arg(spoken(first), spoken(second), spoken(evidence[*rival.together_with]));
    return QStringLiteral("with %1 held equal, %2 stands out too little (p %3)")
        .arg(spoken(second), spoken(first), spokenP(rival.p_held_equal.value_or(1.0)));
}

QString capital(QString text)
{
    if (!text.isEmpty())
        text[0] = text[0].toUpper();
    return text;
}

QString causeText(
    const Prepared& prepared, const std::vector<FactorEvidence>& evidence, const Judgement& judgement, int tested)
{
    QStringList said;
    for (const std::size_t column : judgement.named)
        said.append(withP(prepared, evidence[column], tested));
    const Candidate& first = *judgement.first;
    const Rival* closest = nullptr;
    for (const Rival& rival : first.rivals)
        if (rival.p_held_equal && (closest == nullptr || *rival.p_held_equal > *closest->p_held_equal))
            closest = &rival;
    if (closest != nullptr)
        said.append(QStringLiteral("It still stands out with each rival held equal in turn; the closest is %1 (p %2).")
                        .arg(spoken(evidence[closest->column]), spokenP(*closest->p_held_equal)));
    else
        said.append(QStringLiteral("None of the other %1 recorded factors that varied moves with it or stands out.")
                        .arg(first.others));
    said.append(QStringLiteral("These prints were not made to test it: a pair made on purpose, with and without, "
                               "would settle it."));
    return said.join(QLatin1Char(' '));
}

QString tangleText(
    const Prepared& prepared, const std::vector<FactorEvidence>& evidence, const Judgement& judgement, int tested)
{
    const FactorEvidence& lead = evidence[judgement.first->column];
    QStringList said { withP(prepared, lead, tested) };
    QStringList ties, rivals;
    for (const Rival& rival : judgement.first->rivals)
        if (!rival.told_apart) {
            ties.append(tie(evidence, judgement.first->column, rival));
            rivals.append(spoken(evidence[rival.column]));
        }
    said.append(capital(ties.join(QStringLiteral("; "))) + QLatin1Char('.'));
    said.append(QStringLiteral("These prints cannot tell %1 from %2: make prints in which they differ.")
                    .arg(spoken(lead), listed(rivals)));
    return said.join(QLatin1Char(' '));
}

QString missingText(const MoreNeeded& more)
{
    if (!more.prints)
        return QStringLiteral("To show %1 would take more than 100 further prints: look for a stronger factor, or "
                              "make prints that differ in one thing only.")
            .arg(more.assumed);
    if (*more.prints == 0)
        return QStringLiteral("These prints would most likely have shown %1, so the cause, if there is one, may be "
                              "weaker or something that was not recorded.")
            .arg(more.assumed);
    return QStringLiteral("About %1 more would be needed to show %2.").arg(prints(*more.prints), more.assumed);
}

QString notEnoughText(const Prepared& prepared, const std::vector<FactorEvidence>& evidence, const Judgement& judgement,
    const MoreNeeded& more, int tested)
{
    if (prepared.n() == 0)
        return QStringLiteral("No print has %1 recorded, so there is nothing to compare.").arg(prepared.table->outcome);
    if (prepared.yesNo() && (prepared.nFailed() == 0 || prepared.nFailed() == prepared.n()))
        return QStringLiteral("All %1 %2, so there is nothing to compare them with.")
            .arg(prints(prepared.n()), prepared.nFailed() == 0 ? QStringLiteral("kept") : QStringLiteral("failed"));
    if (!judgement.lead)
        return QStringLiteral("No recorded factor varied between these %1, so none can be compared.")
            .arg(prints(prepared.n()));
    const FactorEvidence& lead = evidence[*judgement.lead];
    QStringList said;
    if (judgement.lone) {
        said.append(withP(prepared, evidence[judgement.first->column], tested));
        said.append(QStringLiteral("But nothing else that varied was recorded for these prints, so nothing else can be "
                                   "ruled out: record at least one other thing that may be the cause."));
        return said.join(QLatin1Char(' '));
    }
    if (judgement.too_few) {
        said.append(withP(prepared, lead, tested));
        const int side = smallerSide(prepared, lead, *judgement.lead);
        said.append(
            QStringLiteral("That rests on %1 on one side, and a cause needs at least %2 on each: about %3 more.")
                .arg(prints(side))
                .arg(fewest_on_a_side)
                .arg(fewest_on_a_side - side));
        return said.join(QLatin1Char(' '));
    }
    said.append(
        QStringLiteral("No factor stands out clearly enough from chance in these %1.").arg(prints(prepared.n())));
    said.append(QStringLiteral("The nearest: ") + withP(prepared, lead, tested));
    said.append(missingText(more));
    return said.join(QLatin1Char(' '));
}

} // namespace

QString spokenP(double p)
{
    if (p < 0.0001)
        return QStringLiteral("below 0.0001");
    return p >= 0.1 ? QString::number(p, 'f', 2) : QString::number(p, 'g', 2);
}

QString whySentences(const Prepared& prepared, const std::vector<FactorEvidence>& evidence, const Judgement& judgement,
    const MoreNeeded& more)
{
    const auto tested = static_cast<int>(std::count_if(
        evidence.begin(), evidence.end(), [](const FactorEvidence& one) { return one.p_exact.has_value(); }));
    switch (judgement.verdict) {
    case Verdict::Cause:
        return causeText(prepared, evidence, judgement, tested);
    case Verdict::Tangle:
        return tangleText(prepared, evidence, judgement, tested);
    case Verdict::NotEnough:
        break;
    }
    return notEnoughText(prepared, evidence, judgement, more, tested);
}

} // namespace washfast::causes
