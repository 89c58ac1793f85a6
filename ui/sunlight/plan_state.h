// A lesson planned: what the notebook says to begin with, the plan from core/drying, and its stations as rows with
// clock times and words. Nothing here is drawn.
#pragma once

#include "core/drying/lesson_plan.h"
#include "ui/sunlight/light_ask.h"

namespace washfast::ui::sunlight {

/// What the running session tells of a lesson; the rest is the plan's own.
struct PlanDefaults {
    drying::LessonInput input;
    std::optional<QTime> starts; // of the session, on its own clock
    /// What was not recorded, a sentence each, by the field of the form that would tell it.
    std::vector<std::pair<QString, QString>> missing;
};
[[nodiscard]] PlanDefaults planDefaults(const PrintReader& reader, qint64 session);

/// The light of the ask as the plan wants it, from the start of the lesson on.
[[nodiscard]] drying::LightAtPaper lightAtPaper(const LightAsk& ask, Instant starts);

struct StationBar {
    QString name;
    Station station = Station::Coat;
    drying::Bracket start_min, end_min; // since the lesson began; ends may be infinite
    QString when; // on the clock
    QString why;
};

/// One timeline as it is shown: the plan itself, or an alternative.
struct ShownPlan {
    QString title, short_title;
    std::vector<StationBar> bars;
    drying::Bracket end_min; // all cleared up
    QString end_words;
    QString next_lesson; // what is left for it; empty for nothing
    drying::Fit fit = drying::Fit::No;
};

class PlanState {
public:
    /// `input` as in the form; its start, dose and light come from `ask` and `starts`.
    PlanState(const LightAsk& ask, QTime starts, drying::LessonInput input, const drying::LearntRates& learnt,
        const QStringList& missing);

    [[nodiscard]] const drying::LessonPlan& plan() const { return plan_; }
    [[nodiscard]] const drying::LessonInput& input() const { return input_; }
    [[nodiscard]] const std::vector<ShownPlan>& shown() const { return shown_; } // the plan, then the alternatives
    [[nodiscard]] QString heading() const;
    [[nodiscard]] QString answer() const; // with a sign before it, so that it is not the colour alone
    /// The clock at so many minutes of the lesson; "never" for infinite ones.
    [[nodiscard]] QString clock(double minutes) const;
    /// Where the picture ends: everything that is finite, within three lessons.
    [[nodiscard]] double reach_min(const ShownPlan& shown) const;
    /// Alternatives with why and price, and what was assumed, as rich text.
    [[nodiscard]] QString reasons() const;
    [[nodiscard]] QStringList assumed() const;
    /// The same as plain sentences about one timeline, for a screen reader.
    [[nodiscard]] QString inWords(const ShownPlan& shown) const;

private:
    [[nodiscard]] ShownPlan rowsOf(const QString& title, const drying::Timeline& timeline) const;

    LightAsk ask_;
    drying::LessonInput input_;
    QStringList missing_;
    drying::LessonPlan plan_;
    std::vector<ShownPlan> shown_;
};

} // namespace washfast::ui::sunlight
