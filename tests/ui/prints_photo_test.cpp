// Photos of a print: dropping files in, what is refused and why, turning upright, removing.
#include "ui/prints/photo_strip.h"

#include "tests/support/prints_fixture.h"
#include "ui/prints/photo_reading.h"
#include "ui/prints/print_page.h"

#include <QApplication>
#include <QBuffer>
#include <QDir>
#include <QDragEnterEvent>
#include <QImage>
#include <QListWidget>
#include <QMimeData>
#include <QPainter>
#include <QSignalSpy>
#include <QTabWidget>
#include <QTest>
#include <QTimer>
#include <QUrl>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::PhotoStrip;

namespace {

QByteArray encoded(const QImage& image, const char* format)
{
    QByteArray bytes;
    QBuffer buffer(&bytes);
    buffer.open(QIODevice::WriteOnly);
    EXPECT_TRUE(image.save(&buffer, format, 90));
    return bytes;
}

/// Wide, its left half dark.
QImage wide()
{
    QImage image(240, 120, QImage::Format_RGB32);
    image.fill(QColor(230, 230, 220));
    QPainter painter(&image);
    painter.fillRect(0, 0, 120, 120, QColor(15, 61, 102));
    return image;
}

/// A JPEG with an orientation tag, written by hand: an APP1 segment right after the start of image, with "Exif" and a
/// TIFF header of one directory with one entry. CIPA DC-008-2019 (Exif 2.32), 4.5.4 and 4.6.4: tag 0x0112 Orientation,
/// type SHORT (3), value 6: the 0th row is the right side of the picture as it should be seen.
QByteArray turned(const QByteArray& jpeg, char orientation)
{
    QByteArray app1("\xFF\xE1\x00\x22"
                    "Exif\x00\x00"
                    "MM\x00\x2A\x00\x00\x00\x08"
                    "\x00\x01"
                    "\x01\x12\x00\x03\x00\x00\x00\x01\x00",
        4 + 6 + 8 + 2 + 9);
    app1 += orientation;
    app1 += QByteArray("\x00\x00\x00\x00\x00\x00", 6);
    EXPECT_EQ(app1.size(), 2 + 0x22);
    return jpeg.left(2) + app1 + jpeg.mid(2);
}

class Photos : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        print = room.print("A1-01");
        strip = std::make_unique<PhotoStrip>(room.services());
        strip->resize(600, 400);
        strip->setPrint(print);
        strip->show();
        QObject::connect(&room.desk(), &ui::Desk::changed, strip.get(), &PhotoStrip::refresh);
        QObject::connect(
            strip.get(), &PhotoStrip::say, strip.get(), [this](const QString& sentence) { said << sentence; });
    }
    QString put(const char* name, const QByteArray& bytes)
    {
        const auto path = folder.filePath(text(name));
        QFile file(path);
        EXPECT_TRUE(file.open(QIODevice::WriteOnly) && file.write(bytes) == bytes.size());
        return path;
    }
    /// As a file manager does it.
    static void drop(QWidget& onto, const QStringList& paths)
    {
        QMimeData data;
        QList<QUrl> urls;
        for (const auto& path : paths)
            urls << QUrl::fromLocalFile(path);
        data.setUrls(urls);
        QDragEnterEvent enter({ 5, 5 }, Qt::CopyAction | Qt::MoveAction, &data, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(&onto, &enter);
        ASSERT_TRUE(enter.isAccepted());
        QDropEvent event({ 5, 5 }, Qt::CopyAction | Qt::MoveAction, &data, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(&onto, &event);
        EXPECT_EQ(event.dropAction(), Qt::CopyAction) << "the file stays where it is";
        QCoreApplication::processEvents();
    }
    /// A column of the photo that was stored last.
    [[nodiscard]] Known of(const char* column)
    {
        const auto& notebook = room.desk().notebook();
        const auto& photos = notebook.table(Entity::Photo);
        return notebook.get({ Entity::Photo, photos.id(photos.rows() - 1) }, text(column));
    }
    [[nodiscard]] QStringList refusals() const { return room.dialogs.texts(text("message")); }

    PrintsFixture room;
    QTemporaryDir folder;
    std::unique_ptr<PhotoStrip> strip;
    QStringList said;
    qint64 print = 0;
};

TEST_F(Photos, ADroppedJpegIsStoredByteForByte)
{
    const auto bytes = encoded(wide(), "JPEG");
    drop(*strip, { put("sheet one.jpg", bytes) });
    ASSERT_EQ(strip->count(), 1);
    EXPECT_EQ(said.size(), 1);
    EXPECT_EQ(of("photo_name").text(), text("sheet one.jpg"));
    EXPECT_EQ(of("photo_format").text(), text("jpeg"));
    EXPECT_EQ(of("photo_width_px").number(), 240);
    EXPECT_EQ(of("photo_height_px").number(), 120);
    EXPECT_EQ(of("photo_bytes").number(), double(bytes.size()));
    const auto& photos = room.desk().notebook().table(Entity::Photo);
    const auto stored = room.desk().file().photo(PhotoId { photos.id(0) });
    ASSERT_TRUE(stored);
    EXPECT_EQ(*stored, bytes);
    ASSERT_EQ(strip->list()->count(), 1);
    EXPECT_FALSE(strip->list()->item(0)->icon().isNull());
    EXPECT_TRUE(strip->list()->item(0)->text().contains(text("sheet one.jpg")));
}

TEST_F(Photos, EveryKindThatIsPromisedIsTaken)
{
    drop(*strip,
        { put("a.png", encoded(wide(), "PNG")), put("b.tif", encoded(wide(), "TIFF")),
            put("c.webp", encoded(wide(), "WEBP")) });
    EXPECT_EQ(refusals(), QStringList());
    EXPECT_EQ(strip->count(), 3);
    room.undo();
    EXPECT_EQ(strip->count(), 0) << "one step";
}

TEST_F(Photos, WhatIsNoPictureIsRefusedByNameAndTheGoodOnesAreTaken)
{
    drop(*strip, { put("notes.txt", "no picture"), put("good.png", encoded(wide(), "PNG")), put("empty.jpg", {}) });
    EXPECT_EQ(strip->count(), 1);
    ASSERT_EQ(refusals().size(), 1) << "all refusals in one message";
    EXPECT_TRUE(refusals()[0].contains(text("notes.txt")));
    EXPECT_TRUE(refusals()[0].contains(text("empty.jpg")));
    EXPECT_FALSE(refusals()[0].contains(text("good.png")));
}

TEST_F(Photos, AWrongEndingDoesNotMatter)
{
    drop(*strip, { put("really a png.jpg", encoded(wide(), "PNG")) });
    EXPECT_EQ(of("photo_format").text(), text("png"));
}

TEST_F(Photos, APictureThatIsCutOffIsRefused)
{
    const auto jpeg = encoded(wide(), "JPEG");
    const auto png = encoded(wide(), "PNG");
    drop(*strip,
        { put("half.jpg", jpeg.left(jpeg.size() * 3 / 4)), put("last byte.jpg", jpeg.left(jpeg.size() - 2)),
            put("half.png", png.left(png.size() / 2)) });
    EXPECT_EQ(strip->count(), 0);
    ASSERT_EQ(refusals().size(), 1);
    for (const auto* name : { "half.jpg", "last byte.jpg", "half.png" })
        EXPECT_TRUE(refusals()[0].contains(text(name))) << refusals()[0].toStdString();
}

TEST_F(Photos, WhatACameraWritesBehindThePictureIsNoFault)
{
    drop(*strip, { put("with more.jpg", encoded(wide(), "JPEG") + QByteArray(5000, 'x')) });
    EXPECT_EQ(refusals(), QStringList());
    EXPECT_EQ(strip->count(), 1);
}

TEST_F(Photos, TheVerySamePhotoIsNotStoredTwice)
{
    const auto bytes = encoded(wide(), "JPEG");
    drop(*strip, { put("one.jpg", bytes) });
    drop(*strip, { put("two.jpg", bytes) });
    EXPECT_EQ(strip->count(), 1);
    ASSERT_EQ(refusals().size(), 1);
    EXPECT_TRUE(refusals()[0].contains(text("two.jpg")));
    drop(*strip, { put("three.png", encoded(wide(), "PNG")), put("four.png", encoded(wide(), "PNG")) });
    EXPECT_EQ(strip->count(), 2) << "nor twice in one drop";
}

TEST_F(Photos, TheOrientationTagTurnsThePictureUpright)
{
    const auto bytes = turned(encoded(wide(), "JPEG"), 6);
    drop(*strip, { put("turned.jpg", bytes) });
    ASSERT_EQ(refusals(), QStringList());
    EXPECT_EQ(of("photo_width_px").number(), 120);
    EXPECT_EQ(of("photo_height_px").number(), 240);
    const auto picture = ui::uprightPicture(bytes, { 60, 60 });
    ASSERT_EQ(picture.size(), QSize(30, 60)) << "fits, and keeps its shape";
    EXPECT_LT(picture.pixelColor(15, 10).lightness(), 100) << "the left half of the file is the top";
    EXPECT_GT(picture.pixelColor(15, 50).lightness(), 180);
}

TEST_F(Photos, RemovingIsUndone)
{
    drop(*strip, { put("one.jpg", encoded(wide(), "JPEG")) });
    strip->list()->setFocus();
    strip->list()->item(0)->setSelected(true);
    QTest::keyClick(strip->list(), Qt::Key_Delete);
    EXPECT_EQ(strip->count(), 0);
    EXPECT_EQ(strip->list()->count(), 0);
    room.undo();
    EXPECT_EQ(strip->count(), 1);
    EXPECT_EQ(strip->list()->count(), 1);
}

TEST_F(Photos, EnlargingShowsIt)
{
    drop(*strip, { put("one.jpg", encoded(wide(), "JPEG")) });
    strip->list()->item(0)->setSelected(true);
    QString title;
    QTimer::singleShot(0, strip.get(), [&] {
        auto* dialog = QApplication::activeModalWidget();
        ASSERT_NE(dialog, nullptr);
        title = dialog->windowTitle();
        dialog->close();
    });
    strip->enlarge();
    EXPECT_EQ(title, text("one.jpg"));
}

TEST_F(Photos, AFileThatIsGoneIsSaid)
{
    EXPECT_EQ(strip->addFiles({ folder.filePath(text("gone.jpg")) }), 0);
    ASSERT_EQ(refusals().size(), 1);
    EXPECT_TRUE(refusals()[0].contains(text("gone.jpg")));
}

TEST_F(Photos, ThePageTakesAFileWhereverItIsDropped)
{
    ui::PrintPage page(room.services());
    page.setPrint(print);
    page.show();
    drop(page, { put("one.jpg", encoded(wide(), "JPEG")) });
    EXPECT_EQ(page.photos()->count(), 1);
    EXPECT_EQ(page.tabs()->currentWidget(), page.photos());
}

TEST_F(Photos, TextThatIsDraggedIsNotTaken)
{
    QMimeData data;
    data.setText(text("A1-01"));
    QDragEnterEvent enter({ 5, 5 }, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    enter.ignore();
    QApplication::sendEvent(strip.get(), &enter);
    EXPECT_FALSE(enter.isAccepted());
}

} // namespace

} // namespace WASHFAST_FILE
