// What is worked out from a print's record, against values worked out by hand; the arithmetic stands in each comment.
#include "core/quantity/catalogue.h"

#include <QHash>
#include <cmath>
#include <gtest/gtest.h>

namespace WASHFAST_FILE {

using namespace washfast;

namespace {

Instant at(const char* iso)
{
    const auto time = Instant::fromIso(std::string_view(iso));
    EXPECT_TRUE(time) << iso;
    return time.value_or(Instant {});
}

/// A print's record as plain key and value; works out a derived field by its own rule, its inputs first.
class Sheet {
public:
    explicit Sheet(const Catalogue& catalogue)
        : catalogue_(catalogue)
    {
    }

    Sheet& with(const char* key, Known value)
    {
        EXPECT_NE(catalogue_.findPrintField(QString::fromUtf8(key)), nullptr) << key;
        given_[QString::fromUtf8(key)] = std::move(value);
        return *this;
    }
    Sheet& with(const char* key, double number, Evidence evidence = Evidence::Measured)
    {
        return with(key, knownNumber(number, evidence));
    }
    Sheet& with(const char* key, const char* text) { return with(key, Known { QString::fromUtf8(text) }); }
    Sheet& when(const char* key, const char* iso) { return with(key, Known { at(iso) }); }

    using Cells = std::vector<std::pair<const char*, Known>>;
    Sheet& child(Entity entity, const Cells& cells)
    {
        auto& row = rows_[int(entity)].emplace_back();
        for (const auto& [key, value] : cells) {
            EXPECT_GE(catalogue_.column(entity, QString::fromUtf8(key)), 0) << key;
            row[QString::fromUtf8(key)] = value;
        }
        return *this;
    }

    [[nodiscard]] Known get(const QString& key) const
    {
        const auto* field = catalogue_.findPrintField(key);
        if (!field) {
            ADD_FAILURE() << "no field " << key.toStdString();
            return {};
        }
        if (!field->derivation || given_.contains(key))
            return given_.value(key);
        std::vector<Known> inputs;
        for (const auto& input : field->derivation->inputs)
            inputs.push_back(get(input));
        std::vector<ChildRows> tables;
        for (const auto& asked : field->derivation->rows) {
            auto& rows = tables.emplace_back();
            for (const auto& row : rows_.value(int(asked.entity))) {
                auto& values = rows.emplace_back();
                for (const auto& column : asked.columns)
                    values.push_back(row.value(column));
            }
        }
        return field->derivation->compute(inputs, tables);
    }
    [[nodiscard]] Known get(const char* key) const { return get(QString::fromUtf8(key)); }
    [[nodiscard]] double number(const char* key) const { return get(key).number().value_or(std::nan("")); }
    [[nodiscard]] Evidence evidence(const char* key) const { return get(key).evidence; }

private:
    const Catalogue& catalogue_;
    QHash<QString, Known> given_;
    QHash<int, std::vector<QHash<QString, Known>>> rows_;
};

class Derived : public testing::Test {
protected:
    [[nodiscard]] Sheet sheet() const { return Sheet(catalogue); }

