// Photographs every view of the window with the example notebook, light and dark, into a folder. Run it with
// QT_QPA_PLATFORM=offscreen and, for twice the size, QT_SCALE_FACTOR=2.
#include "app/cli/whole_catalogue.h"
#include "app/demo/demo_notebook.h"
#include "app/demo/scenario.h"
#include "app/translations.h"
#include "app/window/wiring.h"
#include "core/chemistry/bottle_labels.h"
#include "tests/support/rendered_photo.h"
#include "tests/support/settable_clock.h"
#include "ui/bench/bench_view.h"
#include "ui/bench/form_panel.h"
#include "ui/bench/station_cautions.h"
#include "ui/bench/steps.h"
#include "ui/beside/beside_view.h"
#include "ui/causes/causes_view.h"
#include "ui/common/record_dialog.h"
#include "ui/curves/curve_page.h"
#include "ui/curves/curves_view.h"
#include "ui/mixing/mixing_view.h"
#include "ui/mixing/weigh_page.h"
#include "ui/prints/print_page.h"
#include "ui/prints/print_table_model.h"
#include "ui/prints/prints_view.h"
#include "ui/reading/compare_dialog.h"
#include "ui/reading/compare_map.h"
#include "ui/reading/new_card.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/reference_panel.h"
#include "ui/reading/signs_canvas.h"
#include "ui/reading/signs_dialog.h"
#include "ui/reading/stored_cards.h"
#include "ui/sheets/label_paint.h"
#include "ui/shelf/fill_steps.h"
#include "ui/shelf/formula_record.h"
#include "ui/shelf/shelf_view.h"
#include "ui/sunlight/day_sheet.h"
#include "ui/sunlight/plan_page.h"
#include "ui/sunlight/sky_bar.h"
#include "ui/sunlight/sunlight_view.h"
#include "ui/sunlight/year_sheet.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDir>
#include <QElapsedTimer>
#include <QEventLoop>
#include <QImageReader>
#include <QMouseEvent>
#include <QSpinBox>
#include <QStyleFactory>
#include <QTabWidget>
#include <QTemporaryDir>
#include <QTimer>
#include <QToolButton>
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

/// A desk on a rendered sheet, worked with mouse events.
class ReadingTable {
public:
    ReadingTable(const ui::Services& services, test::Scene scene)
        : scene_(std::move(scene))
        , desk_(services, services.desk.printsOf(services.desk.session()).value(0))
    {
        const auto path = scratch_.filePath(QStringLiteral("sheet.png"));
        if (!test::render(scene_, 3).save(path))
            std::fprintf(stderr, "not written: %s\n", qPrintable(path));
        open(path);
    }
    /// A photo as it is; places are then in 0..1 of it.
    ReadingTable(const ui::Services& services, const QString& path)
        : desk_(services, services.desk.printsOf(services.desk.session()).value(0))
    {
        const auto size = QImageReader(path).size();
        scene_.corners = density::rectangle(0, 0, size.width(), size.height());
        open(path);
    }
    void open(const QString& path)
    {
        desk_.resize(1180, 780);
        desk_.show();
        desk_.addFiles({ path });
        wait();
    }
    void wait()
    {
        QElapsedTimer waited;
        waited.start();
        do
            settle(50);
        while (desk_.working() && waited.elapsed() < 30000);
    }
    /// In 0..1 of the sheet.
    void drag(ui::MarkRole role, density::Point from, density::Point to)
    {
        desk_.roleBox()->setCurrentIndex(int(role));
        const auto onto = *density::Perspective::ontoCorners(scene_.corners);
        const auto send = [&](QEvent::Type type, density::Point at, Qt::MouseButton button) {
            const auto point = desk_.canvas()->toWidget(*onto.toPhoto(at)).toPoint();
            QMouseEvent event(type, point, desk_.canvas()->mapToGlobal(point), button,
                type == QEvent::MouseButtonRelease ? Qt::NoButton : Qt::LeftButton, Qt::NoModifier);
            QCoreApplication::sendEvent(desk_.canvas(), &event);
        };
        send(QEvent::MouseButtonPress, from, Qt::LeftButton);
        send(QEvent::MouseMove, { (from.x + to.x) / 2, (from.y + to.y) / 2 }, Qt::NoButton);
        send(QEvent::MouseButtonRelease, to, Qt::LeftButton);
        wait();
    }
    void drag(ui::MarkRole role, const test::RenderedPatch& patch)
    {
        drag(role, { patch.u + 0.2 * patch.width, patch.v + 0.2 * patch.height },
            { patch.u + 0.8 * patch.width, patch.v + 0.8 * patch.height });
    }
    void take(const QString& folder, const QString& name)
    {
        wait();
        settle();
        desk_.grab().save(QDir(folder).filePath(name + QStringLiteral(".png")));
    }
    [[nodiscard]] ui::ReadingDesk& desk() { return desk_; }

private:
    test::Scene scene_;
    QTemporaryDir scratch_;
    ui::ReadingDesk desk_;
};

