// The window in a made-up language, with the example notebook: nothing that can be read in its views is left in
// English.
#include "tests/i18n/window_in_words.h"
#include "ui/bench/bench_model.h"
#include "ui/bench/bench_view.h"
#include "ui/bench/steps.h"
#include "ui/beside/beside_view.h"
#include "ui/causes/causes_view.h"
#include "ui/causes/question.h"
#include "ui/curves/curve_page.h"
#include "ui/curves/curves_view.h"
#include "ui/mixing/mixing_view.h"
#include "ui/mixing/weigh_page.h"
#include "ui/prints/print_page.h"
#include "ui/prints/print_table_model.h"
#include "ui/prints/prints_view.h"
#include "ui/shelf/record_model.h"
#include "ui/shelf/shelf_view.h"
#include "ui/sunlight/day_sheet.h"
#include "ui/sunlight/plan_page.h"
#include "ui/sunlight/sky_bar.h"
#include "ui/sunlight/sunlight_view.h"
#include "ui/sunlight/year_sheet.h"

#include <QMenuBar>
#include <QSpinBox>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using namespace washfast::i18n;

namespace {

class ViewsInWords : public WindowInWords { };

} // namespace

TEST_F(ViewsInWords, EveryViewAsItOpens)
{
    for (int i = 0; i < window->count(); ++i) {
        auto* view = window->go(i);
        if (const auto* causes = qobject_cast<ui::CausesView*>(view))
            waitFor(*causes);
        pause();
        readPages(*view);
    }
    seen.read(*window);
    seen.add(QStringLiteral("cautions"), cautionText());
    seen.add(QStringLiteral("about"), aboutText());
    EXPECT_GT(seen.count(), 2000);
}

TEST_F(ViewsInWords, WithoutANotebookToShow)
{
    window.reset();
    DeskFixture empty;
    window = std::make_unique<MainWindow>(empty.services(), allViews());
    window->show();
    for (int i = 0; i < window->count(); ++i) {
        auto* view = window->go(i);
        pause();
        readPages(*view);
    }
    window.reset();
    empty.reopen(true); // of a newer version: it can only be looked at
    window = std::make_unique<MainWindow>(empty.services(), allViews());
    window->show();
    for (int i = 0; i < window->count(); ++i)
        readPages(*window->go(i));
    seen.read(*window);
    window.reset();
}

TEST_F(ViewsInWords, TheBenchInALesson)
{
    auto& desk = room.desk();
    const auto session = room.add(Entity::Session,
        { { "session_code", "S9" }, { "session_start", Given(desk.now()) }, { "room_temperature_c", 23 },
            { "room_humidity_pct", 46 }, { "session_site", lastOf(Entity::Site) } });
    room.sit(session);
    QVector<qint64> prints;
    for (const char* code : { "S9-01", "S9-02", "S9-03", "S9-04", "S9-05", "S9-06" })
        prints << room.print(
            code, { { "print_width_mm", 95 }, { "print_height_mm", 130 }, { "coat_volume_ml", 0.24 } });
    auto& bench = view<ui::BenchView>();
    const auto begin = [&](int from, int to, Station station) {
        desk.perform(QStringLiteral("S9"), [&](store::Writer& writer) -> Outcome {
            for (int i = from; i < to; ++i)
                if (auto done = ui::startStation(writer, prints[i], station, desk.now()); !done)
                    return done;
            return Done {};
        });
        room.clock.advanceMinutes(6);
        pause();
    };
    const auto walk = [&] {
        for (const auto& group : { prints.mid(0, 1), prints.mid(0, 3), prints }) {
            bench.choose(group);
            for (int column = 0; column < bench.model()->columnCount(); ++column) {
                bench.table()->setCurrentIndex(bench.model()->index(bench.table()->currentIndex().row(), column));
                pause();
                seen.read(bench);
            }
        }
    };
    walk();
    const auto touch = room.catalogue().columnField(Entity::Touch, u"touch_state").choices[1].key;
    begin(0, 6, Station::Coat);
    begin(0, 5, Station::Dry);
    desk.perform(QStringLiteral("S9"), [&](store::Writer& writer) -> Outcome {
        for (int i = 0; i < 2; ++i)
            if (auto done = ui::addTouch(writer, prints[i], touch, desk.now()); !done)
                return done;
        return ui::enterWeighing(writer, prints[2], QStringLiteral("drying"), Known { 3.86 }, desk.now());
    });
    walk();
    begin(0, 4, Station::Expose);
    walk();
    begin(0, 2, Station::Hold);
    begin(0, 1, Station::Rinse);
    walk();
    // By the keys: start and end, touch, weighings, readings, the form, all alike, removal, undo.
    room.dialogs.willAnswer(std::nullopt);
    for (int column = 0; column < bench.model()->columnCount(); ++column) {
        bench.choose(prints.mid(3, 2));
        bench.table()->setCurrentIndex(bench.model()->index(3, column));
        bench.table()->setFocus();
        for (const auto key : { Qt::Key_Space, Qt::Key_3, Qt::Key_A, Qt::Key_W, Qt::Key_Escape, Qt::Key_L,
                 Qt::Key_Escape, Qt::Key_R, Qt::Key_Escape, Qt::Key_Return, Qt::Key_Escape, Qt::Key_Space }) {
            if (auto* focus = QApplication::focusWidget())
                QTest::keyClick(focus, key);
            pause();
            seen.read(bench);
            seen.add(QStringLiteral("foot"), window->statusBar()->currentMessage());
        }
    }
    also_data << QStringLiteral("3aw"); // as typed into a line
    seen.add(QStringLiteral("undo"), desk.undoLabel());
    seen.read(*window);
}

