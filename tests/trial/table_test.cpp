// Rows of one kind in memory.
#include "tests/support/small_notebook.h"

#include <cmath>

namespace WASHFAST_FILE {

using namespace washfast;
using test::at;

namespace {

QString wide(const char* text)
{
    return QString::fromUtf8(text);
}

class TableTest : public testing::Test {
protected:
    [[nodiscard]] int column(Entity entity, const char* key) const
    {
        const int ordinal = catalogue.column(entity, wide(key));
        EXPECT_GE(ordinal, 0) << key;
        return ordinal;
    }
    Record record(Entity entity, qint64 id, const std::vector<std::pair<const char*, Known>>& cells, qint64 owner = 0)
    {
        Record made { Ref(entity, id), owner, {}, {} };
        made.values.resize(catalogue.columns(entity).size());
        for (const auto& [key, value] : cells)
            made.values[size_t(column(entity, key))] = value;
        return made;
    }

    const Catalogue catalogue = standardCatalogue();
};

} // namespace

TEST_F(TableTest, ANewRowKnowsNothing)
{
    for (const auto entity : allEntities()) {
        Table table(catalogue, entity);
        EXPECT_EQ(table.rows(), 0);
        table.startRow(5, 2);
        ASSERT_EQ(table.rows(), 1);
        EXPECT_EQ(table.id(0), 5);
        EXPECT_EQ(table.owner(0), 2);
        for (int c = 0; c < int(catalogue.columns(entity).size()); ++c)
            EXPECT_FALSE(table.at(0, c).has()) << catalogue.columns(entity)[size_t(c)].key.toStdString();
    }
}

TEST_F(TableTest, EveryKindOfValueComesBack)
{
    Table table(catalogue, Entity::Print);
    const std::vector<std::pair<const char*, Known>> cells { { "coat_volume_ml", knownNumber(0.0) },
        { "dry_covered", Known { false } }, { "coat_start", Known { at("2026-05-04T10:15:00-03:30") } },
        { "coat_tool", Known { wide("rod") } }, { "print_outcome", Known { wide("pale; bled"), Evidence::Estimated } },
        { "print_notes", Known { wide("ø") } }, { "print_mix", Known { Link { 9 } } } };
    table.insert(record(Entity::Print, 1, cells));
    for (const auto& [key, value] : cells)
        EXPECT_EQ(table.at(0, column(Entity::Print, key)), value) << key;
    EXPECT_EQ(table.at(0, column(Entity::Print, "coat_start")).time()->offset_s, -3 * 3600 - 1800);
    EXPECT_EQ(table.link(0, column(Entity::Print, "print_mix")), 9);
    EXPECT_EQ(table.link(0, column(Entity::Print, "print_paper")), 0);
    for (const auto& [key, value] : cells) {
        table.set(0, column(Entity::Print, key), {});
        EXPECT_FALSE(table.at(0, column(Entity::Print, key)).has()) << key;
    }
}

TEST_F(TableTest, WhatSaysNothingIsUnknown)
{
    Table table(catalogue, Entity::Print);
    table.insert(record(Entity::Print, 1,
        { { "print_notes", Known { wide("") } }, { "print_outcome", Known { wide("") } },
            { "coat_volume_ml", knownNumber(std::nan("")) }, { "coat_tool", Known { wide("no such tool") } },
            { "coat_start", Known { Instant() } } }));
    for (const char* key : { "print_notes", "print_outcome", "coat_volume_ml", "coat_tool", "coat_start" })
        EXPECT_FALSE(table.at(0, column(Entity::Print, key)).has()) << key;
}

TEST_F(TableTest, IdsStayInOrderHoweverRowsCome)
{
    Table table(catalogue, Entity::Print);
    for (const qint64 id : { 7, 3, 11, 5 })
        table.insert(record(Entity::Print, id, { { "print_code", Known { QString::number(id) } } }));
    const std::vector<qint64> wanted { 3, 5, 7, 11 };
    ASSERT_EQ(table.rows(), 4);
    for (int row = 0; row < 4; ++row) {
        EXPECT_EQ(table.id(row), wanted[size_t(row)]);
        EXPECT_EQ(table.find(wanted[size_t(row)]), row);
        EXPECT_EQ(table.at(row, column(Entity::Print, "print_code")).text(), QString::number(table.id(row)));
    }
    EXPECT_EQ(table.find(4), -1);
    EXPECT_EQ(table.find(0), -1);
    EXPECT_EQ(table.find(12), -1);
    table.erase(1);
    EXPECT_EQ(table.find(5), -1);
    EXPECT_EQ(table.find(7), 1);
    EXPECT_EQ(table.at(1, column(Entity::Print, "print_code")).text(), wide("7"));
}

TEST_F(TableTest, ARecordComesBackWhole)
{
    Table table(catalogue, Entity::Bath);
    const auto given = record(Entity::Bath, 4,
        { { "bath_position", knownNumber(1) }, { "bath_minutes", knownNumber(5, Evidence::Assumed) },
            { "bath_water", Known { wide("rain") } } },
        2);
    table.insert(given);
    const auto back = table.record(0);
    EXPECT_EQ(back.ref, given.ref);
    EXPECT_EQ(back.owner, 2);
    ASSERT_EQ(back.values.size(), given.values.size());
    for (size_t i = 0; i < back.values.size(); ++i)
        if (given.values[i].has())
            EXPECT_EQ(back.values[i], given.values[i]) << i;
        else
            EXPECT_FALSE(back.values[i].has()) << i;
}

TEST_F(TableTest, EvidenceIsTheFieldsOwnUnlessSaidOtherwise)
{
    Table table(catalogue, Entity::Print);
    table.startRow(1, 0);
    const int volume = column(Entity::Print, "coat_volume_ml");
    const int outcome = column(Entity::Print, "print_outcome");
    for (const auto evidence : { Evidence::Estimated, Evidence::Assumed, Evidence::Measured }) {
        table.set(0, volume, knownNumber(1, evidence));
        EXPECT_EQ(table.at(0, volume).evidence, evidence);
        table.set(0, outcome, Known { wide("kept"), evidence }); // by eye by nature
        EXPECT_EQ(table.at(0, outcome).evidence, evidence);
    }
    table.startRow(2, 0);
    std::get<TextColumn>(table.writable(outcome))[1] = wide("pale"); // as the store reads in bulk
    EXPECT_EQ(table.at(1, outcome).evidence, Evidence::Estimated);
    table.setEvidence(2, outcome, Evidence::Assumed);
    EXPECT_EQ(table.at(1, outcome).evidence, Evidence::Assumed);
}

TEST_F(TableTest, EvidenceGoesWithItsRow)
{
    Table table(catalogue, Entity::Print);
    const int volume = column(Entity::Print, "coat_volume_ml");
    table.insert(record(Entity::Print, 1, { { "coat_volume_ml", knownNumber(1, Evidence::Assumed) } }));
    table.erase(0);
    table.startRow(1, 0); // the same id again
    std::get<NumberColumn>(table.writable(volume))[0] = 2.0;
    EXPECT_EQ(table.at(0, volume), knownNumber(2.0));
}

TEST_F(TableTest, AReadingByEyeIsAnEstimate)
{
    Table table(catalogue, Entity::Reading);
    const int density = column(Entity::Reading, "reading_density");
    const int method = column(Entity::Reading, "reading_method");
    table.insert(record(Entity::Reading, 1,
        { { "reading_density", knownNumber(0.8) }, { "reading_method", Known { wide("by_eye") } } }, 1));
    EXPECT_EQ(table.at(0, density).evidence, Evidence::Estimated);
    table.set(0, method, Known { wide("scan") });
    EXPECT_EQ(table.at(0, density).evidence, Evidence::Measured);
    table.setEvidence(1, density, Evidence::Assumed);
    EXPECT_EQ(table.at(0, density).evidence, Evidence::Assumed);
    table.set(0, method, Known { wide("by_eye") });
    EXPECT_EQ(table.at(0, density).evidence, Evidence::Assumed) << "what was said stays";
}

} // namespace WASHFAST_FILE