test::Scene readingScene()
{
    test::Scene scene;
    scene.width = 1200;
    scene.height = 900;
    scene.corners = { density::Point { 120, 90 }, { 1090, 130 }, { 1060, 830 }, { 80, 790 } };
    scene.gradient = 0.1;
    scene.flare = 0.01;
    scene.noise = 1.5;
    return scene;
}

/// The characteristic curve of prints taken together, of a single one, and the negative from it.
void photographWedges(ui::CurvesView& curves, const Photographer& photographer)
{
    curves.showPage(ui::CurvesView::Page::Characteristic);
    photographer.take(QStringLiteral("curves-characteristic"));
    for (auto* box : curves.curvePage()->findChildren<QCheckBox*>())
        if (box->isChecked()) // that they lie over one another
            box->setChecked(false);
    photographer.take(QStringLiteral("curves-characteristic-apart"));
    const auto groups = curves.curvePage()->groups();
    for (const auto& group : groups)
        if (group.name == QLatin1String("Print S1-12"))
            curves.curvePage()->choose(group.of);
    photographer.take(QStringLiteral("curves-characteristic-single"));
    if (!groups.empty())
        curves.curvePage()->choose(groups.front().of);
    curves.showPage(ui::CurvesView::Page::Negative);
    photographer.take(QStringLiteral("curves-negative"));
}

/// A rendered sheet with its cards, marked and measured.
void photographReading(const ui::Services& services, const QString& folder, const QString& look)
{
    auto scene = readingScene();
    scene.patches = { { "white", 0.05, 0.05, 0.16, 0.25, { 0.05, 0.05, 0.05 } },
        { "grey", 0.25, 0.05, 0.16, 0.25, { 0.75, 0.75, 0.75 } }, { "deep", 0.05, 0.4, 0.4, 0.5, { 1.1, 0.85, 0.45 } },
        { "mid", 0.55, 0.4, 0.4, 0.5, { 0.5, 0.4, 0.25 } } };
    ReadingTable table(services, scene);
    const ui::MarkRole roles[]
        = { ui::MarkRole::White, ui::MarkRole::Grey, ui::MarkRole::Deepest, ui::MarkRole::Middle };
    for (size_t i = 0; i < scene.patches.size(); ++i)
        table.drag(roles[i], scene.patches[i]);
    table.take(folder, QStringLiteral("reading-desk-%1").arg(look));
}

/// The same against a stored card, with a wedge; then the outlined print straight on, with the loupe.
void photographReadingRows(const ui::Services& services, const QString& folder, const QString& look)
{
    auto cards = ui::cardsOf(services.desk.notebook());
    if (cards.empty()) {
        const auto patch = [](double density) { return density::ChannelDensities { density, density, density }; };
        ui::keepCard(services.desk, QStringLiteral("C1"),
            { QStringLiteral("densitometer"),
                { patch(0.05), patch(0.25), patch(0.45), patch(0.7), patch(1.05), patch(1.5) } });
        cards = ui::cardsOf(services.desk.notebook());
    }
    const auto& card = cards.front();
    auto scene = readingScene();
    constexpr int steps = 10;
    const double wide = 0.9 / double(card.patches.size());
    for (size_t i = 0; i < card.patches.size(); ++i)
        scene.patches.push_back({ "card", 0.05 + wide * double(i), 0.06, wide, 0.2,
            card.patches[i].value_or(density::ChannelDensities { 0.8, 0.8, 0.8 }) });
    for (int i = 0; i < steps; ++i) {
        const double red = 1.3 - 0.12 * i;
        scene.patches.push_back(
            { "step", 0.05 + 0.9 / steps * i, 0.5, 0.9 / steps, 0.3, { red, 0.75 * red, 0.4 * red } });
    }
    ReadingTable table(services, scene);
    auto& desk = table.desk();
    auto* against = desk.referencePanel()->cardBox();
    against->setCurrentIndex(against->findData(card.id));
    Q_EMIT against->activated(against->currentIndex());
    table.drag(ui::MarkRole::PatchRow, { 0.05, 0.16 }, { 0.95, 0.16 });
    table.take(folder, QStringLiteral("reading-card-%1").arg(look));
    table.drag(ui::MarkRole::WedgeRow, { 0.05, 0.65 }, { 0.95, 0.65 });
    desk.canvas()->addOutline(services.desk.printsOf(services.desk.session()).value(0));
    desk.current()->outlines[0].corners = scene.corners;
    desk.straightBox()->setChecked(true);
    table.take(folder, QStringLiteral("reading-outline-%1").arg(look));
    desk.canvas()->chooseRow(1);
    desk.straightBox()->setChecked(false);
    table.take(folder, QStringLiteral("reading-wedge-%1").arg(look));
}

