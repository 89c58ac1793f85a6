#include "ui/sunlight/plan_state.h"

#include "ui/sunlight/day_state.h"
#include "ui/sunlight/words.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace washfast::ui::sunlight {

namespace {

constexpr double lightStep_min = 5;
constexpr double lightReach_min = 12 * 60; // the plan looks no further ahead than this
constexpr int lessonsShown = 3;
constexpr double longestLesson_min = 8 * 60;
constexpr double rinse_min = 10; // after the last exposure

/// Known values of one field over the prints of a session.
class Seen {
public:
    Seen(const PrintReader& reader, qint64 session)
        : reader_(reader)
    {
        const auto& prints = reader.notebook().prints();
        const int of = reader.notebook().catalogue().column(Entity::Print, u"print_session");
        for (int row = 0; row < prints.rows(); ++row)
            if (prints.link(row, of) == session)
                rows_.push_back(row);
    }
    [[nodiscard]] int prints() const { return int(rows_.size()); }
    [[nodiscard]] std::optional<double> middle(QStringView key) const
    {
        std::vector<double> values;
        for (const int row : rows_)
            if (const auto value = reader_.get(row, key).number())
                values.push_back(*value);
        if (values.empty())
            return std::nullopt;
        std::sort(values.begin(), values.end());
        return values[values.size() / 2];
    }
    [[nodiscard]] QString mostly(QStringView key) const
    {
        std::map<QString, int> counts;
        for (const int row : rows_)
            if (const auto value = reader_.get(row, key).text())
                ++counts[*value];
        const auto most = std::max_element(
            counts.begin(), counts.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
        return most == counts.end() ? QString() : most->first;
    }

private:
    const PrintReader& reader_;
    std::vector<int> rows_;
};

} // namespace

PlanDefaults planDefaults(const PrintReader& reader, qint64 session)
{
    PlanDefaults defaults;
    auto& input = defaults.input;
    const auto missing = [&](const char* field, const QString& sentence) {
        defaults.missing.emplace_back(QString::fromLatin1(field), sentence);
    };
    const Seen seen(reader, session);
    const Ref ref { Entity::Session, session };
    if (const auto starts = reader.notebook().get(ref, u"session_start").time())
        defaults.starts = starts->toDateTime().time();
    else
        missing("starts", Words::tr("The lesson's start is not recorded."));
    if (const auto lesson = lessonOf(reader.notebook(), session, input.lesson_min)) {
        // As long as it went on with the light, and the rinse after it.
        double last = 0;
        for (const auto& exposed : lesson->exposed)
            last = std::max(last, minutesBetween(lesson->starts, exposed.to.value_or(exposed.from)));
        if (last > 0 && last <= longestLesson_min)
            input.lesson_min = std::max(input.lesson_min, std::ceil((last + rinse_min) / 15) * 15);
    }
    missing("length",
        Words::tr("How long the lesson is, is not recorded: %1 min are taken.").arg(figure(input.lesson_min, 0)));
    if (seen.prints() > 0)
        input.sheets = seen.prints();
    else
        missing("sheets", Words::tr("No prints yet: %n sheets are assumed.", nullptr, int(input.sheets)));
    const auto temperature = reader.notebook().get(ref, u"room_temperature_c").number();
    const auto humidity = reader.notebook().get(ref, u"room_humidity_pct").number();
    input.room = { temperature.value_or(input.room.temperature_c), humidity.value_or(input.room.humidity_pct) };
    if (!temperature)
        missing("temperature",
            Words::tr("Room temperature is not recorded: %1 °C is taken.").arg(figure(input.room.temperature_c, 0)));
    if (!humidity)
        missing("humidity",
            Words::tr("Room humidity is not recorded: %1 % is taken.").arg(figure(input.room.humidity_pct, 0)));
    input.paper = seen.mostly(u"paper_name");
    if (const auto coat = seen.middle(u"coat_per_area_ml_m2"))
        input.coat_ml_m2 = std::round(*coat * 10) / 10;
    else
        missing("coat", Words::tr("No coated area is recorded: %1 mL/m² is taken.").arg(figure(input.coat_ml_m2, 0)));
    if (const auto method = seen.mostly(u"dry_method"); !method.isEmpty())
        input.dry_method = method;
    else
        missing("method", Words::tr("No drying method is recorded: lying flat is taken."));
    input.dried_covered = seen.middle(u"dry_covered").value_or(0) > 0.5;
    input.film = seen.mostly(u"print_method") != QLatin1String("objects");
    return defaults;
}

drying::LightAtPaper lightAtPaper(const LightAsk& ask, Instant starts)
{
    const auto series = std::make_shared<std::vector<light::LightNow>>(light::lightOver(
        sheetBehindPane(ask), starts, lightStep_min * 60, static_cast<size_t>(lightReach_min / lightStep_min) + 1));
    if (series->empty())
        return {};
    return [series, starts](const Instant& when) {
        const double at
            = std::clamp(minutesBetween(starts, when) / lightStep_min, 0.0, static_cast<double>(series->size() - 1));
        const auto i = std::min(static_cast<size_t>(at), series->size() - 2);
        const double share = at - static_cast<double>(i);
        const auto& a = (*series)[i];
        const auto& b = (*series)[i + 1];
        const auto between = [share](double from, double to) { return from + (to - from) * share; };
        return drying::Bracket { between(a.low_w_m2, b.low_w_m2), between(a.at_paper_w_m2, b.at_paper_w_m2),
            between(a.high_w_m2, b.high_w_m2) };
    };
}

PlanState::PlanState(const LightAsk& ask, QTime starts, drying::LessonInput input, const drying::LearntRates& learnt,
    const QStringList& missing)
    : ask_(ask)
    , input_(std::move(input))
    , missing_(missing)
{
    input_.starts = Instant::from(QDateTime(ask.date, starts, ask.site.zone));
    input_.dose_goal_j_cm2 = ask.dose.j_cm2;
    input_.light = lightAtPaper(ask, input_.starts);
    plan_ = drying::planLesson(input_, learnt);
    shown_.push_back(rowsOf(Words::tr("As asked for"), plan_.timeline));
    for (const auto& other : plan_.alternatives) {
        shown_.push_back(rowsOf(other.title, other.today));
        shown_.back().short_title = other.kind == drying::Alternative::Kind::ObjectsWhileDamp
            ? Words::tr("into the light while damp")
            : Words::tr("finish next lesson");
        QStringList left;
        for (const auto station : other.next_lesson)
            left << stationLabel(station);
        shown_.back().next_lesson = left.join(QStringLiteral(", "));
    }
}

QString PlanState::clock(double minutes) const
{
    return std::isfinite(minutes) ? clockText(light::inZone(later(input_.starts, minutes), ask_.site.zone))
                                  : Words::tr("never");
}

ShownPlan PlanState::rowsOf(const QString& title, const drying::Timeline& timeline) const
{
    ShownPlan shown { title, title, {}, timeline.end_min, {}, {}, timeline.fit };
    const auto when = [&](const drying::Bracket& start, const drying::Bracket& end) {
        if (!std::isfinite(start.likely))
            return Words::tr("never gets here");
        if (!std::isfinite(end.likely))
            return Words::tr("from %1 on, without an end").arg(clock(start.likely));
        return Words::tr("%1 to %2; %3 at the latest")
            .arg(clock(start.likely), clock(end.likely),
                std::isfinite(end.high) ? clock(end.high) : Words::tr("no end"));
    };
    for (const auto& station : timeline.stations)
        shown.bars.push_back({ stationLabel(station.station), station.station, station.start_min, station.end_min,
            when(station.start_min, station.end_min), station.why });
    const auto& end = timeline.end_min;
    shown.end_words = !std::isfinite(end.likely)
        ? Words::tr("never")
        : Words::tr("%1 (%2 to %3)")
              .arg(clock(end.likely), clock(end.low), std::isfinite(end.high) ? clock(end.high) : Words::tr("no end"));
    return shown;
}

QString PlanState::heading() const
{
    return Words::tr("%1, %2, %3 to %4")
        .arg(ask_.site.name, QLocale().toString(ask_.date, QStringLiteral("ddd d MMM yyyy")), clock(0),
            clock(input_.lesson_min));
}

QString PlanState::answer() const
{
    const auto sign = plan_.timeline.fit == drying::Fit::Yes ? QStringLiteral("✓ ")
        : plan_.timeline.fit == drying::Fit::No              ? QStringLiteral("✕ ")
                                                             : QStringLiteral("? ");
    return sign + plan_.answer;
}

double PlanState::reach_min(const ShownPlan& shown) const
{
    double reach = input_.lesson_min * 1.05;
    const double most = input_.lesson_min * lessonsShown;
    const auto take = [&](const drying::Bracket& end) {
        for (const double minutes : { end.low, end.likely, end.high })
            if (std::isfinite(minutes))
                reach = std::max(reach, std::min(minutes * 1.03, most));
    };
    for (const auto& bar : shown.bars)
        take(bar.end_min);
    take(shown.end_min);
    return reach;
}

QStringList PlanState::assumed() const
{
    QStringList all = plan_.assumed;
    all << missing_;
    all << Words::tr("Light: %1, %2.")
               .arg(skyWords(ask_.sky),
                   ask_.pane ? Words::tr("behind %1").arg(ask_.pane->name) : Words::tr("nothing over the sheets"));
    if (ask_.dose.assumed)
        all << Words::tr("Dose wanted: %1 J/cm², %2.").arg(roughFigure(ask_.dose.j_cm2), ask_.dose.from);
    all << ask_.site.assumed;
    return all;
}

QString PlanState::reasons() const
{
    QString html;
    const auto paragraph = [&](const QString& head, const QString& text) {
        html += QStringLiteral("<p style='margin:0 0 6px 0'><b>%1</b> %2</p>")
                    .arg(head.toHtmlEscaped(), text.toHtmlEscaped());
    };
    for (const auto& other : plan_.alternatives) {
        const auto fit = other.today.fit == drying::Fit::Yes ? Words::tr("fits")
            : other.today.fit == drying::Fit::No             ? Words::tr("does not fit either")
                                                             : Words::tr("may run over");
        paragraph(
            QStringLiteral("%1 (%2).").arg(other.title, fit), Words::tr("%1 Price: %2").arg(other.why, other.price));
    }
    if (!html.isEmpty())
        html += QStringLiteral("<hr/>");
    for (const auto& bar : shown_.front().bars)
        if (!bar.why.isEmpty())
            paragraph(bar.name + QLatin1Char(':'), bar.why);
    html += QStringLiteral("<hr/>");
    paragraph(Words::tr("Taken for granted."), assumed().join(QLatin1Char(' ')));
    return html;
}

QString PlanState::inWords(const ShownPlan& shown) const
{
    QStringList sentences { shown.title + QLatin1Char('.') };
    for (const auto& bar : shown.bars)
        sentences << QStringLiteral("%1: %2.").arg(bar.name, bar.when);
    sentences << Words::tr("All cleared up: %1; the lesson ends at %2.").arg(shown.end_words, clock(input_.lesson_min));
    if (!shown.next_lesson.isEmpty())
        sentences << Words::tr("Next lesson: %1.").arg(shown.next_lesson);
    return sentences.join(QLatin1Char(' '));
}

} // namespace washfast::ui::sunlight
