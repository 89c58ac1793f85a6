// One print's page: its head, the stations in the order of time, the rows that belong to it, and how it follows
// changes.
#include "ui/prints/print_page.h"

#include "tests/support/prints_fixture.h"
#include "ui/common/child_table.h"
#include "ui/common/field_editor.h"
#include "ui/common/print_form.h"
#include "ui/prints/photo_strip.h"
#include "ui/prints/station_section.h"
#include "ui/prints/tone_box.h"

#include <QApplication>
#include <QDialog>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTabWidget>
#include <QTableWidget>
#include <QTest>
#include <QTimer>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::PrintPage;

namespace {

class Page : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        print = room.toned("A1-01", 0.9, 0.5);
    }
    void open(bool readOnly = false)
    {
        if (readOnly)
            room.reopen(true);
        page = std::make_unique<PrintPage>(room.services());
        page->resize(700, 800);
        page->setPrint(print);
        page->show();
        page->activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(page.get()));
    }
    void TearDown() override { page.reset(); }
    [[nodiscard]] std::vector<Station> order() const
    {
        std::vector<Station> stations;
        for (const auto* section : page->sections())
            stations.push_back(section->station());
        return stations;
    }
    void set(const char* key, const char* time) { room.set({ Entity::Print, print }, key, time); }
    [[nodiscard]] QStringList labels() const
    {
        QStringList all;
        for (const auto* label : page->findChildren<QLabel*>())
            all << label->text();
        return all;
    }

    PrintsFixture room;
    std::unique_ptr<PrintPage> page;
    qint64 print = 0;
};

TEST_F(Page, HeadsWithTheCodeAndWhereItComesFrom)
{
    room.set({ Entity::Print, print }, "print_mix", room.m2);
    room.set({ Entity::Print, print }, "print_maker", "K4");
    open();
    EXPECT_TRUE(labels().contains(text("A1-01")));
    EXPECT_TRUE(labels().contains(text("session A1, mix M2, made by K4")))
        << labels().join(QLatin1Char('|')).toStdString();
    EXPECT_FALSE(page->findChild<ui::ToneBox*>()->accessibleName().isEmpty());
}

TEST_F(Page, StationsStandInTheOrderOfTime)
{
    set("coat_start", "2026-05-04T10:00:00+02:00");
    set("dry_start", "2026-05-04T10:05:00+02:00");
    set("rinse_start", "2026-05-04T11:00:00+02:00");
    open();
    EXPECT_EQ(order(),
        (std::vector<Station> { Station::Coat, Station::Dry, Station::Expose, Station::Hold, Station::Rinse,
            Station::Read, Station::About }));
    // A sheet that was dried again after the exposure.
    set("dry_start", "2026-05-04T11:30:00+02:00");
    EXPECT_EQ(order(),
        (std::vector<Station> { Station::Coat, Station::Rinse, Station::Expose, Station::Hold, Station::Dry,
            Station::Read, Station::About }))
        << "those without a time keep their places";
    room.undo();
}

TEST_F(Page, StationsSayWhatIsKnownWithItsEvidenceAndNoMore)
{
    set("coat_start", "2026-05-04T10:00:00+02:00");
    set("coat_end", "2026-05-04T10:03:00+02:00");
    room.set({ Entity::Print, print }, "coat_volume_ml", Known { 0.6, Evidence::Estimated });
    open();
    const auto coat = page->section(Station::Coat)->shownText();
    EXPECT_TRUE(coat.contains(text("≈0.60"))) << coat.toStdString();
    EXPECT_TRUE(coat.contains(text("Mix on the sheet")));
    EXPECT_FALSE(coat.contains(text("Passes"))) << "what was not recorded is not shown as anything";
    EXPECT_TRUE(page->section(Station::Hold)->shownText().contains(text("nothing recorded")));
    EXPECT_EQ(page->section(Station::Coat)->begins(), at("2026-05-04T10:00:00+02:00"));
    EXPECT_TRUE(page->section(Station::Read)->shownText().contains(text("0.50"))) << "kept is worked out";
}

TEST_F(Page, TextsOfThePersonAreNoMarkup)
{
    room.set({ Entity::Print, print }, "rinse_tray", "<b>T1</b>");
    open();
    EXPECT_TRUE(page->section(Station::Rinse)->shownText().contains(text("&lt;b&gt;T1")))
        << page->section(Station::Rinse)->shownText().toStdString();
}

TEST_F(Page, AStationIsEditedInPlace)
{
    open();
    auto* coat = page->section(Station::Coat);
    QTest::mouseClick(coat->editButton(), Qt::LeftButton);
    ASSERT_NE(coat->form(), nullptr);
    auto* line = qobject_cast<QLineEdit*>(coat->form()->editor(text("coat_volume_ml"))->input());
    line->setFocus();
    QTest::keyClicks(line, text("0.62"));
    QTest::keyClick(line, Qt::Key_Return);
    EXPECT_EQ(room.number(print, "coat_volume_ml"), 0.62);
    QTest::mouseClick(coat->editButton(), Qt::LeftButton);
    EXPECT_TRUE(coat->shownText().contains(text("0.62")));
    EXPECT_FALSE(coat->form()->isVisible());
}

