// The view of prints side by side: adding, taking out, at most eight, and tones that are those that were measured.
#include "ui/beside/beside_view.h"

#include "tests/support/prints_fixture.h"
#include "ui/beside/beside_model.h"
#include "ui/beside/tone_row.h"
#include "ui/common/empty_state.h"

#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QHeaderView>
#include <QImage>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::BesideView;

namespace {

class BesideViewTest : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        for (int i = 1; i <= 10; ++i)
            prints << room.toned(("A1-" + std::to_string(i)).c_str(), 0.9, 0.05 * i + 0.2);
        view = std::make_unique<BesideView>(room.services());
        view->resize(1100, 700);
        QObject::connect(view.get(), &ui::View::say, view.get(), [this](const QString& sentence) { said << sentence; });
        static_cast<QWidget&>(*view).show();
        view->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(view.get()));
        view->arrive();
    }
    void type(const char* code)
    {
        auto* line = view->findChild<QLineEdit*>();
        line->setFocus();
        QTest::keyClicks(line, text(code));
        QTest::keyClick(line, Qt::Key_Return);
    }
    [[nodiscard]] QTableView* table() const { return view->findChild<QTableView*>(); }
    [[nodiscard]] ui::ToneRow* tones() const { return view->findChild<ui::ToneRow*>(); }
    void press(const char* label)
    {
        for (auto* button : view->findChildren<QPushButton*>())
            if (button->text().remove(QLatin1Char('&')) == text(label))
                QTest::mouseClick(button, Qt::LeftButton);
    }

    PrintsFixture room;
    std::unique_ptr<BesideView> view;
    QVector<qint64> prints;
    QStringList said;
};

TEST_F(BesideViewTest, EmptyItOffersTheRunningSessionsLastPrints)
{
    auto* empty = view->findChild<ui::EmptyState*>();
    ASSERT_TRUE(empty->isVisible());
    QTest::mouseClick(empty->button(), Qt::LeftButton);
    EXPECT_EQ(view->model()->prints(), prints.mid(7));
    EXPECT_TRUE(table()->isVisible());
}

TEST_F(BesideViewTest, EightAreTheMostAndThatIsSaid)
{
    view->setPrints(prints);
    EXPECT_EQ(view->model()->prints(), prints.mid(0, 8));
    EXPECT_EQ(said.size(), 1);
    type("A1-9");
    EXPECT_EQ(view->model()->prints().size(), 8);
    EXPECT_EQ(said.size(), 2);
}

TEST_F(BesideViewTest, APrintIsAddedByItsCodeInAnyCaseAndOnce)
{
    type("a1-3");
    type("A1-4");
    type("A1-3");
    EXPECT_EQ(view->model()->prints(), (QVector<qint64> { prints[2], prints[3] }));
    EXPECT_TRUE(said.isEmpty());
    type("B7");
    ASSERT_EQ(said.size(), 1);
    EXPECT_TRUE(said[0].contains(text("B7")));
    EXPECT_EQ(view->model()->prints().size(), 2);
}

TEST_F(BesideViewTest, TheColumnWithTheCursorIsTakenOut)
{
    view->setPrints({ prints[0], prints[1], prints[2] });
    table()->setCurrentIndex(view->model()->index(0, 1));
    press("Take out");
    EXPECT_EQ(view->model()->prints(), (QVector<qint64> { prints[0], prints[2] }));
    press("Take out");
    press("Take out");
    press("Take out");
    EXPECT_TRUE(view->model()->prints().isEmpty());
    EXPECT_TRUE(view->findChild<ui::EmptyState*>()->isVisible());
}

TEST_F(BesideViewTest, TheTickShowsTheSameToo)
{
    view->setPrints({ prints[0], prints[1] });
    const int differing = view->model()->rowCount();
    QTest::keyClick(view->findChild<QCheckBox*>(), Qt::Key_Space);
    EXPECT_GT(view->model()->rowCount(), differing);
}

