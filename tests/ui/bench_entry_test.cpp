// Numbers typed in row by row: masses, densities, light, and any other field.
#include "tests/support/bench_fixture.h"

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

class BenchEntry : public BenchFixture {
protected:
    void openWith(int count)
    {
        addSession();
        prints = addPrints(count);
        open();
    }

    QVector<qint64> prints;
};

} // namespace

TEST_F(BenchEntry, ARowOfSheetsIsWeighedWithNumbersAndEnter)
{
    openWith(4);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_A, Qt::ControlModifier);
    key(Qt::Key_Space);
    key(Qt::Key_W);
    ASSERT_TRUE(lineHasFocus());
    EXPECT_EQ(view->entry()->entryId(), QStringLiteral("weigh:coated"));
    type("12.31");
    key(Qt::Key_Return);
    EXPECT_EQ(view->entry()->print(), prints[1]);
    EXPECT_EQ(view->table()->currentIndex().row(), 1) << "the table shows whose turn it is";
    key(Qt::Key_Return); // nothing typed: left as it is
    type("12,5 g"); // a comma and a unit are understood
    key(Qt::Key_Return);
    type("much");
    key(Qt::Key_Return);
    EXPECT_FALSE(view->entry()->complaint().isEmpty()) << "and stays, with a sentence";
    EXPECT_EQ(view->entry()->print(), prints[3]);
    type("900"); // the wrong text is chosen and typed over
    key(Qt::Key_Return);
    EXPECT_TRUE(tableHasFocus());
    EXPECT_EQ(room.number(prints[0], "mass_coated_g"), 12.31);
    EXPECT_FALSE(room.get(prints[1], "mass_coated_g").has());
    EXPECT_EQ(room.number(prints[2], "mass_coated_g"), 12.5);
    EXPECT_EQ(room.number(prints[3], "mass_coated_g"), 900) << "what is not plausible is kept";
    EXPECT_TRUE(said.last().contains(QStringLiteral("3 prints")));
}

TEST_F(BenchEntry, AWrongMassIsOneCtrlZAwayWithoutLeavingTheLine)
{
    openWith(3);
    key(Qt::Key_W);
    type("1.5");
    key(Qt::Key_Return);
    type("2.5");
    key(Qt::Key_Return);
    ASSERT_EQ(room.number(prints[1], "mass_bare_g"), 2.5);
    key(Qt::Key_Z, Qt::ControlModifier);
    EXPECT_FALSE(room.get(prints[1], "mass_bare_g").has());
    EXPECT_EQ(room.number(prints[0], "mass_bare_g"), 1.5);
    ASSERT_TRUE(lineHasFocus());
    key(Qt::Key_Up);
    type("2.4");
    key(Qt::Key_Return);
    EXPECT_EQ(room.number(prints[1], "mass_bare_g"), 2.4);
    key(Qt::Key_Escape);
    EXPECT_TRUE(tableHasFocus());
    EXPECT_FALSE(view->entry()->isVisible());
}

TEST_F(BenchEntry, AnyFieldCanBeEnteredRowByRow)
{
    openWith(2);
    goTo(0, BenchModel::Coat);
    key(Qt::Key_R);
    auto* what = view->entry()->what();
    what->setCurrentIndex(what->findData(QStringLiteral("field:coat_tool")));
    type("bru");
    key(Qt::Key_Return);
    type("rod");
    key(Qt::Key_Return);
    EXPECT_EQ(room.text(prints[0], "coat_tool"), "brush");
    EXPECT_EQ(room.text(prints[1], "coat_tool"), "rod");
    goTo(0, BenchModel::Coat);
    key(Qt::Key_R);
    EXPECT_EQ(view->entry()->entryId(), QStringLiteral("weigh:bare")) << "it goes by what is missing, not by the last";
}

TEST_F(BenchEntry, ReadingsCarryHowTheyWereRead)
{
    openWith(2);
    goTo(0, BenchModel::Read);
    type(".9");
    ASSERT_TRUE(lineHasFocus());
    EXPECT_EQ(view->entry()->line()->text(), QStringLiteral(".9"));
    auto* what = view->entry()->what();
    what->setCurrentIndex(what->findData(QStringLiteral("read:before_rinse:deepest")));
    for (auto* box : view->entry()->findChildren<QComboBox*>())
        if (const int at = box->findData(QStringLiteral("densitometer")); at >= 0)
            box->setCurrentIndex(at);
    key(Qt::Key_Return);
    EXPECT_EQ(room.number(prints[0], "density_before_rinse_deepest"), 0.9);
    const auto& table = room.desk().notebook().table(Entity::Reading);
    EXPECT_EQ(table.at(0, room.catalogue().column(Entity::Reading, u"reading_method")).text(),
        QStringLiteral("densitometer"));
}

TEST_F(BenchEntry, LightGoesToAllThatAreExposed)
{
    openWith(4);
    key(Qt::Key_L);
    EXPECT_FALSE(view->entry()->isVisible());
    EXPECT_TRUE(said.last().startsWith(QStringLiteral("No sheet is being exposed")));
    view->choose(prints.mid(1, 2));
    goTo(1, BenchModel::Expose);
    view->choose(prints.mid(1, 2));
    key(Qt::Key_Space);
    room.clock.advanceMinutes(2);
    key(Qt::Key_L);
    type("18.5");
    key(Qt::Key_Return);
    EXPECT_TRUE(tableHasFocus());
    EXPECT_EQ(room.number(prints[1], "meter1_uva_w_m2"), 18.5);
    EXPECT_EQ(room.number(prints[2], "meter1_uva_w_m2"), 18.5);
    EXPECT_EQ(room.childrenOf(prints[0], Entity::Meter), 0);
    EXPECT_EQ(room.desk().undoLabel(), QStringLiteral("Light, all that are exposed now, 2 prints"));
}

} // namespace WASHFAST_FILE
