#include "core/causes/reasons.h"

#include "core/causes/evidence.h"
#include "core/causes/phrases.h"
#include "core/causes/published_signs.h"
#include "core/causes/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::causes {

namespace {

constexpr int most_codes = 6;
// More than a quarter of the prints the other way: something else is at work too (a working limit).
constexpr double much_unexplained = 0.25;

/// The table with every unknown value of the factor filled so that it speaks against it.
std::optional<double> pIfUnknownAgainst(
    const Prepared& prepared, std::size_t index, const FactorEvidence& evidence, const Options& options)
{
    if (!prepared.yesNo() || evidence.n_known == prepared.n())
        return std::nullopt;
    Prepared filled = prepared;
    Column& column = filled.columns[index];
    std::optional<int> bad_level, good_level;
    if (evidence.levels.size() == 2) {
        const auto share = [&](std::size_t l) {
            return static_cast<double>(evidence.levels[l].failed) / std::max(evidence.levels[l].n, 1);
        };
        bad_level = share(1) >= share(0) ? 1 : 0;
        good_level = 1 - *bad_level;
    } else if (!column.isNumber() || !evidence.median_failed || !evidence.median_kept) {
        return std::nullopt;
    }
    for (std::size_t row = 0; row < prepared.rows.size(); ++row) {
        if (column.knownAt(row))
            continue;
        const bool failed = prepared.failed[row] == 1;
        if (bad_level) {
            column.level[row] = failed ? *good_level : *bad_level;
            if (!column.isChoice())
                column.value[row] = column.level[row];
        } else {
            column.value[row] = failed ? *evidence.median_kept : *evidence.median_failed;
        }
    }
    column.n_known = prepared.n();
    Options quick = options;
    quick.firth = false;
    return evidenceFor(filled, index, quick).p_exact;
}

void addRivals(const std::vector<FactorEvidence>& evidence, const Judgement& judgement, Answer& answer)
{
    QStringList told_apart;
    for (const Rival& rival : judgement.first->rivals)
        if (rival.told_apart)
            told_apart.append(QStringLiteral("%1 (p %2)")
                                  .arg(quoted(evidence[rival.column]), spokenP(rival.p_held_equal.value_or(0.0))));
    if (!told_apart.isEmpty())
        answer.evidence_for.append(
            Words::tr("It still goes with the outcome when this is held equal: %1.").arg(someOf(told_apart, 4)));
}

void addUnknown(const Answer& answer, const FactorEvidence& lead, QStringList& against)
{
    for (const Missing& missing : answer.missing) {
        if (missing.name != lead.name)
            continue;
        const auto known = QString::number(missing.known), known_failed = QString::number(missing.known_failed);
        QString text;
        if (!answer.n_failed)
            text = Words::tr("It is not known for %n prints.", nullptr, missing.unknown);
        else if (missing.unknown_failed == 0)
            text = Words::tr("It is not known for %n prints, of which none failed (of the %1 with it, %2 did).",
                nullptr, missing.unknown)
                       .arg(known, known_failed);
        else
            text = Words::tr("It is not known for %n prints, of which %1 failed (of the %2 with it, %3 did).", nullptr,
                missing.unknown)
                       .arg(QString::number(missing.unknown_failed), known, known_failed);
        if (lead.p_if_unknown_against)
            text += QLatin1Char(' ')
                + Words::tr("Had all of those spoken against it, p would be %1.")
                      .arg(spokenP(*lead.p_if_unknown_against));
        against.append(text);
    }
}

void addSigns(const Answer& answer, QStringList& agree, QStringList& disagree)
{
    const auto add = [&](const std::optional<bool>& agrees, const QString& says) {
        auto& list = agrees.value_or(true) ? agree : disagree;
        if (agrees && !list.contains(says))
            list.append(says);
    };
    for (const SignMatch& sign : answer.signs) {
        add(sign.agrees, sign.says);
        add(sign.seen_agrees, sign.seen_says); // factors of a tangle may share a sign
    }
}

QString wouldShow(const SignMatch& sign, const QString& name)
{
    QStringList parts;
    if (!sign.before_rinse.isEmpty())
        parts.append(Words::tr("before the rinse: %1").arg(sign.before_rinse));
    if (!sign.in_rinse.isEmpty())
        parts.append(Words::tr("in the rinse: %1").arg(sign.in_rinse));
    if (!sign.day_after.isEmpty())
        parts.append(Words::tr("a day after: %1").arg(sign.day_after));
    return Words::tr("If it is %1 (%2), look for: %3. To tell: %4.")
        .arg(name, sign.title, parts.join(QStringLiteral("; ")), sign.test);
}

/// The rival that came closest, for a cause.
const Rival* closestRival(const Judgement& judgement)
{
    const Rival* closest = nullptr;
    for (const Rival& rival : judgement.first->rivals)
        if (closest == nullptr || rival.p_held_equal.value_or(1.0) > closest->p_held_equal.value_or(1.0))
            closest = &rival;
    return closest;
}

/// Signs on record that are published for a rival and not for what is named.
void addRivalSigns(const Prepared& prepared, const Judgement& judgement, Answer& answer)
{
    if (judgement.verdict != Verdict::Cause)
        return;
    QStringList keys;
    for (const SignMatch& own : answer.signs)
        keys.append(own.key);
    for (const Rival& rival : judgement.first->rivals) {
        const FactorEvidence& one = answer.factors[rival.column];
        const auto sign = matchSign(prepared, one, answer.tones);
        if (!sign || keys.contains(sign->key) || !sign->seen_agrees.value_or(false))
            continue;
        keys.append(sign->key);
        answer.evidence_against.append(
            sign->seen_says + QLatin1Char(' ') + Words::tr("That would be %1.").arg(quoted(one)));
    }
}

void sayWhatRivalsWouldShow(const Prepared& prepared, const Judgement& judgement, Answer& answer)
{
    QStringList said;
    QStringList keys;
    const auto add = [&](std::size_t column) {
        const FactorEvidence& one = answer.factors[column];
        const auto sign = matchSign(prepared, one, answer.tones);
        if (!sign || keys.contains(sign->key) || said.size() >= 3)
            return;
        keys.append(sign->key);
        said.append(wouldShow(*sign, quoted(one)));
    };
    if (judgement.verdict == Verdict::Tangle) {
        for (const std::size_t column : judgement.named)
            add(column);
    } else {
        for (const SignMatch& own : answer.signs)
            keys.append(own.key);
        if (const Rival* rival = closestRival(judgement))
            add(rival->column);
        if (said.isEmpty() && !answer.signs.empty()) {
            // No recorded rival: the common one that shows at the other side of the rinse.
            const auto* own = publishedSign(answer.signs.front().key);
            const auto* other = publishedSign(own != nullptr && own->at == MissingAt::Formation ? u"damp" : u"light");
            if (own != nullptr && other != nullptr && own != other)
                said.append(
                    Words::tr("Had it been %1 instead: %2, and %3 in the rinse.")
                        .arg(Words::tr(other->title), Words::tr(other->before_rinse), Words::tr(other->in_rinse)));
        }
    }
    answer.rival_would_show = said.join(QLatin1Char(' '));
}

} // namespace

