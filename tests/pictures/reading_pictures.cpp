// The Reading desk, with rendered sheets and with a real photo.
#include "tests/pictures/photographer.h"
#include "tests/support/rendered_photo.h"
#include "ui/reading/new_card.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/reference_panel.h"
#include "ui/reading/stored_cards.h"

#include <QCheckBox>
#include <QComboBox>
#include <QElapsedTimer>
#include <QImageReader>
#include <QMouseEvent>

namespace washfast::pictures {

namespace {

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

} // namespace

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
    if (!services.desk.notebook().byName(Entity::Card, QStringLiteral("Six greys"))) // made for the other look already
        ui::keepCard(services.desk, QStringLiteral("Six greys"),
            { QStringLiteral("maker"),
                { patch(0.05), patch(0.23), patch(0.44), patch(0.70), patch(1.05), patch(1.50) } });
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

} // namespace washfast::pictures
