#include "core/causes/wording.h"

#include "core/causes/phrases.h"
#include "core/causes/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::causes {

namespace {

QString withP(const Prepared& prepared, const FactorEvidence& evidence, int tested)
{
    const QString shown = shownBy(prepared, evidence);
    const QString p = spokenP(*evidence.p_exact);
    if (tested <= 1)
        return (evidence.p_enumerated ? Words::tr("%1 (exact p %2).") : Words::tr("%1 (permutation p %2)."))
            .arg(shown, p);
    return (evidence.p_enumerated
            ? Words::tr("%1 (exact p %2; %3 after allowing for the %n factors looked at).", nullptr, tested)
            : Words::tr("%1 (permutation p %2; %3 after allowing for the %n factors looked at).", nullptr, tested))
        .arg(shown, p, spokenP(*evidence.p_adjusted));
}

/// What ties the candidate to each rival that was not told apart, like with like.
class Ties {
public:
    Ties(const std::vector<FactorEvidence>& evidence, const Candidate& first)
        : evidence_(evidence)
        , name_(quoted(evidence[first.column]))
    {
        for (const Rival& rival : first.rivals)
            if (!rival.told_apart && !rival.by_several)
                sort(rival);
    }

    [[nodiscard]] QStringList sentences() const
    {
        QStringList said;
        if (!same_.isEmpty())
            said.append(Words::tr("%1 changed together in all %n prints", nullptr, least_both_)
                            .arg(someOf(QStringList { name_ } + same_, most)));
        if (disagree_.size() == 1)
            said.append(Words::tr("%1 and %2 disagree in only %3 of %n prints", nullptr, both_)
                            .arg(name_, disagree_[0], QString::number(most_disagree_)));
        else if (!disagree_.isEmpty())
            said.append(Words::tr("%1 disagrees with each of %2 in %n prints at the most", nullptr, most_disagree_)
                            .arg(name_, someOf(disagree_, most)));
        if (!exactly_.isEmpty())
            said.append(Words::tr("%1 move exactly together").arg(someOf(QStringList { name_ } + exactly_, most)));
        said += follows_;
        if (!held_.isEmpty())
            said.append((held_.size() > 1 ? Words::tr("with one of %1 held equal, %2 stands out too little (p %3)")
                                          : Words::tr("with %1 held equal, %2 stands out too little (p %3)"))
                            .arg(someOf(held_, most), name_, spokenP(smallest_p_)));
        return said;
    }

private:
    void sort(const Rival& rival)
    {
        const QString other = quoted(evidence_[rival.column]);
        if (rival.tie.disagree && *rival.tie.disagree == 0) {
            least_both_ = same_.isEmpty() ? rival.tie.n_both : std::min(least_both_, rival.tie.n_both);
            same_.append(other);
        } else if (rival.tie.disagree && rival.tie.cannot_be_told_apart) {
            most_disagree_ = std::max(most_disagree_, *rival.tie.disagree);
            both_ = rival.tie.n_both;
            disagree_.append(other);
        } else if (rival.tie.cannot_be_told_apart) {
            exactly_.append(other);
        } else if (rival.together_with) {
            if (rival.column < *rival.together_with)
                follows_.append(Words::tr("%1 follows exactly from %2 together with %3")
                                    .arg(name_, other, quoted(evidence_[*rival.together_with])));
        } else {
            smallest_p_ = std::min(smallest_p_, rival.p_held_equal.value_or(1.0));
            held_.append(other);
        }
    }

    static constexpr int most = 5;
    const std::vector<FactorEvidence>& evidence_;
    QString name_;
    QStringList same_, disagree_, exactly_, follows_, held_;
    int least_both_ = 0, most_disagree_ = 0, both_ = 0;
    double smallest_p_ = 1.0;
};

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
        said.append(Words::tr("It still stands out with each rival held equal in turn; the closest is %1 (p %2).")
                        .arg(quoted(evidence[closest->column]), spokenP(*closest->p_held_equal)));
    else
        said.append(Words::tr(
            "None of the other %n recorded factors that varied moves with it or stands out.", nullptr, first.others));
    said.append(Words::tr("These prints were not made to test it: a pair made on purpose, with and without, "
                          "would settle it."));
    return said.join(QLatin1Char(' '));
}