    const Catalogue catalogue = standardCatalogue();
};

Known eye(double number)
{
    return knownNumber(number, Evidence::Estimated);
}

} // namespace

TEST_F(Derived, NothingRecordedGivesNothing)
{
    const Sheet empty = sheet();
    for (const auto& field : catalogue.printFields())
        EXPECT_FALSE(empty.get(field.key).has()) << field.key.toStdString();
}

// ---- Coat and dry

TEST_F(Derived, CoatPerArea)
{
    // Sheet sizes: ISO 216. 20 mL/m2 on A4 (210 x 297 mm, 0.06237 m2) is 1.247 mL, A5 (148 x 210, 0.03108 m2) 0.622 mL,
    // A6 (105 x 148, 0.01554 m2) 0.311 mL.
    struct Size {
        double width_mm, height_mm, volume_ml;
    };
    for (const auto& size : { Size { 210, 297, 1.2474 }, Size { 148, 210, 0.6216 }, Size { 105, 148, 0.3108 } })
        EXPECT_NEAR(sheet()
                        .with("print_width_mm", size.width_mm)
                        .with("print_height_mm", size.height_mm)
                        .with("coat_volume_ml", size.volume_ml)
                        .number("coat_per_area_ml_m2"),
            20.0, 1e-9);
    // Rounded as one would measure it: 0.62 mL / 0.03108 m2 = 19.95 mL/m2.
    EXPECT_NEAR(sheet()
                    .with("print_width_mm", 148)
                    .with("print_height_mm", 210)
                    .with("coat_volume_ml", 0.62)
                    .number("coat_per_area_ml_m2"),
        19.95, 0.005);
    // A published report: 1.5 mL by brush on 11 x 14 in (279.4 x 355.6 mm, 0.099355 m2) is 15.1 mL/m2.
    EXPECT_NEAR(sheet()
                    .with("print_width_mm", 11 * 25.4)
                    .with("print_height_mm", 14 * 25.4)
                    .with("coat_volume_ml", 1.5)
                    .number("coat_per_area_ml_m2"),
        15.1, 0.05);
}

TEST_F(Derived, CoatPerAreaNeedsAnArea)
{
    EXPECT_FALSE(sheet().with("print_width_mm", 148).with("coat_volume_ml", 0.62).get("coat_per_area_ml_m2"));
    EXPECT_FALSE(sheet()
                     .with("print_width_mm", 0.0)
                     .with("print_height_mm", 210)
                     .with("coat_volume_ml", 0.62)
                     .get("coat_per_area_ml_m2"));
    const auto none = sheet().with("print_width_mm", 148).with("print_height_mm", 210).with("coat_volume_ml", 0.0);
    EXPECT_EQ(none.number("coat_per_area_ml_m2"), 0.0) << "nothing put on is not the same as not recorded";
}

TEST_F(Derived, TimesAreTakenAcrossClocks)
{
    // 10:15 at +02:00 is 08:15 UTC; to 09:00 UTC it is 45 min.
    EXPECT_DOUBLE_EQ(sheet()
                         .when("dry_start", "2026-05-04T10:15:00+02:00")
                         .when("dry_end", "2026-05-04T09:00:00Z")
                         .number("dry_minutes"),
        45.0);
    // Made on the eve at 18:00, coated at 9:30: 15.5 h.
    EXPECT_DOUBLE_EQ(sheet()
                         .when("mix_made", "2026-05-03T18:00:00+02:00")
                         .when("coat_start", "2026-05-04T09:30:00+02:00")
                         .number("mix_age_h"),
        15.5);
    EXPECT_FALSE(
        sheet().when("dry_start", "2026-05-04T10:15:00Z").when("dry_end", "2026-05-04T10:14:00Z").get("dry_minutes"))
        << "an end before the start is a slip, not a negative time";
    EXPECT_DOUBLE_EQ(
        sheet().when("dry_start", "2026-05-04T10:15:00Z").when("dry_end", "2026-05-04T10:15:00Z").number("dry_minutes"),
        0.0);
}

TEST_F(Derived, MoistureFromWeighings)
{
    // Bare 5.00 g, just coated 5.60 g: 0.60 g of mix. Traditional mix 35 g in 235 g: solids 0.60 x 35/235 = 0.08936 g,
    // water 0.51064 g. Now 5.30 g: (0.30 - 0.08936) / 0.51064 = (70.5 - 21) / 120 = 41.25 %.
    auto print = sheet().with("mass_bare_g", 5.0).with("mass_coated_g", 5.6).with("mass_before_expose_g", 5.3);
    EXPECT_NEAR(print.number("moisture_at_expose_pct"), 41.25, 1e-9);
    EXPECT_EQ(print.evidence("moisture_at_expose_pct"), Evidence::Assumed) << "the solids were not recorded";
    EXPECT_FALSE(print.get("moisture_at_rinse_pct"));
    // Solids of 20 %: 0.12 g; (0.30 - 0.12) / 0.48 = 37.5 %.
    print.with("mix_solids_pct", 20);
    EXPECT_NEAR(print.number("moisture_at_expose_pct"), 37.5, 1e-9);
    EXPECT_EQ(print.evidence("moisture_at_expose_pct"), Evidence::Measured);
    // Only the solids are left: 5.00 + 0.12 g. Nothing has left: 100 %.
    EXPECT_NEAR(print.with("mass_before_rinse_g", 5.12).number("moisture_at_rinse_pct"), 0.0, 1e-9);
    EXPECT_NEAR(print.with("mass_before_rinse_g", 5.6).number("moisture_at_rinse_pct"), 100.0, 1e-9);
}

TEST_F(Derived, MoistureNeedsAllThreeWeighings)
{
    EXPECT_FALSE(sheet().with("mass_coated_g", 5.6).with("mass_before_expose_g", 5.3).get("moisture_at_expose_pct"));
    EXPECT_FALSE(sheet().with("mass_bare_g", 5.0).with("mass_before_expose_g", 5.3).get("moisture_at_expose_pct"));
    EXPECT_FALSE(sheet()
                     .with("mass_bare_g", 5.6)
                     .with("mass_coated_g", 5.6)
                     .with("mass_before_expose_g", 5.3)
                     .get("moisture_at_expose_pct"))
        << "no mix on the sheet";
}

TEST_F(Derived, TheLastTouchBeforeItBeganCounts)
{
    const auto touch = [](const char* iso, const char* state) {
        return Sheet::Cells { { "touch_time", Known { at(iso) } },
            { "touch_state", Known { QString::fromUtf8(state), Evidence::Estimated } } };
    };
    auto print = sheet()
                     .when("expose_start", "2026-05-04T11:00:00Z")
                     .when("rinse_start", "2026-05-04T11:30:00Z")
                     .child(Entity::Touch, touch("2026-05-04T10:50:00Z", "cool"))
                     .child(Entity::Touch, touch("2026-05-04T10:30:00Z", "clings")) // entered late
                     .child(Entity::Touch, touch("2026-05-04T11:20:00Z", "dry"));
    EXPECT_EQ(print.get("touch_at_expose").text(), QStringLiteral("cool"));
    EXPECT_EQ(print.evidence("touch_at_expose"), Evidence::Estimated);
    EXPECT_EQ(print.get("touch_at_rinse").text(), QStringLiteral("dry"));
    EXPECT_FALSE(sheet()
                     .when("expose_start", "2026-05-04T11:00:00Z")
                     .when("rinse_start", "2026-05-04T11:30:00Z")
                     .child(Entity::Touch, touch("2026-05-04T10:50:00Z", "crisp"))
                     .get("touch_at_rinse"))
        << "felt before the light only: unknown at the rinse";
    EXPECT_FALSE(sheet().child(Entity::Touch, touch("2026-05-04T10:50:00Z", "cool")).get("touch_at_expose"))
        << "when the exposure began is not known";
}

// ---- Light

TEST_F(Derived, DoseFromTheInstrument)
{
    // 47 W/m2 for 10 min: 47 x 600 s = 28,200 J/m2 = 2.82 J/cm2; 22 W/m2 for 15 min: 19,800 J/m2 = 1.98 J/cm2.
    const auto exposure = [](const char* from, const char* to) {
        return Sheet::Cells { { "expose_start", Known { at(from) } }, { "expose_end", Known { at(to) } } };
    };
    const auto meter = [](double w_m2) { return Sheet::Cells { { "meter_uva_w_m2", knownNumber(w_m2) } }; };
    auto print = sheet()
                     .child(Entity::Exposure, exposure("2026-06-21T12:00:00Z", "2026-06-21T12:10:00Z"))
                     .child(Entity::Meter, meter(47));
    EXPECT_NEAR(print.number("dose_j_cm2"), 2.82, 1e-12);
    EXPECT_EQ(print.evidence("dose_j_cm2"), Evidence::Estimated) << "one reading for the whole time";
    EXPECT_NEAR(print.number("log_dose"), 0.4502, 5e-5); // log10(2.82)
    EXPECT_EQ(print.evidence("log_dose"), Evidence::Estimated);

    auto low = sheet()
                   .child(Entity::Exposure, exposure("2026-06-21T16:00:00Z", "2026-06-21T16:15:00Z"))
                   .child(Entity::Meter, meter(20))
                   .child(Entity::Meter, meter(24)); // mean 22
    EXPECT_NEAR(low.number("uva_mean_w_m2"), 22.0, 1e-12);
    EXPECT_NEAR(low.number("dose_j_cm2"), 1.98, 1e-12);
    EXPECT_EQ(low.evidence("dose_j_cm2"), Evidence::Measured);
    EXPECT_FALSE(sheet().child(Entity::Meter, meter(47)).get("dose_j_cm2")) << "no time";
    EXPECT_FALSE(
        sheet().child(Entity::Exposure, exposure("2026-06-21T12:00:00Z", "2026-06-21T12:10:00Z")).get("dose_j_cm2"));
}

TEST_F(Derived, AReadingWithoutANumberIsNone)
{
    auto print = sheet()
                     .child(Entity::Meter, { { "meter_uva_w_m2", knownNumber(40) } })
                     .child(Entity::Meter, { { "meter_uva_w_m2", Known {} } });
    EXPECT_DOUBLE_EQ(print.number("uva_mean_w_m2"), 40.0);
}

TEST_F(Derived, ExposureTimeAddsUpWithoutThePauses)
{
    // 12:00-12:06 with a pause of 1.5 min is 4.5 min; 12:20-12:25 is 5 min; 9.5 min together.
    auto print = sheet()
                     .child(Entity::Exposure,
                         { { "expose_start", Known { at("2026-06-21T12:00:00Z") } },
                             { "expose_end", Known { at("2026-06-21T12:06:00Z") } },
                             { "expose_pause_min", knownNumber(1.5) } })
                     .child(Entity::Exposure,
                         { { "expose_start", Known { at("2026-06-21T12:20:00Z") } },
                             { "expose_end", Known { at("2026-06-21T12:25:00Z") } } });
    EXPECT_DOUBLE_EQ(print.number("expose_minutes"), 9.5);
    print.child(Entity::Exposure, { { "expose_start", Known { at("2026-06-21T12:30:00Z") } } });
    EXPECT_FALSE(print.get("expose_minutes")) << "one of three was never ended";
    EXPECT_FALSE(
        sheet()
            .child(Entity::Exposure,
                { { "expose_start", Known { at("2026-06-21T12:00:00Z") } },
                    { "expose_end", Known { at("2026-06-21T12:06:00Z") } }, { "expose_pause_min", knownNumber(7) } })
            .get("expose_minutes"))
        << "paused for longer than it lasted";
}

// ---- Hold and rinse

TEST_F(Derived, HoldIsLoggedOrTakenFromItsNeighbours)
{
    auto print = sheet().when("expose_end", "2026-05-04T11:00:00Z").when("rinse_start", "2026-05-04T11:40:00Z");
    EXPECT_DOUBLE_EQ(print.number("hold_minutes"), 40.0);
    print.when("hold_start", "2026-05-04T11:05:00Z").when("hold_end", "2026-05-04T11:35:00Z");
    EXPECT_DOUBLE_EQ(print.number("hold_minutes"), 30.0);
}

TEST_F(Derived, RinseAddsUpTheBaths)
{
    const auto bath = [](Known minutes, Known litres) {
        return Sheet::Cells { { "bath_minutes", std::move(minutes) }, { "bath_litres", std::move(litres) } };
    };
    auto print = sheet()
                     .child(Entity::Bath, bath(knownNumber(10), knownNumber(2)))
                     .child(Entity::Bath, bath(eye(5), knownNumber(3.5)));
    EXPECT_DOUBLE_EQ(print.number("rinse_minutes"), 15.0);
    EXPECT_EQ(print.evidence("rinse_minutes"), Evidence::Estimated);
    EXPECT_DOUBLE_EQ(print.number("rinse_litres"), 5.5);
    EXPECT_EQ(print.evidence("rinse_litres"), Evidence::Measured);
    print.child(Entity::Bath, bath({}, {}));
    EXPECT_FALSE(print.get("rinse_minutes")) << "the time of the third is missing";
    EXPECT_FALSE(print.get("rinse_litres"));
    print.when("rinse_start", "2026-05-04T11:00:00Z").when("rinse_end", "2026-05-04T11:21:00Z");
    EXPECT_DOUBLE_EQ(print.number("rinse_minutes"), 21.0);
}

// ---- Tones

TEST_F(Derived, FormedKeptAndNetDensity)
{
    // Before: 1.30 - 0.10 (covered) = 1.20. A day after: 0.90 - 0.06 (paper) = 0.84. Kept 0.84 / 1.20 = 0.70.
    auto print = sheet()
                     .with("density_before_rinse_deepest", 1.30)
                     .with("density_before_rinse_covered", 0.10)
                     .with("density_day_after_deepest", 0.90)
                     .with("density_day_after_paper", 0.06);
    EXPECT_NEAR(print.number("formed"), 1.20, 1e-12);
    EXPECT_NEAR(print.number("net_density"), 0.84, 1e-12);
    EXPECT_NEAR(print.number("kept"), 0.70, 1e-12);
    EXPECT_EQ(print.evidence("kept"), Evidence::Measured);
    print.with("density_before_rinse_covered", eye(0.10));
    EXPECT_EQ(print.evidence("formed"), Evidence::Estimated);
    EXPECT_EQ(print.evidence("net_density"), Evidence::Measured);
    EXPECT_EQ(print.evidence("kept"), Evidence::Estimated) << "the weakest input";
}

TEST_F(Derived, TheBaseIsTheBestThatWasRead)
{
    auto print = sheet().with("density_before_rinse_deepest", 1.0).with("paper_base_density", 0.05);
    EXPECT_NEAR(print.number("formed"), 0.95, 1e-12);
    EXPECT_NEAR(print.with("density_day_after_paper", 0.07).number("formed"), 0.93, 1e-12);
    EXPECT_NEAR(print.with("density_before_rinse_covered", 0.12).number("formed"), 0.88, 1e-12);
    EXPECT_FALSE(sheet().with("density_before_rinse_deepest", 1.0).get("formed")) << "no base is not a base of zero";
}

TEST_F(Derived, KeptNeedsBothTonesAndSomethingToKeep)
{
    auto print = sheet().with("density_day_after_deepest", 0.9).with("density_day_after_paper", 0.06);
    EXPECT_FALSE(print.get("kept"));
    print.with("density_before_rinse_covered", 0.10).with("density_before_rinse_deepest", 0.13);
    EXPECT_NEAR(print.number("formed"), 0.03, 1e-12);
    EXPECT_FALSE(print.get("kept")) << "hardly anything was formed";
    EXPECT_NEAR(print.with("density_before_rinse_deepest", 0.52).number("kept"), 2.0, 1e-12)
        << "it may darken: 0.84 / 0.42";
}

// ---- Outcomes

TEST_F(Derived, OutcomesAreYesNoOrUnknown)
{
    const Known seen { QStringLiteral("ran_off; stained"), Evidence::Estimated };
    const auto print = sheet().with("print_outcome", seen);
    EXPECT_EQ(print.get("is_ran_off").yes(), true);
    EXPECT_EQ(print.get("is_stained").yes(), true);
    EXPECT_EQ(print.get("is_kept").yes(), false);
    EXPECT_EQ(print.get("failed").yes(), true);
    EXPECT_EQ(print.evidence("failed"), Evidence::Estimated);
    EXPECT_EQ(sheet().with("print_outcome", "kept").get("failed").yes(), false);
    EXPECT_EQ(sheet().with("print_outcome", "kept; pale").get("failed").yes(), true);
}

TEST_F(Derived, EvidenceIsThatOfTheWeakestInput)
{
    using enum Evidence;
    for (const auto weakest : { Measured, Estimated, Assumed })
        for (const char* key : { "print_width_mm", "print_height_mm", "coat_volume_ml" }) {
            auto print = sheet().with("print_width_mm", 148).with("print_height_mm", 210).with("coat_volume_ml", 0.62);
            print.with(key, *print.get(key).number(), weakest);
            EXPECT_EQ(print.evidence("coat_per_area_ml_m2"), weakest) << key;
        }
    for (const auto weakest : { Measured, Estimated, Assumed })
        for (const char* key : { "mass_bare_g", "mass_coated_g", "mass_before_rinse_g", "mix_solids_pct" }) {
            auto print = sheet()
                             .with("mass_bare_g", 5)
                             .with("mass_coated_g", 5.6)
                             .with("mass_before_rinse_g", 5.3)
                             .with("mix_solids_pct", 15);
            print.with(key, *print.get(key).number(), weakest);
            EXPECT_EQ(print.evidence("moisture_at_rinse_pct"), weakest) << key;
        }
    for (const auto weakest : { Measured, Estimated, Assumed }) {
        const Known start { at("2026-06-21T12:00:00Z"), weakest };
        EXPECT_EQ(
            sheet().with("dry_start", start).when("dry_end", "2026-06-21T12:30:00Z").evidence("dry_minutes"), weakest);
    }
}

TEST_F(Derived, AGuessedPauseMakesAGuessedTime)
{
    for (const auto guess : { Evidence::Estimated, Evidence::Assumed })
        EXPECT_EQ(sheet()
                      .child(Entity::Exposure,
                          { { "expose_start", Known { at("2026-06-21T12:00:00Z") } },
                              { "expose_end", Known { at("2026-06-21T12:06:00Z") } },
                              { "expose_pause_min", knownNumber(1, guess) } })
                      .evidence("expose_minutes"),
            guess);
}

} // namespace WASHFAST_FILE
