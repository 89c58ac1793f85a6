// A desk with a few invented prints that are read before the rinse and a day after, and what the tests of the views
// that show them share.
//
//     PrintsFixture room;
//     room.lesson();                                     // session A1, mixes M2 and M10, paper P1
//     const auto pale = room.toned("A1-01", 0.9, 0.4);   // densities of the deepest spot
//     room.outcome(pale, "pale");
#pragma once

#include "tests/support/desk_fixture.h"
#include "tests/support/text.h"

#include <QAbstractItemModel>
#include <QCoreApplication>
#include <QSettings>
#include <QStandardPaths>

namespace washfast::test {

class PrintsFixture : public DeskFixture {
public:
    PrintsFixture()
    {
        // Settings of this test alone.
        QSettings::setPath(QSettings::NativeFormat, QSettings::UserScope, settings_.path());
        QCoreApplication::setOrganizationName(QStringLiteral("washfast-test"));
        QCoreApplication::setApplicationName(QStringLiteral("washfast-test"));
    }

    void lesson()
    {
        session = add(Entity::Session, { { "session_code", "A1" }, { "session_start", "2026-05-04T10:00:00+02:00" } });
        sit(session);
        m2 = add(Entity::Mix, { { "mix_code", "M2" } });
        m10 = add(Entity::Mix, { { "mix_code", "M10" } });
        paper = add(Entity::Paper, { { "paper_name", "P1" } });
    }
    qint64 reading(qint64 print, const char* when, const char* where, double density)
    {
        return add(Entity::Reading,
            { { "reading_when", when }, { "reading_where", where }, { "reading_density", density },
                { "reading_method", "scan" } },
            print);
    }
    void lab(qint64 reading, double l, double a, double b)
    {
        set({ Entity::Reading, reading }, "reading_lab_l", l);
        set({ Entity::Reading, reading }, "reading_lab_a", a);
        set({ Entity::Reading, reading }, "reading_lab_b", b);
    }
    /// A print whose paper reads 0.10, so that its net density is `after` - 0.10.
    qint64 toned(const char* code, double before, double after)
    {
        const auto id = print(code);
        reading(id, "before_rinse", "deepest", before);
        reading(id, "day_after", "deepest", after);
        reading(id, "day_after", "paper", 0.10);
        return id;
    }
    void outcome(qint64 print, const char* keys) { set({ Entity::Print, print }, "print_outcome", keys); }
    /// The time of light and two readings of the meter, so that the dose is measured: 20 W/m2 for 10 minutes is 1.2
    /// J/cm2.
    void exposed(qint64 print, double minutes, double watts)
    {
        const auto start = at("2026-05-04T11:00:00+02:00");
        const Instant end { start.ms_utc + qint64(minutes * 60'000), start.offset_s };
        add(Entity::Exposure, { { "expose_number", 1 }, { "expose_start", start }, { "expose_end", end } }, print);
        for (int n = 1; n <= 2; ++n)
            add(Entity::Meter, { { "meter_number", n }, { "meter_uva_w_m2", watts } }, print);
    }
    /// Weighings after which `percent` of the coat's water is left before the exposure: a coat of 2 g with 1 g of
    /// solids.
    void weighed(qint64 print, double percent, const char* state = "before_expose")
    {
        if (!number(print, "mass_bare_g")) {
            add(Entity::Weighing, { { "weigh_state", "bare" }, { "weigh_mass_g", 5.0 } }, print);
            add(Entity::Weighing, { { "weigh_state", "coated" }, { "weigh_mass_g", 7.0 } }, print);
        }
        add(Entity::Weighing, { { "weigh_state", state }, { "weigh_mass_g", 6.0 + percent / 100.0 } }, print);
    }
    /// Takes back what was done last, as the window does.
    void undo() { desk().undo(); }

    qint64 session = 0, m2 = 0, m10 = 0, paper = 0;

private:
    QTemporaryDir settings_;
};

/// What stands in one column of a model, from top to bottom.
inline QStringList columnOf(const QAbstractItemModel& model, int column)
{
    QStringList texts;
    for (int row = 0; row < model.rowCount(); ++row)
        texts << model.index(row, column).data().toString();
    return texts;
}

inline QStringList texts(std::initializer_list<const char*> all)
{
    QStringList list;
    for (const auto* one : all)
        list << QString::fromUtf8(one);
    return list;
}

} // namespace washfast::test
