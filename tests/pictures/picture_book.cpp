// Photographs every view of the window with the example notebook, light and dark, into a folder. Run it with
// QT_QPA_PLATFORM=offscreen and, for twice the size, QT_SCALE_FACTOR=2.
#include "app/cli/whole_catalogue.h"
#include "app/demo/demo_notebook.h"
#include "app/demo/scenario.h"
#include "app/translations.h"
#include "app/window/wiring.h"
#include "tests/support/rendered_photo.h"
#include "tests/support/settable_clock.h"
#include "ui/bench/bench_view.h"
#include "ui/bench/steps.h"
#include "ui/beside/beside_view.h"
#include "ui/causes/causes_view.h"
#include "ui/curves/curves_view.h"
#include "ui/mixing/mixing_view.h"
#include "ui/mixing/weigh_page.h"
#include "ui/prints/print_page.h"
#include "ui/prints/print_table_model.h"
#include "ui/prints/prints_view.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reading_desk.h"
#include "ui/shelf/shelf_view.h"
#include "ui/sunlight/day_sheet.h"
#include "ui/sunlight/plan_page.h"
#include "ui/sunlight/sky_bar.h"
#include "ui/sunlight/sunlight_view.h"
#include "ui/sunlight/year_sheet.h"

#include <QApplication>
#include <QComboBox>
#include <QDir>
#include <QElapsedTimer>
#include <QEventLoop>
#include <QMouseEvent>
#include <QSpinBox>
#include <QStyleFactory>
#include <QTabWidget>
#include <QTemporaryDir>
#include <QTimer>
#include <cstdio>

using namespace washfast;

