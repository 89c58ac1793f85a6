#include "core/causes/tones.h"

#include "core/causes/phrases.h"
#include "core/causes/words.h"
#include "core/stats/ranks.h"

#include <cmath>

namespace washfast::causes {

namespace {

// Working limits of this program, not published: fewer tones than this on a side say nothing; a median formed density
// below this share of the good prints' counts as missing before the rinse; a share kept that is lower by this much
// counts as lost in it.
constexpr std::size_t fewest_tones = 3;
constexpr double formed_little = 0.8;
constexpr double kept_little = 0.15;

struct Sides {
    std::vector<double> bad, good;
};

Sides sidesOf(const Prepared& prepared, const std::vector<std::optional<double>>& tones, const std::vector<int>& bad)
{
    Sides out;
    for (std::size_t i = 0; i < prepared.rows.size(); ++i) {
        const std::size_t row = prepared.rows[i];
        if (row < tones.size() && tones[row] && std::isfinite(*tones[row]))
            (bad[i] == 1 ? out.bad : out.good).push_back(*tones[row]);
    }
    return out;
}

QString missingText(bool formed, bool kept, bool yes_no)
{
    const QString whose = yes_no ? Words::tr("in both the prints that failed and those that kept")
                                 : Words::tr("in both the worse and the better prints");
    if (!formed && !kept)
        return Words::tr("Neither tone was read %1, so these prints cannot say whether the blue never formed or "
                         "was lost in the rinse.")
            .arg(whose);
    if (!formed)
        return Words::tr("The tone before the rinse was not read often enough %1, so whether the blue never "
                         "formed or was lost in the rinse cannot be answered.")
            .arg(whose);
    return Words::tr("The tone a day after was not read often enough %1, so what the rinse took cannot be "
                     "answered.")
        .arg(whose);
}

} // namespace

Tones compareTones(const Prepared& prepared)
{
    Tones out;
    const FactorTable& table = *prepared.table;
    if ((table.formed.empty() && table.kept.empty()) || prepared.n() == 0)
        return out;
    const std::vector<int> bad = badPrints(prepared);
    const Sides formed = sidesOf(prepared, table.formed, bad);
    const Sides kept = sidesOf(prepared, table.kept, bad);
    out.n_formed_failed = static_cast<int>(formed.bad.size());
    out.n_formed_kept = static_cast<int>(formed.good.size());
    out.n_kept_failed = static_cast<int>(kept.bad.size());
    out.n_kept_kept = static_cast<int>(kept.good.size());
    out.formed_failed = stats::median(formed.bad);
    out.formed_kept = stats::median(formed.good);
    out.share_failed = stats::median(kept.bad);
    out.share_kept = stats::median(kept.good);
    const bool formed_known = formed.bad.size() >= fewest_tones && formed.good.size() >= fewest_tones;
    const bool kept_known = kept.bad.size() >= fewest_tones && kept.good.size() >= fewest_tones;
    if (!formed_known || !kept_known) {
        out.says = missingText(formed_known, kept_known, prepared.yesNo());
        return out;
    }
    const bool before = *out.formed_failed < formed_little * *out.formed_kept;
    const bool after = *out.share_failed < *out.share_kept - kept_little;
    using enum Tones::Stage;
    out.stage = before ? (after ? Both : Before) : (after ? After : Neither);
    const auto number = [](double value) { return QString::number(value, 'f', 2); };
    const QString what = out.stage == Before
        ? Words::tr("So the blue was missing before the rinse (light, mix, or wetness in the light), not lost in it.")
        : out.stage == After
        ? Words::tr("So the blue had formed and was lost in the rinse (damp, a skin, too thick a coat, the water).")
        : out.stage == Both ? Words::tr("So blue was missing before the rinse and more was lost in it.")
                            : Words::tr("So neither tone differs enough to say where the blue went.");
    const QString figures = prepared.yesNo()
        ? Words::tr("The two tones: the prints that failed formed %1 against %2 and kept %3 of it against %4.")
        : Words::tr("The two tones: the worse half formed %1 against %2 and kept %3 of it against %4.");
    out.says = figures.arg(number(*out.formed_failed), number(*out.formed_kept), number(*out.share_failed),
                   number(*out.share_kept))
        + QLatin1Char(' ') + what;
    return out;
}

} // namespace washfast::causes
