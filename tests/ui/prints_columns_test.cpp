// Choosing the columns of the table of prints.
#include "ui/prints/column_dialog.h"

#include "tests/support/prints_fixture.h"

#include <QDialogButtonBox>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using ui::ColumnDialog;

namespace {

class Columns : public testing::Test {
protected:
    void SetUp() override
    {
        dialog.show();
        dialog.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&dialog));
    }
    [[nodiscard]] QListWidget* all() { return dialog.findChildren<QListWidget*>()[0]; }
    [[nodiscard]] QListWidget* order() { return dialog.findChildren<QListWidget*>()[1]; }
    QListWidgetItem* itemOf(const char* key)
    {
        for (int i = 0; i < all()->count(); ++i)
            if (all()->item(i)->data(Qt::UserRole).toString() == text(key))
                return all()->item(i);
        ADD_FAILURE() << "no " << key;
        return nullptr;
    }
    void tick(const char* key)
    {
        all()->setFocus();
        all()->setCurrentItem(itemOf(key));
        QTest::keyClick(all(), Qt::Key_Space);
    }
    void press(const char* label)
    {
        for (auto* button : dialog.findChildren<QPushButton*>())
            if (button->text().remove(QLatin1Char('&')) == text(label))
                QTest::mouseClick(button, Qt::LeftButton);
    }

    Catalogue catalogue = standardCatalogue();
    ColumnDialog dialog { catalogue, texts({ "print_code", "kept", "mix_code" }), texts({ "print_code", "kept" }) };
};

TEST_F(Columns, ListsEveryFieldOnceUnderItsStation)
{
    QStringList keys;
    QStringList headings;
    for (int i = 0; i < all()->count(); ++i) {
        const auto key = all()->item(i)->data(Qt::UserRole).toString();
        (key.isEmpty() ? headings : keys) << (key.isEmpty() ? all()->item(i)->text() : key);
    }
    EXPECT_EQ(keys.size(), qsizetype(catalogue.printFields().size()));
    EXPECT_EQ(keys.removeDuplicates(), 0);
    EXPECT_EQ(headings.removeDuplicates(), 0) << headings.join(QLatin1Char(',')).toStdString();
    EXPECT_TRUE(headings.contains(stationLabel(Station::Rinse)));
}

TEST_F(Columns, TicksAddAtTheEndAndTakeAway)
{
    EXPECT_EQ(dialog.chosen(), texts({ "print_code", "kept", "mix_code" }));
    tick("rinse_minutes");
    EXPECT_EQ(dialog.chosen(), texts({ "print_code", "kept", "mix_code", "rinse_minutes" }));
    tick("kept");
    EXPECT_EQ(dialog.chosen(), texts({ "print_code", "mix_code", "rinse_minutes" }));
}

TEST_F(Columns, MovesUpAndDownAndStopsAtTheEnds)
{
    order()->setCurrentRow(2);
    press("Up");
    EXPECT_EQ(dialog.chosen(), texts({ "print_code", "mix_code", "kept" }));
    press("Up");
    press("Up");
    EXPECT_EQ(dialog.chosen(), texts({ "mix_code", "print_code", "kept" }));
    press("Down");
    EXPECT_EQ(dialog.chosen(), texts({ "print_code", "mix_code", "kept" }));
    EXPECT_EQ(order()->currentRow(), 1) << "the cursor goes along";
}

TEST_F(Columns, SearchHidesTheOthersAndKeepsTheTicks)
{
    auto* search = dialog.findChild<QLineEdit*>();
    QTest::keyClicks(search, text("MOIST"));
    int shown = 0;
    for (int i = 0; i < all()->count(); ++i)
        if (!all()->item(i)->isHidden()) {
            ++shown;
            EXPECT_TRUE(all()->item(i)->text().contains(text("oisture"))) << all()->item(i)->text().toStdString();
        }
    EXPECT_EQ(shown, 2);
    search->clear();
    EXPECT_EQ(itemOf("kept")->checkState(), Qt::Checked);
}

TEST_F(Columns, TheUsualOnesComeBack)
{
    tick("rinse_minutes");
    press("The usual ones");
    EXPECT_EQ(dialog.chosen(), texts({ "print_code", "kept" }));
    EXPECT_EQ(itemOf("mix_code")->checkState(), Qt::Unchecked);
    tick("mix_code");
    EXPECT_EQ(dialog.chosen(), texts({ "print_code", "kept", "mix_code" }));
}

TEST_F(Columns, EnterAcceptsAndEscapeLeaves)
{
    QTest::keyClick(dialog.findChild<QLineEdit*>(), Qt::Key_Return);
    EXPECT_EQ(dialog.result(), int(QDialog::Accepted));
    dialog.show();
    QTest::keyClick(&dialog, Qt::Key_Escape);
    EXPECT_EQ(dialog.result(), int(QDialog::Rejected));
}

} // namespace

} // namespace WASHFAST_FILE
