// The fields of drying, read from a notebook as the program reads them. Arithmetic stands in the comments.
#include "core/drying/fields.h"

#include "core/drying/moisture.h"
#include "core/trial/print_reader.h"
#include "tests/drying/sheet_maker.h"

#include <cmath>
#include <gtest/gtest.h>
#include <map>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::drying;

namespace {

using Cells = std::map<QString, Known>;

Known text(const char* value)
{
    return { Value(QString::fromLatin1(value)) };
}
Known when(int minute)
{
    return { Value(clock(minute)) };
}
Known link(qint64 id)
{
    return { Value(Link { id }) };
}

class DryingFields : public testing::Test {
protected:
    DryingFields()
        : catalogue_(wholeCatalogue())
        , notebook_(catalogue_)
    {
    }

    static Catalogue wholeCatalogue()
    {
        auto catalogue = standardCatalogue();
        addFields(catalogue);
        return catalogue;
    }

    qint64 add(Entity entity, const Cells& cells, qint64 owner = 0)
    {
        Record record { Ref(entity, ++last_id_), owner, {}, {} };
        record.values.resize(catalogue_.columns(entity).size());
        for (const auto& [key, value] : cells) {
            const int column = catalogue_.column(entity, key);
            EXPECT_GE(column, 0) << key.toStdString();
            record.values[size_t(column)] = value;
        }
        if (const auto owned = ownerOf(entity); owned && owner)
            if (const int column = catalogue_.column(entity, owned->column); column >= 0)
                record.values[size_t(column)] = link(owner);
        notebook_.edit(entity).insert(record);
        return last_id_;
    }

    qint64 addPrint(Cells cells, const Cells& session = {}, const Cells& mix = {})
    {
        if (!session.empty())
            cells[QStringLiteral("print_session")] = link(add(Entity::Session, session));
        if (!mix.empty())
            cells[QStringLiteral("print_mix")] = link(add(Entity::Mix, mix));
        return add(Entity::Print, cells);
    }

    void weighed(qint64 print, const char* state, double mass_g, std::optional<int> minute = {})
    {
        Cells cells { { QStringLiteral("weigh_state"), text(state) },
            { QStringLiteral("weigh_mass_g"), knownNumber(mass_g) } };
        if (minute)
            cells[QStringLiteral("weigh_time")] = when(*minute);
        add(Entity::Weighing, cells, print);
    }

    void exposed(qint64 print, int from, int to)
    {
        add(Entity::Exposure,
            { { QStringLiteral("expose_number"), knownNumber(1) }, { QStringLiteral("expose_start"), when(from) },
                { QStringLiteral("expose_end"), when(to) } },
            print);
    }

    /// Bare, coated and a mix with 20 % of solids, as in sheet_maker.h.
    qint64 coatedPrint(Cells cells = {}, const Cells& session = {})
    {
        const auto print
            = addPrint(std::move(cells), session, { { QStringLiteral("mix_solids_pct"), knownNumber(20) } });
        weighed(print, "bare", 5.0);
        weighed(print, "coated", 5.6, 0);
        return print;
    }

    [[nodiscard]] Known get(qint64 print, const char* key) const
    {
        const auto* field = catalogue_.findPrintField(QString::fromLatin1(key));
        EXPECT_NE(field, nullptr) << key;
        return PrintReader(notebook_).get(notebook_.prints().find(print), QString::fromLatin1(key));
    }
    [[nodiscard]] double number(qint64 print, const char* key) const
    {
        return get(print, key).number().value_or(std::nan(""));
    }

    Catalogue catalogue_;
    Notebook notebook_;

private:
    qint64 last_id_ = 0;
};

Cells roomOf(double temperature_c, double humidity_pct)
{
    return { { QStringLiteral("room_temperature_c"), knownNumber(temperature_c) },
        { QStringLiteral("room_humidity_pct"), knownNumber(humidity_pct) } };
}

constexpr const char* keys[] = { "coat_vpd_kpa", "dry_vpd_kpa", "redampened", "moisture_at_expose_pct",
    "moisture_at_rinse_pct", "moisture_at_expose_low_pct", "moisture_at_expose_high_pct", "moisture_at_rinse_low_pct",
    "moisture_at_rinse_high_pct", "drying_rate_per_min", "minutes_to_dry" };

} // namespace

TEST_F(DryingFields, NothingRecordedGivesNothing)
{
    const auto print = addPrint({});
    for (const char* key : keys)
        EXPECT_FALSE(get(print, key).has()) << key;
}

TEST_F(DryingFields, EachStandsOnceAndSaysWhatItIs)
{
    for (const char* key : keys) {
        int found = 0;
        for (const auto& field : catalogue_.printFields())
            found += field.key == QLatin1String(key);
        EXPECT_EQ(found, 1) << key;
        EXPECT_FALSE(catalogue_.findPrintField(QString::fromLatin1(key))->description.isEmpty()) << key;
    }
    EXPECT_TRUE(catalogue_.findPrintField(u"moisture_at_rinse_pct")->factor);
    EXPECT_FALSE(catalogue_.findPrintField(u"moisture_at_rinse_low_pct")->factor);
}

