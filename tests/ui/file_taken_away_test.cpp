// The window when the file of its notebook is moved, removed or replaced: one line above the views says so, no boxes
// pile up, and it goes on when it can.
#include "app/window/main_window.h"
#include "app/window/wiring.h"
#include "tests/support/desk_fixture.h"

#include <QLabel>
#include <QMenu>
#include <QSignalSpy>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::HasSubstr;

namespace {

class FileTakenAway : public testing::Test {
protected:
    void SetUp() override
    {
        const auto session = room_.add(Entity::Session, { { "session_code", "A" } });
        room_.sit(session);
        room_.print("A1");
        room_.reopen(); // so that all of it is in the file
        copy_ = room_.path() + QStringLiteral(".older");
        ASSERT_TRUE(room_.desk().file().copyTo(copy_));
        room_.print("A2");
        room_.expectTrouble();
        window_ = std::make_unique<MainWindow>(room_.services(), allViews());
        window_->show();
    }
    void TearDown() override { window_.reset(); }

    [[nodiscard]] QString banner() const
    {
        for (auto* label : window_->centralWidget()->findChildren<QLabel*>(QString(), Qt::FindDirectChildrenOnly))
            if (label->isVisible())
                return label->text();
        return {};
    }
    /// What the timer does twice a second.
    void turn(int times = 1)
    {
        for (int time = 0; time < times; ++time)
            room_.desk().lookForChanges();
    }
    [[nodiscard]] bool enter()
    {
        return room_.desk().setPrintField({ 1 }, QStringLiteral("coat_passes"), Known { 4.0 });
    }
    [[nodiscard]] QStringList errors() const { return room_.dialogs.texts(QStringLiteral("error")); }
    void rename(const QString& from, const QString& to) const
    {
        ASSERT_EQ(std::rename(QFile::encodeName(from).constData(), QFile::encodeName(to).constData()), 0);
    }

    DeskFixture room_;
    QString copy_;
    std::unique_ptr<MainWindow> window_;
};

} // namespace

TEST_F(FileTakenAway, IsSaidInALineAndNotInBoxes)
{
    EXPECT_EQ(banner(), QString());
    QSignalSpy told(&room_.desk(), &ui::Desk::standingChanged);
    rename(room_.path(), room_.path() + QStringLiteral(".away"));
    turn(10);
    EXPECT_EQ(told.count(), 1);
    EXPECT_THAT(banner().toStdString(), HasSubstr("was moved, renamed or deleted while it was open"));
    EXPECT_THAT(banner().toStdString(), HasSubstr("notebook-rescued.washfast"));
    EXPECT_EQ(errors(), QStringList());
    EXPECT_EQ(room_.desk().notebook().prints().rows(), 2) << "what was read is still shown";
    EXPECT_FALSE(enter());
    EXPECT_EQ(errors().size(), 1) << "an entry that is not saved is told";
    for (int view = 0; view < window_->count(); ++view)
        window_->go(view);
    EXPECT_EQ(errors().size(), 1);
    rename(room_.path() + QStringLiteral(".away"), room_.path());
    turn();
    EXPECT_EQ(banner(), QString());
    EXPECT_EQ(told.count(), 2);
    EXPECT_TRUE(enter());
    EXPECT_EQ(room_.number(1, "coat_passes"), 4.0);
    EXPECT_EQ(errors().size(), 1);
}

TEST_F(FileTakenAway, AnotherFileInItsPlaceIsShownAfterTheNextEntry)
{
    rename(copy_, room_.path());
    turn(3);
    EXPECT_THAT(banner().toStdString(), HasSubstr("Another file was put in the place of notebook.washfast"));
    EXPECT_EQ(room_.desk().notebook().prints().rows(), 2);
    QSignalSpy reloaded(&room_.desk(), &ui::Desk::reloaded);
    EXPECT_FALSE(enter());
    EXPECT_EQ(reloaded.count(), 1);
    EXPECT_EQ(room_.desk().notebook().prints().rows(), 1);
    EXPECT_EQ(banner(), QString());
    ASSERT_EQ(errors().size(), 1);
    EXPECT_THAT(errors()[0].toStdString(), HasSubstr("notebook-rescued.washfast"));
    EXPECT_TRUE(enter());
    EXPECT_EQ(room_.number(1, "coat_passes"), 4.0);
}

TEST_F(FileTakenAway, IsSaidAtTheLastMomentWhenTheWindowIsClosed)
{
    rename(room_.path(), room_.path() + QStringLiteral(".away"));
    window_->close();
    ASSERT_EQ(errors().size(), 1);
    EXPECT_THAT(errors()[0].toStdString(), HasSubstr("notebook-rescued.washfast"));
}

} // namespace WASHFAST_FILE