void giveReasons(const Prepared& prepared, const Judgement& judgement, const Options& options, Answer& answer)
{
    if (judgement.verdict == Verdict::NotEnough || !judgement.first)
        return;
    for (const std::size_t column : judgement.named)
        if (auto sign = matchSign(prepared, answer.factors[column], answer.tones))
            answer.signs.push_back(*std::move(sign));
    FactorEvidence& lead = answer.factors[judgement.named.front()];
    lead.p_if_unknown_against = pIfUnknownAgainst(prepared, judgement.named.front(), lead, options);

    answer.evidence_for.append(shownBy(prepared, lead) + QLatin1Char('.'));
    if (judgement.verdict == Verdict::Cause && !answer.prints_for.isEmpty())
        answer.evidence_for.append(Words::tr("%1 of %n prints came out as it says.", nullptr,
            static_cast<int>(answer.prints_for.size() + answer.prints_against.size()))
                                       .arg(answer.prints_for.size()));
    addRivals(answer.factors, judgement, answer);
    if (!answer.prints_against.isEmpty())
        answer.evidence_against.append(
            Words::tr("These came out the other way: %1.").arg(someOf(answer.prints_against, most_codes)));
    const auto looked_at = answer.prints_for.size() + answer.prints_against.size();
    if (static_cast<double>(answer.prints_against.size()) > much_unexplained * static_cast<double>(looked_at))
        answer.why += QLatin1Char(' ')
            + Words::tr("It leaves %1 of %n prints unexplained, so something that was not recorded may be behind "
                        "both.",
                nullptr, static_cast<int>(looked_at))
                  .arg(answer.prints_against.size());
    addUnknown(answer, lead, answer.evidence_against);
    addSigns(answer, answer.evidence_for, answer.evidence_against);
    if (lead.n_batches > 0)
        answer.evidence_against.append(
            Words::tr(
                "It was the same within each %1: %2 of them were tried, not %n prints (p %3 with the %1 as unit).",
                nullptr, lead.n_known)
                .arg(lead.batch_label, QString::number(lead.n_batches), spokenP(*lead.p_batch)));
    if (judgement.verdict == Verdict::Cause)
        answer.evidence_against.append(
            Words::tr("These prints were not made to test it; what was not recorded may have changed with it."));
    addRivalSigns(prepared, judgement, answer);
    sayWhatRivalsWouldShow(prepared, judgement, answer);
}

} // namespace washfast::causes