TEST_F(ViewsInWords, ThePrintsAndAPagesOfThem)
{
    auto& prints = view<ui::PrintsView>();
    for (const char* filter : { "kept <", "kept < 0.6 and mix_code = M3 or nonsense = 4", "kept > 90", "kept < 0.6" }) {
        prints.setFilter(QString::fromUtf8(filter));
        pause();
        seen.read(prints);
    }
    also_data << QStringLiteral("nonsense and or");
    ASSERT_GT(prints.model()->rowCount(), 3);
    for (int row = 0; row < 3; ++row) {
        prints.showPrint(prints.model()->idAt(row));
        pause();
        readPages(prints);
    }
    // The history of a change, an undo and a removal.
    const auto print = prints.model()->idAt(0);
    room.desk().setPrintField({ print }, QStringLiteral("coat_passes"), Known { 5.0, Evidence::Estimated });
    room.desk().setPrintField({ print }, QStringLiteral("coat_tool"), Known { QStringLiteral("rod") });
    room.desk().undo();
    pause();
    readPages(prints);
    window->menuBar()->update();
    seen.read(*window);
}

TEST_F(ViewsInWords, PrintsSideBySide)
{
    auto& beside = view<ui::BesideView>();
    beside.setPrints(room.desk().printsOf(room.desk().session()).mid(0, 4));
    pause();
    seen.read(beside);
}

TEST_F(ViewsInWords, TheCurves)
{
    auto& curves = view<ui::CurvesView>();
    for (const auto& choice : ui::plotChoices()) {
        curves.setPlot(choice.plot);
        pause();
        seen.read(curves);
    }
    curves.setAxes(QStringLiteral("rinse_minutes"), QStringLiteral("kept"), QStringLiteral("dose_j_cm2"));
    pause();
    seen.read(curves);
    curves.showPage(ui::CurvesView::Page::Characteristic);
    pause();
    for (const auto& group : curves.curvePage()->groups()) {
        curves.curvePage()->choose(group.of);
        pause();
        seen.read(curves);
    }
    curves.curvePage()->choose(curves.curvePage()->groups().front().of);
    curves.showPage(ui::CurvesView::Page::Negative);
    pause();
    seen.read(curves);
}

TEST_F(ViewsInWords, TheSearchForCauses)
{
    auto& causes = view<ui::CausesView>();
    for (const char* session : { "S3", "S4", "S6", "S7" }) {
        ui::Question question;
        question.batch = QStringLiteral("session_code = %1").arg(QLatin1String(session));
        question.outcome = QStringLiteral("failed");
        causes.ask(question);
        waitFor(causes);
        readPages(causes);
    }
    ui::Question question;
    question.batch = QStringLiteral("session_code = S4");
    question.outcome = QStringLiteral("kept");
    causes.ask(question);
    waitFor(causes);
    readPages(causes);
    question.batch = QStringLiteral("kept <");
    causes.ask(question);
    waitFor(causes);
    readPages(causes);
}

