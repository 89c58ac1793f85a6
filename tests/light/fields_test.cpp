// The fields of a print that this room adds: from what was recorded, and unknown where it was not.
#include "core/light/fields.h"
#include "core/light/print_light.h"

#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;
using namespace washfast::light;

namespace {

QString text(const char* utf8)
{
    return QString::fromUtf8(utf8);
}

/// The record of one print, by key, and its fields.
class Recorded : public testing::Test {
protected:
    Recorded()
    {
        light::addFields(catalogue_);
        site("site_latitude_deg", 52.0);
        site("site_longitude_deg", 10.0);
        site("dose_goal_j_cm2", 2.4);
        exposure_ = addExposure("2026-06-20T13:00:00+02:00", "2026-06-20T13:12:00+02:00");
        put("expose_place", text("open_sky"));
        put("cloud_start_eighths", 0.0);
        put("disc_start", text("yes"));
    }
    void site(const char* key, Value value) { inputs_[text(key)] = Known { std::move(value) }; }
    size_t addExposure(const char* start, const char* end)
    {
        exposures_.emplace_back();
        exposure_ = exposures_.size() - 1;
        put("expose_number", double(exposures_.size()));
        put("expose_start", *Instant::fromIso(text(start)));
        put("expose_end", *Instant::fromIso(text(end)));
        return exposure_;
    }
    void put(const char* column, Value value) { exposures_[exposure_][text(column)] = Known { std::move(value) }; }
    void forget(const char* column) { exposures_[exposure_].remove(text(column)); }
    void read(const char* time, double w_m2)
    {
        meter_.push_back({ { text("meter_time"), Known { *Instant::fromIso(text(time)) } },
            { text("meter_uva_w_m2"), Known { w_m2 } } });
    }
    void cover(const char* kind, double mm)
    {
        put("expose_cover", Link { 7 });
        put("expose_cover.cover_kind", text(kind));
        put("expose_cover.cover_thickness_mm", mm);
    }
    [[nodiscard]] Known field(const char* key) const
    {
        const auto* found = catalogue_.findPrintField(text(key));
        if (!found || !found->derived()) {
            ADD_FAILURE() << key;
            return {};
        }
        const auto& derivation = *found->derivation;
        std::vector<Known> inputs;
        for (const auto& input : derivation.inputs) {
            EXPECT_NE(catalogue_.printField(input), -1) << qPrintable(input);
            inputs.push_back(inputs_.value(input));
        }
        std::vector<ChildRows> rows;
        for (const auto& table : derivation.rows) {
            auto& added = rows.emplace_back();
            for (const auto& record : table.entity == Entity::Exposure ? exposures_ : meter_) {
                auto& row = added.emplace_back();
                for (const auto& column : table.columns)
                    row.push_back(record.value(column));
            }
        }
        return derivation.compute(inputs, rows);
    }
    [[nodiscard]] double number(const char* key) const
    {
        const auto value = field(key).number();
        EXPECT_TRUE(value) << key;
        return value.value_or(0);
    }
    [[nodiscard]] double partsTogether() const
    {
        double sum = 0;
        for (const char* part : { "sun", "cloud", "cover", "sky_share", "tilt", "time" })
            sum += number((std::string("light_loss_") + part + "_log10").c_str());
        return sum;
    }

private:
    Catalogue catalogue_ = standardCatalogue();
    QHash<QString, Known> inputs_;
    std::vector<QHash<QString, Known>> exposures_, meter_;
    size_t exposure_ = 0;
};

} // namespace

TEST(LightFields, AskForColumnsThatAreThere)
{
    const auto catalogue = standardCatalogue();
    for (const auto& rows : printRows())
        for (const auto& column : rows.columns) {
            auto entity = rows.entity;
            const auto steps = column.split(QLatin1Char('.'));
            for (qsizetype i = 0; i < steps.size(); ++i) {
                ASSERT_GE(catalogue.column(entity, steps[i]), 0) << qPrintable(column);
                if (i + 1 < steps.size())
                    entity = *catalogue.columnField(entity, steps[i]).target;
            }
        }
}