namespace {

void settle(int ms = 150)
{
    QEventLoop loop;
    QTimer::singleShot(ms, &loop, &QEventLoop::quit);
    loop.exec();
}

class Photographer {
public:
    Photographer(MainWindow& window, QString folder, QString look)
        : window_(window)
        , folder_(std::move(folder))
        , look_(std::move(look))
    {
    }
    void take(const QString& name) const
    {
        settle();
        const auto path = QDir(folder_).filePath(QStringLiteral("%1-%2.png").arg(name, look_));
        if (!window_.grab().save(path))
            std::fprintf(stderr, "not written: %s\n", qPrintable(path));
    }

private:
    MainWindow& window_;
    QString folder_;
    QString look_;
};

template <typename V> V* show(MainWindow& window, const QString& title)
{
    return qobject_cast<V*>(window.go(window.indexOf(title)));
}

void photographPrints(MainWindow& window, ui::Desk& desk, const Photographer& photographer)
{
    auto* prints = show<ui::PrintsView>(window, QStringLiteral("Prints"));
    photographer.take(QStringLiteral("prints"));
    prints->setFilter(QStringLiteral("kept < 0.6 and mix_code = M3 or nonsense = 4"));
    photographer.take(QStringLiteral("prints-complaint"));
    prints->setFilter(QStringLiteral("kept < 0.6"));
    prints->showPrint(prints->model()->idAt(0));
    photographer.take(QStringLiteral("print-page"));
    for (int tab = 1; tab < prints->page()->tabs()->count(); ++tab) {
        prints->page()->tabs()->setCurrentIndex(tab);
        photographer.take(QStringLiteral("print-page-%1").arg(tab));
    }
    QVector<qint64> four;
    const auto all = desk.printsOf(desk.session());
    for (qsizetype i = 0; i < all.size() && four.size() < 4; i += 3)
        four << all[i];
    show<ui::BesideView>(window, QStringLiteral("Side by side"))->setPrints(four);
    photographer.take(QStringLiteral("beside"));
}

/// A rendered sheet with its cards, marked and measured.
void photographReading(const ui::Services& services, const QString& folder, const QString& look)
{
    test::Scene scene;
    scene.width = 1200;
    scene.height = 900;
    scene.corners = { density::Point { 120, 90 }, { 1090, 130 }, { 1060, 830 }, { 80, 790 } };
    scene.gradient = 0.1;
    scene.flare = 0.01;
    scene.noise = 1.5;
    scene.patches = { { "white", 0.05, 0.05, 0.16, 0.25, { 0.05, 0.05, 0.05 } },
        { "grey", 0.25, 0.05, 0.16, 0.25, { 0.75, 0.75, 0.75 } }, { "deep", 0.05, 0.4, 0.4, 0.5, { 1.1, 0.85, 0.45 } },
        { "mid", 0.55, 0.4, 0.4, 0.5, { 0.5, 0.4, 0.25 } } };
    QTemporaryDir scratch;
    const auto path = scratch.filePath(QStringLiteral("sheet.png"));
    if (!test::render(scene, 3).save(path))
        return;
    ui::ReadingDesk desk(services, services.desk.printsOf(services.desk.session()).value(0));
    desk.resize(1180, 780);
    desk.show();
    desk.addFiles({ path });
    QElapsedTimer waited;
    waited.start();
    const auto wait = [&] {
        do
            settle(50);
        while (desk.working() && waited.elapsed() < 30000);
    };
    wait();
    const auto onto = *density::Perspective::ontoCorners(scene.corners);
    const ui::MarkRole roles[]
        = { ui::MarkRole::White, ui::MarkRole::Grey, ui::MarkRole::Deepest, ui::MarkRole::Middle };
    for (size_t i = 0; i < scene.patches.size(); ++i) {
        const auto& patch = scene.patches[i];
        const auto at = [&](double share) {
            return desk.canvas()
                ->toWidget(
                    *onto.toPhoto(density::Point { patch.u + share * patch.width, patch.v + share * patch.height }))
                .toPoint();
        };
        desk.roleBox()->setCurrentIndex(int(roles[i]));
        const auto send = [&](QEvent::Type type, QPoint point, Qt::MouseButton button) {
            QMouseEvent event(type, point, desk.canvas()->mapToGlobal(point), button,
                type == QEvent::MouseButtonRelease ? Qt::NoButton : Qt::LeftButton, Qt::NoModifier);
            QCoreApplication::sendEvent(desk.canvas(), &event);
        };
        send(QEvent::MouseButtonPress, at(0.2), Qt::LeftButton);
        send(QEvent::MouseMove, at(0.5), Qt::NoButton);
        send(QEvent::MouseButtonRelease, at(0.8), Qt::LeftButton);
        wait();
    }
    settle();
    desk.grab().save(QDir(folder).filePath(QStringLiteral("reading-desk-%1.png").arg(look)));
}

void photographCauses(MainWindow& window, const Photographer& photographer)
{
    auto* causes = show<ui::CausesView>(window, QStringLiteral("Causes"));
    for (const auto& planted : demo::plantedBatches()) {
        ui::Question question;
        question.batch = QStringLiteral("session_code = \"%1\"").arg(planted.session);
        question.outcome = QStringLiteral("failed");
        causes->ask(question);
        QElapsedTimer waited;
        waited.start();
        while (causes->working() && waited.elapsed() < 60000)
            settle(50);
        photographer.take(QStringLiteral("causes-%1").arg(planted.session));
        if (planted.session == QLatin1String("S4") || planted.session == QLatin1String("S6"))
            for (int page = 1; page < causes->pages()->count(); ++page) {
                causes->pages()->setCurrentIndex(page);
                photographer.take(QStringLiteral("causes-%1-page-%2").arg(planted.session).arg(page));
            }
        causes->pages()->setCurrentIndex(0);
    }
}

void photographMixing(MainWindow& window, const Photographer& photographer)
{
    auto* mixing = show<ui::MixingView>(window, QStringLiteral("Mixing"));
    mixing->setFormula(QStringLiteral("iron_chloride"));
    mixing->showPage(ui::MixingView::Page::Weigh);
    photographer.take(QStringLiteral("mixing-plan"));
    mixing->showPage(ui::MixingView::Page::Make);
    photographer.take(QStringLiteral("mixing-steps"));
    mixing->showPage(ui::MixingView::Page::Check);
    photographer.take(QStringLiteral("mixing-check-plan"));
    mixing->showPage(ui::MixingView::Page::Weigh);
    const auto& lines = mixing->state().lines();
    for (int i = 0; i < int(lines.size()); ++i) // the last one, the hexacyanoferrate, in excess
        mixing->state().entered(lines[size_t(i)].component).grams
            = lines[size_t(i)].amount.rounded_g * (i + 1 == int(lines.size()) ? 2.2 : 1.01);
    mixing->weighPage()->refresh();
    Q_EMIT mixing->weighPage()->weighed();
    photographer.take(QStringLiteral("mixing-weighed"));
    mixing->showPage(ui::MixingView::Page::Check);
    photographer.take(QStringLiteral("mixing-audit"));
    for (const auto& line : lines)
        mixing->state().entered(line.component) = {};
    mixing->setFormula(QStringLiteral("traditional"));
    mixing->showPage(ui::MixingView::Page::Weigh);
    photographer.take(QStringLiteral("mixing-traditional"));
}

QSpinBox* numberNamed(const QWidget& page, const QString& name)
{
    for (auto* box : page.findChildren<QSpinBox*>())
        if (box->accessibleName() == name)
            return box;
    return nullptr;
}

void photographSunlight(MainWindow& window, const Photographer& photographer)
{
    auto* sunlight = show<ui::SunlightView>(window, QStringLiteral("Sunlight"));
    auto* bar = sunlight->bar();
    const auto day = [&](const QString& name, QDate date, std::optional<double> pointed) {
        bar->setDate(date);
        sunlight->daySheet()->setCurrent(pointed);
        photographer.take(name);
    };
    sunlight->showPage(ui::SunlightView::Page::Day);
    photographer.take(QStringLiteral("sunlight-lesson"));
    bar->setSky({ 3, light::Disc::Yes });
    bar->setPane(0);
    day(QStringLiteral("sunlight-summer"), QDate(2026, 6, 20), 10 * 60 + 30);
    day(QStringLiteral("sunlight-winter"), QDate(2026, 12, 21), {});
    day(QStringLiteral("sunlight-clock-forward"), QDate(2026, 3, 29), {});
    day(QStringLiteral("sunlight-clock-back"), QDate(2026, 10, 25), 12 * 60);
    bar->setPlace({ QStringLiteral("70"), QStringLiteral("25"), QStringLiteral("50"), QStringLiteral("Europe/Oslo") });
    day(QStringLiteral("sunlight-70-north-june"), QDate(2026, 6, 20), {});
    day(QStringLiteral("sunlight-70-north-december"), QDate(2026, 12, 21), {});
    bar->setPane({});
    bar->setLesson(bar->lesson()); // back to the lesson's own place and day
    bar->takeSession(bar->lesson());
    sunlight->showPage(ui::SunlightView::Page::Year);
    sunlight->yearSheet()->setCurrent(ui::sunlight::YearSheet::Cell { 23, 22 });
    photographer.take(QStringLiteral("sunlight-year"));
    sunlight->showPage(ui::SunlightView::Page::Plan);
    photographer.take(QStringLiteral("lesson-plan"));
    auto* length = numberNamed(*sunlight->planPage(), QStringLiteral("Length"));
    const int usual = length->value();
    length->setValue(240);
    photographer.take(QStringLiteral("lesson-plan-fits"));
    length->setValue(45);
    sunlight->planPage()->showPlan(1);
    photographer.take(QStringLiteral("lesson-plan-too-long"));
    length->setValue(usual);
    window.resize(1100, 720);
    photographer.take(QStringLiteral("lesson-plan-small"));
    sunlight->showPage(ui::SunlightView::Page::Day);
    photographer.take(QStringLiteral("sunlight-small"));
    sunlight->showPage(ui::SunlightView::Page::Year);
    photographer.take(QStringLiteral("sunlight-year-small"));
    window.resize(1280, 820);
}

} // namespace

