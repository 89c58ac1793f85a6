// One day at one place, worked out once: ultraviolet at the sheet, the minutes that a print needs, the UV Index, the
// sun's height, and the lesson laid over it. Numbers and sentences; nothing here is drawn.
//
// Time runs in minutes from midnight of the local clock, as they pass: a day on which the clock changes has 1380 or
// 1500 of them, and the ticks say what the clock shows then.
#pragma once

#include "core/light/uv_index.h"
#include "ui/sunlight/light_ask.h"

#include <vector>

namespace washfast::ui::sunlight {

/// A session whose hour and exposures are laid over a day.
struct LessonAsk {
    QString code;
    Instant starts;
    double length_min = 60;
    struct Exposed {
        QString print;
        Instant from;
        std::optional<Instant> to;
    };
    std::vector<Exposed> exposed;
};
/// Of a session with a start; its prints' exposures in the order of the prints.
[[nodiscard]] std::optional<LessonAsk> lessonOf(const Notebook& notebook, qint64 session, double length_min);

struct DaySample {
    double minute = 0;
    Instant at; // with the local offset
    double height_deg = 0, azimuth_deg = 0; // apparent
    double clear_w_m2 = 0; // cloudless
    double low_w_m2 = 0, likely_w_m2 = 0, high_w_m2 = 0; // under the chosen sky
    double behind_low_w_m2 = 0, behind_w_m2 = 0, behind_high_w_m2 = 0; // and behind the pane
    light::TimeNeeded needed, needed_behind;
    double uv_index = 0; // cloudless
};

/// A stretch of the day in one band of the UV Index.
struct UvRun {
    double from_min = 0, to_min = 0;
    light::UvBand band = light::UvBand::Low;
};

struct LaidLesson {
    QString code;
    double from_min = 0, to_min = 0;
    bool that_day = false; // else only its hour is laid over another day
    struct Mark {
        QString print;
        double from_min = 0;
        std::optional<double> to_min;
    };
    std::vector<Mark> marks;
};

class DayState {
public:
    static constexpr int stepMinutes = 5;

    explicit DayState(const LightAsk& ask, const std::optional<LessonAsk>& lesson = {});

    [[nodiscard]] const LightAsk& ask() const { return ask_; }
    [[nodiscard]] const std::vector<DaySample>& samples() const { return samples_; }
    [[nodiscard]] const light::SunDay& sun() const { return sun_; }
    [[nodiscard]] double length_min() const { return length_min_; }
    [[nodiscard]] double minuteOf(Instant when) const { return minutesBetween(sun_.begins, when); }
    /// The moment at so many minutes, with what the clock is then.
    [[nodiscard]] Instant at(double minute) const;

    struct Tick {
        double minute = 0;
        QString label;
    };
    /// Where the clock shows a full hour that `every` divides.
    [[nodiscard]] std::vector<Tick> ticks(int every) const;
    /// Where the clock changes, and the sentence about it.
    struct ClockChange {
        double minute = 0;
        QString label, sentence;
    };
    [[nodiscard]] const std::optional<ClockChange>& clockChange() const { return change_; }

    [[nodiscard]] const std::vector<UvRun>& uvRuns() const { return uv_runs_; }
    [[nodiscard]] double uvPeak() const;
    [[nodiscard]] const std::optional<LaidLesson>& lesson() const { return lesson_; }
    /// Sample nearest to a minute.
    [[nodiscard]] const DaySample& near(double minute) const;
    /// The sample at which a print needs the least time; nothing when none can be printed in the longest useful time.
    [[nodiscard]] const DaySample* quickest() const;

    [[nodiscard]] QString heading() const; // place and day
    [[nodiscard]] QString sunSentence() const; // rise, noon, set, or that there is none
    [[nodiscard]] QString bestSentence() const; // when a print is quickest
    [[nodiscard]] QString caution() const; // UV Index of the day and what to do
    [[nodiscard]] QStringList notes() const; // clock change, lesson, what was assumed
    /// One line about a moment: clock, ultraviolet with its interval, sun, minutes needed, UV Index.
    [[nodiscard]] QString readout(double minute) const;
    /// "3.4 min (2.8 to 4.3)", "longer than 4 h"
    [[nodiscard]] static QString neededWords(const light::TimeNeeded& needed);

private:
    void findClockChange();
    void sample();
    void layLesson(const LessonAsk& lesson);

    LightAsk ask_;
    light::SunDay sun_;
    double length_min_ = 1440;
    std::vector<DaySample> samples_;
    std::vector<UvRun> uv_runs_;
    std::optional<ClockChange> change_;
    std::optional<LaidLesson> lesson_;
};

/// "south-west", from north through east.
[[nodiscard]] QString directionWords(double azimuth_deg);

} // namespace washfast::ui::sunlight
