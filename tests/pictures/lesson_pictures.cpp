// The Bench in a running lesson.
#include "app/demo/scenario.h"
#include "tests/pictures/photographer.h"
#include "ui/bench/bench_view.h"
#include "ui/bench/steps.h"

namespace washfast::pictures {

/// A lesson in full swing: sheets at every station, a reading of the light, some weighed while they dry.
void photographRunningLesson(QApplication& application, const Catalogue& catalogue, const QString& folder)
{
    Example example(catalogue);
    if (!example.desk)
        return;
    auto& [scratch, clock, dialogs, opened] = example;
    auto& desk = *opened;
    QVector<qint64> prints;
    const auto site = desk.notebook().table(Entity::Site).id(0);
    qint64 session = 0;
    desk.perform(QStringLiteral("lesson"), [&](store::Writer& writer) -> Outcome {
        const auto added = writer.add(Entity::Session, 0,
            { { QStringLiteral("session_code"), Known { QStringLiteral("S9") } },
                { QStringLiteral("session_start"), Known { Value(desk.now()) } },
                { QStringLiteral("session_site"), Known { Link { site } } },
                { QStringLiteral("session_group"), Known { QStringLiteral("A") } },
                { QStringLiteral("room_temperature_c"), Known { 23.0 } },
                { QStringLiteral("room_humidity_pct"), Known { 46.0 } } });
        if (!added)
            return added.error();
        session = *added;
        for (int i = 1; i <= 16; ++i) {
            const auto print = writer.add(Entity::Print, 0,
                { { QStringLiteral("print_code"), Known { QStringLiteral("S9-%1").arg(i, 2, 10, QLatin1Char('0')) } },
                    { QStringLiteral("print_session"), Known { Link { session } } },
                    { QStringLiteral("print_maker"), Known { QStringLiteral("A%1").arg(i, 2, 10, QLatin1Char('0')) } },
                    { QStringLiteral("print_width_mm"), Known { 95.0 } },
                    { QStringLiteral("print_height_mm"), Known { 130.0 } },
                    { QStringLiteral("coat_volume_ml"), Known { 0.24 + 0.005 * (i % 4) } },
                    { QStringLiteral("dose_goal_j_cm2"), Known { 2.4 } } });
            if (!print)
                return print.error();
            prints << *print;
        }
        return Done {};
    });
    desk.setSession(SessionId { session });
    const auto start = [&](int from, int to, Station station) {
        desk.perform(QStringLiteral("start"), [&](store::Writer& writer) -> Outcome {
            for (int i = from; i < to; ++i)
                if (auto done = ui::startStation(writer, prints[i], station, desk.now()); !done)
                    return done;
            return Done {};
        });
    };
    const auto weigh = [&](int from, int to, const char* state, double mass) {
        desk.perform(QStringLiteral("weigh"), [&](store::Writer& writer) -> Outcome {
            for (int i = from; i < to; ++i)
                if (auto done = ui::enterWeighing(
                        writer, prints[i], QString::fromLatin1(state), Known { mass + 0.004 * (i % 5) }, desk.now());
                    !done)
                    return done;
            return Done {};
        });
    };
    weigh(4, 13, "bare", 3.70);
    for (int i = 0; i < 13; ++i) {
        start(i, i + 1, Station::Coat);
        clock.advanceMinutes(1);
    }
    weigh(4, 13, "coated", 3.96);
    start(0, 11, Station::Dry);
    clock.advanceMinutes(9);
    weigh(4, 13, "drying", 3.86);
    clock.advanceMinutes(9);
    weigh(4, 13, "drying", 3.80);
    start(11, 13, Station::Dry);
    clock.advanceMinutes(6);
    weigh(4, 13, "drying", 3.775);
    desk.perform(QStringLiteral("touch"), [&](store::Writer& writer) -> Outcome {
        for (int i = 0; i < 4; ++i)
            if (auto done = ui::addTouch(writer, prints[i], QStringLiteral("crisp"), desk.now()); !done)
                return done;
        return Done {};
    });
    start(0, 4, Station::Expose);
    clock.advanceMinutes(4);
    start(4, 8, Station::Expose);
    desk.setPrintField(prints.mid(0, 8), QStringLiteral("cloud_start_eighths"), Known { 2.0, Evidence::Estimated });
    desk.setPrintField(
        prints.mid(0, 8), QStringLiteral("disc_start"), Known { QStringLiteral("yes"), Evidence::Estimated });
    clock.advanceMinutes(3);
    start(0, 2, Station::Rinse);
    clock.advanceMinutes(2);
    start(13, 15, Station::Coat);
    clock.advanceSeconds(40);
    for (const auto mode : { ui::ThemeMode::Light, ui::ThemeMode::Dark }) {
        ui::ThemeSource look(false);
        look.setMode(mode);
        look.applyTo(application);
        MainWindow window({ desk, dialogs, look }, allViews());
        window.resize(1280, 820);
        window.show();
        const Photographer photographer(window, folder, lookName(mode));
        photographer.take(QStringLiteral("bench-lesson"));
    }
}

} // namespace washfast::pictures
