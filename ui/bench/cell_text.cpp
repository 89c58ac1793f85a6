// What a cell says, in words; counted sheets, in words.
#include "core/quantity/value_text.h"
#include "ui/bench/cell_state.h"
#include "ui/bench/words.h"

#include <algorithm>
#include <cmath>

namespace washfast::ui {

namespace {

constexpr double shortMinutes = 10; // below this a duration shows tenths
constexpr double longMinutes = 100; // from this it shows hours

QString durationText(double minutes, const QLocale& locale)
{
    if (minutes < shortMinutes)
        return BenchWords::tr("%1 min").arg(locale.toString(minutes, 'f', 1));
    const auto whole = qint64(std::llround(minutes));
    if (minutes < longMinutes)
        return BenchWords::tr("%1 min").arg(locale.toString(whole));
    return BenchWords::tr("%1 h %2 min").arg(locale.toString(whole / 60), locale.toString(whole % 60));
}

/// Minutes to come: no tenths, a little too long rather than too short.
QString comingText(double minutes, const QLocale& locale)
{
    const auto whole = qint64(std::ceil(minutes));
    return double(whole) < longMinutes ? BenchWords::tr("%1 min").arg(locale.toString(whole))
                                       : durationText(minutes, locale);
}

QString timeOfDay(const Instant& time, const QLocale& locale)
{
    return locale.toString(time.toDateTime().time(), QLocale::ShortFormat);
}

const Field* figureField(const CellState& state, const Catalogue& catalogue)
{
    if (!state.figure.has())
        return nullptr;
    if (state.figure_key == QLatin1String("touch_state"))
        return &catalogue.columnField(Entity::Touch, state.figure_key);
    return catalogue.findPrintField(state.figure_key);
}

/// More water left than a sheet should have that goes on.
bool isDamp(const CellState& state)
{
    return state.figure.number().value_or(0) > drying::Assumptions().damp_pct;
}

/// "≈ 4 min": how long it has to go on; empty when that is not known or over.
QString shortLeft(const CellState& state, const QLocale& locale)
{
    if (!state.left_min || !std::isfinite(state.left_min->likely) || state.left_min->likely < 0.5)
        return {};
    return QStringLiteral("≈ ") + comingText(state.left_min->likely, locale);
}

/// The words around a figure that is not clear from its unit.
QString around(const QString& key, const QString& figure)
{
    if (key == QLatin1String("kept"))
        return BenchWords::tr("kept %1").arg(figure);
    if (key == QLatin1String("net_density"))
        return BenchWords::tr("net %1").arg(figure);
    if (key == QLatin1String("formed"))
        return BenchWords::tr("formed %1").arg(figure);
    if (key == QLatin1String("density_before_rinse_deepest"))
        return BenchWords::tr("before %1").arg(figure);
    if (key == QLatin1String("density_day_after_deepest"))
        return BenchWords::tr("after %1").arg(figure);
    if (key == QLatin1String("density_coated_deepest"))
        return BenchWords::tr("coated %1").arg(figure);
    return figure;
}

} // namespace

QString clockText(double minutes)
{
    const auto seconds = qint64(std::floor(std::max(0.0, minutes) * 60.0 + 1e-6));
    const auto two = [](qint64 n) { return QStringLiteral("%1").arg(n, 2, 10, QLatin1Char('0')); };
    if (seconds < 3600)
        return two(seconds / 60) + QLatin1Char(':') + two(seconds % 60);
    return QString::number(seconds / 3600) + QLatin1Char(':') + two(seconds / 60 % 60) + QLatin1Char(':')
        + two(seconds % 60);
}

QString stateText(const CellState& state, const QLocale& locale)
{
    if (state.contradicts)
        return BenchWords::tr("times?");
    switch (state.stage) {
    case Stage::Waiting:
        return BenchWords::tr("waiting");
    case Stage::Running:
        return clockText(state.minutes.value_or(0.0));
    case Stage::Done:
        if (state.failed)
            return BenchWords::tr("failed");
        if (state.end_missing)
            return BenchWords::tr("end?");
        return state.minutes ? durationText(*state.minutes, locale) : BenchWords::tr("done");
    case Stage::Begun:
        return state.due            ? BenchWords::tr("due")
            : state.waits_day_after ? BenchWords::tr("next day")
                                    : BenchWords::tr("begun");
    case Stage::Passed:
        return QStringLiteral("–");
    }
    return {};
}

QString leftText(const CellState& state, const QLocale& locale)
{
    if (!state.left_min)
        return {};
    const auto& left = *state.left_min;
    if (!std::isfinite(left.likely))
        return state.figure_key == QLatin1String("dose_j_cm2") ? BenchWords::tr("not reached today")
                                                               : BenchWords::tr("not drying");
    if (left.likely < 0.5)
        return {};
    const auto minutes = [&](double m) { return comingText(m, locale); };
    return state.figure_key == QLatin1String("dose_j_cm2")
        ? BenchWords::tr("about %1 left").arg(minutes(left.likely))
        : BenchWords::tr("dry in about %1").arg(minutes(left.likely));
}

QStringList figureTexts(const CellState& state, const Catalogue& catalogue, const QLocale& locale)
{
    const auto* field = figureField(state, catalogue);
    if (!field)
        return {};
    const auto text = displayText(*field, state.figure, locale);
    const auto unit = field->unit.isEmpty() ? QString() : QLatin1Char(' ') + field->unit;
    if (state.stage == Stage::Running && state.goal && state.goal_share) {
        const auto share = BenchWords::tr("%1 %").arg(locale.toString(std::round(*state.goal_share * 100.0), 'f', 0));
        if (*state.goal_share >= 1.0)
            return { BenchWords::tr("reached, %1").arg(text + unit), BenchWords::tr("reached"), share };
        const auto of = BenchWords::tr("%1 / %2").arg(text, locale.toString(*state.goal, 'f', field->decimals));
        if (const auto left = leftText(state, locale); !left.isEmpty())
            return { of + unit + QStringLiteral(", ") + left, left, shortLeft(state, locale), share };
        return { of + unit, of, share };
    }
    if (state.stage == Stage::Running && state.left_min) {
        const auto left = leftText(state, locale);
        QStringList texts;
        if (!left.isEmpty())
            texts << text + unit + QStringLiteral(", ") + left;
        if (const auto brief = shortLeft(state, locale); !brief.isEmpty())
            texts << text + unit + QLatin1Char(' ') + brief
                  << text + unit + QStringLiteral(", ") + comingText(state.left_min->likely, locale);
        return texts << text + unit;
    }
    if (field->entity == Entity::Touch) { // the digit that sets it
        const auto digit = QString::number(field->choiceIndex(state.figure.text().value_or(QString())) + 1);
        return { text, BenchWords::tr("touch %1").arg(digit),
            BenchWords::tr("%1/%2").arg(digit, QString::number(field->choices.size())) };
    }
    if (state.figure_key == QLatin1String("moisture_at_expose_pct") && isDamp(state))
        return { BenchWords::tr("damp, %1").arg(text + unit), text + unit };
    const auto whole = around(state.figure_key, text + unit);
    const auto bare = around(state.figure_key, text);
    return unit.isEmpty() ? QStringList { whole } : QStringList { whole, bare };
}

QString stateSentence(const CellState& state, Station station, const Catalogue& catalogue, const QLocale& locale)
{
    QStringList parts;
    switch (state.stage) {
    case Stage::Waiting:
        parts << BenchWords::tr("waiting");
        break;
    case Stage::Running:
        parts << BenchWords::tr("running since %1, %2 so far")
                     .arg(timeOfDay(state.since.value_or(Instant {}), locale), clockText(state.minutes.value_or(0.0)));
        break;
    case Stage::Begun:
        parts << (state.due             ? BenchWords::tr("the reading a day after is due")
                : state.waits_day_after ? BenchWords::tr("waiting for the reading a day after")
                                        : BenchWords::tr("begun"));
        break;
    case Stage::Passed:
        parts << BenchWords::tr("not logged");
        break;
    case Stage::Done:
        if (state.since && state.until)
            parts << BenchWords::tr("done, from %1 to %2")
                         .arg(timeOfDay(*state.since, locale), timeOfDay(*state.until, locale));
        else
            parts << BenchWords::tr("done");
        if (state.minutes)
            parts << durationText(*state.minutes, locale);
        break;
    }
    if (state.end_missing)
        parts << BenchWords::tr("its end was not noted: it can be entered in the form");
    if (state.contradicts)
        parts << BenchWords::tr("it ends before it begins: put the times right in the form");
    if (station == Station::Expose && state.count > 1)
        parts << BenchWords::tr("%n exposures", nullptr, state.count);
    if (station == Station::Rinse && state.count > 0)
        parts << BenchWords::tr("%n baths", nullptr, state.count);
    if (station == Station::Read && state.count > 0)
        parts << BenchWords::tr("%n readings", nullptr, state.count);
    if (state.failed)
        parts << BenchWords::tr("failed");
    if (const auto* field = figureField(state, catalogue)) {
        const auto unit = field->unit.isEmpty() ? QString() : QLatin1Char(' ') + field->unit;
        parts << field->label + QLatin1Char(' ') + displayText(*field, state.figure, locale) + unit;
        if (state.goal_share)
            parts << BenchWords::tr("%1 % of the dose wanted")
                         .arg(locale.toString(std::round(*state.goal_share * 100.0), 'f', 0));
        if (const auto left = leftText(state, locale); !left.isEmpty()) {
            parts << left;
            const auto end = [&](double m) {
                return std::isfinite(m) ? comingText(m, locale) : BenchWords::tr("no end in sight");
            };
            if (std::isfinite(state.left_min->likely))
                parts << BenchWords::tr("between %1 and %2").arg(end(state.left_min->low), end(state.left_min->high));
        }
    }
    return stationLabel(station) + QStringLiteral(": ") + parts.join(QStringLiteral(", "));
}

BenchCounts countSheets(const std::vector<SheetStates>& sheets)
{
    BenchCounts counts;
    for (const auto& states : sheets) {
        ++counts.all;
        const bool begun = std::any_of(states.begin(), states.end(),
            [](const CellState& s) { return s.stage == Stage::Running || s.stage == Stage::Done; });
        if (const auto at = runningAt(states)) {
            ++counts.running[size_t(*at) - size_t(Station::Coat)];
            continue;
        }
        const auto next = std::find_if(states.begin(), states.end(), [](const CellState& s) { return s.next; });
        const auto& read = stateAt(states, Station::Read);
        if (read.stage == Stage::Done)
            ++counts.finished;
        else if (read.waits_day_after)
            ++(read.due ? counts.due : counts.day_after);
        else if (!begun)
            ++counts.not_begun;
        else if (next != states.end())
            ++counts.waiting[size_t(next - states.begin())];
        else
            ++counts.finished;
    }
    return counts;
}

QString countsText(const BenchCounts& counts)
{
    QStringList parts;
    if (counts.not_begun > 0)
        parts << BenchWords::tr("%n not begun", nullptr, counts.not_begun);
    for (const auto station : printStations)
        if (const int n = counts.running[size_t(station) - size_t(Station::Coat)]; n > 0)
            parts << BenchWords::tr("%1 at %2").arg(QString::number(n), stationLabel(station));
    for (const auto station : printStations)
        if (const int n = counts.waiting[size_t(station) - size_t(Station::Coat)]; n > 0)
            parts << BenchWords::tr("%1 waiting for %2").arg(QString::number(n), stationLabel(station));
    if (counts.day_after > 0)
        parts << BenchWords::tr("%n waiting for the day after", nullptr, counts.day_after);
    if (counts.due > 0)
        parts << BenchWords::tr("%n due: reading a day after", nullptr, counts.due);
    if (counts.finished > 0)
        parts << BenchWords::tr("%n finished", nullptr, counts.finished);
    const auto all = BenchWords::prints(counts.all);
    return parts.isEmpty() ? all : all + QStringLiteral(": ") + parts.join(QStringLiteral(" · "));
}

} // namespace washfast::ui