TEST_F(BesideViewTest, CopiesATable)
{
    view->setPrints({ prints[0], prints[1] });
    press("Copy as a table");
    EXPECT_EQ(QApplication::clipboard()->text(), view->model()->asTable());
    QApplication::clipboard()->clear();
    table()->setFocus();
    QTest::keyClick(table(), Qt::Key_C, Qt::ControlModifier);
    EXPECT_EQ(QApplication::clipboard()->text(), view->model()->asTable());
    EXPECT_EQ(said.size(), 2);
}

// CIE Lab (D50) to sRGB, worked out with the ICC profile of sRGB's own numbers by another implementation; see the
// sources at labD50ToSrgb, whose own test holds the published values. Here: that what stands on the screen is that
// colour.
TEST_F(BesideViewTest, TonesAreTheMeasuredColours)
{
    const auto measured = room.print("B-1");
    room.lab(room.reading(measured, "before_rinse", "deepest", 0.9), 42.0, -4.0, 7.0);
    room.lab(room.reading(measured, "day_after", "deepest", 1.1), 33.0, 3.0, -35.0);
    view->setPrints({ measured, prints[0] });
    QTest::qWait(30);
    const QImage shown = tones()->grab().toImage().convertToFormat(QImage::Format_RGB32);
    const double scale = shown.devicePixelRatio();
    const double left = table()->verticalHeader()->width() + table()->frameWidth() + table()->columnViewportPosition(0);
    const double width = table()->columnWidth(0);
    const auto at = [&](double share) {
        return shown.pixelColor(int((left + width * share) * scale), int(tones()->height() * scale / 2));
    };
    EXPECT_EQ(at(0.25), ui::labD50ToSrgb(42.0, -4.0, 7.0));
    EXPECT_EQ(at(0.75), ui::labD50ToSrgb(33.0, 3.0, -35.0));
    EXPECT_TRUE(tones()->accessibleDescription().contains(text("42")))
        << tones()->accessibleDescription().toStdString();
}

TEST_F(BesideViewTest, ClickingATonePairOrAHeadingTwiceOpensThePrint)
{
    view->setPrints({ prints[0], prints[1] });
    QTest::qWait(30);
    QSignalSpy opened(view.get(), &ui::View::openPrint);
    const int left
        = table()->verticalHeader()->width() + table()->columnViewportPosition(1) + table()->columnWidth(1) / 2;
    QTest::mouseClick(tones(), Qt::LeftButton, Qt::NoModifier, { left, tones()->height() / 2 });
    ASSERT_EQ(opened.size(), 1);
    EXPECT_EQ(opened[0][0].toLongLong(), prints[1]);
    auto* header = table()->horizontalHeader();
    const QPoint place(header->sectionViewportPosition(0) + 20, header->height() / 2);
    QTest::mouseClick(header->viewport(), Qt::LeftButton, Qt::NoModifier, place);
    QTest::mouseDClick(header->viewport(), Qt::LeftButton, Qt::NoModifier, place);
    ASSERT_EQ(opened.size(), 2);
    EXPECT_EQ(opened[1][0].toLongLong(), prints[0]);
}

TEST_F(BesideViewTest, NoTextOfAFewWordsIsCutOff)
{
    room.set({ Entity::Print, prints[0] }, "print_notes", "dried by the window and turned over once");
    view->setPrints(prints.mid(0, 8));
    QTest::qWait(60);
    for (int row = 0; row < view->model()->rowCount(); ++row)
        for (int column = 0; column < view->model()->columnCount(); ++column) {
            const auto words = view->model()->index(row, column).data().toString();
            const auto needed = table()->fontMetrics().boundingRect(
                QRect(0, 0, table()->columnWidth(column) - 12, 0), Qt::TextWordWrap, words);
            EXPECT_LE(needed.height(), table()->rowHeight(row)) << words.toStdString();
        }
}

} // namespace

} // namespace WASHFAST_FILE
