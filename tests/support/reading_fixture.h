// A Reading desk on a rendered sheet whose densities are known, worked with real key and mouse events.
//
//     ReadingFixture room;                       // prints A1-01 and A1-02
//     room.scene.patches = { ... };
//     room.openStored();                         // the rendered photo, stored with A1-01
//     room.drag(MarkRole::Deepest, { 0.1, 0.6 }, { 0.3, 0.8 });   // in 0..1 of the sheet
#pragma once

#include "tests/support/photo_work.h"
#include "tests/support/rendered_photo.h"
#include "ui/reading/density_table.h"
#include "ui/reading/photo_canvas.h"
#include "ui/reading/reading_desk.h"
#include "ui/reading/straight_view.h"

#include <QComboBox>
#include <QPushButton>
#include <QTest>

namespace washfast::test {

class ReadingFixture : public PrintsFixture {
public:
    ReadingFixture()
    {
        lesson();
        first = print("A1-01");
        other = print("A1-02");
        scene.flare = 0.01;
        scene.noise = 1;
    }
    qint64 store(qint64 print, const QImage& image, const char* name = "sheet.png")
    {
        return storePhoto(*this, print, encode(image, "PNG"), "day_after", name);
    }
    void openStored(unsigned seed = 7)
    {
        photo = store(first, render(scene, seed));
        openDesk();
    }
    /// A new desk on the stored photo.
    void openDesk()
    {
        reading.reset();
        reading = std::make_unique<ui::ReadingDesk>(services(), first);
        reading->show();
        reading->addStored(photo);
        settle();
    }
    void settle()
    {
        waitWhile([&] { return reading->working() || reading->straightView()->working(); });
        ASSERT_FALSE(reading->working());
    }
    void drag(ui::MarkRole role, density::Point from, density::Point to)
    {
        const auto map = *density::Perspective::ontoCorners(scene.corners);
        dragPixels(role, *map.toPhoto(from), *map.toPhoto(to));
    }
    void dragPixels(ui::MarkRole role, density::Point from, density::Point to)
    {
        reading->roleBox()->setCurrentIndex(int(role));
        dragOver(*reading->canvas(), from, to);
        settle();
    }
    void enter() { QTest::keyClick(reading->enterButton(), Qt::Key_Space); }
    /// A column of each reading of a print, in the order of their ids.
    [[nodiscard]] std::vector<Known> readings(qint64 print, const char* column)
    {
        std::vector<Known> all;
        const auto& notebook = DeskFixture::desk().notebook();
        for (const int row : notebook.children(Entity::Reading, print))
            all.push_back(
                notebook.get({ Entity::Reading, notebook.table(Entity::Reading).id(row) }, test::text(column)));
        return all;
    }
    [[nodiscard]] std::string says() const { return reading->says().toStdString(); }
    [[nodiscard]] ui::MarkedPhoto& current() const { return *reading->current(); }

    Scene scene;
    std::unique_ptr<ui::ReadingDesk> reading;
    qint64 first = 0, other = 0, photo = 0;
};

} // namespace washfast::test