TEST_F(Recorded, ASunnyPrint)
{
    EXPECT_EQ(field("dose_j_cm2").evidence, Evidence::Estimated);
    // Zenith 28.6 degrees and twelve minutes: about 48 W/m2 (Bird and Riordan's model), 3.4 J/cm2.
    EXPECT_NEAR(number("sun_zenith_deg"), 28.6, 1);
    EXPECT_NEAR(number("uva_clear_w_m2"), 48, 2);
    EXPECT_NEAR(number("dose_j_cm2"), number("uva_clear_w_m2") * 720 / 1e4, 1e-9);
    EXPECT_DOUBLE_EQ(number("cloud_factor"), 1);
    EXPECT_FALSE(field("cover_transmittance").has()) << "nothing lay over it";
    EXPECT_LT(number("dose_low_j_cm2"), number("dose_j_cm2"));
    EXPECT_GT(number("dose_high_j_cm2"), number("dose_j_cm2"));
    EXPECT_NEAR(number("dose_against_goal_log10"), std::log10(number("dose_j_cm2") / 2.4), 1e-12);
    EXPECT_NEAR(partsTogether(), number("dose_against_goal_log10"), 1e-9);
    EXPECT_NEAR(number("light_loss_cloud_log10"), 0, 1e-3);
    EXPECT_NEAR(number("light_loss_tilt_log10"), 0, 1e-12);
    EXPECT_GT(number("uv_index"), 7);
}

TEST_F(Recorded, CloudAndGlassAreToldApart)
{
    put("cloud_start_eighths", 8.0);
    put("disc_start", text("no"));
    cover("glass", 4);
    EXPECT_NEAR(number("cloud_factor"), 0.31, 1e-9);
    EXPECT_NEAR(number("light_loss_cloud_log10"), std::log10(0.31), 0.03);
    EXPECT_LT(number("light_loss_cover_log10"), -0.12);
    EXPECT_GT(number("light_loss_cover_log10"), -0.20);
    EXPECT_NEAR(partsTogether(), number("dose_against_goal_log10"), 1e-9);
}

TEST_F(Recorded, WhatIsNotRecordedIsNotZero)
{
    put("cloud_start_eighths", Value {});
    put("disc_start", Value {});
    EXPECT_EQ(field("dose_j_cm2").evidence, Evidence::Assumed) << "no sky was noted";
    EXPECT_FALSE(field("cloud_factor").has());
    site("dose_goal_j_cm2", Value {});
    EXPECT_FALSE(field("dose_against_goal_log10").has());
    EXPECT_FALSE(field("light_loss_time_log10").has());
    EXPECT_TRUE(field("light_loss_sun_log10").has());
    put("expose_cover", Link { 3 });
    EXPECT_FALSE(field("dose_j_cm2").has()) << "a cover that nobody knows";
    put("expose_cover.cover_uva_transmittance", 0.5);
    EXPECT_TRUE(field("dose_j_cm2").has()) << "measured is enough";
    site("site_latitude_deg", Value {});
    for (const char* key : { "dose_j_cm2", "dose_low_j_cm2", "sun_zenith_deg", "uva_clear_w_m2", "uva_at_paper_w_m2",
             "uv_index", "light_loss_sun_log10" })
        EXPECT_FALSE(field(key).has()) << key;
}

TEST_F(Recorded, ReadingsReplaceTheModel)
{
    read("2026-06-20T13:00:00+02:00", 20);
    EXPECT_EQ(field("dose_j_cm2").evidence, Evidence::Estimated) << "one reading for the whole time";
    read("2026-06-20T13:12:00+02:00", 30);
    EXPECT_EQ(field("dose_j_cm2").evidence, Evidence::Measured);
    EXPECT_NEAR(number("dose_j_cm2"), 25 * 720 / 1e4, 1e-6);
    EXPECT_NEAR(number("uva_at_paper_w_m2"), 25, 1e-6);
    EXPECT_NEAR(partsTogether(), number("dose_against_goal_log10"), 1e-9);
    site("site_latitude_deg", Value {});
    EXPECT_NEAR(number("dose_j_cm2"), 25 * 720 / 1e4, 1e-6) << "a reading needs no site";
}

