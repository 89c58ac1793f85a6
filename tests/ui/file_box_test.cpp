// The box for choosing a file never opens one, whatever is listed, selected or typed, and leaves an open notebook its
// locks.
#include "tests/support/desk_fixture.h"
#include "tests/support/file_boxes.h"
#include "tests/support/kernel_locks.h"
#include "ui/common/file_box.h"

#include <QDialogButtonBox>
#include <QListView>
#include <sys/inotify.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

/// What any process opens in a folder, by the system's own word.
class OpenedIn {
public:
    explicit OpenedIn(const QString& folder)
        : watch_(inotify_init1(IN_NONBLOCK | IN_CLOEXEC))
    {
        if (inotify_add_watch(watch_, QFile::encodeName(folder).constData(), IN_OPEN) < 0)
            throw std::runtime_error("the folder cannot be watched");
    }
    ~OpenedIn() { close(watch_); }
    OpenedIn(const OpenedIn&) = delete;
    OpenedIn& operator=(const OpenedIn&) = delete;

    [[nodiscard]] QStringList files() const
    {
        QStringList names;
        alignas(inotify_event) char buffer[16384];
        for (ssize_t got = 0; (got = ::read(watch_, buffer, sizeof buffer)) > 0;)
            for (const char* at = buffer; at < buffer + got;) {
                const auto* event = reinterpret_cast<const inotify_event*>(at);
                if (!(event->mask & IN_ISDIR) && event->len > 0)
                    names << QFile::decodeName(event->name);
                at += sizeof(inotify_event) + event->len;
            }
        return names;
    }

private:
    int watch_;
};

class FileBoxes : public testing::Test {
protected:
    void SetUp() override
    {
        room_.print("A1");
        for (const char* name : { "letter", "picture.jpg", "table.csv", "other.washfast" }) {
            QFile file(folder_ + QLatin1Char('/') + QString::fromLatin1(name));
            ASSERT_TRUE(file.open(QIODevice::WriteOnly));
            file.write("bytes of some kind");
        }
        locks_ = locksOn(room_.path());
        ASSERT_GT(locks_, 0);
        opened_ = std::make_unique<OpenedIn>(folder_);
    }
    void expectUntouched()
    {
        EXPECT_EQ(opened_->files(), QStringList());
        EXPECT_EQ(locksOn(room_.path()), locks_);
        EXPECT_EQ(locksOn(room_.path() + QStringLiteral("-shm")) > 0, true);
    }

    DeskFixture room_;
    const QString folder_ = QFileInfo(room_.path()).absolutePath();
    const QStringList filters_ { QStringLiteral("Notebooks (*.washfast)"), QStringLiteral("All files (*)") };
    ui::QtDialogs dialogs_;
    std::unique_ptr<OpenedIn> opened_;
    int locks_ = 0;
};

} // namespace

TEST_F(FileBoxes, OpeningAndEscape)
{
    EXPECT_TRUE(escapeFromOpenBox(room_.path()));
    expectUntouched();
}

TEST_F(FileBoxes, SeveralFilesOfAnyKind)
{
    QStringList chosen;
    EXPECT_TRUE(withFileBox(
        room_.path(),
        [&] {
            chosen
                = dialogs_.openFiles(nullptr, QStringLiteral("Photos"), folder_, { QStringLiteral("All files (*)") });
        },
        [&](QFileDialog& box) {
            auto* list = box.findChild<QListView*>(QStringLiteral("listView"));
            EXPECT_TRUE(QTest::qWaitFor([&] { return list->model()->rowCount(list->rootIndex()) >= 5; }));
            list->selectAll();
            box.setViewMode(QFileDialog::Detail);
            QCoreApplication::processEvents();
            QTest::keyClick(box.findChild<QLineEdit*>(), Qt::Key_Return);
        }));
    EXPECT_GE(chosen.size(), 5);
    expectUntouched();
}

TEST_F(FileBoxes, ANameThatIsTypedAndCompleted)
{
    std::optional<QString> chosen;
    EXPECT_TRUE(withFileBox(
        room_.path(), [&] { chosen = dialogs_.openFile(nullptr, QStringLiteral("Open notebook"), folder_, filters_); },
        [](QFileDialog& box) {
            auto* line = box.findChild<QLineEdit*>();
            QTest::keyClicks(line, QStringLiteral("note"));
            QCoreApplication::processEvents();
            QTest::keyClicks(line, QStringLiteral("book.washfast"));
            QTest::keyClick(line, Qt::Key_Return);
        }));
    EXPECT_EQ(chosen, room_.path());
    expectUntouched();
}

TEST_F(FileBoxes, SavingBesideTheNotebook)
{
    std::optional<QString> chosen;
    EXPECT_TRUE(withFileBox(
        room_.path(),
        [&] {
            chosen = dialogs_.saveFile(
                nullptr, QStringLiteral("New notebook"), folder_ + QStringLiteral("/fresh.washfast"), { filters_[0] });
        },
        [](QFileDialog& box) { QTest::keyClick(box.findChild<QLineEdit*>(), Qt::Key_Return); }));
    EXPECT_EQ(chosen, folder_ + QStringLiteral("/fresh.washfast"));
    expectUntouched();
}

TEST_F(FileBoxes, KindsAndIconsGoByTheName)
{
    const ui::IconsByName icons;
    EXPECT_EQ(icons.type(QFileInfo(folder_)), QStringLiteral("Folder"));
    EXPECT_EQ(icons.type(QFileInfo(room_.path())), QStringLiteral("washfast file"));
    EXPECT_EQ(icons.type(QFileInfo(folder_ + QStringLiteral("/letter"))), QStringLiteral("File"));
    EXPECT_FALSE(icons.icon(QFileInfo(room_.path())).isNull());
    EXPECT_NE(icons.icon(QFileInfo(folder_)).cacheKey(), icons.icon(QFileInfo(room_.path())).cacheKey());
    for (const auto type : { QAbstractFileIconProvider::Computer, QAbstractFileIconProvider::Trashcan,
             QAbstractFileIconProvider::Drive, QAbstractFileIconProvider::Folder, QAbstractFileIconProvider::File })
        EXPECT_FALSE(icons.icon(type).isNull());
    expectUntouched();
}

} // namespace WASHFAST_FILE
