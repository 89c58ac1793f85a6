#include "app/demo/reading_notes.h"

#include "app/demo/tone_colour.h"

#include <algorithm>

namespace washfast::demo {

namespace {

/// How a reading is taken: its error, and whether it gives a colour.
struct Way {
    const char* method;
    double error, step;
    bool colour;
};
constexpr Way photo { "photo", 0.018, 0.01, true };
constexpr Way scan { "scan", 0.010, 0.01, true };
constexpr Way byEye { "by_eye", 0.04, 0.1, false };

struct Reader {
    Pen& pen;
    Chance& pencil;
    qint64 print;
    const char* when;
    Instant at;
    Way way;
    double unevenness;

    void read(const char* where, double density, const Lab& colour, std::optional<int> step = std::nullopt)
    {
        auto row = pen.row(Entity::Reading);
        row.noted(pencil, 0.9, "reading_time", at).choice("reading_when", when).choice("reading_where", where);
        if (step)
            row.put("reading_step", double(*step));
        row.choice("reading_channel", "red").choice("reading_method", way.method);
        const double shown = std::clamp(rounded(density + pencil.normal(way.error), way.step), 0.0, 2.9);
        row.put("reading_density", shown, way.colour ? Evidence::Measured : Evidence::Estimated);
        if (way.colour) {
            row.noted(pencil, 0.7, "reading_spread", rounded(unevenness * pencil.between(0.6, 1.6), 0.001));
            if (!step && pencil.happens(0.85)) {
                row.put("reading_lab_l", rounded(std::clamp(colour.l + pencil.normal(0.5), 0.0, 100.0), 0.1));
                row.put("reading_lab_a", rounded(colour.a + pencil.normal(0.4), 0.1));
                row.put("reading_lab_b", rounded(colour.b + pencil.normal(0.5), 0.1));
            }
        }
        pen.write(row, print);
    }
};

/// To the full minute.
Instant minute(const Instant& moment)
{
    constexpr qint64 length = 60'000;
    return { moment.ms_utc / length * length, moment.offset_s };
}

/// Two in the afternoon of the next day, one print after the other.
Instant dayAfter(const Lesson& lesson, int number)
{
    const auto begin = lesson.begin.toDateTime();
    const QDateTime two(begin.date().addDays(1), QTime(14, 0), Qt::OffsetFromUTC, lesson.begin.offset_s);
    return minute({ two.toMSecsSinceEpoch() + qint64(number) * 90'000, lesson.begin.offset_s });
}

} // namespace

void writeReadings(
    Pen& pen, const Scenario& scenario, const SheetPlan& sheet, const Truth& truth, Chance& pencil, qint64 print)
{
    const auto& lesson = scenario.sessions[size_t(sheet.session)];
    const double base = scenario.papers[size_t(sheet.paper)].base_density;
    const double unevenness = truth.moisture_rinse > 0.2 || sheet.streaks ? 0.035 : 0.014;

    if (sheet.exposed() && pencil.happens(lesson.tone_before)) {
        Reader before { pen, pencil, print, "before_rinse", minute(lesson.at(sheet.exposeEnd() + 1.9)), photo, 0.014 };
        const double ground = base + coatRedDensity + 0.7 * truth.fog;
        const double used = truth.formed / (truth.formed + 0.4); // how much of the yellow is gone
        before.read("deepest", ground + truth.formed, toneBeforeRinse(base, truth.formed, 1.0 - 0.7 * used));
        if (pencil.happens(0.9))
            before.read("covered", ground, toneBeforeRinse(base + 0.7 * truth.fog, 0.0, 1.0));
        if (pencil.happens(0.12))
            before.read("paper", base, toneDayAfter(base, 0.0));
    }

    if (pencil.happens(0.04)) // went home with its maker before it was read
        return;
    const bool eye = !sheet.stepped() && truth.net > 0.5 && pencil.happens(0.06);
    Reader after { pen, pencil, print, "day_after", dayAfter(lesson, sheet.number), eye ? byEye : scan, unevenness };
    after.read("deepest", base + truth.fog + truth.net, toneDayAfter(base, truth.fog + truth.net));
    if (pencil.happens(0.93))
        after.read("paper", base, toneDayAfter(base, 0.0));
    if (pencil.happens(0.35))
        after.read("covered", base + truth.fog, toneDayAfter(base, truth.fog));
    if (sheet.exposed() && !sheet.stepped() && pencil.happens(0.25))
        after.read(
            "open_border", base + truth.fog + truth.border_net, toneDayAfter(base, truth.fog + truth.border_net));
    for (size_t i = 0; i < truth.step_net.size(); ++i)
        after.read("step", base + truth.fog + truth.step_net[i], {}, int(i) + 1);
}

} // namespace washfast::demo
