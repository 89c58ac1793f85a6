// What the shelf works out: amounts go down with what was weighed out and painted on, ages and warnings are told, and
// nothing that is used up goes away.
#include "ui/shelf/age_plot.h"
#include "ui/shelf/record_model.h"
#include "ui/shelf/shelf_view.h"

#include "tests/support/prints_fixture.h"

#include <QAbstractItemModelTester>
#include <QCheckBox>
#include <QPushButton>
#include <QTableView>
#include <QTest>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using chemistry::ShelfWarning;

namespace {

// The clock of the desk stands at 2024-06-21T10:00Z.
class ShelfAges : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        bottle = room.add(Entity::Chemical,
            { { "chemical_name", "Citric acid monohydrate" }, { "chemical_formula", "C6H8O7.H2O" },
                { "chemical_left_g", 100.0 }, { "chemical_counted", "2024-06-01T08:00:00+00:00" } });
        early = mix("M3", "2024-05-20T08:00:00+00:00", 5);
        late = mix("M4", "2024-06-20T22:00:00+00:00", 7.5);
    }
    qint64 mix(const char* code, const char* made, double grams)
    {
        const auto id = room.add(Entity::Mix, { { "mix_code", code }, { "mix_made", made }, { "mix_water_ml", 20.0 } });
        room.add(Entity::MixPart,
            { { "part_substance", "citric acid" }, { "part_chemical", bottle }, { "part_mass_g", grams } }, id);
        return id;
    }
    [[nodiscard]] chemistry::BottleState bottleState() const
    {
        return chemistry::bottleState(room_().desk().notebook(), bottle, room_().desk().now());
    }
    [[nodiscard]] chemistry::MixState mixState(qint64 id) const
    {
        return chemistry::mixState(room_().desk().notebook(), id, room_().desk().now());
    }
    [[nodiscard]] PrintsFixture& room_() const { return const_cast<PrintsFixture&>(room); }

    PrintsFixture room;
    qint64 bottle = 0, early = 0, late = 0;
};

bool has(const std::vector<ShelfWarning>& warnings, ShelfWarning warning)
{
    return std::find(warnings.begin(), warnings.end(), warning) != warnings.end();
}

} // namespace

TEST_F(ShelfAges, ABottleGoesDownByWhatWasWeighedOutSinceItWasLookedAt)
{
    EXPECT_DOUBLE_EQ(bottleState().left_g.value_or(0), 92.5) << "not the mix of May";
    EXPECT_TRUE(bottleState().says.contains(text("100.0 g"))) << bottleState().says.toStdString();
    EXPECT_TRUE(bottleState().says.contains(text("7.5 g")));
    room.set({ Entity::Chemical, bottle }, "chemical_low_g", 95.0);
    EXPECT_TRUE(has(bottleState().warnings, ShelfWarning::Low));
    room.set({ Entity::Chemical, bottle }, "chemical_best_before", "2024-06-20T00:00:00+00:00");
    EXPECT_TRUE(has(bottleState().warnings, ShelfWarning::Old));
}

TEST_F(ShelfAges, WithoutADayNothingIsTakenOffAndThatIsSaid)
{
    room.set({ Entity::Chemical, bottle }, "chemical_counted", Known {});
    EXPECT_DOUBLE_EQ(bottleState().left_g.value_or(0), 100);
    EXPECT_TRUE(bottleState().says.contains(text("unknown day")));
    room.set({ Entity::Chemical, bottle }, "chemical_left_g", Known {});
    EXPECT_FALSE(bottleState().left_g) << "not recorded is not zero";
    room.set({ Entity::Chemical, bottle }, "chemical_bottle_g", 250.0);
    EXPECT_DOUBLE_EQ(bottleState().left_g.value_or(0), 237.5) << "all that was weighed out of it";
}

