#include "core/causes/published_signs.h"

#include "core/causes/phrases.h"
#include "core/causes/words.h"

#include <array>

namespace washfast::causes {

namespace {

using enum MissingAt;

// The associations of cause and sign are those that practitioners' texts and studies of washed cyanotypes publish (the
// project's science notes, section 2, list them with their sources); "hypothesis" marks what is a proposal only.
constexpr std::array<PublishedSign, 12> publishedTable { {
    { "light", QT_TRANSLATE_NOOP("Causes", "too little light"), Formation,
        QT_TRANSLATE_NOOP("Causes", "little change from yellow-green; the open border is pale too"),
        QT_TRANSLATE_NOOP("Causes", "the blue leaves evenly and the water turns green-blue"),
        QT_TRANSLATE_NOOP("Causes", "pale, and the bare border as pale as the picture"),
        QT_TRANSLATE_NOOP("Causes", "a stepped strip, or a second sheet beside it with twice the light"), "published",
        "" },
    { "cover", QT_TRANSLATE_NOOP("Causes", "light lost in the cover"), Formation,
        QT_TRANSLATE_NOOP("Causes", "little change from yellow-green"),
        QT_TRANSLATE_NOOP("Causes", "the blue leaves evenly and the water turns green-blue"),
        QT_TRANSLATE_NOOP("Causes", "pale, while open sheets of the same minute are good"),
        QT_TRANSLATE_NOOP("Causes", "one sheet, half under the cover and half bare"), "published", "" },
    { "damp", QT_TRANSLATE_NOOP("Causes", "still damp"), Either,
        QT_TRANSLATE_NOOP("Causes", "sticks to the film, shiny or dark patches, the film fogs inside"),
        QT_TRANSLATE_NOOP("Causes", "colour streams off at the first touch of water"),
        QT_TRANSLATE_NOOP("Causes", "blotchy or blank; the edges, which dried first, are better"),
        QT_TRANSLATE_NOOP("Causes", "weigh the sheet before and after; dry one half again"), "published",
        "pale_centre mottle" },
    { "damp_under_film", QT_TRANSLATE_NOOP("Causes", "damp under a film that does not breathe"), Either,
        QT_TRANSLATE_NOOP("Causes", "lines of condensation, a cockled sheet"), "",
        QT_TRANSLATE_NOOP("Causes", "stripes that follow the cockle or the film and not the brush"),
        QT_TRANSLATE_NOOP("Causes", "open the frame half-way, or dry first"), "hypothesis", "stripes" },
    { "skin", QT_TRANSLATE_NOOP("Causes", "a dried skin, or too thick a coat"), Rinse,
        QT_TRANSLATE_NOOP("Causes", "a deep tone with a bronze sheen"),
        QT_TRANSLATE_NOOP("Causes", "looked well, then pales in the first bath; blue flakes float"),
        QT_TRANSLATE_NOOP("Causes", "about half the density, powdery, stained back"),
        QT_TRANSLATE_NOOP("Causes", "cool-dry one half of the sheet; coat with less"), "published", "flakes" },
    { "sensitiser", QT_TRANSLATE_NOOP("Causes", "an old or wrongly made mix"), Formation,
        QT_TRANSLATE_NOOP("Causes", "the ground is greenish-blue in the bottle or on the coat"),
        QT_TRANSLATE_NOOP("Causes", "the fog does not clear"),
        QT_TRANSLATE_NOOP("Causes", "blue fog in the margins, poor whites, less contrast"),
        QT_TRANSLATE_NOOP("Causes", "rinse an unexposed coated strip: it must turn white"), "published", "fog" },
    { "rinse_long", QT_TRANSLATE_NOOP("Causes", "too long a rinse"), Rinse,
        QT_TRANSLATE_NOOP("Causes", "as in good prints"), QT_TRANSLATE_NOOP("Causes", "a slow, even loss"),
        QT_TRANSLATE_NOOP("Causes", "the light and middle tones went first, the deep ones stay"),
        QT_TRANSLATE_NOOP("Causes", "take one strip out every 5 min"), "published", "loss" },
    { "rinse_alkaline", QT_TRANSLATE_NOOP("Causes", "alkaline or hard water"), Rinse,
        QT_TRANSLATE_NOOP("Causes", "as in good prints"),
        QT_TRANSLATE_NOOP("Causes", "good after an acid bath, fading in the plain baths after it"),
        QT_TRANSLATE_NOOP("Causes", "fades again while it dries, yellow whites"),
        QT_TRANSLATE_NOOP("Causes", "last bath distilled or with 1 g/L citric acid; test the water's pH"), "published",
        "loss stain" },
    { "under_rinsed", QT_TRANSLATE_NOOP("Causes", "too short a rinse"), Elsewhere,
        QT_TRANSLATE_NOOP("Causes", "as in good prints"), QT_TRANSLATE_NOOP("Causes", "still yellow when taken out"),
        QT_TRANSLATE_NOOP("Causes", "a yellow stain in the whites that darkens in light"),
        QT_TRANSLATE_NOOP("Causes", "rinse again in an acid bath"), "published", "stain" },
    { "fog", QT_TRANSLATE_NOOP("Causes", "light or damp before the exposure"), Elsewhere,
        QT_TRANSLATE_NOOP("Causes", "the ground is blue-grey before the exposure"), "",
        QT_TRANSLATE_NOOP("Causes", "the whole print is veiled, the whites are not white"),
        QT_TRANSLATE_NOOP("Causes", "an unexposed strip through the same rinse"), "published", "fog" },
    { "coat", QT_TRANSLATE_NOOP("Causes", "an uneven coat"), Elsewhere,
        QT_TRANSLATE_NOOP("Causes", "streaks in the yellow coat"), "",
        QT_TRANSLATE_NOOP("Causes", "light and dark bands along the brush"),
        QT_TRANSLATE_NOOP("Causes", "a photo of the coated sheet before the exposure"), "published", "stripes" },
    { "overexposed", QT_TRANSLATE_NOOP("Causes", "too much light"), Elsewhere,
        QT_TRANSLATE_NOOP("Causes", "the shadows grey or bronze, the light parts tinted"), "",
        QT_TRANSLATE_NOOP("Causes", "the light parts blue, no white left"),
        QT_TRANSLATE_NOOP("Causes", "a shorter strip"), "published", "" },
} };

/// The level of a choice or of a yes/no that fails most.
QString worstLevel(const FactorEvidence& evidence, bool larger_is_worse)
{
    const LevelCount* worst = nullptr;
    for (const LevelCount& level : evidence.levels) {
        if (level.n == 0)
            continue;
        bool worse = worst == nullptr;
        if (!worse && level.median_outcome) {
            const double before = worst->median_outcome.value_or(0.0);
            worse = larger_is_worse ? *level.median_outcome > before : *level.median_outcome < before;
        } else if (!worse) {
            worse = level.failed * worst->n > worst->failed * level.n;
        }
        if (worse)
            worst = &level;
    }
    return worst == nullptr ? QString() : worst->level;
}

bool largerFails(const FactorEvidence& evidence, bool larger_is_worse)
{
    if (evidence.median_failed && evidence.median_kept)
        return *evidence.median_failed != *evidence.median_kept ? *evidence.median_failed > *evidence.median_kept
                                                                : evidence.difference.value_or(0.0) >= 0.0;
    if (evidence.correlation)
        return (*evidence.correlation > 0.0) == larger_is_worse;
    return worstLevel(evidence, larger_is_worse) != QLatin1String("no");
}

} // namespace

const PublishedSign* publishedSign(QStringView key)
{
    for (const PublishedSign& sign : publishedTable)
        if (key == QLatin1String(sign.key))
            return &sign;
    return nullptr;
}

const PublishedSign* publishedSignFor(
    const InCauses& meaning, Factor::Kind kind, bool larger_fails, const QString& failing_level)
{
    if (kind != Factor::Kind::Choice)
        return publishedSign(larger_fails ? meaning.sign_of_more : meaning.sign_of_less);
    for (const auto& [choice, sign] : meaning.sign_of_choice)
        if (failing_level.compare(choice, Qt::CaseInsensitive) == 0)
            return publishedSign(sign);
    // Of a choice nothing is more or less.
    return meaning.sign_of_more == meaning.sign_of_less ? publishedSign(meaning.sign_of_more) : nullptr;
}

namespace {

// Working limits of this program: fewer failed prints with signs on record say nothing for it, or against it.
constexpr int fewest_shown = 2;
constexpr int fewest_noted = 4;

/// Compares what is published with the signs that were noted.
void compareSeen(const Prepared& prepared, const PublishedSign& sign, SignMatch& match)
{
    const auto wanted = QString::fromLatin1(sign.seen).split(QLatin1Char(' '), Qt::SkipEmptyParts);
    const auto& signs = prepared.table->signs;
    if (wanted.isEmpty() || signs.empty())
        return;
    const auto bad = badPrints(prepared);
    QStringList shown;
    for (std::size_t i = 0; i < prepared.rows.size(); ++i) {
        const auto& of = signs[prepared.rows[i]];
        if (of.isEmpty())
            continue;
        bool hit = false;
        for (const QString& one : wanted)
            if (of.contains(one)) {
                hit = true;
                shown << one;
            }
        (bad[i] == 1 ? match.noted_failed : match.noted_kept) += 1;
        (bad[i] == 1 ? match.seen_failed : match.seen_kept) += hit ? 1 : 0;
    }
    const auto spoken = [&](QStringList keys) {
        keys.removeDuplicates();
        for (QString& one : keys)
            one = prepared.table->sign_labels.value(one, one);
        return eitherOf(keys);
    };
    const double share_failed = match.noted_failed > 0 ? double(match.seen_failed) / match.noted_failed : 0.0;
    const double share_kept = match.noted_kept > 0 ? double(match.seen_kept) / match.noted_kept : 0.0;
    if (match.seen_failed >= fewest_shown && share_failed >= 1.0 / 3.0 && share_failed > share_kept) {
        match.seen_agrees = true;
        match.seen_says = (prepared.yesNo()
                ? Words::tr("Recorded on %1 of the %n failed prints that have signs: %2, as is published for %3.",
                    nullptr, match.noted_failed)
                : Words::tr("Recorded on %1 of the %n worse prints that have signs: %2, as is published for %3.",
                    nullptr, match.noted_failed))
                              .arg(QString::number(match.seen_failed), spoken(shown), match.title);
    } else if (match.seen_failed == 0 && match.noted_failed >= fewest_noted) {
        match.seen_agrees = false;
        match.seen_says = (prepared.yesNo()
                ? Words::tr("None of the %n failed prints that have signs shows %1, which is published for %2.",
                    nullptr, match.noted_failed)
                : Words::tr("None of the %n worse prints that have signs shows %1, which is published for %2.", nullptr,
                    match.noted_failed))
                              .arg(spoken(wanted), match.title);
    }
}

} // namespace

std::optional<SignMatch> matchSign(const FactorTable& table, const FactorEvidence& evidence, const Tones& tones)
{
    const bool larger_is_worse = table.outcome_is_number && table.larger_is_worse;
    const PublishedSign* sign = publishedSignFor(
        evidence.meaning, evidence.kind, largerFails(evidence, larger_is_worse), worstLevel(evidence, larger_is_worse));
    if (sign == nullptr)
        return std::nullopt;
    const auto text = [](const char* words) { return *words ? Words::tr(words) : QString(); };
    SignMatch out { evidence.name, QString::fromLatin1(sign->key), text(sign->title), text(sign->before_rinse),
        text(sign->in_rinse), text(sign->day_after), text(sign->test), QString::fromLatin1(sign->evidence),
        std::nullopt, {} };
    if (sign->at != Formation && sign->at != Rinse)
        return out;
    const bool formation = sign->at == Formation;
    switch (tones.stage) {
    case Tones::Stage::Before:
        out.agrees = formation;
        break;
    case Tones::Stage::After:
        out.agrees = !formation;
        break;
    case Tones::Stage::Both:
        out.agrees = true;
        break;
    case Tones::Stage::Unknown:
    case Tones::Stage::Neither:
        return out;
    }
    const QString expected = formation ? Words::tr("%1 stands for %2, which shows before the rinse.")
                                       : Words::tr("%1 stands for %2, which shows after the rinse.");
    out.says = expected.arg(quoted(evidence), out.title) + QLatin1Char(' ')
        + (tones.stage == Tones::Stage::Before ? Words::tr("In these prints the blue is missing before the rinse.")
                : tones.stage == Tones::Stage::After ? Words::tr("In these prints the blue is missing after the rinse.")
                                                     : Words::tr("In these prints the blue is missing both before and "
                                                                 "after the rinse."));
    return out;
}

std::optional<SignMatch> matchSign(const Prepared& prepared, const FactorEvidence& evidence, const Tones& tones)
{
    auto match = matchSign(*prepared.table, evidence, tones);
    if (match)
        compareSeen(prepared, *publishedSign(match->key), *match);
    return match;
}

} // namespace washfast::causes
