#include "core/drying/lesson_plan.h"

#include "core/drying/class_course.h"
#include "core/drying/never.h"
#include "core/drying/words.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace washfast::drying {

namespace {

/// A sheet may lie under objects from here on: matt, no liquid that runs. The wet end of "matt but cool".
double openEnough_pct(const Assumptions& assumed)
{
    return assumed.touch.cool.high;
}

Fit fitOf(const Bracket& end, double lesson_min)
{
    if (end.high <= lesson_min)
        return Fit::Yes;
    return end.likely <= lesson_min ? Fit::Uncertain : Fit::No;
}

QString minutesText(const Bracket& minutes)
{
    return std::isinf(minutes.high) ? Words::tr("%1 min or more").arg(figure(minutes.low))
                                    : Words::tr("about %1 min (%2)").arg(figure(minutes.likely), fromTo(minutes));
}

class Planner {
public:
    Planner(const LessonInput& input, const LearntRates& learnt, const Assumptions& assumed)
        : in_(input)
        , assumed_(assumed)
        , light_(input)
    {
        rate_ = input.rate ? input.rate
                           : learnt.rate(input.paper, input.dry_method, input.room, input.coat_ml_m2, assumed);
    }

    [[nodiscard]] Bracket dryMinutes(double to_pct) const
    {
        if (in_.dried_covered || !rate_)
            return { never, never, never };
        return rate_->curve(assumed_).minutesUntil(to_pct);
    }

    [[nodiscard]] Course course() const
    {
        Course course;
        course.dry_before_light_min = dryMinutes(assumed_.dry_pct);
        return course;
    }

    [[nodiscard]] Timeline timeline(const Course& course) const
    {
        Timeline timeline;
        timeline.stations = runCourse(in_, course, light_);
        for (auto& station : timeline.stations)
            station.why = why(station.station, course);
        Bracket last;
        for (const auto& station : timeline.stations)
            last = { std::max(last.low, station.end_min.low), std::max(last.likely, station.end_min.likely),
                std::max(last.high, station.end_min.high) };
        timeline.end_min = last + Bracket { in_.clear_up_min, in_.clear_up_min, in_.clear_up_min };
        timeline.fit = fitOf(timeline.end_min, in_.lesson_min);
        return timeline;
    }

    [[nodiscard]] Alternative objectsWhileDamp() const
    {
        Course course;
        course.dry_before_light_min = dryMinutes(openEnough_pct(assumed_));
        course.dry_before_rinse_min = dryMinutes(assumed_.dry_pct);
        Alternative found { Alternative::Kind::ObjectsWhileDamp,
            in_.film ? Words::tr("Objects instead of film, into the light while still damp")
                     : Words::tr("Into the light while still damp"),
            Words::tr(
                "Film on a damp coat sticks, keeps the water in and marks the print. Under objects the sheet lies "
                "open: it can go into the light at %1 % of its water and goes on drying there. Only the rinse has "
                "to wait until it is dry.")
                .arg(figure(openEnough_pct(assumed_))),
            Words::tr("Outlines rather than a picture, and weaker tones where the coat was wet."), timeline(course),
            {} };
        return found;
    }

    [[nodiscard]] Alternative rinseNextLesson() const
    {
        Alternative found;
        found.kind = Alternative::Kind::RinseNextLesson;
        found.price
            = Words::tr("Store the sheets flat, dry and dark, in air below %1 % humidity. Tones can shift while "
                        "they wait: note the time of the hold.")
                  .arg(figure(assumed_.redampens_above_pct));
        Course course = this->course();
        course.rinse = false;
        found.today = timeline(course);
        found.title = Words::tr("Hold in the dark, rinse next lesson");
        found.why
            = Words::tr("A sheet that is rinsed too early or too briefly is lost; one that is held dry in the dark "
                        "can wait. Without the rinse, today takes %1.")
                  .arg(minutesText(found.today.end_min));
        found.next_lesson = { Station::Rinse };
        if (found.today.fit != Fit::No)
            return found;

        course.expose = false;
        found.today = timeline(course);
        found.title = Words::tr("Dry in the dark, expose and rinse next lesson");
        found.next_lesson = { Station::Expose, Station::Rinse };
        if (found.today.fit == Fit::No) { // they dry when the class has gone
            course.dry = false;
            found.today = timeline(course);
            found.next_lesson.insert(found.next_lesson.begin(), Station::Dry);
        }
        found.why
            = Words::tr("Even without the rinse the light does not fit into this lesson. Coated sheets can dry and "
                        "wait in the dark; today then takes %1.")
                  .arg(minutesText(found.today.end_min));
        return found;
    }