TEST_F(DryingFields, DeficitOfTheRoomOrOfTheStationsOwnAir)
{
    // 20 degrees, 50 %: 2.3392 x 0.5 = 1.170 kPa.
    EXPECT_NEAR(number(addPrint({}, roomOf(20, 50)), "coat_vpd_kpa"), 1.170, 0.001);
    EXPECT_NEAR(number(addPrint({}, roomOf(20, 50)), "dry_vpd_kpa"), 1.170, 0.001);
    // 20 degrees, 80 % noted for drying: 0.468 kPa.
    const auto own = addPrint({ { QStringLiteral("dry_humidity_pct"), knownNumber(80) } }, roomOf(20, 50));
    EXPECT_NEAR(number(own, "dry_vpd_kpa"), 0.468, 0.001);
    EXPECT_EQ(get(own, "dry_vpd_kpa").evidence, Evidence::Measured);
    // Dried at 30 degrees, humidity not read there: 4.2467 - 1.1696 = 3.077 kPa.
    const auto warm = addPrint({ { QStringLiteral("dry_temperature_c"), knownNumber(30) } }, roomOf(20, 50));
    EXPECT_NEAR(number(warm, "dry_vpd_kpa"), 3.077, 0.001);
    EXPECT_EQ(get(warm, "dry_vpd_kpa").evidence, Evidence::Estimated);
    const auto guessed = addPrint({},
        { { QStringLiteral("room_temperature_c"), knownNumber(20) },
            { QStringLiteral("room_humidity_pct"), knownNumber(50, Evidence::Assumed) } });
    EXPECT_EQ(get(guessed, "dry_vpd_kpa").evidence, Evidence::Assumed);
    EXPECT_FALSE(get(addPrint({}, { { QStringLiteral("room_temperature_c"), knownNumber(20) } }), "dry_vpd_kpa"));
}

TEST_F(DryingFields, HotAirIsNotTheRoomsAir)
{
    const auto hot = addPrint({ { QStringLiteral("dry_method"), text("dryer_hot") } }, roomOf(20, 50));
    EXPECT_FALSE(get(hot, "dry_vpd_kpa"));
    EXPECT_TRUE(get(hot, "coat_vpd_kpa"));
    const auto known = addPrint({ { QStringLiteral("dry_method"), text("dryer_hot") },
                                    { QStringLiteral("dry_temperature_c"), knownNumber(60) } },
        roomOf(20, 50));
    EXPECT_NEAR(number(known, "dry_vpd_kpa"), 19.946 - 1.1696, 0.002); // IF97 at 60 degrees
}

TEST_F(DryingFields, MoistureFromWeighingsIsAsItWas)
{
    // The hand-worked values of the test of derived fields: 41.25 % with assumed solids, 37.5 % with 20 %.
    const auto assumed = addPrint({});
    weighed(assumed, "bare", 5.0);
    weighed(assumed, "coated", 5.6);
    weighed(assumed, "before_expose", 5.3);
    EXPECT_NEAR(number(assumed, "moisture_at_expose_pct"), 41.25, 1e-9);
    EXPECT_EQ(get(assumed, "moisture_at_expose_pct").evidence, Evidence::Assumed);
    EXPECT_FALSE(get(assumed, "moisture_at_rinse_pct"));
    const auto known = coatedPrint();
    weighed(known, "before_expose", 5.3);
    weighed(known, "before_rinse", 5.12);
    EXPECT_NEAR(number(known, "moisture_at_expose_pct"), 37.5, 1e-9);
    EXPECT_EQ(get(known, "moisture_at_expose_pct").evidence, Evidence::Measured);
    EXPECT_NEAR(number(known, "moisture_at_rinse_pct"), 0.0, 1e-9);
    EXPECT_LT(number(known, "moisture_at_expose_low_pct"), 37.5);
    EXPECT_GT(number(known, "moisture_at_expose_high_pct"), 37.5);
    EXPECT_LE(number(known, "moisture_at_rinse_low_pct"), 0.0 + 1e-9);
}

TEST_F(DryingFields, AMixOfNothingButSolidsGivesNothing)
{
    const auto print = addPrint({}, {}, { { QStringLiteral("mix_solids_pct"), knownNumber(100) } });
    weighed(print, "bare", 5.0);
    weighed(print, "coated", 5.6, 0);
    weighed(print, "drying", 5.4, 10);
    weighed(print, "before_expose", 5.3, 20);
    exposed(print, 21, 30);
    for (const char* key : keys)
        EXPECT_FALSE(get(print, key).has()) << key;
}