QString tangleText(
    const Prepared& prepared, const std::vector<FactorEvidence>& evidence, const Judgement& judgement, int tested)
{
    const FactorEvidence& lead = evidence[judgement.first->column];
    QStringList said { withP(prepared, lead, tested) };
    QStringList ties, rivals;
    if (judgement.first->batch_is_unit)
        said.append(Words::tr("It never changed within a %1, so the %1 and not the sheet is the unit: with %2 of "
                              "them (p %3) it cannot be told from whatever else differed between them.")
                        .arg(lead.batch_label)
                        .arg(lead.n_batches)
                        .arg(spokenP(*lead.p_batch)));
    if (!judgement.first->follows_with.isEmpty())
        ties.append(Words::tr("each of %1 follows exactly from the others together")
                        .arg(listed(judgement.first->follows_with)));
    for (const Rival& rival : judgement.first->rivals)
        if (!rival.told_apart) {
            rivals.append(quoted(evidence[rival.column]));
        }
    ties += Ties(evidence, *judgement.first).sentences();
    if (!ties.isEmpty())
        said.append(capital(ties.join(QStringLiteral("; "))) + QLatin1Char('.'));
    if (!rivals.isEmpty())
        said.append(Words::tr("These prints cannot tell %1 from %2: make prints in which they differ.")
                        .arg(quoted(lead), someOf(rivals, 5)));
    return said.join(QLatin1Char(' '));
}

QString missingText(const MoreNeeded& more)
{
    if (!more.prints)
        return Words::tr("To show %1 would take more than 100 further prints: look for a stronger factor, or "
                         "make prints that differ in one thing only.")
            .arg(more.assumed);
    if (*more.prints == 0)
        return Words::tr("These prints would most likely have shown %1, so the cause, if there is one, may be "
                         "weaker or something that was not recorded.")
            .arg(more.assumed);
    return Words::tr("About %n more prints would be needed to show %1.", nullptr, *more.prints).arg(more.assumed);
}

QString notEnoughText(const Prepared& prepared, const std::vector<FactorEvidence>& evidence, const Judgement& judgement,
    const MoreNeeded& more, int tested)
{
    if (prepared.n() == 0)
        return Words::tr("No print has %1 recorded, so there is nothing to compare.")
            .arg(spokenOutcome(*prepared.table));
    if (prepared.yesNo() && (prepared.nFailed() == 0 || prepared.nFailed() == prepared.n()))
        return prepared.nFailed() == 0
            ? Words::tr("All %n prints kept, so there is nothing to compare them with.", nullptr, prepared.n())
            : Words::tr("All %n prints failed, so there is nothing to compare them with.", nullptr, prepared.n());
    if (!judgement.lead)
        return Words::tr(
            "No recorded factor varied between these %n prints, so none can be compared.", nullptr, prepared.n());
    const FactorEvidence& lead = evidence[*judgement.lead];
    QStringList said;
    if (judgement.lone) {
        said.append(withP(prepared, evidence[judgement.first->column], tested));
        said.append(Words::tr("But nothing else that varied was recorded for these prints, so nothing else can be "
                              "ruled out: record at least one other thing that may be the cause."));
        return said.join(QLatin1Char(' '));
    }
    if (judgement.too_few) {
        said.append(withP(prepared, lead, tested));
        const int side = smallerSide(prepared, lead, *judgement.lead);
        said.append(Words::tr("That rests on %n prints on one side, and a cause needs at least %1 on each: about %2 "
                              "more.",
            nullptr, side)
                        .arg(fewest_on_a_side)
                        .arg(fewest_on_a_side - side));
        return said.join(QLatin1Char(' '));
    }
    said.append(
        Words::tr("No factor stands out clearly enough from chance in these %n prints.", nullptr, prepared.n()));
    said.append(Words::tr("The nearest: %1").arg(withP(prepared, lead, tested)));
    said.append(missingText(more));
    return said.join(QLatin1Char(' '));
}

} // namespace

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
