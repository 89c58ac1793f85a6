// The cautions stand where the work is: beside the form of the station, with the mix that the prints were coated with
// and the day's ultraviolet index.
#include "ui/bench/form_panel.h"
#include "ui/bench/station_cautions.h"

#include "tests/support/prints_fixture.h"

#include <QTest>
#include <QToolButton>
#include <gmock/gmock.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::test;
using testing::Contains;
using testing::HasSubstr;
using testing::Not;

namespace {

class BenchCautions : public testing::Test {
protected:
    void SetUp() override
    {
        room.lesson();
        room.add(Entity::MixPart, { { "part_substance", "FeCl3.6H2O" }, { "part_mass_g", 0.6 } }, room.m2);
        room.add(Entity::MixPart, { { "part_substance", "ammonium iron(III) citrate, green" }, { "part_mass_g", 2.5 } },
            room.m10);
        room.add(Entity::MixPart, { { "part_substance", "K3[Fe(CN)6]" }, { "part_mass_g", 1 } }, room.m10);
        chloride = room.print("A1-1", { { "print_mix", room.m2 } });
        citrate = room.print("A1-2", { { "print_mix", room.m10 } });
    }
    [[nodiscard]] std::vector<std::string> keys(Station station, qint64 print)
    {
        std::vector<std::string> all;
        for (const auto& caution :
            ui::cautionsAt(room.desk().notebook(), station, { print }, SessionId { room.session }))
            all.push_back(caution.key.toStdString());
        return all;
    }

    PrintsFixture room;
    qint64 chloride = 0, citrate = 0;
};

} // namespace

TEST_F(BenchCautions, EachStationHasItsOwn)
{
    EXPECT_THAT(keys(Station::Coat, chloride), Contains("iron_chloride"));
    EXPECT_THAT(keys(Station::Coat, citrate), Not(Contains("iron_chloride")));
    EXPECT_THAT(keys(Station::Dry, citrate), Contains("mains"));
    EXPECT_THAT(keys(Station::Dry, chloride), Contains("damp_chloride"));
    EXPECT_THAT(keys(Station::Expose, citrate), Contains("sun"));
    EXPECT_THAT(keys(Station::Expose, citrate), Contains("glass"));
    EXPECT_THAT(keys(Station::Rinse, citrate), Contains("waste"));
    EXPECT_THAT(keys(Station::Rinse, citrate), Contains("acid_and_heat"));
    EXPECT_THAT(keys(Station::Rinse, room.print("A1-3")), Contains("acid_and_heat")) << "its mix is not recorded";
    EXPECT_TRUE(keys(Station::Read, citrate).empty());
}

TEST_F(BenchCautions, TheSunHasTheDaysIndex)
{
    const auto sun = [&] {
        for (const auto& caution :
            ui::cautionsAt(room.desk().notebook(), Station::Expose, { citrate }, SessionId { room.session }))
            if (caution.key == text("sun"))
                return caution.sentence().toStdString();
        return std::string();
    };
    const auto plain = sun();
    EXPECT_THAT(plain, HasSubstr("ultraviolet index of 3"));
    const auto site = room.add(Entity::Site,
        { { "site_name", "Yard" }, { "site_latitude_deg", 48 }, { "site_longitude_deg", 15 },
            { "site_zone", "Europe/Vienna" } });
    room.set({ Entity::Session, room.session }, "session_site", site);
    // One standard erythema dose is 100 J/m2, and an index of 1 is 0.025 W/m2 (WHO, Global Solar UV Index, 2002), so
    // that the minutes times the index are 66.7.
    EXPECT_NE(sun(), plain);
    EXPECT_THAT(sun(), HasSubstr("minutes"));
}

TEST_F(BenchCautions, TheFormSaysWhatAndOnAskingWhy)
{
    ui::FormPanel panel(room.desk(), room.look.theme());
    panel.resize(380, 600);
    panel.show(Station::Dry, { citrate }, text("A1-2"));
    panel.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&panel));
    EXPECT_TRUE(panel.cautions()->isVisible());
    EXPECT_THAT(panel.cautions()->text().toStdString(), HasSubstr("hair dryer"));
    EXPECT_THAT(panel.cautions()->text().toStdString(), Not(HasSubstr("residual-current")));
    panel.cautions()->why()->setFocus();
    QTest::keyClick(panel.cautions()->why(), Qt::Key_Space);
    EXPECT_THAT(panel.cautions()->text().toStdString(), HasSubstr("residual-current"));
    EXPECT_TRUE(panel.cautions()->text().contains(chemistry::deferral()));
    panel.show(Station::Read, { citrate }, text("A1-2"));
    EXPECT_FALSE(panel.cautions()->isVisible());
}

} // namespace WASHFAST_FILE