/// A real photo, its grey row as the card; places and densities as in reference/photo_test.cpp.
void photographRealPhoto(const ui::Services& services, const QString& folder, const QString& look)
{
    const auto path = QStringLiteral(WASHFAST_REFERENCE "/photos/chart24_cabinet_target.jpg");
    const auto patch = [](double density) { return density::ChannelDensities { density, density, density }; };
    ui::keepCard(services.desk, QStringLiteral("Six greys"),
        { QStringLiteral("maker"), { patch(0.05), patch(0.23), patch(0.44), patch(0.70), patch(1.05), patch(1.50) } });
    ReadingTable table(services, path);
    const auto size = QImageReader(path).size();
    const auto at = [&](double x, double y) { return density::Point { x / size.width(), y / size.height() }; };
    auto* against = table.desk().referencePanel()->cardBox();
    against->setCurrentIndex(against->findText(QStringLiteral("Six greys")));
    Q_EMIT against->activated(against->currentIndex());
    table.drag(ui::MarkRole::PatchRow, at(1060, 984), at(1060, 1764));
    table.drag(ui::MarkRole::Deepest, at(1188 - 36, 1049 - 36), at(1188 + 36, 1049 + 36));
    table.take(folder, QStringLiteral("reading-photo-%1").arg(look));
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

/// Records of the shelf with what belongs to them.
void photographShelf(MainWindow& window, ui::Desk& desk, const Photographer& photographer)
{
    auto* shelf = show<ui::ShelfView>(window, QStringLiteral("Shelf"));
    const std::pair<Entity, const char*> kinds[] = { { Entity::Card, "card" }, { Entity::Lamp, "lamp" },
        { Entity::Formula, "formula" }, { Entity::Negative, "film" } };
    for (const auto& [entity, name] : kinds) {
        const auto& table = desk.notebook().table(entity);
        shelf->choose(Ref { entity, table.id(table.rows() - 1) });
        photographer.take(QStringLiteral("shelf-%1").arg(QLatin1String(name)));
    }
    window.resize(1100, 720);
    photographer.take(QStringLiteral("shelf-film-small"));
    window.resize(1280, 820);
}

/// The forms of the shelf that are not drawn from the catalogue alone.
void photographShelfForms(const ui::Services& services, const QString& folder, const QString& look)
{
    const auto take = [&](QWidget& form, const char* name) {
        form.show();
        settle();
        form.grab().save(QDir(folder).filePath(QStringLiteral("%1-%2.png").arg(QLatin1String(name), look)));
    };
    const auto& notebook = services.desk.notebook();
    const auto last = [&](Entity entity) { return notebook.table(entity).id(notebook.table(entity).rows() - 1); };
    ui::FillStepsDialog fill(services, Entity::NegativeStep, last(Entity::Negative), nullptr);
    take(fill, "shelf-fill-steps");
    ui::StepsDialog steps(services, last(Entity::Formula), nullptr);
    take(steps, "shelf-formula-steps");
    ui::RecordDialog form(services, Entity::Formula, last(Entity::Formula), nullptr);
    ui::prepareFormulaForm(form, services.desk, last(Entity::Formula));
    take(form, "shelf-formula-form");
    // What to mind at a station, folded and unfolded.
    ui::FormPanel panel(services.desk, services.look.theme());
    panel.resize(380, 640);
    panel.show(Station::Expose, services.desk.printsOf(services.desk.session()).mid(0, 1), QStringLiteral("S8-01"));
    take(panel, "bench-cautions");
    panel.cautions()->why()->setChecked(true);
    take(panel, "bench-cautions-why");
}

/// Labels for bottles as they come out of the printer.
void photographLabels(const Notebook& notebook, const QString& folder)
{
    std::vector<ui::sheets::Label> labels;
    const auto& bottles = notebook.table(Entity::Chemical);
    for (int row = 0; row < bottles.rows(); ++row)
        labels.emplace_back(chemistry::labelOfChemical(notebook, bottles.id(row)));
    const auto& mixes = notebook.table(Entity::Mix);
    for (int row = mixes.rows() - 2; row < mixes.rows(); ++row)
        labels.emplace_back(chemistry::labelOfMix(notebook, mixes.id(row)));
    int number = 1;
    for (const auto& sheet : chemistry::labelSheets()) {
        const auto path = QDir(folder).filePath(QStringLiteral("label-chemical-%1.pdf").arg(number++));
        if (!ui::sheets::writeLabels(path, sheet, labels))
            std::fprintf(stderr, "not written: %s\n", qPrintable(path));
    }
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

namespace {

/// Signs in a rendered print, and two prints compared, in a notebook of their own.
void photographSigns(QApplication& application, const Catalogue& catalogue, const QString& folder)
{
    QTemporaryDir scratch;
    auto file = store::NotebookFile::open(scratch.filePath(QStringLiteral("spring term.washfast")), catalogue);
    if (!file || !demo::writeDemo(**file))
        return;
    test::SettableClock clock(QDateTime(QDate(2026, 6, 16), QTime(8, 5), Qt::UTC));
    ui::QtDialogs dialogs;
    ui::Desk desk(std::move(*file), clock);
    desk.waitUntilComplete();
    const auto prints = desk.printsOf(desk.session());
    test::Scene scene;
    scene.width = 900;
    scene.height = 660;
    scene.corners = { density::Point { 60, 50 }, { 846, 70 }, { 830, 620 }, { 44, 600 } };
    scene.gradient = 0.08;
    scene.noise = 1.5;
    scene.patches = { { "print", 0.02, 0.02, 0.76, 0.96, { 0.9, 0.7, 0.4 } },
        { "covered", 0.82, 0.08, 0.15, 0.25, { 0.16, 0.15, 0.13 } } };
    const auto leaf = [](double u, double v) {
        return u < 0.78 && std::abs(v - 0.5) < 0.28 * std::sin(std::max(0.0, (u - 0.08) / 0.62) * 3.14) ? -0.45 : 0.0;
    };
    const auto stored = [&](qint64 print, const char* stage, const char* name, unsigned seed) {
        qint64 id = 0;
        desk.perform(QStringLiteral("photo"), [&](store::Writer& writer) -> Outcome {
            const auto added = writer.addPhoto(print, test::encode(test::render(scene, seed), "jpeg", 92),
                { { QStringLiteral("photo_name"), Known { QString::fromLatin1(name) } },
                    { QStringLiteral("photo_stage"), Known { QString::fromLatin1(stage) } } });
            if (!added)
                return added.error();
            id = *added;
            return Done {};
        });
        return id;
    };
    scene.extra = leaf;
    const auto before = stored(prints[0], "before_rinse", "leaf before.jpg", 1);
    scene.extra = [&](double u, double v) {
        const double lost = u > 0.1 && u < 0.3 && v > 0.78 && v < 0.95 ? -0.2 : 0.0;
        return leaf(u, v) + lost + (u < 0.78 ? 0.03 * std::sin(2 * 3.14159265 * u * 130 / 5) : 0.0);
    };
    const auto after = stored(prints[0], "day_after", "leaf after.jpg", 2);
    scene.patches[0].density = { 0.7, 0.55, 0.32 };
    scene.extra = leaf;
    const auto other = stored(prints[1], "day_after", "second leaf.jpg", 3);
    const auto onto = *density::Perspective::ontoCorners(scene.corners);
    const auto region
        = [&](double u, double v, double w, double h) { return *onto.toPhoto(density::rectangle(u, v, w, h)); };
    const auto wait = [](const auto& dialog) {
        QElapsedTimer waited;
        waited.start();
        do
            settle(50);
        while (dialog.working() && waited.elapsed() < 30000);
    };
    const auto mark = [&](ui::SheetCanvas& canvas) {
        canvas.sheet()->corners = scene.corners;
        canvas.sheet()->regions[ui::SheetRole::Paper] = region(0.84, 0.6, 0.1, 0.25);
        Q_EMIT canvas.marksChanged();
    };
    for (const auto mode : { ui::ThemeMode::Light, ui::ThemeMode::Dark }) {
        ui::ThemeSource look(false);
        look.setMode(mode);
        look.applyTo(application);
        const auto name = mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark");
        const auto take = [&](QWidget& widget, const char* what) {
            settle();
            widget.grab().save(QDir(folder).filePath(QStringLiteral("%1-%2.png").arg(QString::fromLatin1(what), name)));
        };
        {
            ui::SignsDialog dialog({ desk, dialogs, look }, prints[0], after);
            dialog.show();
            wait(dialog);
            const int at = dialog.beforeBox()->findData(before);
            dialog.beforeBox()->setCurrentIndex(at);
            Q_EMIT dialog.beforeBox()->activated(at);
            wait(dialog);
            for (const int shown : { 1, 0 }) {
                dialog.shownBox()->setCurrentIndex(shown);
                Q_EMIT dialog.shownBox()->activated(shown);
                mark(*dialog.canvas());
            }
            dialog.canvas()->sheet()->regions[ui::SheetRole::Covered] = region(0.84, 0.12, 0.1, 0.17);
            dialog.canvas()->sheet()->regions[ui::SheetRole::Even] = region(0.06, 0.05, 0.68, 0.16);
            dialog.brushBox()->setCurrentIndex(2);
            take(dialog, "signs-mark");
            dialog.look();
            wait(dialog);
            take(dialog, "signs");
        }
        {
            ui::SignsDialog dialog({ desk, dialogs, look }, prints[0], before);
            dialog.show();
            wait(dialog);
            mark(*dialog.canvas());
            dialog.canvas()->sheet()->regions[ui::SheetRole::Even] = region(0.06, 0.8, 0.65, 0.15);
            dialog.look();
            wait(dialog);
            take(dialog, "signs-none");
        }
        ui::CompareDialog dialog({ desk, dialogs, look }, { prints[0], prints[1] }, after, other);
        dialog.show();
        wait(dialog);
        for (const int which : { 0, 1 })
            mark(*dialog.canvas(which));
        take(dialog, "compare-mark");
        dialog.compare();
        wait(dialog);
        take(dialog, "compare");
    }
}

} // namespace

int main(int argc, char** argv)
{
    QApplication application(argc, argv);
    QCoreApplication::setOrganizationName(QStringLiteral("washfast-pictures"));
    QApplication::setStyle(QStyleFactory::create(QStringLiteral("Fusion")));
    if (argc < 2) {
        std::fprintf(stderr, "usage: washfast_pictures FOLDER [signs]\n");
        return 2;
    }
    installTranslations(application);
    const auto folder = QString::fromLocal8Bit(argv[1]);
    QDir().mkpath(folder);
    QTemporaryDir scratch;
    const auto catalogue = wholeCatalogue();
    if (argc > 2 && qstrcmp(argv[2], "signs") == 0) { // those alone: they are looked at often
        photographSigns(application, catalogue, folder);
        return 0;
    }
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
        photographWedges(*curves, photographer);
        photographCauses(window, photographer);
        photographReading({ desk, dialogs, look }, folder,
            mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark"));
        photographReadingRows({ desk, dialogs, look }, folder,
            mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark"));
        photographRealPhoto({ desk, dialogs, look }, folder,
            mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark"));
        photographMixing(window, photographer);
        photographSunlight(window, photographer);
        window.go(window.indexOf(QStringLiteral("Term")));
        photographer.take(QStringLiteral("term"));
        window.go(window.indexOf(QStringLiteral("Shelf")));
        photographer.take(QStringLiteral("shelf"));
        qobject_cast<ui::ShelfView*>(window.go(window.indexOf(QStringLiteral("Shelf"))))->choose(Entity::Chemical);
        photographer.take(QStringLiteral("shelf-chemicals"));
        photographShelf(window, desk, photographer);
        photographShelfForms({ desk, dialogs, look }, folder,
            mode == ui::ThemeMode::Light ? QStringLiteral("light") : QStringLiteral("dark"));
    }
    photographRunningLesson(application, catalogue, folder);
    photographSigns(application, catalogue, folder);
    photographLabels(desk.notebook(), folder);
    return 0;
}
