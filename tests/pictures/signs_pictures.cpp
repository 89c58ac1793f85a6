// Signs looked for in photos, and colours compared.
#include "tests/pictures/photographer.h"
#include "tests/support/rendered_photo.h"
#include "ui/reading/compare_dialog.h"
#include "ui/reading/compare_map.h"
#include "ui/reading/signs_canvas.h"
#include "ui/reading/signs_dialog.h"

#include <QCheckBox>
#include <QComboBox>
#include <QElapsedTimer>
#include <QMouseEvent>
#include <QTabWidget>

namespace washfast::pictures {

/// Signs in a rendered print, and two prints compared, in a notebook of their own.
void photographSigns(QApplication& application, const Catalogue& catalogue, const QString& folder)
{
    Example example(catalogue);
    if (!example.desk)
        return;
    auto& [scratch, clock, dialogs, opened] = example;
    auto& desk = *opened;
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
        const auto name = lookName(mode);
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

} // namespace washfast::pictures
