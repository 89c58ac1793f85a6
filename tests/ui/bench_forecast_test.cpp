// What the models of light and drying tell on the Bench while a sheet is under way.
#include "tests/support/bench_fixture.h"

#include <cmath>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::ui;
using namespace washfast::test;

namespace {

class BenchForecast : public BenchFixture {
protected:
    void SetUp() override
    {
        // 52 degrees north at 11:00 UTC in June: the sun stands high and nearly in the south.
        site = room.add(Entity::Site,
            { { "site_name", "Yard" }, { "site_latitude_deg", 52.0 }, { "site_longitude_deg", 10.0 },
                { "site_height_m", 80.0 }, { "site_zone", "Europe/Berlin" } });
        session = addSession();
        room.set({ Entity::Session, session }, "session_site", site);
        prints = addPrints(2);
    }
    [[nodiscard]] CellState cell(int row, Station station) const
    {
        return stateAt(view->model()->states(row), station);
    }
    [[nodiscard]] std::string spoken(int row, int column) const
    {
        return view->model()->index(row, column).data(Qt::AccessibleTextRole).toString().toStdString();
    }

    qint64 site = 0, session = 0;
    QVector<qint64> prints;
};

} // namespace

TEST_F(BenchForecast, AnExposureFillsByTheSkyAndSaysHowLongItTakes)
{
    room.set({ Entity::Print, prints[0] }, "dose_goal_j_cm2", 2.0);
    open();
    goTo(0, BenchModel::Expose);
    key(Qt::Key_Space);
    room.clock.advanceMinutes(2);
    view->model()->tick();
    const auto clear = cell(0, Station::Expose);
    // Clear June noon at 52 degrees north: about 45 to 50 W/m2 UVA (R. Bird, C. Riordan, SERI/TR-215-2436), so two
    // minutes give a little over half a joule per square centimetre, and some five more are needed for two.
    ASSERT_TRUE(clear.figure.number());
    EXPECT_NEAR(*clear.figure.number(), 0.57, 0.06);
    EXPECT_GT(clear.figure.evidence, Evidence::Estimated) << "nobody noted the sky";
    ASSERT_TRUE(clear.left_min);
    EXPECT_NEAR(clear.left_min->likely, 5.0, 0.7);
    EXPECT_LT(clear.left_min->low, clear.left_min->likely);
    EXPECT_GT(clear.left_min->high, clear.left_min->likely);
    EXPECT_THAT(spoken(0, BenchModel::Expose), testing::HasSubstr("about 6 min left"));

    // The sky is entered: overcast takes longer at once.
    room.desk().setPrintField({ prints[0] }, QStringLiteral("cloud_start_eighths"), Known { 8.0 });
    room.desk().setPrintField({ prints[0] }, QStringLiteral("disc_start"), Known { QStringLiteral("no") });
    ASSERT_EQ(room.number(prints[0], "cloud_start_eighths"), 8.0);
    const auto overcast = cell(0, Station::Expose);
    ASSERT_TRUE(overcast.left_min);
    EXPECT_GT(overcast.left_min->likely, 2 * clear.left_min->likely);
    EXPECT_LT(*overcast.figure.number(), 0.5 * *clear.figure.number());

    // A reading replaces the model and narrows the interval.
    goTo(0, BenchModel::Expose);
    key(Qt::Key_L);
    type("25");
    key(Qt::Key_Return);
    const auto read = cell(0, Station::Expose);
    EXPECT_NEAR(*read.figure.number(), 25.0 * 120 / 1e4, 2e-3);
    ASSERT_TRUE(read.left_min);
    EXPECT_NEAR(read.left_min->likely, (2.0 - 0.3) * 1e4 / 25 / 60, 0.2);
    EXPECT_LT(read.left_min->high / read.left_min->low, overcast.left_min->high / overcast.left_min->low);
}