TEST_F(Page, AnOpenFormGoesAlongToTheNextPrint)
{
    const auto second = room.print("A1-02");
    room.set({ Entity::Print, second }, "coat_volume_ml", 0.7);
    open();
    auto* coat = page->section(Station::Coat);
    QTest::mouseClick(coat->editButton(), Qt::LeftButton);
    page->tabs()->setCurrentIndex(1); // not to be seen when the print changes
    page->setPrint(second);
    EXPECT_EQ(coat->form()->prints(), (QVector<qint64> { second }));
    page->tabs()->setCurrentIndex(0);
    EXPECT_EQ(qobject_cast<QLineEdit*>(coat->form()->editor(text("coat_volume_ml"))->input())->text(), text("0.7"));
}

TEST_F(Page, OutcomeIsSetByButtonsAndUndone)
{
    open();
    for (auto* button : page->outcome()->findChildren<QPushButton*>())
        if (button->text() == text("ran off"))
            QTest::mouseClick(button, Qt::LeftButton);
    EXPECT_EQ(room.text(print, "print_outcome"), "ran_off");
    for (auto* button : page->outcome()->findChildren<QPushButton*>())
        if (button->text() == text("fogged"))
            QTest::mouseClick(button, Qt::LeftButton);
    EXPECT_EQ(room.text(print, "print_outcome"), "ran_off; fogged");
    room.undo();
    room.undo();
    EXPECT_FALSE(room.get(print, "print_outcome").has());
    for (const auto* button : page->outcome()->findChildren<QPushButton*>())
        EXPECT_FALSE(button->isChecked()) << button->text().toStdString();
}

TEST_F(Page, NotesAreWrittenAtTheHead)
{
    open();
    auto* line = qobject_cast<QLineEdit*>(page->outcome()->editor(text("print_notes"))->input());
    line->setFocus();
    QTest::keyClicks(line, text("two hairs"));
    QTest::keyClick(line, Qt::Key_Return);
    EXPECT_EQ(room.text(print, "print_notes"), "two hairs");
}

TEST_F(Page, FollowsWhatChangesWhileItIsNotLookedAt)
{
    open();
    page->hide();
    room.set({ Entity::Print, print }, "coat_volume_ml", 0.62);
    EXPECT_FALSE(page->section(Station::Coat)->shownText().contains(text("0.62"))) << "not worked for nobody";
    page->show();
    EXPECT_TRUE(page->section(Station::Coat)->shownText().contains(text("0.62")));
}

TEST_F(Page, ClosesWhenThePrintIsRemoved)
{
    open();
    QSignalSpy closed(page.get(), &PrintPage::closed);
    room.desk().perform(text("Remove"), [&](store::Writer& writer) { return writer.remove(PrintId { print }); });
    EXPECT_EQ(closed.size(), 1);
}

TEST_F(Page, EscapeCloses)
{
    open();
    QSignalSpy closed(page.get(), &PrintPage::closed);
    QTest::keyClick(page.get(), Qt::Key_Escape);
    EXPECT_EQ(closed.size(), 1);
}

TEST_F(Page, ReadingsStandAsRowsWithTheColumnsThatHoldSomething)
{
    open();
    auto* readings = page->childTable(Entity::Reading);
    ASSERT_EQ(readings->rows(), 3);
    QStringList headings;
    for (int column = 0; column < readings->table()->columnCount(); ++column)
        headings << readings->table()->horizontalHeaderItem(column)->text();
    EXPECT_EQ(headings, texts({ "When", "Where", "Density", "Read by" }));
    EXPECT_EQ(readings->table()->item(0, 2)->text(), text("0.90"));
    EXPECT_EQ(page->childTable(Entity::Sign)->rows(), 0);
    EXPECT_FALSE(page->childTable(Entity::Sign)->table()->isVisibleTo(page.get()));
}

TEST_F(Page, ARowIsRemovedAndBroughtBack)
{
    open();
    page->tabs()->setCurrentIndex(1);
    auto* readings = page->childTable(Entity::Reading);
    readings->table()->selectRow(1);
    QTest::keyClick(readings->table(), Qt::Key_Delete);
    EXPECT_EQ(readings->rows(), 2);
    EXPECT_FALSE(room.number(print, "density_day_after_deepest"));
    room.undo();
    EXPECT_EQ(readings->rows(), 3);
}