TEST_F(Recorded, SeveralExposuresAddUp)
{
    const double first = number("dose_j_cm2");
    addExposure("2026-06-20T13:20:00+02:00", "2026-06-20T13:32:00+02:00");
    put("expose_place", text("open_sky"));
    put("cloud_start_eighths", 0.0);
    EXPECT_NEAR(number("dose_j_cm2"), 2 * first, 0.01 * first);
    EXPECT_NEAR(partsTogether(), number("dose_against_goal_log10"), 1e-9);
    forget("expose_end");
    EXPECT_FALSE(field("dose_j_cm2").has()) << "the half of a dose is no dose";
}

TEST_F(Recorded, ALampTellsNothingWithoutAReading)
{
    put("expose_place", text("lamp"));
    EXPECT_FALSE(field("dose_j_cm2").has());
    EXPECT_FALSE(field("uva_clear_w_m2").has());
    read("2026-06-20T13:05:00+02:00", 40);
    EXPECT_NEAR(number("dose_j_cm2"), 40 * 720 / 1e4, 1e-9);
}

TEST_F(Recorded, ALampOnTheShelfGivesTheDose)
{
    forget("expose_place");
    put("expose_lamp", Link { 3 });
    put("expose_lamp.lamp_kind", text("tube_dark"));
    put("expose_lamp.lamp_uva_w_m2", 25.0);
    put("expose_lamp.lamp_measured_at_cm", 40.0);
    EXPECT_FALSE(field("dose_j_cm2").has()) << "how far away the sheet lay is not known";
    put("expose_lamp_distance_cm", 40.0);
    EXPECT_NEAR(number("dose_j_cm2"), 25 * 720 / 1e4, 1e-9);
    EXPECT_EQ(field("dose_j_cm2").evidence, Evidence::Estimated);
    put("expose_lamp_distance_cm", 20.0);
    EXPECT_NEAR(number("dose_j_cm2"), 4 * 25 * 720 / 1e4, 1e-9);
    EXPECT_EQ(field("dose_j_cm2").evidence, Evidence::Assumed) << "the square law is an assumption so near";
    cover("glass", 4);
    EXPECT_LT(number("dose_j_cm2"), 0.9 * 4 * 25 * 720 / 1e4);
    put("expose_lamp.lamp_kind", text("other"));
    EXPECT_FALSE(field("dose_j_cm2").has()) << "what the glass takes of an unknown light is not known";
    put("expose_lamp.lamp_spectrum", text("350:0 365:1 380:0"));
    EXPECT_TRUE(field("dose_j_cm2").has());
}

TEST_F(Recorded, ACoversOwnSpectrumWinsOverItsKind)
{
    cover("laminated_glass", 6.4);
    const double by_kind = number("cover_transmittance");
    put("expose_cover.cover_spectrum", text("300:0.5 400:0.5"));
    EXPECT_NEAR(number("cover_transmittance"), 0.5, 0.05) << "at a slant a little less";
    EXPECT_GT(number("cover_transmittance"), by_kind + 0.1);
    put("expose_cover.cover_spectrum", text("350:0.5 380:0.5"));
    EXPECT_DOUBLE_EQ(number("cover_transmittance"), by_kind) << "a spectrum that misses half of UVA is none";
}

TEST_F(Recorded, TheCoatsDoseIsCountedByItsAbsorbance)
{
    const double uva = number("dose_j_cm2");
    EXPECT_NEAR(number("dose_coat_j_cm2") / uva, 1.24, 0.03);
    EXPECT_EQ(field("dose_coat_j_cm2").evidence, Evidence::Assumed) << "no absorbance was noted";
    site("formula_absorbance_365", 1.0);
    site("formula_absorbance_tail_nm", 40.0);
    EXPECT_NEAR(number("dose_coat_j_cm2") / uva, 1.62, 0.04);
    EXPECT_EQ(field("dose_coat_j_cm2").evidence, Evidence::Estimated);
}

} // namespace WASHFAST_FILE
