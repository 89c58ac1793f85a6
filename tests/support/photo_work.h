// What the tests of the views that work on photos share: storing a photo, waiting for work beside the window, and
// dragging over a part of a photo with the mouse.
#pragma once

#include "core/density/quadrilateral.h"
#include "tests/support/prints_fixture.h"

#include <QElapsedTimer>
#include <QTest>

namespace washfast::test {

/// Stores the bytes of a photo with a print and gives the photo's id.
inline qint64 storePhoto(DeskFixture& room, qint64 print, const QByteArray& bytes, const char* stage, const char* name)
{
    qint64 id = 0;
    EXPECT_TRUE(room.desk().perform(text("photo"), [&](store::Writer& writer) -> Outcome {
        const auto added = writer.addPhoto(print, bytes,
            { { text("photo_name"), Known { text(name) } }, { text("photo_stage"), Known { text(stage) } } });
        if (!added)
            return added.error();
        id = *added;
        return Done {};
    }));
    return id;
}

/// Lets the window go on until `working` says no; a minute at the most.
template <typename Working> void waitWhile(const Working& working)
{
    QElapsedTimer waited;
    waited.start();
    do
        QTest::qWait(10);
    while (working() && waited.elapsed() < 60000);
}

/// Draws with the left button from one place of the photo to another.
template <typename Canvas> void dragOver(Canvas& canvas, density::Point from, density::Point to)
{
    const auto at = [&](density::Point photo) { return canvas.toWidget(photo).toPoint(); };
    QTest::mousePress(&canvas, Qt::LeftButton, {}, at(from));
    QTest::mouseMove(&canvas, at({ (from.x + to.x) / 2, (from.y + to.y) / 2 }));
    QTest::mouseRelease(&canvas, Qt::LeftButton, {}, at(to));
}

} // namespace washfast::test
