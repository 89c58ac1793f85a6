// Does coat, dry, expose, hold and rinse fit the lesson? A timeline of stations with low, likely and high ends, and
// what to do when it does not fit. Plain data: nothing here is drawn.
#pragma once

#include "core/drying/air.h"
#include "core/drying/assumptions.h"
#include "core/drying/learnt.h"
#include "core/quantity/field.h"

#include <QStringList>
#include <functional>
#include <vector>

namespace washfast::drying {

/// Ultraviolet at the paper (315-400 nm), W/m², at a moment of the lesson.
using LightAtPaper = std::function<Bracket(const Instant&)>;

struct LessonInput {
    Instant starts;
    double lesson_min = 60.0;
    int sheets = 30; // the class size, when each pupil makes one
    int coaters = 6; // how many coat at the same time
    int frames = 10; // how many sheets lie in the light at the same time
    int trays = 6; // how many sheets are rinsed at the same time

    Air room;
    QString paper, dry_method = QStringLiteral("flat"); // as in the record
    double coat_ml_m2 = 20.0;
    bool dried_covered = false; // under film: no drying is assumed
    bool film = true; // a film negative, or objects
    double hold_min = 0.0; // wanted in the dark between light and rinse
    double dose_goal_j_cm2 = 3.0;
    LightAtPaper light; // empty: not known, and nothing can be exposed

    // Times of the hands; common practice, no source. Minutes a sheet.
    double talk_min = 5.0; // before the first sheet is coated
    Bracket coat_min { 1.5, 2.0, 4.0 };
    Bracket rinse_min { 5.0, 8.0, 15.0 };
    double clear_up_min = 5.0; // after the last rinse
    /// Learnt or assumed drying rate; when empty, LearntRates::rate of the paper, method and air.
    std::optional<Rate> rate;
};

/// One station of the whole class: from the first sheet's start to the last sheet's end, minutes since the lesson
/// began.
struct StationTime {
    Station station = Station::Coat;
    Bracket start_min, end_min;
    QString why; // what its length rests on, a sentence
};

enum class Fit {
    Yes, // also when things go slowly
    Uncertain, // when things go as is likely, but not when they go slowly
    No
};

struct Timeline {
    std::vector<StationTime> stations; // in their order
    Bracket end_min; // cleared up; infinite when it never ends
    Fit fit = Fit::No;
};

struct Alternative {
    enum class Kind { ObjectsWhileDamp, RinseNextLesson };
    Kind kind = Kind::ObjectsWhileDamp;
    QString title, why, price; // price: what it costs in quality or care
    Timeline today; // this lesson
    std::vector<Station> next_lesson; // what is left for the next one
};

struct LessonPlan {
    Timeline timeline;
    std::vector<Alternative> alternatives; // none exactly when the timeline's fit is Yes
    QString answer; // one sentence: does it fit, by how much
    QStringList assumed; // what was assumed, a sentence each
    std::optional<Rate> rate; // of drying, as used
};

[[nodiscard]] LessonPlan planLesson(
    const LessonInput& input, const LearntRates& learnt = {}, const Assumptions& assumed = {});

} // namespace washfast::drying