namespace {

/// A lesson in full swing: sheets at every station, a reading of the light, some weighed while they dry.
void photographRunningLesson(QApplication& application, const Catalogue& catalogue, const QString& folder)
{
    QTemporaryDir scratch;
    auto file = store::NotebookFile::open(scratch.filePath(QStringLiteral("spring term.washfast")), catalogue);
    if (!file || !demo::writeDemo(**file))
        return;
    test::SettableClock clock(QDateTime(QDate(2026, 6, 16), QTime(8, 5), Qt::UTC));
    ui::QtDialogs dialogs;
    ui::Desk desk(std::move(*file), clock);
    desk.waitUntilComplete();
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
        const Photographer photographer(
            window, folder, mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark"));
        photographer.take(QStringLiteral("bench-lesson"));
    }
}

} // namespace

int main(int argc, char** argv)
{
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("washfast-pictures"));
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    if (argc < 2) {
        std::fprintf(stderr, "usage: washfast_pictures FOLDER\n");
        return 2;
    }
    installTranslations(application);
    const auto folder = QString::fromLocal8Bit(argv[1]);
    QDir().mkpath(folder);
    QTemporaryDir scratch;
    const auto catalogue = wholeCatalogue();
    auto file = store::NotebookFile::open(scratch.filePath(QStringLiteral("spring term.washfast")), catalogue);
    if (!file || !demo::writeDemo(**file)) {
        std::fprintf(stderr, "the example notebook could not be made\n");
        return 1;
    }
    ui::SystemClock clock;
    ui::QtDialogs dialogs;
    ui::ThemeSource look(false);
    ui::Desk desk(std::move(*file), clock);
    for (const auto mode : { ui::ThemeMode::Light, ui::ThemeMode::Dark }) {
        look.setMode(mode);
        look.applyTo(application);
        MainWindow window({ desk, dialogs, look }, allViews());
        window.resize(1280, 820);
        window.show();
        const Photographer photographer(
            window, folder, mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark"));
        photographer.take(QStringLiteral("bench"));
        photographPrints(window, desk, photographer);
        auto* curves = show<ui::CurvesView>(window, QStringLiteral("Curves"));
        int number = 1;
        for (const auto& choice : ui::plotChoices()) {
            curves->setPlot(choice.plot);
            photographer.take(QStringLiteral("curves-%1").arg(number++));
        }
        photographCauses(window, photographer);
        photographReading({ desk, dialogs, look }, folder,
            mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark"));
        photographMixing(window, photographer);
        photographSunlight(window, photographer);
        window.go(window.indexOf(QStringLiteral("Term")));
        photographer.take(QStringLiteral("term"));
        window.go(window.indexOf(QStringLiteral("Shelf")));
        photographer.take(QStringLiteral("shelf"));
        qobject_cast<ui::ShelfView*>(window.go(window.indexOf(QStringLiteral("Shelf"))))->choose(Entity::Chemical);
        photographer.take(QStringLiteral("shelf-chemicals"));
    }
    photographRunningLesson(application, catalogue, folder);
    return 0;
}