TEST_F(ViewsInWords, MakingAMix)
{
    auto& mixing = view<ui::MixingView>();
    for (const char* formula : { "traditional", "equal_volumes", "oxalate", "iron_chloride" }) {
        mixing.setFormula(QString::fromLatin1(formula));
        pause();
        readPages(mixing);
    }
    const auto& lines = mixing.state().lines();
    for (size_t i = 0; i < lines.size(); ++i) // the last one, the hexacyanoferrate, in excess
        mixing.state().entered(lines[i].component).grams
            = lines[i].amount.rounded_g * (i + 1 == lines.size() ? 2.2 : 1.01);
    mixing.weighPage()->refresh();
    Q_EMIT mixing.weighPage()->weighed();
    pause();
    readPages(mixing);
    mixing.keepMix();
    pause();
    readPages(mixing);
    seen.add(QStringLiteral("undo"), room.desk().undoLabel());
}

TEST_F(ViewsInWords, ADayAYearAndALesson)
{
    auto& sunlight = view<ui::SunlightView>();
    auto* bar = sunlight.bar();
    bar->takeSession(room.desk().session().value);
    for (const auto& [date, pointed] : { std::pair(QDate(2026, 6, 20), 630.0), { QDate(2026, 12, 21), 720.0 },
             { QDate(2026, 3, 29), 600.0 }, { QDate(2026, 10, 25), 720.0 } }) {
        bar->setDate(date);
        bar->setSky({ 3, light::Disc::Yes });
        sunlight.showPage(ui::SunlightView::Page::Day);
        sunlight.daySheet()->setCurrent(pointed);
        pause();
        seen.read(sunlight);
    }
    bar->setPlace({ QStringLiteral("70"), QStringLiteral("25"), QStringLiteral("50"), QStringLiteral("Europe/Oslo") });
    also_data << QStringLiteral("Europe/Oslo Nowhere/Town");
    pause();
    readPages(sunlight);
    bar->setPlace({ QStringLiteral("x"), QStringLiteral("250"), {}, QStringLiteral("Nowhere/Town") });
    pause();
    readPages(sunlight);
    bar->takeSession(room.desk().session().value);
    sunlight.showPage(ui::SunlightView::Page::Year);
    sunlight.yearSheet()->setCurrent(ui::sunlight::YearSheet::Cell { 23, 22 });
    pause();
    seen.read(sunlight);
    sunlight.showPage(ui::SunlightView::Page::Plan);
    pause();
    for (const int minutes : { 45, 90, 240 }) {
        for (auto* box : sunlight.planPage()->findChildren<QSpinBox*>())
            if (box->accessibleName() == madeUp("Length"))
                box->setValue(minutes);
        pause();
        for (const size_t which : { 0U, 1U, 2U }) {
            sunlight.planPage()->showPlan(which);
            pause();
            seen.read(sunlight);
        }
    }
}

TEST_F(ViewsInWords, TheShelf)
{
    auto& shelf = view<ui::ShelfView>();
    for (const auto entity : { Entity::Mix, Entity::Paper, Entity::Cover, Entity::Negative, Entity::Site, Entity::Term,
             Entity::Chemical, Entity::Formula, Entity::Lamp, Entity::Card }) {
        shelf.choose(entity);
        pause();
        const auto& table = room.desk().notebook().table(entity);
        ASSERT_GT(table.rows(), 0) << int(entity);
        for (int row = 0; row < table.rows(); ++row) {
            shelf.choose(Ref { entity, table.id(row) });
            pause();
            seen.read(shelf);
        }
    }
    shelf.choose(Ref { Entity::Paper, lastOf(Entity::Paper) });
    room.dialogs.willAnswer(0);
    room.dialogs.willAnswer(0);
    shelf.putAway();
    pause();
    seen.read(shelf);
    shelf.choose(Ref { Entity::Cover, lastOf(Entity::Cover) });
    shelf.retire();
    pause();
    seen.read(shelf);
}

} // namespace WASHFAST_FILE