    [[nodiscard]] QString answer(const Timeline& timeline) const
    {
        const auto lesson = figure(in_.lesson_min);
        switch (timeline.fit) {
        case Fit::Yes:
            return Words::tr("It fits: %1 of %2.").arg(minutesText(timeline.end_min), lesson);
        case Fit::Uncertain:
            return Words::tr("It may run over: %1 of %2.").arg(minutesText(timeline.end_min), lesson);
        case Fit::No:
            break;
        }
        if (in_.dried_covered)
            return Words::tr("It does not fit: under film the sheets do not dry.");
        if (!rate_)
            return Words::tr("It does not fit: in saturated air the sheets do not dry.");
        if (!in_.light)
            return Words::tr("It cannot be told: the light is not known.");
        if (std::isinf(timeline.end_min.likely))
            return Words::tr("It does not fit: the light does not reach %1 J/cm² within %2 hours.")
                .arg(figure(in_.dose_goal_j_cm2, 1), figure(LightSum::horizon_min / 60));
        return Words::tr("It does not fit: %1 are needed, %2 there are.").arg(minutesText(timeline.end_min), lesson);
    }

    [[nodiscard]] QStringList assumptions() const
    {
        QStringList list { rateSentence(),
            Words::tr("A sheet counts as dry at %1 % of its coat's water.").arg(figure(assumed_.dry_pct)),
            Words::tr("One sheet takes %1 min to coat and %2 min to rinse (common practice).")
                .arg(fromTo(in_.coat_min, 1), fromTo(in_.rinse_min)),
            Words::tr("%1 min to begin and %2 min to clear up (common practice).")
                .arg(figure(in_.talk_min), figure(in_.clear_up_min)) };
        return list;
    }

    [[nodiscard]] const std::optional<Rate>& rate() const { return rate_; }

private:
    [[nodiscard]] QString rateSentence() const
    {
        if (in_.dried_covered)
            return Words::tr("Dried under film: no drying is assumed.");
        if (!rate_)
            return Words::tr("The room's air is saturated.");
        switch (rate_->from) {
        case RateFrom::PaperAndMethod:
            return Words::tr("Drying as in %n earlier print(s) on this paper by this method.", nullptr, rate_->prints);
        case RateFrom::Method:
            return Words::tr("Drying as in %n earlier print(s) by this method on other paper.", nullptr, rate_->prints);
        case RateFrom::WetSurface:
            break;
        }
        return Words::tr("Nothing was weighed yet with this method: drying is a first estimate from the room's air.");
    }

    [[nodiscard]] QString why(Station station, const Course& course) const
    {
        switch (station) {
        case Station::Coat:
            return Words::tr("%n sheets, %1 coated at a time.", nullptr, in_.sheets).arg(in_.coaters);
        case Station::Dry:
            return Words::tr("%1 for a sheet; %2").arg(minutesText(course.dry_before_light_min), rateSentence());
        case Station::Expose:
            return Words::tr("Until %1 J/cm², %n sheets at a time.", nullptr, in_.frames)
                .arg(figure(in_.dose_goal_j_cm2, 1));
        case Station::Hold:
            return course.dry_before_rinse_min.high > 0 ? Words::tr("Drying on until it may be rinsed.")
                                                        : Words::tr("In the dark before the rinse.");
        case Station::Rinse:
            return Words::tr("%1 min a sheet, %2 at a time.").arg(fromTo(in_.rinse_min)).arg(in_.trays);
        case Station::About:
        case Station::Read:
            break;
        }
        return {};
    }

    const LessonInput& in_;
    const Assumptions& assumed_;
    LightSum light_;
    std::optional<Rate> rate_;
};

} // namespace

LessonPlan planLesson(const LessonInput& input, const LearntRates& learnt, const Assumptions& assumed)
{
    const Planner planner(input, learnt, assumed);
    LessonPlan plan;
    plan.timeline = planner.timeline(planner.course());
    plan.answer = planner.answer(plan.timeline);
    plan.assumed = planner.assumptions();
    plan.rate = planner.rate();
    if (plan.timeline.fit != Fit::Yes)
        plan.alternatives = { planner.objectsWhileDamp(), planner.rinseNextLesson() };
    return plan;
}

} // namespace washfast::drying
