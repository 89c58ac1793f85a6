// From dropped photos to the Reading desk with one key.
#include "tests/support/reading_fixture.h"
#include "ui/prints/photo_strip.h"

#include <QApplication>
#include <QDragEnterEvent>
#include <QListWidget>
#include <QMimeData>
#include <QUrl>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::MarkRole;

namespace {

class ReadingDrop : public testing::Test {
protected:
    void SetUp() override
    {
        strip = std::make_unique<ui::PhotoStrip>(room.services());
        strip->resize(600, 400);
        strip->setPrint(room.first);
        strip->show();
        QObject::connect(&room.desk(), &ui::Desk::changed, strip.get(), &ui::PhotoStrip::refresh);
        room.scene.patches = { { "white", 0.05, 0.05, 0.2, 0.3, { 0.05, 0.05, 0.05 } },
            { "grey", 0.3, 0.05, 0.2, 0.3, { 0.75, 0.75, 0.75 } }, { "deep", 0.05, 0.5, 0.3, 0.4, { 1.1, 0.9, 0.6 } } };
    }
    /// Drops rendered photos as a file manager does it.
    void drop(const QStringList& names)
    {
        QMimeData data;
        QList<QUrl> urls;
        for (const auto& name : names) {
            const auto path = folder.filePath(name);
            ASSERT_TRUE(render(room.scene, ++seed).save(path));
            urls << QUrl::fromLocalFile(path);
        }
        data.setUrls(urls);
        QDragEnterEvent enter({ 5, 5 }, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(strip.get(), &enter);
        ASSERT_TRUE(enter.isAccepted());
        QDropEvent event({ 5, 5 }, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(strip.get(), &event);
        QCoreApplication::processEvents();
    }
    /// Takes over the desk that the strip has opened.
    void takeDesk()
    {
        auto* opened = strip->findChild<ui::ReadingDesk*>();
        ASSERT_NE(opened, nullptr);
        EXPECT_TRUE(opened->isVisible());
        opened->setAttribute(Qt::WA_DeleteOnClose, false);
        opened->setParent(nullptr);
        opened->show();
        room.reading.reset(opened);
        room.settle();
    }

    ReadingFixture room;
    QTemporaryDir folder;
    std::unique_ptr<ui::PhotoStrip> strip;
    unsigned seed = 20;
};

TEST_F(ReadingDrop, SeveralPhotosOpenInOneDeskWithOneKey)
{
    EXPECT_FALSE(strip->offerButton()->isVisible());
    drop({ text("one.png"), text("two.png") });
    ASSERT_TRUE(strip->offerButton()->isVisible());
    EXPECT_TRUE(strip->offerButton()->text().contains(text("2"))) << strip->offerButton()->text().toStdString();
    QApplication::setActiveWindow(strip.get());
    ASSERT_TRUE(strip->offerButton()->hasFocus()) << "no search for it by the keys";
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
    EXPECT_FALSE(strip->offerButton()->isVisible());
    takeDesk();
    ASSERT_EQ(room.reading->photoBox()->count(), 2);
    EXPECT_EQ(room.current().name, text("one.png")) << "the first of them is shown";
    for (int i = 0; i < 2; ++i) { // each photo has marks of its own
        room.drag(MarkRole::White, { 0.1, 0.1 }, { 0.2, 0.3 });
        room.drag(MarkRole::Grey, { 0.35, 0.1 }, { 0.45, 0.3 });
        room.drag(MarkRole::Deepest, { 0.1, 0.6 }, { 0.3, 0.8 });
        ASSERT_EQ(room.current().marks.size(), 3u);
        EXPECT_NEAR(*room.current().measured->regions[2].red.density, 1.1, 0.05);
        if (i > 0) // the second photo reads the same spot a little differently
            room.dialogs.willAnswer(1);
        room.enter();
        EXPECT_TRUE(room.dialogs.allUsed());
        EXPECT_EQ(room.childrenOf(room.first, Entity::Reading), 1) << "the same spot and moment";
        const auto& photos = room.desk().notebook().table(Entity::Photo);
        EXPECT_EQ(room.readings(room.first, "reading_photo").at(0).link(), photos.id(i));
        QTest::keyClick(room.reading->photoBox(), Qt::Key_Down);
        room.settle();
    }
}

TEST_F(ReadingDrop, AnotherPrintIsNotOfferedThesePhotos)
{
    drop({ text("one.png") });
    ASSERT_TRUE(strip->offerButton()->isVisible());
    strip->setPrint(room.other);
    EXPECT_FALSE(strip->offerButton()->isVisible());
}

TEST_F(ReadingDrop, AChosenPhotoIsOpenedWithoutTheOffer)
{
    drop({ text("one.png"), text("two.png") });
    ASSERT_EQ(strip->list()->count(), 2);
    strip->list()->item(1)->setSelected(true);
    strip->readDensity();
    takeDesk();
    EXPECT_EQ(room.reading->photoBox()->count(), 1);
    EXPECT_EQ(room.current().name, text("two.png"));
}

} // namespace

} // namespace WASHFAST_FILE