TEST_F(BenchForecast, ALampFillsTheCellWithoutASky)
{
    room.set({ Entity::Site, site }, "site_latitude_deg", Known {});
    room.set({ Entity::Print, prints[0] }, "dose_goal_j_cm2", 2.0);
    room.add(Entity::Lamp,
        { { "lamp_name", "Box" }, { "lamp_kind", "tube_dark" }, { "lamp_uva_w_m2", 20.0 },
            { "lamp_measured_at_cm", 15.0 } });
    open();
    goTo(0, BenchModel::Expose);
    key(Qt::Key_Space);
    room.desk().setPrintField({ prints[0] }, QStringLiteral("lamp_name"), Known { QStringLiteral("Box") });
    room.desk().setPrintField({ prints[0] }, QStringLiteral("expose_lamp_distance_cm"), Known { 15.0 });
    room.clock.advanceMinutes(5);
    view->model()->tick();
    const auto lit = cell(0, Station::Expose);
    ASSERT_TRUE(lit.figure.number());
    EXPECT_NEAR(*lit.figure.number(), 20.0 * 300 / 1e4, 1e-6);
    EXPECT_EQ(lit.figure.evidence, Evidence::Estimated);
    ASSERT_TRUE(lit.left_min);
    EXPECT_NEAR(lit.left_min->likely, (2.0 - 0.6) * 1e4 / 20 / 60, 0.05);
}

TEST_F(BenchForecast, WithoutASiteNothingIsMadeUp)
{
    room.set({ Entity::Site, site }, "site_latitude_deg", Known {});
    room.set({ Entity::Print, prints[0] }, "dose_goal_j_cm2", 2.0);
    open();
    goTo(0, BenchModel::Expose);
    key(Qt::Key_Space);
    room.clock.advanceMinutes(5);
    view->model()->tick();
    EXPECT_FALSE(cell(0, Station::Expose).figure.has());
    EXPECT_FALSE(cell(0, Station::Expose).left_min);
}

TEST_F(BenchForecast, ASheetThatIsWeighedSaysWhenItWillBeDry)
{
    room.set({ Entity::Session, session }, "room_temperature_c", 21.0);
    room.set({ Entity::Session, session }, "room_humidity_pct", 50.0);
    open();
    const auto weigh = [&](const char* state, double mass) {
        room.add(Entity::Weighing,
            { { "weigh_state", state }, { "weigh_mass_g", mass }, { "weigh_time", room.desk().now() } }, prints[0]);
    };
    goTo(0, BenchModel::Coat);
    weigh("bare", 6.00);
    key(Qt::Key_Space);
    room.clock.advanceMinutes(1);
    goTo(0, BenchModel::Dry);
    weigh("coated", 6.60);
    key(Qt::Key_Space);
    for (const double mass : { 6.50, 6.42, 6.35, 6.29 }) {
        room.clock.advanceMinutes(5);
        weigh("drying", mass);
    }
    view->model()->tick();
    const auto dry = cell(0, Station::Dry);
    ASSERT_EQ(dry.figure_key, QStringLiteral("moisture_at_expose_pct"));
    // Of 0.6 g of coat, 35/235 solids: (0.29 - 0.0894) / (0.6 - 0.0894) = 39 %.
    EXPECT_NEAR(*dry.figure.number(), 39, 4);
    ASSERT_TRUE(dry.left_min);
    EXPECT_GT(dry.left_min->likely, 5);
    EXPECT_LT(dry.left_min->likely, 120);
    EXPECT_THAT(spoken(0, BenchModel::Dry), testing::HasSubstr("dry in about"));

    // Into the light while damp: it is said, with the number, and done all the same.
    said.clear();
    goTo(0, BenchModel::Expose);
    key(Qt::Key_Space);
    EXPECT_EQ(stage(0, Station::Expose), Stage::Running);
    ASSERT_EQ(said.size(), 1);
    EXPECT_TRUE(said[0].contains(QStringLiteral("damp"))) << said[0].toStdString();
    EXPECT_TRUE(said[0].contains(QStringLiteral("%"))) << said[0].toStdString();
}

TEST_F(BenchForecast, ADrySheetGoesWithoutAWord)
{
    open();
    goTo(0, BenchModel::Dry);
    key(Qt::Key_Space);
    key(Qt::Key_5);
    said.clear();
    goTo(0, BenchModel::Expose);
    key(Qt::Key_Space);
    ASSERT_EQ(said.size(), 1);
    EXPECT_FALSE(said[0].contains(QStringLiteral("damp"))) << said[0].toStdString();
}

} // namespace WASHFAST_FILE
