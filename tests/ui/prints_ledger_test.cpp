// The ledger on a print's page: its lines, what they add up to, and where they lead.
#include "app/demo/demo_notebook.h"
#include "tests/support/desk_fixture.h"
#include "ui/prints/ledger_bar.h"
#include "ui/prints/ledger_panel.h"
#include "ui/prints/print_page.h"

#include <QSignalSpy>
#include <QTabWidget>
#include <QTableWidget>
#include <QTest>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;

namespace {

class Ledger : public testing::Test {
protected:
    void SetUp() override
    {
        ASSERT_TRUE(demo::writeDemo(room.desk().file()));
        room.reopen();
        room.desk().waitUntilComplete();
    }
    [[nodiscard]] qint64 printOf(const char* code) const
    {
        const auto id = room.desk().notebook().byName(Entity::Print, QString::fromLatin1(code));
        EXPECT_TRUE(id) << code;
        return id.value_or(0);
    }
    /// A print of a lesson with both tones and an outcome.
    [[nodiscard]] qint64 withBothTones(const char* session, const char* outcome) const
    {
        const auto& prints = room.desk().notebook().prints();
        for (int row = 0; row < prints.rows(); ++row) {
            const auto get = [&](QStringView key) { return room.desk().reader().get(row, key); };
            if (get(u"session_code").text() == QString::fromLatin1(session) && get(u"formed").has()
                && get(u"net_density").has() && get(u"print_outcome").text() == QString::fromLatin1(outcome))
                return prints.id(row);
        }
        ADD_FAILURE() << "no such print in " << session;
        return 0;
    }

    mutable DeskFixture room;
};

} // namespace

TEST_F(Ledger, TheLinesLeadFromGoodPrintsToThisOne)
{
    ui::LedgerPanel panel(room.services());
    panel.resize(700, 400);
    panel.show();
    const auto print = withBothTones("S4", "ran_off");
    panel.setPrint(print);
    auto* table = panel.table();
    ASSERT_GT(table->rowCount(), 3);
    double reached = 0;
    int biggest_loss = -1;
    double loss = 0;
    for (int row = 0; row < table->rowCount(); ++row) {
        const auto* step = table->item(row, 1);
        const double from = step->data(ui::LedgerBar::FromRole).toDouble();
        const double to = step->data(ui::LedgerBar::ToRole).toDouble();
        if (!step->data(ui::LedgerBar::WholeRole).toBool()) {
            EXPECT_NEAR(from, reached, 1e-9) << "each step starts where the one before it ended, row " << row;
            if (to - from < loss) {
                loss = to - from;
                biggest_loss = row;
            }
        }
        reached = to;
    }
    EXPECT_NEAR(table->item(table->rowCount() - 2, 1)->data(ui::LedgerBar::ToRole).toDouble(),
        room.number(print, "net_density").value_or(-1), 1e-9)
        << "the lines add up to what was measured";
    // This lesson was rinsed damp: what was formed went in the water.
    ASSERT_GE(biggest_loss, 0);
    EXPECT_THAT(table->item(biggest_loss, 0)->text().toLower().toStdString(), testing::HasSubstr("rinse"));
    for (int row = 0; row < table->rowCount(); ++row)
        EXPECT_FALSE(table->item(row, 3)->text().isEmpty()) << "measured, estimated or assumed, row " << row;
}

TEST_F(Ledger, ALineLeadsToItsRecord)
{
    ui::PrintPage page(room.services());
    page.resize(640, 700);
    page.show();
    page.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&page));
    page.setPrint(withBothTones("S4", "ran_off"));
    page.tabs()->setCurrentWidget(page.ledger());
    auto* table = page.ledger()->table();
    ASSERT_GT(table->rowCount(), 3);
    QSignalSpy wanted(page.ledger(), &ui::LedgerPanel::fieldWanted);
    int with_records = -1;
    table->setFocus();
    for (int row = 0; row < table->rowCount() && wanted.empty(); ++row) {
        table->setCurrentCell(row, 0);
        QTest::keyClick(table, Qt::Key_Return);
        with_records = row;
    }
    ASSERT_FALSE(wanted.empty()) << with_records;
    EXPECT_GE(room.catalogue().printField(wanted[0][0].toString()), 0);
    EXPECT_NE(page.tabs()->currentWidget(), page.ledger());
}

TEST_F(Ledger, AMissingToneIsSaid)
{
    ui::LedgerPanel panel(room.services());
    const auto print = withBothTones("S4", "ran_off");
    room.set({ Entity::Print, print }, "print_notes", "tone taken away");
    room.desk().setPrintField({ print }, QStringLiteral("density_before_rinse_deepest"), Known {});
    ASSERT_FALSE(room.get(print, "formed").has());
    panel.setPrint(print);
    EXPECT_THAT(panel.words().toStdString(), testing::HasSubstr("?"));
    EXPECT_THAT(panel.words().toLower().toStdString(), testing::HasSubstr("before the rinse"));
    panel.setPrint(0);
    EXPECT_EQ(panel.table()->rowCount(), 0);
}

} // namespace WASHFAST_FILE