TEST_F(ShelfAges, AMixHasItsAgeItsPrintsAndWhatIsLeft)
{
    const auto a = room.print("A1-1", { { "print_mix", late }, { "coat_volume_ml", 0.6 } });
    auto state = mixState(late);
    EXPECT_NEAR(state.age_days.value_or(0), 0.5, 1e-9);
    EXPECT_FALSE(has(state.warnings, ShelfWarning::Old));
    EXPECT_TRUE(has(state.warnings, ShelfWarning::NoLabel));
    EXPECT_EQ(state.prints, 1);
    EXPECT_NEAR(state.left_ml.value_or(0), 19.4, 1e-9);
    EXPECT_FALSE(state.at_most);
    room.print("A1-2", { { "print_mix", late } });
    EXPECT_TRUE(mixState(late).at_most) << "its coat has no volume";
    EXPECT_TRUE(has(mixState(early).warnings, ShelfWarning::Old));
    room.set({ Entity::Mix, late }, "mix_left_ml", 1.5);
    room.set({ Entity::Mix, late }, "mix_left_seen", "2024-06-21T09:00:00+00:00");
    room.set({ Entity::Print, a }, "coat_start", "2024-06-21T08:30:00+00:00");
    state = mixState(late);
    EXPECT_NEAR(state.left_ml.value_or(0), 1.5, 1e-9) << "what was painted on before does not count";
    EXPECT_TRUE(has(state.warnings, ShelfWarning::Low));
    room.set({ Entity::Mix, late }, "mix_labelled", true);
    EXPECT_FALSE(has(mixState(late).warnings, ShelfWarning::NoLabel));
}

TEST_F(ShelfAges, TheTrendHasThePrintsThatWereReadAndCoatedAtAKnownTime)
{
    const auto good = room.toned("A1-1", 0.9, 0.8);
    room.set({ Entity::Print, good }, "print_mix", late);
    room.set({ Entity::Print, good }, "coat_start", "2024-06-21T08:00:00+00:00");
    const auto unread = room.print("A1-2", { { "print_mix", late } });
    room.set({ Entity::Print, unread }, "coat_start", "2024-06-21T08:00:00+00:00");
    const auto points = chemistry::densityWithAge(room.desk().reader(), late);
    ASSERT_EQ(points.size(), 1u);
    EXPECT_NEAR(points[0].age_h, 10, 1e-9);
    EXPECT_NEAR(points[0].net_density, 0.7, 1e-9);
    EXPECT_EQ(points[0].print, good);
}

TEST_F(ShelfAges, TheTableTellsAndARetiredMixStaysOnRecord)
{
    ui::ShelfView shelf(room.services());
    const QAbstractItemModelTester tester(shelf.model(), QAbstractItemModelTester::FailureReportingMode::Fatal);
    shelf.resize(930, 660);
    static_cast<QWidget&>(shelf).show();
    shelf.choose(Entity::Mix);
    const int before = shelf.model()->rowCount();
    const auto rowOf = [&](const char* code) {
        for (int row = 0; row < shelf.model()->rowCount(); ++row)
            if (shelf.model()->index(row, 0).data().toString() == text(code))
                return row;
        return -1;
    };
    EXPECT_TRUE(shelf.model()->index(rowOf("M3"), 1).data().toString().contains(text("old")));
    EXPECT_EQ(shelf.model()->index(rowOf("M4"), 2).data().toString(), text("12 h"));
    EXPECT_EQ(shelf.model()->index(rowOf("M4"), 3).data().toString(), text("20.0 mL"));
    EXPECT_TRUE(shelf.findChild<ui::AgePlot*>()->isVisible());

    for (int row = 0; row < shelf.table()->model()->rowCount(); ++row)
        if (shelf.table()->model()->index(row, 0).data().toString() == text("M3"))
            shelf.table()->selectRow(row);
    shelf.retire();
    EXPECT_EQ(shelf.model()->rowCount(), before - 1);
    EXPECT_EQ(rowOf("M3"), -1);
    EXPECT_TRUE(room.desk().notebook().byName(Entity::Mix, text("M3"))) << "it stays on record";
    shelf.findChild<QCheckBox*>()->setChecked(true);
    EXPECT_EQ(shelf.model()->rowCount(), before);
    EXPECT_EQ(shelf.model()->index(rowOf("M3"), 1).data().toString(), text("retired"));
    shelf.findChild<QCheckBox*>()->setChecked(false);
    room.desk().undo();
    EXPECT_EQ(shelf.model()->rowCount(), before);
    EXPECT_LE(shelf.minimumSizeHint().width(), 930);
    EXPECT_LE(shelf.minimumSizeHint().height(), 660);
}

} // namespace WASHFAST_FILE