TEST_F(DryingFields, CurveThenTouchWhenItWasNotWeighed)
{
    const auto curve = coatedPrint();
    weighed(curve, "drying", massOf(50), 10);
    exposed(curve, 30, 40);
    // k = ln(98/48)/10 = 0.07138 per min; 2 + 98 exp(-2.1413) = 13.5 %; 5 % after ln(98/3)/k = 48.84 min.
    EXPECT_NEAR(number(curve, "moisture_at_expose_pct"), 13.5, 0.1);
    EXPECT_EQ(get(curve, "moisture_at_expose_pct").evidence, Evidence::Assumed);
    EXPECT_NEAR(number(curve, "drying_rate_per_min"), 0.07138, 1e-4);
    EXPECT_NEAR(number(curve, "minutes_to_dry"), 48.84, 0.05);
    EXPECT_EQ(get(curve, "drying_rate_per_min").evidence, Evidence::Estimated);

    const auto felt = addPrint({});
    exposed(felt, 30, 40);
    add(Entity::Touch,
        { { QStringLiteral("touch_time"), when(28) },
            { QStringLiteral("touch_state"), { Value(QStringLiteral("cool")), Evidence::Estimated } } },
        felt);
    const auto range = TouchRanges {}.cool;
    EXPECT_NEAR(number(felt, "moisture_at_expose_pct"), range.likely, 1e-9);
    EXPECT_NEAR(number(felt, "moisture_at_expose_low_pct"), range.low, 1e-9);
    EXPECT_NEAR(number(felt, "moisture_at_expose_high_pct"), range.high, 1e-9);
    EXPECT_EQ(get(felt, "moisture_at_expose_pct").evidence, Evidence::Assumed);
    EXPECT_FALSE(get(felt, "drying_rate_per_min"));
}

TEST_F(DryingFields, UnderFilmThereIsNoRate)
{
    const auto print = coatedPrint({ { QStringLiteral("dry_covered"), { Value(true) } } });
    weighed(print, "drying", massOf(50), 10);
    exposed(print, 60, 70);
    EXPECT_FALSE(get(print, "drying_rate_per_min"));
    EXPECT_FALSE(get(print, "minutes_to_dry"));
    EXPECT_NEAR(number(print, "moisture_at_expose_pct"), 50.0, 1e-9) << "what was last weighed";
    EXPECT_EQ(get(print, "moisture_at_expose_pct").evidence, Evidence::Assumed);
}

TEST_F(DryingFields, Redampened)
{
    const auto print = [&](double room_humidity, std::optional<double> hold_humidity, int waits_min) {
        Cells cells { { QStringLiteral("dry_end"), when(0) }, { QStringLiteral("rinse_start"), when(waits_min + 10) } };
        if (hold_humidity)
            cells[QStringLiteral("hold_humidity_pct")] = knownNumber(*hold_humidity);
        const auto id = addPrint(cells, roomOf(20, room_humidity));
        exposed(id, waits_min, waits_min + 10);
        return id;
    };
    EXPECT_EQ(get(print(50, {}, 30), "redampened").yes(), false);
    EXPECT_EQ(get(print(85, {}, 30), "redampened").yes(), true);
    EXPECT_EQ(get(print(85, {}, 30), "redampened").evidence, Evidence::Estimated);
    EXPECT_EQ(get(print(77, {}, 30), "redampened").yes(), true);
    EXPECT_EQ(get(print(77, {}, 30), "redampened").evidence, Evidence::Assumed) << "between 75 and 80 %";
    EXPECT_EQ(get(print(85, {}, 2), "redampened").yes(), false) << "it hardly waited";
    EXPECT_EQ(get(print(50, 90, 2), "redampened").yes(), true) << "held in damp air";
    EXPECT_EQ(get(print(85, 40, 2), "redampened").yes(), false);
    const auto room_unknown = addPrint({ { QStringLiteral("dry_end"), when(0) } });
    exposed(room_unknown, 60, 70);
    EXPECT_FALSE(get(room_unknown, "redampened")) << "it waited in air that nobody read";
}

TEST_F(DryingFields, RatesAreLearntFromTheNotebook)
{
    const auto paper = add(Entity::Paper, { { QStringLiteral("paper_name"), text("paper P") } });
    const Cells cells { { QStringLiteral("print_paper"), link(paper) },
        { QStringLiteral("dry_method"), text("hung") } };
    const auto first = coatedPrint(cells, roomOf(20, 50));
    weighed(first, "drying", massOf(50), 10);
    const auto wetter = coatedPrint(cells, roomOf(20, 75)); // half of the deficit, half of the rate
    weighed(wetter, "drying", massOf(50), 20);
    auto covered_cells = cells;
    covered_cells[QStringLiteral("dry_covered")] = { Value(true) };
    weighed(coatedPrint(covered_cells, roomOf(20, 50)), "drying", massOf(90), 20);

    const PrintReader reader(notebook_);
    const auto learnt = LearntRates::of(reader);
    ASSERT_EQ(learnt.sheets().size(), 2U);
    const auto rate = learnt.rate(QStringLiteral("paper P"), QStringLiteral("hung"), { 20, 50 }, {});
    EXPECT_EQ(rate->from, RateFrom::PaperAndMethod);
    EXPECT_NEAR(rate->per_min.likely, 0.07138, 1e-4) << "both say the same of this air";

    const auto sheet = sheetOf(reader, notebook_.prints().find(first));
    EXPECT_EQ(sheet.paper, QStringLiteral("paper P"));
    EXPECT_EQ(sheet.weighings.size(), 3U);
    EXPECT_NEAR(moistureAt(sheet, clock(20))->pct.likely, 25.5, 0.1);
}

} // namespace WASHFAST_FILE