TEST_F(Page, TheChosenRowStaysChosenWhenAnotherComes)
{
    open();
    page->tabs()->setCurrentIndex(1);
    auto* readings = page->childTable(Entity::Reading);
    readings->table()->selectRow(1);
    room.reading(print, "wet", "deepest", 0.7);
    ASSERT_EQ(readings->rows(), 4);
    EXPECT_EQ(readings->table()->currentRow(), 1);
    EXPECT_TRUE(readings->table()->selectionModel()->isRowSelected(1, {}));
}

TEST_F(Page, ARowIsChangedFromTheKeyboard)
{
    open();
    page->tabs()->setCurrentIndex(1);
    auto* readings = page->childTable(Entity::Reading);
    readings->table()->setFocus(Qt::TabFocusReason);
    EXPECT_EQ(readings->table()->currentRow(), 0);
    QTimer::singleShot(0, page.get(), [] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        ASSERT_NE(dialog, nullptr);
        auto* editor = dialog->findChild<ui::FieldEditor*>(text("reading_density"));
        auto* line = qobject_cast<QLineEdit*>(editor->input());
        line->setFocus();
        line->selectAll();
        QTest::keyClicks(line, text("0.95"));
        for (auto* button : dialog->findChildren<QPushButton*>())
            if (button->isDefault())
                QTest::mouseClick(button, Qt::LeftButton);
    });
    QTest::keyClick(readings->table(), Qt::Key_Return);
    EXPECT_EQ(room.number(print, "density_before_rinse_deepest"), 0.95);
}

TEST_F(Page, ASignIsAdded)
{
    open();
    page->tabs()->setCurrentIndex(1);
    QTimer::singleShot(0, page.get(), [] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        ASSERT_NE(dialog, nullptr);
        auto* box = dialog->findChild<ui::FieldEditor*>(text("sign_kind"))->input();
        box->setFocus();
        QTest::keyClicks(box, text("mot"));
        for (auto* button : dialog->findChildren<QPushButton*>())
            if (button->isDefault())
                QTest::mouseClick(button, Qt::LeftButton);
    });
    page->childTable(Entity::Sign)->add();
    ASSERT_EQ(page->childTable(Entity::Sign)->rows(), 1);
    EXPECT_EQ(page->childTable(Entity::Sign)->table()->item(0, 0)->text(), text("mottle"));
}

TEST_F(Page, TheNextBathIsNumberedByItself)
{
    room.add(Entity::Bath, { { "bath_position", 1 }, { "bath_minutes", 5 } }, print);
    open();
    QString suggested;
    QTimer::singleShot(0, page.get(), [&] {
        auto* dialog = qobject_cast<QDialog*>(QApplication::activeModalWidget());
        ASSERT_NE(dialog, nullptr);
        suggested
            = qobject_cast<QLineEdit*>(dialog->findChild<ui::FieldEditor*>(text("bath_position"))->input())->text();
        dialog->reject();
    });
    page->childTable(Entity::Bath)->add();
    EXPECT_EQ(suggested, text("2"));
    EXPECT_EQ(room.childrenOf(print, Entity::Bath), 1);
}

TEST_F(Page, TablesAreAsHighAsTheirRows)
{
    open();
    page->tabs()->setCurrentIndex(1);
    QTest::qWait(20);
    const auto* table = page->childTable(Entity::Reading)->table();
    EXPECT_EQ(table->rowAt(table->viewport()->height() - 2), 2) << "the last row is whole and nothing is under it";
}

TEST_F(Page, TabWalksThroughTheStationsAndTheirForms)
{
    open();
    QTest::mouseClick(page->section(Station::Coat)->editButton(), Qt::LeftButton);
    const auto* form = page->section(Station::Coat)->form();
    auto* start = form->editor(text("coat_start"))->input();
    EXPECT_EQ(QApplication::focusWidget(), start);
    QTest::keyClick(start, Qt::Key_Backtab, Qt::ShiftModifier);
    EXPECT_EQ(QApplication::focusWidget(), page->section(Station::Coat)->editButton());
    QSet<QWidget*> seen;
    for (int i = 0; i < 200 && QApplication::focusWidget() != page->section(Station::Dry)->editButton(); ++i) {
        ASSERT_FALSE(seen.contains(QApplication::focusWidget())) << "Tab goes in a circle without the next station";
        seen << QApplication::focusWidget();
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab);
    }
    EXPECT_TRUE(seen.contains(start));
}

TEST_F(Page, OfAReadOnlyNotebookShowsAllAndOffersNoChange)
{
    room.outcome(print, "pale");
    open(true);
    for (const auto* button : page->findChildren<QPushButton*>())
        if (button->isVisibleTo(page.get()) && button->isEnabled()) {
            EXPECT_EQ(button->text(), text("Close"));
        }
    EXPECT_EQ(page->childTable(Entity::Reading)->rows(), 3);
    EXPECT_FALSE(page->photos()->acceptDrops());
    EXPECT_FALSE(page->acceptDrops());
}

} // namespace

} // namespace WASHFAST_FILE
