// Photographs every view of the window with the example notebook, light and dark, into a folder. Run it with
// QT_QPA_PLATFORM=offscreen and, for twice the size, QT_SCALE_FACTOR=2.
#include "app/cli/whole_catalogue.h"
#include "app/demo/scenario.h"
#include "app/translations.h"
#include "tests/pictures/photographer.h"
#include "ui/beside/beside_view.h"
#include "ui/causes/causes_view.h"
#include "ui/curves/curve_page.h"
#include "ui/curves/curves_view.h"
#include "ui/prints/print_page.h"
#include "ui/prints/print_table_model.h"
#include "ui/prints/prints_view.h"
#include "ui/shelf/shelf_view.h"
#include "ui/sunlight/day_sheet.h"
#include "ui/sunlight/plan_page.h"
#include "ui/sunlight/sky_bar.h"
#include "ui/sunlight/sunlight_view.h"
#include "ui/sunlight/year_sheet.h"

#include <QCheckBox>
#include <QComboBox>
#include <QElapsedTimer>
#include <QSpinBox>
#include <QStyleFactory>
#include <QTabWidget>

using namespace washfast;
using namespace washfast::pictures;

namespace {

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
        const Photographer photographer(window, folder, lookName(mode));
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
        photographReading({ desk, dialogs, look }, folder, lookName(mode));
        photographReadingRows({ desk, dialogs, look }, folder, lookName(mode));
        photographRealPhoto({ desk, dialogs, look }, folder, lookName(mode));
        photographMixing(window, photographer);
        photographSunlight(window, photographer);
        window.go(window.indexOf(QStringLiteral("Term")));
        photographer.take(QStringLiteral("term"));
        window.go(window.indexOf(QStringLiteral("Shelf")));
        photographer.take(QStringLiteral("shelf"));
        qobject_cast<ui::ShelfView*>(window.go(window.indexOf(QStringLiteral("Shelf"))))->choose(Entity::Chemical);
        photographer.take(QStringLiteral("shelf-chemicals"));
        photographShelf(window, desk, photographer);
        photographShelfForms({ desk, dialogs, look }, folder, lookName(mode));
    }
    photographRunningLesson(application, catalogue, folder);
    photographSigns(application, catalogue, folder);
    photographLabels(desk.notebook(), folder);
    return 0;
}
