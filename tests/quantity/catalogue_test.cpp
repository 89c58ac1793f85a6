// The catalogue is sound: what its entries point at exists, keys and labels tell things apart, numbers have units.
#include "core/quantity/catalogue.h"
#include "core/quantity/number_text.h"
#include "core/quantity/value_text.h"

#include <QRegularExpression>
#include <functional>
#include <gmock/gmock.h>
#include <set>

namespace WASHFAST_FILE {

using namespace washfast;

namespace {

QString wide(const char* text)
{
    return QString::fromUtf8(text);
}

std::string narrow(const Field& field)
{
    return entityKey(field.entity).toStdString() + "." + field.key.toStdString();
}

bool isKey(const QString& text)
{
    static const QRegularExpression form(QStringLiteral("^[a-z][a-z0-9]*(_[a-z0-9]+)*$"));
    return form.match(text).hasMatch();
}

class CatalogueTest : public testing::Test {
protected:
    void eachField(const std::function<void(const Field&)>& look) const
    {
        for (const auto entity : allEntities())
            for (const auto& field : catalogue.columns(entity))
                look(field);
        for (const auto& field : catalogue.printFields())
            look(field);
    }

    const Catalogue catalogue = standardCatalogue();
};

} // namespace

TEST_F(CatalogueTest, KeysAreLowerCaseAndTellFieldsApart)
{
    std::set<QString> keys;
    for (const auto& field : catalogue.printFields()) {
        EXPECT_TRUE(isKey(field.key)) << narrow(field);
        EXPECT_TRUE(keys.insert(field.key).second) << narrow(field) << " is there twice";
    }
    for (const auto entity : allEntities()) {
        std::set<QString> own;
        for (const auto& field : catalogue.columns(entity)) {
            EXPECT_TRUE(isKey(field.key)) << narrow(field);
            EXPECT_TRUE(own.insert(field.key).second) << narrow(field) << " is there twice";
            EXPECT_EQ(field.entity, entity);
        }
    }
    EXPECT_GT(keys.size(), 100u);
}

TEST_F(CatalogueTest, EveryFieldSaysWhatItIs)
{
    eachField([](const Field& field) {
        EXPECT_FALSE(field.label.trimmed().isEmpty()) << narrow(field);
        EXPECT_FALSE(field.label.contains(QLatin1Char('%'))) << narrow(field) << ": " << field.label.toStdString();
        EXPECT_FALSE(field.description.trimmed().isEmpty()) << narrow(field);
        EXPECT_TRUE(field.description.endsWith(QLatin1Char('.'))) << narrow(field);
    });
}

TEST_F(CatalogueTest, LabelsOfPrintFieldsTellThemApart)
{
    std::map<QString, std::string> seen;
    for (const auto& field : catalogue.printFields()) {
        const auto [it, fresh] = seen.emplace(field.label, narrow(field));
        EXPECT_TRUE(fresh) << narrow(field) << " and " << it->second << " are both called "
                           << field.label.toStdString();
    }
}

TEST_F(CatalogueTest, FieldsAreFoundByTheirKeys)
{
    for (size_t i = 0; i < catalogue.printFields().size(); ++i) {
        const auto& field = catalogue.printFields()[i];
        EXPECT_EQ(catalogue.printField(field.key), int(i));
        EXPECT_EQ(catalogue.findPrintField(field.key), &field);
    }
    for (const auto entity : allEntities())
        for (const auto& field : catalogue.columns(entity)) {
            EXPECT_EQ(&catalogue.columnField(entity, field.key), &field);
            EXPECT_EQ(catalogue.column(entity, field.key), field.ordinal);
        }
    EXPECT_EQ(catalogue.printField(u"no_such_field"), -1);
    EXPECT_EQ(catalogue.findPrintField(u"no_such_field"), nullptr);
    EXPECT_EQ(catalogue.column(Entity::Print, u"bath_ph"), -1);
}

TEST_F(CatalogueTest, PrintFieldsStandInTheOrderOfTheStations)
{
    const auto& fields = catalogue.printFields();
    for (size_t i = 1; i < fields.size(); ++i)
        EXPECT_LE(fields[i - 1].station, fields[i].station) << narrow(fields[i]);
    for (const auto station : printStations) {
        for (const auto* field : catalogue.recordable(station)) {
            EXPECT_EQ(field->station, station);
            EXPECT_FALSE(field->derived());
        }
        EXPECT_FALSE(catalogue.recordable(station).empty()) << stationKey(station).toStdString();
    }
}

TEST_F(CatalogueTest, RecordedPrintFieldsCanBeReached)
{
    for (const auto& field : catalogue.printFields()) {
        ASSERT_NE(field.source.has_value(), field.derivation.has_value()) << narrow(field);
        if (!field.source)
            continue;
        Entity entity = Entity::Print;
        const auto follow = [&](const QStringList& links) {
            for (const auto& link : links) {
                ASSERT_GE(catalogue.column(entity, link), 0) << narrow(field) << " by " << link.toStdString();
                const auto& column = catalogue.columnField(entity, link);
                ASSERT_TRUE(column.target) << narrow(field) << " by " << link.toStdString();
                entity = *column.target;
            }
        };
        follow(field.source->via);
        if (const auto child = field.source->child) {
            ASSERT_EQ(entity, Entity::Print) << narrow(field) << ": rows belong to the print";
            ASSERT_TRUE(ownerOf(*child)) << narrow(field);
            EXPECT_EQ(ownerOf(*child)->entity, Entity::Print) << narrow(field);
            EXPECT_FALSE(field.source->match.empty()) << narrow(field) << ": which row?";
            for (const auto& [key, value] : field.source->match) {
                ASSERT_GE(catalogue.column(*child, key), 0) << narrow(field) << " by " << key.toStdString();
                const auto& column = catalogue.columnField(*child, key);
                if (column.kind == Kind::Choice)
                    EXPECT_GE(column.choiceIndex(std::get<QString>(value)), 0)
                        << narrow(field) << " by " << key.toStdString();
                else
                    EXPECT_TRUE(column.kind == Kind::Number && std::holds_alternative<double>(value)) << narrow(field);
            }
            entity = *child;
        }
        follow(field.source->after);
        ASSERT_GE(catalogue.column(entity, field.source->column), 0) << narrow(field);
        const auto& column = catalogue.columnField(entity, field.source->column);
        EXPECT_EQ(column.kind, field.kind) << narrow(field);
        EXPECT_EQ(column.unit, field.unit) << narrow(field);
        EXPECT_NE(field.kind, Kind::Link) << narrow(field) << ": links are followed, not shown";
    }
}

TEST_F(CatalogueTest, DerivedFieldsHaveWhatTheyAreWorkedOutFrom)
{
    std::function<void(const Field&, QStringList)> walk = [&](const Field& field, QStringList above) {
        ASSERT_FALSE(above.contains(field.key)) << "in a circle: " << above.join(QLatin1Char(' ')).toStdString();
        above << field.key;
        if (!field.derivation)
            return;
        for (const auto& input : field.derivation->inputs) {
            ASSERT_NE(catalogue.findPrintField(input), nullptr) << narrow(field) << " needs " << input.toStdString();
            walk(*catalogue.findPrintField(input), above);
        }
    };
    int derived = 0;
    for (const auto& field : catalogue.printFields()) {
        if (!field.derivation)
            continue;
        ++derived;
        walk(field, {});
        ASSERT_TRUE(field.derivation->compute) << narrow(field);
        EXPECT_FALSE(field.derivation->rows.empty() && field.derivation->inputs.isEmpty()) << narrow(field);
        for (const auto& table : field.derivation->rows) {
            EXPECT_FALSE(table.columns.isEmpty()) << narrow(field);
            for (const auto& column : table.columns)
                EXPECT_GE(catalogue.column(table.entity, column), 0)
                    << narrow(field) << " needs " << column.toStdString();
        }
    }
    EXPECT_GT(derived, 15);
}

TEST_F(CatalogueTest, NumbersHaveAUnitOrAreKnownToHaveNone)
{
    // Counts, pH (ISO 80000-9), densities and shares (quotients of equal quantities), CIE L*a*b* (ISO/CIE 11664-4).
    const std::set<std::string> without { "mix_ph", "paper_base_density", "cover_uva_transmittance", "step_number",
        "step_uv_density", "step_value", "ingredient_position", "formula_absorbance_365", "patch_position",
        "patch_density", "patch_red", "patch_green", "patch_blue", "sign_measure", "coat_passes", "expose_number",
        "expose_sky_share", "meter_exposure", "meter_number", "bath_position", "bath_ph", "reading_step",
        "reading_density", "reading_spread", "reading_lab_l", "reading_lab_a", "reading_lab_b", "formed", "net_density",
        "kept" };
    std::set<std::string> used;
    eachField([&](const Field& field) {
        const std::string key = (field.source ? field.source->column : field.key).toStdString();
        if (field.kind != Kind::Number) {
            EXPECT_TRUE(field.unit.isEmpty()) << narrow(field);
        } else if (field.unit.isEmpty()) {
            EXPECT_TRUE(without.contains(key)) << narrow(field) << " has no unit";
            used.insert(key);
        }
    });
    EXPECT_EQ(used, without) << "the list above names nothing that is not there";
}

TEST_F(CatalogueTest, TheUnitStandsAtTheEndOfTheKey)
{
    struct Suffix {
        const char* suffix;
        const char* unit;
    };
    const Suffix suffixes[] = { { "_ml_m2", "mL/m²" }, { "_g_m2", "g/m²" }, { "_w_m2", "W/m²" }, { "_j_cm2", "J/cm²" },
        { "_mol_l", "mol/L" }, { "_g_l", "g/L" }, { "_ml", "mL" }, { "_litres", "L" }, { "_mm", "mm" }, { "_cm", "cm" },
        { "_nm", "nm" }, { "_g", "g" }, { "_h", "h" }, { "_min", "min" }, { "_minutes", "min" }, { "_pct", "%" },
        { "_c", "°C" }, { "_deg", "°" }, { "_eighths", "eighths" }, { "_px", "px" }, { "_bytes", "bytes" },
        { "_m", "m" }, { "log_dose", "log10 J/cm²" } };
    eachField([&](const Field& field) {
        if (field.kind != Kind::Number)
            return;
        const auto* fits = std::find_if(std::begin(suffixes), std::end(suffixes),
            [&](const Suffix& suffix) { return field.key.endsWith(QLatin1String(suffix.suffix)); });
        EXPECT_EQ(field.unit, fits == std::end(suffixes) ? QString() : wide(fits->unit)) << narrow(field);
    });
}

TEST_F(CatalogueTest, RangesAndDecimalsMakeSense)
{
    eachField([](const Field& field) {
        ASSERT_EQ(field.low.has_value(), field.high.has_value()) << narrow(field);
        EXPECT_TRUE(!field.low || *field.low < *field.high) << narrow(field);
        EXPECT_TRUE(field.kind == Kind::Number || !field.low) << narrow(field);
        EXPECT_GE(field.decimals, 0) << narrow(field);
        EXPECT_LE(field.decimals, 6) << narrow(field);
    });
    for (const auto entity : allEntities())
        for (const auto& field : catalogue.columns(entity))
            EXPECT_EQ(field.kind == Kind::Number, field.low.has_value())
                << narrow(field) << ": a recorded number has a plausible range";
}

TEST_F(CatalogueTest, ChoicesTellApart)
{
    eachField([](const Field& field) {
        const bool choosing = field.kind == Kind::Choice || field.kind == Kind::ChoiceSet;
        EXPECT_EQ(choosing, !field.choices.empty()) << narrow(field);
        for (size_t i = 0; i < field.choices.size(); ++i) {
            const auto& choice = field.choices[i];
            EXPECT_TRUE(isKey(choice.key)) << narrow(field) << " " << choice.key.toStdString();
            EXPECT_FALSE(choice.label.isEmpty()) << narrow(field);
            EXPECT_FALSE(choice.label.contains(QLatin1Char(';'))) << narrow(field) << ": sets are joined by it";
            EXPECT_EQ(field.choiceIndex(choice.key), int(i)) << narrow(field);
            EXPECT_EQ(exactChoice(field, choice.key), int(i)) << narrow(field) << " " << choice.key.toStdString();
            EXPECT_EQ(exactChoice(field, choice.label.toUpper()), int(i))
                << narrow(field) << " " << choice.label.toStdString();
        }
    });
}

TEST_F(CatalogueTest, LinksAndNamesPointAtWhatIsThere)
{
    for (const auto entity : allEntities()) {
        int names = 0;
        for (const auto& field : catalogue.columns(entity)) {
            EXPECT_EQ(field.kind == Kind::Link, field.target.has_value()) << narrow(field);
            names += field.identity ? 1 : 0;
            EXPECT_TRUE(!field.target || catalogue.identity(*field.target))
                << narrow(field) << ": how would a file name it?";
            if (field.estimated_when) {
                const int other = catalogue.column(entity, field.estimated_when->first);
                ASSERT_GE(other, 0) << narrow(field);
                EXPECT_GE(catalogue.columns(entity)[size_t(other)].choiceIndex(field.estimated_when->second), 0)
                    << narrow(field);
            }
        }
        EXPECT_LE(names, 1) << entityKey(entity).toStdString();
    }
    EXPECT_EQ(catalogue.identity(Entity::Print)->key, wide("print_code"));
}

TEST_F(CatalogueTest, StationsAndKindsHaveNames)
{
    std::set<QString> keys;
    for (const auto station : printStations) {
        EXPECT_TRUE(isKey(stationKey(station)));
        EXPECT_FALSE(stationLabel(station).isEmpty());
        keys.insert(stationKey(station));
    }
    EXPECT_EQ(keys.size(), printStations.size());
    EXPECT_FALSE(kindKey(Kind::ChoiceSet).isEmpty());
}

TEST(Catalogue, AColumnBecomesAPrintFieldByItsRoutes)
{
    Catalogue catalogue;
    Route route;
    route.entity = Entity::Bath;
    route.key_from = wide("bath_");
    route.key_to = wide("bath2_");
    route.label_pattern = wide("Bath 2: %1");
    route.station = Station::Rinse;
    route.source.child = Entity::Bath;
    route.source.match = { { wide("bath_position"), 2.0 } };
    catalogue.addRoute(route);
    catalogue.add(numberField(Entity::Bath, "bath_ph", "pH", "", "Acid or not.").range(0, 14));
    catalogue.add(textField(Entity::Mix, "mix_code", "Mix", "No route leads here."));

    ASSERT_EQ(catalogue.printFields().size(), 1u);
    const auto& field = catalogue.printFields().front();
    EXPECT_EQ(field.key, wide("bath2_ph"));
    EXPECT_EQ(field.label, wide("Bath 2: pH"));
    EXPECT_EQ(field.station, Station::Rinse);
    EXPECT_EQ(field.source->column, wide("bath_ph"));
    EXPECT_EQ(field.high, 14.0);
    EXPECT_EQ(catalogue.columns(Entity::Mix).size(), 1u);
}

} // namespace WASHFAST_FILE
